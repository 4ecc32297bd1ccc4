//! A comparison as a page: what changed first, what is the same in one line.

use super::model::{Change, Comparison, End, Meaning, Side, TextChange};
use crate::print::{Block, Page, Row, Section, Style, Table};
use crate::record::report::time;

/// More lines of a text than these are counted only, in plain text.
const MOST_LINES: usize = 12;

const RULE: &str = "Each accuracy is taken as limits of equal likelihood (u = a/√3) and U = 2u; E_n is the change divided by \
the root of the sum of both U squared (ISO 13528; ISO/IEC 17043). Above 1 it is more than the instruments can explain; at \
most 1 it may be the instruments alone. Where both were read with one and the same instrument, most of its error is in both \
and drops out of the change: this is the cautious figure. Where no accuracy was stated, nothing is judged.";

/// The comparison as a page.
pub fn page(compared: &Comparison) -> Page {
    let changed = |heading: &str, columns: &[&str], changes: &[Change]| {
        let rows: Vec<Row> = changes.iter().filter(|change| !change.is_same).map(row).collect();
        (!rows.is_empty()).then(|| Section::first(heading, vec![table(heading, columns, rows)]))
    };
    let sections = [
        Some(Section::first("Before and after", head(compared))),
        changed("Readings that changed", &MEASURED, &compared.readings),
        changed("Computed values that changed", &MEASURED, &compared.values),
        changed("Fasteners that changed", &MEASURED, &compared.fasteners),
        changed("Values of the vehicle that differ", &MEASURED, &compared.vehicle_values),
        changed("Steps that became something else", &MEASURED, &compared.steps),
        Some(Section::first("How a change is judged", vec![Block::Words(RULE.to_owned())])),
        Some(counts(compared)),
        listed("Only before", &compared.only_before),
        listed("Only after", &compared.only_after),
        texts(&compared.texts),
    ];
    Page {
        kind: "COMPARISON".to_owned(),
        title: compared.title.clone(),
        warnings: warnings(compared),
        sections: sections.into_iter().flatten().collect(),
    }
}

const MEASURED: [&str; 6] = ["Step", "What", "Before", "After", "Change", "What it means"];

fn warnings(compared: &Comparison) -> Vec<String> {
    let (before, after) = (&compared.before, &compared.after);
    let vehicle = match compared.same_vehicle {
        Some(true) => None,
        Some(false) => Some("NOT THE SAME VEHICLE.".to_owned()),
        None => Some("One of the records does not say which vehicle it is.".to_owned()),
    };
    let hidden = [before, after].into_iter().any(|side| !side.hidden.is_empty());
    let vehicle = vehicle.map(|words| {
        let hidden = if hidden { " One of them is a redacted copy, in which it may be hidden." } else { "" };
        format!("{words}{hidden}")
    });
    let same = (before.seal == after.seal).then(|| "BOTH ARE THE SAME RECORD.".to_owned());
    let is_turned = before.began > after.began && before.seal != after.seal;
    let turned = is_turned.then(|| {
        "The first record began after the second: before and after are as they were named, not as the calendar has them."
            .to_owned()
    });
    let texts = (!compared.texts.is_empty()).then(|| {
        format!(
            "ANOTHER TEXT OF THE PROCEDURE: revision {} before, {} after; the lines that differ stand at the end.",
            before.revision, after.revision
        )
    });
    let answered = [before, after].into_iter().filter_map(|side| {
        let file = side.answered_from.as_ref()?;
        Some(format!("Run {} was answered from a file ({file}), not by a person.", side.run))
    });
    vehicle.into_iter().chain(same).chain(turned).chain(texts).chain(answered).collect()
}

fn head(compared: &Comparison) -> Vec<Block> {
    let facts = [("Before", &compared.before), ("After", &compared.after)];
    let facts = facts.map(|(name, side)| (name.to_owned(), said(side)));
    vec![Block::Facts(facts.into_iter().collect()), Block::Items(summary(compared))]
}

