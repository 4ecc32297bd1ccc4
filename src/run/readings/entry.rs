//! Reading what a person typed, by the kind of thing that was asked for.

use jiff::civil::Date;

use crate::procedure::{Name, Reading, ReadingKind};
use crate::quantity::{Entry, Quantity, Unit, in_other_units, parse_entry};
use crate::run::answered::Answered;
use crate::run::event::Event;
use crate::run::prompt::SlipCheck;
use crate::run::refusal::Refusal;
use crate::run::typed::filled;
use crate::run::typed::without_mark;
use crate::run::view::View;
use crate::run::work::taken::Taken;

/// The odometer, in the unit of the vehicle sheet, else kilometres or miles as typed.
pub(in crate::run) fn odometer(view: View<'_>, text: &str) -> Result<Event, Refusal> {
    let unit = view.book.odometer_unit();
    let entry = parse_entry(text, &unit).map_err(Refusal::Unreadable)?;
    if entry.typed.number.is_negative() {
        return Err(Refusal::BelowZero(entry.typed.to_string()));
    }
    Ok(Event::OdometerRead(entry))
}

/// What is typed for the usual value.
pub const USUAL: &str = "usual";

/// A vehicle value, which needs its source.
pub(in crate::run) fn vehicle_value(
    view: View<'_>,
    name: Name,
    text: &str,
    source: String,
) -> Result<Event, Refusal> {
    let declared = view.book.procedure.vehicle().get(&name);
    let usual = declared.and_then(|value| value.usual.as_ref()).filter(|_| text.trim() == USUAL);
    let (text, source) = match usual {
        Some(usual) => {
            let by = filled("who takes it as common practice", source)?;
            (usual.text.as_str(), format!("common practice: {}; accepted by {by}", usual.why))
        }
        None => (text, source),
    };
    let value = match declared.map(|value| (value.unit.as_ref(), value.choices.as_slice())) {
        Some((Some(unit), _)) => Answered::Quantity(parse_entry(text, unit).map_err(Refusal::Unreadable)?),
        Some((None, choices @ [_, ..])) => Answered::Text(choice(text, choices)?),
        _ => Answered::Text(filled("the value", text.to_owned())?),
    };
    Ok(Event::VehicleValueGiven { name, value, source: filled("the source", source)? })
}

/// A reading that was asked for.
pub(in crate::run) fn reading(
    view: View<'_>,
    reading: Name,
    text: &str,
    slip: SlipCheck,
) -> Result<Event, Refusal> {
    let value = answered(view, &reading, text, slip)?;
    Ok(Event::Read { reading, value })
}

/// A correction of an earlier entry. What is unlikely must not stand in the way of what is right: no slip check.
pub(in crate::run) fn correct(
    view: View<'_>,
    reading: Name,
    entry: Option<u64>,
    text: &str,
    reason: String,
) -> Result<Event, Refusal> {
    let entry = taken_before(view, &reading, entry)?;
    let value = answered(view, &reading, text, SlipCheck::Sure)?;
    Ok(Event::Corrected { reading, entry, value, reason: filled("the reason", reason)? })
}

/// Only what was entered can have been entered wrongly.
pub(in crate::run) fn taken_before(
    view: View<'_>,
    reading: &Name,
    entry: Option<u64>,
) -> Result<u64, Refusal> {
    let entries = view.state.attempts_at(reading).flat_map(|(_, attempts)| &attempts.taken);
    let is_meant =
        |taken: &&Taken| entry.is_none_or(|entry| entry == taken.place || entry == taken.stamp.seq);
    let newest = entries.filter(is_meant).map(|taken| taken.place).max();
    newest.ok_or_else(|| {
        let what = view.book.procedure.called(reading);
        Refusal::NeverTaken { reading: what.to_owned() }
    })
}

