//! What a stage is brought to.

use crate::formula::{EvalProblem, Outcome, Trace, Type, Typed};
use crate::procedure::{Criterion, Stage};
use crate::quantity::{Dimension, Limits, Quantity, Unit};
use crate::run::readings::judge::{InForce, limits_of, quantity};
use crate::run::view::View;
use crate::run::world::Known;

/// What a stage is brought to, as it stands.
#[derive(Clone, Debug)]
pub struct Aim {
    /// What it is brought to; none where any value between limits is good.
    pub target: Option<Quantity>,
    /// What is still good, where the procedure says it.
    pub limits: Option<Limits>,
    /// How the target came about.
    pub trace: Option<Trace>,
}

impl Aim {
    /// What it is measured in.
    pub fn unit(&self) -> Option<&Unit> {
        let limits = self.limits.as_ref();
        let limit = || limits.and_then(|limits| limits.lower.as_ref().or(limits.upper.as_ref()));
        self.target.as_ref().or_else(|| Some(&limit()?.quantity)).map(|quantity| &quantity.unit)
    }

    /// Whether it is an angle to turn by.
    pub fn is_angle(&self) -> bool {
        self.unit().is_some_and(|unit| unit.dimension() == Dimension::ANGLE)
    }

    /// `20 N·m (19.2 N·m to 20.8 N·m)`, or only the limits.
    pub fn words(&self) -> String {
        match (&self.target, &self.limits) {
            (Some(target), Some(limits)) => format!("{target} ({limits})"),
            (Some(target), None) => target.to_string(),
            (None, limits) => limits.as_ref().map(Limits::to_string).unwrap_or_default(),
        }
    }
}

impl View<'_> {
    /// What a stage is brought to, or why that is not known; none for a stage that is done by feel, or only read.
    pub fn aim(self, stage: &Stage) -> Option<Result<Aim, String>> {
        let criterion = stage.criterion.as_ref()?;
        if matches!(criterion, Criterion::InformationOnly) {
            return None;
        }
        let known = self.known();
        Some(Aim::by(criterion, &known).map_err(|problem| known.in_words(&problem)))
    }

    /// The unit in which it is asked what a stage reached: that which the procedure says, or the setting's own.
    pub fn unit_of_stage(self, stage: &Stage) -> Unit {
        let aimed = || self.aim(stage)?.ok()?.unit().cloned();
        stage.unit.clone().or_else(aimed).unwrap_or_else(|| {
            let is_angle = setting(stage.criterion.as_ref()).is_some_and(is_an_angle);
            Unit::parse(if is_angle { "deg" } else { "N·m" }).unwrap_or_else(|_| Unit::one())
        })
    }
}

impl Aim {
    fn by(criterion: &Criterion, known: &Known<'_>) -> Result<Self, EvalProblem> {
        let limits = match limits_of(criterion, known)? {
            InForce::Limits(limits) => Some(limits),
            InForce::Nominal(_) | InForce::None => None,
        };
        let Some(setting) = setting(Some(criterion)) else {
            return Ok(Self { target: None, limits, trace: None });
        };
        let Outcome { value, trace } = setting.explained(known)?;
        Ok(Self { target: Some(quantity(value, setting)?), limits, trace: Some(trace) })
    }
}

/// The one value that is aimed at.
fn setting(criterion: Option<&Criterion>) -> Option<&Typed> {
    match criterion? {
        Criterion::Target { target, .. } | Criterion::Nominal(target) => Some(target),
        Criterion::Limits { .. } | Criterion::InformationOnly => None,
    }
}

fn is_an_angle(formula: &Typed) -> bool {
    matches!(formula.result_type(), Type::Quantity { dimension, .. } if dimension == Dimension::ANGLE)
}
