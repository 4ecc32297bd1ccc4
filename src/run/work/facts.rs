//! What was said at one occurrence.

use crate::procedure::{Name, StepId};
use crate::run::fastening::event::Act;
use crate::run::people::facts::SecondTaken;
use crate::run::stamp::Stamp;
use crate::run::work::opinion::Opinion;
use crate::run::work::taken::{Deferral, Origin, Taken};

/// What was said at one occurrence of a part. Nothing here is worked out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Said {
    /// Hazards that were read and understood, and the entries that say so.
    pub acknowledged: Vec<(Name, u64)>,
    /// When the step was last said to be done.
    pub done: Option<Stamp>,
    /// What was entered for each reading, and what a person said of a result.
    pub readings: Vec<(Name, Attempts)>,
    /// Results that are gone on with although they fail.
    pub accepted: Vec<(Name, Accepted)>,
    /// What was done at its groups of fasteners, in order.
    pub acts: Vec<Act>,
    /// What was typed before critical acts, and when.
    pub typed: Vec<(Name, Stamp)>,
    /// Why a person left it out, and the entry by which the lead agreed.
    pub left_out: Option<(String, u64)>,
    /// That it was put off.
    pub put_off: Option<Deferral>,
    /// The way that was chosen, and the entry.
    pub way: Option<(StepId, u64)>,
    /// Waits that were missed, where the procedure has a path for that.
    pub missed: Vec<(Name, Stamp)>,
    /// Waits that lasted too long and were accepted, by the entry.
    pub late: Vec<(Name, u64)>,
    /// Who was called to see it.
    pub called: Vec<Called>,
    /// When it was signed off by the person of the role that checks.
    pub signed_off: Option<Stamp>,
    /// When it was verified, or looked at again, by the check.
    pub checked: Vec<(Name, Stamp)>,
    /// What was said at the hold point, in order.
    pub hold: Vec<HoldSaid>,
    /// When the section was called complete.
    pub complete: Option<Stamp>,
    /// When the work of the section was said to be done; its steps are confirmed after it.
    pub performed: Option<Stamp>,
    /// How many more passes than allowed were agreed to, by the repeat.
    pub extended: Vec<(Name, usize)>,
    /// Repeats that are gone on from although their passes were in vain.
    pub gone_on: Vec<Name>,
    /// That a row of a log was begun before it was due.
    pub early: bool,
    /// The entry by which it was settled that something done here no longer agrees with what it was done under.
    pub settled: Option<u64>,
}

/// What was entered for a reading at one occurrence.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Attempts {
    /// Every entry, in order.
    pub taken: Vec<Taken>,
    /// Entries that say that it is to be taken again, and why.
    pub again: Vec<(Stamp, String)>,
    /// Every second reading, in order.
    pub seconds: Vec<SecondTaken>,
    /// The entry by which a difference between the two is gone on with.
    pub difference: Option<u64>,
    /// What a person said of it beside a nominal value, in order; of a computed value too, which has nothing else.
    pub opinions: Vec<Opinion>,
}

/// A failing result that is gone on with.
#[derive(Clone, Debug, PartialEq)]
pub struct Accepted {
    /// When.
    pub stamp: Stamp,
    /// The deviation that records it, from 0.
    pub deviation: usize,
}

/// That somebody was called to see a step, whether or not anybody came.
#[derive(Clone, Debug, PartialEq)]
pub struct Called {
    /// The witness point.
    pub witness: Name,
    /// When.
    pub stamp: Stamp,
}

/// Something that was said at a hold point.
#[derive(Clone, Debug, PartialEq)]
pub struct HoldSaid {
    /// What.
    pub word: HoldWord,
    /// When.
    pub stamp: Stamp,
}

/// What can be said at a hold point.
#[derive(Clone, Debug, PartialEq)]
pub enum HoldWord {
    /// This statement is true.
    Confirmed(usize),
    /// This statement is not true; this is how it is.
    Contradicted(usize, String),
    /// The person of this role releases it.
    Released(Name),
}

impl Attempts {
    /// The newest word on the newest attempt, also where it is to be taken again.
    pub fn latest(&self) -> Option<&Taken> {
        let place = self.taken.iter().map(|taken| taken.place).max()?;
        self.taken.iter().rev().find(|taken| taken.place == place)
    }

    /// The entry by which an attempt was first made, whatever was corrected since.
    pub fn made(&self, place: u64) -> Option<&Taken> {
        self.taken.iter().find(|taken| taken.place == place && taken.origin == Origin::Measured)
    }

    /// The newest word on the attempt made at an entry.
    pub fn at(&self, place: u64) -> Option<&Taken> {
        self.taken.iter().rev().find(|taken| taken.place == place)
    }

    /// Whether it was said, since the newest attempt, that it is to be taken again.
    pub fn is_again(&self) -> bool {
        let place = self.latest().map_or(0, |taken| taken.place);
        self.again.last().is_some_and(|(stamp, _)| stamp.seq > place)
    }

    /// The newest second reading of an attempt.
    pub fn second_of(&self, first: &Taken) -> Option<&SecondTaken> {
        self.seconds.iter().rev().find(|second| second.of == first.place)
    }
}

impl Said {
    /// Nothing was said.
    pub(crate) const NOTHING: Self = Self {
        acknowledged: Vec::new(),
        done: None,
        readings: Vec::new(),
        accepted: Vec::new(),
        acts: Vec::new(),
        typed: Vec::new(),
        left_out: None,
        put_off: None,
        way: None,
        missed: Vec::new(),
        late: Vec::new(),
        called: Vec::new(),
        signed_off: None,
        checked: Vec::new(),
        hold: Vec::new(),
        complete: None,
        performed: None,
        extended: Vec::new(),
        gone_on: Vec::new(),
        early: false,
        settled: None,
    };

    /// What was entered for a reading.
    pub fn reading(&self, name: &Name) -> Option<&Attempts> {
        self.readings.iter().find(|(of, _)| of == name).map(|(_, attempts)| attempts)
    }

    pub(crate) fn reading_mut(&mut self, name: &Name) -> &mut Attempts {
        let place = self.readings.iter().position(|(of, _)| of == name).unwrap_or_else(|| {
            self.readings.push((name.clone(), Attempts::default()));
            self.readings.len() - 1
        });
        &mut self.readings[place].1
    }

    /// The entry at which something of this name was last said, among such pairs.
    pub(crate) fn last<'said, T>(pairs: &'said [(Name, T)], name: &Name) -> Option<&'said T> {
        pairs.iter().rev().find(|(of, _)| of == name).map(|(_, what)| what)
    }
}
