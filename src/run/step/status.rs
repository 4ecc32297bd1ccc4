//! Steps: which apply, which are complete, and the state that each is shown in.

use crate::formula::{EvalProblem, Typed};
use crate::procedure::{Condition, Group, Name, SectionId, Step, StepId};
use crate::run::memo::Fact;
use crate::run::passes::round::Over;
use crate::run::readings::judge::{Judged, Judgement};
use crate::run::view::View;
use crate::run::work::facts::Said;
use crate::run::work::part::Part;
use crate::run::work::taken::Before;
use crate::run::work::tree::PassEnd;

/// Whether a step applies, by its conditions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Applies {
    /// It does, or a condition cannot be worked out: then it is in play.
    Yes,
    /// This condition does not hold.
    No(Name),
}

impl Applies {
    /// Whether it applies.
    pub fn is_yes(&self) -> bool {
        *self == Self::Yes
    }
}

/// The state of a step: each has its own word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Status {
    /// Nothing was done yet.
    NotStarted,
    /// It is what is asked now.
    Current,
    /// Nothing is left to do.
    Done,
    /// Put off, at the latest until then.
    Deferred(Before),
    /// Not applicable, because of this; nothing of it was done.
    NotApplicable(String),
    /// Something of it was done, and no more is to be, because of this.
    NotFinished(String),
    /// A result is outside its limits.
    Failed,
    /// It was done and must be done again.
    Reopened,
}

impl Status {
    /// The word for it.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::NotStarted => "not started",
            Self::Current => "current",
            Self::Done => "done",
            Self::Deferred(_) => "deferred",
            Self::NotApplicable(_) => "not applicable",
            Self::NotFinished(_) => "not finished",
            Self::Failed => "failed",
            Self::Reopened => "reopened",
        }
    }
}

impl<'run> View<'run> {
    /// Why the steps of a repeat are not done: it was given up, or there is nothing to repeat.
    fn not_repeated(self, step: &Step) -> Option<String> {
        let repeats = self.book.repeats_over(Part::Step(step.id));
        repeats.into_iter().find_map(|repeat| {
            let round = self.round(repeat)?;
            let here = self.find(self.book.part_of(repeat)?);
            let ending = here.and_then(|here| self.state.tree.get(here).end.as_ref());
            match (round.over, ending.map(|ending| &ending.how)) {
                (_, Some(PassEnd::GivenUp(reason))) => Some(format!("given up: {reason}")),
                (Some(Over::Met), None) if round.ended.is_empty() => Some("nothing to repeat".to_owned()),
                _ => None,
            }
        })
    }

    /// Whether a step applies: its own conditions, its section's and those of the step it is a part of.
    pub fn applies(self, step: &Step) -> Applies {
        let procedure = &self.book.procedure;
        let own = step.conditions.iter().find(|name| self.asked_at(step.id).is_false(name));
        if let Some(name) = own {
            return Applies::No(name.clone());
        }
        match step.parent.and_then(|parent| procedure.step(parent)) {
            Some(parent) => self.applies(parent),
            None => self.section_applies(step),
        }
    }

    fn section_applies(self, step: &Step) -> Applies {
        let section = self.book.procedure.section(step.section);
        let asked = self.asked_at(step.id);
        let unmet = section.and_then(|section| section.conditions.iter().find(|name| asked.is_false(name)));
        unmet.map_or(Applies::Yes, |name| Applies::No(name.clone()))
    }

    fn is_false(self, condition: &Name) -> bool {
        self.condition(condition) == Some(false)
    }

    /// Whether nothing is left to do on a step: complete, or not applicable.
    pub fn is_settled(self, step: &Step) -> bool {
        self.is_not_applicable(step) || self.is_complete(step)
    }

    pub(in crate::run) fn is_not_applicable(self, step: &Step) -> bool {
        self.remembered(Fact::NotApplicable, step, |view, step| {
            view.left_out(step).is_some() || !view.applies(step).is_yes() || view.not_gone(step).is_some()
        })
    }

    /// Why the way through the steps leads past a step: another way was chosen, a repeat was given up, a wait missed.
    fn not_gone(self, step: &Step) -> Option<String> {
        self.not_chosen(step).or_else(|| self.not_repeated(step)).or_else(|| self.too_late(step))
    }

    fn not_chosen(self, step: &Step) -> Option<String> {
        let parent = step.parent.and_then(|parent| self.book.procedure.step(parent))?;
        let other = self.way(parent).filter(|way| *way != step.id);
        let number = other.and_then(|way| self.book.procedure.step(way)).map(|way| &way.number);
        number.map(|number| format!("{number} was chosen instead")).or_else(|| self.not_chosen(parent))
    }

    /// The way that was chosen at a step whose parts are ways.
    pub(in crate::run) fn way(self, step: &Step) -> Option<StepId> {
        let (way, _) = self.said(step.id).way?;
        step.alternatives.is_some().then_some(way)
    }

