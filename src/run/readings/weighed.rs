//! What is to be thought of a reading beyond its own limits: what was found before an adjustment, where its instrument
//! reads, the limits in force when it was taken, and what it must never pass.

use std::cmp::Ordering;

use crate::formula::{Typed, Value};
use crate::procedure::{Name, Occasion, Reading};
use crate::quantity::{Quantity, Side};
use crate::run::answered::Answered;
use crate::run::book::Book;
use crate::run::particulars::facts::Instrument;
use crate::run::readings::judge::{Judged, Judgement};
use crate::run::view::View;
use crate::run::work::taken::Taken;
use crate::run::world::Known;

impl Book {
    /// The names that speak of a reading beside its own limits: what it must never pass, and limits in force over it.
    pub(in crate::run) fn watched_by(&self, name: &Name) -> Vec<Name> {
        let Some(reading) = self.procedure.reading(name) else { return Vec::new() };
        let ceiling = reading.ceiling.iter();
        let ends = ceiling.flat_map(|ceiling| ceiling.never_below.iter().chain(&ceiling.never_above));
        let watches = self.procedure.watches().iter().filter(|(_, watch)| watch.readings.contains(name));
        ends.flat_map(crate::run::book::names_of)
            .chain(watches.flat_map(|(_, watch)| crate::run::book::names_in(&watch.criterion)))
            .collect()
    }
}

fn amount(formula: &Typed, known: &Known<'_>) -> Option<Quantity> {
    match formula.evaluate(known).ok()? {
        Value::Quantity(quantity) => Some(quantity),
        Value::Truth(_) | Value::Text(_) | Value::Instead(_) => None,
    }
}

impl<'run> View<'run> {
    /// The judgement of an attempt by its own limits, weighed with everything else that speaks against it.
    pub(crate) fn weighed(self, name: &Name, taken: &Taken, own: Judged) -> Judged {
        let Some(reading) = self.book.procedure.reading(name) else { return own };
        if let Some(beyond) = self.beyond(reading, &taken.value) {
            let opens = reading.ceiling.as_ref().map(|ceiling| &ceiling.opens);
            let hold = opens.map_or("", |opens| self.book.procedure.called(opens));
            let beyond = format!("{beyond}: verify again: {hold}");
            return Judged { judgement: Judgement::Beyond(beyond), limits: None, certainty: None, ..own };
        }
        let against = self.speaks_against(name, reading, taken);
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

    fn speaks_against(self, name: &Name, reading: &Reading, taken: &Taken) -> Option<String> {
        let Answered::Quantity(entry) = &taken.value else { return None };
        let range = self.book.out_of_range(reading, &entry.typed);
        range.or_else(|| self.breaks_watch(&entry.asked, &self.watches_at(name, taken.place)))
    }

    /// Which bound an answer passes that it must never pass: `never above 6 bar`.
    pub(crate) fn beyond(self, reading: &Reading, answer: &Answered) -> Option<String> {
        let (ceiling, Answered::Quantity(entry)) = (reading.ceiling.as_ref()?, answer) else { return None };
        let known = self.known();
        let passes = |bound: &Option<Typed>, side: Ordering| {
            let bound = amount(bound.as_ref()?, &known)?;
            (entry.typed.compare(&bound) == Ok(side)).then_some(bound)
        };
        passes(&ceiling.never_above, Ordering::Greater).map(|bound| format!("never above {bound}")).or_else(
            || passes(&ceiling.never_below, Ordering::Less).map(|bound| format!("never below {bound}")),
        )
    }

    /// What the procedure says to do about a result that fails: first what helps on the side on which it does.
    pub fn what_to_do(self, name: &Name) -> Vec<&'run str> {
        let procedure = &self.book.procedure;
        let of_reading = procedure.reading(name).map(|reading| (&reading.sides, &reading.fails));
        let of_value = || procedure.value(name).map(|value| (&value.sides, &value.fails));
        let Some((sides, fails)) = of_reading.or_else(of_value) else { return Vec::new() };
        let side = self.judge(name).and_then(|judged| judged.judgement.side());
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
        let Some(at) = taken_at.filter(|_| self.is_as_found(reading)) else {
            return false;
        };
        let mut later = self.book.procedure.steps().iter().filter(|step| step.id > at);
        later.any(|step| self.is_begun(step) || self.is_said_done(step.id))
    }

    /// Whether the newest attempt at a reading passes what it must never pass.
    pub fn is_beyond(self, name: &Name) -> bool {
        let Some(reading) = self.book.procedure.reading(name).filter(|reading| reading.ceiling.is_some())
        else {
            return false;
        };
        let here = self.at_home(name);
        here.latest(name).is_some_and(|taken| here.beyond(reading, &taken.value).is_some())
    }

    /// The instrument that stood for a calibrated tool at an entry.
    pub fn instrument_at(self, tool: &Name, entry: u64) -> Option<&'run Instrument> {
        let calibrated = self.book.procedure.tool(tool).is_some_and(|tool| tool.calibrated);
        let named = self.state.particulars.instruments.get(tool).filter(|_| calibrated)?;
        named.iter().rev().find(|instrument| instrument.stamp.seq < entry)
    }

    /// The instrument with which an attempt at a reading was made.
    pub fn instrument_of(self, reading: &Name, place: u64) -> Option<&'run Instrument> {
        self.instrument_at(self.book.procedure.reading(reading)?.instrument.as_ref()?, place)
    }
}
