//! What must hold of a run that has come to its end, told from its events.

use std::collections::{BTreeMap, BTreeSet};

use bayhand::procedure::{CountsAs, Name, Occasion, Passes, Positions, Step};
use bayhand::run::{Answered, Event, FasteningEvent, FlowEvent, PassEnd, PeopleEvent};

use super::told::{Holds, Told, number};

impl Told<'_> {
    /// Everything that must hold at the end.
    pub fn is_ended_well(&self) -> Holds {
        for step in self.procedure.steps() {
            self.nothing_is_left_undone(step)?;
            step.takes.iter().try_for_each(|reading| self.what_fails_is_said(step, reading))?;
            step.takes.iter().try_for_each(|reading| self.second_agrees(step, reading))?;
            step.fasteners.iter().try_for_each(|group| self.every_place_is_done(step, group))?;
        }
        let repeats = self.procedure.repeats().names();
        repeats.into_iter().try_for_each(|repeat| self.passes_add_up(repeat))
    }

    /// A step that nobody and nothing has taken out was done, by somebody's word or by its readings.
    fn nothing_is_left_undone(&self, step: &Step) -> Holds {
        if !self.is_to_be_done(step) || step.hold.is_some() || !step.groups.is_empty() {
            return Ok(());
        }
        let since: Vec<&Event> = self.since_begun_anew(step).map(|(event, _)| event.itself()).collect();
        let said = since.contains(&&Event::Done(step.id));
        let read = |reading: &Name| {
            let is = |event: &&&Event| matches!(event, Event::Read { reading: of, .. } if of == reading);
            // What was found stays found.
            since.iter().any(|event| is(&event)) || self.is_as_found(reading)
        };
        let by_word = step.takes.is_empty() && step.fasteners.is_empty();
        if (by_word && !said) || !step.takes.iter().all(read) {
            return Err(format!("step {} was never done", step.number));
        }
        Ok(())
    }

    fn is_as_found(&self, reading: &Name) -> bool {
        self.procedure.reading(reading).is_some_and(|reading| reading.occasion == Occasion::AsFound)
    }

    /// What was entered last for a reading is good, or an event since says that it is gone on with, or the procedure
    /// foresees it.
    fn what_fails_is_said(&self, step: &Step, reading: &Name) -> Holds {
        let newest = self.entries(reading).pop().filter(|_| self.is_to_be_done(step));
        let Some((value, entered)) = newest else { return Ok(()) };
        let (least, most) = self.bounds(reading);
        let is_good = match value {
            Answered::Instead(words) => {
                let outcomes = &self.procedure.reading(reading).unwrap().instead;
                outcomes.iter().any(|one| one.words == *words && one.counts != CountsAs::Fail)
            }
            value => number(value).is_none_or(|value| (least..=most).contains(&value)),
        };
        let accepted = |event: &Event| matches!(event, Event::Accepted { name, .. } if name == reading);
        let said = self.events.iter().any(|(event, stamp)| stamp.seq > entered && accepted(event));
        if is_good || said || self.has_a_path(reading) || self.is_as_found(reading) {
            return Ok(());
        }
        Err(format!("{reading} is {value:?}, outside {least} to {most}, and nobody says so"))
    }

    /// Each place of each stage is done, or an event says that it is not; in each pass that counts, and at the end.
    fn every_place_is_done(&self, step: &Step, group: &Name) -> Holds {
        let mut sheet = Sheet::default();
        let wanted = self.wanted(group);
        let repeat = self.procedure.section(step.section).and_then(|section| section.repeat.as_ref());
        for (event, _) in self.events {
            match event.itself() {
                Event::Fastening(event) if event.group() == group => sheet.see(event)?,
                Event::Flow(FlowEvent::PassEnded { repeat: of, end, .. }) if Some(of) == repeat => {
                    if *end == PassEnd::Counts && self.is_to_be_done(step) {
                        sheet.is_full(group, &wanted)?;
                    }
                    sheet = Sheet { set: sheet.set, ..Sheet::default() };
                }
                event if self.begins_anew(event, step) => {
                    sheet = Sheet { set: sheet.set, ..Sheet::default() }
                }
                _ => {}
            }
        }
        if repeat.is_none() && self.is_to_be_done(step) { sheet.is_full(group, &wanted) } else { Ok(()) }
    }

    /// The places of a group in each of its stages.
    fn wanted(&self, group: &Name) -> BTreeSet<(usize, String)> {
        let declared = self.procedure.fastener_group(group).unwrap();
        let places: Vec<String> = match &declared.positions {
            Positions::Named(names) => names.clone(),
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small count")]
            Positions::Count(count) => {
                let count = self.entry(count.text()).map_or(0, |(count, _)| count as usize);
                (1..=count).map(|place| place.to_string()).collect()
            }
        };
        let stages = 0..declared.stages.len();
        stages.flat_map(|stage| places.iter().map(move |place| (stage, place.clone()))).collect()
    }

    /// So many passes count as are wanted; more only where what is wanted was entered anew.
    fn passes_add_up(&self, repeat: &Name) -> Holds {
        let mut steps = self.procedure.steps().iter();
        let first = steps.find(|step| self.repeats_around(step).contains(&repeat)).unwrap();
        let is_alone = self.repeats_around(first).len() == 1;
        let Some((wanted, entries)) = self.passes_wanted(repeat).filter(|_| is_alone) else { return Ok(()) };
        let anew = self.events.iter().any(|(event, _)| self.begins_anew(event, first));
        let happened = |is_it: fn(&FlowEvent) -> Option<&Name>| {
            let flow = self.events.iter().filter_map(|(event, _)| match event {
                Event::Flow(flow) => is_it(flow),
                _ => None,
            });
            flow.filter(|of| *of == repeat).count()
        };
        let ended = happened(|event| match event {
            FlowEvent::PassEnded { repeat, end: PassEnd::Counts, .. } => Some(repeat),
            _ => None,
        });
        let taken_back = happened(|event| match event {
            FlowEvent::PassTakenBack { repeat, .. } => Some(repeat),
            _ => None,
        });
        let counted = ended - taken_back;
        if (self.is_free(first) && counted < wanted) || (entries <= 1 && !anew && counted > wanted) {
            return Err(format!("{repeat}: {counted} of {wanted} passes count"));
        }
        Ok(())
    }

    /// Two readings by two people agree, or an event since says that they do not.
    fn second_agrees(&self, step: &Step, reading: &Name) -> Holds {
        let declared = self.procedure.reading(reading).and_then(|reading| reading.second.as_ref());
        let apart = declared.and_then(|second| second.agree.as_ref()).map(|apart| apart.number.to_f64());
        let (Some(apart), true) = (apart, self.is_to_be_done(step)) else { return Ok(()) };
        let second = self.events.iter().rev().find_map(|(event, stamp)| match event {
            Event::People(PeopleEvent::SecondRead { reading: of, value, .. }) if of == reading => {
                Some((number(value)?, stamp.seq))
            }
            _ => None,
        });
        let ((first, entered), Some((second, seconded))) = (self.entry(reading.as_str()).unwrap(), second)
        else {
            return Err(format!("{reading} was read once only"));
        };
        let accepted = |event: &Event| matches!(event, Event::People(PeopleEvent::DifferenceAccepted { reading: of, .. }) if of == reading);
        let since = entered.max(seconded);
        let said = self.events.iter().any(|(event, stamp)| stamp.seq > since && accepted(event));
        if (first - second).abs() <= apart || said {
            return Ok(());
        }
        Err(format!("{reading} is {first} and {second}, and nobody says so"))
    }

    /// How many passes are wanted, and how often that was entered.
    fn passes_wanted(&self, repeat: &Name) -> Option<(usize, usize)> {
        match &self.procedure.repeat(repeat)?.passes {
            Passes::Each(items) => Some((items.len(), 0)),
            Passes::EachOf(reading) => {
                let entries = self.entries(reading);
                let Some((Answered::List(items), _)) = entries.last() else { return None };
                Some((items.len(), entries.len()))
            }
            Passes::Times(times) if is_number(times.text()) => Some((times.text().parse().ok()?, 0)),
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small count")]
            Passes::Times(times) => {
                let entries = self.entries(&Name::from(times.text()));
                Some((entries.last().and_then(|(count, _)| number(count))? as usize, entries.len()))
            }
            Passes::Until(_) => None,
        }
    }

    /// What was entered for a reading, and with which entry.
    fn entries(&self, reading: &Name) -> Vec<(&Answered, u64)> {
        let of_reading = self.events.iter().filter_map(|(event, stamp)| match event.itself() {
            Event::Read { reading: of, value } | Event::Corrected { reading: of, value, .. } => {
                (of == reading).then_some((value, stamp.seq))
            }
            _ => None,
        });
        of_reading.collect()
    }
}

