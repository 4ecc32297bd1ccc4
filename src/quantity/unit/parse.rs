//! Units read as people write them, also products and quotients.

use super::find::{UnknownUnit, find, unknown};
use super::measure::Unit;
use super::normal::{normal, split_power};
use super::product::Product;
use super::table::{Row, units};

/// No unit is longer than this; a longer text is refused unread.
const LONGEST: usize = 64;

impl Unit {
    /// Reads a unit as people write it: `lbf·ft`, `ft-lb`, `L/min`, `mm²`, `g/cm3`, `kg·m/s^2`, `kJ/(kg·K)`.
    ///
    /// A spelling of the table comes first, then the same without regard to capitals where only one unit is
    /// meant, then a product or quotient of units of the table, in which `°C` and `°F` are differences. A slash
    /// divides by what follows it up to the next `·` or `/`. An empty text is the unit of a plain number.
    ///
    /// ```
    /// use bayhand::quantity::Unit;
    ///
    /// assert_eq!(Unit::parse("kg*m/s2").unwrap().factor(), Unit::parse("N").unwrap().factor());
    /// assert_eq!(Unit::parse("PSI").unwrap().symbol(), "psi");
    /// ```
    pub fn parse(text: &str) -> Result<Self, UnknownUnit> {
        let text = text.trim();
        if text.len() > LONGEST {
            return Err(unknown(text));
        }
        parse_with(text, units()).ok_or_else(|| unknown(text))
    }
}

/// The same with only these units to build on.
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
    Some(product.unit(known))
}

/// The names in a product or quotient of units, each with its power: `kg·m/s²` is kg¹ m¹ s⁻².
pub(super) fn pieces(normal: &str) -> Option<Vec<(&str, i32)>> {
    let mut pieces = Vec::new();
    let (mut sign, mut group) = (1, None);
    let mut rest = normal;
    loop {
        if let Some(inside) = rest.strip_prefix('(').filter(|_| group.is_none()) {
            group = Some(sign);
            sign = 1;
            rest = inside;
        }
        let end = rest.find(['·', '/', '(', ')']).unwrap_or(rest.len());
        let (name, power) = split_power(&rest[..end])?;
        rest = &rest[end..];
        let stands_for_nothing = name == "1" && pieces.is_empty() && rest.starts_with('/');
        if !stands_for_nothing {
            pieces.push((Some(name).filter(|name| !name.is_empty())?, power * sign * group.unwrap_or(1)));
        }
        if let Some(outside) = rest.strip_prefix(')') {
            group.take()?;
            rest = outside;
        }
        let Some(operator) = rest.chars().next() else {
            return group.is_none().then_some(pieces);
        };
        sign = sign_after(operator)?;
        rest = &rest[operator.len_utf8()..];
    }
}

fn sign_after(operator: char) -> Option<i32> {
    match operator {
        '·' => Some(1),
        '/' => Some(-1),
        _ => None,
    }
}
