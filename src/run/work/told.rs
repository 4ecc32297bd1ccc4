//! What is told of a run afterwards: attempts that are not the newest, verifications that have ended, limits that were in
//! force.

use crate::procedure::{Name, Step, Watch};
use crate::quantity::Quantity;
use crate::run::answered::Answered;
use crate::run::holds::verification::Verification;
use crate::run::people::facts::SecondTaken;
use crate::run::readings::judge::{Judged, Judgement};
use crate::run::stamp::Stamp;
use crate::run::step::status::Status;
use crate::run::view::View;
use crate::run::work::taken::Taken;
use crate::run::work::tree::OccurrenceId;
use crate::run::work::unrolled::StepAt;

/// A verification of a hold point as it stood when it came to its end.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// How far it had come.
    pub verification: Verification,
    /// The entry with which it came to its end, and why; none where it did not.
    pub over: Option<(u64, String)>,
}

/// A result of a step at one of its occurrences.
#[derive(Clone, Debug)]
pub struct StepResult<'run> {
    /// Its name.
    pub name: &'run Name,
    /// Its value as a person reads it; none where it could not be computed.
    pub shown: Option<String>,
    /// What is to be thought of it.
    pub judged: Judged,
}

impl<'run> View<'run> {
    /// The results of a step at one of its occurrences, as everybody tells them: what was read there last, unless somebody
    /// else still has to read it unseen, and what is computed from it.
    pub fn results_at(self, at: StepAt<'run>) -> Vec<StepResult<'run>> {
        let here = self.inside(at.from());
        let point = at.step.hold.as_ref().and_then(|hold| self.book.procedure.hold(hold));
        let verified = point.map(|hold| hold.readings.as_slice()).unwrap_or_default();
        let read = at.step.takes.iter().chain(verified).filter_map(|name| {
            let taken = self.state.tree.get(at.at?).said.reading(name)?.latest()?;
            let judged = here.judge_attempt(name, taken).filter(|_| !here.is_blind(name))?;
            let shown = taken.value.shown_beside(judged.limits.as_ref());
            Some(StepResult { name, shown: Some(shown), judged })
        });
        let computed = at.step.computes.iter().filter_map(|name| {
            let judged = here.value_at(at.step, name)?;
            let shown = judged.shown(Quantity::DIGITS);
            Some(StepResult { name, shown, judged })
        });
        read.chain(computed).collect()
    }

    /// What a computed value comes to where its step is done or begun; a step to come may still change what it rests on.
    pub fn value_at(self, step: &Step, name: &Name) -> Option<Judged> {
        let (judged, status) = (self.judge(name)?, self.status(step, None));
        let is_unknown = matches!(judged.judgement, Judgement::Unknown(_)) && judged.quantity.is_none();
        let is_told = !is_unknown || status == Status::Done;
        (is_told && !matches!(status, Status::NotApplicable(_))).then_some(judged)
    }
}

impl View<'_> {
    /// The occurrences in which a name has its value: of what is repeated each pass that counts, the oldest first.
    pub fn passes_with(self, name: &Name) -> Vec<OccurrenceId> {
        self.passes_seen(name).unwrap_or_else(|| vec![self.within])
    }

    /// The entry that a value is from: with which it was read, given, or the step that computes it was done. What the
    /// sheet gives was there with the first.
    pub fn entry_of(self, name: &Name) -> Option<Stamp> {
        let procedure = &self.book.procedure;
        if let Some(value) = procedure.value(name).and_then(|_| self.home(name)) {
            return self.completed(procedure.step(value)?);
        }
        let read = self.latest(name).map(|taken| &taken.stamp);
        let given = read.or_else(|| self.state.vehicle.get(name).map(|given| &given.stamp));
        let from_sheet = || self.state.start.as_ref().map(|(_, stamp)| stamp);
        given.or_else(|| from_sheet().filter(|_| procedure.vehicle().contains(name))).cloned()
    }

    /// Judges an attempt at a reading, also one that is not the newest, as things stand now.
    pub fn judge_attempt(self, reading: &Name, taken: &Taken) -> Option<Judged> {
        let own = self.judge_answer(reading, &taken.value)?.with_opinion(self.opinion_on(reading, taken));
        Some(self.weighed(reading, taken, own))
    }

    /// Whether a second reading says the same as the attempt that it belongs to.
    pub fn second_agrees(self, reading: &Name, first: &Taken, second: &SecondTaken) -> bool {
        let wanted = self.book.procedure.reading(reading).and_then(|declared| declared.second.as_ref());
        crate::run::readings::second::agree(
            &first.value,
            &second.value,
            wanted.and_then(|wanted| wanted.agree.as_ref()),
        )
    }

    /// Every verification of a hold point at an occurrence of its step at which anything was said, in order.
    pub fn verifications_at(self, hold: &Name, at: OccurrenceId) -> Vec<Told> {
        let mut told = Vec::new();
        let last = self.verify_at(hold, at, |verification, seq, why| {
            if verification.is_begun() {
                let verification = verification.clone();
                told.push(Told { verification, over: Some((seq, why.to_owned())) });
            }
        });
        if last.is_begun() {
            told.push(Told { verification: last, over: None });
        }
        told
    }

    /// From when to when a limit was in force, as seen at present; it is still in force where it has no end.
    pub fn watched(self, watch: &Name) -> Option<(Stamp, Option<u64>)> {
        let since = self.completed(self.first_step(|step| step.watch_begins.contains(watch))?)?;
        let ends = self.first_step(|step| step.watch_ends.contains(watch));
        let until = ends.and_then(|step| self.let_go(step)).filter(|until| *until > since.seq);
        Some((since, until))
    }

    /// How an attempt at a reading breaks a limit that was in force over it: nothing where it kept it; none where the
    /// limit was not in force then.
    pub fn under_watch(
        self,
        watch: &Name,
        declared: &Watch,
        reading: &Name,
        taken: &Taken,
    ) -> Option<Option<String>> {
        if !declared.readings.contains(reading) || !self.watches_at(reading, taken.place).contains(&watch) {
            return None;
        }
        let Answered::Quantity(entry) = &taken.value else { return None };
        Some(self.breaks_watch(&entry.asked, &[watch]))
    }
}
