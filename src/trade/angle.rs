//! Angles in degrees, through libm, so that every machine gives the same bits.

use std::f64::consts::PI;

pub(super) fn radians(degrees: f64) -> f64 {
    degrees / 180.0 * PI
}

pub(super) fn degrees(radians: f64) -> f64 {
    radians / PI * 180.0
}

pub(super) fn sin(degrees: f64) -> f64 {
    libm::sin(radians(degrees))
}

pub(super) fn cos(degrees: f64) -> f64 {
    libm::cos(radians(degrees))
}

pub(super) fn tan(degrees: f64) -> f64 {
    libm::tan(radians(degrees))
}

/// The angle of this cosine; rounding may have left it a little beyond 1.
pub(super) fn arc_cos(cosine: f64) -> f64 {
    degrees(libm::acos(cosine.clamp(-1.0, 1.0)))
}
