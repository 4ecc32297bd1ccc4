//! What a bare number would be in another unit.

use super::{Entry, parse_entry};
use crate::quantity::Unit;

/// The units that people in a workshop read one and the same thing in.
const EVERYDAY: [&str; 24] = [
    "°C", "°F", "kPa", "psi", "bar", "L", "qt", "mL", "N·m", "lbf·ft", "lbf·in", "mm", "in", "kg", "lb",
    "km", "mi", "s", "min", "L/min", "qt/min", "km/h", "mi/h", "V",
];

/// The same digits in the other everyday units of that kind, each in the unit that was asked for; nothing where a unit was
/// typed.
pub fn in_other_units(entry: &Entry) -> impl Iterator<Item = Entry> + '_ {
    let digits = entry.text.trim();
    let is_bare = digits.chars().all(|char| char.is_ascii_digit() || ".,/- ".contains(char));
    let asked = &entry.asked.unit;
    let is_other = move |unit: &Unit| unit != asked && unit.is_of_the_kind_of(asked);
    let units = EVERYDAY.iter().filter(move |_| is_bare).filter_map(|symbol| Unit::parse(symbol).ok());
    units
        .filter(is_other)
        .filter_map(move |unit| parse_entry(&format!("{digits} {}", unit.symbol()), asked).ok())
}
