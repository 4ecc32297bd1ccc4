//! The unit in which a result is shown when nothing suggests another.

use super::Type;
use crate::quantity::{Dimension, Kind, Unit};

/// What a person in a workshop expects to read.
const USUAL: &[(Dimension, &str)] = &[
    (Dimension::LENGTH, "mm"),
    (Dimension::MASS, "kg"),
    (Dimension::TIME, "s"),
    (Dimension::CURRENT, "A"),
    (Dimension::TEMPERATURE, "Δ°C"),
    (Dimension::ANGLE, "°"),
    (Dimension::MONEY, "money"),
    (Dimension::AREA, "mm²"),
    (Dimension::VOLUME, "L"),
    (Dimension::SPEED, "km/h"),
    (Dimension::ACCELERATION, "m/s²"),
    (Dimension::FORCE, "N"),
    (Dimension::TORQUE, "N·m"),
    (Dimension::PRESSURE, "kPa"),
    (Dimension::POWER, "W"),
    (Dimension::FLOW, "L/min"),
    (Dimension::MASS_FLOW, "kg/s"),
    (Dimension::DENSITY, "kg/m³"),
    (Dimension::FREQUENCY, "Hz"),
    (Dimension::ROTATION, "rpm"),
    (Dimension::KINEMATIC_VISCOSITY, "mm²/s"),
    (Dimension::DYNAMIC_VISCOSITY, "mPa·s"),
    (Dimension::VOLTAGE, "V"),
    (Dimension::RESISTANCE, "Ω"),
    (Dimension::CHARGE, "Ah"),
];

/// The base units by the names of their dimensions.
const BASES: [(&str, &str); 7] = [
    ("length", "m"),
    ("mass", "kg"),
    ("time", "s"),
    ("current", "A"),
    ("temperature", "K"),
    ("angle", "rev"),
    ("money", "money"),
];

/// The usual unit of a type; the unit one for what is no quantity.
pub(super) fn usual_unit(wanted: Type) -> Unit {
    let Type::Quantity { dimension, kind } = wanted else {
        return Unit::one();
    };
    let usual = USUAL
        .iter()
        .find(|(usual, _)| *usual == dimension)
        .map(|(_, symbol)| *symbol);
    let unit = match (kind, usual) {
        (Kind::Point, _) => Unit::parse("°C"),
        (Kind::Difference, Some(symbol)) => Unit::parse(symbol),
        (Kind::Difference, None) => Unit::parse(&coherent(dimension)),
    };
    unit.unwrap_or_else(|_| Unit::one())
}

/// `m^2·kg` of `length^2·mass`.
fn coherent(dimension: Dimension) -> String {
    let name = dimension.name();
    let factors = name.split('·').map(|factor| {
        let (base, power) = factor.split_once('^').unwrap_or((factor, ""));
        let unit = BASES
            .iter()
            .find(|(name, _)| *name == base)
            .map_or("", |(_, unit)| unit);
        if power.is_empty() {
            unit.to_owned()
        } else {
            format!("{unit}^{power}")
        }
    });
    factors.collect::<Vec<_>>().join("·")
}
