//! Where a result fell between its limits, and how results moved: as figures.

use super::said::amount;
use super::verdict;
use crate::print::{Figure, Gauge, Point, Trend};
use crate::quantity::{Num, Quantity, Unit};
use crate::record::model::{Amount, Answer, Judged};

/// The result that a figure can be drawn of, in the unit that was asked for.
pub(super) fn drawn(answer: &Answer) -> Option<&Amount> {
    let Answer::Quantity(quantity) = answer else {
        return None;
    };
    Some(quantity.asked.as_ref().map_or(&quantity.typed, |asked| &asked.amount))
}

/// The gauge, where there are limits and numbers to draw.
///
/// The verdict decides on which side of a limit the mark stands; the place between them is only a picture.
pub(super) fn gauge(result: &Amount, judged: &Judged) -> Option<Figure> {
    let (lower, upper) = (judged.lower.as_ref(), judged.upper.as_ref());
    // One good value, such as a count that must come out: there is nothing between to draw.
    if lower.zip(upper).is_some_and(|(lower, upper)| lower.amount == upper.amount) {
        return None;
    }
    let at = place(result, lower.map(|limit| &limit.amount), upper.map(|limit| &limit.amount))?;
    let limits = verdict::limits(judged).join(" and ");
    Some(Figure::Gauge(Gauge {
        lower: lower.map(|limit| limit.amount.shown.clone()),
        upper: upper.map(|limit| limit.amount.shown.clone()),
        at,
        within: judged.verdict.ends_with("pass"),
        words: format!("{}: {}; {limits}", amount(result), verdict::words(judged)),
    }))
}

/// How the results of several passes moved, where there are two or more and they differ.
pub(super) fn trend(results: &[&Amount]) -> Option<Figure> {
    let unit = Unit::parse(&results.first()?.unit).ok()?;
    let numbers: Vec<f64> = results.iter().map(|result| number_in(result, &unit)).collect::<Option<_>>()?;
    let lowest = numbers.iter().copied().reduce(f64::min)?;
    let range = numbers.iter().copied().reduce(f64::max)? - lowest;
    if !(range > 0.0 && range.is_finite()) {
        return None;
    }
    let points = results.iter().zip(&numbers);
    let points =
        points.map(|(result, number)| Point { shown: result.shown.clone(), at: (number - lowest) / range });
    let shown: Vec<&str> = results.iter().map(|result| result.shown.as_str()).collect();
    Some(Figure::Trend(Trend { points: points.collect(), words: shown.join(", then ") }))
}

/// The fraction of the way from the lower limit to the upper. With one limit its own size is the measure; of a limit of
/// nothing there is none.
fn place(result: &Amount, lower: Option<&Amount>, upper: Option<&Amount>) -> Option<f64> {
    let unit = Unit::parse(&lower.or(upper)?.unit).ok()?;
    let number = |amount: &Amount| number_in(amount, &unit);
    let result = number(result)?;
    let ends = match (lower.map(number), upper.map(number)) {
        (Some(lower), Some(upper)) => (lower?, upper?),
        (Some(lower), None) => (lower?, lower? + lower?.abs()),
        (None, Some(upper)) => (upper? - upper?.abs(), upper?),
        (None, None) => return None,
    };
    let at = (result - ends.0) / (ends.1 - ends.0);
    at.is_finite().then_some(at)
}

/// The number as it can be drawn, in the unit of the limits.
fn number_in(amount: &Amount, unit: &Unit) -> Option<f64> {
    let number = Num::from_exact_text(&amount.number)?;
    let own = Unit::parse(&amount.unit).ok()?;
    Some(Quantity::new(number, own).in_unit(unit).ok()?.number.to_f64())
}
