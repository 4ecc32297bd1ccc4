//! The state machine of a run: pure and total.
//!
//! A run unrolls its procedure into a [`Tree`] of [`Occurrence`]s. [`decide`] turns an [`Answer`] into an [`Event`] with
//! its address or refuses it, [`apply`] and [`replay`] put events into the occurrences they belong to, and
//! [`View::next`] says what to ask: a [`Prompt`]. One answer makes one event.
//!
//! What was said is kept; what is done, failed, not applicable, in force or next follows from it ([`Derived`], [`View`]),
//! so that a correction changes everything that rests on it. A [`View`] sees a run from one of its occurrences.

mod answers;
mod apply;
mod book;
mod decide;
mod event;
mod fastening;
mod flow;
mod holds;
mod next;
mod passes;
mod people;
mod prompt;
mod readings;
mod refusal;
mod sitting;
mod state;
mod step;
mod view;
mod work;
mod world;

pub use apply::{apply, replay};
pub use book::Book;
pub use decide::{Decided, Input, decide, initials};
pub use event::{Answered, Disposition, Event, KeptFile, Leave, Pin, Stamp, Start};
pub use fastening::{
    Act, Aim, FasteningAnswer, FasteningAsk, FasteningEvent, Place, Spot, Tightening, place_count,
};
pub use flow::event::{FlowAnswer, FlowAsk, FlowEvent};
pub(crate) use holds::verification::later;
pub use holds::verification::{Protection, Verification};
pub use readings::certainty::Certainty;
pub use readings::in_force::LimitInForce;
pub use readings::instruments::Instrument;
pub use work::derived::Derived;
pub use work::deviation::{Departure, Deviation};

pub use answers::script::{ANSWERS_DIFFER, CODES, Line, Script};
pub use next::Coming;
pub use passes::{LateRow, Over, Pass, Round};
pub use people::event::{PeopleAnswer, PeopleAsk, PeopleEvent};
pub use people::facts::{Held, PeopleFacts, SecondTaken, Turnover};
pub(crate) use people::oversight::doers;
pub use people::refusal::PeopleRefusal;
pub use prompt::{Answer, Ask, Prompt, SlipCheck};
pub use readings::event::{TakingAnswer, TakingAsk, TakingEvent, Takings};
pub use readings::judge::{Judged, Judgement, Standing};
pub use readings::lateness::{LateAnswer, LateEntry};
pub use readings::opinion::Opinion;
pub use readings::revised::Replaced;
pub use readings::second::SecondStanding;
pub(crate) use readings::stopwatch::timed_here;
pub use refusal::Refusal;
pub use sitting::leave::{CanStop, Unsafe};
pub use sitting::rehearsal::{Packed, Stretch, Together};
pub use sitting::resume::Away;
pub use sitting::statements::{Interruption, Statement};
pub use sitting::{Declared, InterruptionAnswer, InterruptionAsk, InterruptionEvent};
pub use state::{
    Before, Deferral, Given, LapseOf, LapsePoint, Left, Origin, Revision, Sitting, State, Taken,
};
pub use step::linked::Within;
pub use step::status::{Applies, Status};
pub use step::waits::{RunningWait, WaitStands};
pub use view::View;
pub use work::open::OpenItem;
pub(crate) use work::times::length;
pub use work::times::{Jump, Jumped, Stated, Times};
pub use work::told::{StepResult, Told};
pub use work::unrolled::StepAt;
pub use work::unsettled::Unsettled;
pub use work::{
    Accepted, Address, Attempts, Ending, HoldSaid, HoldWord, Occurrence, OccurrenceId, Part, PassEnd, Said,
    Tree, Turns,
};
pub use world::Known;
