//! What is to be got ready for a job: tools, materials and parts with the step that needs them first, the moments for two
//! people, the waits. Before the job it is that of every step, after a rehearsal that of the steps that were walked.

use crate::formula::{Typed, Value};
use crate::procedure::{Name, Named, Step, Supply, Tool};
use crate::quantity::Quantity;
use crate::run::people::oversight::doers;
use crate::run::view::View;
use crate::run::work::part::Part;
use crate::run::work::unrolled::StepAt;

/// Something to be laid out, and when it is needed.
#[derive(Clone, Debug)]
pub struct LaidOut<'run, T> {
    /// Its name.
    pub name: &'run Name,
    /// What it is.
    pub thing: &'run T,
    /// The first step that needs it; none where no step speaks of it.
    pub first: Option<&'run Step>,
    /// The roles that do that step.
    pub by: Vec<Name>,
}

/// How much of something is to be packed.
#[derive(Clone, Debug)]
pub struct Packed<'run> {
    /// As the procedure says it.
    pub formula: &'run Typed,
    /// Worked out; none where a value is missing.
    pub comes_to: Option<Value>,
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

/// A wait as it lies ahead.
#[derive(Clone, Debug)]
pub struct PlannedWait<'run> {
    /// Its name.
    pub name: &'run Name,
    /// What is waited for.
    pub what: &'run str,
    /// The least time.
    pub at_least: Option<&'run Quantity>,
    /// The most.
    pub at_most: Option<&'run Quantity>,
    /// The step with which its clock starts.
    pub from: Option<&'run Step>,
    /// The first step that needs it.
    pub until: Option<&'run Step>,
}

impl<'run> View<'run> {
    /// The steps without parts that were done in this walk, in each pass anew; before it, those that lie ahead.
    pub(super) fn walked(self) -> impl Iterator<Item = StepAt<'run>> {
        let steps = self.unrolled().into_iter();
        steps
            .filter(|at| at.step.groups.is_empty())
            .filter(move |at| self.counts(at.from()) && !self.inside(at.from()).is_not_applicable(at.step))
    }

    /// How often the clock of a wait was started.
    pub fn times_started(self, wait: &Name) -> usize {
        self.walked().filter(|at| at.at.is_some() && at.step.starts.contains(wait)).count()
    }

    /// The tools, and when each is needed.
    pub fn tools(self) -> Vec<LaidOut<'run, Tool>> {
        self.laid_out(self.book.procedure.tools())
    }

    /// Materials or parts, and when each is needed.
    pub fn supplies(self, supplies: &'run Named<Supply>) -> Vec<LaidOut<'run, Supply>> {
        self.laid_out(supplies)
    }

    fn laid_out<T>(self, things: &'run Named<T>) -> Vec<LaidOut<'run, T>> {
        let one = |(name, thing): (&'run Name, &'run T)| {
            let first = self.book.procedure.needed_at(name);
            LaidOut { name, thing, first, by: first.map(doers).unwrap_or_default() }
        };
        things.iter().map(one).collect()
    }

    /// How much of it is to be packed, where the procedure says it.
    pub fn packed(self, supply: &'run Supply) -> Option<Packed<'run>> {
        let formula = supply.amount.as_ref()?;
        Some(Packed { formula, comes_to: formula.evaluate(&self.known()).ok() })
    }

    /// The waits, in the order of the file.
    pub fn planned_waits(self) -> Vec<PlannedWait<'run>> {
        let procedure = &self.book.procedure;
        let planned = procedure.waits().iter().map(|(name, wait)| PlannedWait {
            name,
            what: &wait.what,
            at_least: wait.at_least.as_ref(),
            at_most: wait.at_most.as_ref(),
            from: procedure.started_at(name).and_then(|step| procedure.step(step)),
            until: procedure.steps().iter().find(|step| step.needs.contains(name)),
        });
        planned.collect()
    }

    /// The moments at which more than one person is needed.
    pub fn together(self) -> Vec<Together<'run>> {
        let at_each = |at: StepAt<'run>| {
            let pass = self.pass_of(at);
            let moments = self.together_at(at.step).into_iter();
            moments.map(move |moment| Together { pass: pass.clone(), ..moment })
        };
        self.walked().flat_map(at_each).collect()
    }

    /// Which pass that is; of a pass that lies ahead nobody knows yet how many there will be.
    fn pass_of(self, at: StepAt<'_>) -> Option<String> {
        if at.at.is_some() {
            return self.inside(at.from()).pass_words(at.step.id);
        }
        let is_repeated = !self.book.repeats_over(Part::Step(at.step.id)).is_empty();
        is_repeated.then(|| "in each pass".to_owned())
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
        let by_one = procedure.looks(step).into_iter();
        found.extend(by_one.map(|(by, look)| Together {
            step,
            roles: vec![by],
            why: look.why(),
            pass: None,
        }));
        found
    }
}
