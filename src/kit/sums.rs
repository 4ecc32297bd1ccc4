//! How much of a thing all procedures together take, and what has to be bought for it.

use std::collections::BTreeMap;

use super::model::{Buy, ProcedureKit, Sum, SupplyKit, ToolSum};
use crate::quantity::{Num, Quantity, Unit};
use crate::trade::fluid::packs_to_buy;

/// What is bought to cover an amount: whole packs, or whole pieces where there is no pack.
pub(super) fn buy(
    amount: Option<&Quantity>,
    (pack, price): (Option<Quantity>, Option<Quantity>),
    lead_time: Option<Quantity>,
) -> Buy {
    let is_bought = pack.is_some() || price.is_some();
    let count = is_bought.then(|| count(amount, pack.as_ref())).flatten();
    let cost = price.as_ref().zip(count).map(|(price, count)| times(price, count));
    Buy { count: count.map(Quantity::from), pack, price, cost, lead_time }
}

/// How many packs or pieces cover an amount; one, where nobody says how much.
fn count(amount: Option<&Quantity>, pack: Option<&Quantity>) -> Option<Num> {
    let piece = Quantity::from(Num::ONE);
    match (amount, pack) {
        (Some(amount), _) => {
            let pack = pack.unwrap_or(&piece);
            packs_to_buy(amount.in_unit(&pack.unit).ok()?.number, pack.number)
        }
        (None, _) => None,
    }
}

fn times(price: &Quantity, count: Num) -> Quantity {
    Quantity::new(price.number * count, price.unit.clone())
}

/// Tools over all procedures, by what they are and what they have to be good for.
pub(super) fn tools(kits: &[ProcedureKit]) -> Vec<ToolSum> {
    let mut all: BTreeMap<(&str, String), Vec<usize>> = BTreeMap::new();
    for (place, kit) in kits.iter().enumerate() {
        for tool in &kit.tools {
            all.entry((&tool.what, tool.remark.clone())).or_default().push(place + 1);
        }
    }
    let all = all.into_iter();
    all.map(|((what, remark), procedures)| ToolSum { what: what.to_owned(), remark, procedures }).collect()
}

/// A line of the sums while it grows.
struct Line {
    sum: Sum,
    /// The whole amount of each procedure is known.
    is_known: bool,
}

impl Line {
    fn of(what: &str) -> Self {
        let (amounts, more, procedures) = (Vec::new(), Vec::new(), Vec::new());
        let sum = Sum { what: what.to_owned(), amounts, more, buy: Buy::default(), procedures };
        Self { sum, is_known: true }
    }
}

/// Materials or parts over all procedures, by what they are. What is bought in other packs or at another price stands in
/// a line of its own.
pub(super) fn sums(kits: &[ProcedureKit], of: fn(&ProcedureKit) -> &[SupplyKit]) -> Vec<Sum> {
    let mut lines: BTreeMap<&str, Vec<Line>> = BTreeMap::new();
    for (place, kit) in kits.iter().enumerate() {
        for supply in of(kit) {
            let of_this = lines.entry(&supply.what).or_default();
            let alike = of_this.iter().position(|line| is_bought_alike(&line.sum.buy, &supply.buy));
            let at = alike.unwrap_or(of_this.len());
            if at == of_this.len() {
                of_this.push(Line::of(&supply.what));
            }
            if let Some(line) = of_this.get_mut(at) {
                add(line, supply, place + 1);
            }
        }
    }
    lines.into_values().flatten().map(bought).collect()
}

/// Whether what one says of pack and price does not speak against what the other says.
fn is_bought_alike(one: &Buy, other: &Buy) -> bool {
    let agree = |one: &Option<Quantity>, other: &Option<Quantity>| match (one, other) {
        (Some(one), Some(other)) => one.compare(other).is_ok_and(std::cmp::Ordering::is_eq),
        _ => true,
    };
    agree(&one.pack, &other.pack) && agree(&one.price, &other.price)
}

fn add(line: &mut Line, supply: &SupplyKit, place: usize) {
    let sum = &mut line.sum;
    if sum.procedures.last() != Some(&place) {
        sum.procedures.push(place);
    }
    match (&supply.amount, &supply.formula) {
        (Some(amount), _) => add_amount(&mut sum.amounts, amount),
        (None, Some(formula)) => {
            sum.more.push(formula.clone());
            line.is_known = false;
        }
        // Nobody says how much: some of it.
        (None, None) => line.is_known = false,
    }
    let (own, other) = (&mut sum.buy, &supply.buy);
    own.pack = own.pack.take().or_else(|| other.pack.clone());
    own.price = own.price.take().or_else(|| other.price.clone());
    own.lead_time = longest(own.lead_time.take(), other.lead_time.as_ref());
}

fn add_amount(amounts: &mut Vec<Quantity>, amount: &Quantity) {
    let sum = amounts.iter_mut().find_map(|sum| Some((sum.plus(amount).ok()?, sum)));
    match sum {
        Some((both, sum)) => *sum = both,
        None => amounts.push(amount.clone()),
    }
}

fn longest(one: Option<Quantity>, other: Option<&Quantity>) -> Option<Quantity> {
    let Some(one) = one else { return other.cloned() };
    let is_shorter = other.is_some_and(|other| one.compare(other).is_ok_and(std::cmp::Ordering::is_lt));
    if is_shorter { other.cloned() } else { Some(one) }
}

/// Packs are rounded up over all procedures together, not in each.
fn bought(line: Line) -> Sum {
    let Line { mut sum, is_known } = line;
    let only = match &sum.amounts[..] {
        [only] if is_known => Some(only),
        _ => None,
    };
    let Buy { pack, price, lead_time, .. } = sum.buy;
    sum.buy = buy(only, (pack, price), lead_time);
    sum
}

/// What everything costs that has a cost, and how many have none.
pub(super) fn cost<'s>(sums: impl Iterator<Item = &'s Sum>) -> (Option<Quantity>, usize) {
    let (mut cost, mut without): (Option<Quantity>, usize) = (None, 0);
    for sum in sums {
        match (&sum.buy.cost, cost.take()) {
            (Some(own), Some(so_far)) => cost = so_far.plus(own).ok().or(Some(so_far)),
            (Some(own), None) => cost = Some(own.clone()),
            (None, so_far) => {
                without += 1;
                cost = so_far;
            }
        }
    }
    (cost, without)
}

/// Times summed, to the minute: `10 h 30 min`.
pub(super) fn hours<'q>(times: impl Iterator<Item = &'q Quantity>) -> String {
    let seconds = times.fold(Num::ZERO, |sum, time| sum + time.base());
    let minute = Unit::parse("min").map_or(Num::from(60), |minute| minute.factor());
    let minutes = seconds.checked_div(minute).unwrap_or(Num::ZERO).rounded(0);
    let hours = minutes.checked_div(Num::from(60)).unwrap_or(Num::ZERO).floor();
    format!("{} h {:0>2} min", hours.shown(), (minutes - hours * Num::from(60)).shown())
}
