//! A vehicle sheet held against a procedure: what it lacks, and what does not fit.

use super::sheet_limits::{SHEET_LIMITS, limits};
use super::{CheckedProcedure, Name, VehicleValue};
use crate::formula::Type;
use crate::quantity::Unit;
use crate::source::suggest::nearest;
use crate::source::{Code, Diagnostic};
use crate::vehicle::{Sheet, SheetValue};

/// All codes of a sheet beside a procedure, sorted by name.
pub static SHEET_CODES: &[&Code] =
    &[&SHEET_LIMITS, &SHEET_VALUE_CHOICE, &SHEET_VALUE_MISSING, &SHEET_VALUE_UNIT];

/// A word that is none of the choices.
pub static SHEET_VALUE_CHOICE: Code = Code {
    name: "sheet-value-choice",
    summary: "a value of the vehicle sheet is none of those that the procedure knows",
    teaching: "\
Where a procedure lists the words that a value can be, its steps and limits are made for these. The sheet gives
one of them, letter for letter. A vehicle that is none of them is not what the procedure is for.

Wrong: `value = \"automatic\"` where the procedure has `choices = [\"four gears\", \"six gears\"]`

Right: `value = \"six gears\"`
",
};

/// A value the sheet does not have.
pub static SHEET_VALUE_MISSING: Code = Code {
    name: "sheet-value-missing",
    summary: "the vehicle sheet lacks a value that the procedure needs",
    teaching: "\
A procedure says what must be known of the vehicle and where a person finds it. The sheet gives the value and the
page it was found on. bayhand never fills in a value of its own.

Wrong: a sheet without `[values.flow_min]` for a procedure with `[vehicle.flow_min]`

Right: `[values.flow_min]` with `value = \"2.0 L/min\"` and `source = \"workshop manual, page 7-33\"`
",
};

/// A value in the wrong unit.
pub static SHEET_VALUE_UNIT: Code = Code {
    name: "sheet-value-unit",
    summary: "a value of the vehicle sheet is not of the kind that the procedure needs",
    teaching: "\
The procedure names a unit; the sheet may use any unit of the same kind, but it must write one.

Wrong: `value = \"2.0\"` or `value = \"2.0 L\"` where a flow is needed

Right: `value = \"2.0 L/min\"`
",
};

/// Says what of a vehicle sheet does not do for a procedure. Every span points into the sheet's text.
pub fn check_sheet(procedure: &CheckedProcedure, sheet: &Sheet) -> Vec<Diagnostic> {
    let mut found: Vec<Diagnostic> = Vec::new();
    for (name, wanted) in procedure.vehicle().iter() {
        match sheet.value(name.as_str()) {
            // It is asked for: nobody gives it, or an earlier procedure does, or there is something usual.
            None if is_asked_for(name, wanted, sheet) => {}
            None => found.push(missing(name, wanted, sheet)),
            Some(value) => found.extend(misfit(name, wanted, value).or_else(|| none_of(name, wanted, value))),
        }
    }
    // What does not fit by itself would only be said again.
    if found.iter().all(|found| found.code.name == SHEET_VALUE_MISSING.name) {
        found.extend(limits(procedure, sheet));
    }
    found.sort_by_key(Diagnostic::place);
    found
}

fn is_asked_for(name: &Name, wanted: &VehicleValue, sheet: &Sheet) -> bool {
    wanted.usual.is_some() || wanted.handed_on.is_some() || sheet.is_not_given(name.as_str())
}

fn missing(name: &Name, wanted: &VehicleValue, sheet: &Sheet) -> Diagnostic {
    let headline = format!("the sheet of this vehicle does not say `{name}`: {}", wanted.what);
    let diagnostic = Diagnostic::error(&SHEET_VALUE_MISSING, headline);
    let diagnostic = diagnostic.at(sheet.place(), format!("no `[values.{name}]` for this vehicle"));
    let example = wanted.unit.as_ref().map_or_else(|| "...".to_owned(), |unit| format!("... {unit}"));
    let help = format!(
        "add `[values.{name}]` with `value = \"{example}\"` and `source = \"...\"`, the page it is on"
    );
    diagnostic.note(format!("find it here: {}", wanted.find)).help(help)
}

fn misfit(name: &Name, wanted: &VehicleValue, value: &SheetValue) -> Option<Diagnostic> {
    let unit = wanted.unit.as_ref()?;
    let found = value.quantity.as_ref().map(|quantity| quantity.unit.clone());
    if found.as_ref().is_some_and(|found| fits(found, unit)) {
        return None;
    }
    let label =
        found.map_or("not a number with a unit".to_owned(), |found| format!("this is {}", Type::of(&found)));
    let headline = format!("`{name}` is {}, measured in {unit}", wanted.what);
    let diagnostic = Diagnostic::error(&SHEET_VALUE_UNIT, headline).at(value.span, label);
    let diagnostic = diagnostic.note(format!("find it here: {}", wanted.find));
    Some(
        diagnostic
            .help(format!("write a number and a unit for {}, for example `... {unit}`", Type::of(unit))),
    )
}

fn none_of(name: &Name, wanted: &VehicleValue, value: &SheetValue) -> Option<Diagnostic> {
    let choices = &wanted.choices;
    if choices.is_empty() || choices.contains(&value.text) {
        return None;
    }
    let headline = format!("`{name}` is {}, and not one of those that the procedure knows", wanted.what);
    let diagnostic = Diagnostic::error(&SHEET_VALUE_CHOICE, headline).at(value.span, "none of the choices");
    let diagnostic = diagnostic.note(format!("find it here: {}", wanted.find));
    let one = format!("write one of {}", choices.join(", "));
    Some(match nearest(&value.text, choices.iter().map(String::as_str)) {
        Some(near) => diagnostic
            .help(format!("{one}; did you mean \"{near}\"?"))
            .replace(value.span, format!("\"{near}\"")),
        None => {
            diagnostic.help(format!("{one}; a vehicle that is none of them is not what the procedure is for"))
        }
    })
}

fn fits(found: &Unit, wanted: &Unit) -> bool {
    Type::of(found) == Type::of(wanted)
}
