//! What can be asked of the passes of a repeat: `mean(engage)`, `before(pan_temp)`, `spread(pan_temp, last = 3)`.
//!
//! One bare name stands for the values that it had in each pass that counts. The functions that put several values
//! together do so with those; they stand in the table of arithmetic, since `mean(1 L, 2 L)` is one of them. The
//! others make no sense without passes and stand here.

use super::functions;
use super::tree::{Argument, Call};
use crate::trade::Function;

/// The argument that says how many of the newest passes are looked at.
pub(super) const LAST: &str = "last";
/// What the functions of several values call them.
const VALUES: &str = "values";

/// The functions of several values that go over the passes of a single name.
const FOLDS: [&str; 6] = ["max", "mean", "min", "spread", "standard_deviation", "sum"];

/// The functions that there are over passes only.
const PASSES_ONLY: [Over; 4] = [Over::Before, Over::Count, Over::First, Over::Last];

/// What is made of the values that a name had in its passes.
#[derive(Clone, Copy, Debug)]
pub(super) enum Over {
    /// The value in the pass before the newest one.
    Before,
    /// How many there are.
    Count,
    /// The oldest.
    First,
    /// The newest.
    Last,
    /// What a function of several values makes of them.
    Fold(&'static Function),
}

impl Over {
    /// What a call asks of passes; `None` when it asks for something else.
    pub(super) fn of(call: &Call) -> Option<Self> {
        let name = call.function.value.as_str();
        if let Some(only) = Self::only(name) {
            return Some(only);
        }
        let function = functions::find(name).filter(|_| FOLDS.contains(&name))?;
        (asks_for_newest(call) || has_one_value(call)).then_some(Self::Fold(function))
    }

    /// The function of this name that there is over passes only.
    pub(super) fn only(name: &str) -> Option<Self> {
        PASSES_ONLY.into_iter().find(|over| over.name() == name)
    }

    /// The names of the functions that there are over passes only.
    pub(super) fn names() -> impl Iterator<Item = &'static str> {
        PASSES_ONLY.into_iter().map(Self::name)
    }

    pub(super) fn name(self) -> &'static str {
        match self {
            Self::Before => "before",
            Self::Count => "count",
            Self::First => "first",
            Self::Last => "last",
            Self::Fold(function) => function.name,
        }
    }

    /// The call to copy: `before(pan_temp)`.
    pub(super) fn signature(self) -> String {
        let newest = if self.takes_newest() { ", last = 3" } else { "" };
        format!("{}(pan_temp{newest})", self.name())
    }

    /// Whether the number of the newest passes can be given.
    pub(super) fn takes_newest(self) -> bool {
        matches!(self, Self::Count | Self::Fold(_))
    }

    /// How many of the newest values it looks at where none is said.
    pub(super) fn looks_at(self) -> usize {
        match self {
            Self::Last => 1,
            Self::Before => 2,
            Self::Count | Self::First | Self::Fold(_) => usize::MAX,
        }
    }

    /// How many values there must be.
    pub(super) fn needs(self) -> usize {
        match self {
            Self::Count => 0,
            Self::First | Self::Last | Self::Fold(_) => 1,
            Self::Before => 2,
        }
    }
}

/// Whether an argument is a value, not an option with a name.
pub(super) fn is_value(argument: &Argument) -> bool {
    argument.name.as_ref().is_none_or(|name| name.value == VALUES)
}

fn asks_for_newest(call: &Call) -> bool {
    call.arguments.iter().any(|argument| argument.name.as_ref().is_some_and(|name| name.value == LAST))
}

/// One value alone is no several values: what is meant is that value in each pass.
fn has_one_value(call: &Call) -> bool {
    call.arguments.iter().filter(|argument| is_value(argument)).count() == 1
}
