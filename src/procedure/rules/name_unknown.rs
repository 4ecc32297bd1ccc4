//! Every name that is mentioned is declared.

use crate::procedure::check::{Draft, Names, mentions_of};
use crate::procedure::document::Heading;
use crate::procedure::{Name, Passage, Table};
use crate::source::{Code, Diagnostic, Span, Spanned};

/// A mention that leads nowhere.
pub static MENTION_UNKNOWN: Code = Code {
    name: "mention-unknown",
    summary: "a name is mentioned that the front matter does not declare",
    teaching: "\
Each `[name]` in the text, and each name that the front matter itself follows (an instrument, who releases a hold
point), is declared once, spelt in the same way. Brackets that are not meant as a name get a backslash.

Wrong: `Read [pan_tmep].`

Right: `Read [pan_temp].`, or `Read \\[sic\\] it.`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let undeclared =
        |name: &&Spanned<Name>| draft.names.get(&name.value).is_none() && !is_task_mark(&name.value);
    let all = everywhere(draft).into_iter().filter(undeclared);
    all.map(|name| unknown(draft.names, &name.value, name.span, &[])).collect()
}

/// `[x]` is reported as what it was meant to be.
fn is_task_mark(name: &Name) -> bool {
    name.as_str() == "x"
}

/// Says that a name is not declared, with the nearest of the given tables.
pub(in crate::procedure) fn unknown(names: &Names, name: &Name, span: Span, tables: &[Table]) -> Diagnostic {
    let what = tables.first().map_or("name", |table| table.noun());
    let diagnostic = Diagnostic::error(&MENTION_UNKNOWN, format!("there is no {what} `{name}`"));
    let diagnostic = diagnostic.at(span, "not declared in the front matter");
    let Some(near) = names.nearest(name.as_str(), tables) else {
        let help = format!("declare it under one of the tables, or write `\\[{name}\\]` if it is not a name");
        return match tables.first() {
            Some(table) => diagnostic.help(format!("declare it under `[{}]`", table.key())),
            None => diagnostic.help(help),
        };
    };
    let declared = names.get(&Name::from(near)).map(|declared| declared.span);
    let diagnostic = match declared {
        Some(place) => diagnostic.also(place, format!("`{near}` is declared here")),
        None => diagnostic,
    };
    let inner = Span::new(span.start + 1, span.end.saturating_sub(1));
    diagnostic.help(format!("did you mean `{near}`?")).replace(inner, near)
}

/// Every mention, wherever it stands.
pub(super) fn everywhere<'d>(draft: &'d Draft<'_>) -> Vec<&'d Spanned<Name>> {
    let mut all: Vec<&Spanned<Name>> = Vec::new();
    let outline = draft.outline;
    let headings = outline.parts.iter().filter_map(|part| part.heading.as_ref());
    all.extend(outline.title.iter().chain(headings).flat_map(|heading: &Heading| mentions_of(&heading.text)));
    let prose = outline.introduction.iter().chain(outline.parts.iter().flat_map(|part| &part.after));
    let inside = draft.steps.iter().flat_map(|step| step.before.iter().chain(&step.passages));
    all.extend(prose.chain(inside).flat_map(|passage: &Passage| mentions_of(&passage.text)));
    all.extend(draft.steps.iter().flat_map(|step| draft.mentions_said(step)));
    all
}
