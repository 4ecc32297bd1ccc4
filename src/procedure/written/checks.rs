use crate::quantity::Quantity;
use crate::source::Spanned;
use crate::table::{Fields, duration};

/// A check by another person, its role not followed yet.
#[derive(Clone, Debug)]
pub struct WrittenCheck {
    /// What is seen or measured.
    pub what: String,
    /// The role that checks.
    pub by: Spanned<String>,
    /// The break after which the same person may look again, where that is allowed.
    pub alone: Option<Quantity>,
}

/// `[checks]`: independent verification.
pub(super) fn check(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenCheck> {
    let what = fields.need_text("what", "the pins stand in the holes marked 2");
    let by = fields.need_text("by", "helper");
    let alone = duration(fields, "alone");
    Some(WrittenCheck { what: what?.value, by: by?, alone: alone.map(|time| time.value) })
}

/// A witness point, its role not followed yet.
#[derive(Clone, Debug)]
pub struct WrittenWitness {
    /// What is to be seen.
    pub what: String,
    /// The role that is called to see it.
    pub by: Spanned<String>,
}

/// `[witnesses]`.
pub(super) fn witness(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenWitness> {
    let what = fields.need_text("what", "the seal before it goes in");
    let by = fields.need_text("by", "helper");
    Some(WrittenWitness { what: what?.value, by: by? })
}
