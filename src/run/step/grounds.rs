//! Whether a condition holds, seen from one occurrence: in its own pass, else by the passes that speak for it.

use crate::formula::Value;
use crate::procedure::{Condition, Ground, Name, Passes};
use crate::run::passes::round::Over;
use crate::run::view::View;
use crate::run::work::facts::Said;
use crate::run::work::part::Part;
use crate::run::work::tree::OccurrenceId;

/// The occurrences of a part that speak for it.
struct Speaking {
    at: Vec<OccurrenceId>,
    /// Whether there will be no others.
    all: bool,
}

impl View<'_> {
    /// Whether a condition holds; none where that is not known yet.
    pub(crate) fn condition(self, name: &Name) -> Option<bool> {
        let Condition { ground, .. } = self.book.procedure.condition(name)?;
        match ground {
            Ground::If(formula) => match formula.evaluate(&self.known()).ok()? {
                Value::Truth(holds) => Some(holds),
                _ => None,
            },
            Ground::Failed(result) => {
                let step = self.book.procedure.home(result)?;
                self.any(Part::Step(step), |view| view.has_failed_here(result))
            }
            Ground::Missed(wait) => self.is_missed(wait),
            Ground::GaveUp(repeat) => {
                let around = self.book.part_of(repeat)?.around(&self.book.procedure)?;
                self.any(around, |view| view.round(repeat)?.over.map(|over| over != Over::Met))
            }
        }
    }

    /// Whether something is so at one of the occurrences that speak for a part.
    fn any(self, part: Part, is_so: impl Fn(Self) -> Option<bool>) -> Option<bool> {
        let speaking = self.speaking(part);
        let said: Vec<Option<bool>> = speaking.at.iter().map(|at| is_so(self.inside(*at))).collect();
        if said.contains(&Some(true)) {
            return Some(true);
        }
        (speaking.all && !said.contains(&None)).then_some(false)
    }

    /// Which occurrences of a part speak for it, seen from here: the one around or beside; of passes over a list or a
    /// number all that count, since they stand side by side; of passes until something holds the last that counts, since
    /// they replace each other.
    fn speaking(self, part: Part) -> Speaking {
        let tree = &self.state.tree;
        if part == Part::Run {
            return Speaking { at: vec![OccurrenceId::RUN], all: true };
        }
        if let Some(around) = tree.outwards(self.within).find(|at| tree.get(*at).part == part) {
            return Speaking { at: vec![around], all: true };
        }
        let Some(around) = part.around(&self.book.procedure) else {
            return Speaking { at: Vec::new(), all: false };
        };
        let above = self.speaking(around);
        let mut speaking = Speaking { at: Vec::new(), all: above.all };
        for above in above.at {
            self.inside(above).speak_below(part, &mut speaking);
        }
        speaking
    }

    fn speak_below(self, part: Part, speaking: &mut Speaking) {
        let procedure = &self.book.procedure;
        if self.asked.is_some_and(|step| part.holds(procedure, step)) {
            let here = self.find(part);
            speaking.all &= here.is_some();
            speaking.at.extend(here);
            return;
        }
        let Some((repeat, declared)) =
            part.repeat(procedure).and_then(|name| Some((name, procedure.repeat(name)?)))
        else {
            let here = self.find(part);
            speaking.all &= here.is_some() || self.is_left_out_here(part);
            speaking.at.extend(here);
            return;
        };
        let Some(round) = self.round(repeat) else { return };
        speaking.all &= round.over.is_some() || self.is_left_out_here(part);
        match declared.passes {
            Passes::Until(_) if round.over.is_some() => speaking.at.extend(round.counting.last()),
            Passes::Until(_) => {}
            Passes::Each(_) | Passes::EachOf(_) | Passes::Times(_) => speaking.at.extend(&round.counting),
        }
    }

    /// Whether a part of which nothing was done does not apply: it can neither fail nor be missed.
    pub(in crate::run) fn is_left_out_here(self, part: Part) -> bool {
        match part {
            Part::Run => false,
            Part::Section(section) => {
                let mut steps = self.book.procedure.steps_in(section);
                steps.all(|step| self.is_not_applicable(step))
            }
            Part::Step(step) => {
                self.book.procedure.step(step).is_some_and(|step| self.is_not_applicable(step))
            }
        }
    }

    /// Whether a result fails at the occurrence from which it is seen; none where that is not known.
    fn has_failed_here(self, result: &Name) -> Option<bool> {
        let step = self.book.procedure.step(self.book.procedure.home(result)?)?;
        let is_reading = self.book.procedure.reading(result).is_some();
        if self.book.procedure.fastener_group(result).is_some() {
            return self.has_failed_group(result);
        }
        if is_reading && (!self.is_taken(result) || self.is_blind(result)) {
            return self.is_not_applicable(step).then_some(false);
        }
        let judged = self.judge(result)?;
        if !judged.judgement.is_known() {
            return self.is_not_applicable(step).then_some(false);
        }
        Some(!judged.judgement.own().lets_go_on())
    }

    /// A wait that was needed in time was not missed, nor one that no step needs any more. The steps that need it stand
    /// before all that rest on this: `check` sees to it.
    fn is_missed(self, wait: &Name) -> Option<bool> {
        let steps = self.book.procedure.steps().iter();
        let mut needing = steps.filter(|step| step.needs.contains(wait)).peekable();
        needing.peek()?;
        let missed = |view: Self, step| Said::last(&view.said(step).missed, wait).is_some();
        let mut known = true;
        for step in needing {
            let said = self.any(Part::Step(step.id), |view| Some(missed(view, step.id)));
            if said == Some(true) {
                return Some(true);
            }
            known &= said.is_some() || self.is_settled(step);
        }
        known.then_some(false)
    }
}
