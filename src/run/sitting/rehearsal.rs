//! What a rehearsal ends in: the kit, the moments for two people, the waits, the longest stretch that cannot be left
//! half-way.

use crate::formula::Value;
use crate::procedure::{Name, Named, Step, StepId, Supply};
use crate::run::view::View;
use crate::run::work::unrolled::StepAt;

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
    /// In which pass, where the step is done more than once.
    pub pass: Option<String>,
}

/// A row of steps between two points at which the job can rest.
#[derive(Clone, Debug)]
pub struct Stretch<'run> {
    /// The first step: its number, and its pass.
    pub from: String,
    /// The last.
    pub to: String,
    /// How many there are.
    pub steps: usize,
    /// The state in which the job can rest after it; none at the end of the job.
    pub rests: Option<&'run str>,
}

impl<'run> View<'run> {
    /// The steps without parts that were done in this walk, in each pass anew.
    fn walked(self) -> impl Iterator<Item = StepAt<'run>> {
        let steps = self.unrolled().into_iter();
        steps
            .filter(|at| at.step.groups.is_empty())
            .filter(move |at| self.counts(at.from()) && !self.inside(at.from()).is_not_applicable(at.step))
    }

    /// How often the clock of a wait was started.
    pub fn times_started(self, wait: &Name) -> usize {
        self.walked().filter(|at| at.at.is_some() && at.step.starts.contains(wait)).count()
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
        let at_each = |at: StepAt<'run>| {
            let pass = self.inside(at.from()).pass_words(at.step.id);
            let moments = self.together_at(at.step).into_iter();
            moments.map(move |moment| Together { pass: pass.clone(), ..moment })
        };
        self.walked().flat_map(at_each).collect()
    }

    fn together_at(self, step: &'run Step) -> Vec<Together<'run>> {
        let procedure = &self.book.procedure;
        let mut found = Vec::new();
        if step.who.len() > 1 {
            found.push(Together { step, roles: step.who.iter().collect(), why: "both at once", pass: None });
        }
        if let Some(hold) = step.hold.as_ref().and_then(|hold| procedure.hold(hold))
            && let Some(second) = &hold.second
        {
            found.push(Together {
                step,
                roles: vec![&hold.release, second],
                why: "both release it",
                pass: None,
            });
        }
        let by = step.checks.iter().filter_map(|name| procedure.check(name)).map(|check| &check.by);
        found.extend(by.map(|by| Together {
            step,
            roles: vec![by],
            why: "checks it afterwards",
            pass: None,
        }));
        let by = step.witnesses.iter().filter_map(|name| procedure.witness(name)).map(|witness| &witness.by);
        found.extend(by.map(|by| Together { step, roles: vec![by], why: "is called to see it", pass: None }));
        let by = step.takes.iter().filter_map(|name| Some(&procedure.reading(name)?.second.as_ref()?.by));
        found.extend(by.map(|by| Together {
            step,
            roles: vec![by],
            why: "reads it again, blind to the first",
            pass: None,
        }));
        let by = self.signs_off(step).into_iter();
        found.extend(by.map(|by| Together {
            step,
            roles: vec![by],
            why: "looks at it and signs it off",
            pass: None,
        }));
        found
    }

    /// The stretches between the points at which the job can rest, in the order of the text.
    pub fn stretches(self) -> Vec<Stretch<'run>> {
        let mut stretches: Vec<Stretch<'run>> = Vec::new();
        let mut open: Option<Stretch<'run>> = None;
        for at in self.walked() {
            let here = self.place_in_words(at);
            let begun = || Stretch { from: here.clone(), to: here.clone(), steps: 0, rests: None };
            let mut stretch = open.take().unwrap_or_else(begun);
            stretch.to = here;
            stretch.steps += 1;
            stretch.rests = self.rests_after(at.step.id);
            if stretch.rests.is_some() {
                stretches.push(stretch);
            } else {
                open = Some(stretch);
            }
        }
        stretches.extend(open);
        stretches
    }

    /// `4.3.2`, and in repeats `4.3.2, pass 2 of 3`.
    fn place_in_words(self, at: StepAt<'_>) -> String {
        let pass = self.inside(at.from()).pass_words(at.step.id);
        pass.map_or_else(|| at.step.number.clone(), |pass| format!("{}, {pass}", at.step.number))
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
