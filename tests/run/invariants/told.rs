//! What the events alone tell, in the light of what the procedure declares: nothing here asks the code under test.

use bayhand::procedure::{CheckedProcedure, Criterion, Ground, Name, Passes, Step, StepId};
use bayhand::quantity::{Quantity, parse_literal};
use bayhand::run::{
    Answered, Event, FasteningEvent, FlowEvent, InterruptionEvent, Leave, Part, ParticularEvent, PeopleEvent,
    Stamp,
};
use jiff::ZonedDateTime;

use super::super::drive::Drive;

/// A procedure and what has happened in a run of it.
pub struct Told<'run> {
    pub procedure: &'run CheckedProcedure,
    pub events: &'run [(Event, Stamp)],
}

/// That something holds, or what does not.
pub type Holds = Result<(), String>;

impl<'run> Told<'run> {
    pub fn of(drive: &'run Drive) -> Self {
        Self { procedure: &drive.book.procedure, events: &drive.events }
    }

    /// What had happened before the newest event.
    fn before(&self) -> Self {
        let events = self.events.split_last().map_or(self.events, |(_, before)| before);
        Self { procedure: self.procedure, events }
    }

    fn newest(&self) -> &'run (Event, Stamp) {
        self.events.last().unwrap()
    }

    /// The newest event, held against what had happened before it.
    pub fn newest_keeps_the_rules(&self) -> Holds {
        let before = self.before();
        let Some(step) = self.worked_at() else { return Ok(()) };
        before.supports(step, &self.newest().1.at)?;
        before.critical_was_typed(step)?;
        before.instrument_is_known(self.tool_used(), &self.newest().1.at)?;
        before.waited_long_enough(step, self.newest())
    }

    /// Whether so many deviations belong to the newest event.
    pub fn newest_departs(&self, deviations: usize) -> bool {
        deviations == usize::from(departs(self.newest().0.itself()))
    }

    /// The step at which the newest event is work at the vehicle; none where it is not.
    fn worked_at(&self) -> Option<&'run Step> {
        let id = match self.newest().0.itself() {
            Event::Done(step) => Some(*step),
            Event::Read { reading, .. } | Event::People(PeopleEvent::SecondRead { reading, .. }) => {
                self.procedure.taken_at(reading)
            }
            Event::Fastening(FasteningEvent::Tightened { at, .. }) => self.group_at(&at.group),
            Event::Flow(FlowEvent::WorkDone(section)) => {
                self.procedure.steps_in(*section).next().map(|step| step.id)
            }
            _ => None,
        };
        self.procedure.step(id?)
    }

    /// The step at which a group of fasteners is tightened.
    pub fn group_at(&self, group: &Name) -> Option<StepId> {
        self.procedure.steps().iter().find(|step| step.fasteners.contains(group)).map(|step| step.id)
    }

    /// The steps that verify a hold point, in the order of the text.
    fn held_at(&self, hold: &str) -> Vec<&'run Step> {
        let steps = self.procedure.steps().iter();
        steps.filter(|step| step.hold.as_ref().is_some_and(|name| name.as_str() == hold)).collect()
    }

    /// Between the two hold points the vehicle is supported whenever somebody works at it.
    fn supports(&self, step: &Step, now: &ZonedDateTime) -> Holds {
        if step.id > self.held_at("down")[0].id {
            return Ok(());
        }
        let mut places: Vec<&Step> =
            self.held_at("support").into_iter().filter(|at| at.id < step.id).collect();
        // What stands under a condition may not apply: then the one before it counts.
        while let Some(place) = places.pop() {
            if self.supported(place, now) {
                return Ok(());
            }
            if self.is_free(place) {
                return Err(format!("work at {} while nothing supports the vehicle", step.number));
            }
        }
        Ok(())
    }

    /// Whether the support hold stands as it was verified at one of its steps: both people have released it there since
    /// it last lapsed or was ended, and its reading is good. It lapses on resume, stop and disturbance, with people, after
    /// 8 h, when the clock is set back, when a step before it is not as it was, and when something is read that must never
    /// be.
    fn supported(&self, place: &Step, now: &ZonedDateTime) -> bool {
        let is_here = |stamp: &Stamp| is_at(stamp, place);
        let mut signed: Vec<(&str, &ZonedDateTime)> = Vec::new();
        for (event, stamp) in self.events {
            match event.itself() {
                Event::Released { hold, role } if hold.as_str() == "support" && is_here(stamp) => {
                    signed.push((role.as_str(), &stamp.at));
                }
                event if self.shakes_support(event, place, stamp) && self.is_last_word(event, stamp) => {
                    signed.clear();
                }
                _ => {}
            }
        }
        let both = ["lead", "helper"].iter().all(|role| signed.iter().any(|(by, _)| by == role));
        let rated = self.entry_at("rating", is_here).is_some_and(|(rating, _)| rating >= 20.0);
        let age = signed.last().map(|(_, at)| at.duration_until(now));
        both && rated && age.is_some_and(|age| age.as_secs() >= -60 && age.as_hours() < 8)
    }

    /// Whether what was read then stands: what was entered wrongly and corrected was never so.
    fn is_last_word(&self, event: &Event, stamp: &Stamp) -> bool {
        let place = match event {
            Event::Corrected { entry, .. } => *entry,
            _ => stamp.seq,
        };
        let later = self.events.iter().filter(|(_, later)| later.seq > stamp.seq);
        let mut corrected = later.map(|(event, _)| event.itself());
        !corrected.any(|event| matches!(event, Event::Corrected { entry, .. } if *entry == place))
    }

    fn shakes_support(&self, event: &Event, place: &Step, stamp: &Stamp) -> bool {
        match event {
            Event::Released { hold, .. } => hold.as_str() == "down",
            Event::Confirmed { hold, .. } => hold.as_str() == "support" && is_at(stamp, place),
            Event::Left { how, .. } => *how == Leave::Stop,
            Event::Interruption(InterruptionEvent::NotSo { step, .. }) => *step < place.id,
            Event::Resumed { .. }
            | Event::Disturbed { .. }
            | Event::People(PeopleEvent::TakenOver { .. }) => true,
            Event::Read { reading, value } | Event::Corrected { reading, value, .. } => {
                self.is_beyond(reading, value)
            }
            Event::Flow(FlowEvent::Restarted { section, .. }) => *section == place.section,
            _ => false,
        }
    }

    fn is_beyond(&self, reading: &Name, value: &Answered) -> bool {
        let ceiling = self.procedure.reading(reading).and_then(|reading| reading.ceiling.as_ref());
        let above = ceiling.and_then(|ceiling| ceiling.never_above.as_ref());
        let above = above.and_then(|above| parse_literal(above.text()).ok());
        above.zip(number(value)).is_some_and(|(above, value)| value > above.number.to_f64())
    }

    /// What was last entered for a reading as an amount in its own unit, and when; corrections count.
    pub fn entry(&self, reading: &str) -> Option<(f64, u64)> {
        self.entry_at(reading, |_| true)
    }

    /// The same where it was entered there: the last word on the newest attempt.
    fn entry_at(&self, reading: &str, is_here: impl Fn(&Stamp) -> bool) -> Option<(f64, u64)> {
        let here = self.events.iter().filter(|(_, stamp)| is_here(stamp));
        let words = here.filter_map(|(event, stamp)| match event.itself() {
            Event::Read { reading: of, value } if of.as_str() == reading => {
                Some((stamp.seq, value, stamp.seq))
            }
            Event::Corrected { reading: of, value, entry, .. } if of.as_str() == reading => {
                Some((*entry, value, stamp.seq))
            }
            _ => None,
        });
        let (_, value, entered) = words.max_by_key(|(place, ..)| *place)?;
        Some((number(value)?, entered))
    }

    /// What cannot be undone is done only after its words were typed in the same sitting.
    fn critical_was_typed(&self, step: &Step) -> Holds {
        let sitting =
            self.events.iter().rev().take_while(|(event, _)| !matches!(event, Event::Resumed { .. }));
        let typed: Vec<&Name> = sitting
            .filter_map(|(event, _)| match event {
                Event::Particular(ParticularEvent::Typed { step: at, act, .. }) if *at == step.id => {
                    Some(act)
                }
                _ => None,
            })
            .collect();
        match step.critical.iter().find(|act| !typed.contains(act)) {
            Some(act) => Err(format!("{} done and nothing typed for {act}", step.number)),
            None => Ok(()),
        }
    }

    /// The calibrated tool that the newest event was done with.
    fn tool_used(&self) -> Option<&'run Name> {
        let tool = match self.newest().0.itself() {
            Event::Read { reading, .. } => self.procedure.reading(reading)?.instrument.as_ref()?,
            Event::Fastening(FasteningEvent::Tightened { at, .. }) => {
                let group = self.procedure.fastener_group(&at.group)?;
                // A stage that is done by feel needs no tool.
                group.stages[at.stage].criterion.as_ref()?;
                group.instrument.as_ref()?
            }
            _ => return None,
        };
        self.procedure.tool(tool)?.calibrated.then_some(tool)
    }

    /// A calibrated tool is used only after somebody has said on the same day which one it is; an overdue one only as a
    /// deviation.
    fn instrument_is_known(&self, tool: Option<&Name>, now: &ZonedDateTime) -> Holds {
        let Some(tool) = tool else { return Ok(()) };
        let mut known = None;
        for (event, stamp) in self.events {
            match event {
                Event::Particular(ParticularEvent::Instrument { tool: of, due, .. }) if of == tool => {
                    known = Some((stamp.at.date(), *due));
                }
                Event::Particular(ParticularEvent::OverdueAccepted { tool: of, .. }) if of == tool => {
                    known = known.map(|(day, _)| (day, jiff::civil::Date::MAX));
                }
                _ => {}
            }
        }
        match known {
            Some((day, due)) if day == now.date() && due >= day => Ok(()),
            known => Err(format!("{tool} used on {}: {known:?}", now.date())),
        }
    }

    /// A step that needs a wait is done neither before its shortest time is over nor, without a word about it, after its
    /// longest.
    fn waited_long_enough(&self, step: &Step, (event, stamp): &(Event, Stamp)) -> Holds {
        let Event::Done(_) = event else { return Ok(()) };
        for wait in &step.needs {
            let Some((began, stated)) = self.wait_began(wait) else { continue };
            let declared = self.procedure.wait(wait).unwrap();
            let over = |from: &ZonedDateTime, time: &Option<Quantity>| {
                time.as_ref().map(|time| from.duration_until(&stamp.at).as_secs_f64() - time.base().to_f64())
            };
            if over(began, &declared.at_least).is_some_and(|over| over < 0.0) {
                return Err(format!("{} done before {wait} was over", step.number));
            }
            let word = |event: &Event| match event {
                Event::LateAccepted { step: at, wait: of, .. } => *at == step.id && of == wait,
                _ => false,
            };
            let said = self.events.iter().any(|(event, _)| word(event));
            if !said && over(stated, &declared.at_most).is_some_and(|over| over > 0.0) {
                return Err(format!("{} done too late after {wait}, and nobody says so", step.number));
            }
        }
        Ok(())
    }

    /// When the step that starts a wait was last entered as done, and when it was done. Nothing where a person has left
    /// steps out, or begun them anew: then it has to be worked out which of them count.
    fn wait_began(&self, wait: &Name) -> Option<(&ZonedDateTime, &ZonedDateTime)> {
        let starts = self.procedure.steps().iter().find(|step| step.starts.contains(wait))?;
        if self.left_out(starts) {
            return None;
        }
        let (event, stamp) = self
            .since_begun_anew(starts)
            .rev()
            .find(|(event, _)| *event.itself() == Event::Done(starts.id))?;
        Some((&stamp.at, event.late().map_or(&stamp.at, |late| &late.done)))
    }

    /// The events since a step was last to be done anew by a person's word.
    pub fn since_begun_anew(&self, step: &Step) -> std::slice::Iter<'run, (Event, Stamp)> {
        let begun = self.events.iter().rposition(|(event, _)| self.begins_anew(event, step));
        self.events[begun.map_or(0, |begun| begun + 1)..].iter()
    }

    pub fn begins_anew(&self, event: &Event, step: &Step) -> bool {
        match event {
            Event::Flow(FlowEvent::Restarted { section, .. }) => *section == step.section,
            Event::Interruption(InterruptionEvent::NotSo { step: outer, .. })
            | Event::People(PeopleEvent::FoundWrong { step: outer, .. }) => self.is_within(step, *outer),
            _ => false,
        }
    }

    /// Whether a step is part of another, however deep, or is it.
    pub fn is_within(&self, step: &Step, outer: StepId) -> bool {
        let mut at = Some(step);
        while let Some(step) = at {
            if step.id == outer {
                return true;
            }
            at = step.parent.and_then(|parent| self.procedure.step(parent));
        }
        false
    }

    /// Whether the lead has agreed that a step, or one that it is part of, is left out.
    pub fn left_out(&self, step: &Step) -> bool {
        self.events.iter().any(|(event, _)| match event {
            Event::Interruption(InterruptionEvent::Approved { step: outer, .. }) => {
                self.is_within(step, *outer)
            }
            _ => false,
        })
    }

    /// A step and those that it is part of, the innermost first.
    fn around(&self, step: &'run Step) -> Vec<&'run Step> {
        let mut around = vec![step];
        while let Some(parent) = around.last().and_then(|step| self.procedure.step(step.parent?)) {
            around.push(parent);
        }
        around
    }

    /// The repeats that a step stands in, the innermost first.
    pub fn repeats_around(&self, step: &'run Step) -> Vec<&'run Name> {
        let section = self.procedure.section(step.section).unwrap();
        let around = self.around(step).into_iter();
        around.filter_map(|step| step.repeat.as_ref()).chain(&section.repeat).collect()
    }

    /// Whether a step is to be done whatever is read: no condition on it, its section or what it is part of, no way
    /// beside it, and nobody has left it out, given it up or missed its time.
    pub fn is_free(&self, step: &'run Step) -> bool {
        let around = self.around(step);
        let section = self.procedure.section(step.section).unwrap();
        let foreseen = section.conditions.iter().chain(around.iter().flat_map(|step| &step.conditions));
        let missed = |event: &Event| match event {
            Event::Flow(FlowEvent::Missed { wait, .. }) => {
                around.iter().any(|step| step.needs.contains(wait))
            }
            _ => false,
        };
        foreseen.count() == 0
            && around.iter().skip(1).all(|outer| outer.alternatives.is_none())
            && !self.left_out(step)
            && !self.repeats_around(step).into_iter().any(|repeat| self.gave_up(repeat))
            && !self.events.iter().any(|(event, _)| missed(event))
    }

    /// The same, where no repeat around it can come to no pass at all.
    pub fn is_to_be_done(&self, step: &'run Step) -> bool {
        self.is_free(step) && !self.repeats_around(step).into_iter().any(|repeat| self.may_be_none(repeat))
    }

    fn gave_up(&self, repeat: &Name) -> bool {
        self.events.iter().any(
            |(event, _)| matches!(event, Event::Flow(FlowEvent::GivenUp { repeat: of, .. }) if of == repeat),
        )
    }

    /// Whether a repeat may make no pass at all: so many as are counted.
    fn may_be_none(&self, repeat: &Name) -> bool {
        let passes = &self.procedure.repeat(repeat).unwrap().passes;
        matches!(passes, Passes::Times(times) if times.text().parse::<usize>().is_err())
    }

    /// Whether the procedure itself says how it goes on when a result fails.
    pub fn has_a_path(&self, result: &Name) -> bool {
        let mut conditions = self.procedure.conditions().iter();
        conditions.any(|(_, condition)| matches!(&condition.ground, Ground::Failed(of) if of == result))
    }

    /// The bounds of a reading, where they are plain amounts; no wider than what its instrument can read.
    pub fn bounds(&self, reading: &Name) -> (f64, f64) {
        let (least, most) = self.limits(reading);
        let tool = self.procedure.reading(reading).and_then(|reading| reading.instrument.as_ref());
        match tool.and_then(|tool| self.procedure.tool(tool)?.range.as_ref()) {
            Some((low, high)) => (least.max(low.number.to_f64()), most.min(high.number.to_f64())),
            None => (least, most),
        }
    }

    fn limits(&self, reading: &Name) -> (f64, f64) {
        let amount = |bound: &Option<bayhand::procedure::Bound>| {
            parse_literal(bound.as_ref()?.formula.text()).ok().map(|bound| bound.number.to_f64())
        };
        match self.procedure.criterion(reading) {
            Some(Criterion::Limits { lower, upper }) => {
                (amount(lower).unwrap_or(f64::NEG_INFINITY), amount(upper).unwrap_or(f64::INFINITY))
            }
            _ => (f64::NEG_INFINITY, f64::INFINITY),
        }
    }
}

/// Whether something was recorded at a step.
fn is_at(stamp: &Stamp, step: &Step) -> bool {
    stamp.place.as_ref().is_some_and(|place| place.part == Part::Step(step.id))
}

/// Whether an event departs from the procedure: each is a deviation with a number.
pub fn departs(event: &Event) -> bool {
    match event {
        Event::Accepted { .. } | Event::LateAccepted { .. } => true,
        Event::Flow(event) => matches!(
            event,
            FlowEvent::GivenUp { .. } | FlowEvent::Extended { .. } | FlowEvent::Settled { .. }
        ),
        Event::People(event) => {
            matches!(event, PeopleEvent::Reinspected { .. } | PeopleEvent::DifferenceAccepted { .. })
        }
        Event::Fastening(event) => {
            matches!(event, FasteningEvent::Accepted { .. } | FasteningEvent::Skipped { .. })
        }
        Event::Particular(event) => matches!(event, ParticularEvent::OverdueAccepted { .. }),
        Event::Interruption(event) => matches!(
            event,
            InterruptionEvent::OutOfScope { .. }
                | InterruptionEvent::Approved { .. }
                | InterruptionEvent::Declared { .. }
        ),
        _ => false,
    }
}

/// An answer as an amount, in the unit that was asked for.
pub fn number(value: &Answered) -> Option<f64> {
    match value {
        Answered::Quantity(entry) => Some(entry.asked.number.to_f64()),
        _ => None,
    }
}
