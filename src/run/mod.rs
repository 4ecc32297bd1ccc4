//! The state machine of a run: pure and total.
//!
//! A run is a row of [`Event`]s. [`decide`] turns an [`Answer`] into an event or refuses it, [`apply`] and [`replay`]
//! turn events into a [`State`], and [`View::next`] says what to ask: a [`Prompt`]. One answer makes one event.
//!
//! A state holds only facts. What is done, failed, not applicable, in force, or next is worked out from them each
//! time, so a correction changes everything that rests on it.

mod apply;
mod book;
mod certainty;
mod counting;
mod critical_act;
mod decide;
mod entry;
mod event;
mod fastening;
mod flow;
mod found;
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
mod people;
mod people_facts;
mod people_refusal;
mod people_script;
mod present;
mod prompt;
mod refusal;
mod rehearsal;
mod repeats;
mod resting;
mod returns;
mod revised;
mod rounds;
mod rows;
mod script;
mod script_times;
mod second;
mod state;
mod statements;
mod steps;
mod stopwatch;
mod taken_out;
mod taking;
mod taking_up;
mod times;
mod view;
mod waits;
mod world;

pub use apply::{apply, replay};
pub use book::Book;
pub use certainty::Certainty;
pub use decide::{Input, decide, initials};
pub use event::{Answered, Disposition, Event, KeptFile, Leave, Pin, Stamp, Start};
pub use fastening::{
    Act, Aim, FastenerFacts, FasteningAnswer, FasteningAsk, FasteningEvent, Place, Spot, Tightening,
    place_count,
};
pub use flow::{FlowAnswer, FlowAsk, FlowEvent};
pub use holds::Protection;
pub(crate) use holds::later;
pub use in_force::LimitInForce;
pub use instruments::Instrument;
pub use interruption::{Declared, InterruptionAnswer, InterruptionAsk, InterruptionEvent};
pub use judge::{Judged, Judgement, Standing};
pub use lateness::{LateAnswer, LateEntry};
pub(crate) use looked_over::doers;
pub use next::Coming;
pub use open::OpenItem;
pub use people::{PeopleAnswer, PeopleAsk, PeopleEvent};
pub use people_facts::{Incoming, PeopleFacts, SecondTaken};
pub use people_refusal::PeopleRefusal;
pub use prompt::{Answer, Ask, Prompt, SlipCheck};
pub use refusal::Refusal;
pub use rehearsal::{Packed, Stretch, Together};
pub use repeats::{Moved, Scope};
pub use resting::{CanStop, Unsafe};
pub use returns::Within;
pub use revised::Replaced;
pub use rounds::{Begins, Over, Pass, PassEnd, Rounds};
pub use rows::LateRow;
pub use script::{ANSWERS_DIFFER, CODES, Line, Script};
pub use second::SecondStanding;
pub use state::{
    Acceptance, Before, Deferral, Departure, Deviation, Given, Left, Origin, Sitting, State, Taken,
    Verification,
};
pub use statements::{Interruption, Statement};
pub use steps::{Applies, Status};
pub(crate) use stopwatch::timed_here;
pub use taking::{Circumstances, TakingAnswer, TakingAsk, TakingEvent, Takings};
pub use taking_up::Away;
pub(crate) use times::length;
pub use times::{Jump, Jumped, Stated, Times};
pub use view::View;
pub use waits::{RunningWait, WaitStands};
pub use world::Known;
