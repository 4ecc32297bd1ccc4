use super::Quantity;

/// One end of what is acceptable.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Limit {
    /// Where it is.
    pub quantity: Quantity,
    /// Whether a value exactly on it is acceptable: so for `min` and `max`, not for `above` and `below`.
    pub inclusive: bool,
}

impl Limit {
    /// A limit that may be met exactly: a minimum or a maximum.
    pub fn inclusive(quantity: Quantity) -> Self {
        Self {
            quantity,
            inclusive: true,
        }
    }

    /// A limit that may not be met exactly: above it, or below it.
    pub fn exclusive(quantity: Quantity) -> Self {
        Self {
            quantity,
            inclusive: false,
        }
    }
}

/// What is acceptable: between two limits, on one side of one, or anything.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Limits {
    /// Not below this.
    pub lower: Option<Limit>,
    /// Not above this.
    pub upper: Option<Limit>,
}

impl Limits {
    /// At least this.
    pub fn min(quantity: Quantity) -> Self {
        Self {
            lower: Some(Limit::inclusive(quantity)),
            upper: None,
        }
    }

    /// At most this.
    pub fn max(quantity: Quantity) -> Self {
        Self {
            lower: None,
            upper: Some(Limit::inclusive(quantity)),
        }
    }

    /// More than this.
    pub fn above(quantity: Quantity) -> Self {
        Self {
            lower: Some(Limit::exclusive(quantity)),
            upper: None,
        }
    }

    /// Less than this.
    pub fn below(quantity: Quantity) -> Self {
        Self {
            lower: None,
            upper: Some(Limit::exclusive(quantity)),
        }
    }

    /// From one to the other, both included.
    pub fn between(least: Quantity, most: Quantity) -> Self {
        Self {
            lower: Some(Limit::inclusive(least)),
            upper: Some(Limit::inclusive(most)),
        }
    }

    /// Whether everything is acceptable.
    pub fn is_empty(&self) -> bool {
        self.lower.is_none() && self.upper.is_none()
    }
}
