//! Names that a procedure shares with one that it links to must mean the same in both.

use std::collections::BTreeMap;

use super::codes::LINK_NAME;
use super::take_in::Child;
use crate::formula::Type;
use crate::procedure::{CheckedProcedure, Name};
use crate::source::{Diagnostic, Span};

/// What the child shares by name and means something else in the procedure that links to it, at `link`.
pub(super) fn clashes(procedure: &CheckedProcedure, child: &Child<'_>, link: Span) -> Vec<Diagnostic> {
    let named = shared(child.procedure).filter(|name| procedure.place(name).is_some());
    differing(procedure, child, named).map(|name| with_own(procedure, child, link, name)).collect()
}

/// What linked procedures share by name, each with the first of them that declares it.
#[derive(Default)]
pub(super) struct Shared<'c> {
    first: BTreeMap<&'c Name, &'c CheckedProcedure>,
}

impl<'c> Shared<'c> {
    /// What the child shares by name with one before it and means differently.
    pub(super) fn clashes(&mut self, child: &Child<'c>, link: Span) -> Vec<Diagnostic> {
        let mut found = Vec::new();
        for name in shared(child.procedure) {
            let known = *self.first.entry(name).or_insert(child.procedure);
            let here = meaning(known, name);
            if !std::ptr::eq(known, child.procedure) && here != meaning(child.procedure, name) {
                let clash = clash(child, link, name).note(declared(known, name, &here));
                found.push(ending(child, name, clash));
            }
        }
        found
    }
}

fn shared(procedure: &CheckedProcedure) -> impl Iterator<Item = &Name> {
    procedure.roles().names().chain(procedure.vehicle().names())
}

fn differing<'c>(
    known: &CheckedProcedure,
    child: &Child<'c>,
    names: impl Iterator<Item = &'c Name>,
) -> impl Iterator<Item = &'c Name> {
    let child = child.procedure;
    names.filter(move |name| meaning(known, name) != meaning(child, name))
}

fn meaning(procedure: &CheckedProcedure, name: &Name) -> String {
    if procedure.roles().contains(name) {
        return "a role".to_owned();
    }
    match procedure.vehicle().get(name).map(|value| (value.unit.as_ref(), value.choices.as_slice())) {
        Some((Some(unit), _)) => format!("a vehicle value, {}", Type::of(unit)),
        Some((None, [])) => "a vehicle value in words".to_owned(),
        Some((None, choices)) => format!("a vehicle value, one of {}", choices.join(", ")),
        None => format!("something else: {}", procedure.what(name).unwrap_or_default()),
    }
}

fn with_own(procedure: &CheckedProcedure, child: &Child<'_>, link: Span, name: &Name) -> Diagnostic {
    let here = meaning(procedure, name);
    let diagnostic = clash(child, link, name);
    let diagnostic = match procedure.place(name).filter(|place| place.source == 0) {
        Some(place) => diagnostic.also(place.span, format!("here it is {here}")),
        None => diagnostic.note(declared(procedure, name, &here)),
    };
    ending(child, name, diagnostic)
}

fn clash(child: &Child<'_>, link: Span, name: &Name) -> Diagnostic {
    let headline = format!("`{name}` is one thing in `{}` and another elsewhere", child.address);
    Diagnostic::error(&LINK_NAME, headline).at(link, format!("runs `{}`", child.address))
}

fn ending(child: &Child<'_>, name: &Name, diagnostic: Diagnostic) -> Diagnostic {
    diagnostic
        .note(declared(child.procedure, name, &meaning(child.procedure, name)))
        .help("give one of them another name: roles and vehicle values are shared by name")
}

/// A sentence that says where in another text a name is declared.
fn declared(procedure: &CheckedProcedure, name: &Name, meaning: &str) -> String {
    let place = procedure.place(name);
    let text = place.and_then(|place| procedure.source(place.source)).unwrap_or(procedure.text());
    let line = text.position(place.map(|place| place.span.start).unwrap_or_default()).line;
    format!("`{}`, line {line}: `{name}` is {meaning}", text.name())
}
