//! Questions on the way through the steps: sections, passes, ways.

use super::question::Question;
use super::{Turn, keys, words};
use crate::procedure::{Name, SectionId, Step, StepId};
use crate::run::{Answer, FlowAnswer, FlowAsk, FlowEvent, View};
use crate::terminal::{Line, Role, Text};

/// Asks, and hears the answer.
pub(super) fn ask(question: &mut Question<'_>, ask: &FlowAsk) -> Result<Answer, Turn> {
    let answer = match ask {
        FlowAsk::SectionComplete(_) => {
            return question.one_key("", ('y', "section complete"), Answer::Flow(FlowAnswer::Complete));
        }
        FlowAsk::Perform(_) => {
            return question.one_key("", ('d', "all of it is done"), Answer::Flow(FlowAnswer::WorkDone));
        }
        FlowAsk::PassEnd(repeat) => pass_end(question, repeat)?,
        FlowAsk::Exhausted(repeat) => exhausted(question, repeat)?,
        FlowAsk::Choose { ways, .. } => {
            return question.pick(ways, |way| Answer::Flow(FlowAnswer::Choose(way)));
        }
        FlowAsk::Disagrees(_) => {
            let keys = keys::with_common(&[('k', "leave it as it was done, as a deviation")]);
            question.key("", &keys)?;
            return question.accept();
        }
    };
    Ok(Answer::Flow(answer))
}

fn pass_end(question: &mut Question<'_>, repeat: &Name) -> Result<FlowAnswer, Turn> {
    let counts = [('y', "it counts"), ('x', "it does not count")];
    match key_or_give_up(question, repeat, &counts, "give up")? {
        'y' => Ok(FlowAnswer::Counts),
        'x' => Ok(FlowAnswer::Invalid { reason: keys::inner_line(question.ui, "Why does it not count? ")? }),
        _ => give_up(question),
    }
}

fn exhausted(question: &mut Question<'_>, repeat: &Name) -> Result<FlowAnswer, Turn> {
    match key_or_give_up(question, repeat, &[('t', "try one more pass")], "go on with a deviation")? {
        't' => Ok(FlowAnswer::Extend { reason: keys::inner_line(question.ui, "Why one more? ")? }),
        _ => give_up(question),
    }
}

