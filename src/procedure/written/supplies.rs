use crate::table::{Fields, Wording};

/// A material or a part, its amount still a text.
#[derive(Clone, Debug)]
pub struct WrittenSupply {
    /// What it is.
    pub what: String,
    /// How much or how many.
    pub amount: Option<Wording>,
}

/// `[materials]` and `[parts]`.
pub(super) fn supply(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenSupply> {
    let what = fields.need_text("what", "fresh transmission fluid");
    let amount = fields.formula("amount");
    Some(WrittenSupply { what: what?.value, amount })
}
