//! `[hazards]`: what it is, what it does, how it is avoided; nothing less warns anybody.

use super::codes::word_unknown;
use crate::procedure::check::Proved;
use crate::procedure::declarable::{Called, Declarable};
use crate::procedure::link::all_fields;
use crate::procedure::{Name, Signal};
use crate::table::Fields;

const WORDS: [&str; 4] = ["DANGER", "WARNING", "CAUTION", "NOTICE"];

/// A hazard: what it is, what it does, how it is avoided.
#[derive(Clone, Debug)]
pub struct Hazard {
    /// The signal word.
    pub signal: Signal,
    /// What the hazard is.
    pub hazard: String,
    /// What it does to a person or a thing.
    pub consequence: String,
    /// How it is avoided.
    pub avoid: String,
}

impl Declarable for Hazard {
    type Written = Self;
    const IN_FRONT: bool = true;
    const NONE_IS_SAID: bool = true;
    const UNMENTIONED: &'static str = "never shown";

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<Self> {
        hazard(fields)
    }

    fn checked(_name: &Name, written: &Self, _proved: &Proved<'_>) -> Option<Self> {
        Some(written.clone())
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.hazard)
    }
}

all_fields! { Hazard { signal, hazard, consequence, avoid } }

fn hazard(fields: &mut Fields<'_, '_, '_>) -> Option<Hazard> {
    let signal = signal(fields);
    let hazard = fields.need_text("hazard", "the vehicle can fall off the stands");
    let consequence = fields.need_text("consequence", "it crushes whoever lies under it");
    let avoid = fields.need_text("avoid", "four rated stands on hard level ground; never a jack alone");
    Some(Hazard {
        signal: signal?,
        hazard: hazard?.value,
        consequence: consequence?.value,
        avoid: avoid?.value,
    })
}

fn signal(fields: &mut Fields<'_, '_, '_>) -> Option<Signal> {
    let word = fields.need_text("signal", "WARNING")?;
    let signal = match word.value.as_str() {
        "DANGER" => Some(Signal::Danger),
        "WARNING" => Some(Signal::Warning),
        "CAUTION" => Some(Signal::Caution),
        "NOTICE" => Some(Signal::Notice),
        _ => None,
    };
    if signal.is_none() {
        fields.scribe.note(word_unknown("signal word", &word, &WORDS));
    }
    signal
}
