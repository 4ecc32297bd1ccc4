//! What a rehearsal ends in: the kit, the moments for two people, the waits, the longest stretch that cannot be left
//! half-way.

use super::view::View;
use crate::formula::Value;
use crate::procedure::{Name, Named, Step, StepId, Supply};

/// Something to be packed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Packed<'run> {
    /// What.
    pub what: &'run str,
    /// How much, where the procedure says it: worked out where the vehicle is known, else the formula.
    pub amount: Option<String>,
}

/// A step that one person cannot do alone.
#[derive(Clone, Debug)]
pub struct Together<'run> {
    /// The step.
    pub step: &'run Step,
    /// The roles.
    pub roles: Vec<&'run Name>,
    /// What they do together.
    pub why: &'static str,
}

/// A row of steps between two points at which the job can rest.
#[derive(Clone, Debug)]
pub struct Stretch<'run> {
    /// The first step.
    pub from: &'run Step,
    /// The last.
    pub to: &'run Step,
    /// How many there are.
    pub steps: usize,
    /// The state in which the job can rest after it; none at the end of the job.
    pub rests: Option<&'run str>,
}

impl<'run> View<'run> {
    /// The steps without parts that are done in this walk: all but those that do not apply.
    fn walked(self) -> impl Iterator<Item = &'run Step> {
        let steps = self.book.procedure.steps().iter();
        steps.filter(|step| step.groups.is_empty()).filter(move |step| !self.is_not_applicable(step))
    }

    /// What is to be packed of these.
    pub fn packed(self, supplies: &'run Named<Supply>) -> Vec<Packed<'run>> {
        let one = |(_, supply): (&Name, &'run Supply)| Packed {
            what: &supply.what,
            amount: supply.amount.as_ref().map(|amount| match amount.evaluate(&self.known()) {
                Ok(Value::Quantity(quantity)) => quantity.to_string(),
                Ok(other) => other.to_string(),
                Err(_) => amount.text().to_owned(),
            }),
        };
        supplies.iter().map(one).collect()
    }

    /// The moments at which more than one person is needed.
    pub fn together(self) -> Vec<Together<'run>> {
        self.walked().flat_map(|step| self.together_at(step)).collect()
    }

    fn together_at(self, step: &'run Step) -> Vec<Together<'run>> {
        let procedure = &self.book.procedure;
        let mut found = Vec::new();
        if step.who.len() > 1 {
            found.push(Together { step, roles: step.who.iter().collect(), why: "both at once" });
        }
        if let Some(hold) = step.hold.as_ref().and_then(|hold| procedure.hold(hold))
            && let Some(second) = &hold.second
        {
            found.push(Together { step, roles: vec![&hold.release, second], why: "both release it" });
        }
        let by = step.checks.iter().filter_map(|name| procedure.check(name)).map(|check| &check.by);
        found.extend(by.map(|by| Together { step, roles: vec![by], why: "checks it afterwards" }));
        let by = step.witnesses.iter().filter_map(|name| procedure.witness(name)).map(|witness| &witness.by);
        found.extend(by.map(|by| Together { step, roles: vec![by], why: "is called to see it" }));
        let by = step.takes.iter().filter_map(|name| Some(&procedure.reading(name)?.second.as_ref()?.by));
        found.extend(by.map(|by| Together {
            step,
            roles: vec![by],
            why: "reads it again, blind to the first",
        }));
        let by = self.signs_off(step).into_iter();
        found.extend(by.map(|by| Together { step, roles: vec![by], why: "looks at it and signs it off" }));
        found
    }

    /// The stretches between the points at which the job can rest, in the order of the text.
    pub fn stretches(self) -> Vec<Stretch<'run>> {
        let mut stretches: Vec<Stretch<'run>> = Vec::new();
        let mut open: Option<Stretch<'run>> = None;
        for step in self.walked() {
            let mut stretch = open.take().unwrap_or(Stretch { from: step, to: step, steps: 0, rests: None });
            stretch.to = step;
            stretch.steps += 1;
            stretch.rests = self.rests_after(step.id);
            if stretch.rests.is_some() {
                stretches.push(stretch);
            } else {
                open = Some(stretch);
            }
        }
        stretches.extend(open);
        stretches
    }

    /// The longest of them.
    pub fn longest_stretch(self) -> Option<Stretch<'run>> {
        // Of two that are equally long the first: whoever plans the evening meets it first.
        self.stretches().into_iter().rev().max_by_key(|stretch| stretch.steps)
    }

    /// The state in which the job can rest once a step is done, or the step whose last part it is.
    pub fn rests_after(self, step: StepId) -> Option<&'run str> {
        let procedure = &self.book.procedure;
        let mut at = procedure.step(step);
        while let Some(step) = at {
            let point = step.stopping_point.as_ref().and_then(|name| procedure.stopping_point(name));
            if let Some(point) = point {
                return Some(&point.what);
            }
            let parent = step.parent.and_then(|parent| procedure.step(parent));
            let last =
                |parent: &&Step| parent.groups.last().and_then(|group| group.steps.last()) == Some(&step.id);
            at = parent.filter(last);
        }
        None
    }
}
