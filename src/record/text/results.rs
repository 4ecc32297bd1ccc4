//! Readings and computed values, each with its limits and its verdict.

use super::gauge::gauge;
use super::page::Page;
use super::said::{address, amount, answer, converted_answer, entered_late, moment, people, write_aside};
use crate::record::model::{
    Amount, Answer, Attempt, Judged, Limit, Pair, PairEnd, Place, Reading, Record, UsedInstrument, Value,
    ValueResult,
};

pub(super) fn write(page: &mut Page, record: &Record) {
    page.heading("Readings");
    // What a hold point reads is read at each step that verifies it.
    let mut before = ("", "");
    for reading in &record.readings {
        let at = (reading.name.as_str(), reading.step.as_str());
        if at != before {
            page.blank();
            write_head(page, reading);
            before = at;
        }
        write_reading(page, reading);
    }
    if record.readings.is_empty() {
        page.put(0, "none");
    }
    write_pairs(page, &record.pairs);
    page.heading("Computed values");
    let mut before = "";
    for value in &record.values {
        if value.name != before {
            page.blank();
            write_value_head(page, value);
            before = &value.name;
        }
        write_value(page, value);
    }
    if record.values.is_empty() {
        page.put(0, "none");
    }
}

/// Which occurrence of the step it is, where it has a name.
fn write_place(page: &mut Page, step: &str, place: &Place) {
    if place.pass.is_some() {
        page.put(2, &address(step, place));
    }
    write_aside(page, 2, place);
}

/// What was found before adjustments and what was left, side by side.
fn write_pairs(page: &mut Page, pairs: &[Pair]) {
    if pairs.is_empty() {
        return;
    }
    page.heading("As found and as left");
    for pair in pairs {
        let of = pair.of.as_ref().map(|of| format!(", {of}")).unwrap_or_default();
        let end = |end: Option<&PairEnd>| end.map_or_else(|| "not read".to_owned(), pair_end);
        page.put(0, &format!("{}{of}", pair.what));
        page.put(
            2,
            &format!("as found {} | as left {}", end(pair.as_found.as_ref()), end(pair.as_left.as_ref())),
        );
    }
}

fn pair_end(end: &PairEnd) -> String {
    format!("{} ({})", end.shown, end.verdict)
}

fn write_head(page: &mut Page, reading: &Reading) {
    page.put(0, &format!("{} {} [{}]", reading.step, reading.what, reading.name));
    if let Some(instrument) = &reading.instrument {
        let accuracy =
            instrument.accuracy.as_ref().map(|accuracy| format!(", plus or minus {}", amount(accuracy)));
        page.field(2, "instrument", &format!("{}{}", instrument.what, accuracy.unwrap_or_default()));
    }
    page.maybe(2, "from", reading.from.as_deref());
    page.maybe(2, "limits from", reading.source.as_deref());
}

fn write_reading(page: &mut Page, reading: &Reading) {
    write_place(page, &reading.step, &reading.place);
    if reading.attempts.is_empty() {
        page.put(2, "not taken");
    }
    for (index, attempt) in reading.attempts.iter().enumerate() {
        write_attempt(page, index + 1, attempt);
    }
}

/// `TW-1, calibration due 2027-03-31`.
pub(super) fn used_words(used: &UsedInstrument) -> String {
    let overdue = used.overdue.map(|number| format!(", used overdue: deviation {number}"));
    format!("{}, calibration due {}{}", used.identity, used.due, overdue.unwrap_or_default())
}

