//! What each step does: whose it is, what it takes, computes, starts and needs.

use std::collections::HashSet;
use std::mem;

use super::Names;
use super::front_mentions::{front_names, roles, take_front};
use super::places::Mention;
use crate::procedure::document::{Outline, Written};
use crate::procedure::{Group, Name, Named, NamedStep, Passage, Piece, Rare, SectionId, Step, StepId, Table};
use crate::source::Spanned;

/// Gives every mention its meaning, step by step in reading order.
pub(super) struct Placer<'n> {
    names: &'n Names,
    /// Readings that belong to a hold point.
    held: HashSet<Name>,
    /// What a step before it, or the step itself, has named.
    seen: HashSet<Name>,
    pub(super) steps: Vec<Step>,
    pub(super) mentions: Vec<Mention>,
}

impl<'n> Placer<'n> {
    pub(super) fn new(names: &'n Names, held: HashSet<Name>) -> Self {
        Self { names, held, seen: HashSet::new(), steps: Vec::new(), mentions: Vec::new() }
    }

    /// What a step says moves from the outline into the step; what stood in front of its words stays there.
    pub(super) fn place(&mut self, outline: &mut Outline) {
        self.steps.reserve_exact(outline.steps.len());
        for written in &mut outline.steps {
            let step = self.step(written);
            self.steps.push(step);
        }
        number(outline.parts.iter().map(|part| part.groups.as_slice()), &mut self.steps);
        self.end_watches();
    }

    /// A limit stays in force until the last step that names it.
    fn end_watches(&mut self) {
        let mut later: HashSet<Name> = HashSet::new();
        for step in self.steps.iter_mut().rev() {
            step.watch_ends.retain(|watch| later.insert(watch.clone()));
        }
    }

    fn step(&mut self, written: &mut Written) -> Step {
        let mentions = body_mentions(written);
        let mut text = mem::take(&mut written.text);
        written.text = take_front(&mut text, self.names);
        let front = front_names(&written.text, self.names);
        let mut step = Step {
            section: SectionId(written.section),
            parent: written.parent,
            before: mem::take(&mut written.before),
            text,
            passages: mem::take(&mut written.passages),
            who: roles(&written.text, self.names),
            groups: mem::take(&mut written.groups),
            ..Step::bare(StepId(self.steps.len()), written.span)
        };
        self.hazards_before(&mut step);
        for name in mentions {
            self.mention(&mut step, name);
        }
        let first_in = |table| front.iter().find(|name| self.names.table(name) == Some(table)).cloned();
        step.repeat = first_in(Table::Repeats);
        step.alternatives = first_in(Table::Alternatives);
        step.names =
            front.iter().filter(|name| self.names.table(name) == Some(Table::Steps)).cloned().collect();
        written.text.extend(take_own_hold(&mut step));
        step
    }

    /// A hazard that the prose in front of a step names is a hazard of that step.
    fn hazards_before(&mut self, step: &mut Step) {
        let Step { before, hazards, .. } = step;
        for name in before.iter().flat_map(|passage| mentions_of(&passage.text)) {
            if self.names.table(&name.value) == Some(Table::Hazards) {
                add(hazards, &name.value);
            }
        }
    }

