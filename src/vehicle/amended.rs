//! A sheet with values put in: its text otherwise stays as it is.

use crate::source::SourceText;

/// A value to be put into a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PutIn {
    /// What the sheet calls it.
    pub name: String,
    /// As it would be typed.
    pub value: String,
    /// Where it is from.
    pub source: String,
}

/// The text of a sheet with these values in the place of what it says of them itself; `remark` stands above each.
///
/// ```
/// use bayhand::source::SourceText;
/// use bayhand::vehicle::{PutIn, amended};
///
/// let sheet = SourceText::new("green.toml", "[values.gap]\nvalue = \"not given\"\nsource = \"asked\"\n");
/// let gap = PutIn { name: "gap".to_owned(), value: "4 mm".to_owned(), source: "page 7-3".to_owned() };
/// let text = amended(&sheet, &[gap], "Found later.");
/// assert!(text.text().contains("value = \"4 mm\"") && !text.text().contains("not given"));
/// ```
pub fn amended(sheet: &SourceText, values: &[PutIn], remark: &str) -> SourceText {
    let own = values.iter().fold(sheet.text().to_owned(), |text, one| without(&text, &one.name));
    let written = |text: &str| toml::Value::String(text.to_owned()).to_string();
    let added = values.iter().map(|one| {
        let (value, source) = (written(&one.value), written(&one.source));
        format!("\n# {remark}\n[values.{}]\nvalue = {value}\nsource = {source}\n", one.name)
    });
    let end = if own.is_empty() || own.ends_with('\n') { "" } else { "\n" };
    SourceText::new(sheet.name(), format!("{own}{end}{}", added.collect::<String>()))
}

/// A sheet without the table of one value.
fn without(text: &str, name: &str) -> String {
    let head = format!("[values.{name}]");
    let mut is_cut = false;
    let kept = text.split_inclusive('\n').filter(|line| {
        let line = line.trim();
        is_cut = if line.starts_with('[') { line == head } else { is_cut };
        !is_cut
    });
    kept.collect()
}
