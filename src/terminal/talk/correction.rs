//! Correcting what was entered: which entry of which pass, what it really is, what was wrong.

use super::keys::{inner_choice, inner_choice_from, inner_line};
use super::put_right::{DRAFT, value, wrong};
use super::{Turn, fastening, particular, words};
use crate::procedure::{Name, ReadingKind};
use crate::run::{Answer, Ask, PeopleAnswer, Prompt, Spot, View};
use crate::terminal::Ui;

/// An entry that can be corrected.
enum Entered {
    /// Of a reading.
    Reading(Name, u64),
    /// At a fastener.
    Fastener(Spot, u64),
    /// The odometer or a value of the vehicle.
    Vehicle(particular::Entered),
    /// The name of a role.
    Person(Name),
}

/// Corrects an entry: which, what it was, why.
pub(super) fn correct(ui: &mut dyn Ui, view: View<'_>, prompt: &Prompt) -> Result<Answer, Turn> {
    let (mut entries, shown): (Vec<Entered>, Vec<String>) = entries(view, prompt).into_iter().unzip();
    let failed = |entered: &Entered| matches!((entered, &prompt.ask), (Entered::Reading(name, _), Ask::Failed(failed)) if name == failed);
    let start = entries.iter().position(failed).unwrap_or_default();
    let place = inner_choice_from(ui, "Which entry was wrong", &shown, start)?;
    if place >= entries.len() {
        return Err(Turn::Again);
    }
    match entries.swap_remove(place) {
        Entered::Reading(reading, entry) => of_reading(ui, view, &reading, entry),
        Entered::Fastener(at, entry) => fastening::corrected(ui, view, entry, &at),
        Entered::Vehicle(entered) => particular::correct(ui, view, &entered),
        Entered::Person(role) => of_name(ui, view, &role),
    }
}

/// Everything that was entered, in whatever pass: first what belongs to the step that is asked about, the newest first.
fn entries(view: View<'_>, prompt: &Prompt) -> Vec<(Entered, String)> {
    let fasteners = fastening::correctable(view).into_iter();
    let fasteners = fasteners.map(|(entry, at, words)| (entry, (Entered::Fastener(at, entry), words)));
    let mut entries: Vec<(u64, (Entered, String))> = readings(view).chain(fasteners).collect();
    let step = prompt.step.and_then(|step| view.book.procedure.step(step));
    let is_here = |entered: &Entered| match entered {
        Entered::Reading(name, _) => step.is_some_and(|step| step.takes.contains(name)),
        Entered::Fastener(at, _) => step.is_some_and(|step| step.fasteners.contains(&at.group)),
        Entered::Vehicle(_) | Entered::Person(_) => false,
    };
    entries.sort_by_key(|(entry, (entered, _))| std::cmp::Reverse((is_here(entered), *entry)));
    let vehicle =
        particular::entered(view).into_iter().map(|(entered, words)| (Entered::Vehicle(entered), words));
    let roles = view.book.procedure.roles().names();
    let people = roles.filter_map(|role| {
        let person = view.state.people.get(role)?;
        Some((Entered::Person(role.clone()), format!("{role}: {person}")))
    });
    entries.into_iter().map(|(_, entry)| entry).chain(vehicle).chain(people).collect()
}

/// The newest word on each attempt at a reading.
fn readings(view: View<'_>) -> impl Iterator<Item = (u64, (Entered, String))> + '_ {
    view.state.read_at.keys().flat_map(move |name| {
        view.state.attempts_at(name).flat_map(move |(at, attempts)| {
            let here = view.inside(at);
            let step = view.book.procedure.home(name);
            let pass = step.and_then(|step| here.pass_words(step));
            let pass = pass.map(|pass| format!(" ({pass})")).unwrap_or_default();
            let mut places: Vec<u64> = attempts.taken.iter().map(|taken| taken.place).collect();
            places.dedup();
            let newest = places.into_iter().filter_map(move |place| attempts.at(place));
            newest.map(move |taken| {
                let what = view.book.procedure.called(name);
                let is_hidden = here.is_blind(name);
                let value = if is_hidden { String::new() } else { words::answered(&taken.value) };
                let when = words::clock(&taken.stamp.at, view.now);
                let words = format!("{what}{pass}: {value} ({when})");
                (taken.place, (Entered::Reading(name.clone(), taken.place), words))
            })
        })
    })
}

fn of_reading(ui: &mut dyn Ui, view: View<'_>, reading: &Name, entry: u64) -> Result<Answer, Turn> {
    let corrected = |text: String, reason: String| Answer::Correct {
        reading: reading.clone(),
        entry: Some(entry),
        text,
        reason,
    };
    let declared = view.book.procedure.reading(reading);
    let text = match declared.map(|reading| (reading, &reading.kind)) {
        Some((declared, ReadingKind::Choice { choices, .. })) => {
            let choices = declared.offered(choices);
            let place = inner_choice(ui, "What was it really?", &choices)?;
            choices[place.min(choices.len() - 1)].clone()
        }
        // Only when it is kept is a file looked at.
        Some((_, ReadingKind::File)) => inner_line(ui, "What was it really? ")?,
        _ => value(ui, view, "What was it really? ", |text| corrected(text, DRAFT.to_owned()))?,
    };
    Ok(corrected(text, wrong(ui)?))
}

fn of_name(ui: &mut dyn Ui, view: View<'_>, role: &Name) -> Result<Answer, Turn> {
    let corrected = |person: String, reason: String| {
        Answer::People(PeopleAnswer::CorrectName { role: role.clone(), person, reason })
    };
    let person = value(ui, view, "What is the name really? ", |text| corrected(text, DRAFT.to_owned()))?;
    Ok(corrected(person, wrong(ui)?))
}
