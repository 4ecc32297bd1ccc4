//! What several functions of this subject take and say.

use crate::trade::{Parameter, Sort};

pub(super) const VOLUME: Parameter = Parameter::amount("volume", "m³", "the volume of the bay").above("0");
pub(super) const FLOW: Parameter =
    Parameter::amount("flow", "m³/h", "the fresh air that is moved through it; 0 m³/h in a closed bay")
        .at_least("0");
pub(super) const FROM: Parameter =
    Parameter::new("from", Sort::SameAmount, "the level at the start").above("0");
pub(super) const TO: Parameter =
    Parameter::new("to", Sort::SameAmount, "the level to come down to").above("0");
/// Without a default on purpose: full mixing is the hopeful end, and only the person sees the room.
pub(super) const MIXING: Parameter = Parameter::number(
    "mixing",
    "how well the fresh air mixes with the old: 1 fully, commonly 0.1 to 0.3 in a room with dead corners",
)
.above("0")
.at_most("1");

pub(super) const METER: &str = "a meter at breathing height decides, not this estimate";
pub(super) const FRESH: &str = "the incoming air is clean, and no more of the gas comes in";
pub(super) const DECAY: &str = "dilution of a mixed room: C = C0·exp(-K·Q·t/V)";
