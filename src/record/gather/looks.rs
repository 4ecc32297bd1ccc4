//! Who looked at whose work, and who heard the pre-job brief.

use super::work::{Work, moment};
use crate::procedure::{Name, StepId};
use crate::record::model::{Brief, Look, Place};
use crate::run::{Event, OccurrenceId, PeopleEvent, Stamp};

pub(in crate::record) fn looks(work: &Work<'_>, events: &[(Event, Stamp)]) -> Vec<Look> {
    among(events).filter_map(|(event, stamp)| look(work, event, stamp)).collect()
}

pub(in crate::record) fn briefs(work: &Work<'_>, events: &[(Event, Stamp)]) -> Vec<Brief> {
    let briefs = among(events).filter_map(|(event, stamp)| match event {
        PeopleEvent::Briefed { present } => Some(brief(work, present, stamp)),
        _ => None,
    });
    briefs.collect()
}

fn among(events: &[(Event, Stamp)]) -> impl Iterator<Item = (&PeopleEvent, &Stamp)> {
    events.iter().filter_map(|(event, stamp)| match event.itself() {
        Event::People(event) => Some((event, stamp)),
        _ => None,
    })
}

fn brief(work: &Work<'_>, present: &[String], stamp: &Stamp) -> Brief {
    let procedure = &work.book().procedure;
    let person = |role: &Name| work.view.state.people.at(role, stamp.seq).unwrap_or_default();
    let roles = procedure.roles().names().map(|role| format!("{} ({role})", person(role)));
    let hazards = procedure.hazards().iter();
    Brief {
        present: present.iter().map(|person| known_as(work, person, stamp)).collect(),
        roles: roles.collect(),
        hazards: hazards.map(|(_, hazard)| format!("{} {}", hazard.signal.word(), hazard.hazard)).collect(),
        holds: procedure.holds().iter().map(|(_, hold)| hold.what.clone()).collect(),
        stop_word: "!".to_owned(),
        when: moment(stamp),
    }
}

fn known_as(work: &Work<'_>, person: &str, stamp: &Stamp) -> String {
    work.view.state.people.known_as(person, stamp.seq).to_owned()
}

/// What one look is about.
struct About<'run> {
    kind: &'static str,
    step: StepId,
    what: Option<&'run Name>,
    role: Option<&'run Name>,
    who: Option<&'run String>,
    reason: Option<&'run String>,
}

fn look(work: &Work<'_>, event: &PeopleEvent, stamp: &Stamp) -> Option<Look> {
    let about = about(work, event)?;
    let procedure = &work.book().procedure;
    let step = procedure.step(about.step)?;
    let at = stamp.place.as_ref().and_then(|place| work.view.state.tree.find(procedure, place));
    let at = at.unwrap_or_default();
    // Whoever is called comes before the work.
    let is_before = matches!(event, PeopleEvent::Witnessed { .. } | PeopleEvent::NotWitnessed { .. });
    let performers =
        if is_before { std::collections::BTreeSet::new() } else { work.view.inside(at).performers(step) };
    Some(Look {
        kind: about.kind.to_owned(),
        step: step.number.clone(),
        place: if at == OccurrenceId::RUN { Place::default() } else { work.place_at(at) },
        what: about.what.and_then(|name| procedure.what(name)).map(str::to_owned),
        role: about.role.map(ToString::to_string).unwrap_or_default(),
        who: about.who.map(|person| known_as(work, person, stamp)),
        performers: performers.into_iter().collect(),
        reason: about.reason.cloned(),
        when: moment(stamp),
    })
}

fn about<'run>(work: &Work<'run>, event: &'run PeopleEvent) -> Option<About<'run>> {
    let procedure = &work.book().procedure;
    let checker = |check: &Name| procedure.check(check).map(|check| &check.by);
    let signs = |step: &StepId| {
        let role = procedure.step(*step).and_then(|step| step.who.first());
        role.and_then(|role| procedure.role(role)).and_then(|role| role.checked_by.as_ref())
    };
    let of =
        |kind, step: &StepId| About { kind, step: *step, what: None, role: None, who: None, reason: None };
    Some(match event {
        PeopleEvent::Verified { step, check, person } => About {
            what: Some(check),
            role: checker(check),
            who: Some(person),
            ..of("independent verification", step)
        },
        PeopleEvent::Reinspected { step, check, person, reason } => About {
            what: Some(check),
            role: checker(check),
            who: Some(person),
            reason: Some(reason),
            ..of("re-inspection (one person)", step)
        },
        PeopleEvent::SignedOff { step, role, person } => {
            About { role: Some(role), who: Some(person), ..of("sign-off", step) }
        }
        PeopleEvent::FoundWrong { step, check, person, state } => About {
            what: check.as_ref(),
            role: check.as_ref().map_or_else(|| signs(step), checker),
            who: Some(person),
            reason: Some(state),
            ..of("found otherwise", step)
        },
        PeopleEvent::Witnessed { step, witness, person } => About {
            what: Some(witness),
            role: procedure.witness(witness).map(|witness| &witness.by),
            who: Some(person),
            ..of("witnessed", step)
        },
        PeopleEvent::NotWitnessed { step, witness, reason } => About {
            what: Some(witness),
            role: procedure.witness(witness).map(|witness| &witness.by),
            reason: Some(reason),
            ..of("not witnessed", step)
        },
        _ => return None,
    })
}
