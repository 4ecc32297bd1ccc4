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

/// A vehicle without such fasteners says 0, where a condition can leave their step out.
#[test]
fn a_count_of_none_is_sound_only_where_the_step_may_not_apply() {
    let tables = "[vehicle.bolts]\nwhat = \"bolts\"\nunit = \"1\"\nfind = \"manual\"\n[conditions.any]\nif = 'bolts > 0'\n\
[fasteners.cover]\nwhat = \"cover\"\ncount = 'bolts'\nstages = [\"by hand\"]\n";
    let sheet = |count: &str| {
        let values = format!("[values.bolts]\nvalue = \"{count}\"\nsource = \"manual\"\n");
        let head = "format = 1\nvehicle = \"the green one\"\nidentification = \"EXAMPLE-1\"\nodometer_unit = \"km\"\n";
        read(&SourceText::new("green.toml", format!("{head}{values}"))).value.unwrap()
    };
    for (front, count, sound) in
        [("[any] ", "0", true), ("[any] ", "6", true), ("[any] ", "2.5", false), ("", "0", false)]
    {
        let tables = if front.is_empty() {
            tables.replace("[conditions.any]\nif = 'bolts > 0'\n", "")
        } else {
            tables.to_owned()
        };
        let procedure = super::support::sound(&super::support::file(
            &tables,
            &format!("# Cover\n\n1. {front}Tighten [cover].\n"),
        ));
        let found = bayhand::procedure::check_sheet(&procedure, &sheet(count));
        assert_eq!(found.is_empty(), sound, "{front}{count}: {found:?}");
    }
}
