//! Units read as people write them, also products and quotients.

use super::find::{find, find_exact};
use super::measure::Unit;
use super::normal::{normal, pieces};
use super::product::Product;
use super::row::Row;

/// What a text means, with only these units to build on; `None` when it is no unit.
pub(super) fn parse_with(text: &str, known: &[(Row, Unit)]) -> Option<Unit> {
    if text.is_empty() {
        return Some(Unit::one());
    }
    let otherwise = || {
        let normal = normal(text);
        find(&normal, known).cloned().or_else(|| built(&normal, known))
    };
    find(text, known)
        .cloned()
        .or_else(otherwise)
        .or_else(|| parse_with(text.strip_suffix('.').filter(|rest| !rest.is_empty())?, known))
}

/// The unit that a product or quotient of units makes up.
fn built(normal: &str, known: &[(Row, Unit)]) -> Option<Unit> {
    let mut product = Product::default();
    for (name, power) in pieces(normal)? {
        product.take(find(name, known)?, power)?;
    }
    product.is_readable().then(|| product.unit(|symbol| find_exact(symbol, known)))
}
