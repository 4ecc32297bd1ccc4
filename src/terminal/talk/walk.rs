//! A run answered from a file: the walk is shown as it goes, without a question to anybody.

use std::io;

use jiff::{SignedDuration, ZonedDateTime};

use super::{after, aside, refused, words};
use crate::answers::{Line as Answered, Script};
use crate::journal::JournalError;
use crate::procedure::StepId;
use crate::run::{Answer, Ask, Event, FlowEvent, Input, LOOSE_END, Memo, Prompt, View};
use crate::session::{LiveRun, NotTaken};
use crate::source::Span;
use crate::terminal::{Line, Role, Text, Ui};

/// How a walk ended.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Debug)]
pub enum Walked {
    /// The run is closed, every answer used.
    Closed,
    /// It rests by an answer's word, every answer used.
    Rests,
    /// The run asks for something that the file does not answer here.
    Missing { asked: String, step: String },
    /// The file answers something that is not asked; `asked` says in full what is.
    Superfluous { at: Span, asked: String },
    /// An answer lacks something, or was refused.
    NotTaken { at: Span, why: String, asked: String },
    /// An answer could not be kept.
    NotKept(JournalError),
}

/// Answers a run from a file, and shows each answer with what came of it.
pub fn walk(ui: &mut dyn Ui, run: &mut LiveRun, script: &Script) -> io::Result<Walked> {
    let mut walk = Walk { clock: started(run, script), shown: None, script };
    for (line, at) in &script.lines {
        if let Err(walked) = walk.answer(ui, run, line, *at)? {
            return Ok(walked);
        }
    }
    Ok(walk.end(run))
}

/// The clock of the file; a run that is gone on with does not go back in time.
fn started(run: &LiveRun, script: &Script) -> ZonedDateTime {
    match &run.run.state.last {
        Some(last) if last.at > script.clock => last.at.clone(),
        _ => script.clock.clone(),
    }
}

struct Walk<'script> {
    clock: ZonedDateTime,
    shown: Option<StepId>,
    script: &'script Script,
}

impl Walk<'_> {
    /// Where the run stands when every answer is used.
    fn end(&self, run: &LiveRun) -> Walked {
        let view = run.run.view(&self.clock);
        let prompt = view.next();
        match prompt.ask {
            Ask::Finished => Walked::Closed,
            Ask::Resting => Walked::Rests,
            _ => Walked::Missing { asked: prompt.label(view), step: step_words(view, &prompt) },
        }
    }

    fn answer(
        &mut self,
        ui: &mut dyn Ui,
        run: &mut LiveRun,
        line: &Answered,
        at: Span,
    ) -> io::Result<Result<(), Walked>> {
        let pause = match line.pause() {
            None => self.script.pace,
            Some(Ok(pause)) => pause,
            Some(Err(why)) => {
                return Ok(Err(Walked::NotTaken { at, why, asked: line.at.clone() }));
            }
        };
        if let Err(why) = self.pass(pause) {
            return Ok(Err(Walked::NotTaken { at, why, asked: line.at.clone() }));
        }
        let (now, memo) = (self.clock.clone(), Memo::default());
        let view = run.run.view(&now).remembering(&memo);
        let prompt = view.next();
        let asked = prompt.label(view);
        // In a job loose ends wait for its last run: a file serves for both.
        if line.at == LOOSE_END && asked != LOOSE_END {
            return Ok(Ok(()));
        }
        if line.at != asked && !line.tells_odometer(&asked) {
            return Ok(Err(Walked::Superfluous {
                at,
                asked: format!("`{asked}` ({})", step_words(view, &prompt)),
            }));
        }
        let answer = match self.answer_to(view, &prompt, line) {
            Ok(Some(answer)) => answer,
            Ok(None) => return Ok(Ok(())),
            Err(why) => return Ok(Err(Walked::NotTaken { at, why, asked })),
        };
        self.show(ui, view.inside(prompt.within), (&prompt, &answer), line)?;
        match run.take(Input::Answer(answer), &self.clock) {
            Ok(events) => {
                let events = events.to_vec();
                // Its step comes once more.
                if matches!(events[..], [(Event::Flow(FlowEvent::PassTakenBack { .. }), _), ..]) {
                    self.shown = None;
                }
                let memo = Memo::default();
                let seen = run.run.view(&self.clock).remembering(&memo);
                for (place, (event, stamp)) in events.iter().enumerate() {
                    let view = seen.at_entry(stamp);
                    // What nobody was asked about is told as well.
                    let told =
                        if place == 0 { after::results(view, event) } else { after::by_itself(view, event) };
                    ui.say(&told.indented(4))?;
                }
                Ok(Ok(()))
            }
            Err(NotTaken::Refused(refusal)) => {
                ui.say(&refused(&refusal).indented(4))?;
                Ok(Err(Walked::NotTaken { at, why: refusal.to_string(), asked }))
            }
            Err(NotTaken::NotKept(error)) => Ok(Err(Walked::NotKept(error))),
        }
    }

    /// `do = "wait"` lets the clock of the file run until the wait is over.
    fn answer_to(
        &mut self,
        view: View<'_>,
        prompt: &Prompt,
        line: &Answered,
    ) -> Result<Option<Answer>, String> {
        match &prompt.ask {
            Ask::Wait { until, .. } if line.act.as_deref() == Some("wait") => {
                self.clock = until.clone();
                Ok(None)
            }
            _ => line.answer(view, prompt).map(Some),
        }
    }

    fn pass(&mut self, pause: SignedDuration) -> Result<(), String> {
        let later = self.clock.checked_add(pause);
        self.clock = later.map_err(|_| "the clock of the answers would pass the year 9999".to_owned())?;
        Ok(())
    }

    /// The question and the answer, or what was done besides; a reading is shown with its verdict instead, once it is
    /// taken.
    fn show(
        &mut self,
        ui: &mut dyn Ui,
        view: View<'_>,
        (prompt, answer): (&Prompt, &Answer),
        line: &Answered,
    ) -> io::Result<()> {
        if self.shown != prompt.step {
            self.shown = prompt.step;
            ui.say(&heading(view, prompt))?;
        }
        match &prompt.ask {
            Ask::Do => ui.say(&super::screen::computed(view, prompt).indented(4))?,
            Ask::Failed(name) => ui.say(&super::screen::failed(view, name).indented(4))?,
            Ask::Fastening(ask) => ui.say(&super::fastening::failed(view, ask).indented(4))?,
            _ => {}
        }
        let aside = aside::aside(view, prompt, answer);
        if aside.is_none() && matches!(prompt.ask, Ask::Reading(_)) && line.enter.is_some() {
            return Ok(());
        }
        let (asked, given) = aside.unwrap_or_else(|| (question(view, prompt), answered(line)));
        let text = Line::new()
            .with(Role::Plain, format!("{asked} "))
            .with(Role::Strong, format!("{given}{}", late_words(line)))
            .indent(4)
            .hang(2);
        ui.say(&text.into())
    }
}

