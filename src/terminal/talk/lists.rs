//! How a page about a procedure begins, and its lists.

use crate::procedure::CheckedProcedure;
use crate::terminal::{Line, Role, Text};

/// Which procedure this is.
pub(super) fn head(procedure: &CheckedProcedure) -> Text {
    let header = procedure.header();
    let time = header.time.as_ref().map(|time| format!(", about {time}")).unwrap_or_default();
    Text::new()
        .line(Line::new().with(Role::Strong, procedure.title()))
        .line(Line::plain(format!(
            "Revision {} of {}, by {}{time}",
            header.revision, header.date, header.author
        )))
        .line(Line::plain(format!("For: {}", header.scope)).hang(2))
}

/// What belongs under a title, item by item; or that there is none.
pub(super) fn list(title: &str, items: impl Iterator<Item = String>) -> Text {
    let items: Vec<String> = items.collect();
    let head = Line::new().with(Role::Strong, format!("{title}:"));
    if items.is_empty() {
        return head.with(Role::Plain, " none").into();
    }
    items.into_iter().fold(Text::new().line(head), |text, item| text.line(Line::marked("-", item).indent(2)))
}
