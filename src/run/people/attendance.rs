//! Who is there: names once a day, roles taken over, the pre-job brief.

use crate::procedure::Name;
use crate::run::apply::Next;
use crate::run::event::Event;
use crate::run::holds::verification::releasers;
use crate::run::people::event::{PeopleAsk, PeopleEvent};
use crate::run::people::facts::Turnover;
use crate::run::people::refusal::PeopleRefusal;
use crate::run::prompt::{Answer, Ask, Prompt};
use crate::run::refusal::Refusal;
use crate::run::sitting::event::InterruptionAnswer;
use crate::run::state::{LapseOf, Sitting};
use crate::run::typed::{filled, names, same_person};
use crate::run::view::View;

impl<'run> View<'run> {
    /// Who is there comes before the work: the names of another day, a turnover, the brief for new people.
    pub(in crate::run) fn ask_who_is_there(self) -> Option<Ask> {
        let facts = &self.state.people;
        let still = self.asked_anew().map(|role| PeopleAsk::Still(role.clone()));
        let turnover = || facts.not_accepted().map(|role| PeopleAsk::Turnover(role.clone()));
        let anew = || facts.briefed.is_some() && self.is_brief_wanted();
        still.or_else(turnover).or_else(|| anew().then_some(PeopleAsk::PreJobBrief)).map(Ask::People)
    }

    /// A role whose person is asked for anew, because the run was taken up again on another day.
    fn asked_anew(self) -> Option<&'run Name> {
        let resumed = self.state.particulars.resumed.as_ref()?;
        let zone = resumed.at.time_zone();
        self.book.procedure.roles().names().find(|role| {
            let said = self.state.people.said(role);
            said.is_some_and(|said| {
                said.seq < resumed.seq && said.at.with_time_zone(zone.clone()).date() != resumed.at.date()
            })
        })
    }

    /// Two people talk the job through before the first hold point is verified.
    pub(in crate::run) fn briefed_first(self, prompt: Prompt) -> Prompt {
        let step = prompt.step.and_then(|step| self.book.procedure.step(step));
        let at_hold = step.is_some_and(|step| step.hold.is_some());
        if at_hold && self.is_brief_wanted() {
            return Prompt { ask: Ask::People(PeopleAsk::PreJobBrief), ..prompt };
        }
        prompt
    }

    fn is_brief_wanted(self) -> bool {
        let facts = &self.state.people;
        self.book.procedure.roles().names().count() > 1
            && facts.briefed.is_none_or(|briefed| facts.changed().is_some_and(|changed| changed > briefed))
    }

    /// Everybody who has a role, each once, in the order of the roles.
    pub fn everybody(self) -> Vec<&'run str> {
        let mut people: Vec<&str> = Vec::new();
        for person in self.book.procedure.roles().names().filter_map(|role| self.state.people.get(role)) {
            if !people.iter().any(|known| same_person(known, person)) {
                people.push(person);
            }
        }
        people
    }

    /// Whoever takes over a role answers nothing before having accepted; stopping is always possible.
    pub(in crate::run) fn only_after_turnover(self, answer: &Answer) -> Result<(), Refusal> {
        let harmless = matches!(
            answer,
            Answer::People(_)
                | Answer::Leave { .. }
                | Answer::AcceptBrief
                | Answer::Release { .. }
                | Answer::Interruption(InterruptionAnswer::Standing { .. })
        );
        // Leaving goes to its end: each protection is made safe or kept.
        let harmless = harmless || self.state.sitting == Sitting::Resting;
        match self.state.people.not_accepted() {
            Some(role) if !harmless => {
                Err(PeopleRefusal::TurnoverFirst { person: self.person(role), role: role.to_string() }.into())
            }
            _ => Ok(()),
        }
    }

    /// The person of a role.
    pub(in crate::run) fn person(self, role: &Name) -> String {
        self.state.people.get(role).cloned().unwrap_or_default()
    }

    /// Two roles that release one hold point are two people: said here, since at the hold point it would be too late.
    pub(in crate::run) fn two_people(self, role: &Name, person: &str) -> Result<(), Refusal> {
        let holds = self.book.procedure.holds().iter();
        let shared =
            holds.map(|(_, hold)| releasers(hold)).filter(|roles| roles.clone().any(|own| own == role));
        let mut others = shared.flatten().filter(|own| *own != role);
        let is_taken =
            |other: &Name| self.state.people.get(other).is_some_and(|named| same_person(named, person));
        match others.find(|other| is_taken(other)) {
            Some(other) => Err(Refusal::TwoPeople { person: person.to_owned(), role: other.to_string() }),
            None => Ok(()),
        }
    }
}

