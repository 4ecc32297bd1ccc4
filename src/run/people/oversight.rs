//! Who looks at somebody else's work: witnesses before it, sign-off and verification after it.

use std::collections::BTreeSet;

use crate::procedure::{Name, Step, StepId};
use crate::run::apply::Next;
use crate::run::holds::verification::later;
use crate::run::people::attendance::signed;
use crate::run::people::event::{PeopleAsk, PeopleEvent};
use crate::run::people::refusal::PeopleRefusal;
use crate::run::prompt::Ask;
use crate::run::refusal::Refusal;
use crate::run::stamp::Stamp;
use crate::run::typed::{names, same_person};
use crate::run::view::View;
use crate::run::work::deviation::Departure;
use crate::run::work::facts::{Called, Said};
use crate::run::work::tree::PassEnd;

impl<'run> View<'run> {
    /// Who is called before a step.
    pub(in crate::run) fn ask_witness(self, step: &Step) -> Option<Ask> {
        let called =
            |witness: &Name| self.said(step.id).called.iter().any(|called| called.witness == *witness);
        let witness = step.witnesses.iter().find(|witness| !called(witness))?;
        Some(Ask::People(PeopleAsk::Witness(witness.clone())))
    }

    /// Who looks at a step once its work is done.
    pub(in crate::run) fn ask_look(self, step: &Step) -> Option<Ask> {
        if !self.is_worked(step) {
            return None;
        }
        let sign_off = self.signs_off(step).filter(|_| !self.is_signed_off(step));
        let sign_off = sign_off.map(|role| PeopleAsk::SignOff(role.clone()));
        let check = || step.checks.iter().find(|check| !self.is_checked(step, check));
        sign_off.or_else(|| check().map(|check| PeopleAsk::Check(check.clone()))).map(Ask::People)
    }

    /// Whether everybody who has to look at a step has done so since its work was done.
    pub(in crate::run) fn is_looked_over(self, step: &Step) -> bool {
        (self.signs_off(step).is_none() || self.is_signed_off(step))
            && step.checks.iter().all(|check| self.is_checked(step, check))
    }

    /// Who is waited for, where the work of a step is done: `awaiting check by Sam Hollis (helper)`.
    pub fn awaits(self, step: &Step) -> Option<String> {
        let role = match self.ask_look(step)? {
            Ask::People(PeopleAsk::SignOff(role)) => role,
            Ask::People(PeopleAsk::Check(check)) => self.book.procedure.check(&check)?.by.clone(),
            _ => return None,
        };
        Some(format!("awaiting check by {} ({role})", self.person(&role)))
    }

    /// The role that signs off a step which another role did alone. A hold point is released instead.
    pub(in crate::run) fn signs_off(self, step: &Step) -> Option<&'run Name> {
        self.book.procedure.signs_off(step)
    }

    fn is_signed_off(self, step: &Step) -> bool {
        self.is_since_work(step, self.said(step.id).signed_off.as_ref())
    }

    fn is_checked(self, step: &Step, check: &Name) -> bool {
        self.is_since_work(step, Said::last(&self.said(step.id).checked, check))
    }

    fn is_since_work(self, step: &Step, stamp: Option<&Stamp>) -> bool {
        let worked = self.worked(step);
        stamp.zip(worked).is_some_and(|(stamp, worked)| stamp.seq > worked.seq)
    }

    /// Everybody who has had a hand in a step, whoever has its roles now.
    pub fn performers(self, step: &Step) -> BTreeSet<String> {
        let inner = self.book.procedure.steps().iter().filter(|inner| self.book.is_within(inner.id, step.id));
        inner.flat_map(|inner| self.performed_by(inner)).collect()
    }

    fn performed_by(self, step: &'run Step) -> impl Iterator<Item = String> {
        let said = self.said(step.id);
        let done = said.done.iter().map(|stamp| stamp.seq);
        let read = step.takes.iter().filter_map(|name| self.latest(name)).map(|taken| taken.place);
        let tightened = said.acts.iter().map(|act| act.stamp.seq);
        let when: BTreeSet<u64> = done.chain(read).chain(tightened).collect();
        let roles = doers(step);
        when.into_iter().flat_map(move |seq| {
            let people = roles.iter().filter_map(|role| self.state.people.at(role, seq).map(str::to_owned));
            people.collect::<Vec<_>>()
        })
    }

    fn had_a_hand(self, step: StepId, person: &str) -> bool {
        let step = self.book.procedure.step(step);
        step.is_some_and(|step| self.performers(step).iter().any(|own| same_person(own, person)))
    }
}

/// The roles that do a step: those at its front, else the lead.
pub(crate) fn doers(step: &Step) -> Vec<Name> {
    if step.who.is_empty() { vec![Name::from("lead")] } else { step.who.to_vec() }
}

