//! A time that is taken here: a key starts it, any key stops it.

use std::time::Duration;

use super::question::Question;
use super::{Ended, Turn, keys, words};
use crate::procedure::Reading;
use crate::run::timed_here;
use crate::terminal::{Heard, KeyHint, Timing};

/// Asks for a time: taken here, or typed; or what came out instead, which has a key of its own.
pub(super) fn ask(question: &mut Question<'_>, reading: &Reading) -> Result<String, Turn> {
    let what = &reading.what;
    let outcomes = ('1'..='9').zip(reading.instead.iter().map(|outcome| outcome.words.as_str()));
    let own: Vec<(char, &str)> =
        [('\n', "start the stopwatch"), ('t', "type a time")].into_iter().chain(outcomes.clone()).collect();
    let key = question.key(&format!("{what}: "), &keys::with_common(&own))?;
    if let Some((_, words)) = outcomes.clone().find(|(digit, _)| *digit == key) {
        return Ok(words.to_owned());
    }
    match key {
        't' => keys::inner_line(question.ui, &format!("{what}, {}: ", words::form_or_outcome(reading))),
        _ => take_time(question, what),
    }
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
