//! Repeats, pass by pass: how each ended, and whether it counts.

use super::passes::PassOf;
use super::work::{Work, moment};
use crate::procedure::{self, Name};
use crate::record::model::{Outcome, Pass, Place, Repeat};
use crate::run::{Occurrence, OccurrenceId, Over, PassEnd, Round};

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
