//! What a stage tightens to.

use crate::formula::Type;
use crate::formula::{Trace, Typed, Value};
use crate::procedure::{Criterion, Stage};
use crate::quantity::{Dimension, Limits, Quantity, Unit};
use crate::run::View;
use crate::run::judge::number;

/// The target of a stage as it stands.
#[derive(Clone, Debug)]
pub struct Aim {
    /// The torque or the angle.
    pub target: Quantity,
    /// What is still good, where the procedure says it.
    pub limits: Option<Limits>,
    /// How the target came about.
    pub trace: Trace,
}

impl Aim {
    /// Whether it is an angle to turn by; else it is a torque.
    pub fn is_angle(&self) -> bool {
        self.target.unit.dimension() == Dimension::ANGLE
    }

    /// `20 N·m (19.2 N·m to 20.8 N·m)`.
    pub fn words(&self) -> String {
        let limits = self.limits.as_ref().map(|limits| format!(" ({limits})")).unwrap_or_default();
        format!("{}{limits}", self.target)
    }
}

impl View<'_> {
    /// What a stage tightens to, or why that is not known; none for a stage that is done by feel.
    pub fn aim(self, stage: &Stage) -> Option<Result<Aim, String>> {
        let target = stage.target.as_ref()?;
        Some(self.aim_at(target, stage.within.as_ref()))
    }

    fn aim_at(self, target: &Typed, within: Option<&Typed>) -> Result<Aim, String> {
        let known = self.known();
        let outcome = target.explained(&known).map_err(|problem| known.in_words(&problem))?;
        let Value::Quantity(target) = outcome.value else {
            return Err("the target is no torque and no angle".to_owned());
        };
        let within = within.map(|within| number(within, &known)).transpose();
        let within = within.map_err(|problem| known.in_words(&problem))?;
        let limits = within.map(|within| Limits::around(&target, &within)).transpose();
        let limits = limits.map_err(|mismatch| mismatch.to_string())?;
        Ok(Aim { target, limits, trace: outcome.trace })
    }

    /// The unit in which it is asked what a stage reached: the target's.
    pub fn unit_of_stage(self, stage: &Stage) -> Unit {
        if let Some(Ok(aim)) = self.aim(stage) {
            return aim.target.unit;
        }
        let angle = stage.target.as_ref().is_some_and(|target| {
            matches!(target.result_type(), Type::Quantity { dimension, .. } if dimension == Dimension::ANGLE)
        });
        Unit::parse(if angle { "deg" } else { "N·m" }).unwrap_or_else(|_| Unit::one())
    }
}

impl Stage {
    /// What is accepted of what was reached; none where nothing is judged.
    pub fn criterion(&self) -> Option<Criterion> {
        let (target, within) = self.target.clone().zip(self.within.clone())?;
        Some(Criterion::Target { target, within })
    }
}
