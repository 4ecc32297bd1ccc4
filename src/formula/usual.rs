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

/// The unit to show a result in: the one that came out of the working, if people use it; else the usual one of
/// what is measured; else whatever came out.
pub(super) fn shown_unit(worked: Option<Unit>, wanted: Type) -> Unit {
    let worked = worked.filter(|unit| Type::of(unit) == wanted);
    match worked {
        Some(unit) if is_known(&unit) => unit,
        worked => usual_unit(wanted).or(worked).unwrap_or_else(|| base_unit(wanted)),
    }
}

/// Whether it is a unit of the table or a difference on one of its scales, not one that only came about.
fn is_known(unit: &Unit) -> bool {
    unit.is_date() || Unit::is_of_the_table(unit.symbol().trim_start_matches('Δ'))
}

fn usual_unit(wanted: Type) -> Option<Unit> {
    let Type::Quantity { dimension, kind } = wanted else {
        return None;
    };
    if kind == Kind::Point {
        return if wanted == Type::DATE { Some(Unit::date()) } else { Unit::parse("°C").ok() };
    }
    let (_, symbol) = USUAL.iter().find(|(usual, _)| *usual == dimension)?;
    Unit::parse(symbol).ok()
}

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

/// `m^2·kg` of `length^2·mass`; the unit one for a plain number.
fn base_unit(wanted: Type) -> Unit {
    let Type::Quantity { dimension, .. } = wanted else {
        return Unit::one();
    };
    let name = dimension.name();
    let factors = name.split('·').filter_map(|factor| {
        let (base, power) = factor.split_once('^').unwrap_or((factor, "1"));
        let (_, unit) = BASES.iter().find(|(name, _)| *name == base)?;
        Some(format!("{unit}^{power}"))
    });
    Unit::parse(&factors.collect::<Vec<_>>().join("·")).unwrap_or_else(|_| Unit::one())
}
