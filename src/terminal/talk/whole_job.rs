//! A whole job on one screen: what is done, open, waiting; the hours; what protects.

use jiff::ZonedDateTime;

use super::{job_balances, words};
use crate::job::record::model::JobRecord;
use crate::job::{Job, Stands};
use crate::session::StoredRun;
use crate::terminal::{Line, Role, Text};

/// A job as it stands.
pub struct WholeJob<'j> {
    /// The job.
    pub job: &'j Job,
    /// How each of its procedures stands, in the order of its list.
    pub stands: &'j [Stands],
    /// Its runs.
    pub runs: &'j [StoredRun],
    /// What they have come to.
    pub record: &'j JobRecord,
    /// The moment.
    pub now: &'j ZonedDateTime,
}

/// The whole job, with its balances, its fasteners and what is due.
pub fn job_standing(whole: &WholeJob<'_>) -> Text {
    let record = whole.record;
    let text = job_at_start(whole).then(job_balances::balances(record)).then(job_balances::fasteners(record));
    text.then(job_balances::dues(record))
}

/// What whoever begins an evening has to know of it: how each procedure stands, what protects, what is loose.
pub fn job_at_start(whole: &WholeJob<'_>) -> Text {
    let title = Line::new().with(Role::Strong, whole.job.title.as_str());
    let text = Text::from(title).line(Line::plain(whole.job.what.as_str()).hang(2)).blank();
    let rows = whole.job.procedures.iter().zip(whole.stands).enumerate();
    let text = rows.fold(text, |text, (place, (planned, stands))| {
        let (role, mark, more) = told(whole, stands);
        let line = Line::new()
            .with(Role::Faint, format!("{:>2} ", place + 1))
            .with(role, format!("{mark:<8}"))
            .with(Role::Plain, format!("{}{more}", planned.title));
        text.line(line.hang(11))
    });
    let left = super::job_left::protections(whole.runs, whole.now);
    let left = left.then(super::job_left::loose_ends(whole.runs));
    let text = text.blank().line(hours(whole)).then(left);
    let unread = whole.record.unread.iter();
    unread.fold(text, |text, unread| text.line(Line::new().with(Role::Bad, unread.as_str()).hang(2)))
}

fn told(whole: &WholeJob<'_>, stands: &Stands) -> (Role, &'static str, String) {
    let at = |moment: &ZonedDateTime| words::clock(moment, whole.now);
    match stands {
        Stands::Done(run, when) => (Role::Good, "done", format!(" ({}, run {run})", at(when))),
        Stands::Open(run, last) => (Role::Strong, "open", format!(" (last entry {}, run {run})", at(last))),
        Stands::Ready => (Role::Strong, "ready", String::new()),
        Stands::Away(until) => (Role::Plain, "away", format!(" (not before {})", at(until))),
        Stands::Waits(for_these) => {
            let names: Vec<String> = for_these.iter().map(|place| (place + 1).to_string()).collect();
            (Role::Faint, "waits", format!(" (after {})", names.join(", ")))
        }
    }
}

fn hours(whole: &WholeJob<'_>) -> Line {
    let hours = &whole.record.hours;
    let worth = hours.rate.as_ref().zip(hours.worth.as_ref());
    let worth = worth.map(|(rate, worth)| format!("; at {} worth {}", rate.shown, worth.shown));
    let runs = whole.runs.len();
    Line::plain(format!("Hours at it: {} in {runs} runs{}", hours.time, worth.unwrap_or_default()))
}
