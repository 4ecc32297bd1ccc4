//! Where something stands in a text, in bytes, and values that know where they were written.

/// A half-open range of bytes in one source text.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// First byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

impl Span {
    /// The beginning of a text: where messages about all of it point.
    pub const START: Self = Self::new(0, 0);

    /// The bytes from `start` up to, not including, `end`.
    pub const fn new(start: usize, end: usize) -> Self {
        Self { start, end }
    }

    /// The same range, `base` bytes further on: from an inner text to the file that holds it.
    #[must_use]
    pub const fn shifted(self, base: usize) -> Self {
        Self::new(self.start + base, self.end + base)
    }

    /// The smallest range that covers both.
    #[must_use]
    pub fn to(self, other: Self) -> Self {
        Self::new(self.start.min(other.start), self.end.max(other.end))
    }
}

/// A value and where it was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spanned<T> {
    /// What was written.
    pub value: T,
    /// Where.
    pub span: Span,
}

impl<T> Spanned<T> {
    /// A value written at `span`.
    pub const fn new(value: T, span: Span) -> Self {
        Self { value, span }
    }
}
