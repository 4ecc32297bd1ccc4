//! Asking at a group of fasteners, and hearing the answer.

use crate::procedure::Name;
use crate::run::{Answer, FasteningAnswer, FasteningAsk, FasteningEvent, SlipCheck, Spot, View};
use crate::terminal::talk::question::Question;
use crate::terminal::talk::{Turn, correction, keys, other, people};

/// Asks, and hears the answer.
pub(in crate::terminal::talk) fn ask(
    question: &mut Question<'_>,
    ask: &FasteningAsk,
) -> Result<Answer, Turn> {
    match ask {
        FasteningAsk::SetStage { group, stage } => {
            let begin = super::show::begin_words(question.view, group, *stage);
            question.one_key("", ('b', begin), own(FasteningAnswer::StageSet))
        }
        FasteningAsk::Tighten(at) => tighten(question, at),
        FasteningAsk::Reach(at) => reach(question, at),
        FasteningAsk::Nominal(_) => people::good(question),
        FasteningAsk::Failed(at) => failed(question, at),
        FasteningAsk::NoPlaces { .. } => no_places(question),
    }
}

const fn own(answer: FasteningAnswer) -> Answer {
    Answer::Fastening(answer)
}

fn tighten(question: &mut Question<'_>, at: &Spot) -> Result<Answer, Turn> {
    let done = format!("{} is done", at.position);
    let key = key_for(question.view, at);
    match question.key_or_deviate(&[(key, done.as_str())], &[('u', "it cannot be done")])? {
        'u' => left_out(question),
        _ => Ok(Answer::Done),
    }
}

fn left_out(question: &mut Question<'_>) -> Result<Answer, Turn> {
    let reason = keys::inner_line(question.ui, "Why can it not be done? ")?;
    Ok(own(FasteningAnswer::Skip { reason }))
}

fn reach(question: &mut Question<'_>, at: &Spot) -> Result<Answer, Turn> {
    let group = question.view.book.procedure.fastener_group(&at.group);
    let stage = group.and_then(|group| group.stages.get(at.stage));
    let unit = stage.map(|stage| question.view.unit_of_stage(stage).symbol().to_owned()).unwrap_or_default();
    let text = question.typed(&format!("{}, what was reached, in {unit}: ", at.position))?;
    Ok(Answer::Typed { text, slip: SlipCheck::Ask })
}

fn failed(question: &mut Question<'_>, at: &Spot) -> Result<Answer, Turn> {
    let keys = [('t', "do it once more"), ('c', "correct a wrong entry")];
    match question.key_or_deviate(&keys, &[('g', "go on with a deviation"), ('u', "it cannot be done")])? {
        't' => {
            let reason = keys::inner_line(question.ui, "What was done about it? ")?;
            Ok(Answer::Again { reason })
        }
        'c' => {
            let newest = question.view.acts_now(&at.group).filter(|act| act.event.spot() == Some(at)).last();
            let entry = newest.map_or(0, |act| act.stamp.seq);
            super::other::corrected(question.ui, question.view, entry, at)
        }
        'u' => left_out(question),
        _ => question.accept(),
    }
}

fn no_places(question: &mut Question<'_>) -> Result<Answer, Turn> {
    let keys = keys::with_common(&[('c', "correct a wrong entry"), ('u', "this step is not applicable")]);
    match question.key("", &keys)? {
        'c' => correction::correct(question.ui, question.view, question.prompt),
        _ => other::not_applicable(question.ui),
    }
}

/// Keys that mean something else at a question like this, or at the one before.
const TAKEN: &str = "abcdghostuwxyz?!";
/// Keys for places whose own signs give none. Each in turn, so that one follows the other.
const IN_TURN: [char; 2] = ['j', 'k'];

/// The key for a place: a digit or a letter of its own, the last digit first, and never one that the place before it
/// had. A key that is held down says that one place is done, and no more.
fn key_for(view: View<'_>, at: &Spot) -> char {
    let before = last_done(view, &at.group);
    let refused: Vec<char> = before.map(signs).unwrap_or_default();
    let own = signs(&at.position).into_iter().find(|sign| !refused.contains(sign));
    own.unwrap_or_else(|| IN_TURN[acts(view, &at.group) % IN_TURN.len()])
}

/// What of a place's name can be its key, the best first.
fn signs(position: &str) -> Vec<char> {
    let digits = position.chars().rev().filter(char::is_ascii_digit);
    let letters =
        position.chars().filter(char::is_ascii_alphabetic).map(|letter| letter.to_ascii_lowercase());
    digits.chain(letters).filter(|sign| !TAKEN.contains(*sign)).collect()
}

/// The place that was done by the last key, and not by a line that was typed since.
fn last_done<'run>(view: View<'run>, group: &Name) -> Option<&'run str> {
    match &view.acts_now(group).last()?.event {
        FasteningEvent::Tightened { at, .. } => Some(&at.position),
        _ => None,
    }
}

fn acts(view: View<'_>, group: &Name) -> usize {
    view.acts_now(group).count()
}