fn said(side: &Side) -> String {
    let closed = side.closed.as_ref().map_or("not closed".to_owned(), |at| format!("closed {}", time(at)));
    let vehicle = side.vehicle.as_deref().unwrap_or("no vehicle sheet");
    let identification = side.identification.as_ref().map(|id| format!(" ({id})")).unwrap_or_default();
    let odometer = side.odometer.as_ref().map(|odometer| format!(", {}", odometer.shown)).unwrap_or_default();
    format!(
        "run {}, {closed}, revision {}; {vehicle}{identification}{odometer}. {}",
        side.run, side.revision, side.result
    )
}

/// What changed by how much, counted, and what is the same.
fn summary(compared: &Comparison) -> Vec<String> {
    let measured = || compared.readings.iter().chain(&compared.fasteners);
    let count = |is_meant: fn(&Meaning) -> bool| measured().filter(|one| is_meant(&one.meaning)).count();
    let said = |count: usize, one: &str, many: &str| {
        (count > 0).then(|| format!("{count} {}.", if count == 1 { one } else { many }))
    };
    let more = said(
        count(|meaning| matches!(meaning, Meaning::MoreThanTheInstruments { .. })),
        "reading changed by more than the instruments can explain",
        "readings changed by more than the instruments can explain",
    );
    let maybe = said(
        count(|meaning| matches!(meaning, Meaning::MaybeTheInstruments { .. })),
        "reading changed by no more than the instruments alone may do",
        "readings changed by no more than the instruments alone may do",
    );
    let unknown = said(
        count(|meaning| *meaning == Meaning::NoAccuracyStated),
        "reading changed, and no accuracy is stated: whether that means anything nobody can say",
        "readings changed, and no accuracy is stated: whether that means anything nobody can say",
    );
    let same = |changes: &[Change], one: &str, many: &str| {
        let count = changes.iter().filter(|change| change.is_same).count();
        (count > 0).then(|| format!("{count} {}", if count == 1 { one } else { many }))
    };
    let same = [
        same(&compared.readings, "reading", "readings"),
        same(&compared.values, "computed value", "computed values"),
        same(&compared.fasteners, "fastener", "fasteners"),
    ];
    let same: Vec<String> = same.into_iter().flatten().collect();
    let same = (!same.is_empty()).then(|| format!("The same before and after: {}.", same.join(", ")));
    let verdicts = measured().chain(&compared.values).filter(|change| verdict_changed(change)).count();
    let verdicts = said(verdicts, "verdict is another", "verdicts are others");
    [verdicts, more, maybe, unknown, same].into_iter().flatten().collect()
}

fn verdict_changed(change: &Change) -> bool {
    change.before.verdict != change.after.verdict
}

fn row(change: &Change) -> Row {
    let is_step = change.before.step == change.name;
    let of = change.of.as_ref().map(|of| format!(" ({of})")).unwrap_or_default();
    let name = if is_step { String::new() } else { format!(" [{}]", change.name) };
    let by = change.change.as_ref().filter(|by| by.number != "0");
    Row {
        at: change.after.step.clone(),
        what: format!("{}{of}{name}", change.what),
        cells: vec![
            end(&change.before),
            end(&change.after),
            by.map(|by| by.shown.clone()).unwrap_or_default(),
            change.meaning.words(),
        ],
        figure: None,
        notes: notes(change),
    }
}

/// `4.2 mm (pass)`.
fn end(end: &End) -> String {
    let verdict =
        end.verdict.as_ref().filter(|verdict| **verdict != "information only" && **verdict != end.shown);
    format!("{}{}", end.shown, verdict.map(|verdict| format!(" ({verdict})")).unwrap_or_default())
}

