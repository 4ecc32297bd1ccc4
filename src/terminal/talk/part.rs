//! One person's part in a procedure: what is done, said and never touched, with the numbers that the steps have in the whole.

use std::collections::BTreeSet;

use super::lists::{head, list};
use super::overview::{hazards, section_head, step_alone};
use super::paper::Paper;
use super::{kit, words};
use crate::procedure::{CheckedProcedure, Group, Hold, Look, Name, Order, ReadingKind, Signal, Step, StepId};
use crate::run::doers;
use crate::terminal::{Line, Role, Text};
use crate::vehicle::Sheet;

/// The part of a role that the procedure declares.
pub fn part(procedure: &CheckedProcedure, sheet: Option<&Sheet>, role: &Name) -> Text {
    let page = Page { paper: Paper::new(procedure, sheet), role, last: last(procedure, role) };
    let text = page.opening().then(page.never());
    let sections = procedure.sections().iter();
    sections.fold(text, |text, section| {
        let mut told: BTreeSet<&Name> = section.hazards.iter().collect();
        let text = text.blank().then(section_head(page.paper, section));
        section.groups.iter().fold(text, |text, group| text.then(page.group(group, 0, &mut told)))
    })
}

struct Page<'a> {
    paper: Paper<'a>,
    role: &'a Name,
    /// The last step that this person has to do with: hold points after it bind him no more.
    last: Option<StepId>,
}

fn last(procedure: &CheckedProcedure, role: &Name) -> Option<StepId> {
    let own = |step: &&Step| does(step, role) || procedure.looks(step).iter().any(|(by, _)| *by == role);
    procedure.steps().iter().rev().find(own).map(|step| step.id)
}

fn does(step: &Step, role: &Name) -> bool {
    doers(step).contains(role)
}

fn releases(hold: &Hold, role: &Name) -> bool {
    hold.release == *role || hold.second.as_ref() == Some(role)
}

impl<'a> Page<'a> {
    /// Which procedure it is, whose part, and what it takes.
    fn opening(&self) -> Text {
        let procedure = self.paper.procedure;
        let what = procedure.role(self.role).map(|role| role.what.as_str()).unwrap_or_default();
        let part = Line::new()
            .with(Role::Strong, format!("The part of the {}: ", self.role))
            .with(Role::Plain, what)
            .hang(2);
        let checked = procedure.role(self.role).and_then(|role| role.checked_by.as_ref());
        let checked = checked.map(|by| {
            let words = format!("What you do alone counts when the {by} has looked at it and signed it off.");
            Line::plain(words).hang(2)
        });
        let others = procedure.roles().iter().filter(|(name, _)| *name != self.role);
        let others = others.map(|(name, role)| format!("{name}: {}", role.what));
        let text = head(procedure).blank().line(part);
        checked
            .into_iter()
            .fold(text, Text::line)
            .then(list("With you", others))
            .then(list("You need", self.needed()))
            .then(list("Must be so before the job", procedure.required().iter().cloned()))
            .then(list("Must be so at the end", procedure.close_up().iter().cloned()))
    }

    /// Tools, materials and parts of this person's own steps.
    fn needed(&self) -> impl Iterator<Item = String> {
        let procedure = self.paper.procedure;
        let own: Vec<&Step> = procedure.steps().iter().filter(|step| does(step, self.role)).collect();
        let is_needed = move |name: &Name| own.iter().any(|step| procedure.needs(step, name));
        let tools = procedure.tools().iter().map(|(name, tool)| (name, kit::tool(tool)));
        let supplies = procedure.materials().iter().chain(procedure.parts().iter());
        let supplies = supplies.map(|(name, supply)| (name, supply.what.clone()));
        tools.chain(supplies).filter(move |(name, _)| is_needed(name)).map(|(_, what)| what)
    }

