//! Hold points, with every verification.

use super::page::Page;
use super::said::{address, moment, write_aside};
use crate::record::model::{Hold, Record, Verification};

pub(super) fn write(page: &mut Page, record: &Record) {
    page.heading("Hold points");
    for hold in &record.holds {
        page.blank();
        write_hold(page, hold);
    }
    if record.holds.is_empty() {
        page.put(0, "none");
    }
}

fn write_hold(page: &mut Page, hold: &Hold) {
    page.put(0, &format!("{} {} [{}]", address(&hold.step, &hold.place), hold.what, hold.name));
    write_aside(page, 2, &hold.place);
    page.maybe(2, "protection", hold.protection.as_deref());
    if hold.verifications.is_empty() {
        page.put(2, "not verified");
    }
    for (index, verification) in hold.verifications.iter().enumerate() {
        write_verification(page, index + 1, verification);
    }
}

fn write_verification(page: &mut Page, number: usize, verification: &Verification) {
    page.put(2, &format!("Verification {number}"));
    page.maybe(4, "again because", verification.again_because.as_deref());
    for untrue in &verification.untrue {
        page.put(4, &format!("NOT TRUE: {} ({})", untrue.statement, moment(&untrue.when)));
        page.field(6, "instead", &untrue.instead);
    }
    for statement in &verification.confirmed {
        page.put(4, &format!("true: {} ({})", statement.statement, moment(&statement.when)));
    }
    for reading in &verification.readings {
        page.put(4, &format!("{}: {} ({})", reading.what, reading.answer, moment(&reading.when)));
    }
    for group in &verification.fasteners {
        let (from, to) = (moment(&group.from), moment(&group.to));
        page.put(
            4,
            &format!("fasteners: {}, place by place under Fasteners (from {from} to {to})", group.what),
        );
    }
    for release in &verification.released {
        page.put(4, &format!("released by {} ({}), {}", release.name, release.role, moment(&release.when)));
    }
    if let Some(ended) = &verification.ended {
        page.put(4, &format!("ended: {} ({})", ended.why, moment(&ended.when)));
    }
}
