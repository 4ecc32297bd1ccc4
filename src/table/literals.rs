//! Units, quantities and the version of the format, as they stand in front matter and in vehicle sheets.

use toml::de::DeValue;

use super::Fields;
use super::codes::{FORMAT_VERSION, QUANTITY_UNREADABLE};
use crate::formula::codes::UNIT_UNKNOWN;
use crate::quantity::{Quantity, Unit, parse_literal, parse_typed};
use crate::source::{Diagnostic, Spanned};

/// The unit under `key`.
pub fn unit(fields: &mut Fields<'_, '_, '_>, key: &'static str) -> Option<Spanned<Unit>> {
    let text = fields.text(key)?;
    // The unit of a plain number is one.
    if text.value == "1" {
        return Some(Spanned::new(Unit::one(), text.span));
    }
    match Unit::parse(&text.value) {
        Ok(unit) => Some(Spanned::new(unit, text.span)),
        Err(unknown) => {
            let diagnostic =
                Diagnostic::error(&UNIT_UNKNOWN, format!("`{}` is not a known unit", text.value));
            let diagnostic = diagnostic.at(text.span, "not in the table of units");
            fields.scribe.note(match unknown.did_you_mean {
                Some(near) => diagnostic
                    .help(format!("did you mean `{near}`?"))
                    .replace(text.span, format!("\"{near}\"")),
                None => diagnostic.help("write a unit such as `°C`, `kPa`, `L/min`, `N·m`, `in`"),
            });
            None
        }
    }
}

/// A quantity with its unit.
pub fn quantity(fields: &mut Fields<'_, '_, '_>, text: &Spanned<String>) -> Option<Spanned<Quantity>> {
    match parse_literal(&text.value) {
        Ok(quantity) => Some(Spanned::new(quantity, text.span)),
        Err(problem) => {
            let headline = format!("`{}` is not a quantity", text.value);
            let diagnostic =
                Diagnostic::error(&QUANTITY_UNREADABLE, headline).at(text.span, problem.to_string());
            fields.scribe.note(diagnostic.help("write a number and its unit: `2.5 L`, `3/16 in`, `30 min`"));
            None
        }
    }
}

/// The quantity under `key`, which may be left out.
pub fn optional_quantity(fields: &mut Fields<'_, '_, '_>, key: &'static str) -> Option<Spanned<Quantity>> {
    let text = fields.text(key)?;
    quantity(fields, &text)
}

/// The time under `key`: not negative, in a unit of time.
pub fn duration(fields: &mut Fields<'_, '_, '_>, key: &'static str) -> Option<Spanned<Quantity>> {
    let text = fields.text(key)?;
    time(fields, &text)
}

/// A time: not negative, at most ten years, in a unit of time.
pub fn time(fields: &mut Fields<'_, '_, '_>, text: &Spanned<String>) -> Option<Spanned<Quantity>> {
    /// Ten years, in seconds: no work waits longer, and every clock can still count to it.
    const LONGEST: f64 = 10.0 * 366.0 * 86_400.0;
    let found = match in_parts(&text.value) {
        Some(time) => Spanned::new(time, text.span),
        None => quantity(fields, text)?,
    };
    let seconds = found.value.base().to_f64();
    let is_time = found.value.unit.dimension() == crate::quantity::Dimension::TIME;
    let label = match is_time {
        true if seconds > LONGEST => "more than ten years",
        true if seconds < 0.0 => "less than no time",
        true => return Some(found),
        false => "a time is expected here",
    };
    let headline = format!("`{}` is not a time", text.value);
    let diagnostic = Diagnostic::error(&QUANTITY_UNREADABLE, headline).at(text.span, label);
    fields.scribe.note(diagnostic.help("write a time such as `30 s`, `10 min` or `8 h`"));
    None
}

/// A time in two parts, as people say it: `1 h 15 min`.
fn in_parts(text: &str) -> Option<Quantity> {
    let is_plain = text.chars().all(|char| char.is_ascii_alphanumeric() || char == ' ' || char == '.');
    let time = parse_typed(text).ok().filter(|_| is_plain && parse_literal(text).is_err())?;
    (time.unit.dimension() == crate::quantity::Dimension::TIME).then_some(time)
}

/// `format = 1`: the version of the format itself.
pub fn format(front: &mut Fields<'_, '_, '_>) {
    let Some(item) = front.item("format") else {
        front.missing("format", "1");
        return;
    };
    if !matches!(item.value, DeValue::Integer(number) if number.to_string() == "1") {
        let diagnostic =
            Diagnostic::error(&FORMAT_VERSION, "the file is written in a format that is not known");
        let diagnostic = diagnostic.at(item.span, "only format 1 is known here");
        front.scribe.note(diagnostic.help("write `format = 1`, or read the file with a newer bayhand"));
    }
}