    /// What stays as it is: what protections stand on, what others alone may do.
    fn never(&self) -> Text {
        let procedure = self.paper.procedure;
        let protections = procedure.holds().iter().filter_map(|(name, hold)| {
            let from = procedure.held_at(name).first().and_then(|step| procedure.step(*step))?;
            let enders = procedure.holds().iter().filter(|(_, other)| other.ends.contains(name));
            let until = enders.filter_map(|(name, _)| procedure.held_at(name).last()).max();
            let until = until.and_then(|step| procedure.step(*step));
            let until = until.map(|step| format!(" to {}", step.number)).unwrap_or_default();
            let what = hold.protection.as_ref()?;
            Some(format!(
                "{what}, from step {}{until}: move nothing that holds it; if it happens, say so at once",
                from.number
            ))
        });
        let others: Vec<&Step> = procedure.steps().iter().filter(|step| !does(step, self.role)).collect();
        let isolated = procedure.holds().iter().filter_map(|(_, hold)| hold.isolates.clone());
        let isolated = isolated.map(|energy| format!("{energy}: shut off, locked and tagged"));
        let acts = others.iter().flat_map(|step| step.critical.iter().map(|name| (*step, name)));
        let acts = acts.filter_map(|(step, name)| {
            Some(format!("{} (step {}, {})", procedure.critical_act(name)?.what, step.number, by(&[step])))
        });
        let groups = others.iter().flat_map(|step| procedure.fasteners_at(step).map(|name| (*step, name)));
        let groups = groups.filter_map(|(step, name)| {
            Some(format!("{} (step {}, {})", procedure.fastener_group(name)?.what, step.number, by(&[step])))
        });
        let rest = ["the steps that are not yours, unless you are asked".to_owned()];
        list("Never touch", protections.chain(isolated).chain(acts).chain(groups).chain(rest))
    }

    /// Whether a step itself is shown: it is this person's, concerns him, or is a hold point that he releases or works
    /// behind.
    fn is_shown(&self, step: &Step) -> bool {
        let procedure = self.paper.procedure;
        let hold = step.hold.as_ref().and_then(|hold| procedure.hold(hold));
        let binds = hold
            .is_some_and(|hold| releases(hold, self.role) || self.last.is_some_and(|last| step.id < last));
        binds || does(step, self.role) || procedure.looks(step).iter().any(|(by, _)| *by == self.role)
    }

    fn is_shown_within(&self, step: &Step) -> bool {
        let parts = step.groups.iter().flat_map(|group| &group.steps);
        let mut parts = parts.filter_map(|part| self.paper.procedure.step(*part));
        self.is_shown(step) || parts.any(|part| self.is_shown_within(part))
    }

    /// The steps of a list; those of others are only counted.
    fn group(&self, group: &Group, depth: usize, told: &mut BTreeSet<&'a Name>) -> Text {
        let steps: Vec<&'a Step> =
            group.steps.iter().filter_map(|step| self.paper.procedure.step(*step)).collect();
        let mut text = Text::new();
        if group.order == Order::AnyOrder && steps.len() > 1 {
            text = text.line(Line::new().with(Role::Faint, "In any order:").indent(depth));
        }
        for run in steps.chunk_by(|one, next| self.is_shown_within(one) == self.is_shown_within(next)) {
            text = match run.first() {
                Some(first) if self.is_shown_within(first) => {
                    run.iter().fold(text, |text, step| text.then(self.step(step, depth, told)))
                }
                _ => text.then(self.of_others(run, depth, told)),
            };
        }
        text
    }

    fn step(&self, step: &'a Step, depth: usize, told: &mut BTreeSet<&'a Name>) -> Text {
        told.extend(&step.hazards);
        let text = if self.is_shown(step) {
            let text = step_alone(self.paper, step, &doers(step), depth);
            self.yours(step).into_iter().fold(text, |text, line| text.line(line.indent(depth + 4)))
        } else {
            let words = super::overview::text_of(self.paper.procedure, &step.text);
            hazards(self.paper.procedure, &step.hazards)
                .then(words::numbered(&step.number, Role::Faint, words).indented(depth))
        };
        step.groups.iter().fold(text, |text, group| text.then(self.group(group, depth + 2, told)))
    }

