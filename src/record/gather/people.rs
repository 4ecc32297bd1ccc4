//! People: who had which role, who was briefed, who looked at whose work.

use crate::procedure::{Name, StepId};
use crate::record::model::{Brief, Look, Person, Turnover};
use crate::record::turn::Turn;
use crate::run::{Event, PeopleEvent};

#[derive(Default)]
pub(in crate::record) struct People {
    pub(in crate::record) named: Vec<Person>,
    pub(in crate::record) briefs: Vec<Brief>,
    pub(in crate::record) looks: Vec<Look>,
}

impl People {
    pub(in crate::record) fn see(&mut self, turn: Turn<'_>) {
        match turn.event {
            Event::PersonNamed { role, person } => self.named.push(named(turn, role, person, None)),
            Event::People(event) => self.among(turn, event),
            _ => {}
        }
    }

    fn among(&mut self, turn: Turn<'_>, event: &PeopleEvent) {
        match event {
            PeopleEvent::TakenOver { role, person, note } => {
                let from = turn.before.people.get(role).cloned().unwrap_or_default();
                let turnover = Turnover { from, note: note.clone(), accepted: None };
                self.named.push(named(turn, role, person, Some(turnover)));
            }
            PeopleEvent::TurnoverAccepted { role, .. } => {
                let mut people = self.named.iter_mut().rev();
                let newest = people.find(|person| person.role == role.as_str());
                if let Some(turnover) = newest.and_then(|person| person.turnover.as_mut()) {
                    turnover.accepted = Some(turn.moment());
                }
            }
            PeopleEvent::Briefed { present } => self.briefs.push(brief(turn, present)),
            other => self.looks.extend(look(turn, other)),
        }
    }
}

fn named(turn: Turn<'_>, role: &Name, person: &str, turnover: Option<Turnover>) -> Person {
    Person {
        role: role.to_string(),
        what: turn.book.procedure.what(role).unwrap_or_default().to_owned(),
        name: person.to_owned(),
        when: turn.moment(),
        turnover,
    }
}

fn brief(turn: Turn<'_>, present: &[String]) -> Brief {
    let procedure = &turn.book.procedure;
    let person = |role: &Name| turn.after.people.get(role).map(String::as_str).unwrap_or_default();
    let roles = procedure.roles().names().map(|role| format!("{} ({role})", person(role)));
    let hazards = procedure.hazards().iter();
    Brief {
        present: present.to_vec(),
        roles: roles.collect(),
        hazards: hazards.map(|(_, hazard)| format!("{} {}", hazard.signal.word(), hazard.hazard)).collect(),
        holds: procedure.holds().iter().map(|(_, hold)| hold.what.clone()).collect(),
        stop_word: "!".to_owned(),
        when: turn.moment(),
    }
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

fn look(turn: Turn<'_>, event: &PeopleEvent) -> Option<Look> {
    let about = about(turn, event)?;
    let procedure = &turn.book.procedure;
    let step = procedure.step(about.step)?;
    Some(Look {
        kind: about.kind.to_owned(),
        step: step.number.clone(),
        what: about.what.and_then(|name| procedure.what(name)).map(str::to_owned),
        role: about.role.map(ToString::to_string).unwrap_or_default(),
        who: about.who.cloned(),
        performers: turn.view_before().performers(step).into_iter().collect(),
        reason: about.reason.cloned(),
        when: turn.moment(),
    })
}

fn about<'run>(turn: Turn<'run>, event: &'run PeopleEvent) -> Option<About<'run>> {
    let procedure = &turn.book.procedure;
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
