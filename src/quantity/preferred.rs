//! The units that a person reads best.

use std::fmt;

use super::{Unit, UnknownUnit};

/// Units that stand beside those that are asked for, where they measure the same.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Preferred(Vec<Unit>);

impl Preferred {
    /// Reads units with spaces or commas between them: `psi, °F, qt`.
    ///
    /// # Errors
    /// The first that is no unit.
    pub fn parse(text: &str) -> Result<Self, UnknownUnit> {
        let symbols = text.split([',', ' ']).map(str::trim).filter(|symbol| !symbol.is_empty());
        symbols.map(Unit::parse).collect::<Result<_, _>>().map(Self)
    }

    /// The preferred unit for what is asked for in this one; nothing where it is the same, or none is preferred.
    pub fn beside(&self, asked: &Unit) -> Option<&Unit> {
        let found = self.0.iter().find(|unit| unit.is_of_the_kind_of(asked))?;
        (found != asked).then_some(found)
    }
}

impl fmt::Display for Preferred {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let symbols: Vec<&str> = self.0.iter().map(Unit::symbol).collect();
        out.write_str(&symbols.join(", "))
    }
}
