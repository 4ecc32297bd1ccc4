//! Answers from a file: the same machine without a person at a terminal.

use jiff::SignedDuration;
use jiff::ZonedDateTime;
use serde::Deserialize;
use toml::Spanned as TomlSpanned;

use crate::procedure::{Name, StepId};
use crate::run::answers::times::{clock, duration, pace};
use crate::run::event::{Disposition, Leave};
use crate::run::fastening::{FasteningAnswer, Spot};
use crate::run::flow::event::{FlowAnswer, FlowAsk};
use crate::run::people::event::PeopleAnswer;
use crate::run::prompt::{Answer, Ask, Prompt, SlipCheck};
use crate::run::readings::event::{TakingAnswer, TakingAsk};
use crate::run::readings::lateness::LateAnswer;
use crate::run::sitting::InterruptionAnswer;
use crate::run::state::Before;
use crate::run::view::View;
use crate::run::work::OccurrenceId;
use crate::source::{Code, Diagnostic, Span};

/// The file of answers cannot be read.
pub static ANSWERS_FILE: Code = Code {
    name: "answers-file",
    summary: "the file of answers is not written as it should be",
    teaching: "A file of answers is TOML: `format = 1`, the time at which it begins (`clock`), and `answers`, one table a \
line: where the run stands (`at`), and what is entered (`enter`) or done (`do`).

What can be done: `read` (the resume brief), `acknowledge`, `true`, `untrue` (with `state`), `good` and `not good` (beside a nominal value, the latter with `state`), `done`, `again` (with \
`reason`), `accept` and `dispose` (with `disposition` and `reason`), `not applicable` (with `reason`), `later` (with \
`before` and `reason`), `correct` (with `reading`, `enter` and `reason`, of an \
earlier pass with `pass`, its number or its item; a value of the vehicle with its `source`, and `odometer`; of a name with \
its `role`), `instrument` (with \
`tool`, `enter` and `due`), `note` and `disturbed` (with `reason`), \
`complete` (a section), `work done` (of a section that is confirmed afterwards), `counts` and `invalid` (a pass, the \
latter with `reason`), `one more` (with `reason`), `give up` (with `disposition` and `reason`), `begin anew` (the \
section, with `reason`), `missed` (the procedure's path for a missed wait), `early` (a row of a log before it is due), at a group \
of fasteners `stage set`, `done`, `left out` (with `reason`), `loosened` (with `group`, `reason` and, for one place, \
`position`) and `correct` (with `group`, `stage`, `position`, `enter` and `reason`), `suspend` (with `reason`, `state` \
and, where it helps, `first`: what comes first next time) and `stop` (with `reason` and `state`), `keep` (the person of a \
role; a protection in force when the sitting ends) and `make safe` (such a protection), `deviation` (with `enter`, its \
sort, and `reason`), `not approved` (a step left out, with `reason`; the lead's name or initials in `enter` approve it), \
`take over` (a `role`, with the name in `enter` and what has to be known in \
`reason`), `absent` (with `reason`), `re-inspect` (with the name in `enter`, and `reason`), `wait` (until a wait is \
over), `close`. A vehicle value has its \
`source`, an instrument the day on which its calibration is `due`, an unlikely value `sure = true`; `after` is the time since the answer before. What was done before it is \
entered has `done_at` (a time, or a date and a time) and `late` (why: `from paper`).

Wrong: `answers = [{ at = \"caught\", answer = \"1 qt\" }]`

Right: `answers = [{ at = \"caught\", enter = \"1 qt\" }]`",
};

/// An answer is missing, or stands where something else is asked.
pub static ANSWERS_DIFFER: Code = Code {
    name: "answers-differ",
    summary: "the answers in the file are not those that the run asks for",
    teaching: "The answers of a file are given in the order in which the run asks. Each says in `at` where it belongs: the \
name of a role, a reading, a hazard or a hold point, or the number of a step. When the run asks for something else, \
the file has an answer too few or too many, and the run stands still there: nothing entered is lost.

Wrong: an answer `at = \"2.3\"` while the run asks for the reading `supply` of step 2.2.

Right: put `{ at = \"supply\", enter = \"28 psi\" }` before it.",
};

/// What can be done in a file of answers, in the words of `do`.
const DEEDS: &str = "read, acknowledge, true, untrue, good, not good, done, again, accept, dispose, not applicable, later, correct, instrument, \
note, disturbed, complete, work done, counts, invalid, one more, give up, begin anew, missed, early, stage set, left out, loosened, \
keep, make safe, not approved, deviation, take over, absent, re-inspect, suspend, stop, wait and close";

/// Where the odometer is asked for, and what it is called where it is told unasked.
pub(in crate::run) const ODOMETER: &str = "odometer";

