//! Balances as they stand: each figure with where it is from, and the sum of those that are there.

use super::model::{Balance, Row, Sum};
use crate::formula::Value;
use crate::job::figure::{Figure, figures};
use crate::job::model::{self, Figures, Job, Source};
use crate::job::standing::newest;
use crate::journal::write_time;
use crate::procedure::Name;
use crate::quantity::{Num, Quantity, Unit};
use crate::record::amount;
use crate::record::model::Moment;
use crate::session::StoredRun;

pub(super) fn balances(job: &Job, runs: &[StoredRun]) -> Vec<Balance> {
    job.balances.iter().map(|balance| told(job, balance, runs)).collect()
}

fn told(job: &Job, balance: &model::Balance, runs: &[StoredRun]) -> Balance {
    let rows = |sign: &str, sources: &[Source], unit: Option<&Unit>| -> Vec<(Row, Option<Quantity>)> {
        sources
            .iter()
            .flat_map(|source| Seen { job, source, sign, unit }.rows(newest(runs, &source.of.procedure)))
            .collect()
    };
    let (rows, sum) = match &balance.figures {
        Figures::Lists(lists) => (rows("", lists, None), None),
        Figures::Sum { unit, plus, minus } => {
            let (plus, minus) = (rows("plus", plus, Some(unit)), rows("minus", minus, Some(unit)));
            let sum = sum(unit, &plus, &minus);
            (plus.into_iter().chain(minus).collect(), Some(sum))
        }
    };
    let rows = rows.into_iter().map(|(row, _)| row).collect();
    Balance { name: balance.name.clone(), what: balance.what.clone(), rows, sum }
}

fn sum(unit: &Unit, plus: &[(Row, Option<Quantity>)], minus: &[(Row, Option<Quantity>)]) -> Sum {
    let all = |rows: &[(Row, Option<Quantity>)]| {
        let numbers = rows.iter().filter_map(|(_, amount)| amount.as_ref()).map(|amount| amount.number);
        numbers.fold(Num::ZERO, |sum, number| sum + number)
    };
    let (plus_all, minus_all) = (all(plus), all(minus));
    let in_unit = |number| amount(&Quantity::new(number, unit.clone()));
    let rows = || plus.iter().chain(minus).map(|(row, _)| row);
    let open = rows().filter(|row| row.open.is_some()).count();
    let words = rows().filter(|row| row.words.is_some()).count();
    let without = match (open, words) {
        (0, 0) => None,
        (open, 0) => Some(format!("{open} open")),
        (0, words) => Some(format!("{words} without a number")),
        (open, words) => Some(format!("{open} open, {words} without a number")),
    };
    Sum { plus: in_unit(plus_all), minus: in_unit(minus_all), total: in_unit(plus_all - minus_all), without }
}

/// A result of a balance, on its way to a row.
struct Seen<'j> {
    job: &'j Job,
    source: &'j Source,
    sign: &'j str,
    unit: Option<&'j Unit>,
}

impl Seen<'_> {
    fn rows(&self, run: Option<&StoredRun>) -> Vec<(Row, Option<Quantity>)> {
        let Some(run) = run else { return vec![(self.open(None, "not begun"), None)] };
        let found = figures(run, &Name::from(&self.source.of.result));
        if found.is_empty() {
            let why =
                if run.state.closed.is_some() { "the run is closed without it" } else { "not there yet" };
            return vec![(self.open(Some(run), why), None)];
        }
        found.into_iter().map(|figure| self.row(run, figure)).collect()
    }

    fn row(&self, run: &StoredRun, figure: Figure) -> (Row, Option<Quantity>) {
        let (amount_in_unit, words) = match (figure.value, self.unit) {
            (Value::Quantity(quantity), Some(unit)) => match quantity.in_unit(unit) {
                Ok(quantity) => (Some(quantity), None),
                // The run went by an earlier text of its procedure.
                Err(_) => (None, Some(format!("{quantity}, which is no `{unit}`"))),
            },
            (Value::Text(text) | Value::Instead(text), _) => (None, Some(text)),
            (other, _) => (None, Some(other.to_string())),
        };
        let row = Row {
            pass: figure.pass,
            amount: amount_in_unit.as_ref().map(amount),
            words,
            open: None,
            when: Some(Moment { entry: figure.entry, at: write_time(&figure.at) }),
            ..self.open(Some(run), "")
        };
        (row, amount_in_unit)
    }

    fn open(&self, run: Option<&StoredRun>, why: &str) -> Row {
        let of = &self.source.of;
        let name = Name::from(&of.result);
        let title =
            || self.job.procedures.iter().find(|one| one.id == of.procedure).map(|one| one.title.clone());
        let what = run.map(|run| run.book.procedure.called(&name).to_owned());
        Row {
            sign: self.sign.to_owned(),
            what: what.or_else(title).unwrap_or_default(),
            result: of.to_string(),
            pass: None,
            amount: None,
            words: None,
            open: Some(why.to_owned()),
            run: run.map(|run| run.id.as_str().to_owned()),
            when: None,
        }
    }
}
