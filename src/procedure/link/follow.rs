//! Follows links: reads and checks what they lead to, once each.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::address::{is_file, part_of_file, resolve};
use super::clash::{Shared, clashes};
use super::codes::{IMAGE_MISSING, LINK_BROKEN, LINK_CIRCLE, LINK_MISSING, LINK_PART, LINK_TOO_DEEP};
use super::free_order::hold_in_free_order;
use super::library::{Library, ReadText, Shelf};
use super::take_in::{Child, take_in};
use crate::procedure::alone::Alone;
use crate::procedure::document::WrittenLink;
use crate::procedure::rules::is_advice;
use crate::procedure::{CheckedProcedure, StepId};
use crate::source::{Diagnostic, Found, Severity, SourceText};

/// How many procedures may be inside each other.
const DEEPEST: usize = 16;
/// The most steps of all procedures together.
const MOST_STEPS: usize = 10_000;

/// A procedure, and everything there is to say of its text and of those that it links to.
#[derive(Clone, Debug)]
pub struct FoundAll {
    /// The procedure, with all that it links to taken in.
    pub value: Option<CheckedProcedure>,
    /// What there is to say of its own text, in the order of the text.
    pub diagnostics: Vec<Diagnostic>,
    /// The texts that it links to, however deep, each once.
    pub linked: Vec<LinkedText>,
}

/// A linked text and what there is to say of it.
#[derive(Clone, Debug)]
pub struct LinkedText {
    /// Where it was found.
    pub address: String,
    /// The text.
    pub text: SourceText,
    /// What there is to say of it, in its order.
    pub diagnostics: Vec<Diagnostic>,
}

/// Reads and checks a procedure file and all that its steps link to; `id` is what others call it: its file name
/// without the ending.
///
/// ```
/// use bayhand::procedure::{Shelf, read_linked};
/// use bayhand::source::SourceText;
///
/// let found = read_linked(&SourceText::new("notes.md", "# Notes\n"), "notes", &Shelf::default());
/// assert!(found.value.is_none() && found.linked.is_empty());
/// ```
pub fn read_linked(text: &SourceText, id: &str, library: &dyn Library) -> FoundAll {
    follow(Arc::new(ReadText::of(text.clone(), id)), id, library)
}

/// The same of a text that was read before.
pub fn follow(read: Arc<ReadText>, id: &str, library: &dyn Library) -> FoundAll {
    let mut follower = Follower { library, open: Vec::new(), files: BTreeMap::new(), order: Vec::new() };
    let File { procedure, diagnostics, .. } = follower.read(read, &format!("{id}.md"));
    let Follower { mut files, order, .. } = follower;
    let linked = order.into_iter().filter_map(|address| {
        let File { text, diagnostics, .. } = files.remove(&address)?;
        Some(LinkedText { address, text, diagnostics })
    });
    FoundAll { value: procedure, diagnostics, linked: linked.collect() }
}

/// Reads and checks a procedure file that links to no other; `id` is what others call it: its file name without the
/// ending. [`read_linked`] also follows links.
///
/// The procedure comes out only when nothing is wrong with it; everything there is to say about the text comes
/// out in any case, in the order of the text; advice on how it is written comes once nothing is wrong.
///
/// ```
/// use bayhand::procedure::read;
/// use bayhand::source::SourceText;
///
/// let found = read(&SourceText::new("notes.md", "# Notes\n"), "notes");
/// assert!(found.value.is_none());
/// assert_eq!(found.diagnostics[0].code.name, "front-matter-missing");
/// ```
pub fn read(text: &SourceText, id: &str) -> Found<Option<CheckedProcedure>> {
    let found = read_linked(text, id, &Shelf::default());
    Found { value: found.value, diagnostics: found.diagnostics }
}

/// A text and what was made of it.
struct File {
    text: SourceText,
    procedure: Option<CheckedProcedure>,
    diagnostics: Vec<Diagnostic>,
}

struct Follower<'l> {
    library: &'l dyn Library,
    /// The addresses of the procedures that are being read, each linked to by the one before.
    open: Vec<String>,
    files: BTreeMap<String, File>,
    /// The addresses of the files, in the order in which links lead to them.
    order: Vec<String>,
}

