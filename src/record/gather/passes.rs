//! Repeats, pass by pass: what each pass is called, how it ended, whether it counts.

use std::collections::{BTreeMap, BTreeSet};

use super::work::{Work, moment};
use crate::procedure::{self, Name, Passes};
use crate::record::model::{Outcome, Pass, Place, Repeat};
use crate::run::{Occurrence, OccurrenceId, Over, PassEnd, Round, View};

/// What a pass is called, and what tells it from the others.
pub(in crate::record) struct PassOf {
    pub(in crate::record) repeat: Name,
    /// As a person says it: `pass 2 of 3 (left)`.
    pub(in crate::record) words: String,
    /// Its item, or its number where it is one of so many; none of passes until something holds, which replace each other.
    pub(in crate::record) key: Option<String>,
    pub(in crate::record) number: usize,
    /// Whether it counts in the end.
    counts: bool,
}

/// Every pass of every repeat.
pub(super) fn every_pass(view: View<'_>) -> BTreeMap<OccurrenceId, PassOf> {
    let repeats = view.book.procedure.repeats().iter();
    let rounds = repeats
        .flat_map(|(name, repeat)| view.rounds(name).into_iter().map(move |round| (name, repeat, round)));
    rounds.flat_map(|(name, repeat, round)| passes_of(view, name, repeat, &round)).collect()
}

fn passes_of(
    view: View<'_>,
    name: &Name,
    repeat: &procedure::Repeat,
    round: &Round,
) -> Vec<(OccurrenceId, PassOf)> {
    let tree = &view.state.tree;
    let (Some(within), Some(part)) = (round.within, view.book.part_of(name)) else { return Vec::new() };
    let wanted = view.inside(within).wanted(name);
    let counting: BTreeSet<OccurrenceId> = round.counting.iter().copied().collect();
    let pass = |at: &OccurrenceId| {
        let pass = round.pass(view, Some(*at));
        let words = pass.words(wanted);
        let key = match repeat.passes {
            Passes::Each(_) | Passes::EachOf(_) => pass.item,
            Passes::Times(_) => Some(pass.place.to_string()),
            Passes::Until(_) => None,
        };
        let counts = counting.contains(at);
        (*at, PassOf { repeat: name.clone(), words, key, number: pass.number, counts })
    };
    tree.turns(within, part).iter().map(pass).collect()
}

/// Every repeat, each time that it was begun.
pub(in crate::record) fn repeats(work: &Work<'_>, outcome: &mut Outcome) -> Vec<Repeat> {
    let repeats = work.book().procedure.repeats().iter();
    let rounds = repeats.flat_map(|(name, repeat)| {
        work.view.rounds(name).into_iter().map(move |round| (name, repeat, round))
    });
    rounds.map(|(name, repeat, round)| told(work, (name, repeat), &round, outcome)).collect()
}

fn told(
    work: &Work<'_>,
    (name, repeat): (&Name, &procedure::Repeat),
    round: &Round,
    outcome: &mut Outcome,
) -> Repeat {
    let tree = &work.view.state.tree;
    let within = round.within.unwrap_or_default();
    let turns = work.book().part_of(name).map(|part| tree.turns(within, part)).unwrap_or_default();
    let gone_on = tree.get(within).said.gone_on.contains(name);
    let verdict = match round.over {
        Some(Over::Met) => "complete",
        Some(Over::Exhausted) => "in vain",
        Some(Over::GivenUp) => "given up",
        None => "not complete",
    };
    outcome.repeats_exhausted += usize::from(round.over == Some(Over::Exhausted));
    outcome.repeats_given_up += usize::from(round.over == Some(Over::GivenUp) || gone_on);
    let passes = turns.iter().filter_map(|at| Some((work.passes.get(at)?, tree.get(*at))));
    let passes: Vec<Pass> = passes.map(|(of, occurrence)| pass(of, occurrence)).collect();
    let invalid = |at: &&OccurrenceId| {
        matches!(tree.get(**at).end.as_ref().map(|end| &end.how), Some(PassEnd::Invalid(_)))
    };
    outcome.passes_invalid += turns.iter().filter(invalid).count();
    Repeat {
        name: name.to_string(),
        what: repeat.what.clone(),
        place: if within == OccurrenceId::RUN { Place::default() } else { work.place_at(within) },
        verdict: if gone_on { "in vain, gone on from".to_owned() } else { verdict.to_owned() },
        passes,
    }
}

fn pass(of: &PassOf, occurrence: &Occurrence) -> Pass {
    let (end, reason) = match occurrence.end.as_ref().map(|ending| &ending.how) {
        None => ("not ended", None),
        Some(PassEnd::Counts) if of.counts => ("counts", None),
        Some(PassEnd::Counts) => ("does not count", Some("the count began anew after it".to_owned())),
        Some(PassEnd::Invalid(reason)) => ("does not count", Some(reason.clone())),
        Some(PassEnd::GivenUp(reason)) => ("given up", Some(reason.clone())),
        Some(PassEnd::SetAside(reason)) => ("set aside", Some(reason.clone())),
    };
    Pass {
        pass: of.words.clone(),
        end: end.to_owned(),
        reason,
        counts: of.counts,
        ended: occurrence.end.as_ref().map(|ending| moment(&ending.stamp)),
    }
}
