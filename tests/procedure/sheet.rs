//! Vehicle sheets.

use bayhand::source::SourceText;
use bayhand::vehicle::read;

const SHEET: &str = "\
format = 1
vehicle = \"the green one\"
identification = \"EXAMPLE-1\"
odometer_unit = \"mi\"
[values.flow_min]
value = \"2.0 L/min\"
source = \"workshop manual, page 7-33\"
[values.fluid_spec]
value = \"TB-4\"
source = \"owner's handbook, fluids\"
";

#[test]
fn a_value_keeps_its_words_its_quantity_and_its_source() {
    let sheet = read(&SourceText::new("green.toml", SHEET)).value.unwrap();
    let flow = sheet.value("flow_min").unwrap();
    assert_eq!((flow.text.as_str(), flow.source.as_str()), ("2.0 L/min", "workshop manual, page 7-33"));
    assert_eq!(flow.quantity.as_ref().unwrap().unit.symbol(), "L/min");
    assert_eq!(sheet.text().slice(flow.span), "\"2.0 L/min\"");
    assert!(sheet.value("fluid_spec").unwrap().quantity.is_none());
    assert_eq!((sheet.vehicle(), sheet.identification()), ("the green one", "EXAMPLE-1"));
    assert_eq!(sheet.odometer_unit().symbol(), "mi");
}

#[test]
fn a_value_without_its_source_is_refused() {
    let text = SHEET.replace("source = \"owner's handbook, fluids\"\n", "");
    let found = read(&SourceText::new("green.toml", text));
    assert!(found.value.is_none());
    assert_eq!(found.diagnostics[0].message, "the value `fluid_spec` does not say `source`");
}
