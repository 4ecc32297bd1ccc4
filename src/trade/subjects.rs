//! All subjects of the trade, and the functions of each.

use super::Function;
use super::air::AIR;
use super::converter::CONVERTER;
use super::cooler::COOLER;
use super::driveline::DRIVELINE;
use super::evidence::EVIDENCE;
use super::fasteners::FASTENERS;
use super::fluid::FLUID;
use super::measurement::MEASUREMENT;
use super::support::SUPPORT;
use super::upkeep::MONEY_AND_TIME;

/// The functions about one thing, in the order in which they are listed.
#[derive(Clone, Copy, Debug)]
pub struct Subject {
    /// What they are about, in one or two words: "cooler".
    pub name: &'static str,
    /// The functions.
    pub functions: &'static [Function],
}

/// Every subject of the trade, sorted by name.
pub const SUBJECTS: &[Subject] =
    &[AIR, CONVERTER, COOLER, DRIVELINE, EVIDENCE, FASTENERS, FLUID, MEASUREMENT, MONEY_AND_TIME, SUPPORT];
