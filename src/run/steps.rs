//! Steps: which apply, which are complete, and the state that each is shown in.

use super::state::Verification;
use super::view::View;
use crate::formula::Value;
use crate::procedure::{Group, Name, SectionId, Step, StepId};

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
    /// Put off, at the latest until just before this step.
    Deferred(StepId),
    /// Not applicable, because of this.
    NotApplicable(String),
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
            Self::Failed => "failed",
            Self::Reopened => "reopened",
        }
    }
}

impl<'run> View<'run> {
    /// Whether a step applies: its own conditions, its section's and those of the step it is a part of.
    pub fn applies(self, step: &Step) -> Applies {
        let procedure = &self.book.procedure;
        let own = step.conditions.iter().find(|name| self.is_false(name));
        if let Some(name) = own {
            return Applies::No(name.clone());
        }
        match step.parent.and_then(|parent| procedure.step(parent)) {
            Some(parent) => self.applies(parent),
            None => self.section_applies(step.section),
        }
    }

    fn section_applies(self, section: SectionId) -> Applies {
        let section = self.book.procedure.section(section);
        let unmet = section.and_then(|section| section.conditions.iter().find(|name| self.is_false(name)));
        unmet.map_or(Applies::Yes, |name| Applies::No(name.clone()))
    }

    fn is_false(self, condition: &Name) -> bool {
        let condition = self.book.procedure.condition(condition);
        let outcome = condition.and_then(|condition| condition.formula.evaluate(&self.known()).ok());
        matches!(outcome.map(|outcome| outcome.value), Some(Value::Truth(false)))
    }

    /// Whether nothing is left to do on a step: complete, or not applicable.
    pub fn is_settled(self, step: &Step) -> bool {
        self.is_not_applicable(step) || self.is_complete(step)
    }

    fn is_not_applicable(self, step: &Step) -> bool {
        self.left_out(step).is_some() || !self.applies(step).is_yes()
    }

    /// The reason why a person left this step, or one that it is a part of, out.
    pub(super) fn left_out(self, step: &Step) -> Option<&'run str> {
        let own = self.state.not_applicable.get(&step.id);
        let parent = || step.parent.and_then(|parent| self.book.procedure.step(parent));
        match own {
            Some(reason) => Some(reason),
            None => self.left_out(parent()?),
        }
    }

    /// Whether everything that a step asks for is there. Says nothing of whether it applies.
    pub fn is_complete(self, step: &Step) -> bool {
        let said = !step.needs_a_word() || self.state.done.contains(&step.id);
        said && step.hold.as_ref().is_none_or(|hold| self.is_passed(hold))
            && step.takes.iter().all(|reading| self.is_taken(reading))
            && step.takes.iter().chain(&step.computes).all(|name| self.result_stands(name))
            && step.groups.iter().flat_map(|group| &group.steps).all(|&part| self.part_is_settled(part))
    }

    fn part_is_settled(self, part: StepId) -> bool {
        self.book.procedure.step(part).is_none_or(|part| self.is_settled(part))
    }

    /// Whether a reading was taken and is not to be taken again.
    pub fn is_taken(self, reading: &Name) -> bool {
        self.state.readings.contains_key(reading) && !self.state.again.contains(reading)
    }

    /// Whether a result lets the work go on: inside its limits, not judged, or accepted as a deviation.
    pub fn result_stands(self, name: &Name) -> bool {
        let judged = self.book.judge(self.state, name);
        judged.is_some_and(|judged| judged.judgement.lets_go_on()) || self.is_accepted(name)
    }

    fn is_accepted(self, name: &Name) -> bool {
        let acceptance = self.state.accepted.get(name);
        acceptance.is_some_and(|acceptance| {
            acceptance.rests_on.iter().all(|(reading, attempts)| self.state.attempts(reading) == *attempts)
        })
    }

    /// Whether somebody has begun with a step.
    pub fn is_begun(self, step: &Step) -> bool {
        let taken = step.takes.iter().any(|reading| self.is_taken(reading));
        let confirmed = step.hold.as_ref().and_then(|hold| self.verification(hold));
        let parts = step.groups.iter().flat_map(|group| &group.steps);
        taken
            || confirmed.is_some_and(|verification| *verification != Verification::default())
            || parts.filter_map(|&part| self.book.procedure.step(part)).any(|part| self.is_complete(part))
    }

    /// The state that a step is shown in, given the step that is asked about now.
    pub fn status(self, step: &Step, current: Option<StepId>) -> Status {
        if let Some(why) = self.not_applicable_because(step) {
            return Status::NotApplicable(why);
        }
        if self.is_complete(step) {
            return Status::Done;
        }
        let results = step.takes.iter().filter(|reading| self.is_taken(reading)).chain(&step.computes);
        if results.clone().count() > 0 && results.clone().any(|name| self.has_failed(name)) {
            return Status::Failed;
        }
        if current == Some(step.id) {
            return Status::Current;
        }
        if let Some(deferral) = self.state.deferred.get(&step.id) {
            return Status::Deferred(deferral.before);
        }
        let reopened = self.state.reopened.contains(&step.id);
        if reopened { Status::Reopened } else { Status::NotStarted }
    }

    fn has_failed(self, name: &Name) -> bool {
        let known = self.book.rests_on(name).iter().all(|reading| self.is_taken(reading));
        known && !self.result_stands(name)
    }

    fn not_applicable_because(self, step: &Step) -> Option<String> {
        if let Some(reason) = self.left_out(step) {
            return Some(reason.to_owned());
        }
        match self.applies(step) {
            Applies::Yes => None,
            Applies::No(condition) => Some(self.why_not(&condition)),
        }
    }

    fn why_not(self, condition: &Name) -> String {
        format!("condition not met: {}", self.condition_shown(condition))
    }

    /// A condition with its inputs and what it came to: `look == "milky" = "clear" == "milky" = false`.
    pub fn condition_shown(self, condition: &Name) -> String {
        let formula = self.book.procedure.condition(condition).map(|condition| &condition.formula);
        let outcome = formula.and_then(|formula| formula.evaluate(&self.known()).ok());
        match (outcome, formula) {
            (Some(outcome), _) => outcome.trace.show(),
            (None, Some(formula)) => format!("{} cannot be worked out yet", formula.text()),
            (None, None) => condition.to_string(),
        }
    }

    /// The steps of a group, in the order of the text.
    pub(super) fn steps_of(self, group: &'run Group) -> impl Iterator<Item = &'run Step> {
        group.steps.iter().filter_map(move |&id| self.book.procedure.step(id))
    }
}

impl Step {
    /// Whether only a person's word completes it: it takes nothing, holds nothing and has no parts.
    pub fn needs_a_word(&self) -> bool {
        self.hold.is_none() && self.takes.is_empty() && self.groups.is_empty()
    }
}
