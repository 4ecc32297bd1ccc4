//! The answer that fits a question, varied by a number: from what the procedure declares, not from what things are
//! called.

use bayhand::procedure::{Name, ReadingKind, Typing};
use bayhand::run::{
    Answer, Ask, Disposition, FasteningAnswer, FasteningAsk, FlowAnswer, FlowAsk, InterruptionAnswer,
    InterruptionAsk, KeptFile, LooseAnswer, ParticularAnswer, ParticularAsk, PeopleAnswer, PeopleAsk,
};

use super::super::drive::{Drive, name, reason, typed};

/// The answer that fits what is asked.
pub fn fitting(drive: &Drive, vary: u8) -> Answer {
    match drive.ask() {
        Ask::Brief => Answer::AcceptBrief,
        Ask::Person(role) => Answer::Person(format!("Person {role}")),
        Ask::Odometer => typed("1 km"),
        Ask::VehicleValue(_) => Answer::Sourced { text: "120 N·m".to_owned(), source: reason() },
        Ask::Acknowledge(_) => Answer::Acknowledge,
        Ask::Confirm { .. } if vary.is_multiple_of(8) => Answer::Untrue { state: reason() },
        Ask::Confirm { .. } => Answer::True,
        Ask::Reading(reading) => reading_of(drive, &reading, vary),
        Ask::Failed(_) if vary.is_multiple_of(2) => Answer::Again { reason: reason() },
        Ask::Late { .. } if vary.is_multiple_of(2) => Answer::Flow(FlowAnswer::Missed),
        Ask::Failed(_) | Ask::Late { .. } => accept(),
        Ask::Release { role, .. } => named(drive, &role),
        Ask::Pick(steps) => Answer::Pick(steps[usize::from(vary) % steps.len()]),
        Ask::Do | Ask::Wait { .. } | Ask::Resting | Ask::Finished => Answer::Done,
        Ask::Dispose(_) => Answer::Dispose { disposition: Disposition::Repair, reason: reason() },
        Ask::Close => Answer::Close,
        Ask::LooseEnd(end) => Answer::Loose(if vary.is_multiple_of(2) {
            LooseAnswer::Settle { end, how: reason() }
        } else {
            LooseAnswer::CarryOut { end, by: "Kim Marsh".to_owned(), why: reason() }
        }),
        Ask::Flow(ask) => flow(drive, &ask, vary),
        Ask::Interruption(ask) => Answer::Interruption(between(drive, &ask, vary)),
        Ask::People(ask) => people(drive, &ask, vary),
        Ask::Fastening(ask) => fastening(drive, &ask, vary),
        Ask::Particular(ask) => particular(drive, &ask, vary),
    }
}

/// Gone on with, as a deviation.
pub fn accept() -> Answer {
    Answer::Accept { disposition: Disposition::UseAsIs, reason: reason() }
}

/// Good three times in four.
fn judging(vary: u8) -> Answer {
    if vary.is_multiple_of(4) { Answer::NotGood { state: reason() } } else { Answer::Good }
}

fn named(drive: &Drive, role: &Name) -> Answer {
    Answer::Release { said: drive.state.people.get(role).unwrap().clone() }
}

/// A reading by its kind, or one in three times what came out instead. Three in four choices are the first one, which is
/// good.
pub fn reading_of(drive: &Drive, reading: &Name, vary: u8) -> Answer {
    let declared = drive.book.procedure.reading(reading).unwrap();
    if !declared.instead.is_empty() && vary.is_multiple_of(3) {
        return typed(&declared.instead[usize::from(vary / 3) % declared.instead.len()].words);
    }
    let mark = if declared.stopwatch && vary.is_multiple_of(2) { " by stopwatch" } else { "" };
    typed(&match &declared.kind {
        ReadingKind::Quantity { unit, .. } => format!("{vary} {}{mark}", unit.symbol()),
        ReadingKind::Count { .. } => (vary % 5).to_string(),
        ReadingKind::Choice { choices, .. } => choices[usize::from(vary.is_multiple_of(4))].clone(),
        ReadingKind::Text => "in P".to_owned(),
        ReadingKind::List { .. } => ["E1", "E1, E2", "E1, E2, E3"][usize::from(vary) % 3].to_owned(),
        ReadingKind::Date { .. } => format!("202{}-11-20", 5 + vary % 4),
        ReadingKind::File => {
            let file = KeptFile { name: "photo.jpg".to_owned(), size: 9, sha256: "0".repeat(64) };
            return Answer::Particular(ParticularAnswer::File(file));
        }
    })
}

fn people(drive: &Drive, ask: &PeopleAsk, vary: u8) -> Answer {
    let procedure = &drive.book.procedure;
    match ask {
        PeopleAsk::Still(role) if vary.is_multiple_of(8) => {
            Answer::People(PeopleAnswer::Named(format!("Person {role} {}", drive.events.len())))
        }
        PeopleAsk::Still(_) => Answer::People(PeopleAnswer::Keep),
        PeopleAsk::Turnover(role) | PeopleAsk::SignOff(role) if !vary.is_multiple_of(16) => {
            named(drive, role)
        }
        PeopleAsk::Turnover(role) => named(drive, role),
        PeopleAsk::PreJobBrief => {
            let everybody = drive.view().everybody().into_iter().map(str::to_owned);
            Answer::People(PeopleAnswer::Present(everybody.collect()))
        }
        PeopleAsk::Witness(_) if vary.is_multiple_of(2) => {
            Answer::People(PeopleAnswer::Absent { reason: reason() })
        }
        PeopleAsk::SignOff(_) => Answer::Untrue { state: reason() },
        PeopleAsk::Check(_) if vary.is_multiple_of(16) => Answer::Untrue { state: reason() },
        PeopleAsk::Witness(witness) => named(drive, &procedure.witness(witness).unwrap().by),
        PeopleAsk::Check(check) => named(drive, &procedure.check(check).unwrap().by),
        PeopleAsk::Second(reading) => reading_of(drive, reading, vary),
        PeopleAsk::Differs(_) if vary.is_multiple_of(2) => Answer::Again { reason: reason() },
        PeopleAsk::Differs(_) => accept(),
        PeopleAsk::Nominal(_) => judging(vary),
    }
}

