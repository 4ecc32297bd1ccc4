//! A small procedure that is run again and again on invented vehicles, with other readings each time.

use crate::run::drive::titled;
use crate::session::stage::Stage;

const TABLES: &str = r#"[tools.feelers]
what = "feeler gauges"
accuracy = "0.05 mm"
[tools.wrench]
what = "torque wrench"
accuracy = "4 %"
calibrated = true
[repeats.side]
what = "both sides"
each = ["left", "right"]
[readings.gap]
what = "gap"
unit = "mm"
max = "0.5 mm"
instrument = "feelers"
fails = "Set it."
[readings.level]
what = "level below the edge"
unit = "mm"
information_only = true
[readings.oil]
what = "look of the oil"
choices = ["clear", "dark"]
information_only = true
[values.uneven]
what = "difference of the sides"
formula = 'spread(gap)'
unit = "mm"
information_only = true
[fasteners.flange]
what = "flange bolts"
positions = ["1", "2"]
stages = [{ what = "full", torque = "50 N·m", within = "4 %", read = true }]
instrument = "wrench"
"#;

const BODY: &str = "1. [side] Read the gap at the [side]: [gap]. \n2. Work out the difference: [uneven].\n\
3. Read the level [level] and look at the oil [oil].\n4. Tighten the [flange].\n";

/// What is read in a run.
pub struct Read {
    pub gaps: [&'static str; 2],
    pub level: &'static str,
    pub oil: &'static str,
    pub bolts: [&'static str; 2],
}

/// What is read where a test does not care.
pub const USUAL: Read =
    Read { gaps: ["0.30 mm", "0.20 mm"], level: "12 mm", oil: "clear", bolts: ["50 N·m", "51 N·m"] };

/// A folder with the procedure, and sheets of two vehicles: `one.toml` and `other.toml`.
pub fn stage() -> Stage {
    let stage = Stage::bare();
    stage.file("gap.md", &titled("Gap and flange", TABLES, BODY));
    stage.file("one.toml", &sheet("the green one", "EXAMPLE-1"));
    stage.file("other.toml", &sheet("the blue one", "EXAMPLE-2"));
    stage
}

pub fn sheet(vehicle: &str, identification: &str) -> String {
    format!(
        "format = 1\nvehicle = \"{vehicle}\"\nidentification = \"{identification}\"\nodometer_unit = \"km\"\n"
    )
}

/// A closed run of a day: `2026-10-12`. Its name is that day and the procedure's.
pub fn ran(stage: &Stage, (day, odometer, sheet): (&str, &str, &str), read: &Read) {
    let Read { gaps: [left, right], level, oil, bolts: [first, second] } = read;
    let answers = format!(
        "format = 1\nclock = \"{day}T18:00:00+00:00\"\npace = \"30 s\"\nanswers = [\n{{ at = \"lead\", enter = \"Robin Vale\" }},\n\
{{ at = \"odometer\", enter = \"{odometer}\" }},\n{{ at = \"scope\", do = \"true\" }},\n{{ at = \"gap\", enter = \"{left}\" }},\n\
{{ at = \"gap\", enter = \"{right}\" }},\n{{ at = \"1.2\", do = \"done\" }},\n{{ at = \"level\", enter = \"{level}\" }},\n\
{{ at = \"oil\", enter = \"{oil}\" }},\n{{ at = \"wrench\", enter = \"TW-1\", due = \"2027-03-31\" }},\n\
{{ at = \"flange full 1\", enter = \"{first}\" }},\n\
{{ at = \"flange full 2\", enter = \"{second}\" }},\n{{ at = \"close\", do = \"close\" }},\n]\n"
    );
    stage.file("answers.toml", &answers);
    let ended = stage.bayhand(&["run", "gap.md", "--vehicle", sheet, "--answers", "answers.toml"]);
    assert_eq!(ended.code, Some(0), "{}\n{}", ended.out, ended.err);
}
