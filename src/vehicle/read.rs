//! A vehicle sheet read from its text, with everything there is to say about it.

use std::cell::OnceCell;
use std::collections::BTreeMap;

use toml::de::DeValue;

use super::codes::ODOMETER_UNIT;
use super::{Sheet, SheetValue};
use crate::quantity::{Unit, parse_literal};
use crate::source::{Diagnostic, Found, Severity, SourceText, Span, Spanned};
use crate::table::{Fields, Item, Scribe, badly_formed, format, is_name, parse};

/// Whether a TOML text is meant as a vehicle sheet: above its first table stands what vehicle it is of.
pub fn is_sheet(text: &str) -> bool {
    let top = text.lines().take_while(|line| !line.trim_start().starts_with('['));
    top.filter_map(|line| line.split_once('=')).any(|(key, _)| key.trim() == "vehicle")
}

/// Reads a vehicle sheet. The sheet comes out only when nothing is wrong with it; everything there is to say
/// about it comes out in any case.
///
/// ```
/// use bayhand::source::SourceText;
///
/// let text = r#"
/// format = 1
/// vehicle = "the green one"
/// identification = "EXAMPLE-1"
/// odometer_unit = "km"
/// values.flow_min = { value = "2.0 L/min", source = "workshop manual, page 7-33" }
/// "#;
/// let sheet = bayhand::vehicle::read(&SourceText::new("green.toml", text)).value.unwrap();
/// assert_eq!(sheet.value("flow_min").unwrap().source, "workshop manual, page 7-33");
/// ```
pub fn read(text: &SourceText) -> Found<Option<Sheet>> {
    let mut scribe = Scribe::new(text.text(), 0);
    let mended = OnceCell::new();
    let sheet = parse(&mut scribe, &mended).and_then(|table| {
        let mut fields = Fields::new(&table, "the vehicle sheet", Span::new(0, 0), &mut scribe).whole();
        let sheet = sheet(&mut fields, text);
        fields.finish();
        sheet
    });
    let mut diagnostics = scribe.diagnostics;
    diagnostics.sort_by_key(Diagnostic::place);
    let sound = diagnostics.iter().all(|diagnostic| diagnostic.severity != Severity::Error);
    Found { value: sheet.filter(|_| sound), diagnostics }
}

fn sheet(fields: &mut Fields<'_, '_, '_>, text: &SourceText) -> Option<Sheet> {
    format(fields);
    let vehicle = fields.need_text("vehicle", "the green one, automatic");
    let identification = fields.need_text("identification", "the number on its plate");
    let odometer_unit = odometer_unit(fields);
    let values = values(fields);
    let vehicle = vehicle?;
    // Somebody looked for it and did not find it: the procedure says what to do then.
    let (not_given, values): (BTreeMap<_, _>, BTreeMap<_, _>) =
        values.into_iter().partition(|(_, value)| value.text.trim() == NOT_GIVEN);
    Some(Sheet {
        text: text.clone(),
        place: vehicle.span,
        vehicle: vehicle.value,
        identification: identification?.value,
        odometer_unit: odometer_unit?,
        values,
        not_given: not_given.into_keys().collect(),
    })
}

fn odometer_unit(fields: &mut Fields<'_, '_, '_>) -> Option<Unit> {
    let word = fields.need_text("odometer_unit", "km")?;
    if !matches!(word.value.as_str(), "km" | "mi") {
        let headline = format!("an odometer does not count `{}`", word.value);
        let diagnostic = Diagnostic::error(&ODOMETER_UNIT, headline).at(word.span, "neither `km` nor `mi`");
        fields.scribe.note(diagnostic.help("write `odometer_unit = \"km\"` or `odometer_unit = \"mi\"`"));
        return None;
    }
    Unit::parse(&word.value).ok()
}

fn values(fields: &mut Fields<'_, '_, '_>) -> BTreeMap<String, SheetValue> {
    let Some(item) = fields.item("values") else {
        return BTreeMap::new();
    };
    let DeValue::Table(table) = item.value else {
        fields.wrong_type("values", item, "a table `[values.name]` for each value");
        return BTreeMap::new();
    };
    let rest = Fields::new(table, "values", item.key, fields.scribe).rest();
    let one =
        |(name, item): (Spanned<String>, Item<'_>)| Some((name.value.clone(), value(fields, &name, item)?));
    rest.into_iter().filter_map(one).collect()
}

/// What stands in place of a value that no source gives.
const NOT_GIVEN: &str = "not given";

fn value(sheet: &mut Fields<'_, '_, '_>, name: &Spanned<String>, item: Item<'_>) -> Option<SheetValue> {
    if !is_name(&name.value) {
        sheet.scribe.note(badly_formed(name));
        return None;
    }
    let DeValue::Table(table) = item.value else {
        sheet.wrong_type(
            &name.value,
            item,
            "`{ value = \"2.0 L/min\", source = \"workshop manual, page 7-33\" }`",
        );
        return None;
    };
    let mut fields = Fields::new(table, format!("the value `{}`", name.value), name.span, sheet.scribe);
    let value = fields.need_text("value", "2.0 L/min");
    let source = fields.need_text("source", "workshop manual, page 7-33");
    fields.finish();
    let value = value?;
    let source = source?;
    Some(SheetValue {
        quantity: parse_literal(&value.value).ok(),
        text: value.value,
        source: source.value,
        span: value.span,
    })
}
