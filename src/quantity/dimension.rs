//! What a unit measures: the powers of length, mass, time and the other base dimensions.

use std::fmt;
use std::ops::{Div, Mul};

/// How many base dimensions there are.
const BASES: usize = 7;

/// What is measured: the powers of length, mass, time, current, temperature, angle and money.
///
/// Angle is a dimension of its own, so that a bolt angle does not pass as a plain number and revolutions per
/// minute do not pass as a frequency; its base is the turn, of which degrees are an exact fraction. Torque and
/// energy share one dimension. Powers stay within -127 to 127.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub struct Dimension([i8; BASES]);

impl Dimension {
    /// A plain number or a ratio.
    pub const NONE: Self = Self([0; BASES]);
    /// Metre.
    pub const LENGTH: Self = Self([1, 0, 0, 0, 0, 0, 0]);
    /// Kilogram.
    pub const MASS: Self = Self([0, 1, 0, 0, 0, 0, 0]);
    /// Second.
    pub const TIME: Self = Self([0, 0, 1, 0, 0, 0, 0]);
    /// Ampere.
    pub const CURRENT: Self = Self([0, 0, 0, 1, 0, 0, 0]);
    /// Kelvin.
    pub const TEMPERATURE: Self = Self([0, 0, 0, 0, 1, 0, 0]);
    /// Turn.
    pub const ANGLE: Self = Self([0, 0, 0, 0, 0, 1, 0]);
    /// The shop's currency.
    pub const MONEY: Self = Self([0, 0, 0, 0, 0, 0, 1]);
    /// Square metre.
    pub const AREA: Self = Self([2, 0, 0, 0, 0, 0, 0]);
    /// Cubic metre.
    pub const VOLUME: Self = Self([3, 0, 0, 0, 0, 0, 0]);
    /// Metre a second.
    pub const SPEED: Self = Self([1, 0, -1, 0, 0, 0, 0]);
    /// Metre a second, a second.
    pub const ACCELERATION: Self = Self([1, 0, -2, 0, 0, 0, 0]);
    /// Newton.
    pub const FORCE: Self = Self([1, 1, -2, 0, 0, 0, 0]);
    /// Newton metre, joule.
    pub const TORQUE: Self = Self([2, 1, -2, 0, 0, 0, 0]);
    /// Pascal.
    pub const PRESSURE: Self = Self([-1, 1, -2, 0, 0, 0, 0]);
    /// Watt.
    pub const POWER: Self = Self([2, 1, -3, 0, 0, 0, 0]);
    /// Cubic metre a second.
    pub const FLOW: Self = Self([3, 0, -1, 0, 0, 0, 0]);
    /// Kilogram a second.
    pub const MASS_FLOW: Self = Self([0, 1, -1, 0, 0, 0, 0]);
    /// Kilogram a cubic metre.
    pub const DENSITY: Self = Self([-3, 1, 0, 0, 0, 0, 0]);
    /// Hertz.
    pub const FREQUENCY: Self = Self([0, 0, -1, 0, 0, 0, 0]);
    /// Turn a second.
    pub const ROTATION: Self = Self([0, 0, -1, 0, 0, 1, 0]);
    /// Square metre a second.
    pub const KINEMATIC_VISCOSITY: Self = Self([2, 0, -1, 0, 0, 0, 0]);
    /// Pascal second.
    pub const DYNAMIC_VISCOSITY: Self = Self([-1, 1, -1, 0, 0, 0, 0]);
    /// Volt.
    pub const VOLTAGE: Self = Self([2, 1, -3, -1, 0, 0, 0]);
    /// Ohm.
    pub const RESISTANCE: Self = Self([2, 1, -3, -2, 0, 0, 0]);
    /// Coulomb.
    pub const CHARGE: Self = Self([0, 0, 1, 1, 0, 0, 0]);
    /// Joule a kilogram and kelvin.
    pub const SPECIFIC_HEAT: Self = Self([2, 0, -2, 0, -1, 0, 0]);

    /// To a whole power.
    #[must_use]
    pub fn powi(self, exponent: i32) -> Self {
        Self(self.0.map(|power| {
            let product = i32::from(power).saturating_mul(exponent);
            i8::try_from(product.clamp(-127, 127)).unwrap_or(0)
        }))
    }

