//! Questions in taking a reading: which instrument, what is typed before a critical act, what was entered wrongly.

use super::put_right::{DRAFT, value, wrong};
use super::question::Question;
use super::{Turn, keys};
use crate::procedure::{Name, Typing};
use crate::run::{Answer, ParticularAnswer, ParticularAsk, ParticularEvent, View};
use crate::terminal::{Line, Role, Text, Ui};

/// Asks, and hears the answer.
pub(super) fn ask(question: &mut Question<'_>, ask: &ParticularAsk) -> Result<Answer, Turn> {
    match ask {
        ParticularAsk::Instrument(tool) => {
            let identity =
                question.typed(&format!("{}, what is written on it: ", what(question.view, tool)))?;
            due(question.ui, tool, identity)
        }
        ParticularAsk::Overdue(tool) => overdue(question, tool),
        ParticularAsk::Critical(_) => {
            let text = question.typed("Type it to go on: ")?;
            Ok(Answer::Particular(ParticularAnswer::Typed(text)))
        }
    }
}

fn overdue(question: &mut Question<'_>, tool: &Name) -> Result<Answer, Turn> {
    let deviate = [('g', "go on with a deviation")];
    match question.key_or_deviate(&[('i', "another instrument")], &deviate)? {
        'i' => instrument(question.ui, tool),
        _ => question.accept(),
    }
}

/// Another instrument than before.
fn instrument(ui: &mut dyn Ui, tool: &Name) -> Result<Answer, Turn> {
    let identity = keys::inner_line(ui, "What is written on it? ")?;
    due(ui, tool, identity)
}

fn due(ui: &mut dyn Ui, tool: &Name, identity: String) -> Result<Answer, Turn> {
    let due = keys::inner_line(ui, "Its calibration is good until (year-month-day): ")?;
    Ok(Answer::Particular(ParticularAnswer::Instrument { tool: tool.clone(), identity, due }))
}

/// Whether instruments are named in this procedure.
pub(super) fn names_instruments(view: View<'_>) -> bool {
    view.book.procedure.tools().iter().any(|(_, tool)| tool.calibrated)
}

/// An instrument is exchanged: which tool it stands for, and what is written on it.
pub(super) fn exchange(ui: &mut dyn Ui, view: View<'_>) -> Result<Answer, Turn> {
    let tools = view.book.procedure.tools().iter().filter(|(_, tool)| tool.calibrated);
    let (names, shown): (Vec<&Name>, Vec<String>) =
        tools.map(|(name, tool)| (name, tool.what.clone())).unzip();
    let place = match names.len() {
        1 => 0,
        _ => keys::inner_choice(ui, "Which instrument", &shown)?,
    };
    instrument(ui, names.get(place).ok_or(Turn::Again)?)
}

/// What was entered before the first reading and can be corrected.
pub(super) enum Entered {
    /// The odometer.
    Odometer,
    /// A value of the vehicle.
    VehicleValue(Name),
}

/// Everything that was entered before the first reading, with what it is said to be.
pub(super) fn entered(view: View<'_>) -> Vec<(Entered, String)> {
    let odometer = view.state.odometer.iter();
    let odometer = odometer.map(|entry| (Entered::Odometer, format!("odometer: {}", entry.typed)));
    let values = view.book.procedure.vehicle().names().filter_map(|name| {
        let (value, _) = view.vehicle_value(name)?;
        Some((Entered::VehicleValue(name.clone()), format!("{}: {}", what(view, name), value.shown())))
    });
    odometer.chain(values).collect()
}

/// What it really is, and why the entry was wrong.
pub(super) fn correct(ui: &mut dyn Ui, view: View<'_>, entered: &Entered) -> Result<Answer, Turn> {
    let corrected = |text: String, source: String, reason: String| {
        Answer::Particular(match entered {
            Entered::Odometer => ParticularAnswer::CorrectOdometer { text, reason },
            Entered::VehicleValue(name) => {
                ParticularAnswer::CorrectVehicleValue { name: name.clone(), text, source, reason }
            }
        })
    };
    let draft = |text: String| corrected(text, DRAFT.to_owned(), DRAFT.to_owned());
    let text = value(ui, view, "What is it really? ", draft)?;
    let source = match entered {
        Entered::Odometer => String::new(),
        Entered::VehicleValue(_) => keys::inner_line(ui, "Where was it found (document, page)? ")?,
    };
    Ok(corrected(text, source, wrong(ui)?))
}

/// What is shown with the question.
pub(super) fn asked(view: View<'_>, ask: &ParticularAsk) -> Text {
    match ask {
        ParticularAsk::Instrument(tool) => {
            let text = Text::plain("Before a reading is taken with it today: which one is it?");
            let before = view.instrument(tool);
            let before = before.map(|named| format!("Before: {}, good until {}", named.identity, named.due));
            before.into_iter().fold(text, |text, line| text.line(Line::plain(line).hang(2)))
        }
        ParticularAsk::Overdue(tool) => {
            let named = view.instrument(tool);
            let words = named.map(|named| {
                format!(
                    "{}, {}: its calibration was good until {}",
                    what(view, tool),
                    named.identity,
                    named.due
                )
            });
            Line::new().with(Role::Bad, words.unwrap_or_default()).hang(2).into()
        }
        ParticularAsk::Critical(act) => critical(view, act),
    }
}

fn critical(view: View<'_>, act: &Name) -> Text {
    let Some(critical) = view.book.procedure.critical_act(act) else { return Text::new() };
    let head = Line::new()
        .with(Role::Bad, "It cannot be undone: ")
        .with(Role::Strong, critical.what.as_str())
        .hang(2);
    let words = match &critical.typing {
        Typing::Words(words) => format!("To go on, type: {words}"),
        Typing::Value(formula) => {
            let of = view.book.procedure.what(&Name::from(formula.text().trim()));
            format!("To go on, type the amount with its unit: {}", of.unwrap_or(formula.text()))
        }
    };
    Text::new().line(head).line(Line::plain(words).hang(2))
}

/// Why this is asked.
pub(super) const fn why(ask: &ParticularAsk) -> &'static str {
    match ask {
        ParticularAsk::Instrument(_) => {
            "The record says with which instrument each reading was taken, and until when its calibration was good."
        }
        ParticularAsk::Overdue(_) => {
            "Nobody knows what an overdue instrument shows. Another one is used, or it is a deviation."
        }
        ParticularAsk::Critical(_) => "It cannot be undone: whoever does it has to have read what it is.",
    }
}

/// The question in a few words.
pub(super) fn question(view: View<'_>, ask: &ParticularAsk) -> String {
    match ask {
        ParticularAsk::Instrument(tool) => format!("{}, which one:", what(view, tool)),
        ParticularAsk::Overdue(tool) => format!("{}, overdue:", what(view, tool)),
        ParticularAsk::Critical(act) => format!("cannot be undone: {}:", what(view, act)),
    }
}

/// What is said after an event.
pub(super) fn after(view: View<'_>, event: &ParticularEvent) -> Text {
    super::result::last(&event.words(view))
}

fn what(view: View<'_>, name: &Name) -> String {
    view.book.procedure.called(name).to_owned()
}
