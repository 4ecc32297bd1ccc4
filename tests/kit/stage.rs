//! A job of two procedures whose names and amounts are made to go wrong.

use crate::session::stage::Stage;

const HEAD: &str = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-25\nauthor = \"a tester\"\nscope = \"any\"\n\
level_of_use = \"continuous\"\nrequired = [\"the floor, \\\"swept\\\", is dry\"]\nclose_up = \"none\"\nhazards = \"none\"\n\
[roles]\nlead = \"works\"\nhelper = \"watches\"\n";

/// Names that some form could take for something else.
pub const HOSTILE: [&str; 6] = [
    "rule, 6\" long, \"steel\"",
    "cup | jug || can",
    "<b>bold</b> &amp; *starred* _under_ `code` [name](address) # 1. ~~no~~ ![x](y)",
    "=1+1",
    "@sum(a1)",
    "a back\\slash",
];

/// The job `two.md`, its procedures `drain.md` and `fill.md`, and the sheet.
pub fn stage() -> Stage {
    let stage = Stage::bare();
    let job = "+++\nformat = 1\njob = \"it leaks\"\n[procedures.fill]\naway = \"1 wk\"\ntwo = \"75 min\"\nalone = \"2 h\"\n\
[procedures.drain]\ntwo = \"50 min\"\n+++\n# Leak\n\n1. [Drain it](drain.md)\n2. [Fill it](fill.md)\n";
    stage.file("two.md", job);
    let named = HOSTILE.iter().enumerate();
    let tools: Vec<String> =
        named.map(|(place, what)| format!("tool{place} = {}", toml::Value::from(*what))).collect();
    let tools = tools.join("\n");
    let mentions: Vec<String> = (0..HOSTILE.len()).map(|place| format!("[tool{place}]")).collect();
    let mentions = mentions.join(" ");
    let drain = format!(
        "{HEAD}[tools]\n{tools}\n[tools.jug]\nwhat = \"jug\"\naccuracy = \"0.02 L\"\nrange = [\"0 L\", \"2 L\"]\ncalibrated = true\n\
[materials]\ncloths = \"cloths\"\n[materials.oil]\nwhat = \"fresh oil\"\namount = '1 L'\npack = '1 qt'\nprice = '14.50 money'\nlead_time = \"3 d\"\n\
[parts]\nwasher = {{ what = \"washer\", amount = 2, price = 0.5 }}\n\
[readings.drained]\nwhat = \"drained\"\nunit = \"L\"\ninformation_only = true\nwhy = \"the filling needs it\"\ninstrument = \"jug\"\n\
[waits.drips]\nwhat = \"it drips off\"\nat_least = \"10 min\"\n+++\n# Drain\n\n\
1. [lead] [helper] Drain it: [drained]. {mentions} Now it runs: [drips].\n2. Look when [drips] is over, with [cloths], [oil], [washer].\n"
    );
    stage.file("drain.md", &drain);
    let fill = format!(
        "{HEAD}[tools]\njug = \"jug\"\n[materials]\ncloths = \"cloths\"\n[materials.oil]\nwhat = \"fresh oil\"\namount = '2 qt'\n\
[materials.grease]\nwhat = \"grease\"\namount = 'fill * 0.1'\n[parts]\nwasher = {{ what = \"washer\", amount = 3, lead_time = \"2 wk\" }}\n\
[vehicle.fill]\nwhat = \"what it takes\"\nunit = \"L\"\nfind = \"manual\"\n+++\n# Fill\n\n\
1. [helper] Fill it with the [jug]: [oil], [grease], [cloths], [washer], [fill].\n"
    );
    stage.file("fill.md", &fill);
    let sheet = "format = 1\nvehicle = \"an invented one\"\nidentification = \"EXAMPLE\"\nodometer_unit = \"km\"\n\
[values.fill]\nvalue = \"3 L\"\nsource = \"invented\"\n";
    stage.file("sheet.toml", sheet);
    stage
}

/// What `bayhand kit two.md` says in a form; without a sheet where none is given.
pub fn kit(stage: &Stage, arguments: &[&str]) -> String {
    let ended = stage.bayhand(&[&["kit", "two.md"], arguments].concat());
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{arguments:?}");
    ended.out
}