pub(in crate::run) fn answered(
    view: View<'_>,
    reading: &Name,
    text: &str,
    slip: SlipCheck,
) -> Result<Answered, Refusal> {
    let Some(declared) = view.book.procedure.reading(reading) else {
        return Err(Refusal::NotOffered);
    };
    if let Some(outcome) = declared.outcome(text) {
        return Ok(Answered::Instead(outcome.words.clone()));
    }
    match &declared.kind {
        ReadingKind::Quantity { unit, plausible, .. } => {
            let amount = without_mark(declared, text);
            let asked = view.book.procedure.asked_unit(declared).unwrap_or(unit);
            let entry = parse_entry(amount, asked).map_err(Refusal::Unreadable)?;
            let entry = if amount == text { entry } else { Entry { text: text.trim().to_owned(), ..entry } };
            if let (SlipCheck::Ask, Some(range)) = (slip, plausible) {
                likely(&entry, range)?;
            }
            Ok(Answered::Quantity(entry))
        }
        ReadingKind::Count { .. } => count(text).map(Answered::Quantity),
        ReadingKind::Choice { choices, .. } => chosen(declared, choices, text),
        ReadingKind::Text => state(filled("the answer", text.to_owned())?).map(Answered::Text),
        ReadingKind::Date { .. } => date(text).map(Answered::Date),
        ReadingKind::List { at_least } => list(text, *at_least).map(Answered::List),
        ReadingKind::File => Err(Refusal::AFile),
    }
}

fn likely(entry: &Entry, (lowest, highest): &(Quantity, Quantity)) -> Result<(), Refusal> {
    let is = |ordering, bound| entry.typed.compare(bound) == Ok(ordering);
    if is(std::cmp::Ordering::Less, lowest) || is(std::cmp::Ordering::Greater, highest) {
        let is_likely = |other: &Entry| {
            let stands = |bound, ordering| other.typed.compare(bound).is_ok_and(|found| found != ordering);
            stands(lowest, std::cmp::Ordering::Less) && stands(highest, std::cmp::Ordering::Greater)
        };
        return Err(Refusal::Unlikely {
            shown: entry.asked.to_string(),
            lowest: lowest.to_string(),
            highest: highest.to_string(),
            other: in_other_units(entry).find(is_likely).map(|other| Answered::Quantity(other).shown()),
        });
    }
    Ok(())
}

fn count(text: &str) -> Result<Entry, Refusal> {
    let entry = parse_entry(text, &Unit::one()).map_err(Refusal::Unreadable)?;
    let number = entry.typed.number;
    if number.is_whole() && !number.is_negative() {
        return Ok(entry);
    }
    Err(Refusal::NotACount(text.trim().to_owned()))
}

/// One of the choices, or an outcome that stands after them in the list.
fn chosen(declared: &Reading, choices: &[String], text: &str) -> Result<Answered, Refusal> {
    let word = choice(text, &declared.offered(choices))?;
    let is_outcome = declared.outcome(&word).is_some();
    Ok(if is_outcome { Answered::Instead(word) } else { Answered::Choice(word) })
}

/// A choice by its words or by its place in the list, from 1.
fn choice(text: &str, choices: &[String]) -> Result<String, Refusal> {
    let typed = text.trim();
    let by_words = choices.iter().find(|choice| choice.eq_ignore_ascii_case(typed));
    let by_place = || choices.get(typed.parse::<usize>().ok()?.checked_sub(1)?);
    by_words
        .or_else(by_place)
        .cloned()
        .ok_or_else(|| Refusal::NotAChoice { typed: typed.to_owned(), choices: choices.to_vec() })
}

/// What was seen, in words: a word that only says that somebody looked is no answer.
fn state(text: String) -> Result<String, Refusal> {
    const EMPTY: [&str; 8] = ["ok", "okay", "yes", "checked", "done", "good", "fine", "all right"];
    let word = text.trim_matches(|sign: char| !sign.is_alphanumeric()).to_lowercase();
    if EMPTY.contains(&word.as_str()) { Err(Refusal::NotAState(text)) } else { Ok(text) }
}

/// Names with commas between them; one that stands there twice is named once.
fn list(text: &str, at_least: usize) -> Result<Vec<String>, Refusal> {
    let mut items: Vec<String> = Vec::new();
    for item in text.split(',').map(str::trim).filter(|item| !item.is_empty()) {
        if !items.iter().any(|known| known == item) {
            items.push(item.to_owned());
        }
    }
    if items.is_empty() {
        return Err(Refusal::Empty("the list"));
    }
    if items.len() < at_least {
        return Err(Refusal::TooFewNames { typed: items.len(), at_least });
    }
    Ok(items)
}

fn date(text: &str) -> Result<Date, Refusal> {
    text.trim().parse().map_err(|_| Refusal::NotADate(text.trim().to_owned()))
}
