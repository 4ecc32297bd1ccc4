//! A reading: what is shown with it, and how its value is typed, chosen or timed.

use std::time::Duration;

use super::beside::Beside;
use super::question::Question;
use super::{Ended, Turn, keys, words};
use crate::procedure::{Name, Occasion, Reading, ReadingKind};
use crate::quantity::Preferred;
use crate::run::{Answer, SlipCheck, View, timed_here};
use crate::terminal::{Heard, KeyHint, Line, Text, Timing};

/// Asks for it: typed, chosen, or timed here.
pub(super) fn ask(question: &mut Question<'_>, name: &Name) -> Result<Answer, Turn> {
    let reading = question.view.book.procedure.reading(name);
    let Some(reading) = reading else { return Err(Turn::Again) };
    let text = match &reading.kind {
        ReadingKind::Choice { choices, .. } => {
            let named = if question.is_named { String::new() } else { format!("{}: ", reading.what) };
            question.choice(&named, &reading.offered(choices))?
        }
        _ if reading.stopwatch => timed(question, reading)?,
        _ if question.is_named => question.typed(&format!("{}: ", form(question, reading)))?,
        _ => question.typed(&format!("{}, {}: ", reading.what, form(question, reading)))?,
    };
    Ok(Answer::Typed { text, slip: SlipCheck::Ask })
}

/// In what form it is typed, with the outcomes that can be typed in its place.
fn form(question: &Question<'_>, reading: &Reading) -> String {
    let unit = question.view.book.procedure.asked_unit(reading);
    let form = unit.map_or_else(|| words::form(&reading.kind), |unit| words::in_unit(unit, question.units));
    let outcomes = reading.instead.iter().map(|outcome| format!(", or \"{}\"", outcome.words));
    format!("{form}{}", outcomes.collect::<String>())
}

/// A time: taken here, where a key starts it and any key stops it, or typed; or what came out instead, which has a key of its own.
fn timed(question: &mut Question<'_>, reading: &Reading) -> Result<String, Turn> {
    let what = &reading.what;
    let outcomes = ('1'..='9').zip(reading.instead.iter().map(|outcome| outcome.words.as_str()));
    let own: Vec<(char, &str)> =
        [('\n', "start the stopwatch"), ('w', "write a time")].into_iter().chain(outcomes.clone()).collect();
    let key = question.key(&format!("{what}: "), &keys::with_common(&own))?;
    if let Some((_, words)) = outcomes.clone().find(|(digit, _)| *digit == key) {
        return Ok(words.to_owned());
    }
    match key {
        'w' => {
            let prompt = format!("{what}, {}: ", form(question, reading));
            keys::inner_line(question.ui, &prompt)
        }
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
    let keys = [KeyHint::new('k', "keep it"), KeyHint::new('x', "discard it, time it again")];
    match keys::key(question.ui, &format!("Stopped: {text}. "), &keys)? {
        'k' => Ok(text),
        _ => Err(Turn::Again),
    }
}

/// To the nearest tenth of a second, which is what a hand on a key is good for.
fn tenths(took: Duration) -> u128 {
    (took.as_millis() + 50) / 100
}

/// What is shown with a reading that is asked for.
pub(super) fn shown(view: View<'_>, name: &Name, besides: &Beside) -> Text {
    let Some(reading) = view.book.procedure.reading(name) else {
        return Text::new();
    };
    let also = beside(view, (name, reading), &besides.units).unwrap_or_default();
    let wanted = words::wanted(view, name).map(|wanted| format!("Wanted: {wanted}{also}"));
    let source = reading.source.as_ref().map(|source| format!(" ({source})")).unwrap_or_default();
    let wanted = wanted.map(|wanted| format!("{wanted}{source}")).into_iter().chain(words::instead(reading));
    let wanted: Vec<String> = wanted.collect();
    let wanted = (!wanted.is_empty()).then(|| Line::plain(wanted.join("; ")).hang(2));
    let text = wanted.into_iter().fold(Text::new(), Text::line);
    let text = instrument(view, reading.instrument.as_ref(), text);
    let text = words::challenge(view, name).into_iter().fold(text, Text::line);
    let text = handling(view, name, reading, text);
    let text = if reading.second.is_none() { text.then(besides.last_time(name)) } else { text };
    earlier(view, name, text)
}

/// The limits in the unit that is read: that on the scale of the instrument, or that which the person prefers.
fn beside(view: View<'_>, (name, reading): (&Name, &Reading), units: &Preferred) -> Option<String> {
    let limits = view.limits(name)?;
    let limit = limits.lower.as_ref().or(limits.upper.as_ref())?;
    let asked = view.book.procedure.asked_unit(reading)?;
    let scale = (*asked != limit.quantity.unit).then_some(asked);
    let same = limits.in_unit(scale.or_else(|| units.beside(asked))?)?;
    let ends = [same.lower, same.upper].into_iter().flatten().map(|limit| limit.quantity.to_string());
    Some(format!(" = {}", ends.collect::<Vec<_>>().join(" to ")))
}

fn instrument(view: View<'_>, instrument: Option<&Name>, text: Text) -> Text {
    let Some(tool) = instrument.and_then(|name| view.book.procedure.tool(name)) else {
        return text;
    };
    let accuracy = tool
        .accuracy
        .as_ref()
        .map(|accuracy| format!(", good to {}", accuracy.plus_minus()))
        .unwrap_or_default();
    let named = instrument.and_then(|name| view.instrument(name));
    let named = named.map(|named| format!(", {}, good until {}", named.identity, named.due));
    let words = format!("With: {}{accuracy}{}", tool.what, named.unwrap_or_default());
    text.line(Line::plain(words).hang(2))
}

/// What a reading must never pass, and what was found before an adjustment.
fn handling(view: View<'_>, name: &Name, reading: &Reading, text: Text) -> Text {
    let ceiling = reading.ceiling.as_ref();
    let ends = ceiling.map(|ceiling| [("below", &ceiling.never_below), ("above", &ceiling.never_above)]);
    let never = ends.into_iter().flatten().filter_map(|(side, bound)| {
        let bound = bound.as_ref()?.evaluate(&view.known()).ok()?;
        let is_the_limit =
            words::wanted(view, name).is_some_and(|wanted| wanted.ends_with(&bound.to_string()));
        let never = || format!("Never {side} {bound}: the work stops there.");
        Some(if is_the_limit { "Beyond it the work stops.".to_owned() } else { never() })
    });
    let occasion = match &reading.occasion {
        Occasion::Plain => None,
        Occasion::AsFound => Some("As found: before anything is adjusted.".to_owned()),
        Occasion::AsLeft(found) => words::known(view, found).map(|value| format!("As found it was {value}.")),
    };
    never.chain(occasion).fold(text, |text, line| text.line(Line::plain(line).hang(2)))
}

fn earlier(view: View<'_>, name: &Name, text: Text) -> Text {
    let attempts = view.entered(name).map(|attempts| attempts.taken.as_slice()).unwrap_or_default();
    let second = view.book.procedure.reading(name).is_some_and(|reading| reading.second.is_some());
    if attempts.is_empty() || second {
        return text;
    }
    let values: Vec<String> = attempts.iter().map(|taken| words::answered(&taken.value)).collect();
    text.line(Line::plain(format!("Earlier: {}", values.join("; "))).hang(2))
}
