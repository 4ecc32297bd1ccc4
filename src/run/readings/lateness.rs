//! Late entries: what was done before it was entered, with both times.

use jiff::ZonedDateTime;
use jiff::civil::{DateTime, Time};

use crate::run::answered::Answered;
use crate::run::apply::Next;
use crate::run::asked;
use crate::run::event::{Event, LateEntry};
use crate::run::fastening::event::FasteningEvent;
use crate::run::particulars::event::ParticularAnswer;
use crate::run::prompt::{Answer, Ask, LateAnswer, Prompt, SlipCheck};
use crate::run::refusal::Refusal;
use crate::run::typed::filled;
use crate::run::view::View;
use crate::run::work::times::Stated;

impl LateEntry {
    /// The answer that made it.
    pub(crate) fn answer(&self) -> LateAnswer {
        let answer = match &*self.event {
            Event::Read { value: Answered::File(file), .. } => {
                Answer::Particular(ParticularAnswer::File(file.clone()))
            }
            Event::Read { value, .. } => Answer::Typed { text: value.as_typed(), slip: SlipCheck::Sure },
            Event::Fastening(event) => event.answer(),
            _ => Answer::Done,
        };
        let done = self.done.strftime("%Y-%m-%dT%H:%M:%S%:z").to_string();
        LateAnswer { answer: Box::new(answer), done, reason: self.reason.clone() }
    }

    /// When it was done, in words: `done 2026-11-21 18:05, entered late`.
    pub fn words(&self) -> String {
        format!("done {}, entered late", self.done.strftime("%Y-%m-%d %H:%M"))
    }
}

impl Event {
    /// What happened, whether it was entered in time or late.
    pub fn itself(&self) -> &Self {
        let mut event = self;
        while let Self::Late(late) = event {
            event = &late.event;
        }
        event
    }

    /// That it was entered late, where it was.
    pub const fn late(&self) -> Option<&LateEntry> {
        match self {
            Self::Late(late) => Some(late),
            _ => None,
        }
    }
}

/// What an answer to something that was done before makes. Its own question has to be there to be answered.
pub(in crate::run) fn decide(view: View<'_>, prompt: &Prompt, late: LateAnswer) -> Result<Event, Refusal> {
    let done = view.done_at(&late.done)?;
    let reason = filled("the reason for the late entry", late.reason)?;
    let prompt = view.prompt_of_late(prompt, &done);
    let event = match *late.answer {
        answer @ (Answer::Typed { .. } | Answer::Done | Answer::Particular(ParticularAnswer::File(_))) => {
            asked::decide(view, &prompt, answer)
        }
        _ => Err(Refusal::NotLate),
    }?;
    let at_hold = prompt.step.and_then(|step| view.book.procedure.step(step)?.hold.as_ref()).is_some();
    match event {
        Event::Done(_) | Event::Read { .. } | Event::Fastening(FasteningEvent::Tightened { .. })
            if !at_hold =>
        {
            let late = LateEntry { event: Box::new(event), done, reason };
            Ok(Event::Late(late))
        }
        _ => Err(Refusal::NotLate),
    }
}

impl View<'_> {
    /// The question that something done at `done` answers: a wait that had not run out then was not missed.
    pub fn prompt_of_late(self, prompt: &Prompt, done: &ZonedDateTime) -> Prompt {
        match prompt.ask {
            Ask::Late { .. } => View { now: done, memo: None, ..self }.next(),
            _ => prompt.clone(),
        }
    }

    /// Whether what is asked now can have been done before.
    pub fn can_be_late(self, prompt: &Prompt) -> bool {
        let at_hold = prompt.step.and_then(|step| self.book.procedure.step(step)?.hold.as_ref()).is_some();
        !at_hold && matches!(prompt.ask, Ask::Do | Ask::Reading(_) | Ask::Fastening(_) | Ask::Late { .. })
    }

    /// A moment that a person names: a time of day today, or a date and a time. It does not lie before the minute in
    /// which the run began, and is not still to come.
    pub fn done_at(self, text: &str) -> Result<ZonedDateTime, Refusal> {
        let typed = text.trim();
        let done = moment(typed, self.now).ok_or_else(|| Refusal::NotAMoment(typed.to_owned()))?;
        if done > *self.now {
            return Err(Refusal::StillToCome(typed.to_owned()));
        }
        let began = self.state.start.as_ref().map(|(_, stamp)| &stamp.at);
        // Whoever names a minute means any moment of it.
        let minute = |moment: &ZonedDateTime| moment.timestamp().as_second().div_euclid(60);
        match began.filter(|began| minute(&done) < minute(began)) {
            Some(began) => Err(Refusal::BeforeStart {
                typed: typed.to_owned(),
                began: began.strftime("%Y-%m-%d %H:%M").to_string(),
            }),
            None => Ok(done),
        }
    }
}

/// `18:05`, `2026-11-21 18:05`, or with its offset `2026-11-21T18:05:00+01:00`.
fn moment(typed: &str, now: &ZonedDateTime) -> Option<ZonedDateTime> {
    let whole = || {
        let pieces = jiff::fmt::temporal::Pieces::parse(typed).ok()?;
        let zone = pieces.to_numeric_offset()?.to_time_zone();
        Some(typed.parse::<jiff::Timestamp>().ok()?.to_zoned_datetime(zone))
    };
    let here = |moment: DateTime| moment.to_zoned_datetime(now.time_zone().clone()).ok();
    let dated = || {
        let (date, time) = typed.split_once([' ', 'T'])?;
        here(date.parse::<jiff::civil::Date>().ok()?.to_datetime(of_day(time)?))
    };
    let today = || here(now.date().to_datetime(of_day(typed)?));
    whole().or_else(dated).or_else(today)
}

/// `18:05` or `18:05:30`.
fn of_day(text: &str) -> Option<Time> {
    let numbers: Vec<i8> = text.trim().split(':').map(|part| part.parse().ok()).collect::<Option<_>>()?;
    match numbers[..] {
        [hour, minute] => Time::new(hour, minute, 0, 0).ok(),
        [hour, minute, second] => Time::new(hour, minute, second, 0).ok(),
        _ => None,
    }
}

impl Next<'_> {
    /// It counts as any other entry; the stated time stands beside its own.
    pub(in crate::run) fn late_entry(&mut self, late: &LateEntry) {
        let stated = Stated { done: late.done.clone(), reason: late.reason.clone() };
        self.state.times.stated.insert(self.stamp.seq, stated);
        self.take(late.event.itself());
    }
}

impl From<LateAnswer> for Answer {
    fn from(late: LateAnswer) -> Self {
        Self::Late(late)
    }
}
