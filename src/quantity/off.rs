//! By how much an instrument read too high or too low, and what was there when it read what it did.

use std::fmt;

use super::{Dimension, Kind, Num, Quantity, parse_typed};

/// By how much an instrument read too high, or too low below zero.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Off {
    /// By this share of what was there: 0.08 where it read 8 % high.
    Share(Num),
    /// By this much, whatever was there.
    Amount(Quantity),
}

impl Off {
    /// Reads `+8 %`, `-0.5 bar`: with `+` it read high, with `-` low.
    ///
    /// ```
    /// use bayhand::quantity::{Off, parse_literal};
    ///
    /// let off = Off::parse("+8 %").unwrap();
    /// assert_eq!(off.to_string(), "read 8 % high");
    /// assert_eq!(off.corrected(&parse_literal("54 N·m").unwrap()).unwrap(), parse_literal("50 N·m").unwrap());
    /// ```
    ///
    /// # Errors
    /// What is wrong with the text, with the way out.
    pub fn parse(text: &str) -> Result<Self, String> {
        let text = text.trim();
        let (high, rest) = match text.strip_prefix('+') {
            Some(rest) => (true, rest),
            None => match text.strip_prefix(['-', '\u{2212}']) {
                Some(rest) => (false, rest),
                None => {
                    return Err(
                        "say which way it was off: `+8 %` where it read high, `-8 %` where it read low"
                            .to_owned(),
                    );
                }
            },
        };
        let typed = parse_typed(rest).map_err(|problem| problem.to_string())?;
        if typed.number <= Num::ZERO {
            return Err("an error has one sign in front, and is not nothing: `+8 %`, `-0.5 bar`".to_owned());
        }
        let number = if high { typed.number } else { -typed.number };
        let off = Quantity::new(number, typed.unit.as_difference());
        if off.unit.dimension() != Dimension::NONE {
            return Ok(Self::Amount(off));
        }
        if off.unit.symbol().is_empty() {
            return Err(
                "this has no unit: give a share of what it read, `+8 %`, or an amount, `+0.5 bar`".to_owned()
            );
        }
        let share = off.base();
        if Num::ONE + share <= Num::ZERO {
            return Err(
                "an instrument that reads nothing at all has no error that can be taken out".to_owned()
            );
        }
        Ok(Self::Share(share))
    }

    /// What was there when it read this, exactly.
    ///
    /// # Errors
    /// Why such an error does not fit what was read.
    pub fn corrected(&self, read: &Quantity) -> Result<Quantity, String> {
        let number = match self {
            Self::Share(_) if read.kind() == Kind::Point => {
                return Err(
                    "a share of a temperature means nothing; give the error in degrees, such as `+2 °C`"
                        .to_owned(),
                );
            }
            // It is above zero: `parse` saw to that.
            Self::Share(share) => read.number.checked_div(Num::ONE + *share).unwrap_or(read.number),
            Self::Amount(amount) => {
                let amount =
                    amount.in_unit(&read.unit.as_difference()).map_err(|mismatch| mismatch.to_string())?;
                read.number - amount.number
            }
        };
        Ok(Quantity::new(number, read.unit.clone()))
    }

    /// How what was there comes out of what was read, in words.
    pub fn way(&self) -> String {
        match self {
            Self::Share(share) => {
                format!("what was there is what was read, divided by {}", (Num::ONE + *share).shown())
            }
            Self::Amount(amount) => {
                let word = if amount.number.is_negative() { "plus" } else { "less" };
                format!("what was there is what was read, {word} {}", size(amount))
            }
        }
    }
}

/// `read 8 % high`, `read 0.5 bar low`.
impl fmt::Display for Off {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (size, low) = match self {
            Self::Share(share) => {
                (format!("{} %", (share.abs() * Num::from(100)).shown()), share.is_negative())
            }
            Self::Amount(amount) => (size(amount), amount.number.is_negative()),
        };
        write!(out, "read {size} {}", if low { "low" } else { "high" })
    }
}

fn size(amount: &Quantity) -> String {
    Quantity::new(amount.number.abs(), amount.unit.clone()).to_string().replace('\u{394}', "")
}
