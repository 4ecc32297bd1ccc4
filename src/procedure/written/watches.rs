use super::criterion::{WrittenCriterion, criterion};
use super::readings::limits_missing;
use crate::quantity::Unit;
use crate::source::Spanned;
use crate::table::{Fields, unit};

/// A limit that stays in force over several steps, its names not followed yet.
#[derive(Clone, Debug)]
pub struct WrittenWatch {
    /// What is watched.
    pub what: String,
    /// The readings that are judged by it.
    pub readings: Vec<Spanned<String>>,
    /// The unit of its limits.
    pub unit: Spanned<Unit>,
    /// The limits.
    pub criterion: WrittenCriterion,
}

/// `[watches]`.
pub(super) fn watch(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenWatch> {
    let what = fields.need_text("what", "the fluid stays below 40 °C");
    if fields.item("readings").is_none() {
        fields.missing("readings", "[\"fluid_temp\"]");
    }
    let readings = fields.texts("readings");
    if fields.item("unit").is_none() {
        fields.missing("unit", "\"°C\"");
    }
    let unit = unit(fields, "unit");
    let criterion = criterion(fields);
    if criterion.is_none() {
        limits_missing(fields, "add `below = \"40 °C\"` or another limit");
    }
    Some(WrittenWatch { what: what?.value, readings: readings?.value, unit: unit?, criterion: criterion? })
}
