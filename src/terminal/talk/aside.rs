//! What an answer from a file does besides answering the question: a correction, a turnover, a remark.

use crate::procedure::Name;
use crate::run::{
    Answer, Ask, Before, FasteningAnswer, FlowAnswer, FlowAsk, InterruptionAnswer, Leave, ParticularAnswer,
    ParticularAsk, PeopleAnswer, Prompt, View,
};

/// What is done, in place of the question, and what is said with it. None where the question itself is answered.
pub(super) fn aside(view: View<'_>, prompt: &Prompt, answer: &Answer) -> Option<(String, String)> {
    let told = |what: &str, said: &str| Some((format!("{what}:"), said.to_owned()));
    match answer {
        Answer::Correct { reading, text, reason, .. } => {
            let text = if view.is_blind(reading) { "out of sight" } else { text };
            told(&correction(what(view, reading)), &because(text, reason))
        }
        Answer::Note(remark) => told("remark", remark),
        Answer::Disturbed { what, .. } => told("moved or used", what),
        Answer::NotApplicable { reason } => told("not applicable", reason),
        Answer::Defer { before, reason } => told(&later(view, Before::Step(*before)), reason),
        Answer::Leave { how, reason, state, first } => {
            let how = match how {
                Leave::Suspend => "suspended",
                Leave::Stop => "STOPPED",
            };
            let first = first.as_ref().map(|first| format!("; first next time: {first}"));
            told(how, &format!("{reason}; things are left: {state}{}", first.unwrap_or_default()))
        }
        Answer::Flow(answer) => of_flow(view, prompt, answer),
        Answer::People(PeopleAnswer::CorrectName { role, person, reason }) => {
            told(&correction(&format!("the name of the {role}")), &because(person, reason))
        }
        Answer::People(PeopleAnswer::TakeOver { role, person, note }) => {
            told(&format!("{role} handed over to {person}"), note)
        }
        Answer::Fastening(answer) => of_fasteners(view, answer),
        Answer::Loose(answer) => Some(super::loose::aside(view, answer)),
        Answer::Late(late) => aside(view, prompt, &late.answer),
        Answer::Particular(answer) => of_taking(view, prompt, answer),
        Answer::Interruption(InterruptionAnswer::DeferToEnd { section, reason }) => {
            told(&later(view, Before::EndOf(*section)), reason)
        }
        Answer::Interruption(InterruptionAnswer::Declare { declared, reason }) => {
            told(&format!("deviation declared, {}", declared.words()), reason)
        }
        _ => None,
    }
}

/// A pass can be said not to count at its own question, and a repeat be given up there, as well.
fn of_flow(view: View<'_>, prompt: &Prompt, answer: &FlowAnswer) -> Option<(String, String)> {
    match answer {
        FlowAnswer::Invalid { reason } if !matches!(prompt.ask, Ask::Flow(FlowAsk::PassEnd(_))) => {
            let repeat = view.pass_just_ended().map_or("", |(repeat, _)| what(view, repeat));
            Some((format!("the pass that ended last does not count, {repeat}:"), reason.clone()))
        }
        FlowAnswer::Restart { reason } => Some(("the section begins anew:".to_owned(), reason.clone())),
        FlowAnswer::GiveUp { disposition, reason } if !matches!(prompt.ask, Ask::Flow(_)) => {
            Some((format!("what is repeated is given up, {}:", disposition.words()), reason.clone()))
        }
        _ => None,
    }
}

fn of_fasteners(view: View<'_>, answer: &FasteningAnswer) -> Option<(String, String)> {
    match answer {
        FasteningAnswer::Correct { at, text, reason, .. } => {
            Some((format!("{}:", correction(&at.words(view))), because(text, reason)))
        }
        FasteningAnswer::Loosened { group, position, reason } => {
            let position = position.as_ref().map(|position| format!(", {position}")).unwrap_or_default();
            Some((format!("loosened again, {}{position}:", what(view, group)), reason.clone()))
        }
        _ => None,
    }
}

fn of_taking(view: View<'_>, prompt: &Prompt, answer: &ParticularAnswer) -> Option<(String, String)> {
    match answer {
        ParticularAnswer::Instrument { tool, identity, due }
            if !matches!(
                prompt.ask,
                Ask::Particular(ParticularAsk::Instrument(_) | ParticularAsk::Overdue(_))
            ) =>
        {
            let words = format!("{identity}, calibration due {due}");
            Some((format!("another instrument, {}:", what(view, tool)), words))
        }
        ParticularAnswer::Odometer(text) => Some(("odometer:".to_owned(), text.clone())),
        ParticularAnswer::CorrectOdometer { text, reason } => {
            Some((format!("{}:", correction("odometer")), because(text, reason)))
        }
        ParticularAnswer::CorrectVehicleValue { name, text, source, reason } => {
            let text = format!("{text}, from {source}");
            Some((format!("{}:", correction(what(view, name))), because(&text, reason)))
        }
        _ => None,
    }
}

fn correction(of: &str) -> String {
    format!("correction of {of}")
}

fn because(text: &str, reason: &str) -> String {
    format!("{text} ({reason})")
}

fn later(view: View<'_>, before: Before) -> String {
    let when = match before {
        Before::Step(_) => "before",
        Before::EndOf(_) => "at",
    };
    format!("later, {when} {}", before.words(view.book))
}

fn what<'run>(view: View<'run>, name: &'run Name) -> &'run str {
    view.book.procedure.called(name)
}
