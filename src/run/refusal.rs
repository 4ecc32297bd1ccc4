//! Why an answer is not taken, and the way forward.

use std::fmt;

use crate::quantity::EntryProblem;
use crate::run::people::refusal::PeopleRefusal;
use crate::run::prompt::Ask;

/// A refused answer changes nothing. Each refusal names its rule and the way forward.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum Refusal {
    /// The answer does not belong to the question.
    NotAsked { asked: Box<Ask> },
    /// The run rests or is closed.
    NotWorking,
    /// A reason, a state or a name was left empty.
    Empty(&'static str),
    /// What was typed cannot be read.
    Unreadable(EntryProblem),
    /// A count that is not a whole number, zero or more.
    NotACount(String),
    /// None of the choices.
    NotAChoice { typed: String, choices: Vec<String> },
    /// A list of fewer different names than it must have.
    TooFewNames { typed: usize, at_least: usize },
    /// Not a date.
    NotADate(String),
    /// Likely a slip of the finger.
    Unlikely { shown: String, lowest: String, highest: String, other: Option<String> },
    /// Somebody else releases this hold point.
    NotTheReleaser { said: String, person: String, role: String },
    /// Somebody else approves this.
    NotTheLead { said: String, person: String },
    /// The second person is the first.
    SamePerson { person: String },
    /// One person cannot have both roles that release the same hold point.
    TwoPeople { person: String, role: String },
    /// A distance driven is never below zero.
    BelowZero(String),
    /// A hold point is never left out, put off, or gone on with although it failed.
    HoldPoint(&'static str),
    /// The step was not offered.
    NotOffered,
    /// A step cannot come back before this one: it would not be later.
    NotLater { before: String },
    /// A hold point stands between the step and where it would come back.
    AcrossHold { hold: String },
    /// It is read before anything is changed.
    FoundFirst { reading: String },
    /// A step in between needs what this one reads, or the wait that it starts.
    NeededBefore { step: String },
    /// A hold point that was not released cannot have been disturbed.
    NeverReleased { hold: String },
    /// There is no earlier entry of this reading.
    NeverTaken { reading: String },
    /// A word that says that somebody looked, and not what was seen.
    NotAState(String),
    /// Among people.
    People(PeopleRefusal),
    /// A tool of which no instrument is named.
    NotCalibrated { tool: String },
    /// What was found before an adjustment stays as it was found.
    AsFoundLocked { reading: String },
    /// Beyond what must never be passed nobody goes on.
    NeverPassed { reading: String },
    /// Not what is typed before a critical act.
    NotWhatIsTyped { typed: String },
    /// What is typed before a critical act cannot be worked out.
    NoAmount { why: String },
    /// No such file, or none that can be kept.
    NoFile { path: String, why: String, way_out: &'static str },
    /// A file is given by its path.
    AFile,
    /// Nothing is repeated here.
    NoRepeat,
    /// No pass has just ended.
    NoPassEnded,
    /// The procedure does not say what follows when this is given up.
    NotForeseen { what: String },
    /// The question stands in no section.
    NoSection,
    /// What is asked cannot have been done before, and be entered late.
    NotLate,
    /// Not a moment.
    NotAMoment(String),
    /// A moment that has not come yet.
    StillToCome(String),
    /// A moment before the run began.
    BeforeStart { typed: String, began: String },
    /// A torque or an angle is never below zero.
    Negative(String),
    /// Nothing was tightened that could be loose again.
    NothingTightened { what: String },
    /// A place that the group does not have.
    NoSuchPlace { position: String, places: Vec<String> },
    /// No loose end that is open.
    NoSuchEnd { open: Vec<String> },
    /// Something is still open.
    Open(Vec<String>),
}

impl std::error::Error for Refusal {}

impl fmt::Display for Refusal {
    #[expect(clippy::too_many_lines, reason = "a row a refusal: its rule and the way forward")]
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotAsked { .. } => {
                formatter.write_str("that is not an answer to this question; `?` says what is asked")
            }
            Self::NotWorking => {
                formatter.write_str("the run rests or is closed; `run` takes an open one up again")
            }
            Self::Empty(what) => write!(formatter, "{what} cannot be empty; write a few words"),
            Self::Unreadable(problem) => write!(formatter, "{problem}"),
            Self::NotACount(typed) => {
                write!(formatter, "`{typed}` is not a count; type a whole number, such as 4")
            }
            Self::NotAChoice { typed, choices } => {
                write!(formatter, "`{typed}` is none of the choices; choose one of: {}", choices.join(", "))
            }
            Self::TooFewNames { typed, at_least } => write!(
                formatter,
                "{typed} different name{} typed, and at least {at_least} are needed; type all of them with commas between",
                if *typed == 1 { " is" } else { "s are" }
            ),
            Self::NotADate(typed) => {
                write!(formatter, "`{typed}` is not a date; type year, month and day, such as 2027-03-31")
            }
            Self::Unlikely { shown, lowest, highest, other } => {
                let other = other.as_ref().map(|other| format!("; {other} would be likely")).unwrap_or_default();
                write!(
                    formatter,
                    "{shown} is outside what is likely here ({lowest} to {highest}){other}; look again, then type it anew or say that it is so"
                )
            }
            Self::NotTheReleaser { said, person, role } => write!(
                formatter,
                "`{said}` does not release this; {person} ({role}) does, with name or initials"
            ),
            Self::NotTheLead { said, person } => write!(
                formatter,
                "`{said}` does not approve this; {person} (lead) does, with name or initials"
            ),
            Self::SamePerson { person } => {
                write!(formatter, "{person} has released it already; the second release is another person's")
            }
            Self::TwoPeople { person, role } => write!(
                formatter,
                "{person} is the {role} already, and a hold point is released by both; name another person"
            ),
            Self::BelowZero(shown) => {
                write!(formatter, "{shown} is below zero; type what the odometer shows")
            }
            Self::HoldPoint(what) => {
                write!(formatter, "a hold point cannot be {what}; make it true, or stop the job")
            }
            Self::NotOffered => formatter.write_str(
                "that step is not among those to choose from: steps are done in their order; put off those before it \
                 (`later`), and declare a deviation where it was done out of sequence",
            ),
            Self::NotLater { before } => {
                write!(formatter, "{before} does not come later; name a later step that is still to do")
            }
            Self::AcrossHold { hold } => write!(
                formatter,
                "a deferred step cannot pass the hold point `{hold}`; let it come back before that, at the latest"
            ),
            Self::FoundFirst { reading } => write!(
                formatter,
                "{reading} is read as it was found, before anything is changed; so it is not put off"
            ),
            Self::NeededBefore { step } => {
                write!(
                    formatter,
                    "step {step} needs what is read here, or the wait that begins here; let it come back before that, at the latest"
                )
            }
            Self::NeverReleased { hold } => {
                write!(formatter, "the hold point {hold} was not released yet: nothing rests on it")
            }
            Self::NeverTaken { reading } => {
                write!(formatter, "{reading} has not been taken yet, so there is nothing to correct")
            }
            Self::NotAState(typed) => write!(
                formatter,
                "`{typed}` does not say what was seen; write the state itself, such as `in P`, `closed` or `dry`"
            ),
            Self::People(refusal) => write!(formatter, "{refusal}"),
            Self::NotCalibrated { tool } => write!(
                formatter,
                "no instrument is named for `{tool}`: the procedure does not call it calibrated; name a tool that is"
            ),
            Self::AsFoundLocked { reading } => write!(
                formatter,
                "{reading} was read as found, and the work has gone on since; if the entry is wrong, correct it with a reason"
            ),
            Self::NeverPassed { reading } => write!(
                formatter,
                "{reading} is beyond what it must never pass, and no reason makes that good; take it again"
            ),
            Self::NotWhatIsTyped { typed } => write!(
                formatter,
                "`{typed}` is not what is typed here; read the question again, or stop the job"
            ),
            Self::NoAmount { why } => write!(
                formatter,
                "what is to be typed cannot be worked out ({why}); correct what it rests on, or leave the step out"
            ),
            Self::NoFile { path, why, way_out } => {
                write!(formatter, "`{path}` is not kept: {why}; {way_out}")
            }
            Self::AFile => formatter.write_str("a file is asked for here; give its path"),
            Self::NoPassEnded => formatter.write_str(
                "no pass has just ended: once something else is done, correct what was entered in it, or begin the section anew",
            ),
            Self::NoRepeat => formatter.write_str("nothing is repeated here that could be given up"),
            Self::NotForeseen { what } => write!(
                formatter,
                "the procedure does not say what follows without \"{what}\", so it cannot be given up; make one more pass, \
                 leave single steps out, or stop the job"
            ),
            Self::NoSection => {
                formatter.write_str("no section has been begun here; begin one anew from a question in it")
            }
            Self::NotLate => formatter.write_str(
                "only a step that is done, a reading and a fastener can be entered late; hold points, releases, hazards \
                 and checks are acts of the moment",
            ),
            Self::NotAMoment(typed) => write!(
                formatter,
                "`{typed}` is not a moment; type a time of today, such as 18:05, or a date and a time, such as \
                 2027-03-31 18:05"
            ),
            Self::StillToCome(typed) => write!(
                formatter,
                "{typed} is still to come; for an earlier day type the date too, such as 2027-03-31 18:05"
            ),
            Self::BeforeStart { typed, began } => write!(
                formatter,
                "{typed} lies before the run began ({began}); what was done before it is no part of it, but a remark can tell"
            ),
            Self::Negative(shown) => {
                write!(formatter, "{shown} is below zero; type what the instrument showed, without a sign")
            }
            Self::NothingTightened { what } => {
                write!(formatter, "nothing has been tightened yet of: {what}")
            }
            Self::NoSuchPlace { position, places } => {
                write!(formatter, "there is no place `{position}`; there are: {}", places.join(", "))
            }
            Self::NoSuchEnd { open } if open.is_empty() => formatter.write_str("nothing is loose"),
            Self::NoSuchEnd { open } => {
                write!(formatter, "that is no loose end; open are: {}", open.join("; "))
            }
            Self::Open(items) => {
                write!(formatter, "it cannot be closed while this is open: {}", items.join("; "))
            }
        }
    }
}

impl From<PeopleRefusal> for Refusal {
    fn from(refusal: PeopleRefusal) -> Self {
        Self::People(refusal)
    }
}
