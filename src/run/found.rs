//! What is to be thought of a reading beyond its own limits: what was found before an adjustment, where its instrument
//! reads, the limits in force when it was taken, and what it must never pass.

use std::cmp::Ordering;

use super::apply::Next;
use super::book::Book;
use super::event::Answered;
use super::instruments::Instrument;
use super::judge::{Judged, Judgement};
use super::state::{Departure, State, Taken};
use super::taking::Circumstances;
use super::view::View;
use super::world::Known;
use crate::formula::{Typed, Value};
use crate::procedure::{Name, Occasion, Reading, StepId};
use crate::quantity::{Quantity, Side};

impl Book {
    /// The judgement of an attempt by its own limits, weighed with everything else that speaks against it.
    pub(super) fn weighed(&self, state: &State, name: &Name, taken: &Taken, own: Judged) -> Judged {
        let Some(reading) = self.procedure.reading(name) else { return own };
        if let Some(beyond) = self.beyond(state, reading, &taken.value) {
            let hold = reading.ceiling.as_ref().map_or("", |ceiling| self.procedure.called(&ceiling.opens));
            let beyond = format!("{beyond}: verify again: {hold}");
            return Judged { judgement: Judgement::Beyond(beyond), limits: None, certainty: None, ..own };
        }
        let against = self.speaks_against(state, reading, taken);
        let judgement = match reading.occasion {
            Occasion::AsFound => Judgement::Found(Box::new(own.judgement)),
            Occasion::Plain | Occasion::AsLeft(_) => own.judgement,
        };
        match against {
            Some(why) => Judged {
                judgement: Judgement::Spoiled(why, Box::new(judgement)),
                limits: None,
                certainty: None,
                ..own
            },
            None => Judged { judgement, ..own },
        }
    }

    fn speaks_against(&self, state: &State, reading: &Reading, taken: &Taken) -> Option<String> {
        let Answered::Quantity(entry) = &taken.value else { return None };
        let circumstances = state.taking.circumstances.get(&taken.place);
        let watches = circumstances.map(|circumstances| circumstances.watches.as_slice()).unwrap_or_default();
        self.out_of_range(reading, &entry.typed).or_else(|| self.breaks_watch(state, &entry.asked, watches))
    }

    /// Whether a reading is one of what was found before an adjustment.
    pub(super) fn is_as_found(&self, reading: &Name) -> bool {
        self.procedure.reading(reading).is_some_and(|reading| reading.occasion == Occasion::AsFound)
    }

    /// The entry after which the present pass of a step began, whatever was begun anew within it.
    pub(super) fn opened(&self, state: &State, step: StepId) -> u64 {
        let around = self.repeats_around(step).into_iter();
        around
            .filter_map(|around| state.repeats.get(around))
            .map(|rounds| rounds.opened)
            .max()
            .unwrap_or_default()
    }

    /// Which bound an answer passes that it must never pass: `never above 6 bar`.
    pub(super) fn beyond(&self, state: &State, reading: &Reading, answer: &Answered) -> Option<String> {
        let (ceiling, Answered::Quantity(entry)) = (reading.ceiling.as_ref()?, answer) else { return None };
        let known = Known::new(self, state);
        let passes = |bound: &Option<Typed>, side: Ordering| {
            let bound = amount(bound.as_ref()?, &known)?;
            (entry.typed.compare(&bound) == Ok(side)).then_some(bound)
        };
        passes(&ceiling.never_above, Ordering::Greater).map(|bound| format!("never above {bound}")).or_else(
            || passes(&ceiling.never_below, Ordering::Less).map(|bound| format!("never below {bound}")),
        )
    }

    /// The names that speak of a reading beside its own limits: what it must never pass, and limits in force over it.
    pub(super) fn watched_by(&self, name: &Name) -> Vec<Name> {
        let Some(reading) = self.procedure.reading(name) else { return Vec::new() };
        let ceiling = reading.ceiling.iter();
        let ends = ceiling.flat_map(|ceiling| ceiling.never_below.iter().chain(&ceiling.never_above));
        let watches = self.procedure.watches().iter().filter(|(_, watch)| watch.readings.contains(name));
        ends.flat_map(super::book::names_of)
            .chain(watches.flat_map(|(_, watch)| super::book::names_in(&watch.criterion)))
            .collect()
    }
}

fn amount(formula: &Typed, known: &Known<'_>) -> Option<Quantity> {
    match formula.evaluate(known).ok()? {
        Value::Quantity(quantity) => Some(quantity),
        Value::Truth(_) | Value::Text(_) => None,
    }
}