impl Follower<'_> {
    fn read(&mut self, read: Arc<ReadText>, address: &str) -> File {
        let (text, Alone { mut value, mut diagnostics, links }) = ReadText::take(read);
        let mut found = Vec::new();
        self.open.push(address.to_owned());
        for (step, link) in links {
            match self.follow(address, &link) {
                Ok(to) => found.push((step, link, to)),
                Err(diagnostic) => diagnostics.push(*diagnostic),
            }
        }
        self.open.pop();
        diagnostics.extend(value.as_mut().into_iter().flat_map(|value| self.pictures(value, address)));
        let procedure = value.and_then(|value| self.with_linked(value, &found, &mut diagnostics));
        let is_broken = diagnostics.iter().any(|said| said.severity == Severity::Error);
        // Advice on how it is written comes once nothing is wrong.
        diagnostics.retain(|said| !is_broken || !is_advice(said));
        diagnostics.sort_by_key(Diagnostic::place);
        diagnostics.dedup();
        File { text, procedure: procedure.filter(|_| !is_broken), diagnostics }
    }

    /// Pictures that are not there. Their addresses are seen from the folder of the first procedure from here on.
    fn pictures(&self, procedure: &mut CheckedProcedure, from: &str) -> Vec<Diagnostic> {
        let mut missing = Vec::new();
        for passage in procedure.passages_mut() {
            let span = passage.span;
            let Some(address) = passage.address.as_mut().filter(|address| is_file(address)) else { continue };
            *address = resolve(from, address);
            if let Err(not_found) = self.library.picture(address) {
                let diagnostic = Diagnostic::warning(&IMAGE_MISSING, "a picture cannot be shown");
                let diagnostic = diagnostic.at(span, "stands on no page").note(not_found.why);
                let help =
                    format!("put it at `{address}`, or mend the address; its words are shown in any case");
                missing.push(diagnostic.help(help));
            }
        }
        missing
    }

    /// The address of the sound procedure that a link leads to.
    fn follow(&mut self, from: &str, link: &WrittenLink) -> Result<String, Box<Diagnostic>> {
        let address = resolve(from, &link.address);
        if let Some(part) = part_of_file(&link.address) {
            let headline = format!("a step cannot run only the part `{part}` of `{address}`");
            let diagnostic = Diagnostic::error(&LINK_PART, headline).at(link.span, "a part of a procedure");
            let help = "take the `#` and what follows off, or put that part into a procedure of its own";
            return Err(Box::new(diagnostic.help(help)));
        }
        if let Some(first) = self.open.iter().position(|open| *open == address) {
            return Err(Box::new(circle(&self.open[first..], &address, link)));
        }
        if !self.files.contains_key(&address) {
            self.open_file(&address, link)?;
        }
        match self.files.get(&address) {
            Some(file) if file.procedure.is_none() => Err(Box::new(broken(file, link))),
            _ => Ok(address),
        }
    }

    fn open_file(&mut self, address: &str, link: &WrittenLink) -> Result<(), Box<Diagnostic>> {
        if self.open.len() >= DEEPEST {
            let headline = format!("procedures are linked more than {DEEPEST} deep");
            let diagnostic = Diagnostic::error(&LINK_TOO_DEEP, headline).at(link.span, "one too many");
            return Err(Box::new(diagnostic.help("link to it from a step of the first procedure")));
        }
        let read = self.library.read(address).map_err(|not_found| {
            let diagnostic = Diagnostic::error(&LINK_MISSING, "the procedure that is run here is not there");
            let diagnostic = diagnostic.at(link.span, "leads nowhere").note(not_found.why);
            Box::new(diagnostic.help(format!("put the file at `{address}`, or mend the address")))
        })?;
        self.order.push(address.to_owned());
        let file = self.read(read, address);
        self.files.insert(address.to_owned(), file);
        Ok(())
    }

    fn with_linked(
        &self,
        procedure: CheckedProcedure,
        found: &[(StepId, WrittenLink, String)],
        diagnostics: &mut Vec<Diagnostic>,
    ) -> Option<CheckedProcedure> {
        let mut children = Vec::new();
        for (step, link, address) in found {
            let child = self.files.get(address).and_then(|file| file.procedure.as_ref())?;
            children.push((link, Child { step: *step, address, procedure: child }));
        }
        let steps = children.iter().map(|(_, child)| child.procedure.steps().len()).sum::<usize>();
        if let Some((link, _)) = children.last().filter(|_| steps > MOST_STEPS) {
            let headline = format!("with all that is linked, this has more than {MOST_STEPS} steps");
            let diagnostic = Diagnostic::error(&LINK_TOO_DEEP, headline).at(link.span, "the last link");
            diagnostics.push(diagnostic.help("divide it into several jobs"));
            return None;
        }
        if children.is_empty() {
            return Some(procedure);
        }
        let mut shared = Shared::default();
        for (link, child) in &children {
            diagnostics.extend(clashes(&procedure, child, link.span));
            diagnostics.extend(shared.clashes(child, link.span));
            diagnostics.extend(hold_in_free_order(&procedure, child, link.span));
        }
        let taken: Vec<Child<'_>> = children.into_iter().map(|(_, child)| child).collect();
        Some(take_in(procedure, &taken))
    }
}

fn circle(open: &[String], address: &str, link: &WrittenLink) -> Diagnostic {
    let around: Vec<&str> = open.iter().map(String::as_str).chain([address]).collect();
    let diagnostic = Diagnostic::error(&LINK_CIRCLE, "this link leads back to where it comes from");
    let diagnostic = diagnostic.at(link.span, "the work would never come back");
    diagnostic.note(around.join(" → ")).help("take one of these links out, or name the procedure in a note")
}

/// What is wrong with a linked procedure is told beside its own text; here stands where to look.
fn broken(file: &File, link: &WrittenLink) -> Diagnostic {
    let name = file.text.name();
    let errors: Vec<&Diagnostic> =
        file.diagnostics.iter().filter(|said| said.severity == Severity::Error).collect();
    let counted = if errors.len() == 1 { "1 error".to_owned() } else { format!("{} errors", errors.len()) };
    let diagnostic = Diagnostic::error(&LINK_BROKEN, "the procedure that is run here cannot be run");
    let diagnostic = diagnostic.at(link.span, format!("`{name}` has {counted}"));
    let first = errors.first().map(|error| {
        let at = file.text.position(error.place().unwrap_or_default().start);
        format!("`{name}`, line {}: {}", at.line, error.message)
    });
    first.into_iter().fold(diagnostic, Diagnostic::note).help(format!("mend `{name}` first"))
}
