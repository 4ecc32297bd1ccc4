//! Questions among people: who is there, who takes over, who looks at whose work.

use super::beside::Beside;
use super::question::Question;
use super::{Turn, brief, keys, reading, words};
use crate::procedure::{Name, Step};
use crate::run::{
    Answer, Answered, Ask, OccurrenceId, PeopleAnswer, PeopleAsk, PeopleEvent, Prompt, SecondStanding, View,
};
use crate::terminal::{Line, Role, Text, Ui};

/// Asks, and hears the answer.
pub(super) fn ask(question: &mut Question<'_>, ask: &PeopleAsk) -> Result<Answer, Turn> {
    let view = question.view;
    match ask {
        PeopleAsk::Still(role) => still(question, role),
        PeopleAsk::Turnover(role) => {
            let prompt = format!("Brief read and accepted by {}; name or initials: ", named(view, role));
            Ok(Answer::Release { said: question.typed(&prompt)? })
        }
        PeopleAsk::PreJobBrief => {
            let said = question.typed("Present, by name or initials, with commas between: ")?;
            let said = said.split(',').map(|said| said.trim().to_owned()).collect();
            Ok(Answer::People(PeopleAnswer::Present(said)))
        }
        PeopleAsk::Witness(witness) => {
            let by = view.book.procedure.witness(witness).map(|witness| named(view, &witness.by));
            called(question, &by.unwrap_or_default())
        }
        PeopleAsk::SignOff(role) => look(question, role, &[]),
        PeopleAsk::Check(check) => {
            let declared = view.book.procedure.check(check);
            let alone = declared.and_then(|check| check.alone.as_ref());
            let alone = alone.map(|_| ('q', "re-inspection, nobody else is here"));
            let by = declared.map_or_else(|| Name::from("lead"), |check| check.by.clone());
            look(question, &by, &alone.into_iter().collect::<Vec<_>>())
        }
        PeopleAsk::Second(reading) => reading::ask(question, reading),
        PeopleAsk::Differs(_) => differs(question),
        PeopleAsk::Nominal(_) => good(question),
    }
}

fn still(question: &mut Question<'_>, role: &Name) -> Result<Answer, Turn> {
    let same = format!("still {}", person(question.view, role));
    let own = [('\n', same.as_str()), ('n', "somebody else")];
    match question.key("", &keys::with_common(&own))? {
        'n' => {
            let name = keys::inner_line(question.ui, &format!("Name of the {role}: "))?;
            Ok(Answer::People(PeopleAnswer::Named(name)))
        }
        _ => Ok(Answer::People(PeopleAnswer::Keep)),
    }
}

fn called(question: &mut Question<'_>, who: &str) -> Result<Answer, Turn> {
    let own = keys::with_common(&[('y', "is here and sees it"), ('n', "is absent")]);
    if question.key("", &own)? == 'y' {
        let said = keys::inner_line(question.ui, &format!("{who}, name or initials: "))?;
        return Ok(Answer::Release { said });
    }
    let reason = keys::inner_line(question.ui, "Why is nobody here to see it? ")?;
    Ok(Answer::People(PeopleAnswer::Absent { reason }))
}

fn look(question: &mut Question<'_>, role: &Name, more: &[(char, &str)]) -> Result<Answer, Turn> {
    let own: Vec<(char, &str)> =
        [('y', "yes"), ('n', "no")].into_iter().chain(more.iter().copied()).collect();
    match question.key("", &keys::with_common(&own))? {
        'y' => {
            let prompt = format!("{}, name or initials: ", named(question.view, role));
            Ok(Answer::Release { said: keys::inner_line(question.ui, &prompt)? })
        }
        'q' => {
            let said = keys::inner_line(question.ui, "Who looks again, name or initials: ")?;
            let reason = keys::inner_line(question.ui, "Why is there nobody else? ")?;
            Ok(Answer::People(PeopleAnswer::Reinspect { said, reason }))
        }
        _ => Ok(Answer::Untrue { state: keys::inner_line(question.ui, "How is it? ")? }),
    }
}

/// Whether something is good by eye.
pub(super) fn good(question: &mut Question<'_>) -> Result<Answer, Turn> {
    match question.key("", &keys::with_common(&[('y', "good"), ('n', "not good")]))? {
        'y' => Ok(Answer::Good),
        _ => Ok(Answer::NotGood { state: keys::inner_line(question.ui, "What is wrong? ")? }),
    }
}

