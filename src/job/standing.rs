//! How a job stands, seen in its runs.

use jiff::{SignedDuration, ZonedDateTime};

use super::model::{Job, Planned};
use crate::session::StoredRun;

/// How a procedure of a job stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Stands {
    /// Its run is closed.
    Done(String, ZonedDateTime),
    /// Its run is open, and since when nobody was there.
    Open(String, ZonedDateTime),
    /// It can be begun now.
    Ready,
    /// Nobody can go on with it before this.
    Away(ZonedDateTime),
    /// It waits for these, by their places in the list.
    Waits(Vec<usize>),
}

/// A longer pause between two entries is no work: a night, a week, a wait.
const PAUSE: SignedDuration = SignedDuration::from_hours(1);

/// How long somebody was at a run: the time between its entries, without the long pauses.
pub fn time_at(run: &StoredRun) -> SignedDuration {
    let gaps = run.events.windows(2).filter_map(|pair| {
        let [(_, before), (_, after)] = pair else { return None };
        let gap = before.at.duration_until(&after.at);
        (SignedDuration::ZERO..=PAUSE).contains(&gap).then_some(gap)
    });
    gaps.sum()
}

/// The run of a procedure that counts: the newest.
pub(super) fn newest<'r>(runs: &'r [StoredRun], procedure: &str) -> Option<&'r StoredRun> {
    let own = runs.iter().filter(|run| run.book.procedure.id() == procedure);
    own.max_by_key(|run| run.events.first().map(|(_, stamp)| stamp.at.timestamp()))
}

/// How each procedure stands, in the order of the list.
pub fn standing(job: &Job, runs: &[StoredRun], now: &ZonedDateTime) -> Vec<Stands> {
    let closed = |place: usize| {
        let run = newest(runs, &job.procedures.get(place)?.id)?;
        run.state.closed.as_ref().map(|stamp| stamp.at.clone())
    };
    let one = |planned: &Planned| {
        if let Some(run) = newest(runs, &planned.id) {
            let last = run.events.last().map_or_else(|| now.clone(), |(_, stamp)| stamp.at.clone());
            return match &run.state.closed {
                Some(stamp) => Stands::Done(run.id.as_str().to_owned(), stamp.at.clone()),
                None => Stands::Open(run.id.as_str().to_owned(), last),
            };
        }
        let open: Vec<usize> =
            planned.after.iter().copied().filter(|place| closed(*place).is_none()).collect();
        if !open.is_empty() {
            return Stands::Waits(open);
        }
        let since =
            planned.after.iter().filter_map(|place| closed(*place)).max_by_key(ZonedDateTime::timestamp);
        let until = planned.away.as_ref().zip(since).and_then(|(away, since)| {
            since.checked_add(SignedDuration::try_from_secs_f64(away.base().to_f64()).ok()?).ok()
        });
        until.filter(|until| until > now).map_or(Stands::Ready, Stands::Away)
    };
    job.procedures.iter().map(one).collect()
}
