//! Departures from the procedure and what was decided about each.

use crate::procedure::{Name, Step};
use crate::record::amounts::{answer, said};
use crate::record::model::Deviation;
use crate::record::turn::{Turn, performers, step_of};
use crate::run::{self, Departure, Disposition, Event, Scope};

#[derive(Default)]
pub(in crate::record) struct Deviations(pub(in crate::record) Vec<Deviation>);

impl Deviations {
    pub(in crate::record) fn see(&mut self, turn: Turn<'_>) {
        let known = self.0.len();
        let new = turn.after.deviations.iter().enumerate().skip(known);
        self.0.extend(new.map(|(index, deviation)| departed(turn, index + 1, deviation)));
        if let Event::Disposed { deviation, disposition, reason } = turn.event
            && let Some(deviation) = self.0.get_mut(*deviation)
        {
            decide(deviation, turn, *disposition, reason);
        }
    }
}

fn departed(turn: Turn<'_>, number: usize, departed: &run::Deviation) -> Deviation {
    let step = step_departed(turn, &departed.departure);
    let mut deviation = Deviation {
        number,
        step: step.map(|step| step.number.clone()).unwrap_or_default(),
        pass: pass(turn, &departed.departure, step),
        departs: departs(turn, &departed.departure),
        reason: departed.reason.clone(),
        when: turn.moment(),
        who: performers(turn.after, step),
        disposition: String::new(),
        justification: String::new(),
        decided: turn.moment(),
    };
    if let Some((disposition, reason)) = &departed.disposition {
        decide(&mut deviation, turn, *disposition, reason);
    }
    deviation
}

/// The pass that it happened in: as it stood before, for the event itself may end it.
fn pass(turn: Turn<'_>, departure: &Departure, step: Option<&Step>) -> Option<String> {
    let before = turn.view_before();
    let Departure::Repeat(repeat) = departure else {
        return before.pass_words(step?.id);
    };
    match turn.book.scope(repeat)? {
        Scope::Step(step) => before.pass_words(step),
        Scope::Section(_) => before.pass_number(repeat),
    }
}

fn decide(deviation: &mut Deviation, turn: Turn<'_>, disposition: Disposition, reason: &str) {
    disposition.words().clone_into(&mut deviation.disposition);
    reason.clone_into(&mut deviation.justification);
    deviation.decided = turn.moment();
}

fn step_departed<'run>(turn: Turn<'run>, departure: &Departure) -> Option<&'run Step> {
    match departure {
        Departure::Result(name) | Departure::Differs(name) => step_of(turn.book, name),
        Departure::NotApplicable(step) | Departure::Late(step, _) | Departure::Reinspected(step, _) => {
            turn.book.procedure.step(*step)
        }
        Departure::Declared(step, _) => turn.book.procedure.step((*step)?),
        Departure::Repeat(_) | Departure::Scope => None,
        Departure::Overdue(_) => {
            turn.view_before().next().step.and_then(|step| turn.book.procedure.step(step))
        }
        Departure::FastenerLeftOut(at) | Departure::FastenerOff(at) => {
            turn.book.step_of_fasteners(&at.group).and_then(|step| turn.book.procedure.step(step))
        }
    }
}

fn departs(turn: Turn<'_>, departure: &Departure) -> String {
    match departure {
        Departure::Result(name) => result(turn, name),
        Departure::NotApplicable(_) => "the step was left out, although no condition says so".to_owned(),
        Departure::Declared(_, declared) => declared.words().to_owned(),
        Departure::Scope => format!(
            "used on a vehicle that the procedure is not for: {}",
            turn.before.interruption.not_covered.as_deref().unwrap_or("no word on how it differs")
        ),
        Departure::Repeat(repeat) => format!("not as the procedure repeats it: {}", what(turn, repeat)),
        Departure::Reinspected(_, check) => format!("re-inspection (one person): {}", what(turn, check)),
        Departure::Differs(name) => differs(turn, name),
        Departure::Overdue(tool) => overdue(turn, tool),
        Departure::FastenerLeftOut(at) => format!("left out from this stage on: {}", at.words(turn.view())),
        Departure::FastenerOff(at) => super::fasteners::off_target(turn, at),
        Departure::Late(_, wait) => {
            let most = turn.book.procedure.wait(wait).and_then(|wait| wait.at_most.as_ref());
            let most = most.map(|most| format!(", at most {most}")).unwrap_or_default();
            format!("the wait was too long: {}{most}", what(turn, wait))
        }
    }
}

/// Two readings that differ: `two readings differ: torque: 40 N·m and 45 N·m`.
fn differs(turn: Turn<'_>, name: &Name) -> String {
    let first = turn.after.latest(name);
    let second = first.and_then(|first| turn.after.second_of(name, first));
    let shown = first.zip(second).map(|(first, second)| {
        format!(": {} and {}", said(&answer(&first.value)), said(&answer(&second.value)))
    });
    format!("two readings differ: {}{}", what(turn, name), shown.unwrap_or_default())
}

fn overdue(turn: Turn<'_>, tool: &Name) -> String {
    let named = turn.view().instrument(tool);
    let named = named.map(|named| format!(": {}, due {}", named.identity, named.due)).unwrap_or_default();
    format!("used although its calibration is overdue: {}{named}", what(turn, tool))
}

fn result(turn: Turn<'_>, name: &Name) -> String {
    let moment = turn.moment();
    let Some(judged) = turn.book.judge(turn.after, name) else {
        return what(turn, name);
    };
    let verdict = crate::record::judging::judged(turn.book, name, &judged, moment).words;
    let taken = turn.after.latest(name).map(|taken| said(&answer(&taken.value)));
    let shown = taken.or_else(|| judged.quantity.as_ref().map(ToString::to_string));
    let shown = shown.map(|shown| format!(": {shown}")).unwrap_or_default();
    format!("{}{shown}; {verdict}", what(turn, name))
}

fn what(turn: Turn<'_>, name: &Name) -> String {
    turn.book.procedure.called(name).to_owned()
}