    fn too_late(self, step: &Step) -> Option<String> {
        let missed = step.needs.iter().find(|wait| self.misses(step, wait));
        let own = missed.map(|wait| {
            format!("the time was missed: {}", self.book.procedure.what(wait).unwrap_or_default())
        });
        own.or_else(|| {
            let parent = step.parent.and_then(|parent| self.book.procedure.step(parent))?;
            self.too_late(parent)
        })
    }

    /// The reason why a person left this step, or one that it is a part of, out.
    pub(in crate::run) fn left_out(self, step: &Step) -> Option<&'run str> {
        let parent = || step.parent.and_then(|parent| self.book.procedure.step(parent));
        match &self.said(step.id).left_out {
            Some((reason, _)) => Some(reason),
            None => self.left_out(parent()?),
        }
    }

    /// Whether everything that a step asks for is there. Says nothing of whether it applies.
    pub fn is_complete(self, step: &Step) -> bool {
        self.remembered(Fact::Complete, step, |view, step| {
            view.is_complete_once(step) && step.repeat.as_ref().is_none_or(|repeat| view.is_over(repeat))
        })
    }

    /// Whether somebody said that a step is done, in its present pass.
    pub(in crate::run) fn is_said_done(self, step: StepId) -> bool {
        self.said(step).done.is_some()
    }

    /// Whether everything that one pass of a step asks for is there.
    pub(in crate::run) fn is_complete_once(self, step: &Step) -> bool {
        self.is_worked(step) && self.is_looked_over(step)
    }

    /// Whether the work of one pass of a step is done, whoever has still to look at it.
    pub(in crate::run) fn is_worked(self, step: &Step) -> bool {
        self.remembered(Fact::Worked, step, Self::has_all_of_its_work)
    }

    fn has_all_of_its_work(self, step: &Step) -> bool {
        let said = !step.needs_a_word() || self.is_said_done(step.id);
        said && self.critical_was_typed(step)
            && step.hold.as_ref().is_none_or(|hold| self.is_passed(hold, step.id))
            && step.takes.iter().all(|reading| self.is_taken(reading))
            && step.fasteners.iter().all(|group| self.is_tightened(group))
            && step.takes.iter().chain(&step.computes).all(|name| self.result_stands(name))
            && step.groups.iter().flat_map(|group| &group.steps).all(|&part| self.part_is_settled(part))
    }

    fn part_is_settled(self, part: StepId) -> bool {
        self.book.procedure.step(part).is_none_or(|part| self.is_settled(part))
    }

    /// Whether a reading was taken and is not to be taken again.
    pub fn is_taken(self, reading: &Name) -> bool {
        let attempts = self.entered(reading).filter(|attempts| !attempts.taken.is_empty());
        attempts.is_some_and(|attempts| !attempts.is_again()) && !self.is_beyond(reading)
    }

    /// Whether a result lets the work go on: inside its limits, not judged, or accepted as a deviation.
    pub fn result_stands(self, name: &Name) -> bool {
        let judged = self.judge(name);
        if judged.as_ref().is_some_and(|judged| judged.judgement.awaits_opinion()) {
            return false;
        }
        let goes_on = |judged: &Judged| judged.judgement.lets_go_on() || self.has_its_path(judged, name);
        let accepted = || self.is_accepted(name) && !self.is_beyond(name);
        (judged.as_ref().is_some_and(goes_on) || accepted()) && self.second_stands(name)
    }

    /// Whether a result fails, and the procedure itself says how it goes on then. Beyond a ceiling nothing goes on.
    fn has_its_path(self, judged: &Judged, name: &Name) -> bool {
        let is_judged = !matches!(judged.judgement, Judgement::Beyond(_));
        is_judged && judged.judgement.is_known() && self.book.has_path_for_failed(name)
    }

    fn is_accepted(self, name: &Name) -> bool {
        let step = self.home(name);
        let accepted = step.and_then(|step| Said::last(&self.said(step).accepted, name));
        accepted.is_some_and(|accepted| {
            self.book.moved_by(name).iter().all(|behind| self.changed(behind) < accepted.stamp.seq)
        })
    }

    /// Whether somebody has begun with a step.
    pub fn is_begun(self, step: &Step) -> bool {
        let taken = step.takes.iter().any(|reading| self.is_taken(reading));
        let parts = step.groups.iter().flat_map(|group| &group.steps);
        taken
            || self.is_said_done(step.id)
            || step.fasteners.iter().any(|group| self.is_tightening_begun(group))
            || !self.said(step.id).hold.is_empty()
            || parts.filter_map(|&part| self.book.procedure.step(part)).any(|part| self.is_complete(part))
    }

    /// The state that a step is shown in, given the step that is asked about now.
    pub fn status(self, step: &Step, current: Option<StepId>) -> Status {
        let why_not = self.not_applicable_because(step);
        match (why_not, self.is_touched(step)) {
            (Some(why), false) => return Status::NotApplicable(why),
            (None, _) | (Some(_), true) if self.is_complete(step) => return Status::Done,
            (Some(why), true) => return Status::NotFinished(why),
            (None, _) => {}
        }
        let results = step.takes.iter().filter(|reading| self.is_taken(reading)).chain(&step.computes);
        if results.clone().count() > 0 && results.clone().any(|name| self.has_failed(name)) {
            return Status::Failed;
        }
        if let Some(why) = self.set_aside_because(step).filter(|_| self.is_touched(step)) {
            return Status::NotFinished(why);
        }
        if current == Some(step.id) {
            return Status::Current;
        }
        if let Some(deferral) = self.deferral(step) {
            return Status::Deferred(deferral.before);
        }
        if self.reopened(step).is_some() { Status::Reopened } else { Status::NotStarted }
    }

    /// Why the occurrence of a step that is seen was set aside, or is of a pass that does not count.
    fn set_aside_because(self, step: &Step) -> Option<String> {
        match self.set_aside(self.find(Part::Step(step.id))?)? {
            PassEnd::SetAside(reason) | PassEnd::Invalid(reason) | PassEnd::GivenUp(reason) => {
                Some(reason.clone())
            }
            PassEnd::Counts => None,
        }
    }

    pub(in crate::run) fn has_failed(self, name: &Name) -> bool {
        let is_reading = self.book.procedure.reading(name).is_some();
        if is_reading && (!self.is_taken(name) || self.is_blind(name)) {
            return false;
        }
        let judged = self.judge(name);
        let is_known = judged.is_some_and(|judged| judged.judgement.is_known());
        is_known && !self.result_stands(name)
    }

    /// Why a step is not applicable; none where it is.
    pub fn not_applicable_because(self, step: &Step) -> Option<String> {
        if let Some(reason) = self.left_out(step) {
            return Some(reason.to_owned());
        }
        match self.applies(step) {
            Applies::Yes => self.not_gone(step),
            Applies::No(condition) => Some(self.asked_at(step.id).why_not(&condition)),
        }
    }

    fn why_not(self, condition: &Name) -> String {
        format!("condition not met: {}", self.condition_shown(condition))
    }

    /// A condition in words, with what decided it: `look of the oil is "milky" (it is "clear")`.
    pub fn condition_shown(self, condition: &Name) -> String {
        let declared = self.book.procedure.condition(condition);
        let formula = declared.and_then(Condition::formula);
        if let Some(declared) = declared.filter(|_| formula.is_none()) {
            let words = self.book.procedure.condition_words(declared);
            let is_known = self.condition(condition).is_some();
            return if is_known { words } else { format!("{words}: not known yet") };
        }
        let outcome = formula.and_then(|formula| formula.explained(&self.known()).ok());
        match (outcome, formula) {
            (Some(outcome), _) => outcome.trace.said(&|name| self.book.procedure.spoken(name)).to_string(),
            (None, Some(formula)) => self.not_worked_out(formula),
            (None, None) => condition.to_string(),
        }
    }

    fn not_worked_out(self, formula: &Typed) -> String {
        let known = self.known();
        let words = formula.in_words(&|name| self.book.procedure.spoken(name));
        match formula.evaluate(&known) {
            Err(problem @ EvalProblem::NoNumber { .. }) => {
                format!("whether {words} cannot be worked out: {}", known.in_words(&problem))
            }
            _ => format!("whether {words} cannot be worked out yet"),
        }
    }

    /// Whether nothing is left to do in a section, but for calling it complete.
    pub(in crate::run) fn is_section_settled(self, section: SectionId) -> bool {
        let groups = self.book.procedure.section(section).map(|section| section.groups.as_slice());
        let mut steps = groups.unwrap_or_default().iter().flat_map(|group| self.steps_of(group));
        steps.all(|step| self.is_settled(step))
    }

    /// Whether a section was called complete, and nothing was done in it since.
    pub(in crate::run) fn is_called_complete(self, section: SectionId) -> bool {
        let called = self.said_of_section(section).complete.as_ref();
        called.is_some_and(|called| called.seq > self.last_work_in(section))
            && self.is_section_settled(section)
    }

    /// The last entry of work in a section; what is verified anew is none.
    fn last_work_in(self, section: SectionId) -> u64 {
        let steps = self.book.procedure.steps_in(section).filter(|step| step.hold.is_none());
        steps.filter_map(|step| self.own_work(step)).map(|stamp| stamp.seq).max().unwrap_or_default()
    }

    /// The steps of a group, in the order of the text.
    pub(in crate::run) fn steps_of(self, group: &'run Group) -> impl Iterator<Item = &'run Step> {
        group.steps.iter().filter_map(move |&id| self.book.procedure.step(id))
    }
}

impl Step {
    /// Whether only a person's word completes it: it takes nothing, holds nothing, tightens nothing and has no parts.
    pub fn needs_a_word(&self) -> bool {
        self.hold.is_none() && self.takes.is_empty() && self.fasteners.is_empty() && self.groups.is_empty()
    }
}