/// What was read with what, and how good that is.
fn notes(change: &Change) -> Vec<String> {
    let with = |end: &End| {
        let identity = end.identity.as_ref().map(|identity| format!(" {identity}")).unwrap_or_default();
        let accuracy =
            end.accuracy.as_ref().map(|accuracy| format!(" ±{}", accuracy.shown.replace('\u{394}', "")));
        let instrument = end.instrument.as_ref()?;
        Some(format!("{instrument}{identity}{}", accuracy.unwrap_or_default()))
    };
    let with = match (with(&change.before), with(&change.after)) {
        (Some(before), Some(after)) if before == after => Some(format!("both with {after}")),
        (before, after) => {
            let said = |with: Option<String>, when: &str| with.map(|with| format!("{when} with {with}"));
            let both: Vec<String> = said(before, "before").into_iter().chain(said(after, "after")).collect();
            (!both.is_empty()).then(|| both.join(", "))
        }
    };
    let step = (change.before.step != change.after.step).then(|| format!("before at {}", change.before.step));
    let passes: Vec<String> = match (&change.before.pass, &change.after.pass) {
        (Some(before), Some(after)) if before == after => vec![after.clone()],
        (before, after) => {
            let both = [(before, "before"), (after, "after")].into_iter();
            both.filter_map(|(pass, when)| Some(format!("{when}: {}", pass.as_ref()?))).collect()
        }
    };
    step.into_iter().chain(passes).chain(with).collect()
}

fn counts(compared: &Comparison) -> Section {
    let differ = |count: &&super::model::Count| count.before != count.after;
    let rows = compared.counts.iter().filter(differ).map(|count| Row {
        what: count.what.clone(),
        cells: vec![count.before.clone(), count.after.clone()],
        ..Row::default()
    });
    let rows: Vec<Row> = rows.collect();
    let same = compared.counts.iter().filter(|count| count.before == count.after);
    let same: Vec<String> = same.map(|count| format!("{} {}", count.what, count.after)).collect();
    let table = (!rows.is_empty()).then(|| table("Counts and times", &["", "What", "Before", "After"], rows));
    let same = (!same.is_empty()).then(|| Block::Words(format!("The same in both: {}.", same.join(", "))));
    Section::first("Counts and times", table.into_iter().chain(same).collect())
}

fn listed(heading: &str, items: &[String]) -> Option<Section> {
    (!items.is_empty()).then(|| Section::first(heading, vec![Block::Items(items.to_vec())]))
}

fn texts(texts: &[TextChange]) -> Option<Section> {
    let blocks = texts.iter().flat_map(|text| {
        let lines = |mark: char, lines: &[String]| {
            lines.iter().map(move |line| format!("{mark} {line}")).collect::<Vec<_>>()
        };
        let lines = [lines('\u{2212}', &text.only_before), lines('+', &text.only_after)].concat();
        let more = lines.len().saturating_sub(MOST_LINES);
        let mut short: Vec<String> = lines.iter().take(MOST_LINES).cloned().collect();
        if more > 0 {
            short.push(format!("... and {more} more lines; they stand in the other forms."));
        }
        let lines =
            if lines.is_empty() { vec!["Only the order of the lines differs.".to_owned()] } else { lines };
        let short = if short.is_empty() { lines.clone() } else { short };
        let full = Box::new(Block::Items(lines));
        let heading = format!("In {}: \u{2212} before only, + after only", text.text);
        [Block::Heading(heading), Block::Long { full, short: vec![Block::Items(short)] }]
    });
    let blocks: Vec<Block> = blocks.collect();
    (!blocks.is_empty()).then(|| Section::first("Where the texts differ", blocks))
}

fn table(caption: &str, columns: &[&str], rows: Vec<Row>) -> Block {
    let columns = columns.iter().map(|&column| column.to_owned()).collect();
    Block::Table(Table {
        caption: caption.to_owned(),
        columns,
        rows,
        style: Style::Named(&["before", "after", "change"]),
    })
}