fn differs(question: &mut Question<'_>) -> Result<Answer, Turn> {
    let own = [('t', "both read it again"), ('c', "correct a wrong entry")];
    match question.key_or_deviate(&own, &[('g', "go on with a deviation")])? {
        't' => Ok(Answer::Again { reason: keys::inner_line(question.ui, "Why do they differ? ")? }),
        'c' => super::correction::correct(question.ui, question.view, question.prompt),
        _ => question.accept(),
    }
}

/// Somebody takes over a role in the middle of a sitting: which, who, and what they have to know.
pub(super) fn take_over(ui: &mut dyn Ui, view: View<'_>) -> Result<Answer, Turn> {
    let roles: Vec<Name> = view.book.procedure.roles().names().cloned().collect();
    let shown: Vec<String> = roles.iter().map(|role| named(view, role)).collect();
    let place = keys::inner_choice(ui, "Which role goes to somebody else", &shown)?;
    let role = roles[place.min(roles.len() - 1)].clone();
    let person = keys::inner_line(ui, &format!("Who takes over as {role}? "))?;
    let note = keys::inner_line(ui, "What must they know (state of things, what comes next)? ")?;
    Ok(Answer::People(PeopleAnswer::TakeOver { role, person, note }))
}

/// What is shown with the question.
pub(super) fn asked(view: View<'_>, prompt: &Prompt, ask: &PeopleAsk, beside: &Beside) -> Text {
    let step = prompt.step.and_then(|step| view.book.procedure.step(step));
    match ask {
        PeopleAsk::Still(role) => {
            let what = view.book.procedure.what(role).unwrap_or_default();
            Text::plain(&format!("Another day. Is {} still the {role} ({what})?", person(view, role)))
        }
        PeopleAsk::Turnover(role) => brief::for_turnover(view, role),
        PeopleAsk::PreJobBrief => brief::before_the_job(view),
        PeopleAsk::Witness(witness) => headed(
            &format!("Witness point: {}", what(view, witness)),
            &view.book.procedure.witness(witness).map_or_else(String::new, |declared| {
                format!(
                    "Call {}. Without a witness it goes on, and the record says so.",
                    named(view, &declared.by)
                )
            }),
        ),
        PeopleAsk::SignOff(role) => headed(
            "Awaiting check.",
            &format!("Done by {}. {} looks at it and signs it off.", done_by(view, step), named(view, role)),
        ),
        PeopleAsk::Check(check) => check_text(view, step, check),
        PeopleAsk::Second(reading) => second_text(view, reading, beside),
        PeopleAsk::Differs(reading) => differs_text(view, reading),
        PeopleAsk::Nominal(result) => nominal_text(view, step, result),
    }
}

fn headed(head: &str, words: &str) -> Text {
    Text::new().line(Line::new().with(Role::Strong, head).hang(2)).line(Line::plain(words).hang(2))
}

fn check_text(view: View<'_>, step: Option<&Step>, check: &Name) -> Text {
    let Some(declared) = view.book.procedure.check(check) else {
        return Text::new();
    };
    let alone = declared.alone.as_ref().map(|alone| {
        format!(" With nobody else here: re-inspection after a break of {alone}, as a deviation.")
    });
    let words = format!(
        "Done by {}. {} looks for himself or herself, without being told what to see.{}",
        done_by(view, step),
        named(view, &declared.by),
        alone.unwrap_or_default()
    );
    headed(&format!("Independent verification: {}", declared.what), &words)
}

fn second_text(view: View<'_>, reading: &Name, beside: &Beside) -> Text {
    let second = view.book.procedure.reading(reading).and_then(|declared| declared.second.as_ref());
    let by = second.map(|second| named(view, &second.by)).unwrap_or_default();
    let words = format!("{by} reads it now and has not seen the first reading, which stays out of sight.");
    headed("Second reading, blind to the first.", &words).then(reading::shown(view, reading, beside))
}

fn differs_text(view: View<'_>, reading: &Name) -> Text {
    let head = format!("The two readings differ: {}", what(view, reading));
    let (first, second) = both(view, reading).unwrap_or_default();
    let most =
        view.book.procedure.reading(reading).and_then(|declared| declared.second.as_ref()?.agree.as_ref());
    let most = most.map_or_else(|| "the same".to_owned(), |most| format!("no further apart than {most}"));
    headed(&head, &format!("First {first}; second {second}. They must be {most}."))
}

