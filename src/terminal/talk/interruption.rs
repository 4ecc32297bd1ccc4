//! Questions before, between and after the work: what must be true, how things stand, what stays in force.

use super::question::Question;
use super::{Turn, brief, keys, words};
use crate::procedure::{Name, Step, StepId};
use crate::run::{Answer, Declared, InterruptionAnswer, InterruptionAsk, InterruptionEvent, Statement, View};
use crate::terminal::{Line, Role, Text, Ui};

/// Asks, and hears the answer.
pub(super) fn ask(question: &mut Question<'_>, ask: &InterruptionAsk) -> Result<Answer, Turn> {
    let answer = match ask {
        InterruptionAsk::Scope => scope(question)?,
        InterruptionAsk::Statement(_) => so(question, "How is it? ", &[('y', "yes"), ('n', "no")])?,
        InterruptionAsk::StillSo(_) => {
            so(question, "How is it now? ", &[('y', "still so"), ('n', "not so any more")])?
        }
        InterruptionAsk::Standing => {
            let state = question.typed("How do things stand (loose, hanging, open, live)? ")?;
            InterruptionAnswer::Standing { state }
        }
        InterruptionAsk::Protection(_) => protection(question)?,
        InterruptionAsk::Approval(_) => approval(question)?,
    };
    Ok(Answer::Interruption(answer))
}

fn so(question: &mut Question<'_>, how: &str, keys: &[(char, &str)]) -> Result<InterruptionAnswer, Turn> {
    match question.key("", &keys::with_common(keys))? {
        'y' => Ok(InterruptionAnswer::True),
        _ => Ok(InterruptionAnswer::Untrue { state: keys::inner_line(question.ui, how)? }),
    }
}

/// Where it was said already that the vehicle is another, it can be gone on with as a deviation.
fn scope(question: &mut Question<'_>) -> Result<InterruptionAnswer, Turn> {
    let other = question.view.state.interruption.not_covered.is_some();
    let deviation = other.then_some(('g', "go on with a deviation"));
    let own: Vec<(char, &str)> = [('y', "yes"), ('n', "no")].into_iter().chain(deviation).collect();
    match question.key("", &keys::with_common(&own))? {
        'y' => Ok(InterruptionAnswer::True),
        'g' => {
            let (disposition, reason) = keys::disposition(question.ui)?;
            Ok(InterruptionAnswer::OutOfScope { disposition, reason })
        }
        _ => {
            let state = keys::inner_line(question.ui, "How does this vehicle differ? ")?;
            Ok(InterruptionAnswer::Untrue { state })
        }
    }
}

fn protection(question: &mut Question<'_>) -> Result<InterruptionAnswer, Turn> {
    let keys = keys::with_common(&[('k', "keep it in force"), ('e', "end it now")]);
    match question.key("", &keys)? {
        'k' => Ok(InterruptionAnswer::Keep),
        _ => Ok(InterruptionAnswer::MakeSafe),
    }
}

fn approval(question: &mut Question<'_>) -> Result<InterruptionAnswer, Turn> {
    let keys = keys::with_common(&[('y', "the lead approves"), ('n', "it is done after all")]);
    if question.key("", &keys)? == 'n' {
        let reason = keys::inner_line(question.ui, "Why is it done after all? ")?;
        return Ok(InterruptionAnswer::Refuse { reason });
    }
    let prompt = format!("Approved by {} (lead); name or initials: ", lead(question.view));
    Ok(InterruptionAnswer::Approve { said: keys::inner_line(question.ui, &prompt)? })
}

fn lead(view: View<'_>) -> String {
    view.state.people.get(&Name::from("lead")).cloned().unwrap_or_default()
}

/// What is shown with the question.
pub(super) fn asked(view: View<'_>, ask: &InterruptionAsk) -> Text {
    match ask {
        InterruptionAsk::Scope => asked_scope(view),
        InterruptionAsk::Statement(statement) => asked_statement(view, *statement),
        InterruptionAsk::Standing => brief::unsaid(view).then(Text::plain("Look at the vehicle first.")),
        InterruptionAsk::StillSo(step) => still_so(view, *step),
        InterruptionAsk::Protection(hold) => asked_protection(view, hold),
        InterruptionAsk::Approval(step) => asked_approval(view, *step),
    }
}

fn asked_scope(view: View<'_>) -> Text {
    let scope = format!("This procedure is for: {}.", view.book.procedure.header().scope);
    let text = Text::plain(&scope).then(Text::plain("Is it for this vehicle?"));
    was_not(text, view.state.interruption.not_covered.as_ref())
}

