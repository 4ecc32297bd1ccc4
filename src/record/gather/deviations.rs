//! Departures from the procedure and what was decided about each.

use std::collections::BTreeMap;

use super::work::{Work, moment};
use crate::procedure::{Name, Step};
use crate::record::amounts::{answer, said};
use crate::record::judging::judged;
use crate::record::model::{Deviation, Moment, Place};
use crate::run::{self, Departure, OccurrenceId, Part};

/// The deviations; `decided` says when a disposition was given that came later, by the place of the deviation.
pub(in crate::record) fn deviations(work: &Work<'_>, decided: &BTreeMap<usize, Moment>) -> Vec<Deviation> {
    let all = work.view.state.deviations.iter().enumerate();
    all.map(|(index, deviation)| Departed { work, index, deviation }.told(decided.get(&index))).collect()
}

struct Departed<'work, 'run> {
    work: &'work Work<'run>,
    index: usize,
    deviation: &'run run::Deviation,
}

impl<'run> Departed<'_, 'run> {
    fn told(&self, decided: Option<&Moment>) -> Deviation {
        let step = self.step();
        let (at, when) = (self.at(), moment(&self.deviation.stamp));
        let disposition = self.deviation.disposition.as_ref();
        Deviation {
            number: self.index + 1,
            step: step.map(|step| step.number.clone()).unwrap_or_default(),
            place: if at == OccurrenceId::RUN { Place::default() } else { self.work.place_at(at) },
            departs: self.departs(),
            reason: self.deviation.reason.clone(),
            who: self.work.people(step, self.deviation.stamp.seq),
            disposition: disposition.map(|(disposition, _)| disposition.words().to_owned()),
            justification: disposition.map(|(_, justification)| justification.clone()),
            decided: disposition.map(|_| decided.cloned().unwrap_or_else(|| when.clone())),
            when,
        }
    }

    fn step(&self) -> Option<&'run Step> {
        let book = self.work.book();
        let of = match &self.deviation.departure {
            Departure::Result(name) | Departure::Differs(name) => book.procedure.home(name),
            Departure::NotApplicable(step)
            | Departure::Late(step, _)
            | Departure::Reinspected(step, _)
            | Departure::Disagrees(step) => Some(*step),
            Departure::Declared(step, _) => *step,
            Departure::GivenUp(_) | Departure::OneMore(_) | Departure::Scope => return None,
            Departure::Overdue(_) => None,
            Departure::FastenerLeftOut(at) | Departure::FastenerOff(at) => book.step_of_fasteners(&at.group),
        };
        let there = match self.work.view.state.tree.get(self.at()).part {
            Part::Step(step) => Some(step),
            Part::Run | Part::Section(_) => None,
        };
        book.procedure.step(of.or(there)?)
    }

    /// Where it belongs; of an instrument that is overdue, where it was first used after that was said.
    fn at(&self) -> OccurrenceId {
        match &self.deviation.departure {
            Departure::Overdue(tool) => self.first_use(tool).unwrap_or(self.deviation.at),
            _ => self.deviation.at,
        }
    }

    fn first_use(&self, tool: &Name) -> Option<OccurrenceId> {
        let (book, state, after) = (self.work.book(), self.work.view.state, self.deviation.stamp.seq);
        let with_it = |instrument: &Option<Name>| instrument.as_ref() == Some(tool);
        let readings = book.procedure.readings().iter().filter(|(_, reading)| with_it(&reading.instrument));
        let read = readings
            .flat_map(|(name, _)| state.attempts_at(name))
            .flat_map(|(at, attempts)| attempts.taken.iter().map(move |taken| (taken.place, at)));
        let groups = book.procedure.fasteners().iter().filter(|(_, group)| with_it(&group.instrument));
        let steps = groups.filter_map(|(name, _)| book.step_of_fasteners(name));
        let seen = steps.flat_map(|step| self.work.of(step)).filter_map(|seen| seen.at);
        let acts =
            seen.flat_map(|at| state.tree.get(at).said.acts.iter().map(move |act| (act.stamp.seq, at)));
        read.chain(acts).filter(|(entry, _)| *entry > after).min().map(|(_, at)| at)
    }

    fn departs(&self) -> String {
        let here = self.work.view.inside(self.deviation.at);
        match &self.deviation.departure {
            Departure::Result(name) => self.result(name),
            Departure::NotApplicable(_) => "the step was left out, although no condition says so".to_owned(),
            Departure::Declared(_, declared) => declared.words().to_owned(),
            Departure::Scope => {
                let differs = self.work.view.state.interruption.not_covered.as_deref();
                let differs = differs.unwrap_or("no word on how it differs");
                format!("used on a vehicle that the procedure is not for: {differs}")
            }
            Departure::GivenUp(repeat) => format!("given up: {}", self.what(repeat)),
            Departure::OneMore(repeat) => format!("one more pass than is allowed: {}", self.what(repeat)),
            Departure::Reinspected(_, check) => format!("re-inspection (one person): {}", self.what(check)),
            Departure::Differs(name) => self.differs(name),
            Departure::Overdue(tool) => self.overdue(tool),
            Departure::Disagrees(_) => "the step was done under what no longer holds".to_owned(),
            Departure::FastenerLeftOut(at) => format!("left out from this stage on: {}", at.words(here)),
            Departure::FastenerOff(at) => super::fasteners::off_target(here, at),
            Departure::Late(_, wait) => {
                let most = self.work.book().procedure.wait(wait).and_then(|wait| wait.at_most.as_ref());
                let most = most.map(|most| format!(", at most {most}")).unwrap_or_default();
                format!("the wait was too long: {}{most}", self.what(wait))
            }
        }
    }

    /// Two readings that differ: `two readings differ: torque: 40 N·m and 45 N·m`.
    fn differs(&self, name: &Name) -> String {
        let attempts = self.work.view.state.tree.get(self.deviation.at).said.reading(name);
        let before = self.deviation.stamp.seq;
        let second = attempts.and_then(|attempts| {
            let mut seconds = attempts.seconds.iter().rev();
            let second = seconds.find(|second| second.stamp.seq < before)?;
            Some((attempts.at(second.of)?, second))
        });
        let shown = second.map(|(first, second)| {
            format!(": {} and {}", said(&answer(&first.value)), said(&answer(&second.value)))
        });
        format!("two readings differ: {}{}", self.what(name), shown.unwrap_or_default())
    }

    fn overdue(&self, tool: &Name) -> String {
        let named = self.work.view.state.particulars.instruments.get(tool).into_iter().flatten();
        let mut named = named.filter(|named| named.accepted == Some(self.index));
        let named = named.next().map(|named| format!(": {}, due {}", named.identity, named.due));
        format!("used although its calibration is overdue: {}{}", self.what(tool), named.unwrap_or_default())
    }

    /// The attempt that was gone on with, and its verdict; or the value.
    fn result(&self, name: &Name) -> String {
        let here = self.work.view.inside(self.deviation.at);
        let attempts = self.work.view.state.tree.get(self.deviation.at).said.reading(name);
        let before = self.deviation.stamp.seq;
        let places = attempts.iter().flat_map(|attempts| &attempts.taken).map(|taken| taken.place);
        let place = places.filter(|place| *place < before).max();
        let taken = attempts.zip(place).and_then(|(attempts, place)| attempts.at(place));
        let now = taken.map_or_else(|| here.judge(name), |taken| here.judge_attempt(name, taken));
        let Some(now) = now else { return self.what(name) };
        let shown = taken.map(|taken| said(&answer(&taken.value)));
        let shown = shown.or_else(|| now.quantity.as_ref().map(ToString::to_string));
        let shown = shown.map(|shown| format!(": {shown}")).unwrap_or_default();
        format!("{}{shown}; {}", self.what(name), judged(self.work.book(), name, &now).words)
    }

    fn what(&self, name: &Name) -> String {
        self.work.book().procedure.called(name).to_owned()
    }
}
