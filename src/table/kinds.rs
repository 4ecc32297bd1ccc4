//! What kind of value stands under a key, and formulas as texts or as bare numbers.

use toml::de::DeValue;

use crate::source::Spanned;

/// A formula as it stands in the file; its span covers the words of the formula without quotes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wording {
    /// Written as a text: `"0.6 * supply"`.
    Formula(Spanned<String>),
    /// A number without a unit, written as a TOML number: `5`, `163.10`. The text is kept as typed, without
    /// underscores.
    Number(Spanned<String>),
}

impl Wording {
    /// The words and where they stand.
    pub const fn spanned(&self) -> &Spanned<String> {
        match self {
            Self::Formula(spanned) | Self::Number(spanned) => spanned,
        }
    }
}

/// What a TOML value is, in plain words.
pub(super) const fn described(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "a text",
        DeValue::Integer(_) | DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "`true` or `false`",
        DeValue::Datetime(_) => "a date or a time",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}
