//! The conversation of a run: one question a screen, until the run is closed, rests, or nobody is there.

mod after;
mod around;
mod aside;
mod asking;
mod beside;
mod brief;
mod clocks;
mod correction;
mod criteria;
mod fastening;
mod flow;
mod frame;
mod hazard;
mod interruption;
mod job_balances;
mod job_kit;
mod job_left;
mod keys;
mod kit;
mod lists;
mod look;
mod loose;
mod other;
mod overview;
mod paper;
mod part;
mod particular;
mod people;
mod put_right;
mod question;
mod reading;
mod rehearsed;
mod result;
mod screen;
mod standing;
mod steps;
mod stopping;
mod touched;
mod walk;
mod whole_job;
mod words;
mod working_copy;

use std::io;
use std::rc::Rc;
use std::time::Duration;

use jiff::ZonedDateTime;

use super::{Line, Paged, Role, Text, Ui};
use crate::journal::JournalError;
use crate::run::{Answer, Ask, Input, LateAnswer, Memo, Refusal, SlipCheck};
use crate::session::{LiveRun, NotTaken};

pub use beside::{Beside, Earlier};
pub use clocks::clock;
pub use job_kit::job_kit;
pub use kit::kit;
pub use look::step_in_full;
pub use overview::{opening, overview};
pub use part::part;
pub use rehearsed::rehearsed;
pub use standing::{left_open, resting, standing};
pub use walk::{Walked, walk};
pub use whole_job::{WholeJob, job_at_start, job_standing};
pub use working_copy::working_copy;

/// How a conversation ended.
#[derive(Debug)]
pub enum Ended {
    /// The run is closed.
    Closed,
    /// It was suspended or stopped by a person's word.
    Rests,
    /// Ctrl-C.
    Interrupted,
    /// Nobody is there any more.
    Gone,
    /// An answer could not be kept. Everything before it is.
    NotKept(JournalError),
}

/// What comes of one question.
enum Turn {
    /// An answer.
    Answer(Box<Answer>),
    /// Something to read, then the same question.
    Show(Text),
    /// The same question.
    Again,
    /// The job is stopped: why, and how are things left?
    Stop,
    /// Why is it asked?
    Why,
    /// What can be done at any time.
    Other,
    /// What is asked was done before: when, why is it entered late, and what came of it?
    Late,
    /// The conversation is over.
    End(Ended),
    /// The terminal failed.
    Broken(io::Error),
}

impl Turn {
    fn answer(answer: Answer) -> Self {
        Self::Answer(Box::new(answer))
    }
}

/// What a conversation has to do with outside the terminal: two clocks, asked anew for each question and each answer, and
/// the last word.
pub struct Outside<'a> {
    /// What time it is.
    pub now: &'a dyn Fn() -> ZonedDateTime,
    /// The time since some moment, by a clock that nobody can set.
    pub ticks: Rc<dyn Fn() -> Duration>,
    /// What stands beside the questions.
    pub beside: Beside,
    /// Takes what is said if a signal ends the program while the question that comes now is open.
    pub farewell: &'a dyn Fn(Text),
}

/// Talks a run through at a terminal; `news` stands on the first screen.
pub fn talk(ui: &mut dyn Ui, run: &mut LiveRun, outside: &Outside<'_>, news: Text) -> io::Result<Ended> {
    let ui: &mut dyn Ui = &mut Paged::new(ui);
    let clock = outside.now;
    let mut message = news.line(keys::taught());
    let mut asked = None;
    let mut told = frame::Told::new(ui.keeps_what_was_said());
    loop {
        let now = clock();
        let memo = Memo::default();
        let view = run.run.view(&now).remembering(&memo);
        let prompt = view.next();
        match prompt.ask {
            Ask::Finished => return Ok(Ended::Closed),
            Ask::Resting => return Ok(Ended::Rests),
            _ => {}
        }
        // A question that comes back after something else was said is told in full.
        if asked.as_ref() == Some(&prompt) {
            told.forget_step();
        }
        asked = Some(prompt.clone());
        ui.clear_for_screen()?;
        let screen =
            screen::screen(view, &prompt, std::mem::take(&mut message), (&mut told, &outside.beside));
        let is_named = screen.is_named;
        ui.say(&screen.text)?;
        ui.remind(Rc::clone(&outside.ticks), clocks::reminders(view, &prompt.ask));
        (outside.farewell)(left_open(view));
        let (ticks, units) = (&outside.ticks, &outside.beside.units);
        let here = view.inside(prompt.within);
        match (question::Question {
            ui: &mut *ui,
            view: here,
            prompt: &prompt,
            is_named,
            clock,
            ticks,
            units,
        })
        .turn()
        {
            Turn::Answer(answer) => match take(ui, run, *answer, clock)? {
                Taken::Said(said) => message = said,
                Taken::End(ended) => return Ok(ended),
            },
            Turn::Show(text) => {
                message = text;
                told.forget_step();
            }
            Turn::Again | Turn::Why | Turn::Other | Turn::Stop | Turn::Late => told.forget_step(),
            Turn::End(ended) => return Ok(ended),
            Turn::Broken(error) => return Err(error),
        }
    }
}

enum Taken {
    Said(Text),
    End(Ended),
}

fn take(
    ui: &mut dyn Ui,
    run: &mut LiveRun,
    answer: Answer,
    clock: &dyn Fn() -> ZonedDateTime,
) -> io::Result<Taken> {
    match run.take(Input::Answer(answer.clone()), &clock()) {
        Ok(events) => {
            let (events, now, memo) = (events.to_vec(), clock(), Memo::default());
            let seen = run.run.view(&now).remembering(&memo);
            let told = events.iter().map(|(event, stamp)| after::after(seen.at_entry(stamp), event));
            Ok(Taken::Said(told.fold(Text::new(), Text::then)))
        }
        Err(NotTaken::Refused(unlikely @ Refusal::Unlikely { .. })) => {
            ui.say(&refused(&unlikely))?;
            match keys::keep_or_retype(ui) {
                Ok(()) => take(ui, run, sure(answer), clock),
                Err(Turn::End(ended)) => Ok(Taken::End(ended)),
                Err(Turn::Broken(error)) => Err(error),
                Err(_) => Ok(Taken::Said(Text::new())),
            }
        }
        Err(NotTaken::Refused(refusal)) => Ok(Taken::Said(refused(&refusal))),
        Err(NotTaken::NotKept(error)) => Ok(Taken::End(Ended::NotKept(error))),
    }
}

fn sure(answer: Answer) -> Answer {
    match answer {
        Answer::Typed { text, .. } => Answer::Typed { text, slip: SlipCheck::Sure },
        Answer::Late(late) => Answer::from(LateAnswer { answer: Box::new(sure(*late.answer)), ..late }),
        other => other,
    }
}

fn refused(refusal: &Refusal) -> Text {
    Line::new().with(Role::Bad, "Not taken: ").with(Role::Plain, refusal.to_string()).hang(2).into()
}