/// Who has a role on another day: the same person as before, or another.
pub(in crate::run) fn named(view: View<'_>, role: &Name, person: String) -> Result<PeopleEvent, Refusal> {
    let person = filled("a name", person)?;
    if same_person(&person, &view.person(role)) {
        return Ok(PeopleEvent::Kept(role.clone()));
    }
    view.two_people(role, &person)?;
    Ok(PeopleEvent::TakenOver { role: role.clone(), person, note: None })
}

/// Somebody takes over a role in the middle of a sitting.
pub(in crate::run) fn take_over(
    view: View<'_>,
    role: Name,
    person: String,
    note: String,
) -> Result<PeopleEvent, Refusal> {
    if view.state.sitting != Sitting::Working || view.state.people.get(&role).is_none() {
        return Err(Refusal::NotAsked { asked: Box::new(view.next().ask) });
    }
    let person = filled("a name", person)?;
    if same_person(&person, &view.person(&role)) {
        return Err(PeopleRefusal::SameRole { person, role: role.to_string() }.into());
    }
    view.two_people(&role, &person)?;
    let note = filled("what the incoming person has to know", note)?;
    Ok(PeopleEvent::TakenOver { role, person, note: Some(note) })
}

/// The incoming person accepts.
pub(in crate::run) fn accept(view: View<'_>, role: &Name, said: &str) -> Result<PeopleEvent, Refusal> {
    Ok(PeopleEvent::TurnoverAccepted { role: role.clone(), person: signed(view, role, said)? })
}

/// Everybody who has a role is present at the pre-job brief; others may be.
pub(in crate::run) fn brief(view: View<'_>, said: &[String]) -> Result<PeopleEvent, Refusal> {
    let everybody = view.everybody();
    let mut present: Vec<String> = Vec::new();
    for said in said.iter().map(|said| said.trim()).filter(|said| !said.is_empty()) {
        let mut meant: Vec<&str> = everybody.iter().copied().filter(|person| names(said, person)).collect();
        if meant.is_empty() {
            meant.push(said);
        }
        for person in meant {
            if !present.iter().any(|known| known == person) {
                present.push(person.to_owned());
            }
        }
    }
    let missing = everybody.into_iter().filter(|person| !present.iter().any(|here| here == person));
    let missing: Vec<String> = missing.map(str::to_owned).collect();
    if missing.is_empty() {
        Ok(PeopleEvent::Briefed { present })
    } else {
        Err(PeopleRefusal::NotPresent { missing }.into())
    }
}

/// The person of a role, if it was that person who answered.
pub(in crate::run) fn signed(view: View<'_>, role: &Name, said: &str) -> Result<String, Refusal> {
    let person = view.person(role);
    if names(said, &person) {
        return Ok(person);
    }
    Err(PeopleRefusal::NotThatPerson { said: said.trim().to_owned(), person, role: role.to_string() }.into())
}

/// The name of a role was entered wrongly.
pub(in crate::run) fn correct_name(
    view: View<'_>,
    role: Name,
    person: String,
    reason: String,
) -> Result<PeopleEvent, Refusal> {
    let Some(held) = view.state.people.held(&role).last() else {
        return Err(Refusal::NeverTaken { reading: format!("the name of the {role}") });
    };
    let person = filled("a name", person)?;
    view.two_people(&role, &person)?;
    Ok(PeopleEvent::NameCorrected {
        role,
        entry: held.stamp.seq,
        person,
        reason: filled("the reason", reason)?,
    })
}

impl Next<'_> {
    /// What a hold point vouches for is verified again where it lapses with people; what protects stays in force.
    pub(in crate::run) fn take_over(&mut self, role: &Name, person: &str, note: Option<String>) {
        let from = self.state.people.get(role).cloned().unwrap_or_default();
        self.state.people.name(role, person, self.stamp);
        let turnover = Turnover { role: role.clone(), from, note, stamp: self.stamp.clone(), accepted: None };
        self.state.people.turnovers.push(turnover);
        self.lapse(LapseOf::OnPeople, PeopleEvent::change(role, person));
    }
}

impl PeopleEvent {
    /// Why a hold point lapses when people change.
    pub(crate) fn change(role: &Name, person: &str) -> String {
        format!("{person} took over as {role}")
    }
}

impl From<PeopleEvent> for Event {
    fn from(event: PeopleEvent) -> Self {
        Self::People(event)
    }
}
