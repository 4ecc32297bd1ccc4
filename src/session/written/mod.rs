//! Events as they stand in the journal. These types are the format; the live ones may change freely.

mod fastening;
mod flow;
mod interruption;
mod line;
mod loose;
mod particular;
mod people;
mod values;

use serde::{Deserialize, Serialize};

use crate::journal::{read_time, write_time};
use crate::procedure::{Name, StepId};
use crate::run::{Event, LateEntry, Leave, Start};
pub use fastening::WrittenFastening;
pub use flow::WrittenFlow;
pub use interruption::WrittenInterruption;
pub use line::{WrittenLine, written_line};
pub use loose::{WrittenInherited, WrittenLoose};
pub use particular::WrittenParticular;
pub use people::WrittenPeople;
pub(super) use values::unread;
pub use values::{Unread, WrittenAnswer, WrittenDisposition, WrittenEntry, WrittenPin};

/// An event as written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Written {
    /// The run began.
    Started {
        run: String,
        engine: String,
        procedure: WrittenPin,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        linked: Vec<WrittenPin>,
        sheet: Option<WrittenPin>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        job: Option<String>,
        #[serde(default, skip_serializing_if = "WrittenInherited::is_empty")]
        inherited: WrittenInherited,
        answered_from: Option<String>,
    },
    /// Who fills a role.
    Person { role: String, name: String },
    /// The odometer at the start.
    Odometer { value: WrittenEntry },
    /// A vehicle value and its source.
    VehicleValue { name: String, value: WrittenAnswer, source: String },
    /// A hazard was acknowledged.
    Acknowledged { step: usize, hazard: String },
    /// A statement of a hold point is true.
    Confirmed { hold: String, item: usize },
    /// A statement of a hold point is not true.
    Contradicted { hold: String, item: usize, state: String },
    /// A hold point was released.
    Released { hold: String, role: String },
    /// A step was picked.
    Picked { step: usize },
    /// A reading.
    Reading { name: String, value: WrittenAnswer },
    /// A correction of a reading.
    Correction { name: String, entry: u64, value: WrittenAnswer, reason: String },
    /// Readings are taken again.
    Again { names: Vec<String>, reason: String },
    /// A failed result is gone on with.
    Accepted { name: String, disposition: WrittenDisposition, reason: String },
    /// An overlong wait is gone on with.
    LateAccepted { step: usize, wait: String, disposition: WrittenDisposition, reason: String },
    /// A step was done.
    Done { step: usize },
    /// A step does not apply.
    NotApplicable { step: usize, reason: String },
    /// A step was put off.
    Deferred { step: usize, before: usize, reason: String },
    /// A remark.
    Note { text: String },
    /// Something was disturbed.
    Disturbed {
        what: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        hold: Option<String>,
    },
    /// The sitting was suspended.
    Suspended {
        reason: String,
        state: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        first: Option<String>,
    },
    /// The job was stopped.
    Stopped { reason: String, state: String },
    /// The run was taken up again; these steps are looked at again.
    Resumed {
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        look_again: Vec<usize>,
    },
    /// The resume brief was read.
    BriefRead {},
    /// A deviation was decided about.
    Disposed { deviation: usize, disposition: WrittenDisposition, reason: String },
    /// On the way through the steps.
    Flow(WrittenFlow),
    /// Among people.
    People(WrittenPeople),
    /// At a group of fasteners.
    Fastening(WrittenFastening),
    /// Particulars: an instrument, a file, what was typed, what the vehicle is.
    Particular(WrittenParticular),
    /// Of loose ends.
    Loose(WrittenLoose),
    /// Something was done before it was entered.
    Late { done: String, reason: String, event: Box<Written> },
    /// Before, between and after.
    Interruption(WrittenInterruption),
    /// The run was closed.
    Closed {},
}

impl From<&Event> for Written {
    fn from(event: &Event) -> Self {
        match event.clone() {
            Event::Started(start) => started(*start),
            Event::PersonNamed { role, person } => Self::Person { role: role.to_string(), name: person },
            Event::OdometerRead(entry) => Self::Odometer { value: (&entry).into() },
            Event::VehicleValueGiven { name, value, source } => {
                Self::VehicleValue { name: name.to_string(), value: value.into(), source }
            }
            Event::Acknowledged { step, hazard } => {
                Self::Acknowledged { step: step.0, hazard: hazard.to_string() }
            }
            Event::Confirmed { hold, item } => Self::Confirmed { hold: hold.to_string(), item },
            Event::Contradicted { hold, item, state } => {
                Self::Contradicted { hold: hold.to_string(), item, state }
            }
            Event::Released { hold, role } => {
                Self::Released { hold: hold.to_string(), role: role.to_string() }
            }
            Event::Picked(step) => Self::Picked { step: step.0 },
            Event::Read { reading, value } => {
                Self::Reading { name: reading.to_string(), value: value.into() }
            }
            Event::Corrected { reading, entry, value, reason } => {
                Self::Correction { name: reading.to_string(), entry, value: value.into(), reason }
            }
            Event::TakenAgain { readings, reason } => {
                Self::Again { names: readings.into_iter().map(|name| name.to_string()).collect(), reason }
            }
            Event::Accepted { name, disposition, reason } => {
                Self::Accepted { name: name.to_string(), disposition: disposition.into(), reason }
            }
            Event::LateAccepted { step, wait, disposition, reason } => Self::LateAccepted {
                step: step.0,
                wait: wait.to_string(),
                disposition: disposition.into(),
                reason,
            },
            Event::Done(step) => Self::Done { step: step.0 },
            Event::NotApplicable { step, reason } => Self::NotApplicable { step: step.0, reason },
            Event::Deferred { step, before, reason } => {
                Self::Deferred { step: step.0, before: before.0, reason }
            }
            Event::Noted(text) => Self::Note { text },
            Event::Disturbed { what, hold } => {
                Self::Disturbed { what, hold: hold.map(|hold| hold.to_string()) }
            }
            Event::Left { how: Leave::Suspend, reason, state, first } => {
                Self::Suspended { reason, state, first }
            }
            Event::Left { how: Leave::Stop, reason, state, .. } => Self::Stopped { reason, state },
            Event::Resumed { look_again } => {
                Self::Resumed { look_again: look_again.into_iter().map(|step| step.0).collect() }
            }
            Event::BriefAccepted => Self::BriefRead {},
            Event::Disposed { deviation, disposition, reason } => {
                Self::Disposed { deviation, disposition: disposition.into(), reason }
            }
            Event::Flow(event) => Self::Flow(event.into()),
            Event::People(event) => Self::People(event.into()),
            Event::Fastening(event) => Self::Fastening(event.into()),
            Event::Particular(event) => Self::Particular(event.into()),
            Event::Loose(event) => Self::Loose(event.into()),
            Event::Late(late) => Self::Late {
                done: write_time(&late.done),
                reason: late.reason.clone(),
                event: Box::new(Self::from(&*late.event)),
            },
            Event::Interruption(event) => Self::Interruption(event.into()),
            Event::Closed => Self::Closed {},
        }
    }
}

