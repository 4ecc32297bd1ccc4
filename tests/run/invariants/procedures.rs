//! Random procedures: a hold point at the beginning, sections of any kind under it, its end at the close.

use std::fmt::Write as _;

use bayhand::procedure::Step;
use proptest::prelude::*;

use super::super::drive::Drive;
use super::kinds::KINDS;

/// A section of a random procedure.
#[derive(Clone, Copy, Debug)]
pub struct Part {
    kind: usize,
    ordered: bool,
    conditional: bool,
}

impl Part {
    /// A section out of one byte: any kind in any shape.
    pub fn of(byte: u8) -> Self {
        let (kind, shape) = (usize::from(byte) % KINDS.len(), usize::from(byte) / KINDS.len());
        Self { kind, ordered: shape.is_multiple_of(2), conditional: shape > 3 }
    }
}

/// Sections of random kinds.
pub fn parts() -> impl Strategy<Value = Vec<Part>> {
    let part = (0..KINDS.len(), any::<bool>(), prop::bool::weighted(0.3));
    let part = part.prop_map(|(kind, ordered, conditional)| Part { kind, ordered, conditional });
    prop::collection::vec(part, 1..5)
}

/// What stands in every procedure, behind what the sections declare.
const FRAME: &str = r#"
[readings.first]
what = "first"
unit = "mm"
max = "200 mm"
[readings.rating]
what = "rating"
unit = "mm"
min = "20 mm"
[conditions.big]
if = "first > 100 mm"
[vehicle.torque]
what = "torque"
unit = "N·m"
find = "manual"
[tools.wrench]
what = "wrench"
calibrated = true
accuracy = "2 N·m"
range = ["10 N·m", "230 N·m"]
[levels]
routine = "reference"
[hazards.fall]
signal = "DANGER"
hazard = "Fall"
consequence = "It kills"
avoid = "Stands"
[holds.support]
what = "Support"
confirm = ["on stands", "pins locked"]
anew_after_retake = ["pins locked"]
readings = ["rating"]
release = "lead"
second = "helper"
lapses = ["resume", "disturbed", "people", "8 h"]
protection = "on stands"
[holds.down]
what = "Down"
confirm = ["clear"]
release = "lead"
ends = ["support"]
[roles]
lead = "leads"
helper = { what = "helps", checked_by = "lead" }
"#;

/// A run of the procedure that these sections make.
pub fn run(parts: &[Part]) -> Drive {
    let mut tables = String::new();
    let mut body = String::from("## Begin\n\n1. Measure [first].\n2. [fall] Check [support].\n\n");
    for (place, part) in parts.iter().enumerate() {
        let (own, steps) = section(place, *part);
        tables.push_str(&own);
        body.push_str(&steps);
    }
    tables.push_str(FRAME);
    body.push_str("## Close\n\n1. Lower it: [down].\n2. Tidy up.\n");
    Drive::of(&tables, &body)
}

/// What one section declares, and its text.
fn section(place: usize, part: Part) -> (String, String) {
    let kind = &KINDS[part.kind];
    let of_place = |text: &str| text.replace('@', &place.to_string());
    let mut body = String::new();
    let condition = if part.conditional { " [big]" } else { "" };
    let mark = if part.ordered { "1." } else { "-" };
    let _ = writeln!(body, "## Part @{condition} {}\n\n{}", kind.heading, kind.body.replace('~', mark));
    (of_place(kind.tables), of_place(&body))
}

/// Each kind in each shape.
pub fn shapes() -> impl Iterator<Item = Part> {
    let shapes = [(true, false), (false, false), (true, true)];
    (0..KINDS.len())
        .flat_map(move |kind| shapes.map(|(ordered, conditional)| Part { kind, ordered, conditional }))
}

/// What a step can have, and whether this one does. A new field does not compile until it stands here.
fn has(step: &Step) -> [(&'static str, bool); 22] {
    #[rustfmt::skip]
    let Step {
        id: _, number: _, section: _, before: _, text: _, passages: _, link: _, source: _, span: _,
        parent, who, conditions, hazards, hold, takes, computes, starts, needs, repeat, alternatives, fasteners, checks,
        witnesses, critical, watch_begins, watch_ends, dues, stopping_point, leaves, groups, names,
    } = step;
    [
        ("an outer step", parent.is_some()),
        ("a role", !who.is_empty()),
        ("a condition", !conditions.is_empty()),
        ("a hazard", !hazards.is_empty()),
        ("a hold point", hold.is_some()),
        ("a reading", !takes.is_empty()),
        ("a value", !computes.is_empty()),
        ("a wait that begins", !starts.is_empty()),
        ("a wait that ends", !needs.is_empty()),
        ("a repeat", repeat.is_some()),
        ("ways", alternatives.is_some()),
        ("fasteners", !fasteners.is_empty()),
        ("a check", !checks.is_empty()),
        ("a witness", !witnesses.is_empty()),
        ("a critical act", !critical.is_empty()),
        ("a limit that comes into force", !watch_begins.is_empty()),
        ("a limit that ends", !watch_ends.is_empty()),
        ("a due date", !dues.is_empty()),
        ("a place to rest", stopping_point.is_some()),
        ("a loose end", !leaves.is_empty()),
        ("parts", !groups.is_empty()),
        ("a name", !names.is_empty()),
    ]
}

#[test]
fn every_kind_of_step_is_among_them() {
    let drives: Vec<Drive> = shapes().map(|part| run(&[part])).collect();
    let steps: Vec<&Step> = drives.iter().flat_map(|drive| drive.book.procedure.steps()).collect();
    for (place, (what, _)) in has(steps[0]).into_iter().enumerate() {
        assert!(steps.iter().any(|step| has(step)[place].1), "no step has {what}");
    }
}
