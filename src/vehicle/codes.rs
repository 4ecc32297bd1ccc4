//! What can be wrong with a vehicle sheet besides its TOML.

use crate::source::Code;

/// All codes of this area, sorted by name; those of TOML itself are with the tables.
pub static CODES: &[&Code] = &[&ODOMETER_UNIT];

/// An odometer that counts neither kilometres nor miles.
pub static ODOMETER_UNIT: Code = Code {
    name: "odometer-unit",
    summary: "the odometer's unit is neither `km` nor `mi`",
    teaching: "\
The record carries the odometer's reading, and the next service is reckoned from it. Say what this vehicle's
odometer counts.

Wrong: `odometer_unit = \"kilometres\"`

Right: `odometer_unit = \"km\"`
",
};
