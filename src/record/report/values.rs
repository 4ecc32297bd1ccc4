//! Computed values, each with its formula and how it came about.

use super::gauge::gauge;
use super::said::{address, amount, aside};
use super::table;
use super::trail::Trail;
use super::verdict;
use crate::print::{Block, Row, Section};
use crate::record::model::{Record, Value, ValueResult};

pub(super) fn section(record: &Record, _: &mut Trail) -> Option<Section> {
    let columns = ["Step", "Value", "Result", "Verdict"];
    let rows = record.values.iter().filter_map(|value| Some(row(value, value.result.as_ref()?)));
    let none = record.values.iter().filter(|value| value.result.is_none());
    let none = none.map(|value| {
        let more = format!("formula: {}", value.formula);
        let source = value.source.iter().map(|source| format!("limits from: {source}"));
        let more: Vec<String> = std::iter::once(more)
            .chain(source)
            .chain(value.from.as_ref().map(|from| format!("from {from}")))
            .chain(aside(&value.place))
            .collect();
        format!(
            "{} {} [{}] ({})",
            address(&value.step, &value.place),
            value.what,
            value.name,
            more.join("; ")
        )
    });
    let none: Vec<String> = none.collect();
    let rule = record.readings.is_empty().then(verdict::rule);
    let table = table("Computed values", &columns, rows.collect());
    let mut blocks: Vec<Block> = rule.into_iter().chain([table]).collect();
    if !none.is_empty() {
        blocks.push(Block::Words(format!("Not computed: {}.", none.join("; "))));
    }
    (!record.values.is_empty()).then(|| Section::rest("Computed values", blocks))
}

fn row(value: &Value, result: &ValueResult) -> Row {
    let traced = !result.trace.is_empty();
    let mut notes = vec![if traced { result.trace.clone() } else { format!("formula: {}", value.formula) }];
    if traced && !result.trace.contains(&value.formula) {
        notes.push(format!("formula: {}", value.formula));
    }
    notes.extend(result.assumptions.iter().map(|assumed| format!("assumed: {assumed}")));
    notes.extend(verdict::notes(&result.judged));
    notes.extend(value.source.as_ref().map(|source| format!("limits from: {source}")));
    notes.extend(result.deviation.map(|number| format!("gone on with: deviation {number}")));
    notes.extend(value.from.as_ref().map(|from| format!("from {from}")));
    notes.extend(aside(&value.place));
    let shown = result.result.as_ref();
    Row {
        at: address(&value.step, &value.place),
        what: format!("{} [{}]", value.what, value.name),
        cells: vec![shown.map_or_else(|| "no result".to_owned(), amount), verdict::words(&result.judged)],
        figure: shown.and_then(|shown| gauge(shown, &result.judged)),
        notes,
    }
}
