use crate::procedure::Role;
use crate::table::Fields;

/// `[roles]`: who does what.
pub(super) fn role(fields: &mut Fields<'_, '_, '_>) -> Option<Role> {
    let what = fields.need_text("what", "does the work, reads the gauges")?;
    Some(Role { what: what.value })
}
