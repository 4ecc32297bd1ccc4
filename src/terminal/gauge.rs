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

use placing::{Token, place};

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
        Self {
            at,
            label: label.into(),
        }
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
        Self {
            reading,
            fell,
            lower: None,
            upper: None,
            target: None,
            distance: String::new(),
        }
    }

    /// The same gauge with a lower limit.
    #[must_use]
    pub fn lower(self, mark: Mark) -> Self {
        Self {
            lower: Some(mark),
            ..self
        }
    }

    /// The same gauge with an upper limit.
    #[must_use]
    pub fn upper(self, mark: Mark) -> Self {
        Self {
            upper: Some(mark),
            ..self
        }
    }

    /// The same gauge with a target.
    #[must_use]
    pub fn target(self, mark: Mark) -> Self {
        Self {
            target: Some(mark),
            ..self
        }
    }

    /// The same gauge with the words that say how far the reading is from a limit.
    #[must_use]
    pub fn distance(self, words: impl Into<String>) -> Self {
        Self {
            distance: words.into(),
            ..self
        }
    }

    /// The sentence: `52.2 is between 45 and 55, 2.8 below the maximum`.
    pub fn words(&self) -> String {
        let target = self
            .target
            .as_ref()
            .map(|target| format!(" (target {})", target.label))
            .unwrap_or_default();
        let comma = if self.distance.is_empty() { "" } else { ", " };
        format!(
            "{} is {}{target}{comma}{}",
            self.reading.label,
            self.relation(),
            self.distance
        )
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

    /// The sentence as a line.
    pub(super) fn told(&self) -> Line {
        Line::new().with(self.role(), self.words()).hang(2)
    }

    /// The drawing as a line, or the sentence where there is nothing to draw or no room for it.
    pub(super) fn drawn(&self, width: usize) -> Line {
        let width = width.min(WIDEST);
        let all = self.tokens();
        let without_target = || {
            all.iter()
                .filter(|token| !token.is_target())
                .cloned()
                .collect::<Vec<_>>()
        };
        place(&all, width)
            .or_else(|| place(&without_target(), width))
            .unwrap_or_else(|| self.told())
    }

    fn role(&self) -> Role {
        match self.fell {
            Fell::Inside => Role::Good,
            Fell::Below | Fell::Above => Role::Bad,
        }
    }

    /// What stands on the line, from left to right. Nothing when a position is not a number.
    fn tokens(&self) -> Vec<Token> {
        let Some(scale) = self.scale() else {
            return Vec::new();
        };
        let mut tokens: Vec<Token> = Vec::new();
        tokens.extend(
            self.lower
                .as_ref()
                .map(|mark| Token::lower(mark, scale.place(mark.at))),
        );
        tokens.extend(
            self.target
                .as_ref()
                .map(|mark| Token::target(mark, scale.place(mark.at))),
        );
        tokens.extend(
            self.upper
                .as_ref()
                .map(|mark| Token::upper(mark, scale.place(mark.at))),
        );
        let reading = Token::reading(&self.reading, scale.place(self.reading.at), self.role());
        tokens.insert(self.order(), reading);
        tokens
    }

    /// How many tokens stand left of the reading.
    fn order(&self) -> usize {
        let lower = usize::from(self.lower.is_some());
        let target = usize::from(
            self.target
                .as_ref()
                .is_some_and(|target| target.at <= self.reading.at),
        );
        match self.fell {
            Fell::Below => 0,
            Fell::Inside => lower + target,
            Fell::Above => lower + usize::from(self.target.is_some()) + usize::from(self.upper.is_some()),
        }
    }

    /// The part of the number line that is shown: the wanted range in the middle three fifths. One limit alone
    /// gives no range; then its own size is the measure.
    fn scale(&self) -> Option<Scale> {
        let marks = [
            Some(&self.reading),
            self.lower.as_ref(),
            self.upper.as_ref(),
            self.target.as_ref(),
        ];
        if marks.into_iter().flatten().any(|mark| !mark.at.is_finite()) {
            return None;
        }
        let (start, span) = match (&self.lower, &self.upper) {
            (Some(lower), Some(upper)) => (
                lower.at - (upper.at - lower.at) / 3.0,
                (upper.at - lower.at) * 5.0 / 3.0,
            ),
            (Some(lower), None) => (
                lower.at - self.measure(lower) / 3.0,
                self.measure(lower) * 4.0 / 3.0,
            ),
            (None, Some(upper)) => (upper.at - self.measure(upper), self.measure(upper) * 4.0 / 3.0),
            (None, None) => return None,
        };
        Some(Scale { start, span })
    }

    fn measure(&self, limit: &Mark) -> f64 {
        [limit.at.abs(), self.reading.at.abs()]
            .into_iter()
            .find(|size| *size > 0.0)
            .unwrap_or(1.0)
    }
}

/// The part of the number line that is shown.
#[derive(Clone, Copy)]
struct Scale {
    start: f64,
    span: f64,
}

impl Scale {
    /// The place as a fraction of the line; below 0 and above 1 it lies beyond the ends.
    fn place(self, at: f64) -> f64 {
        if self.span > 0.0 {
            (at - self.start) / self.span
        } else {
            0.5
        }
    }
}
