//! A job of one procedure after which something falls due.

use crate::session::stage::Stage;

const SERVE: &str = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-25\nauthor = \"a tester\"\nscope = \"any\"\nlevel_of_use = \"continuous\"\n\
tools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\nrequired = \"none\"\nclose_up = \"none\"\nhazards = \"none\"\n[roles]\nlead = \"works\"\n\
[readings.odo]\nwhat = \"odometer\"\nunit = \"km\"\ninformation_only = true\n\
[dues.next_oil]\nwhat = \"the next oil\"\nmonths = 1\ndistance = '500 km'\nodometer = 'odo'\n\
[dues.filter]\nwhat = \"the filter\"\ndistance = '1000 km'\nodometer = 'odo'\n+++\n# Serve\n\n\
1. Read it: [odo].\n2. Write on the card: [next_oil], [filter].\n";

/// The job and its files.
pub fn stage() -> Stage {
    let stage = Stage::bare();
    stage.file(
        "service.md",
        "+++\nformat = 1\njob = \"the oil is old\"\n+++\n# Service\n\n1. [Serve it](serve.md)\n",
    );
    stage.file("serve.md", SERVE);
    stage.file(
        "serve.toml",
        "format = 1\nclock = \"2027-01-31T09:00:00+00:00\"\npace = \"5 min\"\nanswers = [\n\
{ at = \"lead\", enter = \"Robin Vale\" },\n{ at = \"scope\", do = \"true\" },\n{ at = \"odo\", enter = \"152000 km\" },\n\
{ at = \"1.2\", do = \"done\" },\n{ at = \"close\", do = \"close\" },\n]\n",
    );
    stage.file("whole.toml", "format = 1\n[[runs]]\nprocedure = \"serve\"\nanswers = \"serve.toml\"\n");
    stage.file(
        "sheet.toml",
        "format = 1\nvehicle = \"an invented one\"\nidentification = \"EXAMPLE\"\nodometer_unit = \"km\"\n",
    );
    stage
}

/// The same, done.
pub fn walked() -> Stage {
    let stage = stage();
    let ended = stage.bayhand(&["run", "service.md", "--vehicle", "sheet.toml", "--answers", "whole.toml"]);
    assert_eq!(ended.code, Some(0), "{}\n{}", ended.out, ended.err);
    stage
}
