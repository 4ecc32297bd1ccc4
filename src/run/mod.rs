//! The state machine of a run: pure and total.
//!
//! A run unrolls its procedure into a [`Tree`] of [`Occurrence`]s. [`decide`] turns an [`Answer`] into an [`Event`] with
//! its address or refuses it, [`apply`] and [`replay`] put events into the occurrences they belong to, and
//! [`View::next`] says what to ask: a [`Prompt`]. One answer makes one event.
//!
//! What was said is kept; what is done, failed, not applicable, in force or next follows from it ([`Derived`], [`View`]),
//! so that a correction changes everything that rests on it. A [`View`] sees a run from one of its occurrences.

mod apply;
mod book;
mod certainty;
mod completion;
mod critical_act;
mod decide;
mod derived;
mod deviation;
mod entry;
mod event;
mod fastening;
mod flow;
mod grounds;
mod hazards;
mod holds;
mod in_force;
mod instruments;
mod interruption;
mod judge;
mod kept_file;
mod lateness;
mod leave_out;
mod looked_over;
mod next;
mod open;
mod opinion;
mod passes;
mod people;
mod people_facts;
mod people_refusal;
mod people_script;
mod placing;
mod present;
mod prompt;
mod refusal;
mod rehearsal;
mod resting;
mod returns;
mod revised;
mod script;
mod script_times;
mod second;
mod state;
mod statements;
mod steps;
mod stopwatch;
mod taking;
mod taking_up;
mod times;
mod told;
mod unrolled;
mod unsettled;
mod view;
mod waits;
mod weighed;
mod work;
mod world;

pub use apply::{apply, replay};
pub use book::Book;
pub use certainty::Certainty;
pub use decide::{Decided, Input, decide, initials};
pub use derived::Derived;
pub use deviation::{Departure, Deviation};
pub use event::{Answered, Disposition, Event, KeptFile, Leave, Pin, Stamp, Start};
pub use fastening::{
    Act, Aim, FasteningAnswer, FasteningAsk, FasteningEvent, Place, Spot, Tightening, place_count,
};
pub use flow::{FlowAnswer, FlowAsk, FlowEvent};
pub(crate) use holds::later;
pub use holds::{Protection, Verification};
pub use in_force::LimitInForce;
pub use instruments::Instrument;
pub use interruption::{Declared, InterruptionAnswer, InterruptionAsk, InterruptionEvent};
pub use judge::{Judged, Judgement, Standing};
pub use lateness::{LateAnswer, LateEntry};
pub(crate) use looked_over::doers;
pub use next::Coming;
pub use open::OpenItem;
pub use opinion::Opinion;
pub use passes::{LateRow, Over, Pass, Round};
pub use people::{PeopleAnswer, PeopleAsk, PeopleEvent};
pub use people_facts::{Held, PeopleFacts, SecondTaken, Turnover};
pub use people_refusal::PeopleRefusal;
pub use prompt::{Answer, Ask, Prompt, SlipCheck};
pub use refusal::Refusal;
pub use rehearsal::{Packed, Stretch, Together};
pub use resting::{CanStop, Unsafe};
pub use returns::Within;
pub use revised::Replaced;
pub use script::{ANSWERS_DIFFER, CODES, Line, Script};
pub use second::SecondStanding;
pub use state::{
    Before, Deferral, Given, LapseOf, LapsePoint, Left, Origin, Revision, Sitting, State, Taken,
};
pub use statements::{Interruption, Statement};
pub use steps::{Applies, Status};
pub(crate) use stopwatch::timed_here;
pub use taking::{TakingAnswer, TakingAsk, TakingEvent, Takings};
pub use taking_up::Away;
pub(crate) use times::length;
pub use times::{Jump, Jumped, Stated, Times};
pub use told::{StepResult, Told};
pub use unrolled::StepAt;
pub use unsettled::Unsettled;
pub use view::View;
pub use waits::{RunningWait, WaitStands};
pub use work::{
    Accepted, Address, Attempts, Ending, HoldSaid, HoldWord, Occurrence, OccurrenceId, Part, PassEnd, Said,
    Tree, Turns,
};
pub use world::Known;
