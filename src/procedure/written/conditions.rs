//! `[conditions]`: IF.

use super::codes::CONDITION_UNCLEAR;
use crate::formula::{Type, Typed};
use crate::procedure::check::{Proved, Prover, Valued};
use crate::procedure::declarable::{Called, Declarable, Spoken};
use crate::procedure::link::{Rename, Renaming, all_fields};
use crate::procedure::rules::formula_codes::CONDITION_NOT_TRUTH;
use crate::procedure::{Name, Table};
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, Wording};

/// A condition whose formula is still a text.
#[derive(Clone, Debug)]
pub struct WrittenCondition {
    /// What it rests on.
    pub ground: WrittenGround,
    /// Why it matters.
    pub why: Option<String>,
}

/// What a condition rests on.
#[derive(Clone, Debug)]
pub enum WrittenGround {
    /// This holds.
    If(Wording),
    /// This wait lasted too long.
    Missed(Spanned<String>),
    /// This repeat was given up.
    GaveUp(Spanned<String>),
    /// This result fails.
    Failed(Spanned<String>),
}

/// IF: steps and sections that name it are done only when it holds.
#[derive(Clone, Debug)]
pub struct Condition {
    /// What it rests on.
    pub ground: Ground,
    /// Why it matters.
    pub why: Option<String>,
}

/// What a condition rests on.
#[derive(Clone, Debug)]
pub enum Ground {
    /// A formula that is true or false.
    If(Typed),
    /// A wait that lasted too long: the authored path for it.
    Missed(Name),
    /// A repeat that was given up: the authored path for it.
    GaveUp(Name),
    /// A result that fails: the authored path for it.
    Failed(Name),
}

impl Condition {
    /// Its formula, where it has one.
    pub const fn formula(&self) -> Option<&Typed> {
        match &self.ground {
            Ground::If(formula) => Some(formula),
            Ground::Missed(_) | Ground::GaveUp(_) | Ground::Failed(_) => None,
        }
    }
}

impl Declarable for Condition {
    type Written = WrittenCondition;
    const IN_FRONT: bool = true;
    const UNMENTIONED: &'static str = "guards nothing";

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenCondition> {
        condition(fields)
    }

    fn spoken(written: &WrittenCondition) -> Vec<Spoken<'_>> {
        const CAN_FAIL: &[Table] = &[Table::Readings, Table::Values, Table::Fasteners];
        match &written.ground {
            WrittenGround::If(_) => Vec::new(),
            WrittenGround::Missed(name) => vec![Spoken::of(name, &[Table::Waits], "what is missed")],
            WrittenGround::GaveUp(name) => vec![Spoken::of(name, &[Table::Repeats], "what is given up")],
            WrittenGround::Failed(name) => vec![Spoken::of(name, CAN_FAIL, "what fails")],
        }
    }

    fn valued(_written: Option<&WrittenCondition>) -> Option<Valued> {
        Some(Valued::any(Type::Truth))
    }

    fn prove(name: &Spanned<Name>, written: &WrittenCondition, prover: &mut Prover<'_>) {
        prove_ground(prover, name, &written.ground);
    }

    fn checked(name: &Name, written: &WrittenCondition, proved: &Proved<'_>) -> Option<Self> {
        let ground = match &written.ground {
            WrittenGround::If(_) => Ground::If(proved.formulas.truths.get(name)?.clone()),
            WrittenGround::Missed(wait) => Ground::Missed(Name::from(&wait.value)),
            WrittenGround::GaveUp(repeat) => Ground::GaveUp(Name::from(&repeat.value)),
            WrittenGround::Failed(result) => Ground::Failed(Name::from(&result.value)),
        };
        Some(Self { ground, why: written.why.clone() })
    }

    fn called(&self) -> Called<'_> {
        match &self.ground {
            Ground::If(formula) => Called::Words(formula.text()),
            Ground::Missed(name) | Ground::GaveUp(name) | Ground::Failed(name) => Called::As(name),
        }
    }
}

all_fields! { Condition { ground, why } }

impl Rename for Ground {
    fn renamed(&self, to: &Renaming) -> Self {
        match self {
            Self::If(formula) => Self::If(formula.renamed(to)),
            Self::Missed(wait) => Self::Missed(wait.renamed(to)),
            Self::GaveUp(repeat) => Self::GaveUp(repeat.renamed(to)),
            Self::Failed(result) => Self::Failed(result.renamed(to)),
        }
    }
}

fn condition(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenCondition> {
    let given = ["if", "missed", "gave_up", "failed"].map(|key| fields.item(key).is_some());
    let ground = match given {
        [true, false, false, false] => fields.formula("if").map(WrittenGround::If),
        [false, true, false, false] => fields.text("missed").map(WrittenGround::Missed),
        [false, false, true, false] => fields.text("gave_up").map(WrittenGround::GaveUp),
        [false, false, false, true] => fields.text("failed").map(WrittenGround::Failed),
        [false, false, false, false] => {
            fields.missing("if", "'pan_temp < 30 °C'");
            None
        }
        _ => {
            let headline =
                format!("{} has more than one of `if`, `missed`, `gave_up` and `failed`", fields.owner());
            let diagnostic = Diagnostic::error(&CONDITION_UNCLEAR, headline).at(fields.place(), "which one?");
            fields.scribe.note(diagnostic.help("keep one; two conditions can be named in one step"));
            None
        }
    };
    let why = fields.text("why");
    Some(WrittenCondition { ground: ground?, why: why.map(|why| why.value) })
}

fn prove_ground(prover: &mut Prover<'_>, name: &Spanned<Name>, ground: &WrittenGround) {
    match ground {
        WrittenGround::If(formula) => truth(prover, name, formula),
        WrittenGround::Failed(result) => {
            let input = Spanned::new(Name::from(&result.value), result.span);
            prover.formulas.inputs.insert(name.value.clone(), vec![input]);
        }
        WrittenGround::Missed(_) | WrittenGround::GaveUp(_) => {}
    }
}

fn truth(prover: &mut Prover<'_>, name: &Spanned<Name>, wording: &Wording) {
    let Some((typed, inputs)) = prover.prove(wording, None) else {
        return;
    };
    if typed.result_type() != Type::Truth {
        let headline = format!("the condition `{}` is neither true nor false", name.value);
        let diagnostic = Diagnostic::error(&CONDITION_NOT_TRUTH, headline);
        let label = format!("this is {}", typed.result_type());
        let diagnostic = diagnostic.at(wording.spanned().span, label);
        prover.diagnostics.push(diagnostic.help("compare it with something: `pan_temp < 30 °C`"));
    }
    prover.formulas.inputs.insert(name.value.clone(), inputs);
    prover.formulas.truths.insert(name.value.clone(), typed);
}
