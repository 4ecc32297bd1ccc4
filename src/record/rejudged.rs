//! A run judged again with some of its readings corrected, and nothing else of it changed.
//!
//! The same events happen once more with other numbers in those readings; what follows is worked out as ever. So limits and
//! values that rest on a corrected reading move with it, and what would have been open at the close is known.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::build::{Kept, whatever_is_open};
use super::judging::is_no_good;
use super::model::{Hold, Judged, Record, Verification};
use crate::quantity::{Entry, Off};
use crate::run::{Answered, Event, FasteningEvent, LateEntry, PeopleEvent, Stamp, replay};

/// What another judgement comes to.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Rejudged {
    /// Readings and fasteners that were corrected, or whose verdict is another now.
    pub readings: Vec<Again>,
    /// Computed values that came out otherwise.
    pub values: Vec<Again>,
    /// Hold points that were released on a result that is no good now.
    pub holds: Vec<Resting>,
    /// What would have been open when the run was closed.
    pub open: Vec<String>,
    /// Entries that the error does not fit, each with why.
    pub left_alone: Vec<LeftAlone>,
}

/// An entry that the error does not fit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LeftAlone {
    /// The entry.
    pub entry: u64,
    /// Why it does not.
    pub why: String,
}

/// A result as it stood and as it stands now.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Again {
    /// The entry; of a computed value nothing.
    pub entry: Option<u64>,
    /// Its name in the procedure.
    pub name: String,
    /// What it is.
    pub what: String,
    /// Its step.
    pub step: String,
    /// In which pass.
    pub pass: Option<String>,
    /// As it was read or worked out.
    pub before: String,
    /// As it is now.
    pub after: String,
    /// The verdict in a word, as it was.
    pub verdict_before: String,
    /// As it is now.
    pub verdict_after: String,
    /// The same in full.
    pub words: String,
    /// The number itself is another.
    pub is_corrected: bool,
}

/// What became of a verdict.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// It was good, and is not any more.
    Worse,
    /// It was no good, and is now.
    Better,
    /// It is another word.
    Other,
    /// It is the same.
    Same,
}

/// A hold point that was released on a result that is no good now.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Resting {
    /// The hold point.
    pub name: String,
    /// What it guards.
    pub what: String,
    /// Its step.
    pub step: String,
    /// Who released it.
    pub released: Vec<String>,
    /// The entries that it rests on and that are no good now.
    pub entries: Vec<u64>,
}

impl Again {
    /// What became of its verdict.
    pub fn turn(&self) -> Turn {
        match (is_no_good(&self.verdict_before), is_no_good(&self.verdict_after)) {
            (false, true) => Turn::Worse,
            (true, false) => Turn::Better,
            _ if self.verdict_before != self.verdict_after => Turn::Other,
            _ => Turn::Same,
        }
    }
}

/// Judges a run again as if the readings of these entries had been taken with an instrument that was off. Nothing where the
/// run has not begun.
pub fn rejudged(kept: &Kept<'_>, entries: &BTreeSet<u64>, off: &Off) -> Option<Rejudged> {
    let mut entries = entries.clone();
    entries.extend(seconds(kept, &entries));
    let mut left_alone = Vec::new();
    let events: Vec<(Event, Stamp)> = kept
        .events
        .iter()
        .map(|(event, stamp)| {
            let mut correct = |entry: &Entry| match corrected(entry, off) {
                Ok(corrected) => corrected,
                Err(why) => {
                    left_alone.push(LeftAlone { entry: stamp.seq, why });
                    entry.clone()
                }
            };
            (again(event, stamp.seq, &entries, &mut correct), stamp.clone())
        })
        .collect();
    let (before, open_before) = whatever_is_open(kept)?;
    let (after, open) = whatever_is_open(&Kept { events: &events, ..*kept })?;
    let readings: Vec<Again> = changed(results(&before), &results(&after)).collect();
    let worse = readings.iter().filter(|again| again.turn() == Turn::Worse).filter_map(|again| again.entry);
    let worse: BTreeSet<u64> = worse.collect();
    let mut would_be: Vec<String> = Vec::new();
    for item in open.iter().filter(|item| !open_before.contains(item)).map(ToString::to_string) {
        if !would_be.contains(&item) {
            would_be.push(item);
        }
    }
    Some(Rejudged {
        holds: before.holds.iter().flat_map(|hold| resting(hold, &worse)).collect(),
        values: changed(values(&before), &values(&after)).collect(),
        open: would_be,
        readings,
        left_alone,
    })
}

/// Second readings of a corrected first: whoever reads blind reads the same instrument.
fn seconds(kept: &Kept<'_>, entries: &BTreeSet<u64>) -> Vec<u64> {
    let state = replay(kept.book, kept.events.iter().map(|(event, stamp)| (event, stamp)));
    let said = state.tree.all().flat_map(|(_, occurrence)| &occurrence.said.readings);
    let of_first = said.flat_map(|(_, attempts)| {
        let is_meant = |of: u64| attempts.at(of).is_some_and(|first| entries.contains(&first.stamp.seq));
        attempts.seconds.iter().filter(move |second| is_meant(second.of)).map(|second| second.stamp.seq)
    });
    of_first.collect()
}