fn asked_statement(view: View<'_>, statement: Statement) -> Text {
    let when = match statement {
        Statement::Required(_) => "Before the job, is this so?",
        Statement::CloseUp(_) => "At the end, is this so?",
    };
    let text = Text::plain(when).line(Line::new().with(Role::Strong, statement.words(view)).indent(2));
    was_not(text, view.state.interruption.unmet.get(&statement))
}

fn was_not(text: Text, state: Option<&String>) -> Text {
    match state {
        Some(state) => text.line(Line::new().with(Role::Bad, format!("It was not so: {state}")).indent(2)),
        None => text,
    }
}

fn still_so(view: View<'_>, step: StepId) -> Text {
    let text = Text::plain("Done before the interruption. Look at it: is it still so?");
    view.book.procedure.step(step).map_or(Text::new(), |step| brief::done(view, step, text))
}

fn asked_protection(view: View<'_>, hold: &Name) -> Text {
    let what = view.book.procedure.hold(hold).and_then(|hold| hold.protection.clone()).unwrap_or_default();
    let ender = view.ender(hold).and_then(|ender| view.book.procedure.what(ender)).unwrap_or_default();
    Text::from(Line::new().with(Role::Strong, "Before the run rests: ").with(Role::Protection, what))
        .line(Line::plain("It stays in force while nobody is here, or it is ended now.").hang(2))
        .line(Line::plain(format!("To end it, this hold point is verified and released: {ender}.")).hang(2))
}

fn asked_approval(view: View<'_>, step: StepId) -> Text {
    let words = |step: &Step| {
        format!("Not applicable, it is said: step {} {}", step.number, words::text(view, &step.text))
    };
    let step = view.book.procedure.step(step).map(words).unwrap_or_default();
    let reason = view.state.interruption.to_approve.as_ref().map(|(_, reason)| reason.as_str());
    Text::from(Line::plain(step).hang(2))
        .line(Line::plain(format!("Reason: {}", reason.unwrap_or_default())).hang(2))
        .line(Line::plain(
            "No condition of the procedure says so: it is a deviation, and the lead has to approve it.",
        ))
}

/// Why this is asked.
pub(super) const fn why(ask: &InterruptionAsk) -> &'static str {
    match ask {
        InterruptionAsk::Scope => "Steps and limits that are right for one vehicle can be wrong for another.",
        InterruptionAsk::Statement(_) => "The procedure requires it; nothing goes round it.",
        InterruptionAsk::Standing => {
            "Nobody said how things were left, or they were changed since. Whoever comes next goes by it."
        }
        InterruptionAsk::StillSo(_) => {
            "After an hour or more the last steps are looked at again: what was half in mind is easily lost."
        }
        InterruptionAsk::Protection(_) => {
            "A run does not rest before it is said of each protection whether it stays in force."
        }
        InterruptionAsk::Approval(_) => {
            "Only a condition leaves a step out by itself; else the lead answers for it."
        }
    }
}

/// The question in a few words.
pub(super) fn question(view: View<'_>, ask: &InterruptionAsk) -> String {
    let number = |step: &StepId| view.book.procedure.step(*step).map_or("", |step| &step.number);
    match ask {
        InterruptionAsk::Scope => format!("for: {}:", view.book.procedure.header().scope),
        InterruptionAsk::Statement(statement) => format!("{}:", statement.words(view)),
        InterruptionAsk::Standing => "how things stand:".to_owned(),
        InterruptionAsk::StillSo(step) => format!("step {}, still so:", number(step)),
        InterruptionAsk::Protection(hold) => {
            let hold = view.book.procedure.hold(hold);
            format!("{}:", hold.and_then(|hold| hold.protection.as_deref()).unwrap_or_default())
        }
        InterruptionAsk::Approval(step) => format!("step {} not applicable:", number(step)),
    }
}

/// What is said after an event.
pub(super) fn after(view: View<'_>, event: &InterruptionEvent) -> Text {
    match event {
        // What was just answered with yes is not told again.
        InterruptionEvent::Covered | InterruptionEvent::Stated(_) | InterruptionEvent::StillSo(_) => {
            Text::new()
        }
        other => super::result::last(&other.words(view)),
    }
}

/// Declares a departure: of which sort, and why.
pub(super) fn declare(ui: &mut dyn Ui) -> Result<Answer, Turn> {
    let sorts: Vec<String> = Declared::ALL.iter().map(|declared| declared.words().to_owned()).collect();
    let place = keys::inner_choice(ui, "What departs from the procedure?", &sorts)?;
    let declared = Declared::ALL[place.min(Declared::ALL.len() - 1)];
    let reason = keys::inner_line(ui, "What is done instead, and why? ")?;
    Ok(Answer::Interruption(InterruptionAnswer::Declare { declared, reason }))
}
