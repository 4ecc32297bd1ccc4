//! Where a reading fell between its limits, as one line.
//!
//! The numbers themselves stand on a line, each where it belongs. The line is solid where readings are
//! wanted and dotted where they are not; the reading stands in brackets, a target in parentheses:
//!
//! ```text
//! ········ 45 ━━━━━━━━━━━━ [52.2] ━━━ 55 ········
//! ```
//!
//! In linear output the same is told as a sentence.

mod placing;
mod scale;

use placing::{Token, place};
use scale::Scale;

use super::{Line, Role};

/// The widest a gauge gets: on a wide screen the eye would lose the line.
const WIDEST: usize = 64;

/// A number on the line.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Where it stands, in any unit that all marks of the gauge share.
    pub at: f64,
    /// How it is written: `55`, `55 N·m`.
    pub label: String,
}

impl Mark {
    /// A number and how it is written.
    pub fn new(at: f64, label: impl Into<String>) -> Self {
        Self { at, label: label.into() }
    }
}

/// How the reading was judged. The judgement is exact and made elsewhere; the drawing follows it and never
/// decides by its own, rounded, positions.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fell {
    /// It is accepted.
    Inside,
    /// It is on the wrong side of the lower limit.
    Below,
    /// It is on the wrong side of the upper limit.
    Above,
}

/// A reading beside its limits.
#[derive(Debug, Clone, PartialEq)]
pub struct Gauge {
    /// The reading.
    pub reading: Mark,
    /// How it was judged.
    pub fell: Fell,
    /// The lower limit.
    pub lower: Option<Mark>,
    /// The upper limit.
    pub upper: Option<Mark>,
    /// The target between them.
    pub target: Option<Mark>,
    /// How far it is from the limit, for the sentence: `2.8 below the maximum`. May be empty.
    pub distance: String,
}

impl Gauge {
    /// A reading without limits yet.
    pub fn new(reading: Mark, fell: Fell) -> Self {
        Self { reading, fell, lower: None, upper: None, target: None, distance: String::new() }
    }

    /// The same gauge with a lower limit.
    #[must_use]
    pub fn lower(self, mark: Mark) -> Self {
        Self { lower: Some(mark), ..self }
    }

    /// The same gauge with an upper limit.
    #[must_use]
    pub fn upper(self, mark: Mark) -> Self {
        Self { upper: Some(mark), ..self }
    }

    /// The same gauge with a target.
    #[must_use]
    pub fn target(self, mark: Mark) -> Self {
        Self { target: Some(mark), ..self }
    }

    /// The same gauge with the words that say how far the reading is from a limit.
    #[must_use]
    pub fn distance(self, words: impl Into<String>) -> Self {
        Self { distance: words.into(), ..self }
    }

    /// The sentence: `52.2 is between 45 and 55, 2.8 below the maximum`.
    pub fn words(&self) -> String {
        let target =
            self.target.as_ref().map(|target| format!(" (target {})", target.label)).unwrap_or_default();
        let comma = if self.distance.is_empty() { "" } else { ", " };
        format!("{} is {}{target}{comma}{}", self.reading.label, self.relation(), self.distance)
    }

    fn relation(&self) -> String {
        match (self.fell, &self.lower, &self.upper) {
            (Fell::Inside, Some(lower), Some(upper)) => {
                format!("between {} and {}", lower.label, upper.label)
            }
            (Fell::Inside, Some(lower), None) => format!("inside the lower limit {}", lower.label),
            (Fell::Inside, None, Some(upper)) => format!("inside the upper limit {}", upper.label),
            (Fell::Below, Some(lower), _) => format!("outside the lower limit {}", lower.label),
            (Fell::Above, _, Some(upper)) => format!("outside the upper limit {}", upper.label),
            (Fell::Inside, None, None) => "without a limit".into(),
            (Fell::Below | Fell::Above, _, _) => "outside its limits".into(),
        }
    }

    /// What linear output adds to the verdict, which stands on a line of its own: how far it is from a limit, where that
    /// line does not say it.
    pub(super) fn added(&self) -> Option<Line> {
        (!self.distance.is_empty()).then(|| Line::new().with(self.role(), &self.distance).indent(2).hang(2))
    }

    /// The sentence as a line.
    pub(super) fn told(&self) -> Line {
        Line::new().with(self.role(), self.words()).hang(2)
    }

    /// The drawing as a line, or the sentence where there is nothing to draw or no room for it.
    pub(super) fn drawn(&self, width: usize) -> Line {
        let width = width.min(WIDEST);
        let all = self.tokens();
        let without_target = || all.iter().filter(|token| !token.is_target()).cloned().collect::<Vec<_>>();
        place(&all, width).or_else(|| place(&without_target(), width)).unwrap_or_else(|| self.told())
    }

    fn role(&self) -> Role {
        match self.fell {
            Fell::Inside => Role::Good,
            Fell::Below | Fell::Above => Role::Bad,
        }
    }

    /// What stands on the line, from left to right. Nothing when a position is not a number.
    fn tokens(&self) -> Vec<Token> {
        let Some(scale) = Scale::of(self) else {
            return Vec::new();
        };
        let mut tokens: Vec<Token> = Vec::new();
        tokens.extend(self.lower.as_ref().map(|mark| Token::lower(mark, scale.place(mark.at))));
        tokens.extend(self.target.as_ref().map(|mark| Token::target(mark, scale.place(mark.at))));
        tokens.extend(self.upper.as_ref().map(|mark| Token::upper(mark, scale.place(mark.at))));
        let reading = Token::reading(&self.reading, scale.place(self.reading.at), self.role());
        tokens.insert(self.order(), reading);
        tokens
    }

    /// How many tokens stand left of the reading.
    fn order(&self) -> usize {
        let lower = usize::from(self.lower.is_some());
        let target = usize::from(self.target.as_ref().is_some_and(|target| target.at <= self.reading.at));
        match self.fell {
            Fell::Below => 0,
            Fell::Inside => lower + target,
            Fell::Above => lower + usize::from(self.target.is_some()) + usize::from(self.upper.is_some()),
        }
    }
}
