use std::cmp::Ordering;

use super::codes::PLAUSIBLE_WRONG;
use crate::quantity::{Quantity, Unit};
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, quantity};

/// The range outside which a slip of the finger is likely.
pub(super) fn plausible(
    fields: &mut Fields<'_, '_, '_>,
    unit: Option<&Spanned<Unit>>,
) -> Option<(Spanned<Quantity>, Spanned<Quantity>)> {
    let list = fields.texts("plausible")?;
    let ends: Vec<_> = list.value.iter().map(|text| quantity(fields, text)).collect();
    let ends: Option<Vec<_>> = ends.into_iter().collect();
    let problem = match (ends.as_deref()?, unit?) {
        ([low, high], unit) => unfit(low, high, unit),
        _ => Some("two ends are needed, the lowest and the highest"),
    };
    if let Some(problem) = problem {
        let headline = format!("{} has no plausible range", fields.owner());
        let diagnostic = Diagnostic::error(&PLAUSIBLE_WRONG, headline).at(list.span, problem);
        fields.scribe.note(
            diagnostic.help("write `plausible = [\"0 psi\", \"200 psi\"]`: the lowest, then the highest"),
        );
        return None;
    }
    let mut ends = ends?.into_iter();
    Some((ends.next()?, ends.next()?))
}

fn unfit(low: &Spanned<Quantity>, high: &Spanned<Quantity>, unit: &Spanned<Unit>) -> Option<&'static str> {
    let fits = |end: &Spanned<Quantity>| end.value.unit.dimension() == unit.value.dimension();
    if !fits(low) || !fits(high) {
        return Some("not of the kind that the unit measures");
    }
    match low.value.compare(&high.value) {
        Ok(Ordering::Less) => None,
        Ok(_) => Some("the first end is not below the second"),
        Err(_) => Some("the two ends cannot be compared"),
    }
}
