//! People: who had which role, from whom, and under which name before it was corrected.

use super::work::{Work, moment};
use crate::procedure::Name;
use crate::record::model::{NameBefore, Person, Turnover};
use crate::run::Held;

pub(in crate::record) fn people(work: &Work<'_>) -> Vec<Person> {
    let facts = &work.view.state.people;
    let roles = work.book().procedure.roles().names();
    let held = roles.flat_map(|role| facts.held(role).iter().map(move |held| (role, held)));
    let mut people: Vec<Person> = held.map(|(role, held)| named(work, role, held)).collect();
    people.sort_by_key(|person| person.when.entry);
    people
}

fn named(work: &Work<'_>, role: &Name, held: &Held) -> Person {
    let turnovers = work.view.state.people.turnovers.iter();
    let facts = &work.view.state.people;
    let mut turnovers =
        turnovers.filter(|turnover| turnover.role == *role && turnover.stamp.seq == held.stamp.seq);
    let turnover = turnovers.next().map(|turnover| Turnover {
        from: facts.known_as(&turnover.from, turnover.stamp.seq).to_owned(),
        note: turnover.note.clone(),
        accepted: turnover.accepted.as_ref().map(moment),
    });
    let before = held.before.iter().map(|(name, reason, stamp)| NameBefore {
        name: name.clone(),
        reason: reason.clone(),
        when: moment(stamp),
    });
    Person {
        role: role.to_string(),
        what: work.book().procedure.what(role).unwrap_or_default().to_owned(),
        name: held.person.clone(),
        when: moment(&held.stamp),
        before: before.collect(),
        turnover,
    }
}
