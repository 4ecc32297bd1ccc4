//! Steps, names and times in words.

use jiff::{SignedDuration, ZonedDateTime};

use crate::formula::Value;
use crate::procedure::{
    Criterion, Instead, Name, Passage, PassageKind, Piece, Reading, ReadingKind, Step, StepId,
};
use crate::quantity::{Preferred, Unit};
use crate::run::{Answered, InheritedProtection, View, Within};
use crate::source::first_words;
use crate::terminal::{Columns, Line, Role, Text};

/// A time of day; with the date when it is not today's.
pub(super) fn clock(time: &ZonedDateTime, now: &ZonedDateTime) -> String {
    let format = if time.date() == now.date() { "%H:%M" } else { "%Y-%m-%d %H:%M" };
    time.strftime(format).to_string()
}

/// A protection that an earlier run of the job left in force, with who looked at it last, and when.
pub(super) fn inherited(now: &ZonedDateTime) -> impl Fn(&InheritedProtection) -> String + '_ {
    |protection| {
        let (what, by) = (&protection.what, &protection.by);
        format!("{what} (looked at by {by}, {}, {})", clock(&protection.at, now), protection.run)
    }
}

/// The text of a step or a passage: names replaced by what they stand for.
pub(super) fn text(view: View<'_>, pieces: &[Piece]) -> String {
    filled(view, pieces, |what| format!("[{what}]"))
}

fn filled(view: View<'_>, pieces: &[Piece], blank: fn(&str) -> String) -> String {
    let words = pieces.iter().map(|piece| match piece {
        Piece::Text(text) => text.clone(),
        Piece::Mention(name) => mention(view, &name.value, blank),
    });
    words.collect()
}

/// A step in a few words, for a list: its text up to the first pause.
pub(super) fn title(view: View<'_>, step: &Step) -> String {
    in_short(view, step, 60)
}

/// A step by its number and the fewest words by which it is known, where it was shown before.
pub(super) fn pointer(view: View<'_>, step: &Step) -> String {
    format!("{} {}", step.number, in_short(view, step, 12))
}

/// The first words of a step, for what comes next.
pub(super) fn glance(view: View<'_>, step: &Step) -> String {
    in_short(view, step, 10)
}

fn in_short(view: View<'_>, step: &Step, longest: usize) -> String {
    let words = filled(view, &step.text, str::to_owned);
    first_words(&words, longest)
}

/// What a name stands for: its value; of a result that is not there yet, what it is, as a blank.
fn mention(view: View<'_>, name: &Name, blank: fn(&str) -> String) -> String {
    let what = view.book.procedure.called(name);
    if let Some(person) = view.state.people.get(name) {
        return format!("{name} ({person})");
    }
    let procedure = &view.book.procedure;
    if let Some(due) = view.due(name) {
        return format!("{what} ({due})");
    }
    let is_result = procedure.reading(name).is_some() || procedure.value(name).is_some();
    let is_result = is_result || procedure.repeat(name).is_some();
    match known(view, name) {
        Some(value) if is_result => value,
        Some(value) => format!("{what} ({value})"),
        None if is_result => blank(what),
        None => what.to_owned(),
    }
}

/// Significant digits of a computed value that has no short decimal form, in a sentence.
const FEW_DIGITS: i32 = 3;

/// The value of a reading, a computed value or a vehicle value, or the item of a pass, as it is shown.
pub(super) fn known(view: View<'_>, name: &Name) -> Option<String> {
    if view.is_blind(name) {
        return None;
    }
    if let Some(taken) = view.latest(name) {
        let limits = view.judge(name).and_then(|judged| judged.limits);
        return Some(taken.value.shown_beside(limits.as_ref()));
    }
    if view.book.procedure.value(name).is_some() {
        // In a sentence nobody reads more digits off a jug.
        return view.judge(name)?.shown(FEW_DIGITS);
    }
    let procedure = &view.book.procedure;
    let stands_for_value = procedure.vehicle().contains(name) || procedure.repeat(name).is_some();
    let value = crate::formula::World::value_of(&view.known(), name.as_str()).filter(|_| stands_for_value)?;
    Some(match value {
        Value::Text(text) | Value::Instead(text) => text,
        other => other.to_string(),
    })
}

/// An answer as it was typed; with its conversion when the unit is another than asked.
pub(super) fn answered(answered: &Answered) -> String {
    answered.shown()
}

/// A passage as it is shown.
pub(super) fn passage(view: View<'_>, passage: &Passage) -> Text {
    shown_as(passage, text(view, &passage.text))
}

/// Words as what stands in a document is shown.
pub(super) fn shown_as(passage: &Passage, words: String) -> Text {
    let line = match passage.kind {
        PassageKind::Note => Line::new().with(Role::Strong, "Note: ").with(Role::Plain, words).hang(2),
        PassageKind::Image => {
            let address = passage.address.as_ref().map(|address| format!(" ({address})")).unwrap_or_default();
            let words = format!("{words}{address}");
            Line::new().with(Role::Faint, "Picture: ").with(Role::Plain, words.trim_start()).hang(2)
        }
        PassageKind::Heading => Line::new().with(Role::Strong, words),
        PassageKind::Prose | PassageKind::Verbatim => Line::plain(words),
        PassageKind::Table => return table_or_words(&words),
    };
    line.into()
}

/// A table as such; what is none, as words.
fn table_or_words(words: &str) -> Text {
    Columns::of(words).map_or_else(|| Text::plain(words), |table| Text::new().columns(table))
}

/// A step with its number: its text, or the table that it is.
pub(super) fn numbered(number: &str, role: Role, words: String) -> Text {
    let head = Line::new().with(Role::Faint, format!("{number} "));
    match Columns::of(&words) {
        Some(table) => Text::from(head).then(Text::new().columns(table).indented(4)),
        None => head.with(role, words).hang(number.len() + 1).into(),
    }
}

