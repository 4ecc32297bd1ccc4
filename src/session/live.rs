//! A run as it stands on disk: its pinned texts, its events, and the state that they add up to.

use std::borrow::Borrow;
use std::fmt;
use std::path::Path;
use std::sync::Arc;

use jiff::ZonedDateTime;

use crate::journal::{Contents, Digest, Journal, JournalError, Pinned, RunId, Runs};
use crate::procedure;
use crate::run::{
    Book, Decided, Event, Inherited, Input, Memo, Pin, Refusal, Stamp, Start, State, View, apply,
};
use crate::session::attached::Attaching;
use crate::session::books;
use crate::session::not_opened::NotOpened;
use crate::session::written::WrittenLine;

/// A run as it stands on disk.
#[derive(Debug)]
pub struct StoredRun {
    /// Its name.
    pub id: RunId,
    /// What it goes by: the pinned procedure and vehicle sheet.
    pub book: Book,
    /// Its events, in order.
    pub events: Vec<(Event, Stamp)>,
    /// What they add up to.
    pub state: State,
    /// The pinned texts.
    pub pinned: Pinned,
    /// The journal as read.
    pub contents: Contents,
}

/// A run that can be gone on with: nobody else writes to it.
#[derive(Debug)]
pub struct LiveRun {
    /// The run so far.
    pub run: StoredRun,
    journal: Journal,
    attaching: Attaching,
}

/// What a run is begun with besides its texts.
#[derive(Clone, Debug, Default)]
pub struct Beginning {
    /// The job that it belongs to: the day it began, and its file's name.
    pub job: Option<String>,
    /// What the earlier runs of that job leave to it.
    pub inherited: Inherited,
    /// The file that answers in a person's place.
    pub answered_from: Option<String>,
}

/// Why an answer was not taken.
#[derive(Debug)]
pub enum NotTaken {
    /// It was refused; nothing changed.
    Refused(Refusal),
    /// It could not be kept; it does not count.
    NotKept(JournalError),
}

impl StoredRun {
    /// Reads a run, without the right to go on with it.
    pub fn read(runs: &Runs, id: &RunId) -> Result<Self, NotOpened> {
        let contents = runs.read(id).map_err(NotOpened::Journal)?;
        Self::of(runs, id, contents)
    }

    /// A run whose journal was read already, by [`Runs::read`].
    pub fn of(runs: &Runs, id: &RunId, contents: Contents) -> Result<Self, NotOpened> {
        let pinned = runs.pinned(id).map_err(NotOpened::Journal)?;
        let (book, events) = events(&contents, |start| books::read(start, &pinned))?;
        let state = crate::run::replay(&book, events.iter().map(|(event, stamp)| (event, stamp)));
        Ok(Self { id: id.clone(), book, events, state, pinned, contents })
    }

    /// The run at a moment.
    pub fn view<'run>(&'run self, now: &'run ZonedDateTime) -> View<'run> {
        View::new(&self.book, &self.state, now)
    }

    /// How it began.
    pub fn start(&self) -> Option<&Start> {
        self.state.start.as_ref().map(|(start, _)| start)
    }

    /// The name that it was begun with; a folder that was copied or renamed has another.
    pub fn own_name(&self) -> Option<&str> {
        self.start().map(|start| start.run.as_str())
    }

    /// The lines of the journal as they stand, without their ends.
    pub fn lines(&self) -> Vec<String> {
        self.contents.lines.iter().map(|line| self.contents.line(line).to_owned()).collect()
    }
}

impl LiveRun {
    /// Starts a run with these texts, which are pinned. `answered_from` names the file that answers in a person's place.
    pub fn start(
        runs: &Runs,
        book: Book,
        pinned: Pinned,
        answered_from: Option<String>,
        now: &ZonedDateTime,
    ) -> Result<Self, NotTaken> {
        Self::start_in_job(runs, book, pinned, &Beginning { answered_from, ..Beginning::default() }, now)
    }

    /// The same as a part of a job.
    pub fn start_in_job(
        runs: &Runs,
        book: Book,
        pinned: Pinned,
        beginning: &Beginning,
        now: &ZonedDateTime,
    ) -> Result<Self, NotTaken> {
        let now = &kept(now);
        let started = |id: &RunId| {
            let input = Input::Start(start(&book, &pinned, beginning, id));
            View::new(&book, &State::default(), now).decide(input).map_err(NotTaken::Refused)
        };
        let written = |decided: Decided| WrittenLine::of(&book, &decided.event, decided.place.as_ref());
        let (id, journal, contents) =
            runs.begin(book.procedure.id(), now, &pinned, |id| started(id).map(written))?;
        let Decided { event, place } = started(&id)?;
        let stamp = Stamp { seq: journal.head().seq, at: now.clone(), place: place.map(Arc::new) };
        let state = apply(&book, State::default(), &event, &stamp);
        let run = StoredRun { id, book, events: vec![(event, stamp)], state, pinned, contents };
        let mut live = Self { attaching: Attaching::new(runs.system(), runs.folder(&run.id)), run, journal };
        live.take_what_follows(now)?;
        Ok(live)
    }

    /// Opens a run to go on with it. Nothing is recorded yet.
    pub fn open(runs: &Runs, id: &RunId) -> Result<Self, NotOpened> {
        let (journal, contents) = runs.open(id).map_err(NotOpened::Journal)?;
        let attaching = Attaching::new(runs.system(), runs.folder(id));
        attaching.clear_leftovers();
        Ok(Self { run: StoredRun::of(runs, id, contents)?, journal, attaching })
    }

