use crate::table::{Fields, Wording};

/// A condition, its formula still a text.
#[derive(Clone, Debug)]
pub struct WrittenCondition {
    /// What must hold.
    pub formula: Wording,
    /// Why it matters.
    pub why: Option<String>,
}

/// `[conditions]`: IF.
pub(super) fn condition(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenCondition> {
    if fields.item("if").is_none() {
        fields.missing("if", "'pan_temp < 30 °C'");
    }
    let formula = fields.formula("if");
    let why = fields.text("why");
    Some(WrittenCondition { formula: formula?, why: why.map(|why| why.value) })
}