/// Who does a step: the people of its roles, or nobody where it is the lead's alone.
pub(super) fn performers(view: View<'_>, step: &Step) -> Option<String> {
    if step.who.is_empty() {
        return None;
    }
    let person = |role: &Name| view.state.people.get(role).map_or_else(|| role.to_string(), Clone::clone);
    let names: Vec<String> = step.who.iter().map(person).collect();
    let both = if names.len() > 1 { " together" } else { "" };
    Some(format!("{}{both}", names.join(" and ")))
}

/// What the lead reads aloud and somebody else answers: a look that is not the lead's own.
pub(super) fn challenge(view: View<'_>, reading: &Name) -> Option<Line> {
    let procedure = &view.book.procedure;
    let seen = matches!(procedure.reading(reading)?.kind, ReadingKind::Choice { .. } | ReadingKind::Text);
    let step = procedure.taken_at(reading).and_then(|step| procedure.step(step))?;
    let lead = Name::from("lead");
    let others = step.who.iter().filter(|role| **role != lead).count();
    if !seen || others == 0 || step.who.contains(&lead) {
        return None;
    }
    let who = performers(view, step)?;
    let lead = view.state.people.get(&lead).map(String::as_str).unwrap_or_default();
    let words = format!("{lead} reads this aloud; {who} answers with what is seen; {lead} says it back.");
    Some(Line::new().with(Role::Strong, "Challenge and response: ").with(Role::Plain, words).hang(2))
}

/// "14/62", counted over the steps that have no parts; one with parts stands where its first part does.
pub(super) fn progress(view: View<'_>, step: StepId) -> String {
    let leaves = || view.book.procedure.steps().iter().filter(|step| step.groups.is_empty());
    let place = leaves().filter(|leaf| leaf.id < step).count() + 1;
    format!("{place}/{}", leaves().count())
}

/// The unit or the form in which a reading is asked for.
pub(super) fn form(kind: &ReadingKind) -> String {
    match kind {
        ReadingKind::Quantity { unit, .. } => format!("in {}", unit.symbol()),
        ReadingKind::Count { .. } => "a whole number".to_owned(),
        ReadingKind::Choice { .. } => "one of these".to_owned(),
        ReadingKind::Text => "in words".to_owned(),
        ReadingKind::Date { .. } => "as year-month-day".to_owned(),
        ReadingKind::List { at_least: 0 | 1 } => "names with commas between them".to_owned(),
        ReadingKind::List { at_least } => format!("at least {at_least} names with commas between them"),
        ReadingKind::File => "the path of the photo or file".to_owned(),
    }
}

/// That a number is typed in this unit, or in the one that the person prefers.
pub(super) fn in_unit(unit: &Unit, units: &Preferred) -> String {
    let also = units.beside(unit).map(|unit| format!(" or {}", unit.symbol())).unwrap_or_default();
    format!("in {}{also}", unit.symbol())
}

/// What can come out in place of a value, each with its verdict; nothing where nothing can.
pub(super) fn instead(reading: &Reading) -> Option<String> {
    let outcomes: Vec<String> = reading.instead.iter().map(Instead::shown).collect();
    (!outcomes.is_empty()).then(|| format!("or instead {}", outcomes.join(", ")))
}

/// What a result has to meet, in words; nothing where the source gives no limit.
pub(super) fn wanted(view: View<'_>, name: &Name) -> Option<String> {
    let procedure = &view.book.procedure;
    match procedure.reading(name).map(|reading| &reading.kind) {
        Some(ReadingKind::Choice { accept: Some(accept), .. }) => Some(accept.join(" or ")),
        Some(ReadingKind::Date { earliest, latest }) => by_dates(*earliest, *latest),
        _ => by_criterion(view, name, procedure.criterion(name)?),
    }
}

pub(super) fn by_dates(
    earliest: Option<jiff::civil::Date>,
    latest: Option<jiff::civil::Date>,
) -> Option<String> {
    let first = earliest.map(|date| format!("not before {date}"));
    let last = latest.map(|date| format!("not after {date}"));
    let both: Vec<String> = first.into_iter().chain(last).collect();
    (!both.is_empty()).then(|| both.join(", "))
}

fn by_criterion(view: View<'_>, name: &Name, criterion: &Criterion) -> Option<String> {
    match criterion {
        Criterion::InformationOnly => None,
        Criterion::Nominal(formula) => {
            let nominal = formula.evaluate(&view.known()).ok()?;
            Some(format!("nominal {nominal}; you say whether it is good"))
        }
        Criterion::Limits { .. } | Criterion::Target { .. } => Some(match view.limits(name) {
            Some(limits) => limits.to_string(),
            None => "the limit is not known yet".to_owned(),
        }),
    }
}

/// A span of time as it is said: `20 minutes`, `13 hours`, `2 days`.
pub(super) fn span(span: SignedDuration) -> String {
    let counted = |count: i64, one: &str| {
        if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") }
    };
    match span.as_mins() {
        ..0 => "by the clock no time".to_owned(),
        0 => "less than a minute".to_owned(),
        minutes @ 1..60 => counted(minutes, "minute"),
        minutes @ 60..2880 => counted(minutes / 60, "hour"),
        minutes => counted(minutes / 1440, "day"),
    }
}

/// A linked procedure that is being run, and where the work goes on after it.
pub(super) fn within(within: &Within<'_>) -> String {
    let back = if within.back.is_empty() {
        "then the end".to_owned()
    } else {
        format!("then back to {}", within.back.join(" or "))
    };
    format!("in \"{}\", {back}", within.link.title)
}
