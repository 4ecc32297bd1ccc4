//! Groups of fasteners: a grid of places and stages, and below it what there is more to say of a place.

use super::readings::{instrument, used_words};
use super::said::{address, amount, aside, converted, people, typed};
use super::table;
use super::trail::Trail;
use super::verdict::{self, bound};
use crate::print::{Block, Grid, Row, Section};
use crate::record::model::{
    FastenerAct, FastenerGroup, FastenerPlace, FastenerStage, Record, UsedInstrument,
};

pub(super) fn section(record: &Record, trail: &mut Trail) -> Option<Section> {
    let places = record.fasteners.iter().flat_map(|group| &group.stages).flat_map(|stage| &stage.places);
    let is_judged = places.flat_map(|place| &place.acts).any(|act| act.judged.is_some());
    let mut all: Vec<Block> = is_judged.then(verdict::rule).into_iter().collect();
    all.extend(record.fasteners.iter().flat_map(|group| blocks(group, trail)));
    (!record.fasteners.is_empty()).then(|| Section::rest("Fasteners", all))
}

fn blocks(group: &FastenerGroup, trail: &mut Trail) -> Vec<Block> {
    let heading =
        format!("{} {} [{}]: {}", address(&group.step, &group.place), group.what, group.name, group.state);
    let mut items: Vec<String> =
        aside(&group.place).into_iter().chain(group.instrument.as_ref().map(instrument)).collect();
    if !group.order.is_empty() {
        items.push(format!("order: {}", group.order.join(", ")));
    }
    let stages: Vec<String> = group.stages.iter().map(|stage| stage_words(group, stage, trail)).collect();
    items.extend(stages);
    let usual = simple_by(group);
    let told = usual.as_ref().filter(|who| trail.usual().as_ref() != Some(*who));
    items.extend(told.map(|who| format!("where nobody is named: by {who}")));
    for loosened in &group.loosened {
        let which = loosened.position.as_deref().unwrap_or("all");
        let entry = trail.cite(&loosened.when, format!("[{}] loosened", group.name));
        items.push(format!("loosened again: {which}: {} ({entry})", loosened.reason));
    }
    let mut blocks = vec![Block::Heading(heading.clone()), Block::Items(items)];
    if !group.stages.is_empty() {
        blocks.push(Block::Grid(grid(group, &heading, usual.as_deref(), trail)));
    }
    let rows = acts(group, trail);
    if !rows.is_empty() {
        let caption = format!("What was done at each place: {}", group.what);
        blocks.push(table(&caption, &["Place, stage", "What", "Reached", "Verdict", "Entry"], rows));
    }
    blocks
}

/// What a stage tightens to, and when it was begun.
fn stage_words(group: &FastenerGroup, stage: &FastenerStage, trail: &mut Trail) -> String {
    let mut said = Vec::new();
    if let Some(target) = &stage.target {
        said.extend(target.amount.as_ref().map(|target| format!("target {}", amount(target))));
        said.extend(target.trace.clone());
        said.extend(target.lower.as_ref().map(|limit| bound(limit, "at least", "above")));
        said.extend(target.upper.as_ref().map(|limit| bound(limit, "at most", "below")));
    }
    // Where a stage has nothing to bring it to, no tool was set.
    let begun = if stage.target.is_some() { "begun, tool set" } else { "begun" };
    let moments: Vec<String> = stage
        .begun
        .iter()
        .map(|moment| trail.cite(moment, format!("[{}] {}", group.name, stage.what)))
        .collect();
    if !moments.is_empty() {
        said.push(format!("{begun}: {}", moments.join(", ")));
    }
    let acts = stage.places.iter().flat_map(|place| &place.acts);
    let mut used: Vec<&UsedInstrument> = acts.filter_map(|act| act.instrument.as_ref()).collect();
    used.dedup();
    said.extend(used.into_iter().map(|used| format!("with {}", used_words(used))));
    if said.is_empty() {
        format!("stage: {}", stage.what)
    } else {
        format!("stage: {}: {}", stage.what, said.join("; "))
    }
}

