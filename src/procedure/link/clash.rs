//! Names that a procedure shares with one that it links to must mean the same in both.

use super::codes::LINK_NAME;
use super::take_in::Child;
use crate::formula::Type;
use crate::procedure::{CheckedProcedure, Name};
use crate::source::{Diagnostic, Span};

/// What is shared by name and means something else in the child; `link` is where the procedure links to it.
pub(super) fn clashes(procedure: &CheckedProcedure, child: &Child<'_>, link: Span) -> Vec<Diagnostic> {
    let shared = child.procedure.roles.names().chain(child.procedure.vehicle.names());
    let differ = shared.filter_map(|name| {
        procedure.place(name)?;
        let (here, there) = (meaning(procedure, name), meaning(child.procedure, name));
        (here != there).then(|| clash(procedure, child, link, name))
    });
    differ.collect()
}

fn meaning(procedure: &CheckedProcedure, name: &Name) -> String {
    if procedure.roles.contains(name) {
        return "a role".to_owned();
    }
    match procedure.vehicle.get(name).map(|value| value.unit.as_ref()) {
        Some(Some(unit)) => format!("a vehicle value, {}", Type::of(unit)),
        Some(None) => "a vehicle value in words".to_owned(),
        None => format!("something else: {}", procedure.what(name).unwrap_or_default()),
    }
}

fn clash(procedure: &CheckedProcedure, child: &Child<'_>, link: Span, name: &Name) -> Diagnostic {
    let (here, there) = (meaning(procedure, name), meaning(child.procedure, name));
    let headline = format!("`{name}` is one thing here and another in `{}`", child.address);
    let diagnostic = Diagnostic::error(&LINK_NAME, headline).at(link, format!("runs `{}`", child.address));
    let diagnostic = match procedure.place(name).filter(|place| place.source == 0) {
        Some(place) => diagnostic.also(place.span, format!("here it is {here}")),
        None => diagnostic.note(declared(procedure, name, &here)),
    };
    diagnostic
        .note(declared(child.procedure, name, &there))
        .help("give one of them another name: roles and vehicle values are shared by name")
}

/// A sentence that says where in another text a name is declared.
fn declared(procedure: &CheckedProcedure, name: &Name, meaning: &str) -> String {
    let place = procedure.place(name);
    let text = place.and_then(|place| procedure.source(place.source)).unwrap_or(procedure.text());
    let line = text.position(place.map(|place| place.span.start).unwrap_or_default()).line;
    format!("`{}`, line {line}: `{name}` is {meaning}", text.name())
}
