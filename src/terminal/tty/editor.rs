//! The line editor for typed answers.

use std::borrow::Cow;
use std::io;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, mpsc};
use std::time::Duration;

use rustyline::completion::Completer;
use rustyline::config::BellStyle;
use rustyline::error::ReadlineError;
use rustyline::highlight::{CmdKind, Highlighter};
use rustyline::hint::Hinter;
use rustyline::history::MemHistory;
use rustyline::validate::Validator;
use rustyline::{
    Cmd, ColorMode, ConditionalEventHandler, Config, Editor, Event, EventContext, EventHandler,
    ExternalPrinter, Helper, KeyCode, KeyEvent, Modifiers, RepeatCount,
};

use crate::terminal::clean::clean;
use crate::terminal::{Entry, Heard};

/// What stands before the answer.
pub(super) const MARK: &str = "> ";

/// Edits one line. Nothing is remembered from one answer to the next: a reading must not be filled in with
/// the one before by a slip of a key.
pub(super) struct LineEditor {
    editor: Editor<CleanEcho, MemHistory>,
    ways: Arc<WaysOut>,
}

impl LineEditor {
    pub(super) fn new() -> io::Result<Self> {
        // "Forced" because the echo goes through the highlighter only then; it uses no colour.
        let config = Config::builder().color_mode(ColorMode::Forced).tab_stop(1).bell_style(BellStyle::None);
        let config = config.keyseq_timeout(Some(REST_OF_A_KEY)).build();
        let history = MemHistory::with_config(&config);
        let mut editor = Editor::with_history(config, history).map_err(failure)?;
        editor.set_helper(Some(CleanEcho));
        let ways = Arc::new(WaysOut::default());
        let handler = EventHandler::Conditional(Box::new(WayOut(Arc::clone(&ways))));
        editor.bind_sequence(Event::Any, handler);
        Ok(Self { editor, ways })
    }

    /// Reads a line. What is to be said in so much time is said above it.
    pub(super) fn read(&mut self, entry: Entry, to_come: Vec<(Duration, String)>) -> io::Result<Heard> {
        self.ways.begin(entry);
        let teller = self.tell(to_come)?;
        let heard = self.line();
        drop(teller);
        heard
    }

    /// Says things above the line while it is typed; until what is given back goes.
    fn tell(&mut self, mut to_come: Vec<(Duration, String)>) -> io::Result<Option<mpsc::Sender<()>>> {
        if to_come.is_empty() {
            return Ok(None);
        }
        to_come.sort_by_key(|(left, _)| *left);
        let mut printer = self.editor.create_external_printer().map_err(failure)?;
        let (teller, over) = mpsc::channel::<()>();
        std::thread::spawn(move || {
            let mut gone = Duration::ZERO;
            for (left, words) in to_come {
                let is_over = over.recv_timeout(left.saturating_sub(gone));
                if is_over != Err(mpsc::RecvTimeoutError::Timeout) || printer.print(words).is_err() {
                    return;
                }
                gone = gone.max(left);
            }
        });
        Ok(Some(teller))
    }

    fn line(&mut self) -> io::Result<Heard> {
        match self.editor.readline(MARK) {
            Ok(_) if self.ways.stopped.load(Ordering::Relaxed) => Ok(Heard::Text(STOP.into())),
            Ok(_) if self.ways.left.load(Ordering::Relaxed) => Ok(Heard::Interrupt),
            Ok(line) => Ok(Heard::Text(one_line(&line))),
            Err(ReadlineError::Interrupted) => Ok(Heard::Interrupt),
            Err(ReadlineError::Eof) => Ok(Heard::Gone),
            Err(error) => Err(failure(error)),
        }
    }
}

/// The key that stops the job: alone on an empty line it is an answer at once, without Enter.
const STOP: char = '!';

/// After Escape a terminal sends what belongs to it within less than this.
const REST_OF_A_KEY: u16 = 25;

/// Keys that end a line without Enter.
#[derive(Default)]
struct WaysOut {
    is_aside: AtomicBool,
    stopped: AtomicBool,
    left: AtomicBool,
}

impl WaysOut {
    fn begin(&self, entry: Entry) {
        self.is_aside.store(entry == Entry::Aside, Ordering::Relaxed);
        self.stopped.store(false, Ordering::Relaxed);
        self.left.store(false, Ordering::Relaxed);
    }
}

struct WayOut(Arc<WaysOut>);

impl ConditionalEventHandler for WayOut {
    fn handle(&self, event: &Event, _: RepeatCount, _: bool, context: &EventContext) -> Option<Cmd> {
        let KeyEvent(key, with) = *event.get(0)?;
        match (key, with) {
            (KeyCode::Char(STOP), Modifiers::NONE) if context.line().is_empty() => {
                self.0.stopped.store(true, Ordering::Relaxed);
                Some(Cmd::AcceptLine)
            }
            (KeyCode::Esc, _) | (KeyCode::Char(_), Modifiers::ALT)
                if self.0.is_aside.load(Ordering::Relaxed) =>
            {
                self.0.left.store(true, Ordering::Relaxed);
                Some(Cmd::AcceptLine)
            }
            (KeyCode::Esc, _) => Some(Cmd::Noop),
            // Escape, and a letter right after it.
            (KeyCode::Char(letter), Modifiers::ALT) => Some(Cmd::Insert(1, letter.to_string())),
            _ => None,
        }
    }
}

/// Shows what is typed or pasted without the control characters that may be in it.
struct CleanEcho;

impl Highlighter for CleanEcho {
    fn highlight<'l>(&self, line: &'l str, _pos: usize) -> Cow<'l, str> {
        clean(line)
    }

    /// A character that must be replaced is not echoed by itself: the whole line is drawn again.
    fn highlight_char(&self, line: &str, _pos: usize, _kind: CmdKind) -> bool {
        matches!(clean(line), Cow::Owned(_))
    }
}

impl Completer for CleanEcho {
    type Candidate = String;
}

impl Hinter for CleanEcho {
    type Hint = String;
}

impl Validator for CleanEcho {}

impl Helper for CleanEcho {}

/// A pasted text may have line ends in it; the answer has none.
fn one_line(line: &str) -> String {
    line.trim_end_matches(['\r', '\n']).replace("\r\n", " ").replace(['\r', '\n'], " ")
}

fn failure(error: ReadlineError) -> io::Error {
    match error {
        ReadlineError::Io(error) => error,
        ReadlineError::Errno(error) => error.into(),
        other => io::Error::other(other),
    }
}
