//! What to ask next: the first thing, in the order of the text, that is not there yet.

use crate::procedure::{Group, LevelOfUse, Name, Order, Section, SectionId, Step, StepId};
use crate::run::flow::event::FlowAsk;
use crate::run::prompt::{Ask, Prompt};
use crate::run::sitting::event::InterruptionAsk;
use crate::run::state::Sitting;
use crate::run::view::View;
use crate::run::work::part::Part;
use crate::run::work::taken::{Before, Deferral};

impl<'run> View<'run> {
    /// A question, asked from here; at a hold point from its own step: what it reads is read at each of its steps.
    pub(super) fn prompt(self, ask: Ask, step: Option<StepId>) -> Prompt {
        let at_hold =
            step.filter(|step| self.book.procedure.step(*step).is_some_and(|step| step.hold.is_some()));
        let within = at_hold.and_then(|step| self.find(Part::Step(step))).unwrap_or(self.within);
        Prompt { ask, step, within }
    }

    /// The question that the run stands at. There always is one; a closed run is at [`Ask::Finished`].
    pub fn next(self) -> Prompt {
        self.ask_of_sitting().unwrap_or_else(|| self.ahead())
    }

    /// The question that the work stands at, whoever is there.
    pub fn ahead(self) -> Prompt {
        let of_run = |ask| self.prompt(ask, None);
        self.ask_who_is_there()
            .or_else(|| self.ask_to_begin())
            .or_else(|| self.ask_approval())
            .map(of_run)
            .or_else(|| self.ask_recheck())
            .or_else(|| self.ask_of_steps().map(|prompt| self.briefed_first(prompt)))
            .unwrap_or_else(|| of_run(self.ask_to_end()))
    }

