//! Looking around: all the steps with their marks, from the one that is asked about; what stands ahead can be read, and
//! the present step be put off until then.

use super::keys::{inner_choice_from, inner_key, inner_line};
use super::{Turn, hazard, look, overview, words};
use crate::procedure::{Section, Step};
use crate::run::{Answer, Prompt, View};
use crate::terminal::{KeyHint, Line, Role, Text, Ui};

/// A row of the list.
enum Row<'run> {
    Section(&'run Section),
    Step(&'run Step),
}

/// Shows all steps; one can be read in full.
pub(super) fn around(ui: &mut dyn Ui, view: View<'_>, prompt: &Prompt) -> Result<Answer, Turn> {
    let rows = rows(view);
    let items: Vec<String> = rows.iter().map(|row| item(view, prompt, row)).collect();
    let is_here = |row: &Row<'_>| matches!(row, Row::Step(step) if Some(step.id) == prompt.step);
    let mut place = rows.iter().position(is_here).unwrap_or_default();
    loop {
        place = inner_choice_from(ui, "All steps; one is read in full", &items, place)?;
        let Some(row) = rows.get(place) else { return Err(Turn::Again) };
        ui.clear_for_screen().map_err(Turn::Broken)?;
        ui.say(&in_full(view, row)).map_err(Turn::Broken)?;
        let later = later(view, prompt, row);
        let put_off =
            later.map(|(now, _)| KeyHint::new('l', format!("step {now} waits until just before this")));
        let keys: Vec<KeyHint> = [KeyHint::back("back to the steps")].into_iter().chain(put_off).collect();
        if let ('l', Some((_, before))) = (inner_key(ui, "", &keys)?, later) {
            let reason = inner_line(ui, "Why later? ")?;
            return Ok(Answer::Defer { before: before.id, reason });
        }
        ui.clear_for_screen().map_err(Turn::Broken)?;
    }
}

fn rows(view: View<'_>) -> Vec<Row<'_>> {
    let procedure = &view.book.procedure;
    let of_section = |section| {
        let steps = procedure.steps_in(section).map(Row::Step);
        procedure
            .section(section)
            .filter(|section| !section.title.is_empty())
            .map(Row::Section)
            .into_iter()
            .chain(steps)
    };
    let mut sections: Vec<_> = procedure.steps().iter().map(|step| step.section).collect();
    sections.dedup();
    sections.into_iter().flat_map(of_section).collect()
}

fn item(view: View<'_>, prompt: &Prompt, row: &Row<'_>) -> String {
    match row {
        Row::Section(section) => section.title.clone(),
        Row::Step(step) => {
            format!("{} {}: {}", step.number, look::mark(view, step, prompt), words::title(view, step))
        }
    }
}

/// A section with its hazards; a step with its hazards, what it is confirmed by, and what came of it.
fn in_full(view: View<'_>, row: &Row<'_>) -> Text {
    let procedure = &view.book.procedure;
    let hazards = match row {
        Row::Section(section) => &section.hazards,
        Row::Step(step) => &step.hazards,
    };
    let hazards = hazards.iter().filter_map(|name| procedure.hazard(name)).map(hazard::hazard_line);
    let text = hazards.fold(Text::new(), Text::line);
    match row {
        Row::Section(section) => {
            Text::from(Line::new().with(Role::Strong, section.title.as_str())).then(text)
        }
        Row::Step(step) => {
            let hold = step.hold.as_ref().and_then(|hold| procedure.hold(hold));
            let hold = hold.map(|hold| overview::hold_text(procedure, hold).indented(2));
            hold.into_iter().fold(text.then(look::step_in_full(view, step)), Text::then)
        }
    }
}

/// The step that is asked about, by its number, and the one before which it could come back.
fn later<'run>(view: View<'run>, prompt: &Prompt, row: &Row<'run>) -> Option<(&'run str, &'run Step)> {
    let Row::Step(before) = row else { return None };
    let now = view.book.procedure.step(prompt.step?)?;
    let may_wait = view.can_be_passed_by(now.id) && view.kept_in(prompt).is_none() && before.id > now.id;
    may_wait.then_some((now.number.as_str(), before))
}
