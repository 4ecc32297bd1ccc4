//! `plausible`: the range outside which a slip of the finger is likely.

use std::cmp::Ordering;

use super::codes::PLAUSIBLE_WRONG;
use crate::quantity::{Quantity, Unit};
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, quantity};

/// The two ends of a range, the lowest first.
pub(super) type Ends = (Spanned<Quantity>, Spanned<Quantity>);

/// The range outside which a slip of the finger is likely.
pub(super) fn plausible(fields: &mut Fields<'_, '_, '_>, unit: Option<&Spanned<Unit>>) -> Option<Ends> {
    let list = fields.texts("plausible")?;
    let found = ends(fields, &list.value)?;
    let unit = unit?;
    let is_other = |(low, _): &Ends| low.value.unit.dimension() != unit.value.dimension();
    let problem = match found {
        Ok(ends) if !is_other(&ends) => return Some(ends),
        Ok(_) => "not of the kind that the unit measures",
        Err(problem) => problem,
    };
    let headline = format!("{} has no plausible range", fields.owner());
    let diagnostic = Diagnostic::error(&PLAUSIBLE_WRONG, headline).at(list.span, problem);
    fields
        .scribe
        .note(diagnostic.help("write `plausible = [\"0 psi\", \"200 psi\"]`: the lowest, then the highest"));
    None
}

/// The two ends of a range, or what is wrong with them; nothing where one of them could not be read.
pub(super) fn ends(
    fields: &mut Fields<'_, '_, '_>,
    list: &[Spanned<String>],
) -> Option<Result<Ends, &'static str>> {
    let ends: Vec<_> = list.iter().map(|text| quantity(fields, text)).collect();
    let ends: Vec<_> = ends.into_iter().collect::<Option<_>>()?;
    let Ok([low, high]) = <[_; 2]>::try_from(ends) else {
        return Some(Err("two ends are needed, the lowest and the highest"));
    };
    Some(match low.value.compare(&high.value) {
        Ok(Ordering::Less) => Ok((low, high)),
        Ok(_) => Err("the first end is not below the second"),
        Err(_) => Err("the two ends cannot be compared"),
    })
}
