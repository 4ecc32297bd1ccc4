//! Limits that stayed in force over several steps: since when, until when, and whether they were kept.

use super::work::{Work, moment};
use crate::procedure::{self, Name};
use crate::record::amounts::answer;
use crate::record::model::{LimitInForce, Outcome, WatchedReading};
use crate::run::{Attempts, StepAt};

pub(in crate::record) fn limits_in_force(work: &Work<'_>, outcome: &mut Outcome) -> Vec<LimitInForce> {
    let watches = work.book().procedure.watches().iter();
    watches.map(|(name, watch)| told(work, name, watch, outcome)).collect()
}

fn told(work: &Work<'_>, name: &Name, watch: &procedure::Watch, outcome: &mut Outcome) -> LimitInForce {
    let mut readings: Vec<WatchedReading> = Vec::new();
    for reading in &watch.readings {
        for seen in work.of_name(reading) {
            let said = seen.at.map(|at| &work.view.state.tree.get(at).said);
            let entered = said.and_then(|said| said.reading(reading));
            readings.extend(
                entered
                    .into_iter()
                    .flat_map(|entered| Under { work, name, watch, seen: &seen }.of(reading, entered)),
            );
        }
    }
    readings.sort_by_key(|reading| reading.when.entry);
    let is_broken = readings.iter().any(|reading| reading.broke.is_some());
    outcome.limits_broken += usize::from(is_broken);
    let (since, until) = work.view.watched(name).map_or((None, None), |(since, until)| (Some(since), until));
    LimitInForce {
        name: name.to_string(),
        what: watch.what.clone(),
        since: since.as_ref().map(moment),
        until: until.map(|until| work.moment(until)),
        verdict: match (is_broken, readings.is_empty()) {
            (true, _) => "broken",
            (false, true) => "nothing watched",
            (false, false) => "kept",
        }
        .to_owned(),
        readings,
    }
}

/// A limit over a reading at one occurrence.
struct Under<'work, 'run> {
    work: &'work Work<'run>,
    name: &'work Name,
    watch: &'work procedure::Watch,
    seen: &'work StepAt<'run>,
}

impl Under<'_, '_> {
    fn of(&self, reading: &Name, entered: &Attempts) -> Vec<WatchedReading> {
        let mut places: Vec<u64> = entered.taken.iter().map(|taken| taken.place).collect();
        places.sort_unstable();
        places.dedup();
        let here = self.work.inside(self.seen);
        let taken = places.into_iter().filter_map(|place| entered.at(place));
        let watched = taken.filter_map(|taken| {
            let broke = here.under_watch(self.name, self.watch, reading, taken)?;
            Some(WatchedReading {
                name: reading.to_string(),
                place: self.work.place(self.seen),
                answer: answer(&taken.value),
                when: self.work.moment(taken.place),
                broke,
            })
        });
        watched.collect()
    }
}