/// The codes of this folder, by name.
pub static CODES: &[&Code] = &[&ANSWERS_DIFFER, &ANSWERS_FILE];

/// A file of answers.
#[derive(Clone, Debug)]
pub struct Script {
    /// When it begins.
    pub clock: ZonedDateTime,
    /// The time from one answer to the next, where an answer does not say otherwise.
    pub pace: SignedDuration,
    /// The answers, in order.
    pub lines: Vec<(Line, Span)>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    format: TomlSpanned<u32>,
    clock: TomlSpanned<String>,
    pace: Option<TomlSpanned<String>>,
    answers: Vec<TomlSpanned<Line>>,
}

/// One answer.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Line {
    /// Where the run stands: see [`Prompt::label`].
    pub at: String,
    /// What is typed.
    pub enter: Option<String>,
    /// What is done, in a word.
    #[serde(rename = "do")]
    pub act: Option<String>,
    /// Why.
    pub reason: Option<String>,
    /// Where a deferred step comes back: before a step, by its number, before a hold point, by its name, or at the end
    /// of a section: `section 3`.
    pub before: Option<String>,
    /// How things are: for a statement that is untrue, for a sitting that ends.
    pub state: Option<String>,
    /// What comes first next time, where a sitting is suspended.
    pub first: Option<String>,
    /// Where a vehicle value was found.
    pub source: Option<String>,
    /// What is corrected: a reading, a value of the vehicle, or `odometer`.
    pub reading: Option<String>,
    /// In which pass the entry was made that is corrected: its number or its item, the outer one first: `2 / left`.
    pub pass: Option<String>,
    /// The role that somebody takes over, or whose name was entered wrongly.
    pub role: Option<String>,
    /// The tool for which an instrument is named.
    pub tool: Option<String>,
    /// The day on which the calibration of an instrument comes due.
    pub due: Option<String>,
    /// What is decided about a deviation.
    pub disposition: Option<String>,
    /// When it was really done, where it is entered late: a time, or a date and a time.
    pub done_at: Option<String>,
    /// Why it is entered late.
    pub late: Option<String>,
    /// The group of fasteners.
    pub group: Option<String>,
    /// The stage of the group, as it is called.
    pub stage: Option<String>,
    /// The place in the group.
    pub position: Option<String>,
    /// An unlikely value is so.
    #[serde(default)]
    pub sure: bool,
    /// The time since the answer before.
    pub after: Option<String>,
}

impl Script {
    /// Reads a file of answers.
    pub fn read(text: &str) -> Result<Self, Box<Diagnostic>> {
        let written: Written = toml::from_str(text).map_err(|error| {
            problem(error.span().unwrap_or_default(), error.message(), "the file of answers cannot be read")
        })?;
        if *written.format.get_ref() != 1 {
            return Err(problem(written.format.span(), "write 1", "this format of answers is not known"));
        }
        Ok(Self {
            clock: clock(&written.clock)?,
            pace: written.pace.as_ref().map_or(Ok(SignedDuration::from_secs(20)), pace)?,
            lines: lines(written.answers)?,
        })
    }
}

pub(in crate::run) fn problem(place: std::ops::Range<usize>, label: &str, message: &str) -> Box<Diagnostic> {
    Box::new(Diagnostic::error(&ANSWERS_FILE, message).at(Span::new(place.start, place.end), label))
}

fn line(line: TomlSpanned<Line>) -> (Line, Span) {
    let span = Span::new(line.span().start, line.span().end);
    (line.into_inner(), span)
}

/// The answers, each with its place. A time in them that cannot be used is found before anything is answered.
fn lines(answers: Vec<TomlSpanned<Line>>) -> Result<Vec<(Line, Span)>, Box<Diagnostic>> {
    let usable = |line: TomlSpanned<Line>| match line.get_ref().pause() {
        Some(Err(why)) => Err(problem(line.span(), &why, "this time cannot be used")),
        _ => Ok(self::line(line)),
    };
    answers.into_iter().map(usable).collect()
}

impl Line {
    /// The time since the answer before, where the line says it.
    pub fn pause(&self) -> Option<Result<SignedDuration, String>> {
        self.after.as_deref().map(duration)
    }

    /// The answer that this line gives to a prompt, or what it lacks.
    pub fn answer(&self, view: View<'_>, prompt: &Prompt) -> Result<Answer, String> {
        let Some(done) = &self.done_at else {
            return self.answer_now(view, prompt);
        };
        let reason = given("late", self.late.as_ref())?;
        let at = view.done_at(done).map_err(|refusal| refusal.to_string())?;
        let answer = self.answer_now(view, &view.prompt_of_late(prompt, &at))?;
        Ok(Answer::from(LateAnswer { answer: Box::new(answer), done: done.clone(), reason }))
    }

