//! `[materials]` and `[parts]`.

use crate::formula::Typed;
use crate::procedure::check::{Proved, Prover};
use crate::procedure::declarable::{Called, Declarable};
use crate::procedure::link::all_fields;
use crate::procedure::rules::formula_codes::AMOUNT_NOT_KNOWN;
use crate::procedure::{Name, Table};
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, Wording};

/// A material or a part, its amount still a text.
#[derive(Clone, Debug)]
pub struct WrittenSupply {
    /// What it is.
    pub what: String,
    /// How much or how many.
    pub amount: Option<Wording>,
}

/// Something that is used up, or a part that stays on the vehicle.
#[derive(Clone, Debug)]
pub struct Supply {
    /// What it is.
    pub what: String,
    /// How much or how many are needed.
    pub amount: Option<Typed>,
}

impl Declarable for Supply {
    type Written = WrittenSupply;
    const NONE_IS_SAID: bool = true;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenSupply> {
        let what = fields.need_text("what", "fresh transmission fluid");
        let amount = fields.formula("amount");
        Some(WrittenSupply { what: what?.value, amount })
    }

    fn prove(name: &Spanned<Name>, written: &WrittenSupply, prover: &mut Prover<'_>) {
        prove_amount(prover, name, written);
    }

    fn checked(name: &Name, written: &WrittenSupply, proved: &Proved<'_>) -> Option<Self> {
        Some(Self { what: written.what.clone(), amount: proved.formulas.amounts.get(name).cloned() })
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

all_fields! { Supply { what, amount } }

fn prove_amount(prover: &mut Prover<'_>, name: &Spanned<Name>, supply: &WrittenSupply) {
    let Some(wording) = &supply.amount else {
        return;
    };
    let Some((typed, inputs)) = prover.prove(wording, None) else {
        return;
    };
    for input in inputs {
        if prover.names.table(&input.value) != Some(Table::Vehicle) {
            let headline = format!("the amount of `{}` is not known before the job begins", name.value);
            let diagnostic = Diagnostic::error(&AMOUNT_NOT_KNOWN, headline);
            let diagnostic = diagnostic.at(input.span, "only known during the job");
            prover
                .diagnostics
                .push(diagnostic.help("use numbers and vehicle values only: the kit is packed before"));
        }
    }
    prover.formulas.amounts.insert(name.value.clone(), typed);
}
