//! `handed_on`: something of an earlier procedure of the same job.

use super::vehicle_codes::HANDED_ON_WRONG;
use crate::procedure::link::all_fields;
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, is_name};

/// Something of an earlier procedure of the same job: a result, a hold point that protects.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HandedOn {
    /// Its name there.
    pub name: String,
    /// The procedure, by its file's name without the ending.
    pub procedure: String,
}

all_fields! { HandedOn { name, procedure } }

impl HandedOn {
    /// Reads `drained in battery-drain-exhaust`.
    pub fn parse(text: &str) -> Option<Self> {
        let (name, procedure) = text.split_once(" in ").map(|(name, file)| (name.trim(), file.trim()))?;
        let is_sound = is_name(name) && !procedure.is_empty() && !procedure.contains(' ');
        is_sound.then(|| Self { name: name.to_owned(), procedure: procedure.to_owned() })
    }
}

impl std::fmt::Display for HandedOn {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(formatter, "{} in {}", self.name, self.procedure)
    }
}

/// The key `handed_on`; the example shows what is meant.
pub(super) fn handed_on(fields: &mut Fields<'_, '_, '_>, example: &str) -> Option<HandedOn> {
    let written = fields.text("handed_on")?;
    let read = HandedOn::parse(&written.value);
    if read.is_none() {
        nowhere(fields, &written, &format!("handed_on = \"{example}\""));
    }
    read
}

/// A hold point of an earlier procedure whose protection is ended.
pub(super) fn from_earlier(fields: &mut Fields<'_, '_, '_>, written: &Spanned<String>) -> Option<HandedOn> {
    let read = HandedOn::parse(&written.value);
    if read.is_none() {
        nowhere(fields, written, "ends = [\"support in raise-and-support\"]");
    }
    read
}

fn nowhere(fields: &mut Fields<'_, '_, '_>, written: &Spanned<String>, example: &str) {
    let headline = format!("{} speaks of nothing in an earlier procedure", fields.owner());
    let diagnostic = Diagnostic::error(&HANDED_ON_WRONG, headline).at(written.span, "no name in a procedure");
    let help = format!("write the name there and the procedure's file: `{example}`");
    fields.scribe.note(diagnostic.help(help));
}
