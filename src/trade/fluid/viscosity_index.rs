//! How little an oil thins with heat: the viscosity index of ASTM D2270.

use super::viscosity_index_table::TABLE;
use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

pub(super) const VISCOSITY_INDEX: Function = Function {
    name: "viscosity_index",
    summary: "the viscosity index, to the nearest whole number as the standard reports it",
    parameters: &[
        Parameter::amount("at_40", "mm²/s", "the kinematic viscosity at 40 °C").above("0"),
        Parameter::amount("at_100", "mm²/s", "the kinematic viscosity at 100 °C")
            .at_least("2")
            .at_most("500"),
    ],
    result: Shape::Number,
    call: viscosity_index_row,
    assumes: &[],
    source: "ASTM D2270, procedures A and B",
    example: "viscosity_index(at_40 = 34 mm²/s, at_100 = 7.2 mm²/s)",
};

/// The viscosity index, not rounded, of an oil with `at_40` and `at_100` mm²/s. `None` below 2 mm²/s at 100 °C,
/// where the method ends, and for an oil that does not thin with heat.
///
/// ```
/// use bayhand::trade::fluid::viscosity_index;
///
/// assert!((viscosity_index(73.30, 8.86).unwrap() - 92.43).abs() < 0.005);
/// ```
pub fn viscosity_index(at_40: f64, at_100: f64) -> Option<f64> {
    if !(at_100 >= 2.0 && at_40 > at_100) {
        return None;
    }
    let (low, high) = references(at_100);
    if at_40 > high {
        return Some((low - at_40) / (low - high) * 100.0);
    }
    let power = (libm::log10(high) - libm::log10(at_40)) / libm::log10(at_100);
    Some((libm::pow(10.0, power) - 1.0) / 0.007_15 + 100.0)
}

/// The viscosities at 40 °C of the reference oils of index 0 and 100 that have `at_100` mm²/s at 100 °C: by the
/// table up to 70, by the two equations of the standard above.
fn references(at_100: f64) -> (f64, f64) {
    let y = at_100;
    let next = TABLE.partition_point(|row| row.0 < y);
    match (TABLE.get(next.saturating_sub(1)), TABLE.get(next)) {
        (Some(below), Some(above)) if above.0 > below.0 => {
            let share = (y - below.0) / (above.0 - below.0);
            (below.1 + share * (above.1 - below.1), below.2 + share * (above.2 - below.2))
        }
        (Some(below), Some(_)) => (below.1, below.2),
        _ => (0.8353 * y * y + 14.67 * y - 216.0, 0.1684 * y * y + 11.85 * y - 97.0),
    }
}

fn viscosity_index_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let index = viscosity_index(given.float("at_40")?, given.float("at_100")?).ok_or_else(|| {
        Refusal::of("at_40", "oil is thicker at 40 °C than at 100 °C; were the two turned round?")
    })?;
    // Half to even, as the standard asks.
    Ok(Answer::Number(Num::parse_decimal(&format!("{index:.0}")).unwrap_or(Num::approx(index))))
}
