//! What a run has done so far, as it is filled in on paper.

use crate::print::{Block, Mark, Tick};
use crate::procedure::Step;
use crate::record::model::{self, Moment, Record};
use crate::record::report;

/// The states in which nothing is left to do at an occurrence of a step.
const SETTLED: [&str; 2] = ["done", "not applicable"];

/// A run as its record tells it.
pub(super) struct Filled<'a>(&'a Record);

impl<'a> Filled<'a> {
    pub(super) const fn new(record: &'a Record) -> Self {
        Self(record)
    }

    /// On what, and by whom.
    pub(super) fn head(&self) -> Block {
        let vehicle = self.0.vehicle.description.clone().unwrap_or_else(|| "no vehicle sheet".to_owned());
        let people = self.0.people.iter().map(|person| (person.role.clone(), person.name.clone()));
        let facts = [("Vehicle".to_owned(), vehicle), ("Run".to_owned(), self.0.run.clone())];
        Block::Facts(facts.into_iter().chain(people).collect())
    }

    fn of(&self, step: &Step) -> impl Iterator<Item = &'a model::Step> {
        self.0.steps.iter().filter(move |done| done.number == step.number)
    }

    /// Whether nothing is left to do at any occurrence of a step.
    pub(super) fn is_settled(&self, step: &Step) -> bool {
        let mut all = self.of(step).filter(|done| done.place.aside.is_none()).peekable();
        all.peek().is_some() && all.all(|done| SETTLED.contains(&done.state.as_str()))
    }

    /// What was done of a step, each occurrence with what was read at it.
    pub(super) fn step(&self, step: &Step) -> Vec<Tick> {
        let done =
            self.of(step).filter(|done| SETTLED.contains(&done.state.as_str()) || !done.changes.is_empty());
        let mut ticks: Vec<Tick> = done.map(tick).collect();
        ticks.extend(self.held(step));
        let readings = self.0.readings.iter().filter(|reading| reading.step == step.number);
        ticks.extend(readings.flat_map(|reading| {
            let pass = reading.place.pass.as_ref().map(|pass| format!(", {pass}")).unwrap_or_default();
            reading.attempts.iter().map(move |attempt| {
                let verdict = attempt.judged.as_ref().map(|judged| format!("; {}", judged.words));
                let answer = report::answer(&attempt.answer);
                let words = format!("{}{pass}: {answer}{}", reading.what, verdict.unwrap_or_default());
                within(&words, &attempt.when)
            })
        }));
        ticks.extend(self.tightened(step));
        ticks
    }

    /// What was found true, and who released.
    fn held(&self, step: &Step) -> impl Iterator<Item = Tick> {
        let number = step.number.clone();
        let holds = self.0.holds.iter().filter(move |hold| hold.step == number);
        holds.flat_map(|hold| &hold.verifications).flat_map(|one| {
            let found = one.confirmed.iter().map(|found| within(&found.statement, &found.when));
            let released = one.released.iter().map(|release| {
                within(&format!("released by {} ({})", release.name, release.role), &release.when)
            });
            let ended = one.ended.iter().map(|ended| Tick {
                mark: Mark::None,
                ..within(&format!("no longer stands: {}", ended.why), &ended.when)
            });
            found.chain(released).chain(ended).collect::<Vec<_>>()
        })
    }

    fn tightened(&self, step: &Step) -> impl Iterator<Item = Tick> {
        let number = step.number.clone();
        let groups = self.0.fasteners.iter().filter(move |group| group.step == number);
        groups.flat_map(|group| &group.stages).flat_map(|stage| {
            stage.places.iter().flat_map(move |place| {
                place.acts.iter().map(move |act| {
                    let reached = act.reached.as_ref().map(|reached| format!(", {}", reached.typed.shown));
                    let words = format!(
                        "{}, {}: {}{}",
                        stage.what,
                        place.position,
                        act.what,
                        reached.unwrap_or_default()
                    );
                    within(&words, &act.when)
                })
            })
        })
    }
}

fn tick(done: &model::Step) -> Tick {
    let pass = done.place.pass.as_ref().map(|pass| format!(", {pass}")).unwrap_or_default();
    let when = done.changes.last().map(|change| format!(", {}", entered(&change.when))).unwrap_or_default();
    let who = if done.who.is_empty() { String::new() } else { format!(", {}", done.who.join(" and ")) };
    let why = done.why.as_ref().map(|why| format!(" ({why})")).unwrap_or_default();
    let aside = done.place.aside.as_ref().map(|aside| format!(" ({aside})")).unwrap_or_default();
    Tick {
        mark: if aside.is_empty() { Mark::Done } else { Mark::None },
        words: format!(
            "{}{pass} {}{when}{who}: {}{why}{aside}",
            done.number,
            done.state.to_uppercase(),
            done.text
        ),
        ..Tick::default()
    }
}

fn within(words: &str, when: &Moment) -> Tick {
    Tick { mark: Mark::Done, words: format!("{words} ({})", entered(when)), within: true, ..Tick::default() }
}

fn entered(when: &Moment) -> String {
    format!("{}, #{}", report::time(&when.at), when.entry)
}
