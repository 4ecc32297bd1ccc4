//! Brackets in the text are mentions of names and nothing that only looks like one.

use std::collections::BTreeSet;

use super::name_unknown::{everywhere, unknown};
use crate::procedure::Name;
use crate::procedure::check::Draft;
use crate::procedure::document::{Reference, ReferenceKind};
use crate::source::{Code, Diagnostic, Span};
use crate::table::{NAME_SHAPE, mended};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&FOREIGN_MARK, &IMAGE_SILENT, &MENTION_FORM, &MENTION_SWALLOWED];

/// Marks of other tools.
pub static FOREIGN_MARK: Code = Code {
    name: "foreign-mark",
    summary: "brackets stand for something that has no meaning here",
    teaching: "\
Task boxes, footnotes and marked quotes are inventions of some Markdown programs; others show them as they stand.
A step has its own mark, a note is a block quote, and what somebody must confirm is a hold point.

Wrong: `- [ ] Drain the fluid.`, `> [!WARNING]`, `[^1]`

Right: `- Drain the fluid.`, `> A note.`, a hazard that the step names
",
};

/// An image that says nothing in words.
pub static IMAGE_SILENT: Code = Code {
    name: "image-silent",
    summary: "an image has no description",
    teaching: "\
A terminal shows the description of an image in its place, and so does a page that is read aloud.

Wrong: `![](flange.png)`

Right: `![bolt order on the flange: 1 top left, then crosswise](flange.png)`
",
};

/// A mention in disguise.
pub static MENTION_FORM: Code = Code {
    name: "mention-form",
    summary: "a declared name stands in a link or an image and is no mention",
    teaching: "\
Only the plain form `[name]` is a mention. With an address, a second pair of brackets or an exclamation mark it is
a link or an image, and the reading would not be taken.

Wrong: `[pan_temp](#how)`, `[x][pan_temp]`, `[pan_temp][]`, `![pan_temp]`

Right: `[pan_temp]`
",
};

/// A mention that Markdown takes away.
pub static MENTION_SWALLOWED: Code = Code {
    name: "mention-swallowed",
    summary: "a line `[name]: ...` is a link definition and takes the name out of the text",
    teaching: "\
At the beginning of a paragraph or a list item, `[name]:` defines a link in Markdown: the line disappears from the
text, and every `[name]` in the file becomes a link instead of a mention.

Wrong: `- [pan_temp]: plug`

Right: `- Read [pan_temp] at the drain plug`, or `- [helper] Hold the hose.` without a colon
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let references = draft.outline.references.iter();
    let defined = references.clone().filter(|reference| reference.kind == ReferenceKind::Definition);
    let defined = defined.map(|definition| definition.text.to_ascii_lowercase()).collect();
    let mut found: Vec<_> = references.filter_map(|reference| judge(draft, &defined, reference)).collect();
    let marks = everywhere(draft).into_iter().filter(|name| name.value.as_str() == "x");
    let undeclared = marks.filter(|name| draft.names.get(&name.value).is_none());
    found.extend(
        undeclared.map(|name| foreign(name.span, "a task box", "take it out: a step has its own mark")),
    );
    found
}

/// `defined` is the words of all link definitions, in small letters.
fn judge(draft: &Draft<'_>, defined: &BTreeSet<String>, reference: &Reference) -> Option<Diagnostic> {
    let here = reference.span;
    match reference.kind {
        ReferenceKind::Definition if reference.text.starts_with('^') => Some(footnote(here)),
        ReferenceKind::Definition => swallowed(draft, reference),
        ReferenceKind::Link if defined.contains(&reference.text.to_ascii_lowercase()) => None,
        ReferenceKind::Link => disguised(draft, reference, "a link with an address"),
        ReferenceKind::Full => dangling(draft, reference, "a link with words of its own"),
        ReferenceKind::Collapsed => {
            dangling(draft, reference, "a link with an empty second pair of brackets")
        }
        ReferenceKind::Image => dangling(draft, reference, "an image"),
        ReferenceKind::Alert => Some(foreign(
            here,
            "a marked quote",
            "declare a hazard and name it in the step, or take the mark out",
        )),
        ReferenceKind::Footnote => Some(footnote(here)),
        ReferenceKind::TaskMarker => {
            Some(foreign(here, "a task box", "take `[ ]` out: a step has its own mark"))
        }
        ReferenceKind::SilentImage => Some(silent(here)),
        ReferenceKind::Words => misspelt(draft, reference),
    }
}

fn foreign(here: Span, what: &str, help: &str) -> Diagnostic {
    Diagnostic::error(&FOREIGN_MARK, format!("{what} has no meaning here")).at(here, what).help(help)
}

fn footnote(here: Span) -> Diagnostic {
    foreign(here, "a footnote", "write it as a note, a block quote `> ...` under the step")
}

fn silent(here: Span) -> Diagnostic {
    let diagnostic = Diagnostic::warning(&IMAGE_SILENT, "an image has no description");
    let diagnostic = diagnostic.at(here, "nothing to show where images cannot be shown");
    diagnostic.help("write what it shows between the brackets: `![bolt order on the flange](flange.png)`")
}

fn swallowed(draft: &Draft<'_>, reference: &Reference) -> Option<Diagnostic> {
    let name = Name::from(mended(&reference.text)?);
    let declared = draft.names.get(&name)?;
    let headline = format!("this line takes `{name}` out of the text");
    let diagnostic = Diagnostic::error(&MENTION_SWALLOWED, headline).at(reference.span, "a link definition");
    let diagnostic = diagnostic.also(declared.span, format!("`{name}` is declared here"));
    let note = "in Markdown `[name]:` at the start of a line defines a link; the line itself is not shown";
    Some(
        diagnostic
            .note(note)
            .help(format!("put a word in front, `Read [{name}] ...`, or take the colon out")),
    )
}

fn disguised(draft: &Draft<'_>, reference: &Reference, form: &str) -> Option<Diagnostic> {
    let name = Name::from(&reference.text);
    let declared = draft.names.get(&name)?;
    let diagnostic = Diagnostic::error(&MENTION_FORM, format!("`{name}` is not mentioned here"));
    let diagnostic = diagnostic.at(reference.span, format!("this is {form}"));
    let diagnostic = diagnostic.also(declared.span, format!("`{name}` is declared here"));
    Some(
        diagnostic
            .help(format!("write `[{name}]` and nothing behind it"))
            .replace(reference.span, format!("[{name}]")),
    )
}

/// A form of link that leads nowhere: to a declared name, or to nothing at all.
fn dangling(draft: &Draft<'_>, reference: &Reference, form: &str) -> Option<Diagnostic> {
    let disguised = disguised(draft, reference, form);
    disguised.or_else(|| Some(unknown(draft.names, &Name::from(&reference.text), reference.span, &[])))
}

fn misspelt(draft: &Draft<'_>, reference: &Reference) -> Option<Diagnostic> {
    let name = Name::from(mended(&reference.text)?);
    let declared = draft.names.get(&name)?;
    let diagnostic = Diagnostic::error(&NAME_SHAPE, format!("`{}` is not written as a name", reference.text));
    let diagnostic = diagnostic.at(reference.span, "shown as it stands, not taken as a mention");
    let diagnostic = diagnostic.also(declared.span, format!("`{name}` is declared here"));
    Some(diagnostic.help(format!("did you mean `[{name}]`?")).replace(reference.span, format!("[{name}]")))
}
