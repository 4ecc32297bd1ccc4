//! The version of the format that a file says it is written in.

use toml::de::DeValue;

use super::Fields;
use super::codes::FORMAT_VERSION;
use crate::source::Diagnostic;

/// `format = 1`: the version of the format itself.
pub fn format(front: &mut Fields<'_, '_, '_>) {
    let Some(item) = front.item("format") else {
        front.missing("format", "1");
        return;
    };
    if !matches!(item.value, DeValue::Integer(number) if number.to_string() == "1") {
        let diagnostic =
            Diagnostic::error(&FORMAT_VERSION, "the file is written in a format that is not known");
        let diagnostic = diagnostic.at(item.span, "only format 1 is known here");
        front.scribe.note(diagnostic.help("write `format = 1`, or read the file with a newer bayhand"));
    }
}
