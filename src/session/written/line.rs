//! A line of the journal: what happened, and at which occurrence of the work.

use serde::{Deserialize, Serialize};

use super::{Unread, Written, unread};
use crate::procedure::SectionId;
use crate::run::{Address, Book, Event, Part, Turns};

/// What happened, and at which occurrence of the work.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WrittenLine {
    /// The step by its number, or a section: `4.3.2`, `section 4`; nothing for the run as a whole.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    at: Option<String>,
    /// In which turns, from the section down to the step; what is left out is the first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    turns: Vec<u32>,
    /// What happened.
    what: Written,
}

impl WrittenLine {
    /// An event that belongs to an occurrence.
    pub fn of(book: &Book, event: &Event, place: Option<&Address>) -> Self {
        let at = place.and_then(|place| match place.part {
            Part::Run => None,
            Part::Section(section) => Some(format!("section {}", book.section_number(section))),
            Part::Step(step) => book.procedure.step(step).map(|step| step.number.clone()),
        });
        let turns = place.map(|place| place.turns.written().to_vec()).unwrap_or_default();
        Self { at, turns, what: event.into() }
    }

    /// The live event and its address, or which part of it this version cannot read.
    pub fn read(self, book: &Book) -> Result<(Event, Option<Address>), Unread> {
        let part = self.at.as_ref().map(|at| part(book, at).ok_or_else(|| unread(at))).transpose()?;
        let place = part.map(|part| Address { part, turns: Turns::of(self.turns) });
        Ok((self.what.read()?, place))
    }

    /// What happened, whatever the work is.
    pub fn what(self) -> Written {
        self.what
    }
}

/// An event that belongs to an occurrence, as it stands in a line of the journal; empty where it cannot be written.
pub fn written_line(book: &Book, event: &Event, place: Option<&Address>) -> String {
    serde_json::to_string(&WrittenLine::of(book, event, place)).unwrap_or_default()
}

fn part(book: &Book, at: &str) -> Option<Part> {
    if let Some(step) = book.procedure.step_numbered(at) {
        return Some(Part::Step(step.id));
    }
    let number = at.strip_prefix("section ")?;
    let mut sections = (0..book.procedure.sections().len()).map(SectionId);
    sections.find(|section| book.section_number(*section) == number).map(Part::Section)
}
