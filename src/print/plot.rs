//! What was read over time, drawn: values upwards, time to the right, limits as lines.

use textwrap::core::display_width;

/// What was read over time.
#[derive(Clone, Debug, PartialEq)]
pub struct Plot {
    /// The unit of the values.
    pub unit: String,
    /// The day of the first.
    pub from: String,
    /// The day of the last.
    pub to: String,
    /// What was read, the oldest first.
    pub dots: Vec<Dot>,
    /// The limits as they stood.
    pub limits: Vec<Level>,
    /// The same in words.
    pub words: String,
}

/// A value in a plot.
#[derive(Clone, Debug, PartialEq)]
pub struct Dot {
    /// The fraction of the way from the first to the last.
    pub at: f64,
    /// The value.
    pub value: f64,
    /// As a person reads it.
    pub shown: String,
    /// Whether it fails.
    pub fails: bool,
    /// Of what, where several things are read side by side: only those of the same are joined.
    pub of: Option<String>,
}

/// A limit in a plot, as long as it stood.
#[derive(Clone, Debug, PartialEq)]
pub struct Level {
    /// From where, as for a dot.
    pub from: f64,
    /// To where.
    pub to: f64,
    /// The limit.
    pub value: f64,
    /// Which: `upper limit`.
    pub name: String,
    /// As a person reads it.
    pub shown: String,
}

/// Lines of a drawing in text.
const ROWS: usize = 9;
/// The widest that a drawing in text gets.
const WIDEST: usize = 60;
/// Below this nothing can be told apart any more: two days have to fit under it.
const NARROWEST: usize = 22;

impl Plot {
    /// From the lowest value or limit to the highest; a little room where all are the same.
    pub(super) fn range(&self) -> (f64, f64) {
        let all = || self.dots.iter().map(|dot| dot.value).chain(self.limits.iter().map(|limit| limit.value));
        let low = all().fold(f64::INFINITY, f64::min);
        let high = all().fold(f64::NEG_INFINITY, f64::max);
        if high > low { (low, high) } else { (low - 1.0, high + 1.0) }
    }

    /// The lowest value or limit and the highest, as a person reads them, each with its number.
    pub(super) fn ends(&self) -> [(f64, &str); 2] {
        let dots = self.dots.iter().map(|dot| (dot.value, dot.shown.as_str()));
        let all = dots.chain(self.limits.iter().map(|limit| (limit.value, limit.shown.as_str())));
        let all: Vec<(f64, &str)> = all.collect();
        let low = all.iter().copied().min_by(|one, other| one.0.total_cmp(&other.0));
        let high = all.iter().copied().max_by(|one, other| one.0.total_cmp(&other.0));
        [low.unwrap_or_default(), high.unwrap_or_default()]
    }

    /// ```text
    /// 6.5 mm |x
    ///        |
    ///   5 mm |-----------------------------
    ///        |
    /// 4.2 mm |              o             o
    ///        +-----------------------------
    ///         2026-10-12         2027-03-01
    ///        o passes or has no limit
    ///        x fails
    ///        - limit
    /// ```
    pub(super) fn drawn(&self, room: usize) -> Vec<String> {
        let mut labels: Vec<String> = vec![String::new(); ROWS];
        let limits = self.limits.iter().map(|limit| (limit.value, limit.shown.as_str()));
        for (value, shown) in limits.chain(self.ends()) {
            shown.clone_into(&mut labels[self.row(value)]);
        }
        let margin = labels.iter().map(|label| display_width(label)).max().unwrap_or_default();
        let width = room.saturating_sub(margin + 2).min(WIDEST);
        if width < NARROWEST {
            return Vec::new();
        }
        let marks = self.marks(width);
        let rows = labels.iter().zip(marks).map(|(label, marks)| {
            let line: String = marks.into_iter().collect();
            let before = " ".repeat(margin - display_width(label));
            format!("{before}{label} |{line}").trim_end().to_owned()
        });
        let below = " ".repeat(margin + 1);
        let between = " ".repeat(width.saturating_sub(display_width(&self.from) + display_width(&self.to)));
        let axis =
            [format!("{below}+{}", "-".repeat(width)), format!("{below} {}{between}{}", self.from, self.to)];
        rows.chain(axis).chain(self.legend().map(|words| format!("{below}{words}"))).collect()
    }

    fn legend(&self) -> impl Iterator<Item = &'static str> {
        let fails = self.dots.iter().any(|dot| dot.fails).then_some("x fails");
        let limits = (!self.limits.is_empty()).then_some("- limit");
        std::iter::once("o passes, or has no limit").chain(fails).chain(limits)
    }

    /// Of two at one place a failure is seen, else the later.
    fn marks(&self, width: usize) -> Vec<Vec<char>> {
        let mut marks = vec![vec![' '; width]; ROWS];
        let mut put = |row: usize, column: usize, mark: char| {
            if let Some(place) =
                marks.get_mut(row).and_then(|row| row.get_mut(column)).filter(|place| **place != 'x')
            {
                *place = mark;
            }
        };
        for limit in &self.limits {
            for at in column(limit.from, width)..=column(limit.to, width) {
                put(self.row(limit.value), at, '-');
            }
        }
        for dot in &self.dots {
            put(self.row(dot.value), column(dot.at, width), if dot.fails { 'x' } else { 'o' });
        }
        marks
    }

    fn row(&self, value: f64) -> usize {
        let (low, high) = self.range();
        ROWS - 1 - column((value - low) / (high - low), ROWS)
    }
}

/// The place of a fraction among so many.
fn column(at: f64, width: usize) -> usize {
    #[expect(clippy::cast_precision_loss, reason = "columns of a page")]
    let place = (at.clamp(0.0, 1.0) * (width.saturating_sub(1)) as f64).round();
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and the width")]
    let place = place as usize;
    place
}
