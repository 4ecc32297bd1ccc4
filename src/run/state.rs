//! What is known of a run: only facts from events. Everything else is worked out from them.

use std::collections::{BTreeMap, BTreeSet};

use super::book::Book;
use super::event::{Answered, Disposition, Leave, Stamp, Start};
use super::fastening::{FastenerFacts, Spot};
use super::interruption::Declared;
use super::people_facts::PeopleFacts;
use super::repeats::Moved;
use super::rounds::{Begins, Rounds};
use super::statements::Interruption;
use super::taking::Takings;
use super::times::Times;
use crate::procedure::{Name, SectionId, StepId};
use crate::quantity::Entry;

/// Everything that has happened so far, arranged for use.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct State {
    /// How it began.
    pub start: Option<(Start, Stamp)>,
    /// Who fills which role.
    pub people: BTreeMap<Name, String>,
    /// Who had which role when, who looked at what.
    pub people_facts: PeopleFacts,
    /// The odometer at the start.
    pub odometer: Option<Entry>,
    /// Vehicle values that the sheet did not give.
    pub vehicle: BTreeMap<Name, Given>,
    /// Hazards acknowledged in this sitting.
    pub acknowledged: BTreeMap<(StepId, Name), u64>,
    /// Hold points that somebody has begun to verify.
    pub holds: BTreeMap<Name, Verification>,
    /// Every attempt at a reading, in order.
    pub readings: BTreeMap<Name, Vec<Taken>>,
    /// Readings that are to be taken again.
    pub again: BTreeSet<Name>,
    /// Results that are gone on with although they fail: the attempt they hold for, and the deviation.
    pub accepted: BTreeMap<Name, Acceptance>,
    /// Waits that lasted too long and were accepted.
    pub late: BTreeMap<(StepId, Name), u64>,
    /// Steps that somebody said are done.
    pub done: BTreeMap<StepId, u64>,
    /// Steps of which nothing is left to do, since when.
    pub completed: BTreeMap<StepId, Stamp>,
    /// When something of a step was finished last, in whatever pass.
    pub finished: BTreeMap<StepId, u64>,
    /// Steps that were complete and are not any more.
    pub reopened: BTreeSet<StepId>,
    /// Steps that do not apply, by a person's word.
    pub not_applicable: BTreeMap<StepId, (String, u64)>,
    /// Steps put off.
    pub deferred: BTreeMap<StepId, Deferral>,
    /// Passes of repeats.
    pub repeats: BTreeMap<Name, Rounds>,
    /// What was begun anew by a person's word.
    pub moved: Vec<Moved>,
    /// From where on facts about steps and readings count; worked out after each entry.
    pub begins: Begins,
    /// Sections called complete.
    pub sections: BTreeMap<SectionId, Stamp>,
    /// Sections whose work is done, and is to be confirmed.
    pub performed: BTreeMap<SectionId, Stamp>,
    /// Which way was chosen, for a step whose parts are ways.
    pub chosen: BTreeMap<StepId, (StepId, u64)>,
    /// Waits that were missed, where the procedure has a path for that.
    pub missed: BTreeMap<Name, Stamp>,
    /// What was said before, between and after the work.
    pub interruption: Interruption,
    /// The step picked among those that may come in any order.
    pub picked: Option<StepId>,
    /// What was done at each group of fasteners.
    pub fasteners: BTreeMap<Name, FastenerFacts>,
    /// Departures, numbered from 1 by their place.
    pub deviations: Vec<Deviation>,
    /// How readings were taken.
    pub taking: Takings,
    /// Remarks.
    pub notes: Vec<(Stamp, String)>,
    /// Where this sitting stands.
    pub sitting: Sitting,
    /// How the earlier sitting ended, if by a person's word.
    pub left: Option<Left>,
    /// When it was closed.
    pub closed: Option<Stamp>,
    /// What the times of the entries say.
    pub times: Times,
    /// The newest event.
    pub last: Option<Stamp>,
}

/// Where a sitting stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Sitting {
    /// Work goes on.
    #[default]
    Working,
    /// The run was taken up again, the brief not yet accepted.
    Briefing,
    /// Suspended or stopped.
    Resting,
}

/// How and why a sitting ended.
#[derive(Clone, Debug, PartialEq)]
pub struct Left {
    /// Planned or not.
    pub how: Leave,
    /// Why.
    pub reason: String,
    /// The state that things were left in.
    pub state: String,
    /// What comes first next time, where somebody said so.
    pub first: Option<String>,
    /// When.
    pub stamp: Stamp,
}

/// A vehicle value from somewhere else than the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Given {
    /// The value.
    pub value: Answered,
    /// Where it was found.
    pub source: String,
    /// When it was entered.
    pub stamp: Stamp,
}