fn again(
    event: &Event,
    seq: u64,
    entries: &BTreeSet<u64>,
    correct: &mut dyn FnMut(&Entry) -> Entry,
) -> Event {
    let mut event = event.clone();
    let mut inner = &mut event;
    while let Event::Late(LateEntry { event, .. }) = inner {
        inner = event;
    }
    let read = match inner {
        Event::Read { value: Answered::Quantity(entry), .. }
        | Event::Corrected { value: Answered::Quantity(entry), .. }
        | Event::People(PeopleEvent::SecondRead { value: Answered::Quantity(entry), .. })
        | Event::Fastening(FasteningEvent::Tightened { reached: Some(entry), .. }) => {
            Some(entry).filter(|_| entries.contains(&seq))
        }
        Event::Fastening(FasteningEvent::Corrected { reached, entry, .. }) => {
            entries.contains(entry).then_some(reached)
        }
        _ => None,
    };
    if let Some(read) = read {
        *read = correct(read);
    }
    event
}

/// What was typed and what was asked for are carried each by itself: neither is rounded.
fn corrected(entry: &Entry, off: &Off) -> Result<Entry, String> {
    let typed = off.corrected(&entry.typed)?;
    let asked = off.corrected(&entry.asked)?;
    Ok(Entry { text: typed.to_string(), typed, asked })
}

/// A result by what tells it from the others.
type Results = BTreeMap<(Option<u64>, String, Vec<u32>), Again>;

/// Those that are other than they were, in the order of the entries.
fn changed(before: Results, after: &Results) -> impl Iterator<Item = Again> {
    before.into_iter().filter_map(|(key, before)| {
        let after = after.get(&key)?;
        let again = Again {
            after: after.before.clone(),
            verdict_after: after.verdict_before.clone(),
            words: after.words.clone(),
            is_corrected: before.before != after.before,
            ..before
        };
        (again.is_corrected || again.verdict_before != again.verdict_after).then_some(again)
    })
}

/// Readings and what was reached at fasteners, each by its entry.
fn results(record: &Record) -> Results {
    let readings = record.readings.iter().flat_map(|reading| {
        reading.attempts.iter().map(move |attempt| {
            let of = (reading.name.as_str(), reading.what.clone(), reading.step.as_str());
            let shown = super::said(&attempt.answer);
            as_it_stood(of, &reading.place, Some(attempt.when.entry), shown, attempt.judged.as_ref())
        })
    });
    let fasteners = record.fasteners.iter().flat_map(|group| {
        group.stages.iter().flat_map(move |stage| {
            stage.places.iter().flat_map(move |place| {
                place.acts.iter().filter_map(move |act| {
                    let what = format!("{}, {}, {}", group.what, stage.what, place.position);
                    let of = (group.name.as_str(), what, group.step.as_str());
                    let shown = act.reached.as_ref()?.typed.shown.clone();
                    Some(as_it_stood(of, &group.place, Some(act.when.entry), shown, act.judged.as_ref()))
                })
            })
        })
    });
    readings.chain(fasteners).collect()
}

fn values(record: &Record) -> Results {
    let values = record.values.iter().filter_map(|value| {
        let result = value.result.as_ref()?;
        let shown =
            result.result.as_ref().map_or_else(|| "no result".to_owned(), |amount| amount.shown.clone());
        let of = (value.name.as_str(), value.what.clone(), value.step.as_str());
        Some(as_it_stood(of, &value.place, None, shown, Some(&result.judged)))
    });
    values.collect()
}

fn as_it_stood(
    (name, what, step): (&str, String, &str),
    place: &super::model::Place,
    entry: Option<u64>,
    shown: String,
    judged: Option<&Judged>,
) -> ((Option<u64>, String, Vec<u32>), Again) {
    let verdict = judged.map_or_else(|| "not judged".to_owned(), |judged| judged.verdict.clone());
    let again = Again {
        entry,
        name: name.to_owned(),
        what,
        step: step.to_owned(),
        pass: place.pass.clone(),
        before: shown,
        after: String::new(),
        verdict_before: verdict,
        verdict_after: String::new(),
        words: judged.map(|judged| judged.words.clone()).unwrap_or_default(),
        is_corrected: false,
    };
    ((entry, name.to_owned(), place.turns.clone()), again)
}

/// That a hold point was released on results that are no good now: each verification by itself.
fn resting(hold: &Hold, worse: &BTreeSet<u64>) -> Vec<Resting> {
    let of = |verification: &Verification| {
        let readings = verification.readings.iter().map(|reading| reading.when.entry);
        let mut entries: Vec<u64> = readings.filter(|entry| worse.contains(entry)).collect();
        let groups = verification.fasteners.iter();
        entries.extend(groups.flat_map(|group| worse.range(group.from.entry..=group.to.entry)));
        let released =
            verification.released.iter().map(|release| format!("{} ({})", release.name, release.role));
        let is_released = !verification.released.is_empty();
        (is_released && !entries.is_empty()).then(|| Resting {
            name: hold.name.clone(),
            what: hold.what.clone(),
            step: hold.step.clone(),
            released: released.collect(),
            entries,
        })
    };
    hold.verifications.iter().filter_map(of).collect()
}