fn flow(drive: &Drive, ask: &FlowAsk, vary: u8) -> Answer {
    Answer::Flow(match ask {
        FlowAsk::Disagrees(_) => return accept(),
        FlowAsk::SectionComplete(_) if vary.is_multiple_of(16) => FlowAnswer::Restart { reason: reason() },
        FlowAsk::SectionComplete(_) => FlowAnswer::Complete,
        FlowAsk::Perform(_) => FlowAnswer::WorkDone,
        FlowAsk::PassEnd(_) if vary.is_multiple_of(4) => FlowAnswer::Invalid { reason: reason() },
        FlowAsk::PassEnd(_) => FlowAnswer::Counts,
        FlowAsk::Exhausted(repeat) if !drive.view().can_be_given_up(repeat) || vary.is_multiple_of(2) => {
            FlowAnswer::Extend { reason: reason() }
        }
        FlowAsk::Exhausted(_) => FlowAnswer::GiveUp { disposition: Disposition::UseAsIs, reason: reason() },
        FlowAsk::Choose { ways, .. } => FlowAnswer::Choose(ways[usize::from(vary) % ways.len()]),
    })
}

fn between(drive: &Drive, ask: &InterruptionAsk, vary: u8) -> InterruptionAnswer {
    let words = || "so it is".to_owned();
    match ask {
        InterruptionAsk::Scope if vary.is_multiple_of(16) => InterruptionAnswer::Untrue { state: words() },
        InterruptionAsk::Scope if vary % 16 == 1 => {
            InterruptionAnswer::OutOfScope { disposition: Disposition::UseAsIs, reason: words() }
        }
        InterruptionAsk::StillSo(_) if vary.is_multiple_of(4) => {
            InterruptionAnswer::Untrue { state: words() }
        }
        InterruptionAsk::Scope | InterruptionAsk::Statement(_) | InterruptionAsk::StillSo(_) => {
            InterruptionAnswer::True
        }
        InterruptionAsk::Standing => InterruptionAnswer::Standing { state: words() },
        InterruptionAsk::Protection(_) if vary.is_multiple_of(2) => InterruptionAnswer::MakeSafe,
        InterruptionAsk::Protection(_) => InterruptionAnswer::Keep,
        InterruptionAsk::Approval(_) if vary.is_multiple_of(3) => {
            InterruptionAnswer::Refuse { reason: words() }
        }
        InterruptionAsk::Approval(_) => {
            InterruptionAnswer::Approve { said: drive.state.people.get(&name("lead")).unwrap().clone() }
        }
    }
}

/// A place in sixteen is left out; without places the step is.
fn fastening(drive: &Drive, ask: &FasteningAsk, vary: u8) -> Answer {
    let is_held = drive.book.hold_of_fasteners(ask.group()).is_some();
    Answer::Fastening(match ask {
        FasteningAsk::NoPlaces { .. } => return Answer::NotApplicable { reason: reason() },
        FasteningAsk::SetStage { .. } => FasteningAnswer::StageSet,
        FasteningAsk::Nominal(_) => return judging(vary),
        _ if vary.is_multiple_of(16) && !is_held => FasteningAnswer::Skip { reason: reason() },
        FasteningAsk::Tighten(_) => return Answer::Done,
        FasteningAsk::Reach(_) => return typed(&vary.to_string()),
        FasteningAsk::Failed(_) if is_held || vary.is_multiple_of(2) => {
            return Answer::Again { reason: reason() };
        }
        FasteningAsk::Failed(_) => return accept(),
    })
}

/// An instrument in four is overdue. Where it cannot be worked out what is to be typed, the step is left out.
fn particular(drive: &Drive, ask: &ParticularAsk, vary: u8) -> Answer {
    Answer::Particular(match ask {
        ParticularAsk::Instrument(tool) => instrument(tool, vary),
        ParticularAsk::Overdue(tool) if vary.is_multiple_of(2) => instrument(tool, 1),
        ParticularAsk::Overdue(_) => return accept(),
        ParticularAsk::Critical(act) => match wanted(drive, act) {
            Some(text) => ParticularAnswer::Typed(text),
            None => return Answer::NotApplicable { reason: reason() },
        },
    })
}

fn instrument(tool: &Name, vary: u8) -> ParticularAnswer {
    let due = if vary.is_multiple_of(4) { "2026-11-20" } else { "2027-03-31" };
    ParticularAnswer::Instrument { tool: tool.clone(), identity: format!("G-{vary}"), due: due.to_owned() }
}

/// What is typed before a critical act: its words, or its amount as the person sees it.
fn wanted(drive: &Drive, act: &Name) -> Option<String> {
    match &drive.book.procedure.critical_act(act).unwrap().typing {
        Typing::Words(words) => Some(words.clone()),
        Typing::Value(formula) => Some(formula.evaluate(&drive.view().known()).ok()?.to_string()),
    }
}