    /// Files whose paths are not whole are looked for from this folder; else from where the program was started.
    pub fn look_for_files_in(&mut self, folder: &Path) {
        folder.clone_into(&mut self.attaching.from);
    }

    /// Takes what comes in, and what nobody has to be asked about then: the events that it makes, its own first. On an
    /// error the state is what it was before the event that could not be kept.
    pub fn take(&mut self, input: Input, now: &ZonedDateTime) -> Result<&[(Event, Stamp)], NotTaken> {
        let first = self.run.events.len();
        self.take_one(input, now)?;
        self.take_what_follows(now)?;
        Ok(&self.run.events[first..])
    }

    /// Takes what nobody has to be asked about.
    fn take_what_follows(&mut self, now: &ZonedDateTime) -> Result<(), NotTaken> {
        while let Some(answer) = self.run.view(&kept(now)).remembering(&Memo::default()).answers_itself() {
            self.take_one(Input::Answer(answer), now)?;
        }
        Ok(())
    }

    /// Decides, records, applies.
    fn take_one(&mut self, input: Input, now: &ZonedDateTime) -> Result<(), NotTaken> {
        let now = &kept(now);
        let memo = Memo::default();
        let view = self.run.view(now).remembering(&memo);
        let input = match input {
            Input::Answer(answer) => {
                Input::Answer(self.attaching.answer(view, answer).map_err(NotTaken::Refused)?)
            }
            other => other,
        };
        let Decided { event, place } = view.decide(input).map_err(NotTaken::Refused)?;
        let line = WrittenLine::of(&self.run.book, &event, place.as_ref());
        let stamp = self.journal.append(now, &line).map_err(NotTaken::NotKept)?;
        let stamp = Stamp { seq: stamp.seq, at: stamp.time, place: place.map(Arc::new) };
        let state = std::mem::take(&mut self.run.state);
        self.run.state = apply(&self.run.book, state, &event, &stamp);
        self.run.events.push((event, stamp));
        Ok(())
    }
}

/// The moment as the journal keeps it, to the millisecond: what is decided live is decided so on replay.
fn kept(now: &ZonedDateTime) -> ZonedDateTime {
    crate::journal::read_time(&crate::journal::write_time(now)).unwrap_or_else(|_| now.clone())
}

/// The events of a journal, and the book that they go by: the first says which.
pub(super) fn events<B: Borrow<Book>>(
    contents: &Contents,
    book: impl FnOnce(&Start) -> Result<B, NotOpened>,
) -> Result<(B, Vec<(Event, Stamp)>), NotOpened> {
    let mut lines = contents.lines.iter();
    let first = lines.next().ok_or(NotOpened::Empty)?;
    let started = contents.typed::<WrittenLine>(first).map_err(NotOpened::Journal)?.event.what().read();
    let Event::Started(start) = started.map_err(|why| unknown(first.seq, &why.to_string()))? else {
        return Err(NotOpened::Empty);
    };
    let book = book(&start)?;
    let began = Stamp { seq: first.seq, at: first.time.clone(), place: None };
    let mut events = Vec::with_capacity(contents.lines.len());
    events.push((Event::Started(start), began));
    for line in lines {
        let recorded = contents.typed::<WrittenLine>(line).map_err(NotOpened::Journal)?;
        let (event, place) =
            recorded.event.read(book.borrow()).map_err(|why| unknown(line.seq, &why.to_string()))?;
        events.push((event, Stamp { seq: line.seq, at: recorded.time, place: place.map(Arc::new) }));
    }
    Ok((book, events))
}

fn unknown(line: u64, why: &str) -> NotOpened {
    NotOpened::Journal(JournalError::UnknownEvent { line, why: why.to_owned() })
}

fn start(book: &Book, pinned: &Pinned, beginning: &Beginning, id: &RunId) -> Start {
    let Beginning { job, inherited, answered_from } = beginning.clone();
    Start {
        run: id.as_str().to_owned(),
        engine: env!("CARGO_PKG_VERSION").to_owned(),
        procedure: procedure_pin(book, pinned),
        linked: linked_pins(book),
        sheet: sheet_pin(book, pinned),
        job,
        inherited,
        answered_from,
    }
}

fn procedure_pin(book: &Book, pinned: &Pinned) -> Pin {
    let procedure = &book.procedure;
    Pin {
        name: procedure.id().to_owned(),
        what: format!("{}, revision {}", procedure.title(), procedure.header().revision),
        sha256: Digest::of(pinned.procedure.as_bytes()).to_string(),
    }
}

fn linked_pins(book: &Book) -> Vec<Pin> {
    let pin = |linked: &procedure::Linked| Pin {
        name: linked.address.clone(),
        what: format!("{}, revision {}", linked.title, linked.header.revision),
        sha256: Digest::of(linked.text.text().as_bytes()).to_string(),
    };
    book.procedure.linked().iter().map(pin).collect()
}

fn sheet_pin(book: &Book, pinned: &Pinned) -> Option<Pin> {
    let (sheet, text) = (book.sheet.as_ref()?, pinned.vehicle.as_ref()?);
    Some(Pin {
        name: "vehicle".to_owned(),
        what: sheet.vehicle().to_owned(),
        sha256: Digest::of(text.as_bytes()).to_string(),
    })
}

impl std::error::Error for NotTaken {}

impl From<JournalError> for NotTaken {
    fn from(error: JournalError) -> Self {
        Self::NotKept(error)
    }
}

impl fmt::Display for NotTaken {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Refused(refusal) => write!(formatter, "{refusal}"),
            Self::NotKept(error) => write!(formatter, "{error}"),
        }
    }
}
