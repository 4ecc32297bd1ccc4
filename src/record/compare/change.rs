//! One thing before and after: the difference, and what the instruments make of it.

use super::model::{Change, End, Meaning};
use crate::quantity::{Num, Quantity};
use crate::record::amounts::{amount, quantity};
use crate::record::model::{self, Amount};
use crate::run::half_width;
use crate::trade::measurement::{Spread, en_number, expanded_uncertainty, standard_uncertainty};

/// Whether instruments come into it.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Sort {
    /// It was read.
    Measured,
    /// It was worked out, or it is no number.
    Other,
}

pub(super) fn change(
    (name, what, of): (&str, &str, Option<&str>),
    before: End,
    after: End,
    sort: Sort,
) -> Change {
    let (before, after) = (with_uncertainty(before), with_uncertainty(after));
    let difference = difference(&before, &after);
    let is_same = before.verdict == after.verdict
        && difference
            .as_ref()
            .map_or_else(|| before.shown == after.shown, |difference| difference.number.is_zero());
    Change {
        name: name.to_owned(),
        what: what.to_owned(),
        of: of.map(str::to_owned),
        meaning: meaning(&before, &after, difference.as_ref(), sort),
        change: difference.as_ref().map(signed),
        before,
        after,
        is_same,
    }
}

/// The expanded uncertainty of a reading whose instrument states how good it is (JCGM 100:2008, 4.3.7: anywhere within that
/// is equally likely).
fn with_uncertainty(end: End) -> End {
    let expanded = || {
        let half = half_width(&quantity(end.amount.as_ref()?)?, &quantity(end.accuracy.as_ref()?)?)?;
        let expanded = expanded_uncertainty(standard_uncertainty(half.number, Spread::Rectangular), 2.into());
        Some(amount(&Quantity::new(expanded, half.unit)))
    };
    End { expanded: expanded(), ..end }
}

/// The second less the first, in the unit of the second.
fn difference(before: &End, after: &End) -> Option<Quantity> {
    let after = quantity(after.amount.as_ref()?)?;
    let before = quantity(before.amount.as_ref()?)?.in_unit(&after.unit).ok()?;
    Some(Quantity::new(after.number - before.number, after.unit.as_difference()))
}

fn meaning(before: &End, after: &End, difference: Option<&Quantity>, sort: Sort) -> Meaning {
    let Some(difference) = difference else {
        let are_numbers = before.amount.is_some() && after.amount.is_some();
        return if are_numbers { Meaning::NotComparable } else { Meaning::None };
    };
    if sort == Sort::Other || difference.number.is_zero() {
        return Meaning::None;
    }
    let expanded = |end: &End| {
        let expanded = quantity(end.expanded.as_ref()?)?;
        Some(expanded.in_unit(&difference.unit).ok()?.number)
    };
    let en = || en_number(difference.number, expanded(before)?, expanded(after)?);
    match en() {
        None => Meaning::NoAccuracyStated,
        Some(en) if en > Num::ONE => Meaning::MoreThanTheInstruments { en: told(en) },
        Some(en) => Meaning::MaybeTheInstruments { en: told(en) },
    }
}

/// To two decimals, and never rounded over the one that decides.
fn told(en: Num) -> String {
    let shown = en.with_places(2);
    let is_over = Num::parse_decimal(&shown).is_some_and(|shown| shown > Num::ONE);
    if is_over == (en > Num::ONE) { shown } else { en.shown_with(6) }
}

/// With its sign: `+0.3 psi`.
fn signed(difference: &Quantity) -> Amount {
    let sign = if difference.number > Num::ZERO { "+" } else { "" };
    let shown = format!("{sign}{difference}").replace('\u{394}', "");
    model::Amount { shown, ..amount(difference) }
}