    /// What this person has to do with a step, in sentences.
    fn yours(&self, step: &Step) -> Vec<Line> {
        let procedure = self.paper.procedure;
        let hold = step.hold.as_ref().and_then(|hold| procedure.hold(hold));
        let looks = procedure.looks(step).into_iter().filter(|(by, _)| *by == self.role);
        let looks = looks.map(|(_, look)| match look {
            Look::Verify(check) => format!("verify it afterwards: {}.", check.what),
            Look::See(witness) => format!("come when you are called: {}.", witness.what),
            Look::ReadAgain(reading) => format!(
                "read it again yourself, before you hear the first reading, and say what you read: {}.",
                reading.what
            ),
            Look::SignOff => "look at it and sign it off.".to_owned(),
        });
        let together = self.together(step);
        let at_hold = hold.map(|hold| self.at_hold(hold));
        let lines = together.into_iter().chain(at_hold).chain(self.answers(step)).chain(looks);
        lines.map(|words| Line::new().with(Role::Strong, "You: ").with(Role::Plain, words).hang(2)).collect()
    }

    /// With whom a step is done.
    fn together(&self, step: &Step) -> Option<String> {
        let others: Vec<&str> = step.who.iter().filter(|role| *role != self.role).map(Name::as_str).collect();
        let is_own = does(step, self.role) && !others.is_empty();
        is_own.then(|| format!("with the {}, both at once.", others.join(" and the ")))
    }

    fn at_hold(&self, hold: &Hold) -> String {
        let other = match &hold.second {
            Some(second) if hold.release == *self.role => format!(", and the {second} with you"),
            Some(_) => format!(", with the {}", hold.release),
            None => String::new(),
        };
        if releases(hold, self.role) {
            return format!("look at each of these yourself, then release it in your name{other}.");
        }
        let second = hold.second.as_ref().map(|role| format!(" and the {role}")).unwrap_or_default();
        format!("wait until the {}{second} says that it is released; nothing goes on before.", hold.release)
    }

    /// What the lead asks and this person answers aloud: what is seen at a step that is not the lead's.
    fn answers(&self, step: &Step) -> Option<String> {
        let lead = Name::from("lead");
        if !does(step, self.role) || does(step, &lead) {
            return None;
        }
        let readings = step.takes.iter().filter_map(|name| self.paper.procedure.reading(name));
        let seen = |kind: &ReadingKind| matches!(kind, ReadingKind::Choice { .. } | ReadingKind::Text);
        let asked: Vec<&str> =
            readings.filter(|reading| seen(&reading.kind)).map(|reading| reading.what.as_str()).collect();
        let words = "when the lead asks, answer aloud what you see; the lead says it back";
        (!asked.is_empty()).then(|| format!("{words}: {}.", asked.join("; ")))
    }

    /// Steps that are others': from which to which, whose they are, and what of them can hurt a bystander.
    fn of_others(&self, steps: &[&'a Step], depth: usize, told: &mut BTreeSet<&'a Name>) -> Text {
        let procedure = self.paper.procedure;
        let (Some(first), Some(last)) = (steps.first(), steps.last()) else { return Text::new() };
        let numbers = if first.id == last.id {
            first.number.clone()
        } else {
            format!("{} to {}", first.number, last.number)
        };
        let mut all = steps.to_vec();
        let mut at = 0;
        while let Some(step) = all.get(at) {
            let parts = step.groups.iter().flat_map(|group| &group.steps);
            all.extend(parts.filter_map(|part| procedure.step(*part)).collect::<Vec<_>>());
            at += 1;
        }
        let is_grave =
            |name: &&Name| procedure.hazard(name).is_some_and(|hazard| hazard.signal <= Signal::Warning);
        let grave = all.iter().flat_map(|step| &step.hazards).filter(is_grave);
        let new: Vec<Name> = grave.filter(|name| told.insert(name)).cloned().collect();
        let line = Line::new().with(Role::Faint, format!("{numbers}: the {}'s", by(&all)));
        hazards(procedure, &new).then(Text::from(line.indent(depth)))
    }
}

/// Whose steps they are: `lead`, `lead and helper`.
fn by(steps: &[&Step]) -> String {
    let roles: BTreeSet<Name> = steps.iter().flat_map(|step| doers(step)).collect();
    let roles: Vec<&str> = roles.iter().map(Name::as_str).collect();
    roles.join(" and ")
}
