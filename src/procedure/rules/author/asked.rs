//! What one step asks when everything is as it should be.

use std::collections::BTreeSet;

use super::certain::{Standing, standing, thing};
use crate::formula::{NoNames, Value};
use crate::procedure::check::Draft;
use crate::procedure::link::is_procedure;
use crate::procedure::written::{WrittenCriterion, WrittenKind, WrittenPositions};
use crate::procedure::{Criterion, Group, Name, Order, Section, SectionId, Signal, Step};

/// A sort of question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Part {
    /// Before, between and after the work.
    Frame,
    Statement,
    Release,
    Reading,
    /// A second reading, a judgement by eye.
    Opinion,
    Done,
    Hazard,
    Critical,
    Wait,
    /// A witness, a check, a sign-off.
    Look,
    Pick,
    End,
}

impl Part {
    /// What such questions are called when they are counted.
    pub(super) const fn words(self) -> &'static str {
        match self {
            Self::Frame => "before and after the work",
            Self::Statement => "statements of hold points",
            Self::Release => "releases",
            Self::Reading => "readings",
            Self::Opinion => "second readings and judgements by eye",
            Self::Done => "steps called done",
            Self::Hazard => "hazards acknowledged",
            Self::Critical => "critical acts typed",
            Self::Wait => "waits",
            Self::Look => "looks by another person",
            Self::Pick => "choices of what comes next",
            Self::End => "ends of sections",
        }
    }
}

/// What one step asks, its parts by themselves.
pub(super) fn of_step(draft: &Draft<'_>, step: &Step, waited: &mut BTreeSet<Name>) -> Vec<(Part, usize)> {
    let is_link = draft
        .outline
        .steps
        .get(step.id.0)
        .is_some_and(|written| written.links.iter().any(|link| is_procedure(&link.address)));
    if is_link {
        return Vec::new();
    }
    let waits = step.needs.iter().filter(|wait| waited.insert((*wait).clone()));
    let waits = waits.filter(|wait| has_a_least(draft, wait)).count();
    let hold = step.hold.as_ref().and_then(|hold| thing(&draft.declarations.holds, hold));
    let of_hold = draft.hold_readings(step).into_iter();
    let readings: Vec<&Name> =
        step.takes.iter().chain(of_hold).filter(|name| is_reading(draft, name)).collect();
    let opinions: usize = readings.iter().map(|reading| opinions(draft, reading)).sum();
    let computed = step.computes.iter().filter(|value| is_nominal_value(draft, value)).count();
    let signed = usize::from(step.hold.is_none() && is_signed_off(draft, step));
    let ways = usize::from(step.alternatives.is_some());
    let inner = if ways > 0 { 0 } else { step.groups.iter().map(|group| picks(draft, group)).sum() };
    vec![
        (Part::Statement, hold.map_or(0, |hold| hold.confirm.len())),
        (Part::Release, hold.map_or(0, |hold| 1 + usize::from(hold.second.is_some()))),
        (Part::Reading, readings.len()),
        (Part::Opinion, opinions + computed),
        (Part::Done, usize::from(step.needs_a_word())),
        (Part::Critical, step.critical.len()),
        (Part::Wait, waits),
        (Part::Look, step.witnesses.len() + step.checks.len() + signed),
        (Part::Pick, ways + inner),
    ]
}

fn is_reading(draft: &Draft<'_>, name: &Name) -> bool {
    thing(&draft.declarations.readings, name).is_some()
}

/// A second reading, and a judgement beside a nominal value.
fn opinions(draft: &Draft<'_>, name: &Name) -> usize {
    thing(&draft.declarations.readings, name).map_or(0, |reading| {
        let nominal = match &reading.kind {
            WrittenKind::Quantity { criterion, .. } | WrittenKind::Count(criterion) => is_nominal(criterion),
            _ => false,
        };
        usize::from(reading.second.is_some()) + usize::from(nominal)
    })
}

const fn is_nominal(criterion: &WrittenCriterion) -> bool {
    matches!(criterion, WrittenCriterion::Nominal(_))
}

fn is_nominal_value(draft: &Draft<'_>, name: &Name) -> bool {
    thing(&draft.declarations.values, name).is_some_and(|value| is_nominal(&value.criterion))
}

/// What is asked at the groups of fasteners of a step, and of its hold point.
pub(super) fn places_at(draft: &Draft<'_>, step: &Step) -> usize {
    let hold = step.hold.as_ref().and_then(|hold| thing(&draft.declarations.holds, hold));
    let groups = hold.into_iter().flat_map(|hold| &hold.readings).map(|name| Name::from(&name.value));
    step.fasteners.iter().cloned().chain(groups).map(|group| places(draft, &group)).sum()
}

/// Each place of each stage, the judgements by eye, and the word with which each stage after the first is begun.
fn places(draft: &Draft<'_>, group: &Name) -> usize {
    thing(&draft.declarations.fasteners, group).map_or(0, |written| {
        let count = match &written.positions {
            WrittenPositions::Named(names) => names.len(),
            WrittenPositions::Count(_) => counted(draft, group).unwrap_or(1),
        };
        let stages = written.stages.iter().enumerate();
        let by_eye = stages.filter(|(place, stage)| {
            let criterion = draft.formulas.stages.get(&(group.clone(), *place));
            stage.read && matches!(criterion, Some(Criterion::Nominal(_)))
        });
        count * (written.stages.len() + by_eye.count()) + written.stages.len().saturating_sub(1)
    })
}

/// How many places a group has, where that is known before the job.
fn counted(draft: &Draft<'_>, group: &Name) -> Option<usize> {
    let formula = draft.formulas.flow.get(&(group.clone(), "count".to_owned()))?;
    let Value::Quantity(count) = formula.evaluate(&NoNames).ok()? else { return None };
    let exact = count.base().exact().filter(num_rational::Ratio::is_integer)?;
    usize::try_from(*exact.numer()).ok()
}

fn is_signed_off(draft: &Draft<'_>, step: &Step) -> bool {
    let [only] = step.who.as_slice() else { return false };
    thing(&draft.declarations.roles, only).is_some_and(|role| role.checked_by.is_some())
}

fn has_a_least(draft: &Draft<'_>, wait: &Name) -> bool {
    thing(&draft.declarations.waits, wait).is_some_and(|wait| wait.at_least.is_some())
}

/// Whether a hazard is acknowledged.
pub(super) fn demands_a_word(draft: &Draft<'_>, hazard: &Name) -> bool {
    thing(&draft.declarations.hazards, hazard)
        .is_some_and(|hazard| matches!(hazard.signal, Signal::Danger | Signal::Warning))
}

/// Of a list whose order is free, the next one is picked as long as there are several.
pub(super) fn picks(draft: &Draft<'_>, group: &Group) -> usize {
    if group.order == Order::InOrder {
        return 0;
    }
    let certain = group.steps.iter().filter_map(|step| draft.step(*step));
    certain.filter(|step| standing(draft, step) == Standing::Always).count().saturating_sub(1)
}

/// Whether a section is led step by step whatever its level of use says.
pub(super) fn is_led(draft: &Draft<'_>, id: SectionId, section: &Section) -> bool {
    let mut steps = draft.steps_in(id).iter();
    let mut of_section = section.hazards.iter();
    of_section.any(|hazard| demands_a_word(draft, hazard))
        || steps.any(|step| {
            step.hold.is_some()
                || !step.fasteners.is_empty()
                || !step.witnesses.is_empty()
                || !step.critical.is_empty()
                || !step.needs.is_empty()
                || step.hazards.iter().any(|hazard| demands_a_word(draft, hazard))
        })
}
