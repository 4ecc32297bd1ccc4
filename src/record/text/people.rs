//! Who was briefed, and who looked at whose work.

use super::page::Page;
use super::said::{address, answer, converted_answer, moment, people, write_aside};
use crate::record::model::{Brief, Look, Person, Record, Second};

/// Nothing where there is nothing of the kind.
pub(super) fn write(page: &mut Page, record: &Record) {
    if !record.briefs.is_empty() {
        page.heading("Pre-job briefs");
        record.briefs.iter().for_each(|brief| write_brief(page, brief));
    }
    if !record.looks.is_empty() {
        page.heading("Verifications, sign-offs and witness points");
        record.looks.iter().for_each(|look| write_look(page, look));
    }
}

fn write_brief(page: &mut Page, brief: &Brief) {
    page.put(0, &moment(&brief.when));
    page.field(2, "present", &people(&brief.present));
    list(page, "roles", &brief.roles);
    list(page, "hazards", &brief.hazards);
    list(page, "hold points", &brief.holds);
    page.field(2, "the job is stopped with", &brief.stop_word);
}

fn list(page: &mut Page, name: &str, items: &[String]) {
    let words = if items.is_empty() { "none".to_owned() } else { items.join("; ") };
    page.field(2, name, &words);
}

fn write_look(page: &mut Page, look: &Look) {
    let what = look.what.as_ref().map(|what| format!(": {what}")).unwrap_or_default();
    page.put(0, &format!("{} {}{what}", address(&look.step, &look.place), look.kind.to_uppercase()));
    write_aside(page, 2, &look.place);
    let who = look.who.as_deref().unwrap_or("nobody");
    page.put(2, &format!("{who} ({}), {}", look.role, moment(&look.when)));
    if !look.performers.is_empty() {
        page.field(2, "done by", &people(&look.performers));
    }
    let reason = if look.kind == "found otherwise" { "it was" } else { "because" };
    page.maybe(2, reason, look.reason.as_deref());
}

/// A second reading under the first.
pub(super) fn write_second(page: &mut Page, second: &Second) {
    page.put(4, &format!("second reading, blind to the first: {}", answer(&second.answer)));
    page.maybe(6, "converted", converted_answer(&second.answer).as_deref());
    page.put(6, &format!("{}, {}", moment(&second.when), second.who));
    page.put(6, &second.agreement);
}

/// Under which name a person stood before it was corrected, and how somebody came to a role.
pub(super) fn write_turnover(page: &mut Page, person: &Person) {
    for before in &person.before {
        let words = format!("{}: {}, {}", before.name, before.reason, moment(&before.when));
        page.field(2, "corrected, before", &words);
    }
    let Some(turnover) = &person.turnover else { return };
    page.field(2, "took over from", &turnover.from);
    page.maybe(4, "told", turnover.note.as_deref());
    page.maybe(4, "brief read, accepted", turnover.accepted.as_ref().map(moment).as_deref());
}
