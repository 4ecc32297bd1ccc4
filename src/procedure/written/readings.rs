//! `[readings]`.

use super::choices::choice;
use super::codes::{KIND_UNCLEAR, LIMITS_REVERSED, STOPWATCH_NOT_TIME, word_unknown};
use super::criterion::{WrittenCriterion, criterion, limits_missing, misplaced, says_something, unjudged};
use super::handling::{WrittenHandling, of_no_number, of_number, sides};
use super::instead::instead;
use super::plausible::plausible;
use super::reading::{WrittenKind, WrittenReading};
use super::readings_proved::{checked, prove, valued};
use super::second::second;
use crate::procedure::check::{Proved, Prover, Valued};
use crate::procedure::declarable::{Called, Declarable, Spoken};
use crate::procedure::{Name, Reading, Sides, Table};
use crate::quantity::Dimension;
use crate::source::{Diagnostic, Span, Spanned};
use crate::table::{Fields, unit};
use crate::trade::measurement::Rule;

/// The most names that a list can be asked to have.
const MOST_NAMES: usize = 200;

impl Declarable for Reading {
    type Written = WrittenReading;
    const UNMENTIONED: &'static str = "never taken";

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenReading> {
        reading(fields)
    }

    fn spoken(written: &WrittenReading) -> Vec<Spoken<'_>> {
        let handling = &written.handling;
        let instrument = written.instrument.iter();
        let instrument = instrument.map(|name| Spoken::of(name, &[Table::Tools], "an instrument"));
        let second = written.second.iter();
        let second = second.map(|second| Spoken::of(&second.by, &[Table::Roles], "who reads a second time"));
        let as_left = handling.as_left.iter();
        let as_left = as_left.map(|name| Spoken::of(name, &[Table::Readings], "what was found").not_used());
        let opens = handling.ceiling.iter();
        let opens =
            opens.map(|ceiling| Spoken::of(&ceiling.opens, &[Table::Holds], "what is verified again"));
        instrument.chain(second).chain(as_left).chain(opens).collect()
    }

    fn valued(written: Option<&WrittenReading>) -> Option<Valued> {
        valued(written?)
    }

    fn prove(name: &Spanned<Name>, written: &WrittenReading, prover: &mut Prover<'_>) {
        prove(prover, name, written);
    }

    fn checked(name: &Name, written: &WrittenReading, proved: &Proved<'_>) -> Option<Self> {
        checked(name, written, proved)
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

fn reading(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenReading> {
    let what = fields.need_text("what", "fluid temperature at the pan");
    let why = fields.text("why");
    let kind = kind(fields);
    let (sides, handling) = kind.as_ref().map(|kind| handling(fields, kind)).unwrap_or_default();
    let instrument = fields.text("instrument");
    let stopwatch = stopwatch(fields, kind.as_ref());
    let fails = fields.text("fails");
    let source = fields.text("source");
    let second = second(fields, kind.as_ref());
    let instead = instead(fields, kind.as_ref());
    Some(WrittenReading {
        what: what?.value,
        why: why.map(|why| why.value),
        kind: kind?,
        instrument,
        stopwatch,
        fails: fails.map(|fails| fails.value),
        sides,
        source: source.map(|source| source.value),
        second,
        handling,
        instead,
    })
}

/// What a reading says beyond its limits, by its kind.
fn handling(fields: &mut Fields<'_, '_, '_>, kind: &WrittenKind) -> (Sides, WrittenHandling) {
    match kind {
        WrittenKind::Quantity { criterion, .. } | WrittenKind::Count(criterion) => {
            (sides(fields, criterion), of_number(fields))
        }
        _ => (Sides::default(), of_no_number(fields)),
    }
}

fn kind(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenKind> {
    let unit_key = fields.item("unit").map(|item| item.key);
    let choices_key = fields.item("choices").map(|item| item.key);
    let kind_key = fields.item("kind").map(|item| item.key);
    match (unit_key, choices_key, kind_key) {
        (Some(_), None, None) => quantity_kind(fields),
        (None, Some(_), None) => choice(fields),
        (None, None, Some(_)) => named_kind(fields),
        (None, None, None) => {
            let headline = format!("{} does not say what is read", fields.owner());
            no_kind(fields, headline, None)
        }
        _ => {
            let headline = format!("{} has more than one of `unit`, `choices` and `kind`", fields.owner());
            no_kind(fields, headline, unit_key.or(choices_key))
        }
    }
}

fn no_kind(fields: &mut Fields<'_, '_, '_>, headline: String, here: Option<Span>) -> Option<WrittenKind> {
    for key in ["plausible", "accept"] {
        fields.item(key);
    }
    says_something(fields);
    let here = here.unwrap_or(fields.place());
    let diagnostic = Diagnostic::error(&KIND_UNCLEAR, headline).at(here, "which sort of answer?");
    let help = "give one of `unit = \"°C\"`, `choices = [\"clear\", \"cloudy\"]`, `kind = \"count\"`, `\"text\"`, `\"date\"`";
    fields.scribe.note(diagnostic.help(help));
    None
}

fn quantity_kind(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenKind> {
    let unit = unit(fields, "unit");
    misplaced(fields, "accept", "a quantity");
    let plausible = plausible(fields, unit.as_ref());
    let criterion = needed(fields);
    let rule = rule(fields);
    Some(WrittenKind::Quantity { unit: unit?, plausible, criterion: criterion?, rule: rule? })
}

/// The decision rule: simple acceptance where nothing else is said.
fn rule(fields: &mut Fields<'_, '_, '_>) -> Option<Spanned<Rule>> {
    const RULES: [&str; 3] = ["simple acceptance", "guard band", "four-way"];
    let Some(word) = fields.text("decision_rule") else {
        return Some(Spanned::new(Rule::Simple, fields.place()));
    };
    let rule = match word.value.as_str() {
        "simple acceptance" => Rule::Simple,
        "guard band" => Rule::GuardBand,
        "four-way" => Rule::FourWay,
        _ => {
            fields.scribe.note(word_unknown("decision rule", &word, &RULES));
            return None;
        }
    };
    Some(Spanned::new(rule, word.span))
}

fn named_kind(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenKind> {
    let word = fields.text("kind")?;
    misplaced(fields, "accept", "this sort of reading");
    misplaced(fields, "plausible", "this sort of reading");
    match word.value.as_str() {
        "count" => needed(fields).map(WrittenKind::Count),
        "text" => {
            unjudged(fields, "a text");
            Some(WrittenKind::Text)
        }
        "list" => {
            unjudged(fields, "a list");
            fields.count("at_least", MOST_NAMES, 1).map(WrittenKind::List)
        }
        "file" => {
            unjudged(fields, "a file");
            Some(WrittenKind::File)
        }
        "date" => Some(date(fields)),
        _ => {
            says_something(fields);
            fields.scribe.note(word_unknown(
                "kind of reading",
                &word,
                &["count", "text", "list", "date", "file"],
            ));
            None
        }
    }
}

/// The criterion that a quantity or a count must have; nothing where it cannot be read.
fn needed(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenCriterion> {
    if !says_something(fields) {
        limits_missing(fields, "add `max = \"...\"` or another limit, or `information_only = true`");
    }
    criterion(fields)
}

fn date(fields: &mut Fields<'_, '_, '_>) -> WrittenKind {
    for key in ["above", "below", "target", "within", "nominal"] {
        misplaced(fields, key, "a date");
    }
    fields.mark("information_only");
    let earliest = fields.date("min");
    let latest = fields.date("max");
    if let (Some(first), Some(last)) = (&earliest, &latest)
        && first.value > last.value
    {
        let headline = format!("no day can be good for {}", fields.owner());
        let diagnostic =
            Diagnostic::error(&LIMITS_REVERSED, headline).at(last.span, "before the first good day");
        fields.scribe.note(diagnostic.also(first.span, "the first good day").help("exchange the two dates"));
    }
    WrittenKind::Date { earliest: earliest.map(|date| date.value), latest: latest.map(|date| date.value) }
}

/// `stopwatch = true`, which only a time can have.
fn stopwatch(fields: &mut Fields<'_, '_, '_>, kind: Option<&WrittenKind>) -> bool {
    let Some(here) = fields.mark("stopwatch") else {
        return false;
    };
    let is_time = |kind: &WrittenKind| match kind {
        WrittenKind::Quantity { unit, .. } => unit.value.dimension() == Dimension::TIME,
        _ => false,
    };
    if kind.is_some_and(|kind| !is_time(kind)) {
        let headline = format!("{} is no time that a stopwatch can take", fields.owner());
        let diagnostic = Diagnostic::error(&STOPWATCH_NOT_TIME, headline).at(here, "takes a time");
        fields.scribe.note(diagnostic.help("give the reading a unit of time, such as `unit = \"s\"`"));
    }
    true
}
