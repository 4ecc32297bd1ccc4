//! The table of this subject, and what its rows share.

use super::{grade, preload, thread, tool, wrench};
use crate::trade::Subject;

/// The functions about fasteners.
pub const FASTENERS: Subject = Subject {
    name: "fasteners",
    functions: &[
        wrench::SETTING,
        wrench::SETTING_AT_ANGLE,
        wrench::AT_FASTENER,
        preload::PRELOAD,
        preload::TORQUE_FOR_PRELOAD,
        thread::STRESS_AREA,
        thread::STRESS_AREA_INCH,
        grade::PROOF_LOAD,
        grade::ULTIMATE_LOAD,
        tool::TOLERANCE,
        tool::LOWEST,
    ],
};
