//! `[critical]`.

use std::collections::BTreeSet;

use super::codes::CRITICAL_UNCLEAR;
use crate::formula::Typed;
use crate::procedure::Name;
use crate::procedure::check::{Proved, Prover, Wanted};
use crate::procedure::declarable::{Called, Declarable};
use crate::procedure::link::{Rename, Renaming, all_fields};
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, Wording};

/// A critical act, its formula still a text.
#[derive(Clone, Debug)]
pub struct WrittenCritical {
    /// What cannot be undone.
    pub what: String,
    /// What is typed before it.
    pub typed: WrittenTyped,
}

/// What a person types before a critical act.
#[derive(Clone, Debug)]
pub enum WrittenTyped {
    /// These words.
    Words(String),
    /// What this comes to.
    Value(Wording),
}

/// An act that cannot be undone.
#[derive(Clone, Debug)]
pub struct Critical {
    /// What cannot be undone.
    pub what: String,
    /// What is typed before it.
    pub typing: Typing,
}

/// What a person types before a critical act.
#[derive(Clone, Debug)]
pub enum Typing {
    /// These words.
    Words(String),
    /// What this comes to.
    Value(Typed),
}

impl Declarable for Critical {
    type Written = WrittenCritical;
    const IN_FRONT: bool = true;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenCritical> {
        critical(fields)
    }

    fn prove(name: &Spanned<Name>, written: &WrittenCritical, prover: &mut Prover<'_>) {
        if let WrittenTyped::Value(wording) = &written.typed {
            prover.keep(name, "value", wording, Wanted::Amount);
        }
    }

    fn checked(name: &Name, written: &WrittenCritical, proved: &Proved<'_>) -> Option<Self> {
        let typing = match &written.typed {
            WrittenTyped::Words(words) => Typing::Words(words.clone()),
            WrittenTyped::Value(_) => Typing::Value(proved.typed(name, "value")?),
        };
        Some(Self { what: written.what.clone(), typing })
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

all_fields! { Critical { what, typing } }

impl Rename for Typing {
    fn renamed(&self, to: &Renaming) -> Self {
        match self {
            Self::Words(words) => Self::Words(words.clone()),
            Self::Value(value) => Self::Value(value.renamed(to)),
        }
    }
}

fn critical(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenCritical> {
    let what = fields.need_text("what", "the shaft is cut: there is no way back");
    let words = fields.item("type").is_some();
    let value = fields.item("value").is_some();
    let typed = match (words, value) {
        (true, false) => fields.text("type").and_then(|words| telling(fields, words)),
        (false, true) => fields.formula("value").map(WrittenTyped::Value),
        _ => {
            let headline = format!("{} needs exactly one of `type` and `value`", fields.owner());
            let diagnostic =
                Diagnostic::error(&CRITICAL_UNCLEAR, headline).at(fields.place(), "typed before it?");
            fields.scribe.note(diagnostic.help("write `type = \"cut\"`, or `value = 'cut_length'`"));
            None
        }
    };
    Some(WrittenCritical { what: what?.value, typed: typed? })
}

/// Words that no key held down types.
fn telling(fields: &mut Fields<'_, '_, '_>, words: Spanned<String>) -> Option<WrittenTyped> {
    let letters: BTreeSet<char> =
        words.value.to_lowercase().chars().filter(|letter| !letter.is_whitespace()).collect();
    if letters.len() > 1 {
        return Some(WrittenTyped::Words(words.value));
    }
    let headline = format!("{} could be passed by a key held down", fields.owner());
    let diagnostic = Diagnostic::error(&CRITICAL_UNCLEAR, headline).at(words.span, "one letter only");
    fields.scribe.note(diagnostic.help("write a word or two, such as `type = \"cut\"`"));
    None
}
