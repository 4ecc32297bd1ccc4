//! A reading as written: its names not followed, its formulas still texts.

use jiff::civil::Date;

use super::criterion::WrittenCriterion;
use super::handling::WrittenHandling;
use crate::procedure::{CountsAs, Instead, Sides};
use crate::quantity::{Quantity, Unit};
use crate::source::Spanned;
use crate::trade::measurement::Rule;

/// A reading whose names are not followed and whose formulas are not read yet.
#[derive(Clone, Debug)]
pub struct WrittenReading {
    /// What is read.
    pub what: String,
    /// Why it is read.
    pub why: Option<String>,
    /// What sort of answer is expected.
    pub kind: WrittenKind,
    /// The name of the tool it is taken with.
    pub instrument: Option<Spanned<String>>,
    /// Whether it is a time that can be taken here, with a key.
    pub stopwatch: bool,
    /// What to do when it fails.
    pub fails: Option<String>,
    /// What to do when it is too low, or too high.
    pub sides: Sides,
    /// Where the limits come from.
    pub source: Option<String>,
    /// Who reads it a second time.
    pub second: Option<WrittenSecond>,
    /// What it must never pass, and whether it is read before or after an adjustment.
    pub handling: WrittenHandling,
    /// What can come out in place of a value.
    pub instead: Vec<Instead>,
}

/// What sort of answer a reading expects.
#[derive(Clone, Debug)]
#[expect(clippy::large_enum_variant, reason = "a file has some dozens of readings, and most are quantities")]
pub enum WrittenKind {
    /// A number with a unit.
    Quantity {
        /// The unit that is asked for.
        unit: Spanned<Unit>,
        /// The range outside which a slip of the finger is likely.
        plausible: Option<(Spanned<Quantity>, Spanned<Quantity>)>,
        /// How it is judged.
        criterion: WrittenCriterion,
        /// What the instrument's accuracy has to do with the verdict.
        rule: Spanned<Rule>,
    },
    /// A whole number of things.
    Count(WrittenCriterion),
    /// One of these.
    Choice {
        /// All of them.
        choices: Vec<String>,
        /// The good ones.
        accept: Option<Vec<String>>,
    },
    /// Free text.
    Text,
    /// Names, with commas between them: at least so many.
    List(usize),
    /// A photo or another file.
    File,
    /// A date.
    Date {
        /// The first good day.
        earliest: Option<Date>,
        /// The last good day.
        latest: Option<Date>,
    },
}

/// A second reading, the role that takes it not followed yet.
#[derive(Clone, Debug)]
pub struct WrittenSecond {
    /// The role that reads it again.
    pub by: Spanned<String>,
    /// By how much two quantities may differ.
    pub agree: Option<Quantity>,
}

impl WrittenReading {
    /// Whether an outcome in place of its value fails.
    pub(in crate::procedure) fn has_failing_outcome(&self) -> bool {
        self.instead.iter().any(|outcome| outcome.counts == CountsAs::Fail)
    }
}