impl<'run> View<'run> {
    /// What the procedure says to do about a result that fails: first what helps on the side on which it does.
    pub fn what_to_do(self, name: &Name) -> Vec<&'run str> {
        let procedure = &self.book.procedure;
        let of_reading = procedure.reading(name).map(|reading| (&reading.sides, &reading.fails));
        let of_value = || procedure.value(name).map(|value| (&value.sides, &value.fails));
        let Some((sides, fails)) = of_reading.or_else(of_value) else { return Vec::new() };
        let side = self.book.judge(self.state, name).and_then(|judged| judged.judgement.side());
        let by_side = match side {
            Some(Side::Lower) => sides.too_low.as_deref(),
            Some(Side::Upper) => sides.too_high.as_deref(),
            None => None,
        };
        by_side.into_iter().chain(fails.as_deref()).collect()
    }

    /// Whether a reading as found is past being taken again: the work has gone on from it.
    pub fn is_locked(self, reading: &Name) -> bool {
        let taken_at = self.book.procedure.taken_at(reading);
        let Some(at) = taken_at.filter(|_| self.book.is_as_found(reading)) else {
            return false;
        };
        let mut later = self.book.procedure.steps().iter().filter(|step| step.id > at);
        later.any(|step| self.is_begun(step) || self.is_said_done(step.id))
    }

    /// Whether the newest attempt at a reading passes what it must never pass.
    pub fn is_beyond(self, name: &Name) -> bool {
        let judged = self.book.judge(self.state, name);
        judged.is_some_and(|judged| matches!(judged.judgement, Judgement::Beyond(_)))
    }
}

impl Next<'_> {
    /// What held when a reading was taken, and what comes of one that passes what it must never pass. The attempt stands in
    /// the state already.
    pub(super) fn note_circumstances(&mut self, name: &Name) {
        let Some(taken) = self.state.readings.get(name).and_then(|attempts| attempts.last()) else { return };
        let (place, value) = (taken.place, taken.value.clone());
        if place == self.stamp.seq {
            self.state.taking.circumstances.insert(place, self.circumstances(name));
        }
        let Some(reading) = self.book.procedure.reading(name) else { return };
        if let (Some(why), Some(ceiling)) = (self.book.beyond(&self.state, reading, &value), &reading.ceiling)
        {
            self.state.again.insert(name.clone());
            if let Some(verification) = self.state.holds.get_mut(&ceiling.opens) {
                let what = self.book.procedure.called(name);
                verification.reopen(&format!("{what} was {}, {why}", value.shown()));
            }
        }
    }

    /// What was corrected in a pass that has ended is no question of the present one. Where it fails and the pass counts all
    /// the same, that is a deviation. The correction stands in the state already.
    pub(super) fn look_back(&mut self, name: &Name, reason: &str) {
        let book = self.book;
        let Some(taken) = self.state.readings.get(name).and_then(|attempts| attempts.last()) else { return };
        let ended = self.state.latest(name).is_none() && self.is_in_pass_that_counts(name, taken.place);
        let judged = book.judge_answer(&self.state, name, &taken.value);
        let fails = judged.is_some_and(|judged| !judged.judgement.lets_go_on());
        if ended && fails && !book.is_as_found(name) && !book.has_path_for_failed(name) {
            self.depart(Departure::Result(name.clone()), reason, None);
        }
    }

    fn is_in_pass_that_counts(&self, name: &Name, place: u64) -> bool {
        let step = self.book.procedure.taken_at(name);
        let around = step.map(|step| self.book.repeats_around(step)).unwrap_or_default().into_iter();
        let mut passes =
            around.filter_map(|repeat| self.state.repeats.get(repeat)).flat_map(super::Rounds::live);
        passes.any(|pass| pass.counts && pass.began < place && place <= pass.ended.seq)
    }

    /// The instrument that stands for a calibrated tool.
    pub(super) fn instrument_now(&self, tool: &Name) -> Option<Instrument> {
        let calibrated = self.book.procedure.tool(tool).is_some_and(|tool| tool.calibrated);
        self.state.taking.instruments.get(tool).filter(|_| calibrated)?.last().cloned()
    }

    fn circumstances(&self, name: &Name) -> Circumstances {
        let procedure = &self.book.procedure;
        let tool = procedure.reading(name).and_then(|reading| reading.instrument.as_ref());
        let judges =
            |watch: &&Name| procedure.watch(watch).is_some_and(|watch| watch.readings.contains(name));
        Circumstances {
            instrument: tool.and_then(|tool| self.instrument_now(tool)),
            watches: self.state.taking.in_force.keys().filter(judges).cloned().collect(),
        }
    }
}