fn started(start: Start) -> Written {
    Written::Started {
        run: start.run,
        engine: start.engine,
        procedure: start.procedure.into(),
        linked: start.linked.into_iter().map(Into::into).collect(),
        sheet: start.sheet.map(Into::into),
        job: start.job,
        inherited: (&start.inherited).into(),
        answered_from: start.answered_from,
    }
}

impl Written {
    /// The live event, or which part of it this version cannot read.
    pub fn read(self) -> Result<Event, Unread> {
        Ok(match self {
            Self::Started { run, engine, procedure, linked, sheet, job, inherited, answered_from } => {
                Event::Started(Box::new(Start {
                    run,
                    engine,
                    procedure: procedure.into(),
                    linked: linked.into_iter().map(Into::into).collect(),
                    sheet: sheet.map(Into::into),
                    job,
                    inherited: inherited.read()?,
                    answered_from,
                }))
            }
            Self::Person { role, name } => Event::PersonNamed { role: Name::from(role), person: name },
            Self::Odometer { value } => Event::OdometerRead(value.read()?),
            Self::VehicleValue { name, value, source } => {
                Event::VehicleValueGiven { name: Name::from(name), value: value.read()?, source }
            }
            Self::Acknowledged { step, hazard } => {
                Event::Acknowledged { step: StepId(step), hazard: Name::from(hazard) }
            }
            Self::Confirmed { hold, item } => Event::Confirmed { hold: Name::from(hold), item },
            Self::Contradicted { hold, item, state } => {
                Event::Contradicted { hold: Name::from(hold), item, state }
            }
            Self::Released { hold, role } => {
                Event::Released { hold: Name::from(hold), role: Name::from(role) }
            }
            Self::Picked { step } => Event::Picked(StepId(step)),
            Self::Reading { name, value } => Event::Read { reading: Name::from(name), value: value.read()? },
            Self::Correction { name, entry, value, reason } => {
                Event::Corrected { reading: Name::from(name), entry, value: value.read()?, reason }
            }
            Self::Again { names, reason } => {
                Event::TakenAgain { readings: names.into_iter().map(Name::from).collect(), reason }
            }
            Self::Accepted { name, disposition, reason } => {
                Event::Accepted { name: Name::from(name), disposition: disposition.into(), reason }
            }
            Self::LateAccepted { step, wait, disposition, reason } => Event::LateAccepted {
                step: StepId(step),
                wait: Name::from(wait),
                disposition: disposition.into(),
                reason,
            },
            Self::Done { step } => Event::Done(StepId(step)),
            Self::NotApplicable { step, reason } => Event::NotApplicable { step: StepId(step), reason },
            Self::Deferred { step, before, reason } => {
                Event::Deferred { step: StepId(step), before: StepId(before), reason }
            }
            Self::Note { text } => Event::Noted(text),
            Self::Disturbed { what, hold } => Event::Disturbed { what, hold: hold.map(Name::from) },
            Self::Suspended { reason, state, first } => {
                Event::Left { how: Leave::Suspend, reason, state, first }
            }
            Self::Stopped { reason, state } => Event::Left { how: Leave::Stop, reason, state, first: None },
            Self::Resumed { look_again } => {
                Event::Resumed { look_again: look_again.into_iter().map(StepId).collect() }
            }
            Self::BriefRead {} => Event::BriefAccepted,
            Self::Disposed { deviation, disposition, reason } => {
                Event::Disposed { deviation, disposition: disposition.into(), reason }
            }
            Self::Flow(event) => Event::Flow(event.read()?),
            Self::People(event) => Event::People(event.read()?),
            Self::Fastening(event) => Event::Fastening(event.read()?),
            Self::Particular(event) => Event::Particular(event.read()?),
            Self::Loose(event) => Event::Loose(event.read()),
            Self::Late { done, reason, event } => Event::Late(LateEntry {
                done: read_time(&done).map_err(|_| unread(&done))?,
                reason,
                event: Box::new(event.read()?),
            }),
            Self::Interruption(event) => Event::Interruption(event.read()?),
            Self::Closed {} => Event::Closed,
        })
    }
}