    /// The step that the work goes on at, whatever has to be verified or looked at again before.
    pub fn next_step(self) -> Option<&'run Step> {
        let asked = self.ask_of_steps().and_then(|prompt| self.book.procedure.step(prompt.step?));
        let open = |step: &&Step| step.groups.is_empty() && self.is_open(step);
        asked.filter(|step| !self.is_settled(step)).or_else(|| self.book.procedure.steps().iter().find(open))
    }

    /// The step that the run stands at, also while nobody is there; of a list whose order is free the first one left.
    pub fn step_stood_at(self) -> Option<&'run Step> {
        if self.state.closed.is_some() {
            return None;
        }
        let Prompt { ask, step, .. } = self.ahead();
        let first_left = || match ask {
            Ask::Pick(steps) => steps.first().copied(),
            _ => None,
        };
        let asked = step.or_else(first_left).and_then(|step| self.book.procedure.step(step));
        asked.or_else(|| self.next_step().filter(|_| self.ask_to_begin().is_none()))
    }

    fn ask_of_sitting(self) -> Option<Prompt> {
        let of_run = |ask| self.prompt(ask, None);
        match (&self.state.closed, self.state.sitting) {
            (Some(_), _) => Some(of_run(Ask::Finished)),
            (None, Sitting::Resting) => Some(self.ask_to_leave().unwrap_or(of_run(Ask::Resting))),
            (None, Sitting::Briefing) => {
                Some(of_run(self.ask_standing().map_or(Ask::Brief, Ask::Interruption)))
            }
            (None, Sitting::Working) => None,
        }
    }

    pub(super) fn ask_to_begin(self) -> Option<Ask> {
        let procedure = &self.book.procedure;
        let role = procedure.roles().names().find(|role| self.state.people.get(role).is_none());
        let is_asked = procedure.header().odometer && self.state.odometer.is_none();
        let odometer = || is_asked.then_some(Ask::Odometer);
        let value = || procedure.vehicle().names().find(|name| !self.knows_of_vehicle(name));
        role.map(|role| Ask::Person(role.clone()))
            .or_else(odometer)
            .or_else(|| value().map(|name| Ask::VehicleValue(name.clone())))
            .or_else(|| self.ask_required().map(Ask::Interruption))
    }

    fn knows_of_vehicle(self, name: &Name) -> bool {
        let sheet = self.book.sheet.as_ref();
        self.state.vehicle.contains_key(name)
            || sheet.is_some_and(|sheet| sheet.value(name.as_str()).is_some())
    }

    fn ask_to_end(self) -> Ask {
        let close_up = self.ask_close_up().map(Ask::Interruption);
        let dispose = || self.state.undisposed().next().map(|(deviation, _)| Ask::Dispose(deviation));
        close_up.or_else(dispose).or_else(|| self.ask_loose_end()).unwrap_or(Ask::Close)
    }

    fn ask_approval(self) -> Option<Ask> {
        let (step, _) = self.state.interruption.to_approve.as_ref()?;
        Some(Ask::Interruption(InterruptionAsk::Approval(*step)))
    }

    pub(super) fn ask_of_steps(self) -> Option<Prompt> {
        let sections = self.book.procedure.sections();
        let mut sections = sections.iter().enumerate();
        let in_order = sections.find_map(|(place, section)| self.ask_section(SectionId(place), section));
        self.ask_unsettled().or(in_order).or_else(|| self.ask_deferred(None))
    }

    fn ask_section(self, id: SectionId, section: &'run Section) -> Option<Prompt> {
        self.ask_work(id, section)
            .or_else(|| self.ask_row_of_section(id, section))
            .or_else(|| self.ask_groups(&section.groups))
            .or_else(|| self.ask_deferred_to_end(id))
            .or_else(|| self.ask_end_of_section(id, section))
    }

    /// A section that is done and then confirmed: nothing in it has to be led step by step.
    fn ask_work(self, id: SectionId, section: &'run Section) -> Option<Prompt> {
        let performed = self.said_of_section(id).performed.is_some();
        let row = section.repeat.as_ref().and_then(|repeat| self.ask_row(repeat));
        if section.level == LevelOfUse::Continuous || row.is_some() || performed || !self.can_be_confirmed(id)
        {
            return None;
        }
        let first =
            section.groups.iter().flat_map(|group| self.steps_of(group)).find(|step| self.is_open(step))?;
        Some(self.ask_before(first, || self.prompt(Ask::Flow(FlowAsk::Perform(id)), None)))
    }

    /// A section that is a log waits until its next row is due.
    fn ask_row_of_section(self, id: SectionId, section: &'run Section) -> Option<Prompt> {
        let ask = self.ask_row(section.repeat.as_ref()?)?;
        let mut steps = self.book.procedure.steps_in(id);
        let first = steps.find(|step| self.is_open(step))?;
        Some(self.ask_before(first, || self.prompt(ask, Some(first.id))))
    }

    /// A question before a step: what was put off until then and the hold points over it come first.
    fn ask_before(self, step: &Step, prompt: impl FnOnce() -> Prompt) -> Prompt {
        self.ask_deferred(Some(step.id)).unwrap_or_else(|| self.under_holds(step, prompt))
    }

    /// Whether the steps of a section can be done before any of them is confirmed: no hold point, critical act, wait,
    /// DANGER or WARNING among them.
    fn can_be_confirmed(self, id: SectionId) -> bool {
        let section = self.book.procedure.section(id).into_iter();
        let mut hazards = section.flat_map(|section| &section.hazards);
        let mut steps = self.book.procedure.steps_in(id);
        !hazards.any(|hazard| self.demands_a_word(hazard))
            && steps.all(|step| {
                let led = step.hold.is_some()
                    || !step.fasteners.is_empty()
                    || !step.witnesses.is_empty()
                    || !step.critical.is_empty()
                    || !step.needs.is_empty();
                !led && !step.hazards.iter().any(|hazard| self.demands_a_word(hazard))
            })
    }

    /// The end of a pass, or of a section of which something was to be done.
    fn ask_end_of_section(self, id: SectionId, section: &'run Section) -> Option<Prompt> {
        let settled = self.is_section_settled(id);
        let mut steps = self.book.procedure.steps_in(id);
        if !settled || !steps.any(|step| !self.is_not_applicable(step)) {
            return None;
        }
        let ask = match &section.repeat {
            Some(repeat) => self.ask_end_of_pass(repeat)?,
            None if !self.is_end_asked(id, section) || self.is_called_complete(id) => return None,
            None => FlowAsk::SectionComplete(id),
        };
        Some(self.prompt(Ask::Flow(ask), None))
    }

    /// Whether somebody calls a section complete: where the job can be left after it, and where it is done in another way
    /// than its procedure. Elsewhere the next step is all the look back that is needed.
    fn is_end_asked(self, id: SectionId, section: &Section) -> bool {
        let procedure = &self.book.procedure;
        let done = procedure.steps_in(id).filter(|step| !self.is_not_applicable(step));
        section.level != procedure.header().level_of_use
            || done.last().is_some_and(|last| self.can_rest_after(last))
    }

    fn ask_end_of_pass(self, repeat: &Name) -> Option<FlowAsk> {
        match self.round(repeat).and_then(|round| round.over) {
            None => Some(FlowAsk::PassEnd(repeat.clone())),
            Some(_) if self.is_over(repeat) => None,
            Some(_) => Some(FlowAsk::Exhausted(repeat.clone())),
        }
    }

    fn ask_groups(self, groups: &'run [Group]) -> Option<Prompt> {
        groups.iter().find_map(|group| match group.order {
            Order::InOrder => self.steps_of(group).find_map(|step| self.ask_step(step)),
            Order::AnyOrder => self.ask_any_order(group),
        })
    }

    /// A hold point comes before its neighbours even where their order is free.
    fn ask_any_order(self, group: &'run Group) -> Option<Prompt> {
        let asks: Vec<(&Step, Prompt)> =
            self.steps_of(group).filter_map(|step| Some((step, self.ask_step(step)?))).collect();
        let picked =
            |step: &Step| self.state.picked.is_some_and(|picked| self.book.is_within(picked, step.id));
        let first = asks
            .iter()
            .find(|(step, _)| step.hold.is_some())
            .or_else(|| asks.iter().find(|(step, _)| picked(step)))
            .or_else(|| asks.iter().find(|(step, _)| self.is_begun(step)));
        match (first, &asks[..]) {
            (Some((_, prompt)), _) | (None, [(_, prompt)]) => Some(prompt.clone()),
            (None, []) => None,
            (None, [(first, _), ..]) => Some(self.under_holds(first, || {
                let choice = asks.iter().map(|(step, _)| step.id).collect();
                self.prompt(Ask::Pick(choice), None)
            })),
        }
    }

    fn is_open(self, step: &Step) -> bool {
        !self.is_settled(step) && self.deferral(step).is_none()
    }

    fn ask_step(self, step: &'run Step) -> Option<Prompt> {
        if !self.is_open(step) {
            return None;
        }
        self.ask_deferred(Some(step.id)).or_else(|| self.ask_open_step(step))
    }

    /// The first deferred step that has to be done before `step`, or at all.
    fn ask_deferred(self, step: Option<StepId>) -> Option<Prompt> {
        let procedure = &self.book.procedure;
        let due = |before: Before| match (step, before) {
            (None, _) => true,
            (Some(step), Before::Step(before)) => before <= step,
            (Some(step), Before::EndOf(section)) => {
                procedure.step(step).is_some_and(|step| step.section > section)
            }
        };
        self.ask_put_off(due)
    }

    /// What comes back at the end of a section, where everything else of it is done.
    fn ask_deferred_to_end(self, section: SectionId) -> Option<Prompt> {
        self.ask_put_off(|before| before == Before::EndOf(section))
    }

    /// The first deferred step whose time has come.
    fn ask_put_off(self, due: impl Fn(Before) -> bool) -> Option<Prompt> {
        let steps = self.book.procedure.steps().iter();
        let deferred = steps.filter(|step| self.deferral(step).is_some_and(|deferral| due(deferral.before)));
        deferred.filter(|step| !self.is_settled(step)).find_map(|step| self.ask_open_step(step))
    }

    /// That a step is put off. Once something of it is done after that, it is put off no more.
    pub fn deferral(self, step: &Step) -> Option<&'run Deferral> {
        let put_off = self.said(step.id).put_off.as_ref()?;
        let worked = self.last_touched(step).is_some_and(|worked| worked > put_off.stamp.seq);
        (!worked).then_some(put_off)
    }

    /// A decision about a result needs nobody at the vehicle; everything else is asked under its hold points.
    pub(super) fn ask_open_step(self, step: &'run Step) -> Option<Prompt> {
        let of_people = if self.ask_wait(step).is_none() { self.ask_witness(step) } else { None };
        let of_people = of_people.or_else(|| step.takes.iter().find_map(|name| self.ask_second(name)));
        if let Some(ask) = of_people {
            return Some(self.under_holds(step, || self.prompt(ask, Some(step.id))));
        }
        if let Some(name) = self.failed_result(step) {
            return Some(self.prompt(Ask::Failed(name.clone()), Some(step.id)));
        }
        if let Some(ask) = self.ask_opinions(step) {
            return Some(self.under_holds(step, || self.prompt(ask, Some(step.id))));
        }
        let prompt = self
            .ask_row_of_step(step)
            .or_else(|| self.ask_about(step))
            .map(|ask| self.prompt(ask, Some(step.id)))
            .or_else(|| self.ask_parts(step))
            .or_else(|| Some(self.prompt(self.ask_look(step)?, Some(step.id))))
            .or_else(|| {
                let ask = self.ask_end_of_pass(step.repeat.as_ref()?)?;
                Some(self.prompt(Ask::Flow(ask), Some(step.id)))
            })?;
        Some(self.under_holds(step, || prompt))
    }

    fn ask_row_of_step(self, step: &Step) -> Option<Ask> {
        self.ask_row(step.repeat.as_ref()?)
    }

    /// Where the parts are ways, which one is chosen first.
    fn ask_parts(self, step: &'run Step) -> Option<Prompt> {
        if step.alternatives.is_some() && self.way(step).is_none() {
            let ways = step.groups.iter().flat_map(|group| self.steps_of(group));
            let ways: Vec<StepId> = ways.filter(|way| self.is_open(way)).map(|way| way.id).collect();
            if !ways.is_empty() {
                let ask = Ask::Flow(FlowAsk::Choose { step: step.id, ways });
                return Some(self.prompt(ask, Some(step.id)));
            }
        }
        self.ask_groups(&step.groups)
    }

    fn under_holds(self, step: &Step, prompt: impl FnOnce() -> Prompt) -> Prompt {
        let mut shut = self.governing(step).into_iter().filter(|(hold, at)| !self.stands_at(hold, at.id));
        shut.find_map(|(hold, at)| self.ask_again(hold, at)).unwrap_or_else(prompt)
    }

    /// Whoever goes back to verify a hold point goes back to its hazards: they come first, as the first time.
    pub(super) fn ask_again(self, hold: &Name, at: &Step) -> Option<Prompt> {
        let of_hold = self.ask_hold(hold, at.id)?;
        let ask = self.ask_hazard(at).unwrap_or(of_hold);
        Some(self.prompt(ask, Some(at.id)))
    }

    fn ask_about(self, step: &Step) -> Option<Ask> {
        self.ask_hazard(step)
            .or_else(|| self.ask_wait(step))
            .or_else(|| self.ask_critical(step).filter(|_| !self.is_complete_once(step)))
            .or_else(|| self.ask_hold(step.hold.as_ref()?, step.id))
            .or_else(|| self.ask_reading(step))
            .or_else(|| self.ask_tightening(step))
            .or_else(|| (step.needs_a_word() && !self.is_said_done(step.id)).then_some(Ask::Do))
    }

    fn failed_result(self, step: &Step) -> Option<&Name> {
        let fails = |name: &&Name| !self.result_stands(name) && !self.awaits_opinion(name);
        let taken = step.takes.iter().filter(|name| self.is_taken(name)).find(fails);
        let all_taken = step.takes.iter().all(|name| self.is_taken(name));
        let computed = || step.computes.iter().find(fails);
        taken.or_else(|| all_taken.then(computed).flatten())
    }

    fn ask_reading(self, step: &Step) -> Option<Ask> {
        let name = step.takes.iter().find(|name| !self.is_taken(name))?;
        self.ask_instrument_of(name).or_else(|| Some(Ask::Reading(name.clone())))
    }

    /// What comes after the step asked about: in a list whose order is free another of its steps, else in the order of
    /// the text; nothing where the pass ends that the step stands in: what comes then hangs on what it brings.
    pub fn after(self, current: StepId) -> Option<&'run Step> {
        if let Some(neighbour) = self.neighbour_left(current) {
            return Some(neighbour);
        }
        let later = self.book.procedure.steps().get(current.0 + 1..).unwrap_or_default();
        let no_parts = |step: &&Step| step.groups.is_empty();
        let step = later.iter().filter(no_parts).find(|step| !self.is_settled(step));
        let ends = |repeat: &&Name| {
            let part = self.book.part_of(repeat);
            !step.zip(part).is_some_and(|(step, part)| part.holds(&self.book.procedure, step.id))
        };
        let pass = self.book.repeats_over(Part::Step(current)).into_iter().next_back().filter(ends);
        step.filter(|_| pass.is_none())
    }

    /// The first step left of the list that a step stands in, where its order is free.
    fn neighbour_left(self, current: StepId) -> Option<&'run Step> {
        let procedure = &self.book.procedure;
        let step = procedure.step(current)?;
        let groups = match step.parent.and_then(|parent| procedure.step(parent)) {
            Some(parent) => parent.groups.as_slice(),
            None => procedure.section(step.section)?.groups.as_slice(),
        };
        let free = groups.iter().find(|group| group.steps.contains(&current));
        let free = free.filter(|group| group.order == Order::AnyOrder)?;
        let others = free.steps.iter().filter(|other| **other != current);
        others.filter_map(|other| procedure.step(*other)).find(|other| !self.is_settled(other))
    }
}
