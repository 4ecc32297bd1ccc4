//! What runs go by, read from their pinned texts: each proved to be the text that its run began with.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::journal::{Digest, Pinned, linked_file};
use crate::procedure::{self, Shelf};
use crate::run::{Book, Pin, Start};
use crate::session::not_opened::NotOpened;
use crate::source::{Severity, SourceText};
use crate::vehicle;

/// So many are kept.
const MOST: usize = 64;

/// What runs went by that were read before: whoever looks at many runs reads a text once that many of them have.
#[derive(Debug, Default)]
pub struct Books {
    known: BTreeMap<Vec<String>, Arc<Book>>,
}

impl Books {
    /// What a run goes by. That its pinned texts are those that it began with is proved each time.
    pub(super) fn of(&mut self, start: &Start, pinned: &Pinned) -> Result<Arc<Book>, NotOpened> {
        all_as_pinned(start, pinned)?;
        let pins = std::iter::once(&start.procedure).chain(&start.linked).chain(&start.sheet);
        // How many of them are linked tells the last of those from a vehicle sheet.
        let linked = start.linked.len().to_string();
        let texts = pins.flat_map(|pin| [pin.name.clone(), pin.sha256.clone()]);
        let key: Vec<String> = std::iter::once(linked).chain(texts).collect();
        if let Some(book) = self.known.get(&key) {
            return Ok(Arc::clone(book));
        }
        let book = Arc::new(read(start, pinned)?);
        if self.known.len() >= MOST {
            self.known.clear();
        }
        self.known.insert(key, Arc::clone(&book));
        Ok(book)
    }
}

/// What a run goes by.
pub(super) fn read(start: &Start, pinned: &Pinned) -> Result<Book, NotOpened> {
    all_as_pinned(start, pinned)?;
    let linked = shelf(&start.linked, &pinned.linked);
    let sheet = pinned.vehicle.as_deref().map(read_sheet).transpose()?;
    Ok(Book::new(read_procedure(&start.procedure.name, &pinned.procedure, &linked)?, sheet))
}

/// Whether each text is the one that the run began with.
fn all_as_pinned(start: &Start, pinned: &Pinned) -> Result<(), NotOpened> {
    if !is_as_pinned(&start.procedure, &pinned.procedure) {
        return Err(pin_changed("procedure.md"));
    }
    for place in 0..start.linked.len().max(pinned.linked.len()) {
        let pair = start.linked.get(place).zip(pinned.linked.get(place));
        if !pair.is_some_and(|(pin, text)| is_as_pinned(pin, text)) {
            return Err(pin_changed(&linked_file(place)));
        }
    }
    match (&start.sheet, &pinned.vehicle) {
        (Some(pin), Some(text)) if is_as_pinned(pin, text) => Ok(()),
        (None, None) => Ok(()),
        _ => Err(pin_changed("vehicle.toml")),
    }
}

fn is_as_pinned(pin: &Pin, text: &str) -> bool {
    Digest::of(text.as_bytes()).to_string() == pin.sha256
}

fn pin_changed(file: &str) -> NotOpened {
    NotOpened::PinChanged { file: file.to_owned() }
}

/// The linked procedures under the addresses that lead to them.
fn shelf(pins: &[Pin], texts: &[String]) -> Shelf {
    let pairs = pins.iter().zip(texts);
    pairs.map(|(pin, text)| (pin.name.clone(), SourceText::new(&pin.name, text))).collect()
}

fn read_procedure(id: &str, text: &str, linked: &Shelf) -> Result<procedure::CheckedProcedure, NotOpened> {
    let found = procedure::read_linked(&SourceText::new("procedure.md", text), id, linked);
    let why = first_error(&found.diagnostics);
    found.value.ok_or(NotOpened::Unreadable { file: "procedure.md".to_owned(), why })
}

fn read_sheet(text: &str) -> Result<vehicle::Sheet, NotOpened> {
    let found = vehicle::read(&SourceText::new("vehicle.toml", text));
    let why = first_error(&found.diagnostics);
    found.value.ok_or(NotOpened::Unreadable { file: "vehicle.toml".to_owned(), why })
}

fn first_error(diagnostics: &[crate::source::Diagnostic]) -> String {
    let error = diagnostics.iter().find(|diagnostic| diagnostic.severity == Severity::Error);
    error.map(|error| error.message.clone()).unwrap_or_default()
}