/// A repeat of which it is not said what follows without it is not offered to be given up.
fn key_or_give_up(
    question: &mut Question<'_>,
    repeat: &Name,
    keys: &[(char, &'static str)],
    give_up: &'static str,
) -> Result<char, Turn> {
    let can = question.view.can_be_given_up(repeat);
    let all: Vec<_> = keys.iter().copied().chain(can.then_some(('g', give_up))).collect();
    question.key("", &keys::with_common(&all))
}

fn give_up(question: &mut Question<'_>) -> Result<FlowAnswer, Turn> {
    let (disposition, reason) = keys::disposition(question.ui)?;
    Ok(FlowAnswer::GiveUp { disposition, reason })
}

/// What is shown with the question.
pub(super) fn asked(view: View<'_>, ask: &FlowAsk) -> Text {
    match ask {
        FlowAsk::SectionComplete(section) => {
            Text::plain(&format!("Every step of \"{}\" is settled.", title(view, *section)))
        }
        FlowAsk::Perform(section) => work(view, *section),
        FlowAsk::PassEnd(repeat) => pass(view, repeat, "is done"),
        FlowAsk::Exhausted(repeat) => exhausted_text(view, repeat),
        FlowAsk::Choose { ways, .. } => ways
            .iter()
            .filter_map(|way| view.book.procedure.step(*way))
            .fold(Text::plain("One of these, and only one:"), step_line(view)),
        FlowAsk::Disagrees(step) => disagrees(view, *step),
    }
}

fn step_line<'run>(view: View<'run>) -> impl Fn(Text, &'run Step) -> Text {
    move |text, step| text.line(Line::marked(step.number.clone(), words::title(view, step)).indent(2))
}

fn work(view: View<'_>, section: SectionId) -> Text {
    let open = view.book.procedure.steps_in(section).filter(|step| !view.is_settled(step));
    open.fold(Text::plain("Do all of this. Each step is confirmed afterwards:"), step_line(view))
}

fn pass(view: View<'_>, repeat: &Name, is: &str) -> Text {
    let what = view.book.procedure.called(repeat);
    let number = view.pass_number(repeat).unwrap_or_default();
    let line =
        Line::new().with(Role::Strong, format!("{what}: ")).with(Role::Plain, format!("{number} {is}."));
    line.hang(2).into()
}

fn exhausted_text(view: View<'_>, repeat: &Name) -> Text {
    let declared = view.book.procedure.repeat(repeat);
    let stays = (!view.can_be_given_up(repeat)).then(|| {
        Line::plain("The procedure does not say what follows without it: one more pass, or stop the job.")
            .hang(2)
    });
    let fails = declared.and_then(|repeat| repeat.fails.as_ref());
    let text = pass(view, repeat, "was the last that the procedure allows, and it is not as it should be");
    let until = view.goes_on_until(repeat);
    let until = until.map(|until| Line::plain(format!("It goes on until: {until}.")).hang(2));
    let text = until.into_iter().fold(text, Text::line);
    fails
        .map(|fix| Line::new().with(Role::Strong, "What to do: ").with(Role::Plain, fix.as_str()).hang(2))
        .into_iter()
        .chain(stays)
        .fold(text, Text::line)
}

/// What was done, and what it was done under that does not hold any more.
fn disagrees(view: View<'_>, step: StepId) -> Text {
    let Some(step) = view.book.procedure.step(step) else { return Text::new() };
    let why = view.not_applicable_because(step).unwrap_or_default();
    let words = format!("step {} was done, and now {why}.", step.number);
    let text =
        Text::from(Line::new().with(Role::Bad, "It no longer agrees: ").with(Role::Plain, words).hang(2));
    let reason = view.state.revised.as_ref().map(|revision| &revision.reason);
    reason
        .into_iter()
        .fold(text, |text, reason| text.line(Line::plain(format!("Since the correction: {reason}.")).hang(2)))
}

fn title(view: View<'_>, section: SectionId) -> String {
    let section = view.book.procedure.section(section);
    section.map(|section| section.title.clone()).unwrap_or_default()
}

/// Why this is asked.
pub(super) const fn why(ask: &FlowAsk) -> &'static str {
    match ask {
        FlowAsk::SectionComplete(_) => {
            "Saying it aloud is the last look back: is anything of this section left?"
        }
        FlowAsk::Perform(_) => {
            "This section is done as one piece of work; nothing in it has to be led step by step."
        }
        FlowAsk::PassEnd(_) => "A pass that went wrong is kept and does not count.",
        FlowAsk::Exhausted(_) => {
            "The procedure says how often this is tried; what goes beyond that is a deviation."
        }
        FlowAsk::Choose { .. } => "The ways are equally good; only one of them is done.",
        FlowAsk::Disagrees(_) => {
            "A correction took away what this was done under. Undo it where that is needed; either way it is a deviation."
        }
    }
}

/// The question in a few words.
pub(super) fn question(view: View<'_>, ask: &FlowAsk) -> String {
    match ask {
        FlowAsk::SectionComplete(section) => format!("\"{}\":", title(view, *section)),
        FlowAsk::Perform(section) => format!("work of \"{}\":", title(view, *section)),
        FlowAsk::PassEnd(repeat) | FlowAsk::Exhausted(repeat) => {
            let what = view.book.procedure.called(repeat);
            format!("{what}, {}:", view.pass_number(repeat).unwrap_or_default())
        }
        FlowAsk::Choose { .. } => "which way:".to_owned(),
        FlowAsk::Disagrees(step) => {
            let number = view.book.procedure.step(*step).map_or("", |step| &step.number);
            format!("step {number} no longer agrees:")
        }
    }
}

/// What is said after an event.
pub(super) fn after(view: View<'_>, event: &FlowEvent) -> Text {
    super::result::last(&event.words(view))
}
