//! A history as a drawing: what it was over time, with its limits as they stood then.

use super::model::{History, Taken};
use crate::journal::read_time;
use crate::print::{Dot, Figure, Level, Plot};
use crate::quantity::{Quantity, Unit};
use crate::record::amounts::quantity;
use crate::record::items::item;
use crate::record::model::Limit;

/// What is drawn: those that count, or that were taken again since; nothing where fewer than two are of the same unit.
pub fn plot(history: &History) -> Option<Figure> {
    let unit = Unit::parse(history.unit.as_ref()?).ok()?;
    let number = |amount: Quantity| Some(amount.in_unit(&unit).ok()?.number.to_f64());
    let drawn: Vec<(&Taken, f64, i64)> = history
        .taken
        .iter()
        .filter_map(|taken| {
            let value = number(quantity(taken.amount.as_ref()?)?)?;
            Some((taken, value, read_time(&taken.at).ok()?.timestamp().as_second()))
        })
        .collect();
    let (first, last) = (drawn.first()?, drawn.last()?);
    if drawn.len() < 2 {
        return None;
    }
    #[expect(clippy::cast_precision_loss, reason = "places on a drawing")]
    let at = |index: usize, time: i64| match last.2 - first.2 {
        0 => index as f64 / (drawn.len() - 1) as f64,
        all => (time - first.2) as f64 / all as f64,
    };
    let dots = drawn.iter().enumerate().map(|(index, (taken, value, time))| Dot {
        at: at(index, *time),
        value: *value,
        shown: shown(taken, &unit),
        fails: taken.fails,
        of: taken.pass.as_deref().and_then(item),
    });
    let dots: Vec<Dot> = dots.collect();
    let limit = |limit: &Option<Limit>| limit.as_ref().and_then(|limit| number(quantity(&limit.amount)?));
    let limits = |of: fn(&Taken) -> &Option<Limit>, word: &str| {
        let values: Vec<Option<(f64, String)>> = drawn
            .iter()
            .map(|(taken, ..)| Some((limit(of(taken))?, of(taken).as_ref()?.amount.shown.clone())))
            .collect();
        levels(&values, &dots, word)
    };
    let lower = limits(|taken| &taken.lower, "lower limit");
    let upper = limits(|taken| &taken.upper, "upper limit");
    Some(Figure::Plot(Plot {
        unit: unit.symbol().to_owned(),
        from: day(first.0),
        to: day(last.0),
        words: words(&drawn, &unit),
        limits: lower.into_iter().chain(upper).collect(),
        dots,
    }))
}

/// A limit drawn from the first point that it held for to the next that another one held for.
fn levels(values: &[Option<(f64, String)>], dots: &[Dot], word: &str) -> Vec<Level> {
    let mut levels: Vec<Level> = Vec::new();
    let mut before: Option<&(f64, String)> = None;
    for (value, dot) in values.iter().zip(dots) {
        if let Some(level) = levels.last_mut().filter(|_| before.is_some()) {
            level.to = dot.at;
        }
        if let Some((at, shown)) = value.as_ref().filter(|value| before != Some(*value)) {
            levels.push(Level {
                from: dot.at,
                to: dot.at,
                value: *at,
                name: word.to_owned(),
                shown: shown.clone(),
            });
        }
        before = value.as_ref();
    }
    levels
}

fn shown(taken: &Taken, unit: &Unit) -> String {
    let amount = taken.in_unit.as_ref().or(taken.amount.as_ref());
    amount.map_or_else(|| unit.symbol().to_owned(), |amount| amount.shown.clone())
}

pub(super) fn day(taken: &Taken) -> String {
    taken.at.get(..10).unwrap_or(&taken.at).to_owned()
}

/// So many are told one by one; of more there is the table.
const MOST_TOLD: usize = 12;

fn words(drawn: &[(&Taken, f64, i64)], unit: &Unit) -> String {
    let one = |(taken, ..): &(&Taken, f64, i64)| {
        let fails = taken.fails.then(|| "fails".to_owned());
        let more: Vec<String> = taken.pass.as_deref().and_then(item).into_iter().chain(fails).collect();
        let more = if more.is_empty() { String::new() } else { format!(" ({})", more.join(", ")) };
        format!("{} {}{more}", day(taken), shown(taken, unit))
    };
    if drawn.len() <= MOST_TOLD {
        return drawn.iter().map(one).collect::<Vec<_>>().join(", then ");
    }
    let by_value = |one: &&(&Taken, f64, i64), other: &&(&Taken, f64, i64)| one.1.total_cmp(&other.1);
    let ends = [
        ("first", drawn.first()),
        ("last", drawn.last()),
        ("lowest", drawn.iter().min_by(by_value)),
        ("highest", drawn.iter().max_by(by_value)),
    ];
    let ends = ends.into_iter().filter_map(|(word, end)| Some(format!("{word} {}", one(end?))));
    let failed = drawn.iter().filter(|(taken, ..)| taken.fails).count();
    format!("{} times; {}; {failed} failed", drawn.len(), ends.collect::<Vec<_>>().join(", "))
}
