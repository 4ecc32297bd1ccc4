//! Readings before an adjustment beside the same after it, item by item.
//!
//! What was found and what was left belong together where they stand in the same pass, and else where they are of the same
//! item, in whatever passes either was read. Of passes that replace each other the last one answers.

use std::collections::BTreeMap;

use super::work::Work;
use crate::procedure::{Name, Occasion};
use crate::record::judging::verdict;
use crate::record::model::{Pair, PairEnd};
use crate::run::{OccurrenceId, StepAt, View};

/// What tells one thing that is read from another: the passes that both readings stand in, then the items of those that
/// only one of them stands in.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Of {
    shared: Vec<OccurrenceId>,
    items: Vec<String>,
}

/// An end of a pair, and in which pass it is, in words.
struct End {
    end: PairEnd,
    pass: Option<String>,
}

/// The ends of one reading, by what they are of, in the order in which they came.
#[derive(Default)]
struct Ends {
    order: Vec<Of>,
    by: BTreeMap<Of, End>,
}

pub(in crate::record) fn pairs(work: &Work<'_>) -> Vec<Pair> {
    let procedure = &work.book().procedure;
    let mut left: Vec<(&Name, &Name)> = Vec::new();
    for (name, reading) in procedure.readings().iter() {
        if let Occasion::AsLeft(found) = &reading.occasion {
            left.push((found, name));
        }
    }
    left.sort_by_key(|(found, _)| procedure.home(found));
    let paired = left.iter().flat_map(|(found, left)| paired(work, found, Some(left)));
    let is_alone = |name: &&Name| !left.iter().any(|(found, _)| found == name);
    let found = procedure.readings().iter().filter(|(_, reading)| reading.occasion == Occasion::AsFound);
    let alone = found.map(|(name, _)| name).filter(is_alone);
    paired.chain(alone.flat_map(|found| self::paired(work, found, None))).collect()
}

fn paired(work: &Work<'_>, found: &Name, left: Option<&Name>) -> Vec<Pair> {
    let shared = shared(work, found, left);
    let founds = ends(work, found, &shared);
    let lefts = left.map(|left| ends(work, left, &shared)).unwrap_or_default();
    let what = work.book().procedure.called(found);
    let mut pairs = Vec::new();
    let mut used: Vec<&Of> = Vec::new();
    for of in &founds.order {
        let matching: Vec<&Of> = matching(of, &lefts);
        let one = |left: Option<&Of>| {
            pair(what, (of, founds.by.get(of)), left.map(|left| (left, lefts.by.get(left))))
        };
        if matching.is_empty() {
            pairs.push(one(None));
        }
        pairs.extend(matching.iter().map(|left| one(Some(left))));
        used.extend(matching);
    }
    let used: std::collections::BTreeSet<&Of> = used.into_iter().collect();
    let rest = lefts.order.iter().filter(|of| !used.contains(of));
    pairs.extend(rest.map(|of| pair(what, (of, None), Some((of, lefts.by.get(of))))));
    pairs
}

/// What was left of the same; of something that was found once, everything that was left, and the other way round.
fn matching<'ends>(of: &Of, lefts: &'ends Ends) -> Vec<&'ends Of> {
    if let Some((same, _)) = lefts.by.get_key_value(of) {
        return vec![same];
    }
    let whole = Of { items: Vec::new(), ..of.clone() };
    if let Some((once, _)) = lefts.by.get_key_value(&whole) {
        return vec![once];
    }
    if !of.items.is_empty() {
        return Vec::new();
    }
    lefts.order.iter().filter(|left| left.shared == of.shared).collect()
}

fn pair(what: &str, found: (&Of, Option<&End>), left: Option<(&Of, Option<&End>)>) -> Pair {
    let items = left.map(|(of, _)| &of.items).filter(|items| !items.is_empty()).unwrap_or(&found.0.items);
    let left = left.and_then(|(_, end)| end);
    let pass = || found.1.or(left).filter(|_| !found.0.shared.is_empty()).and_then(|end| end.pass.clone());
    Pair {
        what: what.to_owned(),
        of: if items.is_empty() { pass() } else { Some(items.join(", ")) },
        as_found: found.1.map(|found| found.end.clone()),
        as_left: left.map(|left| left.end.clone()),
    }
}

/// The repeats that both readings stand in.
fn shared(work: &Work<'_>, found: &Name, left: Option<&Name>) -> Vec<Name> {
    let around = |name: &Name| {
        let step = work.book().procedure.home(name);
        let over = step.map(|step| work.book().repeats_over(crate::run::Part::Step(step)));
        over.unwrap_or_default().into_iter().cloned().collect::<Vec<_>>()
    };
    let (found, left) = (around(found), left.map(around).unwrap_or_default());
    found.into_iter().filter(|repeat| left.contains(repeat)).collect()
}

/// The ends of a reading. What does not count is told only where nothing of the same that was read counts.
fn ends(work: &Work<'_>, name: &Name, shared: &[Name]) -> Ends {
    let all = work.of_name(name);
    let (counting, others): (Vec<&StepAt<'_>>, Vec<_>) =
        all.iter().partition(|seen| work.view.counts(seen.from()));
    let told = |seen: Vec<&StepAt<'_>>| -> Vec<(Of, End)> {
        seen.into_iter().filter_map(|seen| told(work, name, seen, shared)).collect()
    };
    let mut ends = Ends::default();
    for (of, end) in told(counting) {
        if ends.by.insert(of.clone(), end).is_none() {
            ends.order.push(of);
        }
    }
    for (of, end) in told(others).into_iter().rev() {
        if matching(&of, &ends).is_empty() {
            ends.order.push(of.clone());
            ends.by.insert(of, end);
        }
    }
    ends
}

fn told(work: &Work<'_>, name: &Name, seen: &StepAt<'_>, shared: &[Name]) -> Option<(Of, End)> {
    let here = work.inside(seen);
    let end = end(here, name, work, seen)?;
    let mut of = Of { shared: Vec::new(), items: Vec::new() };
    let tree = &work.view.state.tree;
    let mut around: Vec<OccurrenceId> = tree.outwards(seen.from()).collect();
    around.reverse();
    for at in around {
        let Some(pass) = work.passes.get(&at) else { continue };
        if shared.contains(&pass.repeat) {
            of.shared.push(at);
        } else {
            of.items.extend(pass.key.clone());
        }
    }
    let pass = work.place(seen).pass;
    Some((of, End { end, pass }))
}

fn end(here: View<'_>, name: &Name, work: &Work<'_>, seen: &StepAt<'_>) -> Option<PairEnd> {
    let taken = here.latest(name).filter(|_| !here.is_blind(name))?;
    let now = here.judge_attempt(name, taken)?;
    Some(PairEnd {
        name: name.to_string(),
        place: work.place(seen),
        shown: taken.value.shown(),
        verdict: verdict(&now.judgement).to_owned(),
    })
}
