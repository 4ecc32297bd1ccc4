//! The state machine of a run: pure and total.
//!
//! A run unrolls its procedure into a [`Tree`] of [`Occurrence`]s. [`decide`] turns an [`Answer`] into an [`Event`] with
//! its address or refuses it, [`apply`] and [`replay`] put events into the occurrences they belong to, and
//! [`View::next`] says what to ask: a [`Prompt`]. One answer makes one event.
//!
//! What was said is kept; what is done, failed, not applicable, in force or next follows from it ([`Derived`], [`View`]),
//! so that a correction changes everything that rests on it. A [`View`] sees a run from one of its occurrences.

mod answered;
mod apply;
mod asked;
mod book;
mod decide;
mod event;
mod fastening;
mod flow;
mod holds;
mod label;
mod loose;
mod memo;
mod next;
mod particulars;
mod passes;
mod people;
mod prompt;
mod readings;
mod refusal;
mod sitting;
mod stamp;
mod state;
mod step;
mod typed;
mod view;
mod work;
mod world;

pub use answered::{Answered, Disposition, KeptFile, Leave};
pub use apply::{apply, replay};
pub use book::Book;
pub use decide::{Decided, Input, decide};
pub use event::{Event, LateEntry};
pub use fastening::aim::Aim;
pub use fastening::event::{Act, FasteningAnswer, FasteningAsk, FasteningEvent, Spot};
pub use fastening::places::place_count;
pub use fastening::tightening::{Place, Tightening};
pub use flow::event::{FlowAnswer, FlowAsk, FlowEvent};
pub use holds::standing::Protection;
pub use holds::verification::Verification;
pub(crate) use holds::verification::later;
pub(crate) use label::{LOOSE_END, ODOMETER};
pub use loose::ends::LooseEnd;
pub use loose::event::{EndId, LooseAnswer, LooseEvent};
pub use loose::facts::{Became, Loose};
pub use memo::Memo;
pub use particulars::event::{ParticularAnswer, ParticularAsk, ParticularEvent};
pub use particulars::facts::{Instrument, Particulars, Replaced};
pub use passes::round::{Over, Round};
pub use passes::rows::LateRow;
pub use passes::words::Pass;
pub use people::event::{PeopleAnswer, PeopleAsk, PeopleEvent};
pub use people::facts::{Held, PeopleFacts, SecondTaken, Turnover};
pub(crate) use people::oversight::doers;
pub use people::refusal::PeopleRefusal;
pub use prompt::{Answer, Ask, LateAnswer, Prompt, SlipCheck};
pub use readings::certainty::Certainty;
pub(crate) use readings::certainty::half_width;
pub use readings::entry::USUAL;
pub use readings::in_force::LimitInForce;
pub use readings::judge::{Judged, Judgement, Standing};
pub use readings::second::SecondStanding;
pub use refusal::Refusal;
pub use sitting::event::{Declared, InterruptionAnswer, InterruptionAsk, InterruptionEvent};
pub use sitting::facts::{Away, Interruption, Statement};
pub use sitting::kit::{LaidOut, Packed, PlannedWait, Together};
pub use sitting::leave::{CanStop, Unsafe};
pub use sitting::rehearsal::Stretch;
pub use stamp::{Inherited, InheritedEnd, InheritedProtection, Pin, Stamp, Start};
pub use state::{LapseOf, LapsePoint, Left, Revision, Sitting, State};
pub use step::dues::DueAt;
pub use step::linked::Within;
pub use step::status::{Applies, Status};
pub use step::waits::{RunningWait, WaitStands};
pub use typed::initials;
pub(crate) use typed::timed_here;
pub use view::View;
pub use work::derived::{Derived, Unsettled};
pub use work::deviation::{Departure, Deviation};
pub use work::facts::{Accepted, Attempts, HoldSaid, HoldWord, Said};
pub use work::open::OpenItem;
pub use work::opinion::Opinion;
pub use work::part::{Address, Part, Turns};
pub use work::taken::{Before, Deferral, Given, Origin, Taken};
pub(crate) use work::times::length;
pub use work::times::{Jump, Jumped, Stated, Times};
pub use work::told::{StepResult, Told};
pub use work::tree::{Ending, Occurrence, OccurrenceId, PassEnd, Tree};
pub use work::unrolled::StepAt;
pub use world::Known;