    /// The product; `None` where its powers grow past what is kept: beyond that nothing is true any more.
    pub fn checked_mul(self, other: Self) -> Option<Self> {
        let product = self * other;
        (product / other == self && product / self == other).then_some(product)
    }

    /// The quotient, in the same way.
    pub fn checked_div(self, other: Self) -> Option<Self> {
        let quotient = self / other;
        (quotient * other == self).then_some(quotient)
    }

    /// The whole power, in the same way.
    pub fn checked_powi(self, exponent: i64) -> Option<Self> {
        let step = if exponent < 0 { Self::checked_div } else { Self::checked_mul };
        (0..exponent.abs()).try_fold(Self::NONE, |product, _| step(product, self))
    }

    /// The dimension of the square root; `None` when a power is odd.
    #[must_use]
    pub fn sqrt(self) -> Option<Self> {
        self.0.iter().all(|power| power % 2 == 0).then(|| Self(self.0.map(|power| power / 2)))
    }

    /// What a person calls it: `pressure`, `torque or energy`; without a name of its own, its powers:
    /// `length^2·mass`.
    pub fn name(self) -> String {
        match NAMES.iter().find(|(dimension, _)| *dimension == self) {
            Some((_, name)) => (*name).to_owned(),
            None => self.powers(),
        }
    }

    fn powers(self) -> String {
        let bases = ["length", "mass", "time", "current", "temperature", "angle", "money"];
        let powers = bases.iter().zip(self.0).filter(|(_, power)| *power != 0);
        let powers = powers.map(|(base, power)| match power {
            1 => (*base).to_owned(),
            _ => format!("{base}^{power}"),
        });
        powers.collect::<Vec<_>>().join("·")
    }
}

/// Dimensions that have a name in the trade.
const NAMES: &[(Dimension, &str)] = &[
    (Dimension::NONE, "plain number"),
    (Dimension::LENGTH, "length"),
    (Dimension::MASS, "mass"),
    (Dimension::TIME, "time"),
    (Dimension::CURRENT, "electric current"),
    (Dimension::TEMPERATURE, "temperature"),
    (Dimension::ANGLE, "angle"),
    (Dimension::MONEY, "money"),
    (Dimension::AREA, "area"),
    (Dimension::VOLUME, "volume"),
    (Dimension::SPEED, "speed"),
    (Dimension::ACCELERATION, "acceleration"),
    (Dimension::FORCE, "force"),
    (Dimension::TORQUE, "torque or energy"),
    (Dimension::PRESSURE, "pressure"),
    (Dimension::POWER, "power"),
    (Dimension::FLOW, "volume flow"),
    (Dimension::MASS_FLOW, "mass flow"),
    (Dimension::DENSITY, "density"),
    (Dimension::FREQUENCY, "frequency"),
    (Dimension::ROTATION, "rotational speed"),
    (Dimension::KINEMATIC_VISCOSITY, "kinematic viscosity"),
    (Dimension::DYNAMIC_VISCOSITY, "dynamic viscosity"),
    (Dimension::VOLTAGE, "voltage"),
    (Dimension::RESISTANCE, "electric resistance"),
    (Dimension::CHARGE, "electric charge"),
    (Dimension::SPECIFIC_HEAT, "specific heat"),
];

impl Mul for Dimension {
    type Output = Self;

    fn mul(self, other: Self) -> Self {
        let mut powers = self.0;
        for (power, added) in powers.iter_mut().zip(other.0) {
            *power = power.saturating_add(added).max(-127);
        }
        Self(powers)
    }
}

impl Div for Dimension {
    type Output = Self;

    fn div(self, other: Self) -> Self {
        self * other.powi(-1)
    }
}

impl fmt::Display for Dimension {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.name())
    }
}

/// Whether a quantity is a place on a scale or an amount.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kind {
    /// An amount: it can be added, doubled, halved. All quantities but temperatures on a scale.
    Difference,
    /// A temperature on a scale: two of them have a difference, never a sum.
    Point,
}