fn is_number(text: &str) -> bool {
    text.chars().all(|digit| digit.is_ascii_digit())
}

/// What was done at a group, place by place.
#[derive(Default)]
struct Sheet {
    /// The stage that the tool is set for.
    set: usize,
    /// Places that are done, or gone on with, by their stage.
    done: BTreeMap<(usize, String), bool>,
    /// Places left out, and from which stage on.
    left_out: BTreeMap<String, usize>,
}

impl Sheet {
    /// A place is done only in the stage that was begun.
    fn see(&mut self, event: &FasteningEvent) -> Holds {
        let spot = event.spot().map(|at| (at.stage, at.position.clone()));
        match (event, spot) {
            (FasteningEvent::StageSet { stage, .. }, _) => self.set = *stage,
            (FasteningEvent::Tightened { at, .. }, Some(spot)) => {
                if at.stage != self.set {
                    return Err(format!("{at:?} done while the tool is set for stage {}", self.set));
                }
                self.done.insert(spot, true);
            }
            (FasteningEvent::Again { .. }, Some(spot)) => {
                self.done.remove(&spot);
            }
            (FasteningEvent::Skipped { at, .. }, _) => {
                self.left_out.insert(at.position.clone(), at.stage);
            }
            (FasteningEvent::Loosened { position, .. }, _) => {
                let is_loose = |place: &String| position.as_ref().is_none_or(|loose| loose == place);
                self.done.retain(|(_, place), _| !is_loose(place));
                self.left_out.retain(|place, _| !is_loose(place));
            }
            _ => {}
        }
        Ok(())
    }

    fn is_full(&self, group: &Name, wanted: &BTreeSet<(usize, String)>) -> Holds {
        let is_settled = |(stage, place): &&(usize, String)| {
            self.done.contains_key(&(*stage, place.clone()))
                || self.left_out.get(place).is_some_and(|from| from <= stage)
        };
        match wanted.iter().find(|spot| !is_settled(spot)) {
            Some((stage, place)) => {
                Err(format!("{group}: nothing says what became of {place} in stage {stage}"))
            }
            None => Ok(()),
        }
    }
}
