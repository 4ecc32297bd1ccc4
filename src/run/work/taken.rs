//! How something was entered, given or put off.

use crate::procedure::{Name, SectionId, StepId};
use crate::run::answered::Answered;
use crate::run::book::Book;
use crate::run::stamp::Stamp;

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
        let hold = || book.step_of_hold(&Name::from(text));
        if let Some(step) = step.or_else(hold) {
            return Some(Self::Step(step.id));
        }
        let number = text.strip_prefix("section ")?.trim();
        let sections = 0..book.procedure.sections().len();
        sections.map(SectionId).find(|section| book.section_number(*section) == number).map(Self::EndOf)
    }
}
