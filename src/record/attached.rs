//! Photos and other files that were kept with a run: the journal says which bytes they are.

use super::finding::Finding;
use crate::journal::Digest;
use crate::run::{Answered, Event, KeptFile, PeopleEvent, Stamp};

/// A file that was kept with a run, and the entry that says so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Attachment {
    /// The entry, from 1.
    pub entry: u64,
    /// Which file.
    pub file: KeptFile,
}

impl Attachment {
    /// Its name in the folder of the kept files; nothing where what stands in the place of its hash is none.
    pub fn stored_as(&self) -> Option<String> {
        Digest::parse(&self.file.sha256).map(|_| self.file.stored_as())
    }

    /// What is wrong with the bytes that lie in its place, or with there being none.
    pub fn finding(&self, bytes: Option<&[u8]>) -> Option<Finding> {
        let is = bytes.map(|bytes| Digest::of(bytes).to_string());
        (is.as_deref() != Some(self.file.sha256.as_str())).then(|| Finding::File {
            entry: self.entry,
            name: self.file.name.clone(),
            kept: self.file.sha256.clone(),
            is,
        })
    }
}

/// Every file that an entry names, in their order.
pub fn attachments(events: &[(Event, Stamp)]) -> Vec<Attachment> {
    let named = events.iter().filter_map(|(event, stamp)| Some((stamp.seq, file_of(event)?.clone())));
    named.map(|(entry, file)| Attachment { entry, file }).collect()
}

fn file_of(event: &Event) -> Option<&KeptFile> {
    match event {
        Event::Read { value: Answered::File(file), .. }
        | Event::Corrected { value: Answered::File(file), .. }
        | Event::People(PeopleEvent::SecondRead { value: Answered::File(file), .. }) => Some(file),
        Event::Late(late) => file_of(&late.event),
        _ => None,
    }
}