    /// Whether the line tells what the odometer shows, where the run asks for something else.
    pub fn tells_odometer(&self, asked: &str) -> bool {
        self.at == ODOMETER && self.act.is_none() && asked != ODOMETER
    }

    fn answer_now(&self, view: View<'_>, prompt: &Prompt) -> Result<Answer, String> {
        if let Some(text) = self.enter.as_ref().filter(|_| self.tells_odometer(&prompt.label(view))) {
            return Ok(Answer::Taking(TakingAnswer::Odometer(text.clone())));
        }
        if let Ask::Interruption(ask) = &prompt.ask
            && let Some(answer) = self.between(ask)?
        {
            return Ok(Answer::Interruption(answer));
        }
        match (&self.act, &self.enter) {
            (Some(word), _) => self.acted(view, word),
            (None, Some(text)) => self.entered(view, &prompt.ask, text),
            (None, None) => Err("say what to `enter` or what to `do`".to_owned()),
        }
    }

    fn entered(&self, view: View<'_>, ask: &Ask, text: &str) -> Result<Answer, String> {
        let slip = if self.sure { SlipCheck::Sure } else { SlipCheck::Ask };
        Ok(match ask {
            Ask::Person(_) => Answer::Person(text.to_owned()),
            Ask::VehicleValue(_) => {
                Answer::Sourced { text: text.to_owned(), source: given("source", self.source.as_ref())? }
            }
            Ask::Release { .. } => Answer::Release { said: text.to_owned() },
            Ask::Pick(_) => Answer::Pick(step(view, text)?),
            Ask::Taking(ask) => Answer::Taking(self.taken(ask, text)?),
            Ask::Flow(FlowAsk::Choose { .. }) => Answer::Flow(FlowAnswer::Choose(step(view, text)?)),
            Ask::People(ask) => crate::run::answers::people::entered(ask, text)
                .unwrap_or_else(|| Answer::Typed { text: text.to_owned(), slip }),
            _ => Answer::Typed { text: text.to_owned(), slip },
        })
    }

    fn acted(&self, view: View<'_>, word: &str) -> Result<Answer, String> {
        let reason = || given("reason", self.reason.as_ref());
        let state = || given("state", self.state.as_ref());
        Ok(match word {
            "read" => Answer::AcceptBrief,
            "acknowledge" => Answer::Acknowledge,
            "true" => Answer::True,
            "untrue" => Answer::Untrue { state: state()? },
            "good" => Answer::Good,
            "not good" => Answer::NotGood { state: state()? },
            "done" => Answer::Done,
            "again" => Answer::Again { reason: reason()? },
            "accept" => Answer::Accept { disposition: self.disposition()?, reason: reason()? },
            "dispose" => Answer::Dispose { disposition: self.disposition()?, reason: reason()? },
            "not applicable" => Answer::NotApplicable { reason: reason()? },
            "later" => {
                let point = given("before", self.before.as_ref())?;
                match Before::named(view.book, &point) {
                    Some(Before::Step(before)) => Answer::Defer { before, reason: reason()? },
                    Some(Before::EndOf(section)) => {
                        let reason = reason()?;
                        Answer::Interruption(InterruptionAnswer::DeferToEnd { section, reason })
                    }
                    None => return Err(format!("there is no step, hold point or section `{point}`")),
                }
            }
            "correct" if self.position.is_some() => Answer::Fastening(FasteningAnswer::Correct {
                at: self.spot(view)?,
                entry: None,
                text: given("enter", self.enter.as_ref())?,
                reason: reason()?,
            }),
            "correct" => self.correction(view)?,
            "instrument" => Answer::Taking(TakingAnswer::Instrument {
                tool: Name(given("tool", self.tool.as_ref())?),
                identity: given("enter", self.enter.as_ref())?,
                due: given("due", self.due.as_ref())?,
            }),
            "note" => Answer::Note(reason()?),
            "disturbed" => Answer::Disturbed(reason()?),
            "suspend" => {
                let first = self.first.clone();
                Answer::Leave { how: Leave::Suspend, reason: reason()?, state: state()?, first }
            }
            "stop" => Answer::Leave { how: Leave::Stop, reason: reason()?, state: state()?, first: None },
            "deviation" => {
                let declared = self.declared()?;
                Answer::Interruption(InterruptionAnswer::Declare { declared, reason: reason()? })
            }
            "close" => Answer::Close,
            "complete" => Answer::Flow(FlowAnswer::Complete),
            "work done" => Answer::Flow(FlowAnswer::WorkDone),
            "counts" => Answer::Flow(FlowAnswer::Counts),
            "invalid" => Answer::Flow(FlowAnswer::Invalid { reason: reason()? }),
            "one more" => Answer::Flow(FlowAnswer::Extend { reason: reason()? }),
            "give up" => {
                let disposition = self.disposition()?;
                Answer::Flow(FlowAnswer::GiveUp { disposition, reason: reason()? })
            }
            "begin anew" => Answer::Flow(FlowAnswer::Restart { reason: reason()? }),
            "missed" => Answer::Flow(FlowAnswer::Missed),
            "early" => Answer::Flow(FlowAnswer::Early),
            "keep" | "take over" | "absent" | "re-inspect" => crate::run::answers::people::acted(self, word)?,
            "stage set" => Answer::Fastening(FasteningAnswer::StageSet),
            "left out" => Answer::Fastening(FasteningAnswer::Skip { reason: reason()? }),
            "loosened" => Answer::Fastening(FasteningAnswer::Loosened {
                group: Name(given("group", self.group.as_ref())?),
                position: self.position.clone(),
                reason: reason()?,
            }),
            other => {
                return Err(format!("`{other}` is nothing that can be done; {DEEDS} can"));
            }
        })
    }

