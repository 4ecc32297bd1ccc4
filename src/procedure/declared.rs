//! What the front matter of a checked procedure declares: its head, hold points, readings. Shorter types stand in
//! their tables' files in `written/`.

use super::instead::same_words;
use jiff::civil::Date;

use super::{Instead, Name, ResultOf};
use crate::formula::Typed;
use crate::quantity::{Quantity, Unit};
use crate::trade::measurement::Rule;

/// What the front matter says of the file as a whole.
#[derive(Clone, Debug)]
pub struct Header {
    /// The revision as the author names it: "B", "3", "2026-11".
    pub revision: String,
    /// The date of the revision.
    pub date: Date,
    /// Who wrote it.
    pub author: String,
    /// Which vehicles it is for.
    pub scope: String,
    /// How strictly it is followed.
    pub level_of_use: LevelOfUse,
    /// The author's estimate of the time it takes.
    pub time: Option<Quantity>,
    /// Whether the odometer is asked for at the start.
    pub odometer: bool,
    /// What must be true before the job, statement by statement.
    pub required: Vec<String>,
    /// What must be true after it.
    pub close_up: Vec<String>,
}

/// How strictly a procedure is followed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LevelOfUse {
    /// Read each step before doing it.
    Continuous,
    /// Read, do a section, confirm.
    Reference,
    /// Known by heart; at hand for questions.
    Information,
}

/// An author's rule that does not hold for a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RuleOff {
    /// The code of the rule.
    pub code: String,
    /// Why it does not hold.
    pub reason: String,
}

/// A hold point: nothing goes on before its release.
#[derive(Clone, Debug)]
pub struct Hold {
    /// What it guards, as a headline.
    pub what: String,
    /// Why it is there.
    pub why: Option<String>,
    /// Statements confirmed one by one.
    pub confirm: Vec<String>,
    /// The places of those statements that are asked anew when one of its readings is taken again.
    pub anew: Vec<usize>,
    /// Readings taken at the hold point, each time it is verified.
    pub readings: Vec<Name>,
    /// Groups of fasteners tightened at the hold point, each time it is verified.
    pub fasteners: Vec<Name>,
    /// The role that releases it.
    pub release: Name,
    /// The role of a second person who must also release it.
    pub second: Option<Name>,
    /// When it lapses.
    pub lapses: Lapses,
    /// The protection it puts in force.
    pub protection: Option<String>,
    /// What that protection is called in a word or two, where every screen names it.
    pub short: Option<String>,
    /// Whether that protection may outlast the run: a later procedure of the job ends it.
    pub stays: bool,
    /// The hold point of an earlier procedure of the job that put it in force.
    pub handed_on: Option<ResultOf>,
    /// The hold points whose protections it ends.
    pub ends: Vec<Name>,
    /// Those of earlier procedures of the job.
    pub ends_earlier: Vec<ResultOf>,
    /// The energy that it isolates: proved by a reading and by trying it, after all else.
    pub isolates: Option<String>,
}

impl Hold {
    /// Whether it goes on under the protection of this hold point of this procedure.
    pub fn is_handed_on_as(&self, hold: &str, procedure: &str) -> bool {
        self.handed_on.as_ref().is_some_and(|from| from.result == hold && from.procedure == procedure)
    }

    /// Whether something is read or tightened at it.
    pub fn takes(&self, name: &Name) -> bool {
        self.readings.contains(name) || self.fasteners.contains(name)
    }
}

/// When a hold point must be verified again.
#[derive(Clone, Debug, Default)]
pub struct Lapses {
    /// Whenever the run is taken up again.
    pub on_resume: bool,
    /// When somebody says that something was disturbed.
    pub when_disturbed: bool,
    /// When somebody else takes over a role.
    pub on_people: bool,
    /// After a time.
    pub after: Option<Quantity>,
}

/// Something the person measures, counts, chooses or writes down.
#[derive(Clone, Debug)]
pub struct Reading {
    /// What is read, in a mechanic's words.
    pub what: String,
    /// Why it is read, shown on `?`.
    pub why: Option<String>,
    /// What sort of answer is expected, and how it is judged.
    pub kind: ReadingKind,
    /// The tool it is taken with.
    pub instrument: Option<Name>,
    /// Whether it is a time that can be taken here, with a key.
    pub stopwatch: bool,
    /// What to do when it fails.
    pub fails: Option<String>,
    /// What to do when it is too low, or too high.
    pub sides: Sides,
    /// Where the limits come from.
    pub source: Option<String>,
    /// Who reads it a second time, without having seen the first reading.
    pub second: Option<SecondReading>,
    /// Whether it is read before anything is adjusted, or after.
    pub occasion: Occasion,
    /// What it must never pass.
    pub ceiling: Option<Ceiling>,
    /// What can come out in place of a value, in the order of the file.
    pub instead: Vec<Instead>,
}