    fn mention(&mut self, step: &mut Step, name: Spanned<Name>) {
        let first = !self.seen.contains(&name.value);
        let list = match self.names.table(&name.value) {
            Some(Table::Hazards) => Some(&mut step.hazards),
            Some(Table::Conditions) => Some(&mut step.conditions),
            Some(Table::Readings) if first && !self.held.contains(&name.value) => Some(&mut step.takes),
            Some(Table::Values) if first => Some(&mut step.computes),
            Some(Table::Fasteners) if first && !self.held.contains(&name.value) => Some(&mut step.fasteners),
            Some(Table::Checks) => Some(&mut step.checks),
            Some(Table::Witnesses) => Some(&mut step.witnesses),
            Some(Table::Critical) => Some(&mut step.critical),
            Some(Table::Dues) if first => Some(&mut step.dues),
            Some(Table::Watches) if first => Some(&mut step.watch_begins),
            Some(Table::Watches) => Some(&mut step.watch_ends),
            Some(Table::LooseEnds) => Some(&mut step.leaves),
            Some(Table::StoppingPoints) => {
                step.stopping_point.get_or_insert(name.value.clone());
                None
            }
            Some(Table::Waits) if first => Some(&mut step.starts),
            Some(Table::Waits) if !step.starts.contains(&name.value) => Some(&mut step.needs),
            Some(Table::Holds) => {
                // Named again, it is verified again only where the step begins with it.
                if first || begins_with(&step.text, &name.value) {
                    step.hold.get_or_insert(name.value.clone());
                }
                None
            }
            _ => None,
        };
        if let Some(list) = list {
            add(list, &name.value);
        }
        self.seen.insert(name.value.clone());
        self.mentions.push(Mention { name, step: step.id });
    }
}

/// A hold point in front of a whole sentence says what the step is; in a sentence it is a part of it.
fn take_own_hold(step: &mut Step) -> Option<Piece> {
    let is_own = step.hold.as_ref().is_some_and(|hold| begins_with(&step.text, hold));
    let Some(Piece::Text(words)) = step.text.get_mut(1).filter(|_| is_own) else { return None };
    let sentence = words.trim_start_matches([' ', ',', ':', '\n']);
    if !sentence.starts_with(char::is_uppercase) {
        return None;
    }
    *words = sentence.to_owned();
    Some(step.text.remove(0))
}

/// Whether this name is the first word of a step.
fn begins_with(text: &[Piece], name: &Name) -> bool {
    matches!(text.first(), Some(Piece::Mention(first)) if first.value == *name)
}

/// Numbers the steps of all sections: `2.3` is the third step of the second section, `2.3.1` its first part.
pub(in crate::procedure) fn number<'g>(sections: impl Iterator<Item = &'g [Group]>, steps: &mut [Step]) {
    for (index, groups) in sections.enumerate() {
        number_groups(groups, &(index + 1).to_string(), steps);
    }
    for index in 0..steps.len() {
        let taken = steps.get_mut(index).filter(|step| !step.groups.is_empty());
        let Some((groups, number)) = taken.map(|step| (mem::take(&mut step.groups), step.number.clone()))
        else {
            continue;
        };
        number_groups(&groups, &number, steps);
        if let Some(step) = steps.get_mut(index) {
            step.groups = groups;
        }
    }
}

/// Lets each mention of a named step show the number that the step has now.
pub(in crate::procedure) fn show_numbers(named: &mut Named<NamedStep>, steps: &[Step]) {
    for step in steps {
        for name in &step.names {
            if let Some(named) = named.get_mut(name) {
                named.shown = format!("step {} ({})", step.number, named.what);
            }
        }
    }
}

fn number_groups(groups: &[Group], number: &str, steps: &mut [Step]) {
    for (index, id) in groups.iter().flat_map(|group| &group.steps).enumerate() {
        if let Some(step) = steps.get_mut(id.0) {
            step.number = format!("{number}.{}", index + 1);
        }
    }
}

fn add(list: &mut Rare<Name>, name: &Name) {
    if !list.contains(name) {
        list.push(name.clone());
    }
}

/// The mentions in a step's own words, tables and further paragraphs; those in its notes show a value and take
/// none.
fn body_mentions(written: &Written) -> Vec<Spanned<Name>> {
    let asks = |passage: &&Passage| passage.kind.asks();
    let further = written.passages.iter().filter(asks).flat_map(|passage| mentions_of(&passage.text));
    mentions_of(&written.text).chain(further).cloned().collect()
}

/// The names that a text mentions.
pub(in crate::procedure) fn mentions_of(pieces: &[Piece]) -> impl Iterator<Item = &Spanned<Name>> {
    pieces.iter().filter_map(|piece| match piece {
        Piece::Mention(name) => Some(name),
        Piece::Text(_) => None,
    })
}
