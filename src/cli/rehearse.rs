//! `bayhand rehearse`

use std::cell::Cell;
use std::io;
use std::rc::Rc;
use std::time::Duration;

use jiff::{SignedDuration, ZonedDateTime};

use super::arguments::Rehearse;
use super::context::Context;
use super::{Exit, running};
use crate::journal::Runs;
use crate::session::LiveRun;
use crate::terminal::{
    self, Bell, Beside, Door, Ended, Entry, Guard, Heard, KeyHint, Outside, Reminder, Text, Timing, Ui, Wait,
};

const NEWS: &str = "This is a rehearsal: the same questions, nothing is recorded, and a wait is over at once. Ctrl-C ends it.";

/// Walks a procedure with nothing recorded, and says what is to be got ready for it.
pub(super) fn rehearse(context: &Context, command: &Rehearse) -> Exit {
    match walk(context, command) {
        Ok(exit) | Err(exit) => exit,
    }
}

fn walk(context: &Context, command: &Rehearse) -> Result<Exit, Exit> {
    let script = command.answers.as_deref().map(|path| running::script(context, path)).transpose()?;
    // The run stands in a folder that is gone when the rehearsal is over.
    let folder = context.system.scratch_folder().map_err(|error| context.trouble(&error))?;
    let runs = Runs::new(&context.system, folder.path());
    let files = (command.file.as_path(), command.vehicle.as_deref());
    let mut live = running::start_of(context, &runs, files, script.as_ref())?;
    match script {
        Some((script, text)) => {
            live.look_for_files_in(running::beside(command.answers.as_deref()));
            let mut ui = terminal::Plain::new(io::empty(), Door::output()).wrapped_to(context.width());
            let walked =
                terminal::walk(&mut ui, &mut live, &script).map_err(|error| context.trouble(&error))?;
            if let Some(diagnostic) = running::differs(&walked, &text) {
                context.diagnose(&[diagnostic], &text);
                return Err(Exit::Found);
            }
        }
        None => talk(context, &mut live)?,
    }
    let now = live.run.state.last.as_ref().map_or_else(|| context.system.now(), |last| last.at.clone());
    Ok(context.show(&terminal::rehearsed(live.run.view(&now))))
}

fn talk(context: &Context, live: &mut LiveRun) -> Result<(), Exit> {
    let manner = context.manner();
    let _guard = Guard::start(manner, Text::plain("Nothing was recorded."))
        .map_err(|error| context.trouble(&error))?;
    let mut ui = terminal::open(manner, Bell::Silent).map_err(|error| context.trouble(&error))?;
    let ahead = Cell::new(SignedDuration::ZERO);
    let mut hurried = Hurried { ui: &mut *ui, ahead: &ahead };
    let system = context.system.clone();
    let now = || later(&context.system.now(), ahead.get());
    let ticks = Rc::new(move || system.ticks());
    let outside = Outside {
        now: &now,
        ticks,
        beside: Beside { units: super::preferences::units(context, None)?, earlier: None },
        farewell: &|_| (),
    };
    let opening = terminal::opening(&live.run.book.procedure).blank().then(Text::plain(NEWS));
    match terminal::talk(&mut hurried, live, &outside, opening) {
        Ok(Ended::NotKept(error)) => Err(context.journal_error(&error)),
        Ok(_) => Ok(()),
        Err(error) if terminal::is_gone(&error) => Err(Exit::Gone),
        Err(error) => Err(context.trouble(&error)),
    }
}

fn later(now: &ZonedDateTime, ahead: SignedDuration) -> ZonedDateTime {
    now.checked_add(ahead).unwrap_or_else(|_| now.clone())
}

/// A way to speak in which a wait is over at once: the clock of the rehearsal runs ahead.
struct Hurried<'talk> {
    ui: &'talk mut dyn Ui,
    ahead: &'talk Cell<SignedDuration>,
}

impl Ui for Hurried<'_> {
    fn say(&mut self, text: &Text) -> io::Result<()> {
        self.ui.say(text)
    }

    fn ask_key(&mut self, prompt: &str, keys: &[KeyHint]) -> io::Result<Heard> {
        self.ui.ask_key(prompt, keys)
    }

    fn ask_text(&mut self, prompt: &str, entry: Entry) -> io::Result<Heard> {
        self.ui.ask_text(prompt, entry)
    }

    fn ask_choice(&mut self, prompt: &str, items: &[String], start: usize) -> io::Result<Heard> {
        self.ui.ask_choice(prompt, items, start)
    }

    fn wait(&mut self, wait: &Wait) -> io::Result<Heard> {
        let left = SignedDuration::try_from(wait.left()).unwrap_or(SignedDuration::MAX);
        let left = left.saturating_add(SignedDuration::from_millis(1));
        self.ahead.set(self.ahead.get().saturating_add(left));
        Ok(Heard::Elapsed)
    }

    fn time(&mut self, timing: &Timing) -> io::Result<Heard> {
        self.ui.time(timing)
    }

    fn remind(&mut self, ticks: Rc<dyn Fn() -> Duration>, reminders: Vec<Reminder>) {
        self.ui.remind(ticks, reminders);
    }

    fn clear_for_screen(&mut self) -> io::Result<()> {
        self.ui.clear_for_screen()
    }

    fn keeps_what_was_said(&self) -> bool {
        self.ui.keeps_what_was_said()
    }

    fn width(&self) -> usize {
        self.ui.width()
    }

    fn height(&self) -> usize {
        self.ui.height()
    }
}
