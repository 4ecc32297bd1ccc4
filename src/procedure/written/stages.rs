//! The stages of a group of fasteners, as written: what each is brought to, and what is good.

use toml::de::DeValue;

use super::codes::FASTENERS_UNCLEAR;
use super::criterion::{self, WrittenCriterion};
use crate::procedure::check::{Owner, Proved, Prover, Wanted};
use crate::procedure::{Criterion, Name};
use crate::quantity::{Dimension, Unit};
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, Item, Wording, unit};

/// One stage of tightening.
#[derive(Clone, Debug)]
pub struct WrittenStage {
    /// What it is called.
    pub what: String,
    /// What it is brought to; none for one that is done by feel.
    pub goal: Option<WrittenGoal>,
    /// Whether what was reached is read.
    pub read: bool,
}

/// What a stage is brought to.
#[derive(Clone, Debug)]
pub enum WrittenGoal {
    /// To this torque.
    Torque(WrittenSetting),
    /// By this angle.
    Angle(WrittenSetting),
    /// To what a criterion says.
    Judged {
        /// The unit that is asked for.
        unit: Spanned<Unit>,
        /// What is good.
        criterion: WrittenCriterion,
    },
}

/// What a tool is set to.
#[derive(Clone, Debug)]
pub struct WrittenSetting {
    /// The torque or the angle.
    pub target: Wording,
    /// How far from it is still good.
    pub within: Option<Wording>,
}

pub(super) fn stages(fields: &mut Fields<'_, '_, '_>) -> Option<Vec<WrittenStage>> {
    let help = "write `stages = [\"by hand\", { what = \"full\", torque = 'pan_torque', within = \"4 %\" }]`";
    let Some(item) = fields.item("stages") else {
        let here = fields.place();
        unclear(fields, "has no stages", here, help);
        return None;
    };
    let DeValue::Array(list) = item.value else {
        fields.wrong_type("stages", item, "a list of stages in brackets");
        return None;
    };
    let mut stages = Vec::new();
    for element in list {
        let span = fields.scribe.span(&element.span());
        let value = element.get_ref();
        match value {
            DeValue::String(what) if !what.trim().is_empty() => stages.push(named_only(what)),
            DeValue::Table(inner) => {
                let owner = format!("a stage of {}", fields.owner());
                let mut inner = Fields::new(inner, owner, span, fields.scribe);
                let stage = stage(&mut inner);
                inner.finish();
                stages.push(stage?);
            }
            _ => {
                fields.wrong_type(
                    "stages",
                    Item { key: item.key, value, span },
                    "a name, or a table in braces",
                );
                return None;
            }
        }
    }
    if stages.is_empty() {
        unclear(fields, "has no stages", item.span, help);
        return None;
    }
    let names: Vec<&str> = stages.iter().map(|stage: &WrittenStage| stage.what.as_str()).collect();
    if names.iter().enumerate().any(|(at, name)| names.iter().take(at).any(|other| other == name)) {
        unclear(fields, "has two stages of one name", item.span, "give each stage a name of its own");
        return None;
    }
    Some(stages)
}

fn named_only(what: &str) -> WrittenStage {
    WrittenStage { what: what.to_owned(), goal: None, read: false }
}

