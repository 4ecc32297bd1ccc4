//! Steps: which apply, which are complete, and the state that each is shown in.

use super::judge::{Judged, Judgement};
use super::repeats::Scope;
use super::state::{Before, Verification};
use super::view::View;
use crate::procedure::{Condition, Group, Name, SectionId, Step, StepId};

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
        self.known().condition(condition) == Some(false)
    }

    /// Whether nothing is left to do on a step: complete, or not applicable.
    pub fn is_settled(self, step: &Step) -> bool {
        self.is_not_applicable(step) || self.is_complete(step)
    }

    pub(super) fn is_not_applicable(self, step: &Step) -> bool {
        self.left_out(step).is_some() || !self.applies(step).is_yes() || self.not_gone(step).is_some()
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
    pub(super) fn way(self, step: &Step) -> Option<StepId> {
        let (way, seq) = self.state.chosen.get(&step.id)?;
        (step.alternatives.is_some() && self.state.counts(step.id, *seq)).then_some(*way)
    }

    fn too_late(self, step: &Step) -> Option<String> {
        let missed = step.needs.iter().find(|wait| {
            let stamp = self.state.missed.get(*wait);
            let done = self.state.completed.get(&step.id).map(|stamp| stamp.seq);
            stamp.is_some_and(|stamp| {
                self.state.counts(step.id, stamp.seq) && done.is_none_or(|done| done > stamp.seq)
            })
        });
        let own = missed.map(|wait| {
            format!("the time was missed: {}", self.book.procedure.what(wait).unwrap_or_default())
        });
        own.or_else(|| {
            let parent = step.parent.and_then(|parent| self.book.procedure.step(parent))?;
            self.too_late(parent)
        })
    }

    /// The reason why a person left this step, or one that it is a part of, out.
    pub(super) fn left_out(self, step: &Step) -> Option<&'run str> {
        let own = self.state.not_applicable.get(&step.id);
        let parent = || step.parent.and_then(|parent| self.book.procedure.step(parent));
        match own {
            Some((reason, seq)) if self.state.counts(step.id, *seq) => Some(reason),
            _ => self.left_out(parent()?),
        }
    }

    /// Whether everything that a step asks for is there. Says nothing of whether it applies.
    pub fn is_complete(self, step: &Step) -> bool {
        self.is_complete_once(step) && step.repeat.as_ref().is_none_or(|repeat| self.is_over(repeat))
    }

    /// Whether somebody said that a step is done, in its present pass.
    pub(super) fn is_said_done(self, step: StepId) -> bool {
        self.state.done.get(&step).is_some_and(|seq| self.state.counts(step, *seq))
    }

    /// Whether everything that one pass of a step asks for is there.
    pub(super) fn is_complete_once(self, step: &Step) -> bool {
        self.is_worked(step) && self.is_looked_over(step)
    }

    /// Whether the work of one pass of a step is done, whoever has still to look at it.
    pub(super) fn is_worked(self, step: &Step) -> bool {
        let said = !step.needs_a_word() || self.is_said_done(step.id);
        said && self.critical_was_typed(step)
            && step.hold.as_ref().is_none_or(|hold| self.is_passed(hold))
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
        self.state.latest(reading).is_some() && !self.state.again.contains(reading)
    }

    /// Whether a result lets the work go on: inside its limits, not judged, or accepted as a deviation.
    pub fn result_stands(self, name: &Name) -> bool {
        let judged = self.book.judge(self.state, name);
        let goes_on = |judged: &Judged| judged.judgement.lets_go_on() || self.has_its_path(judged, name);
        let accepted = self.is_accepted(name) && !self.is_beyond(name);
        (judged.as_ref().is_some_and(goes_on) || accepted) && self.second_stands(name)
    }

    /// Whether a result fails, and the procedure itself says how it goes on then. Beyond a ceiling nothing goes on.
    fn has_its_path(self, judged: &Judged, name: &Name) -> bool {
        let is_judged = !matches!(judged.judgement, Judgement::Unknown(_) | Judgement::Beyond(_));
        is_judged && self.book.has_path_for_failed(name)
    }

    fn is_accepted(self, name: &Name) -> bool {
        let acceptance = self.state.accepted.get(name);
        acceptance.is_some_and(|acceptance| {
            acceptance.rests_on.iter().all(|(behind, entries)| self.state.entries(behind) == *entries)
        })
    }

    /// Whether somebody has begun with a step.
    pub fn is_begun(self, step: &Step) -> bool {
        let taken = step.takes.iter().any(|reading| self.is_taken(reading));
        let confirmed = step.hold.as_ref().and_then(|hold| self.verification(hold));
        let parts = step.groups.iter().flat_map(|group| &group.steps);
        taken
            || self.is_said_done(step.id)
            || step.fasteners.iter().any(|group| self.is_tightening_begun(group))
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

    pub(super) fn has_failed(self, name: &Name) -> bool {
        let is_known = |reading: &Name| self.is_taken(reading) && !self.is_blind(reading);
        self.book.rests_on(name).iter().all(is_known) && !self.result_stands(name)
    }

    pub(super) fn not_applicable_because(self, step: &Step) -> Option<String> {
        if let Some(reason) = self.left_out(step) {
            return Some(reason.to_owned());
        }
        match self.applies(step) {
            Applies::Yes => self.not_gone(step),
            Applies::No(condition) => Some(self.why_not(&condition)),
        }
    }

    fn why_not(self, condition: &Name) -> String {
        format!("condition not met: {}", self.condition_shown(condition))
    }

    /// A condition with its inputs and what it came to: `look == "milky" = "clear" == "milky" = false`.
    pub fn condition_shown(self, condition: &Name) -> String {
        let declared = self.book.procedure.condition(condition);
        let formula = declared.and_then(Condition::formula);
        if let Some(declared) = declared.filter(|_| formula.is_none()) {
            let words = self.book.procedure.condition_words(declared);
            let is_known = self.known().condition(condition).is_some();
            return if is_known { words } else { format!("{words}: not known yet") };
        }
        let outcome = formula.and_then(|formula| formula.explained(&self.known()).ok());
        match (outcome, formula) {
            (Some(outcome), _) => outcome.trace.show(),
            (None, Some(formula)) => format!("{} cannot be worked out yet", formula.text()),
            (None, None) => condition.to_string(),
        }
    }

    /// Whether nothing is left to do in a section, but for calling it complete.
    pub(super) fn is_section_settled(self, section: SectionId) -> bool {
        let groups = self.book.procedure.section(section).map(|section| section.groups.as_slice());
        let mut steps = groups.unwrap_or_default().iter().flat_map(|group| self.steps_of(group));
        steps.all(|step| self.is_settled(step))
    }

    /// The entry after which a section's present pass began.
    pub(super) fn section_begins(self, section: SectionId) -> u64 {
        let repeat = self.book.procedure.section(section).and_then(|section| section.repeat.as_ref());
        let rounds = repeat.and_then(|repeat| self.rounds(repeat)).map(|rounds| rounds.begin);
        let moved = self.state.moved.iter().filter(|moved| moved.scope == Scope::Section(section));
        let moved = moved.map(|moved| moved.stamp.seq).max();
        rounds.max(moved).unwrap_or_default()
    }

    /// The steps of a group, in the order of the text.
    pub(super) fn steps_of(self, group: &'run Group) -> impl Iterator<Item = &'run Step> {
        group.steps.iter().filter_map(move |&id| self.book.procedure.step(id))
    }
}

impl Step {
    /// Whether only a person's word completes it: it takes nothing, holds nothing, tightens nothing and has no parts.
    pub fn needs_a_word(&self) -> bool {
        self.hold.is_none() && self.takes.is_empty() && self.fasteners.is_empty() && self.groups.is_empty()
    }
}