/// Who was called is here.
pub(in crate::run) fn witness(
    view: View<'_>,
    step: StepId,
    witness: &Name,
    said: &str,
) -> Result<PeopleEvent, Refusal> {
    let declared = view.book.procedure.witness(witness).ok_or(Refusal::NotOffered)?;
    let person = signed(view, &declared.by, said)?;
    let doers = view.book.procedure.step(step).map(doers).unwrap_or_default();
    if doers.iter().any(|role| same_person(&view.person(role), &person)) {
        return Err(PeopleRefusal::OwnWork { person, role: declared.by.to_string(), alone: None }.into());
    }
    Ok(PeopleEvent::Witnessed { step, witness: witness.clone(), person })
}

/// The person of the role that checks looks at a step and signs it off.
pub(in crate::run) fn sign_off(
    view: View<'_>,
    step: StepId,
    role: &Name,
    said: &str,
) -> Result<PeopleEvent, Refusal> {
    let person = signed(view, role, said)?;
    if view.had_a_hand(step, &person) {
        return Err(PeopleRefusal::OwnWork { person, role: role.to_string(), alone: None }.into());
    }
    Ok(PeopleEvent::SignedOff { step, role: role.clone(), person })
}

/// Another person than those who did a step verifies it.
pub(in crate::run) fn verify(
    view: View<'_>,
    step: StepId,
    check: &Name,
    said: &str,
) -> Result<PeopleEvent, Refusal> {
    let declared = view.book.procedure.check(check).ok_or(Refusal::NotOffered)?;
    let person = signed(view, &declared.by, said)?;
    if view.had_a_hand(step, &person) {
        let alone = declared.alone.as_ref().map(ToString::to_string);
        return Err(PeopleRefusal::OwnWork { person, role: declared.by.to_string(), alone }.into());
    }
    Ok(PeopleEvent::Verified { step, check: check.clone(), person })
}

/// Where the procedure allows it, one who did the step looks again after a break.
pub(in crate::run) fn reinspect(
    view: View<'_>,
    step: StepId,
    check: &Name,
    said: &str,
    reason: String,
) -> Result<PeopleEvent, Refusal> {
    let declared = view.book.procedure.check(check).ok_or(Refusal::NotOffered)?;
    let alone =
        declared.alone.as_ref().ok_or_else(|| PeopleRefusal::NeverAlone { role: declared.by.to_string() })?;
    let performers = view.book.procedure.step(step).map(|step| view.performers(step)).unwrap_or_default();
    let Some(person) = performers.iter().find(|person| names(said, person)).cloned() else {
        let performers = performers.into_iter().collect();
        return Err(PeopleRefusal::NotAPerformer { said: said.trim().to_owned(), performers }.into());
    };
    let worked =
        view.book.procedure.step(step).and_then(|step| view.worked(step)).ok_or(Refusal::NotOffered)?;
    let from = later(&worked.at, alone);
    if *view.now < from {
        return Err(PeopleRefusal::TooSoon {
            after: alone.to_string(),
            from: from.strftime("%H:%M").to_string(),
        }
        .into());
    }
    Ok(PeopleEvent::Reinspected { step, check: check.clone(), person, reason })
}

/// Whoever looks finds it otherwise.
pub(in crate::run) fn found_wrong(
    view: View<'_>,
    step: StepId,
    ask: &PeopleAsk,
    state: String,
) -> Result<PeopleEvent, Refusal> {
    let (role, check) = match ask {
        PeopleAsk::Check(check) => {
            let declared = view.book.procedure.check(check).ok_or(Refusal::NotOffered)?;
            (declared.by.clone(), Some(check.clone()))
        }
        PeopleAsk::SignOff(role) => (role.clone(), None),
        _ => return Err(Refusal::NotOffered),
    };
    Ok(PeopleEvent::FoundWrong { step, check, person: view.person(&role), state })
}

impl Next<'_> {
    pub(in crate::run) fn look_over(&mut self, event: &PeopleEvent) {
        let stamp = self.stamp.clone();
        match event {
            PeopleEvent::Witnessed { witness, .. } | PeopleEvent::NotWitnessed { witness, .. } => {
                self.said().called.push(Called { witness: witness.clone(), stamp });
            }
            PeopleEvent::SignedOff { .. } => self.said().signed_off = Some(stamp),
            PeopleEvent::Verified { check, .. } => self.said().checked.push((check.clone(), stamp)),
            PeopleEvent::Reinspected { step, check, reason, .. } => {
                self.said().checked.push((check.clone(), stamp));
                self.depart(Departure::Reinspected(*step, check.clone()), reason, None);
            }
            PeopleEvent::FoundWrong { state, .. } => {
                self.end(PassEnd::SetAside(format!("found otherwise: {state}")), None);
            }
            _ => {}
        }
    }
}
