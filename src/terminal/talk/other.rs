//! What can be done at any question besides answering it.

use super::keys::{disposition, inner_line, of_many, optional_line};
use super::{Turn, correction, fastening, particular};
use crate::run::{
    Answer, Ask, Before, FasteningAnswer, FasteningAsk, FlowAnswer, InterruptionAnswer, Leave, Part, Prompt,
    Sitting, View,
};
use crate::terminal::{KeyHint, Text, Ui};

/// Offers everything that can be done besides answering.
pub(super) fn other(ui: &mut dyn Ui, view: View<'_>, prompt: &Prompt) -> Result<Answer, Turn> {
    let offered = [
        ('w', "where we are: look around at all steps"),
        ('c', "correct an earlier reading or entry"),
        ('r', "remark"),
        ('+', "a loose end: note one, or settle one"),
        ('m', "something was moved or used"),
        ('d', "it was done before: enter it late (from paper)"),
        ('i', "another instrument is used"),
        ('l', "this step later"),
        ('u', "this step is not applicable"),
        ('v', "declare a deviation"),
        ('z', "can I stop here?"),
        ('b', "begin this section anew"),
        ('x', "the pass that ended last does not count"),
        ('g', "give up what is repeated here"),
        ('h', "hand over: somebody else takes a role"),
        ('f', "a fastener was loosened again"),
        ('j', "this fastener cannot be done"),
        ('s', "suspend until another time"),
        ('!', "stop the job"),
    ];
    let innermost = prompt.step.and_then(|step| view.book.repeats_over(Part::Step(step)).pop());
    let repeats = innermost.is_some_and(|repeat| view.can_be_given_up(repeat));
    let may_pass = prompt.step.is_some_and(|step| view.can_be_passed_by(step));
    let at_step = |key: char| match key {
        'l' | 'u' => may_pass && view.kept_in(prompt).is_none(),
        'd' => view.can_be_late(prompt),
        'b' => prompt.step.is_some() || matches!(prompt.ask, Ask::Flow(_)),
        'x' => view.pass_just_ended().is_some(),
        'g' => repeats,
        'h' => !view.state.people.is_empty(),
        'i' => particular::names_instruments(view),
        'f' => !fastening::begun(view).is_empty(),
        'j' => may_pass && matches!(prompt.ask, Ask::Fastening(FasteningAsk::Reach(_))),
        _ => true,
    };
    let offered = offered.into_iter().filter(|(key, _)| at_step(*key));
    let offered = offered.map(|(key, does)| KeyHint::new(key, does));
    let keys: Vec<KeyHint> = [KeyHint::back("back to the question")].into_iter().chain(offered).collect();
    match of_many(ui, &keys)? {
        'w' => super::steps::around(ui, view, prompt),
        'c' => correction::correct(ui, view, prompt),
        'r' => Ok(Answer::Note(inner_line(ui, "Remark: ")?)),
        '+' => super::loose::loose(ui, view),
        'm' => super::touched::touched(ui, view),
        'd' => Err(Turn::Late),
        'i' => particular::exchange(ui, view),
        'l' => later(ui, view),
        'u' => not_applicable(ui),
        'v' => super::interruption::declare(ui),
        'z' => Err(Turn::Show(super::stopping::can_stop(view))),
        'b' => {
            let reason = inner_line(ui, "Why is it begun anew? ")?;
            Ok(Answer::Flow(FlowAnswer::Restart { reason }))
        }
        'x' => {
            let reason = inner_line(ui, "Why does it not count? ")?;
            Ok(Answer::Flow(FlowAnswer::Invalid { reason }))
        }
        'g' => {
            let (disposition, reason) = disposition(ui)?;
            Ok(Answer::Flow(FlowAnswer::GiveUp { disposition, reason }))
        }
        'h' => super::people::take_over(ui, view),
        'f' => fastening::loosened(ui, view),
        'j' => {
            let reason = inner_line(ui, "Why can it not be done? ")?;
            Ok(Answer::Fastening(FasteningAnswer::Skip { reason }))
        }
        's' => leave(ui, view, Leave::Suspend),
        '!' => Err(Turn::Stop),
        _ => Err(Turn::Again),
    }
}

/// Ends the sitting: why, and the state that things are left in.
pub(super) fn leave(ui: &mut dyn Ui, view: View<'_>, how: Leave) -> Result<Answer, Turn> {
    if how == Leave::Suspend && view.state.sitting == Sitting::Working {
        ui.say(&super::stopping::can_stop(view)).map_err(Turn::Broken)?;
    }
    let question = match how {
        Leave::Suspend => "Why is it suspended? ",
        Leave::Stop => "Why is the job stopped? ",
    };
    let reason = inner_line(ui, question).map_err(|turn| match (how, turn) {
        (Leave::Stop, Turn::Again) => Turn::Show(Text::plain("Not stopped: the work goes on.")),
        (_, turn) => turn,
    })?;
    let state = inner_line(ui, "What state are things left in (loose, hanging, open, live)? ")?;
    let first = match how {
        Leave::Suspend => optional_line(ui, "What comes first next time (Enter alone: as the run asks)? ")?,
        Leave::Stop => None,
    };
    Ok(Answer::Leave { how, reason, state, first })
}

/// Puts a step off: why, and before which step it comes back.
pub(super) fn later(ui: &mut dyn Ui, view: View<'_>) -> Result<Answer, Turn> {
    let reason = inner_line(ui, "Why later? ")?;
    let before =
        inner_line(ui, "At the latest before which step (its number, or `section 3` for its end)? ")?;
    match Before::named(view.book, &before) {
        Some(Before::Step(before)) => Ok(Answer::Defer { before, reason }),
        Some(Before::EndOf(section)) => {
            Ok(Answer::Interruption(InterruptionAnswer::DeferToEnd { section, reason }))
        }
        None => Err(Turn::Show(Text::plain(&format!(
            "There is no step {}; `look around` shows all numbers.",
            before.trim()
        )))),
    }
}

/// Leaves a step out: why.
pub(super) fn not_applicable(ui: &mut dyn Ui) -> Result<Answer, Turn> {
    Ok(Answer::NotApplicable { reason: inner_line(ui, "Why does it not apply? ")? })
}
