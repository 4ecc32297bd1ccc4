//! `[dues]`: what falls due after the job, by distance, by the calendar, or by whichever comes first.

use super::due_codes::DUE_UNCLEAR;
use crate::formula::Typed;
use crate::procedure::Name;
use crate::procedure::check::{Proved, Prover, Wanted};
use crate::procedure::declarable::{Called, Declarable};
use crate::procedure::link::all_fields;
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, Wording};

/// A due, its formulas still texts.
#[derive(Clone, Debug)]
pub struct WrittenDue {
    what: String,
    distance: Option<Wording>,
    odometer: Option<Wording>,
    months: Option<Wording>,
    days: Option<Wording>,
    gone: Option<Wording>,
}

/// Something that falls due once a step is done.
#[derive(Clone, Debug)]
pub struct Due {
    /// What is to be done then.
    pub what: String,
    /// After which distance.
    pub distance: Option<Typed>,
    /// The odometer from which that counts.
    pub odometer: Option<Typed>,
    /// After how many months of the calendar.
    pub months: Option<Typed>,
    /// After how many days.
    pub days: Option<Typed>,
    /// How much time is gone since the day it is reckoned from when the step is done.
    pub gone: Option<Typed>,
}

/// The most months and days that are counted: a hundred years.
const MOST_MONTHS: usize = 1200;
const MOST_DAYS: usize = 36_525;

impl Declarable for Due {
    type Written = WrittenDue;
    const UNMENTIONED: &'static str = "no step sets it";

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenDue> {
        due(fields)
    }

    fn prove(name: &Spanned<Name>, written: &WrittenDue, prover: &mut Prover<'_>) {
        let lengths = [("distance", &written.distance), ("odometer", &written.odometer)];
        for (key, wording) in lengths.into_iter().filter_map(|(key, wording)| Some((key, wording.as_ref()?)))
        {
            prover.keep(name, key, wording, Wanted::Length);
        }
        if let Some(months) = &written.months {
            prover.keep_count(name, "months", months, MOST_MONTHS);
        }
        if let Some(days) = &written.days {
            prover.keep_count(name, "days", days, MOST_DAYS);
        }
        if let Some(gone) = &written.gone {
            prover.keep(name, "gone", gone, Wanted::Time);
        }
    }

    fn checked(name: &Name, written: &WrittenDue, proved: &Proved<'_>) -> Option<Self> {
        let typed = |key| proved.typed(name, key);
        Some(Self {
            what: written.what.clone(),
            distance: typed("distance"),
            odometer: typed("odometer"),
            months: typed("months"),
            days: typed("days"),
            gone: typed("gone"),
        })
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

all_fields! { Due { what, distance, odometer, months, days, gone } }

impl Due {
    /// All its formulas.
    pub fn formulas(&self) -> impl Iterator<Item = &Typed> {
        let all = [&self.distance, &self.odometer, &self.months, &self.days, &self.gone];
        all.into_iter().flatten()
    }
}

fn due(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenDue> {
    let what = fields.need_text("what", "renew the filter in the line");
    let (distance, odometer) = (fields.formula("distance"), fields.formula("odometer"));
    let (months, days, gone) = (fields.formula("months"), fields.formula("days"), fields.formula("gone"));
    let wrong = match () {
        () if distance.is_none() && months.is_none() && days.is_none() => Some("after what?"),
        () if distance.is_some() != odometer.is_some() => Some("a distance, and the odometer it counts from"),
        () => None,
    };
    if let Some(wrong) = wrong {
        let headline = format!("{} does not say when it is due", fields.owner());
        let diagnostic = Diagnostic::error(&DUE_UNCLEAR, headline).at(fields.place(), wrong);
        let help = "write `months = 12`, or `distance = '500 km'` with `odometer = 'odo_end'`";
        fields.scribe.note(diagnostic.help(help));
        return None;
    }
    Some(WrittenDue { what: what?.value, distance, odometer, months, days, gone })
}