fn write_attempt(page: &mut Page, number: usize, attempt: &Attempt) {
    page.put(2, &format!("{number}. reading: {}", answer(&attempt.answer)));
    page.maybe(4, "converted", converted_answer(&attempt.answer).as_deref());
    for corrected in &attempt.corrected {
        let words =
            format!("{}: {} ({})", answer(&corrected.before), corrected.reason, moment(&corrected.when));
        page.field(4, "corrected, before", &words);
    }
    if let Some(used) = &attempt.instrument {
        page.field(4, "with", &used_words(used));
    }
    page.put(4, &format!("{}, {}", moment(&attempt.when), people(&attempt.who)));
    attempt.second.iter().for_each(|second| super::people::write_second(page, second));
    page.maybe(4, "late entry", attempt.late.as_ref().map(entered_late).as_deref());
    if let Some(judged) = &attempt.judged {
        write_judged(page, drawn_result(&attempt.answer), judged);
    }
    write_gone_on(page, attempt.deviation);
    if let Some(set_aside) = &attempt.set_aside {
        page.put(4, &format!("taken again: {} ({})", set_aside.reason, moment(&set_aside.when)));
    }
}

fn write_gone_on(page: &mut Page, deviation: Option<usize>) {
    if let Some(number) = deviation {
        page.put(4, &format!("gone on with: deviation {number}"));
    }
}

fn drawn_result(answer: &Answer) -> Option<&Amount> {
    let Answer::Quantity(quantity) = answer else {
        return None;
    };
    Some(quantity.asked.as_ref().map_or(&quantity.typed, |asked| &asked.amount))
}

fn write_judged(page: &mut Page, result: Option<&Amount>, judged: &Judged) {
    let room = page.width() - 4;
    if let Some(line) = result.and_then(|result| gauge(result, judged, room)) {
        page.drawn(4, &line);
    }
    page.put(4, &words(judged));
    write_limit(page, 4, "lower limit", judged.lower.as_ref());
    write_limit(page, 4, "upper limit", judged.upper.as_ref());
    page.maybe(4, "nominal", judged.nominal.as_ref().map(amount).as_deref());
    page.maybe(4, "decision rule", judged.decision_rule.as_deref());
    if let Some(certainty) = &judged.certainty {
        page.field(4, "instrument", &certainty.words);
        let expanded =
            format!("{} (k = 2), probability {}", amount(&certainty.expanded), certainty.conformity);
        page.field(4, "expanded uncertainty", &expanded);
    }
}

/// The verdict first, in a word, whatever the sentence after it begins with.
pub(super) fn words(judged: &Judged) -> String {
    let said = judged.words.starts_with(&judged.verdict) || judged.words.starts_with("as found: ");
    let words = if said { judged.words.clone() } else { format!("{}: {}", judged.verdict, judged.words) };
    match &judged.accepted {
        Some(accepted) if !words.contains(accepted) => format!("{words}; {accepted}"),
        _ => words,
    }
}

pub(super) fn write_limit(page: &mut Page, indent: usize, name: &str, limit: Option<&Limit>) {
    let Some(limit) = limit else { return };
    let bound = if limit.inclusive { "inclusive" } else { "exclusive" };
    let shown = amount(&limit.amount);
    let from = if limit.formula == shown { String::new() } else { format!(", from: {}", limit.formula) };
    page.field(indent, name, &format!("{shown}, {bound}{from}"));
}

fn write_value_head(page: &mut Page, value: &Value) {
    page.put(0, &format!("{} {} [{}]", value.step, value.what, value.name));
    page.field(2, "formula", &value.formula);
    page.maybe(2, "limits from", value.source.as_deref());
}

fn write_value(page: &mut Page, value: &Value) {
    write_place(page, &value.step, &value.place);
    match &value.result {
        Some(result) => write_result(page, result),
        None => page.put(2, "not computed"),
    }
}

fn write_result(page: &mut Page, result: &ValueResult) {
    let shown = result.result.as_ref().map_or_else(|| "no result".to_owned(), amount);
    page.field(2, "result", &shown);
    if !result.trace.is_empty() {
        page.put(4, &result.trace);
    }
    for assumption in &result.assumptions {
        page.field(4, "assumed", assumption);
    }
    write_judged(page, result.result.as_ref(), &result.judged);
    write_gone_on(page, result.deviation);
}
