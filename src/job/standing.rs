//! How a job stands, seen in its runs.

use jiff::{SignedDuration, ZonedDateTime};

use super::model::{Job, Planned};
use crate::run::Event;
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

/// How long somebody was at a run: from each beginning of a sitting to its last entry.
pub fn time_at(run: &StoredRun) -> SignedDuration {
    let (mut total, mut began, mut last) = (SignedDuration::ZERO, None, None);
    for (event, stamp) in &run.events {
        if matches!(event, Event::Started(_) | Event::Resumed { .. }) {
            total += span(began.as_ref(), last.as_ref());
            began = Some(stamp.at.clone());
        }
        last = Some(stamp.at.clone());
    }
    total + span(began.as_ref(), last.as_ref())
}

fn span(from: Option<&ZonedDateTime>, to: Option<&ZonedDateTime>) -> SignedDuration {
    from.zip(to).map_or(SignedDuration::ZERO, |(from, to)| from.duration_until(to).max(SignedDuration::ZERO))
}

/// How each procedure stands, in the order of the list.
pub fn standing(job: &Job, runs: &[StoredRun], now: &ZonedDateTime) -> Vec<Stands> {
    let newest = |id: &str| {
        let own = runs.iter().filter(|run| run.book.procedure.id() == id);
        own.max_by_key(|run| run.events.first().map(|(_, stamp)| stamp.at.timestamp()))
    };
    let closed = |place: usize| {
        let run = newest(&job.procedures.get(place)?.id)?;
        run.state.closed.as_ref().map(|stamp| stamp.at.clone())
    };
    let one = |planned: &Planned| {
        if let Some(run) = newest(&planned.id) {
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