fn answered(line: &Answered) -> String {
    let given = line.enter.as_deref().or(line.act.as_deref()).unwrap_or_default();
    let reason = line.reason.as_ref().map(|reason| format!(": {reason}")).unwrap_or_default();
    format!("{given}{reason}")
}

/// That an answer is entered late: `, done at 18:40, entered late: from paper`.
fn late_words(line: &Answered) -> String {
    let done = line.done_at.as_ref().map(|done| format!(", done at {done}"));
    let late = line.late.as_ref().map(|late| format!(", entered late: {late}"));
    done.into_iter().chain(late).collect()
}

fn heading(view: View<'_>, prompt: &Prompt) -> Text {
    let Some(step) = prompt.step.and_then(|step| view.book.procedure.step(step)) else {
        return Text::new();
    };
    let line = Line::marked(step.number.clone(), words::text(view, &step.text));
    Text::new().blank().line(line)
}

fn question(view: View<'_>, prompt: &Prompt) -> String {
    let procedure = &view.book.procedure;
    match &prompt.ask {
        Ask::Confirm { hold, item } => {
            let hold = procedure.hold(hold);
            hold.and_then(|hold| hold.confirm.get(*item)).cloned().unwrap_or_default() + ":"
        }
        Ask::Release { role, .. } => format!("released by the {role}:"),
        Ask::Person(role) => format!("{role}:"),
        Ask::Odometer => "odometer:".to_owned(),
        Ask::Acknowledge(hazard) => {
            let hazard = procedure.hazard(hazard);
            let words = hazard.map(|hazard| format!("{}: {} ->", hazard.signal.word(), hazard.hazard));
            words.unwrap_or_default()
        }
        Ask::Flow(ask) => super::flow::question(view, ask),
        Ask::People(ask) => super::people::question(view, ask),
        Ask::Fastening(ask) => super::fastening::question(view, ask),
        Ask::Particular(ask) => super::particular::question(view, ask),
        Ask::Interruption(ask) => super::interruption::question(view, ask),
        Ask::LooseEnd(end) => super::loose::question(view, end),
        Ask::Reading(name) | Ask::Failed(name) | Ask::VehicleValue(name) => {
            format!("{}:", procedure.called(name))
        }
        _ => "->".to_owned(),
    }
}

fn step_words(view: View<'_>, prompt: &Prompt) -> String {
    let step = prompt.step.and_then(|step| view.book.procedure.step(step));
    step.map_or_else(
        || "no step".to_owned(),
        |step| format!("step {}: {}", step.number, words::text(view, &step.text)),
    )
}