/// A second reading by another person, blind to the first.
#[derive(Clone, Debug)]
pub struct SecondReading {
    /// The role that reads it again.
    pub by: Name,
    /// By how much two quantities may differ and still agree; anything else has to be the same.
    pub agree: Option<Quantity>,
}

/// What to do about a result that fails on one side.
#[derive(Clone, Debug, Default)]
pub struct Sides {
    /// When it is too low.
    pub too_low: Option<String>,
    /// When it is too high.
    pub too_high: Option<String>,
}

/// When a reading is taken, in view of an adjustment.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Occasion {
    /// It has nothing to do with one.
    #[default]
    Plain,
    /// Before it: what was found. It holds nothing up, and is not taken again once the work has gone on.
    AsFound,
    /// After it: what is left, beside this reading of what was found.
    AsLeft(Name),
}

/// What a reading must never pass. Beyond it nothing is judged, and a hold point is verified again.
#[derive(Clone, Debug)]
pub struct Ceiling {
    /// It must never be below this.
    pub never_below: Option<Typed>,
    /// It must never be above this.
    pub never_above: Option<Typed>,
    /// The hold point that is verified again.
    pub opens: Name,
}

/// What sort of answer a reading expects.
#[derive(Clone, Debug)]
pub enum ReadingKind {
    /// A number with a unit; `plausible` is the range outside which a slip of the finger is likely.
    Quantity {
        /// The unit that is asked for.
        unit: Unit,
        /// The range outside which a slip of the finger is likely.
        plausible: Option<(Quantity, Quantity)>,
        /// How it is judged.
        criterion: Criterion,
        /// What the instrument's accuracy has to do with the verdict.
        rule: Rule,
    },
    /// A whole number of things.
    Count {
        /// How it is judged.
        criterion: Criterion,
    },
    /// One of these; where `accept` is given, any other fails.
    Choice {
        /// All of them.
        choices: Vec<String>,
        /// The good ones; without them no choice is judged.
        accept: Option<Vec<String>>,
    },
    /// Free text.
    Text,
    /// Names, with commas between them.
    List {
        /// How many there are at least.
        at_least: usize,
    },
    /// A photo or another file, kept with the run.
    File,
    /// A date, and the days between which it must lie (inclusive).
    Date {
        /// The first good day.
        earliest: Option<Date>,
        /// The last good day.
        latest: Option<Date>,
    },
}

/// The acceptance criterion of a quantity.
#[derive(Clone, Debug)]
pub enum Criterion {
    /// Between two bounds, or on one side of one.
    Limits {
        /// The lower bound.
        lower: Option<Bound>,
        /// The upper bound.
        upper: Option<Bound>,
    },
    /// At `target`, plus or minus `within` (a quantity of the same kind, or a ratio of the target).
    Target {
        /// What is aimed at.
        target: Typed,
        /// How far from it is still good.
        within: Typed,
    },
    /// Shown beside the reading; the person judges.
    Nominal(Typed),
    /// The source gives no limit.
    InformationOnly,
}

/// One end of a range.
#[derive(Clone, Debug)]
pub struct Bound {
    /// The bound itself: a constant or a formula over what is already known.
    pub formula: Typed,
    /// Whether the bound itself is still good (`min`, `max`) or not (`above`, `below`).
    pub inclusive: bool,
}

impl Reading {
    /// The outcome that was typed in place of a value, whatever its case and its blanks.
    pub fn outcome(&self, typed: &str) -> Option<&Instead> {
        self.instead.iter().find(|outcome| same_words(&outcome.words, typed))
    }

    /// Everything that can be picked at a choice: what can be chosen, then what can come out instead.
    pub fn offered(&self, choices: &[String]) -> Vec<String> {
        choices.iter().cloned().chain(self.instead.iter().map(|outcome| outcome.words.clone())).collect()
    }
}

/// The signal words of ANSI Z535.6.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Signal {
    /// Will kill or maim if not avoided.
    Danger,
    /// Could kill or maim if not avoided.
    Warning,
    /// Could injure lightly if not avoided.
    Caution,
    /// Could damage something.
    Notice,
}

impl Signal {
    /// The signal word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Danger => "DANGER",
            Self::Warning => "WARNING",
            Self::Caution => "CAUTION",
            Self::Notice => "NOTICE",
        }
    }
}
