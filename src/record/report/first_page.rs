//! The first page, for whoever owns the vehicle next: what was done, on what, what was measured, what was not as it should
//! be and what became of it, what is left to be done.

use super::trail::Trail;
use super::{left, measured, not_perfect, vehicle};
use crate::print::{Block, Section};
use crate::record::model::Record;

pub(super) fn sections(record: &Record, trail: &mut Trail) -> Vec<Section> {
    let mut sections = vec![Section::first("", vec![Block::Facts(facts(record, trail))])];
    sections.extend(left::not_finished(record, trail));
    sections.push(Section::first("What was done", vec![Block::Words(done(record, trail))]));
    sections.push(measured::section(record));
    sections.push(not_perfect::section(record, trail));
    sections.push(left::section(record, trail));
    sections
}

fn facts(record: &Record, trail: &mut Trail) -> Vec<(String, String)> {
    let (procedure, vehicle) = (&record.procedure, &record.vehicle);
    let names: Vec<String> =
        record.people.iter().map(|person| format!("{} ({})", person.name, person.role)).collect();
    let description = vehicle.description.as_deref().unwrap_or("no vehicle sheet");
    let mut facts: Vec<(&str, String)> = vec![
        ("Result", record.result.clone()),
        ("Deviations", record.deviations.count.to_string()),
        ("People", names.join(", ")),
        ("Vehicle", description.to_owned()),
    ];
    facts.extend(vehicle.identification.as_ref().map(|number| ("Identification", number.clone())));
    facts.extend(vehicle::odometer(record, trail).map(|odometer| ("Odometer", odometer)));
    let revision = format!("{}, revision {}, {}", procedure.id, procedure.revision, procedure.date);
    facts.push(("Procedure", revision));
    facts.push(("Began", trail.full(&record.began, "begun")));
    let closed = record.closed.as_ref().map(|closed| trail.full(closed, "closed"));
    facts.push(("Closed", closed.unwrap_or_else(|| "not closed".to_owned())));
    facts.push(("Run", record.run.clone()));
    facts.extend(
        record
            .clock
            .iter()
            .map(|jump| ("CLOCK", format!("{} ({})", jump.words, trail.full(&jump.when, "clock")))),
    );
    facts.into_iter().map(|(name, words)| (name.to_owned(), words)).collect()
}

/// How much was done, counted.
fn done(record: &Record, trail: &Trail) -> String {
    let usual = trail.usual().map(|who| format!(" Where nobody is named below, it was {who}; #8 is entry 8, and all entries stand at the end with their times."));
    let mut states: Vec<(&str, usize)> = Vec::new();
    for step in record.steps.iter().filter(|step| step.place.aside.is_none()) {
        match states.iter_mut().find(|(state, _)| *state == step.state) {
            Some((_, count)) => *count += 1,
            None => states.push((&step.state, 1)),
        }
    }
    let steps: Vec<String> = states.iter().map(|(state, count)| format!("{count} {state}")).collect();
    let sittings = match record.sittings.len() {
        1 => "1 sitting".to_owned(),
        many => format!("{many} sittings"),
    };
    let released: usize = record
        .holds
        .iter()
        .flat_map(|hold| &hold.verifications)
        .filter(|one| !one.released.is_empty())
        .count();
    format!(
        "{}, in {sittings}. Steps: {}. Hold points released: {released}.{}",
        record.procedure.title.trim_end_matches('.'),
        if steps.is_empty() { "none".to_owned() } else { steps.join(", ") },
        usual.unwrap_or_default(),
    )
}