/// A place of which there is no more to say than who and when.
fn simple(place: &FastenerPlace) -> Option<&FastenerAct> {
    match &place.acts[..] {
        [only] if only.what == place.state && only.reached.is_none() && only.reason.is_none() => Some(only),
        _ => None,
    }
}

/// Who did all that needs no more words, where it was always the same.
fn simple_by(group: &FastenerGroup) -> Option<String> {
    let places = group.stages.iter().flat_map(|stage| &stage.places);
    let mut who = places.filter_map(simple).map(|act| &act.who);
    let first = who.next()?;
    who.all(|other| other == first).then(|| people(first))
}

fn grid(group: &FastenerGroup, heading: &str, usual: Option<&str>, trail: &mut Trail) -> Grid {
    let mut rows = Vec::new();
    for position in places(group) {
        let mut cells = Vec::new();
        for stage in &group.stages {
            let place = stage.places.iter().find(|place| place.position == position);
            cells.push(place.map(|place| cell(group, place, usual, trail)).unwrap_or_default());
        }
        rows.push((position, cells));
    }
    Grid {
        caption: heading.to_owned(),
        corner: "Place".to_owned(),
        columns: group.stages.iter().map(|stage| stage.what.clone()).collect(),
        rows,
    }
}

fn places(group: &FastenerGroup) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for place in group.stages.iter().flat_map(|stage| &stage.places) {
        if !names.contains(&place.position) {
            names.push(place.position.clone());
        }
    }
    names
}

/// The state, the last value reached, the entry: `DONE, 10 N·m, entry 24`.
fn cell(group: &FastenerGroup, place: &FastenerPlace, usual: Option<&str>, trail: &mut Trail) -> String {
    let mut said = vec![place.state.to_uppercase()];
    if let Some(only) = simple(place) {
        said.push(trail.cite(&only.when, format!("[{}] {}", group.name, place.position)));
        said.extend(usual.is_none().then(|| people(&only.who)));
    } else if let Some(last) = place.acts.iter().rev().find_map(|act| act.reached.as_ref()) {
        said.push(amount(&last.typed));
    }
    said.join(", ")
}

/// Every act at the places of which there is more to say.
fn acts(group: &FastenerGroup, trail: &mut Trail) -> Vec<Row> {
    let mut rows = Vec::new();
    for stage in &group.stages {
        for place in stage.places.iter().filter(|place| simple(place).is_none()) {
            let at = format!("{}, {}", place.position, stage.what);
            rows.extend(place.acts.iter().map(|act| act_row(group, &at, stage, act, trail)));
        }
    }
    rows
}

fn act_row(
    group: &FastenerGroup,
    at: &str,
    stage: &FastenerStage,
    act: &FastenerAct,
    trail: &mut Trail,
) -> Row {
    let deviation = act.deviation.map(|number| format!(", deviation {number}")).unwrap_or_default();
    let reason = act.reason.as_ref().map(|reason| format!(": {reason}")).unwrap_or_default();
    let entry = trail.by(&act.when, format!("[{}] {at}", group.name), &act.who);
    let mut notes: Vec<String> = act.reached.as_ref().and_then(converted).into_iter().collect();
    if let Some(judged) = &act.judged {
        // The limits stand with the stage, unless they have moved since.
        let target = stage.target.as_ref();
        let same = target.is_some_and(|target| target.lower == judged.lower && target.upper == judged.upper);
        let limits = if same { verdict::limits(judged).len() } else { 0 };
        notes.extend(verdict::notes(judged).into_iter().skip(limits));
    }
    Row {
        at: at.to_owned(),
        what: format!("{}{deviation}{reason}", act.what),
        cells: vec![
            act.reached.as_ref().map(|reached| format!("reached {}", typed(reached))).unwrap_or_default(),
            act.judged.as_ref().map(verdict::words).unwrap_or_default(),
            entry,
        ],
        notes,
        ..Row::default()
    }
}
