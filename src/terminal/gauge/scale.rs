//! Which part of the number line a gauge shows.

use super::{Gauge, Mark};

/// The part of the number line that is shown.
#[derive(Clone, Copy)]
pub(super) struct Scale {
    start: f64,
    span: f64,
}

impl Scale {
    /// The wanted range in the middle three fifths. One limit alone gives no range; then its own size is the
    /// measure. Nothing without a limit, or when a position is not a number.
    pub(super) fn of(gauge: &Gauge) -> Option<Self> {
        let marks = [Some(&gauge.reading), gauge.lower.as_ref(), gauge.upper.as_ref(), gauge.target.as_ref()];
        if marks.into_iter().flatten().any(|mark| !mark.at.is_finite()) {
            return None;
        }
        match (&gauge.lower, &gauge.upper) {
            (Some(lower), Some(upper)) => Some(Self::between(lower.at, upper.at)),
            (Some(lower), None) => {
                let size = size(lower, &gauge.reading);
                Some(Self { start: lower.at - size / 3.0, span: size * 4.0 / 3.0 })
            }
            (None, Some(upper)) => {
                let size = size(upper, &gauge.reading);
                Some(Self { start: upper.at - size, span: size * 4.0 / 3.0 })
            }
            (None, None) => None,
        }
    }

    fn between(lower: f64, upper: f64) -> Self {
        let wanted = upper - lower;
        Self { start: lower - wanted / 3.0, span: wanted * 5.0 / 3.0 }
    }

    /// The place as a fraction of the line; below 0 and above 1 it lies beyond the ends.
    pub(super) fn place(self, at: f64) -> f64 {
        if self.span > 0.0 { (at - self.start) / self.span } else { 0.5 }
    }
}

/// How large numbers are here: the limit, or the reading where the limit is zero.
fn size(limit: &Mark, reading: &Mark) -> f64 {
    [limit.at.abs(), reading.at.abs()].into_iter().find(|size| *size > 0.0).unwrap_or(1.0)
}
