//! What is written by hand below a step: its readings, what is worked out from them, the places of its fasteners.

use super::super::criteria::{Form, Outcome, joined};
use super::super::paper::Paper;
use crate::print::{Block, Grid, Mark, Tick};
use crate::procedure::{Fasteners, Positions, VehicleValue};

/// Room for so many places where how many there are is worked out first.
const ROOM: usize = 12;

/// What is written down, and below it what it is judged by.
pub(super) fn outcome(outcome: Outcome) -> Vec<Tick> {
    let below = |words: String| Tick { words, within: true, ..Tick::default() };
    let what = outcome.what;
    let first = match outcome.form {
        Form::Choices(choices) => Tick { choices, ..below(format!("{what}:")) },
        Form::Written(form) => Tick { blanks: vec![form], ..below(format!("{what},")) },
        Form::Computed(formula) => {
            Tick { blanks: vec!["=".to_owned()], ..below(format!("{what}, {formula}")) }
        }
        Form::Clock => Tick { blanks: vec!["from".to_owned(), "to".to_owned()], ..below(format!("{what},")) },
    };
    let said = joined(&outcome.said);
    let said = (!said.is_empty()).then(|| below(format!("({said})")));
    std::iter::once(first).chain(said).collect()
}

/// What is to be known of the vehicle: what its sheet says, else where to find it, and room for it.
pub(super) fn vehicle(paper: Paper<'_>) -> Vec<Block> {
    let values = paper.procedure.vehicle();
    let ticks: Vec<Tick> = values.iter().map(|(name, value)| value_of(value, paper.said(name))).collect();
    if ticks.is_empty() {
        return Vec::new();
    }
    vec![Block::Heading("To be known of the vehicle".to_owned()), Block::Ticks(ticks)]
}

fn value_of(value: &VehicleValue, said: Option<String>) -> Tick {
    let mark = Mark::Open;
    match said {
        Some(said) => Tick { mark, words: format!("{}: {said}", value.what), ..Tick::default() },
        None => Tick {
            mark,
            words: format!("{} (find it in: {})", value.what, value.find),
            choices: value.choices.clone(),
            blanks: vec!["from".to_owned(), unit(value)],
            ..Tick::default()
        },
    }
}

fn unit(value: &VehicleValue) -> String {
    value.unit.as_ref().map_or_else(|| "is".to_owned(), |unit| format!("in {}", unit.symbol()))
}

/// A blank for each place and stage.
pub(super) fn places(paper: Paper<'_>, group: &Fasteners) -> Block {
    let (names, more) = match &group.positions {
        Positions::Named(names) => (names.clone(), ""),
        Positions::Count(count) => match paper.count(count) {
            Some(count) => (numbered(count), ""),
            None => (
                numbered(ROOM),
                "; how many there are is worked out first: strike out the rest, or add a sheet",
            ),
        },
    };
    let stages: Vec<String> = group.stages.iter().map(|stage| stage.what.clone()).collect();
    Block::Grid(Grid {
        caption: format!("{}{more}", group.what),
        corner: "Place".to_owned(),
        rows: names.into_iter().map(|name| (name, vec![String::new(); stages.len()])).collect(),
        columns: stages,
    })
}

fn numbered(count: usize) -> Vec<String> {
    (1..=count).map(|number| number.to_string()).collect()
}
