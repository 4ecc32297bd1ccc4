//! A checked procedure with others taken into it.

use std::collections::BTreeMap;

use super::parts::{Body, Parts, moved, moved_group, parts};
use super::rename::{Rename, Renaming};
use crate::procedure::check::{number, show_numbers};
use crate::procedure::{CheckedProcedure, Header, LevelOfUse, Link, Linked, Name, Place, Step, StepId};

/// A checked procedure that a step runs.
pub(super) struct Child<'c> {
    /// The step that links to it.
    pub(super) step: StepId,
    /// Where it was found.
    pub(super) address: &'c str,
    /// With what it links to itself.
    pub(super) procedure: &'c CheckedProcedure,
}

/// The procedure with all of these taken in.
pub(super) fn take_in(mut procedure: CheckedProcedure, children: &[Child<'_>]) -> CheckedProcedure {
    let mut insertions = Vec::new();
    // Of each text its address and its place; of each name how often it is taken in.
    let (mut known, mut uses) = (BTreeMap::new(), BTreeMap::new());
    for child in children {
        let id = prefix(&mut uses, child.procedure.id());
        let shared = shared(child.procedure);
        let (body, level) = join(&mut procedure, &mut known, child, &Renaming { prefix: id.clone(), shared });
        let link = Link { title: child.procedure.title.clone(), id, source: body.source };
        insertions.push(Insertion { at: child.step, link, parts: parts(body), level });
    }
    insert(&mut procedure, insertions);
    procedure.index = std::sync::OnceLock::new();
    procedure
}

/// `flush`, and `flush#2` where one of that name is run again.
fn prefix<'c>(uses: &mut BTreeMap<&'c str, usize>, id: &'c str) -> String {
    let uses = uses.entry(id).or_default();
    *uses += 1;
    if *uses == 1 { id.to_owned() } else { format!("{id}#{uses}") }
}

fn shared(procedure: &CheckedProcedure) -> std::collections::BTreeSet<Name> {
    procedure.roles().names().chain(procedure.vehicle().names()).cloned().collect()
}

/// Adds what the child declares; gives its body, ready for its new place, and how strictly it is followed.
fn join(
    procedure: &mut CheckedProcedure,
    known: &mut BTreeMap<String, usize>,
    child: &Child<'_>,
    to: &Renaming,
) -> (Body, LevelOfUse) {
    let sources = add_texts(procedure, known, child);
    let CheckedProcedure {
        id: _,
        rules_off: _,
        title: _,
        text: _,
        linked: _,
        places,
        header,
        tables,
        introduction,
        sections,
        steps,
        index: _,
    } = child.procedure;
    procedure.tables.take_in(tables, to);
    procedure.header.odometer |= header.odometer;
    for (name, place) in places {
        let place = Place { source: source(&sources, place.source), span: place.span };
        procedure.places.entry(name.renamed(to)).or_insert(place);
    }
    let level = sections.iter().map(|section| section.level).fold(LevelOfUse::Information, stricter);
    let steps = steps.renamed(to).into_iter().map(|step| with_sources(step, &sources)).collect();
    let body = Body {
        introduction: introduction.renamed(to),
        sections: sections.renamed(to),
        steps,
        required: required(&procedure.header.scope, header),
        close_up: header.close_up.clone(),
        source: source(&sources, 0),
    };
    (body, level)
}

/// What must be true before a linked procedure; also that it is for this vehicle, where it is for others than the one that
/// links to it.
fn required(scope: &str, header: &Header) -> Vec<String> {
    let covered = (header.scope != scope).then(|| format!("It is for this vehicle: {}", header.scope));
    covered.into_iter().chain(header.required.iter().cloned()).collect()
}

