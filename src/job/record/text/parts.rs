//! What goes over several runs: balances, hours, fasteners, protections, what was handed on, what is due.

use super::page::Page;
use super::{in_pass, moment};
use crate::job::record::model::{
    Balance, FastenerPlace, Fasteners, Hours, JobRecord, LooseEnd, Protection, Row,
};
use crate::record::report::amount;

pub(super) fn write(page: &mut Page, record: &JobRecord) {
    for one in &record.balances {
        page.heading(&format!("{} [{}]", one.what, one.name));
        balance(page, one);
    }
    page.heading("Hours");
    hours(page, &record.hours);
    part(page, "Fasteners", &record.fasteners, fasteners);
    part(page, "Protections", &record.protections, protection);
    part(page, "Loose ends", &record.loose_ends, loose_end);
    part(page, "Handed on", &record.handed_on, |page, handed| {
        page.put(0, &format!("{} [{}]: {}", handed.what, handed.name, handed.value));
        page.put(2, &format!("{}; to run {}", handed.from, handed.to));
    });
    part(page, "Due", &record.dues, |page, one| {
        let due = &one.due;
        page.put(0, &format!("{} [{}]: {}", due.what, due.name, due.words));
        let set = moment(&due.set);
        page.put(2, &format!("reckoned from {}; run {}, step {} ({set})", due.since, one.run, due.step));
        page.field(2, "in a calendar", &one.uid);
    });
}

/// Nothing where there is nothing of the kind.
fn part<T>(page: &mut Page, title: &str, all: &[T], one: impl Fn(&mut Page, &T)) {
    if !all.is_empty() {
        page.heading(title);
        for each in all {
            one(page, each);
        }
    }
}

fn balance(page: &mut Page, balance: &Balance) {
    balance.rows.iter().for_each(|one| row(page, one));
    if let Some(sum) = &balance.sum {
        let words = format!("{} less {} is {}", amount(&sum.plus), amount(&sum.minus), amount(&sum.total));
        page.field(0, "sum", &words);
        page.maybe(0, "NOT WHOLE", sum.without.as_deref());
    }
}

fn row(page: &mut Page, row: &Row) {
    let sign = if row.sign.is_empty() { String::new() } else { format!("{} ", row.sign) };
    let shown = row.amount.as_ref().map(amount).or_else(|| row.words.clone());
    let open = || row.open.as_ref().map(|why| format!("OPEN, {why}"));
    let shown = shown.or_else(open).unwrap_or_default();
    page.put(0, &format!("{sign}{shown}: {}{} [{}]", row.what, in_pass(row.pass.as_ref()), row.result));
    let when = row.when.as_ref().map(|when| format!(", {}", moment(when))).unwrap_or_default();
    page.maybe(2, "run", row.run.as_ref().map(|run| format!("{run}{when}")).as_deref());
}

fn hours(page: &mut Page, hours: &Hours) {
    page.put(0, &format!("{} between the entries, without pauses of more than an hour", hours.time));
    page.maybe(0, "an hour", hours.rate.as_ref().map(amount).as_deref());
    page.maybe(2, "source", hours.source.as_deref());
    page.maybe(0, "worth", hours.worth.as_ref().map(amount).as_deref());
}

fn fasteners(page: &mut Page, group: &Fasteners) {
    let pass = in_pass(group.pass.as_ref());
    page.put(0, &format!("{} [{}]: {}", group.what, group.name, group.state.to_uppercase()));
    page.put(2, &format!("run {}, step {}{pass}", group.run, group.step));
    group.places.iter().for_each(|one| place(page, one));
}

fn place(page: &mut Page, place: &FastenerPlace) {
    let stage = place.stage.as_ref().map(|stage| format!("; {stage}")).unwrap_or_default();
    let target = place.target.as_ref().map(|target| format!(", wanted {target}")).unwrap_or_default();
    let reached = place.reached.as_ref().map(|reached| format!(", reached {reached}")).unwrap_or_default();
    let when = place.when.as_ref().map(|when| format!(" ({})", moment(when))).unwrap_or_default();
    page.put(2, &format!("{}: {}{stage}{target}{reached}{when}", place.position, place.state));
    page.maybe(4, "loosened again", place.loosened.as_deref());
}

fn protection(page: &mut Page, protection: &Protection) {
    page.put(0, &protection.what);
    let by = protection.by.join(" and ");
    page.put(2, &format!("run {}, released by {by}, {}", protection.run, moment(&protection.since)));
    let until = protection.until.as_ref().map(|until| format!(" ({})", moment(until))).unwrap_or_default();
    let over =
        protection.over.as_deref().map_or_else(|| "IN FORCE".to_owned(), |why| format!("over: {why}{until}"));
    page.put(2, &over);
}

fn loose_end(page: &mut Page, end: &LooseEnd) {
    page.put(0, &end.what);
    let left = end.left.as_ref().map(|left| format!(", {}", moment(left))).unwrap_or_default();
    page.put(2, &format!("{}, run {}{left}", end.left_at, end.run));
    let entry = end.became_entry.map(|entry| format!(", entry {entry}")).unwrap_or_default();
    let place = end.became_in.as_ref().map(|run| format!(" (run {run}{entry})")).unwrap_or_default();
    page.put(2, &format!("{}{place}", end.became.as_deref().unwrap_or("OPEN")));
}
