//! A procedure has a title.

use crate::procedure::document::Outline;
use crate::source::{Code, Diagnostic, Span};

/// No title.
pub static TITLE_MISSING: Code = Code {
    name: "title-missing",
    summary: "the procedure has no title",
    teaching: "\
The first heading of the body, with one `#`, says in a few words what is done. It stands on every screen and on
the record.

Wrong: a body that begins with `## Prepare`

Right: `# Flush the cooler lines`, then `## Prepare`
",
};

pub(super) fn check(outline: &Outline) -> Option<Diagnostic> {
    if outline.title.as_ref().is_some_and(|title| !title.text.is_empty()) {
        return None;
    }
    let heading = outline.title.as_ref().map(|title| title.span);
    let place = heading.or(outline.parts.first().map(|part| part.span));
    let place = place.or(outline.introduction.first().map(|passage| passage.span)).unwrap_or(Span::START);
    let diagnostic = Diagnostic::error(&TITLE_MISSING, "the procedure has no title");
    let diagnostic = diagnostic.at(place, "the title belongs in front of this");
    Some(diagnostic.help("begin the body with `# ` and a few words that say what is done"))
}
