//! Photos and other files as readings. The bytes lie with the run; here is only what says which bytes they are.

use crate::procedure::{Name, ReadingKind};
use crate::run::answered::{Answered, KeptFile};
use crate::run::event::Event;
use crate::run::readings::entry::taken_before;
use crate::run::refusal::Refusal;
use crate::run::typed::filled;
use crate::run::view::View;

impl KeptFile {
    /// What it is called in the folder of the run: made of its bytes, with its own name behind for people.
    pub fn stored_as(&self) -> String {
        let short: String = self.sha256.chars().take(16).collect();
        let plain =
            |letter: char| if letter.is_alphanumeric() || ".-_".contains(letter) { letter } else { '_' };
        let name: String = self.name.chars().map(plain).take(80).collect();
        format!("{short}-{name}")
    }
}

/// A file for a reading that asks for one.
pub(in crate::run) fn read(view: View<'_>, reading: &Name, file: KeptFile) -> Result<Event, Refusal> {
    is_for_files(view, reading)?;
    Ok(Event::Read { reading: reading.clone(), value: Answered::File(whole(file)?) })
}

/// Another file than the one given before.
pub(in crate::run) fn correct(
    view: View<'_>,
    reading: Name,
    entry: Option<u64>,
    file: KeptFile,
    reason: String,
) -> Result<Event, Refusal> {
    is_for_files(view, &reading)?;
    let entry = taken_before(view, &reading, entry)?;
    let reason = filled("the reason", reason)?;
    Ok(Event::Corrected { reading, entry, value: Answered::File(whole(file)?), reason })
}

fn is_for_files(view: View<'_>, reading: &Name) -> Result<(), Refusal> {
    match view.book.procedure.reading(reading).map(|reading| &reading.kind) {
        Some(ReadingKind::File) => Ok(()),
        _ => Err(Refusal::NotOffered),
    }
}

/// A file without a byte shows nothing.
fn whole(file: KeptFile) -> Result<KeptFile, Refusal> {
    if file.size == 0 {
        let why = "it is empty".to_owned();
        return Err(Refusal::NoFile { path: file.name, why, way_out: "name the file that was meant" });
    }
    Ok(file)
}