/// What was read or computed and what is nominal, side by side, and whose word it is.
fn nominal_text(view: View<'_>, step: Option<&Step>, result: &Name) -> Text {
    super::result::result(view, result).line(super::result::is_it_good(view, step.map(|step| step.id)))
}

/// Both readings, each with who read it.
fn both(view: View<'_>, reading: &Name) -> Option<(String, String)> {
    let first = view.latest(reading)?;
    let second = view.second_of(reading)?;
    let step = view.book.procedure.taken_at(reading).and_then(|step| view.book.procedure.step(step));
    let shown = |answered: &Answered| words::answered(answered);
    Some((
        format!("{} ({})", shown(&first.value), done_by(view, step)),
        format!(
            "{} ({})",
            shown(&second.value),
            view.state.people.known_as(&second.person, second.stamp.seq)
        ),
    ))
}

fn what(view: View<'_>, name: &Name) -> String {
    view.book.procedure.called(name).to_owned()
}

fn person<'run>(view: View<'run>, role: &Name) -> &'run str {
    view.state.people.get(role).map(String::as_str).unwrap_or_default()
}

/// `Sam Hollis (helper)`.
fn named(view: View<'_>, role: &Name) -> String {
    format!("{} ({role})", person(view, role))
}

fn done_by(view: View<'_>, step: Option<&Step>) -> String {
    let people = step.map(|step| view.performers(step)).unwrap_or_default();
    people.into_iter().collect::<Vec<_>>().join(" and ")
}

/// Why this is asked.
pub(super) const fn why(ask: &PeopleAsk) -> &'static str {
    match ask {
        PeopleAsk::Still(_) => "Each entry names a person; on another day that may be somebody else.",
        PeopleAsk::Turnover(_) => "Whoever takes over works with what was left: first read it, then accept.",
        PeopleAsk::PreJobBrief => {
            "Before the first hold point everybody hears the hazards, who does what, and the word that stops it."
        }
        PeopleAsk::Witness(_) => "The procedure has somebody called to see this step.",
        PeopleAsk::SignOff(_) => {
            "The work of this role counts once the person who answers for it has looked."
        }
        PeopleAsk::Check(_) => "Whoever did it sees what was meant; another person sees what is there.",
        PeopleAsk::Second(_) => "Whoever has seen the first reading tends to read the same.",
        PeopleAsk::Nominal(_) => super::result::WHY_NOMINAL,
        PeopleAsk::Differs(_) => "One of the two is wrong, and it is not known which.",
    }
}

/// The question in a few words.
pub(super) fn question(view: View<'_>, ask: &PeopleAsk) -> String {
    match ask {
        PeopleAsk::Still(role) => format!("{role}, another day:"),
        PeopleAsk::Turnover(role) => format!("turnover accepted, {role}:"),
        PeopleAsk::PreJobBrief => "pre-job brief, present:".to_owned(),
        PeopleAsk::Witness(name) => format!("witness, {}:", what(view, name)),
        PeopleAsk::SignOff(role) => format!("signed off, {role}:"),
        PeopleAsk::Check(name) => format!("verification, {}:", what(view, name)),
        PeopleAsk::Second(name) => format!("second reading, {}:", what(view, name)),
        PeopleAsk::Nominal(name) => format!("good or not good, {}:", what(view, name)),
        PeopleAsk::Differs(name) => format!("the two readings differ, {}:", what(view, name)),
    }
}

/// What is said after an event.
pub(super) fn after(view: View<'_>, event: &PeopleEvent) -> Text {
    let reading = match event {
        PeopleEvent::SecondRead { reading, .. } => reading,
        PeopleEvent::Judged { result, wrong: None, .. } => return super::result::result(view, result),
        _ => return super::result::last(&event.words(view)),
    };
    match view.second_standing(reading) {
        SecondStanding::Agree => {
            let (first, second) = both(view, reading).unwrap_or_default();
            let said = super::result::last(&format!("the readings agree: first {first}, second {second}"));
            let next = view.inside(OccurrenceId::RUN).next().ask;
            let told = [Ask::Failed(reading.clone()), Ask::People(PeopleAsk::Nominal(reading.clone()))];
            if told.contains(&next) { said } else { said.then(super::result::result(view, reading)) }
        }
        _ => super::result::last("second reading kept"),
    }
}