/// How far a hold point is verified.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Verification {
    /// Statements confirmed since it was last opened, by their place.
    pub confirmed: BTreeMap<usize, Stamp>,
    /// Statements found untrue since it was last opened, and how it is instead.
    pub contradicted: BTreeMap<usize, String>,
    /// Its readings taken since it was last opened.
    pub read: BTreeSet<Name>,
    /// Who has released it since it was last opened.
    pub signed: BTreeMap<Name, Stamp>,
    /// When it was last wholly released; stays when it lapses.
    pub released: Option<Stamp>,
    /// Why it must be verified again, since its last release.
    pub lapsed: Option<String>,
}

/// How a reading came about.
#[derive(Clone, Debug, PartialEq)]
pub enum Origin {
    /// Read and entered.
    Measured,
    /// An earlier entry was wrong, for this reason.
    Correction(String),
}

/// One attempt at a reading.
#[derive(Clone, Debug, PartialEq)]
pub struct Taken {
    /// The answer.
    pub value: Answered,
    /// How it came about.
    pub origin: Origin,
    /// When.
    pub stamp: Stamp,
    /// The entry in whose place it stands: its own, or that of the first entry that it corrects.
    pub place: u64,
}

/// A failing result that is gone on with.
#[derive(Clone, Debug, PartialEq)]
pub struct Acceptance {
    /// The deviation that records it, from 0.
    pub deviation: usize,
    /// What it rests on, with the number of entries of each: one more, and it no longer holds.
    pub rests_on: Vec<(Name, usize)>,
}

/// A step put off.
#[derive(Clone, Debug, PartialEq)]
pub struct Deferral {
    /// Where it comes back.
    pub before: Before,
    /// Why.
    pub reason: String,
    /// When.
    pub stamp: Stamp,
}

/// Where a step that was put off comes back, at the latest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Before {
    /// Just before this step.
    Step(StepId),
    /// When everything else of this section is done.
    EndOf(SectionId),
}

impl Before {
    /// As a person says it: `step 3.1`, `the end of section 3`.
    pub fn words(self, book: &Book) -> String {
        match self {
            Self::Step(step) => {
                format!("step {}", book.procedure.step(step).map_or("", |step| &step.number))
            }
            Self::EndOf(section) => format!("the end of section {}", book.section_number(section)),
        }
    }

    /// The point that a person names: the number of a step, the name of a hold point, or `section 3`.
    pub fn named(book: &Book, text: &str) -> Option<Self> {
        let text = text.trim();
        let step = book.procedure.step_numbered(text);
        let hold = || book.step_of_hold(&Name(text.to_owned()));
        if let Some(step) = step.or_else(hold) {
            return Some(Self::Step(step.id));
        }
        let number = text.strip_prefix("section ")?.trim();
        let sections = 0..book.procedure.sections().len();
        sections.map(SectionId).find(|section| book.section_number(*section) == number).map(Self::EndOf)
    }
}

/// What a deviation departs from.
#[derive(Clone, Debug, PartialEq)]
pub enum Departure {
    /// A reading or a value outside its limits, or not to be judged.
    Result(Name),
    /// A step left out.
    NotApplicable(StepId),
    /// A wait that lasted too long.
    Late(StepId, Name),
    /// A repeat given up, or gone on with beyond what is allowed.
    Repeat(Name),
    /// A vehicle that the procedure is not for.
    Scope,
    /// What a person says, at a step where there was one.
    Declared(Option<StepId>, Declared),
    /// A check that was one person's own.
    Reinspected(StepId, Name),
    /// Two readings that differ.
    Differs(Name),
    /// An instrument used although its calibration is overdue.
    Overdue(Name),
    /// A fastener left out, from this stage on.
    FastenerLeftOut(Spot),
    /// A fastener that is not as the stage wants it.
    FastenerOff(Spot),
}

/// A departure from the procedure.
#[derive(Clone, Debug, PartialEq)]
pub struct Deviation {
    /// From what.
    pub departure: Departure,
    /// Why.
    pub reason: String,
    /// When.
    pub stamp: Stamp,
    /// What was decided, and why.
    pub disposition: Option<(Disposition, String)>,
}

impl State {
    /// The newest attempt at a reading in its present pass, also when it is to be taken again.
    pub fn latest(&self, reading: &Name) -> Option<&Taken> {
        let begin = self.begins.of_name(reading);
        self.newest(reading, |place| place > begin)
    }

    /// The newest attempt at a reading among those whose place is in a window.
    pub fn newest(&self, reading: &Name, is_in: impl Fn(u64) -> bool) -> Option<&Taken> {
        self.readings.get(reading)?.iter().rev().find(|taken| is_in(taken.place))
    }

    /// How many attempts at a reading there were.
    pub fn attempts(&self, reading: &Name) -> usize {
        self.readings.get(reading).map_or(0, Vec::len)
    }

    /// The deviations without a disposition, by their place.
    pub fn undisposed(&self) -> impl Iterator<Item = (usize, &Deviation)> {
        self.deviations.iter().enumerate().filter(|(_, deviation)| deviation.disposition.is_none())
    }
}