/// Adds the texts of the child, each once; gives their new places.
fn add_texts(
    procedure: &mut CheckedProcedure,
    known: &mut BTreeMap<String, usize>,
    child: &Child<'_>,
) -> Vec<usize> {
    let own = Linked {
        address: child.address.to_owned(),
        id: child.procedure.id.clone(),
        title: child.procedure.title.clone(),
        header: child.procedure.header.clone(),
        text: child.procedure.text.clone(),
    };
    let texts = std::iter::once(own).chain(child.procedure.linked.iter().cloned());
    texts.map(|text| add_text(&mut procedure.linked, known, text)).collect()
}

fn add_text(texts: &mut Vec<Linked>, known: &mut BTreeMap<String, usize>, text: Linked) -> usize {
    let next = texts.len() + 1;
    let place = *known.entry(text.address.clone()).or_insert(next);
    if place == next {
        texts.push(text);
    }
    place
}

fn source(sources: &[usize], old: usize) -> usize {
    sources.get(old).copied().unwrap_or_default()
}

fn with_sources(step: Step, sources: &[usize]) -> Step {
    let link = step.link.map(|link| Box::new(Link { source: source(sources, link.source), ..*link }));
    Step { source: source(sources, step.source), link, ..step }
}

const fn stricter(one: LevelOfUse, other: LevelOfUse) -> LevelOfUse {
    match (one, other) {
        (LevelOfUse::Continuous, _) | (_, LevelOfUse::Continuous) => LevelOfUse::Continuous,
        (LevelOfUse::Reference, _) | (_, LevelOfUse::Reference) => LevelOfUse::Reference,
        (LevelOfUse::Information, LevelOfUse::Information) => LevelOfUse::Information,
    }
}

/// A body and the step that it belongs into.
struct Insertion {
    at: StepId,
    link: Link,
    parts: Parts,
    level: LevelOfUse,
}

/// Puts the parts behind their steps, in the order of the text, and numbers everything anew.
fn insert(procedure: &mut CheckedProcedure, mut insertions: Vec<Insertion>) {
    insertions.sort_by_key(|insertion| insertion.at);
    // After which step how many have come in.
    let mut grown: Vec<(StepId, usize)> = Vec::new();
    for insertion in &insertions {
        let before = grown.last().map_or(0, |(_, size)| *size);
        grown.push((insertion.at, before + insertion.parts.steps.len()));
    }
    let new = |id: StepId| {
        let before = grown.partition_point(|(at, _)| *at < id).checked_sub(1);
        StepId(id.0 + before.and_then(|last| grown.get(last)).map_or(0, |(_, size)| *size))
    };
    for section in &mut procedure.sections {
        section.groups = section.groups.iter().map(|group| moved_group(group, &new)).collect();
    }
    for insertion in &insertions {
        let section = procedure.steps.get(insertion.at.0).map(|step| step.section.0);
        if let Some(section) = section.and_then(|section| procedure.sections.get_mut(section)) {
            section.level = stricter(section.level, insertion.level);
        }
    }
    let mut insertions = insertions.into_iter().peekable();
    let mut steps = Vec::new();
    for step in std::mem::take(&mut procedure.steps) {
        let insertion = insertions.next_if(|insertion| insertion.at == step.id);
        let step = moved(step, &new);
        match insertion {
            Some(insertion) => steps.extend(linking(step, insertion)),
            None => steps.push(step),
        }
    }
    number(procedure.sections.iter().map(|section| section.groups.as_slice()), &mut steps);
    show_numbers(&mut procedure.tables.named_steps, &steps);
    procedure.steps = steps;
}

/// The step that links and, behind it, the parts that it has now.
fn linking(mut step: Step, insertion: Insertion) -> Vec<Step> {
    let (id, section) = (step.id, step.section);
    let behind = |part: StepId| StepId(id.0 + 1 + part.0);
    let groups = insertion.parts.groups.iter().map(|group| moved_group(group, &behind));
    step.groups.put_before(groups.collect());
    step.link = Some(Box::new(insertion.link));
    let placed = |part: Step| {
        let part = moved(part, &behind);
        Step { section, parent: part.parent.or(Some(id)), ..part }
    };
    std::iter::once(step).chain(insertion.parts.steps.into_iter().map(placed)).collect()
}
