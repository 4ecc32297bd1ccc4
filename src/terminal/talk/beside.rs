//! What stands beside a question and is no part of the run: the units that a person prefers, what was read the last time.

use std::collections::BTreeMap;

use crate::procedure::Name;
use crate::quantity::Preferred;
use crate::terminal::{Line, Text};

/// What stands beside the questions.
#[derive(Clone, Debug, Default)]
pub struct Beside {
    /// The units that stand beside those that are asked for.
    pub units: Preferred,
    /// The last closed run of the same procedure on the same vehicle.
    pub earlier: Option<Earlier>,
}

/// What an earlier run has left, as it is told beside the same question.
#[derive(Clone, Debug, Default)]
pub struct Earlier {
    /// Which run, when it was closed, at which odometer.
    pub run: String,
    /// What the odometer showed.
    pub odometer: Option<String>,
    /// What each reading came to; of one that was adjusted, what was left.
    pub readings: BTreeMap<Name, String>,
}

impl Beside {
    /// What a reading came to the last time.
    pub(super) fn last_time(&self, name: &Name) -> Text {
        let known = self.earlier.as_ref().and_then(|earlier| Some((earlier.readings.get(name)?, earlier)));
        told(known)
    }

    /// What the odometer showed the last time.
    pub(super) fn last_odometer(&self) -> Text {
        let known = self.earlier.as_ref().and_then(|earlier| Some((earlier.odometer.as_ref()?, earlier)));
        told(known)
    }
}

fn told(known: Option<(&String, &Earlier)>) -> Text {
    known.map_or_else(Text::new, |(value, earlier)| {
        Line::plain(format!("Last time: {value} ({}).", earlier.run)).hang(2).into()
    })
}