fn stage(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenStage> {
    let what = fields.need_text("what", "full");
    let read = fields.mark("read");
    let goal = goal(fields).ok()?;
    let trouble = match (&goal, read) {
        (Some(goal), Some(here)) if goal.is_without_limits() => Some((
            here,
            "is read, and nothing says when it is good",
            "add `within`, or say `nominal` and a `unit` in place of it: the person says whether it is good",
        )),
        (None, Some(here)) => Some((
            here,
            "is read, and nothing says when it is good",
            "give it a `torque` or an `angle`, and `within`; or a `unit` and limits",
        )),
        (Some(WrittenGoal::Judged { unit, criterion: WrittenCriterion::InformationOnly }), None) => Some((
            unit.span,
            "is for information only, and is not read",
            "add `read = true`, or leave its `unit` out",
        )),
        _ => None,
    };
    if let Some((here, what, help)) = trouble {
        unclear(fields, what, here, help);
        return None;
    }
    Some(WrittenStage { what: what?.value, goal, read: read.is_some() })
}

impl WrittenGoal {
    const fn is_without_limits(&self) -> bool {
        matches!(
            self,
            Self::Torque(WrittenSetting { within: None, .. })
                | Self::Angle(WrittenSetting { within: None, .. })
        )
    }
}

/// What a stage is brought to; an error where what is written does not say it, which is noted.
fn goal(fields: &mut Fields<'_, '_, '_>) -> Result<Option<WrittenGoal>, Noted> {
    let torque = fields.item("torque").is_some();
    let angle = fields.item("angle").is_some();
    let criterion = criterion::first_key(fields).filter(|(key, _)| !((torque || angle) && *key == "within"));
    let goal = match (torque, angle, criterion) {
        (true, true, _) => {
            let here = fields.place();
            unclear(fields, "has both a torque and an angle", here, "make two stages of it");
            None
        }
        (false, false, None) if fields.item("unit").is_none() => return Ok(None),
        (false, false, Some(("within", here))) => {
            let help = "give it a `torque` or an `angle`";
            unclear(fields, "says within what it is good, and not of what", here, help);
            None
        }
        (false, false, _) => judged(fields),
        (_, _, Some((key, here))) => {
            let help = format!("keep what the source gives: the setting, or `{key}` with a `unit`");
            unclear(fields, "has a setting and limits of another kind", here, &help);
            None
        }
        (true, false, None) => setting(fields, "torque").map(WrittenGoal::Torque),
        (false, true, None) => setting(fields, "angle").map(WrittenGoal::Angle),
    };
    goal.map(Some).ok_or(Noted)
}

/// What is wrong has been noted.
struct Noted;

fn setting(fields: &mut Fields<'_, '_, '_>, key: &'static str) -> Option<WrittenSetting> {
    let (target, within) = (fields.formula(key), fields.formula("within"));
    Some(WrittenSetting { target: target?, within })
}

/// A criterion, as of a reading.
fn judged(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenGoal> {
    if fields.item("unit").is_none() {
        fields.missing("unit", "\"N·m\"");
    }
    let unit = unit(fields, "unit");
    let criterion = criterion::criterion(fields);
    if let Some(unit) = unit.as_ref().filter(|_| !criterion::says_something(fields)) {
        let help = "add limits such as `min` and `max`, a `nominal`, or `information_only = true`";
        unclear(fields, "has a unit, and nothing says what is good", unit.span, help);
    }
    Some(WrittenGoal::Judged { unit: unit?, criterion: criterion? })
}

/// Proves what a stage is brought to.
pub(super) fn prove_stage(prover: &mut Prover<'_>, name: &Spanned<Name>, index: usize, stage: &WrittenStage) {
    match &stage.goal {
        None => {}
        Some(WrittenGoal::Torque(setting)) => {
            prove_setting(prover, name, index, setting, Wanted::Torque, Dimension::TORQUE);
        }
        Some(WrittenGoal::Angle(setting)) => {
            prove_setting(prover, name, index, setting, Wanted::Angle, Dimension::ANGLE);
        }
        Some(WrittenGoal::Judged { unit, criterion }) => {
            let owner = Owner { name: &name.value, unit: &unit.value, declared: unit.span };
            let kept = prover.proved(&owner, criterion);
            prover.formulas.stages.extend(kept.map(|criterion| ((name.value.clone(), index), criterion)));
        }
    }
}

fn prove_setting(
    prover: &mut Prover<'_>,
    name: &Spanned<Name>,
    index: usize,
    setting: &WrittenSetting,
    wanted: Wanted,
    dimension: Dimension,
) {
    prover.keep(name, &target_key(index), &setting.target, wanted);
    if let Some(wording) = &setting.within {
        prover.keep(name, &within_key(index), wording, Wanted::Within(dimension));
    }
}

/// What a stage of tightening is brought to.
pub(super) fn stage_criterion(proved: &Proved<'_>, name: &Name, index: usize) -> Option<Criterion> {
    let target = proved.typed(name, &target_key(index));
    let within = proved.typed(name, &within_key(index));
    match (target, within) {
        (Some(target), Some(within)) => Some(Criterion::Target { target, within }),
        (Some(target), None) => Some(Criterion::Nominal(target)),
        (None, _) => proved.formulas.stages.get(&(name.clone(), index)).cloned(),
    }
}

fn target_key(stage: usize) -> String {
    format!("stage {stage} target")
}

fn within_key(stage: usize) -> String {
    format!("stage {stage} within")
}

pub(super) fn unclear(fields: &mut Fields<'_, '_, '_>, what: &str, here: crate::source::Span, help: &str) {
    let headline = format!("{} {what}", fields.owner());
    let diagnostic =
        Diagnostic::error(&FASTENERS_UNCLEAR, headline).at(here, "this cannot be worked through");
    fields.scribe.note(diagnostic.help(help));
}
