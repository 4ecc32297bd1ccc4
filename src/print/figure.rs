//! Drawings: where a result fell between its limits, and how it moved from pass to pass.

use textwrap::core::display_width;

use super::plot::Plot;

/// A drawing.
#[derive(Clone, Debug, PartialEq)]
pub enum Figure {
    /// Where a result fell.
    Gauge(Gauge),
    /// How results moved.
    Trend(Trend),
    /// What was read over time.
    Plot(Plot),
}

/// Where a result fell between its limits.
#[derive(Clone, Debug, PartialEq)]
pub struct Gauge {
    /// The lower limit as a person reads it.
    pub lower: Option<String>,
    /// The upper limit.
    pub upper: Option<String>,
    /// The fraction of the way from the lower end to the upper.
    pub at: f64,
    /// Whether it is within the limits: this decides on which side of a limit the mark stands.
    pub within: bool,
    /// The same in words.
    pub words: String,
}

/// Results over passes.
#[derive(Clone, Debug, PartialEq)]
pub struct Trend {
    /// The results, in order.
    pub points: Vec<Point>,
    /// The same in words.
    pub words: String,
}

/// A result in a trend.
#[derive(Clone, Debug, PartialEq)]
pub struct Point {
    /// The result as a person reads it.
    pub shown: String,
    /// The fraction of the way from the lowest result to the highest.
    pub at: f64,
}

/// The widest a line gets between its limits.
const WIDEST: usize = 30;
/// Below this nothing can be told apart any more.
const NARROWEST: usize = 9;

impl Figure {
    /// The drawing as lines of text no wider than `room`; none where there is no room for it.
    pub(super) fn drawn(&self, room: usize) -> Vec<String> {
        match self {
            Self::Gauge(gauge) => gauge.drawn(room).into_iter().collect(),
            Self::Trend(trend) => trend.drawn(room).into_iter().collect(),
            Self::Plot(plot) => plot.drawn(room),
        }
    }

    /// What it shows, in words.
    pub fn words(&self) -> &str {
        match self {
            Self::Gauge(gauge) => &gauge.words,
            Self::Trend(trend) => &trend.words,
            Self::Plot(plot) => &plot.words,
        }
    }
}

impl Gauge {
    /// ```text
    /// 45 |-----------o----| 55     45 |----------------| 55  o     o  45 |-----------
    /// ```
    fn drawn(&self, room: usize) -> Option<String> {
        let left = self.lower.as_deref().unwrap_or_default();
        let right = self.upper.as_deref().unwrap_or_default();
        let width = track(room, left, right)?;
        let line = if self.within { marks(width, &[('o', self.at)]) } else { "-".repeat(width) };
        let (open, close) =
            (if self.lower.is_some() { "|" } else { "<" }, if self.upper.is_some() { "|" } else { ">" });
        let line = format!("{left} {open}{line}{close} {right}");
        let line = match (self.within, self.at < 0.5) {
            (true, _) => line,
            (false, true) => format!("o  {line}"),
            (false, false) => format!("{line}  o"),
        };
        Some(line.trim().to_owned())
    }
}

impl Trend {
    /// The passes by their numbers between the lowest result and the highest: `26.5 s |2-------1| 27 s`. Of two at one place
    /// the later is seen, and more than nine are told in words only.
    fn drawn(&self, room: usize) -> Option<String> {
        let lowest = self.points.iter().min_by(|one, other| one.at.total_cmp(&other.at))?;
        let highest = self.points.iter().max_by(|one, other| one.at.total_cmp(&other.at))?;
        let width = track(room, &lowest.shown, &highest.shown)?;
        let digits = "123456789".chars();
        if self.points.len() > digits.clone().count() {
            return None;
        }
        let marked: Vec<(char, f64)> = digits.zip(self.points.iter().map(|point| point.at)).collect();
        Some(format!("{} |{}| {}", lowest.shown, marks(width, &marked), highest.shown))
    }
}

/// How long the line between two ends is: the ends, two spaces and a mark on each side need room too.
fn track(room: usize, left: &str, right: &str) -> Option<usize> {
    let width = room.checked_sub(display_width(left) + display_width(right) + 10)?.min(WIDEST);
    (width >= NARROWEST).then_some(width)
}

/// A line with marks at fractions of it.
fn marks(width: usize, marks: &[(char, f64)]) -> String {
    let mut line = vec!['-'; width];
    for (mark, at) in marks {
        #[expect(clippy::cast_precision_loss, reason = "columns of a page")]
        let column = at.clamp(0.0, 1.0) * (width - 1) as f64;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between 0 and the width"
        )]
        let column = column as usize;
        if let Some(place) = line.get_mut(column) {
            *place = *mark;
        }
    }
    line.into_iter().collect()
}
