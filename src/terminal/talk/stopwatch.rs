//! A time that is taken here: a key starts it, any key stops it.

use std::time::Duration;

use super::question::Question;
use super::{Ended, Turn, keys};
use crate::run::{Answer, SlipCheck, timed_here};
use crate::terminal::{Heard, KeyHint, Timing};

/// Asks for a time: taken here, or typed.
pub(super) fn ask(question: &mut Question<'_>, what: &str, form: &str) -> Result<Answer, Turn> {
    let keys = keys::with_common(&[('\n', "start the stopwatch"), ('t', "type a time")]);
    let text = match question.key(&format!("{what}: "), &keys)? {
        't' => keys::inner_line(question.ui, &format!("{what}, {form}: "))?,
        _ => take_time(question, what)?,
    };
    Ok(Answer::Typed { text, slip: SlipCheck::Ask })
}

/// Nothing is entered before the person keeps it.
fn take_time(question: &mut Question<'_>, what: &str) -> Result<String, Turn> {
    let took = match question.ui.time(&Timing { label: what, ticks: &**question.ticks }) {
        Ok(Heard::Timed(took)) => took,
        Ok(Heard::Interrupt) => return Err(Turn::End(Ended::Interrupted)),
        other => return Err(keys::back(other)),
    };
    let text = timed_here(tenths(took));
    let keys = [KeyHint::new('\n', "keep it"), KeyHint::new('x', "discard it, time it again")];
    match keys::key(question.ui, &format!("Stopped: {text}. "), &keys)? {
        '\n' => Ok(text),
        _ => Err(Turn::Again),
    }
}

/// To the nearest tenth of a second, which is what a hand on a key is good for.
fn tenths(took: Duration) -> u128 {
    (took.as_millis() + 50) / 100
}