    /// An answer on how a reading is taken.
    fn taken(&self, ask: &TakingAsk, text: &str) -> Result<TakingAnswer, String> {
        Ok(match ask {
            TakingAsk::Instrument(tool) | TakingAsk::Overdue(tool) => TakingAnswer::Instrument {
                tool: tool.clone(),
                identity: text.to_owned(),
                due: given("due", self.due.as_ref())?,
            },
            TakingAsk::Critical(_) => TakingAnswer::Typed(text.to_owned()),
        })
    }

    /// A correction of a reading, of a value of the vehicle, or of the odometer.
    fn correction(&self, view: View<'_>) -> Result<Answer, String> {
        let text = given("enter", self.enter.as_ref())?;
        let reason = given("reason", self.reason.as_ref())?;
        if let Some(role) = &self.role {
            let role = Name(role.clone());
            return Ok(Answer::People(PeopleAnswer::CorrectName { role, person: text, reason }));
        }
        let name = Name(given("reading", self.reading.as_ref())?);
        let procedure = &view.book.procedure;
        if procedure.reading(&name).is_some() {
            let entry = self.pass.as_ref().map(|pass| entry_in(view, &name, pass)).transpose()?;
            return Ok(Answer::Correct { reading: name, entry, text, reason });
        }
        Ok(Answer::Taking(match name.as_str() {
            ODOMETER if !procedure.vehicle().contains(&name) => {
                TakingAnswer::CorrectOdometer { text, reason }
            }
            _ => {
                let source = given("source", self.source.as_ref())?;
                TakingAnswer::CorrectVehicleValue { name, text, source, reason }
            }
        }))
    }

    fn spot(&self, view: View<'_>) -> Result<Spot, String> {
        let group = Name(given("group", self.group.as_ref())?);
        let stage = given("stage", self.stage.as_ref())?;
        let declared = view.book.procedure.fastener_group(&group);
        let mut stages = declared.into_iter().flat_map(|declared| &declared.stages);
        let place = stages.position(|declared| declared.what == stage);
        let place = place.ok_or_else(|| format!("there is no stage `{stage}` of `{group}`"))?;
        Ok(Spot { group, stage: place, position: given("position", self.position.as_ref())? })
    }

    pub(in crate::run) fn disposition(&self) -> Result<Disposition, String> {
        let words = given("disposition", self.disposition.as_ref())?;
        Disposition::from_words(&words)
            .ok_or_else(|| format!("`{words}` is no disposition: rework, repair, use as is, reject"))
    }
}

pub(in crate::run) fn given(what: &str, value: Option<&String>) -> Result<String, String> {
    value.cloned().ok_or_else(|| format!("`{what}` is missing here"))
}

/// The newest entry of a reading in a pass.
fn entry_in(view: View<'_>, reading: &Name, pass: &str) -> Result<u64, String> {
    let wanted: Vec<&str> = pass.split('/').map(str::trim).collect();
    let is_meant = |at: &OccurrenceId| {
        let passes = view.inside(*at).passes_around(reading);
        let inner = passes.len().checked_sub(wanted.len()).and_then(|skip| passes.get(skip..));
        inner.is_some_and(|inner| {
            let mut pairs = inner.iter().zip(&wanted);
            pairs.all(|((number, item), wanted)| number == wanted || item.as_deref() == Some(*wanted))
        })
    };
    let entries = view.state.attempts_at(reading).filter(|(at, _)| is_meant(at));
    let newest = entries.filter_map(|(_, attempts)| attempts.latest()).map(|taken| taken.place).max();
    newest.ok_or_else(|| format!("`{reading}` was not entered in pass {pass}"))
}

fn step(view: View<'_>, number: &str) -> Result<StepId, String> {
    let found = view.book.procedure.step_numbered(number);
    found.map(|step| step.id).ok_or_else(|| format!("there is no step {number}"))
}
