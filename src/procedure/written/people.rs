use crate::source::Spanned;
use crate::table::Fields;

/// A role, the role that checks it not followed yet.
#[derive(Clone, Debug)]
pub struct WrittenRole {
    /// What this person does.
    pub what: String,
    /// The role that checks and signs off.
    pub checked_by: Option<Spanned<String>>,
}

/// `[roles]`: who does what.
pub(super) fn role(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenRole> {
    let what = fields.need_text("what", "does the work, reads the gauges");
    let checked_by = fields.text("checked_by");
    Some(WrittenRole { what: what?.value, checked_by })
}
