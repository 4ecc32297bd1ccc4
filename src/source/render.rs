//! Diagnostics as a person reads them at a terminal:
//!
//! ```text
//! error[name-unknown]: there is no `pan_tmep` here        headline
//!  --> cold-start.md:7:12                                 origin
//!   |
//! 7 | max = 'pan_tmep + 5 K'                              the excerpt, clipped to the width
//!   |        ^^^^^^^^ not declared anywhere               labels
//!   |
//!   = note: ...                                           notes
//!   = help: did you mean `pan_temp`?                      help
//! help: this would mend it                                the fix as it would look
//! ```

use annotate_snippets::{
    Annotation, AnnotationKind, Element, Group, Level, Origin, Patch, Renderer, Snippet,
};

use super::clean::clean_line;
use super::excerpt::Excerpt;
use super::few::few;
use super::{Diagnostic, Fix, Label, Severity, SourceText};

/// Whether the rendering may use colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Colour {
    /// Plain text: for pipes, files and readers who want none.
    Plain,
    /// ANSI escape sequences: for a terminal.
    Ansi,
}

/// How diagnostics are to look.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Look {
    /// With or without colour.
    pub colour: Colour,
    /// The width in columns to which lines of the source are clipped and notes are wrapped; at least 40.
    pub width: usize,
}

impl Look {
    /// No colour, 100 columns: what golden files are made with.
    pub const PLAIN: Self = Self { colour: Colour::Plain, width: 100 };

    fn columns(self) -> usize {
        self.width.max(40)
    }

    fn renderer(self) -> Renderer {
        let renderer = match self.colour {
            Colour::Plain => Renderer::plain(),
            Colour::Ansi => Renderer::styled(),
        };
        renderer.term_width(self.columns())
    }
}

/// All `diagnostics` of `text` for a person, one after the other with an empty line between; ends with a
/// newline unless there are none; of many the first hundred and a count. Control characters of the source never reach
/// the result.
pub fn render(diagnostics: &[Diagnostic], text: &SourceText, look: Look) -> String {
    let few = few(diagnostics);
    let rendered = few.iter().map(|diagnostic| render_one(diagnostic, text, look) + "\n");
    rendered.collect::<Vec<_>>().join("\n")
}

fn render_one(diagnostic: &Diagnostic, text: &SourceText, look: Look) -> String {
    let mut groups = vec![main_group(diagnostic, text, look)];
    groups.extend(diagnostic.fix.as_ref().map(|fix| fix_group(fix, text, look)));
    look.renderer().render(&groups)
}

fn main_group<'a>(diagnostic: &Diagnostic, text: &SourceText, look: Look) -> Group<'a> {
    let title =
        level(diagnostic.severity).primary_title(clean_line(&diagnostic.message)).id(diagnostic.code.name);
    Group::with_title(title).elements(places(diagnostic, text, look)).elements(remarks(diagnostic, look))
}

fn level<'a>(severity: Severity) -> Level<'a> {
    match severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
    }
}

fn places<'a>(diagnostic: &Diagnostic, text: &SourceText, look: Look) -> Vec<Element<'a>> {
    let name = clean_line(text.name());
    let Some(place) = diagnostic.place() else {
        return vec![Origin::path(name).into()];
    };
    let spans: Vec<_> = diagnostic.labels.iter().map(|label| label.span).collect();
    let excerpt = Excerpt::around(text, &spans, look.columns());
    let annotations: Vec<_> = diagnostic.labels.iter().map(|label| annotation(label, &excerpt)).collect();
    let snippet = Snippet::source(excerpt.text).line_start(excerpt.first_line).annotations(annotations);
    if excerpt.clipped {
        // The columns of a clipped line are not the file's: the origin is given apart.
        let position = text.position(place.start);
        let origin = Origin::path(name).line(position.line).char_column(position.column);
        return vec![origin.into(), snippet.into()];
    }
    vec![snippet.path(name).into()]
}

fn annotation<'a>(label: &Label, excerpt: &Excerpt) -> Annotation<'a> {
    let kind = if label.primary { AnnotationKind::Primary } else { AnnotationKind::Context };
    kind.span(excerpt.place(label.span)).label(clean_line(&label.text))
}

fn remarks<'a>(diagnostic: &Diagnostic, look: Look) -> Vec<Element<'a>> {
    let notes = diagnostic.notes.iter().map(|note| (Level::NOTE, note));
    let help = diagnostic.help.iter().map(|help| (Level::HELP, help));
    let remarks = notes.chain(help);
    remarks.map(|(level, text)| level.message(wrapped(text, look)).into()).collect()
}

fn wrapped(text: &str, look: Look) -> String {
    const LEAD: usize = "  = note: ".len() + 4;
    let separator = textwrap::WordSeparator::Custom(super::find_words);
    let options = textwrap::Options::new(look.columns() - LEAD).word_separator(separator);
    let lines = text.lines().map(|line| super::clean(line).into_owned());
    let filled = lines.map(|line| textwrap::fill(&line, &options));
    filled.collect::<Vec<_>>().join("\n")
}

fn fix_group<'a>(fix: &Fix, text: &SourceText, look: Look) -> Group<'a> {
    let excerpt = Excerpt::around(text, &[fix.span], look.columns());
    let patch = Patch::new(excerpt.place(fix.span), clean_line(&fix.text));
    let snippet = Snippet::source(excerpt.text).line_start(excerpt.first_line).patch(patch);
    Group::with_title(Level::HELP.secondary_title("this would mend it")).element(snippet)
}
