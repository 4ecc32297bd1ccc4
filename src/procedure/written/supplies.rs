//! `[materials]` and `[parts]`.

use crate::formula::Typed;
use crate::procedure::check::{Proved, Prover};
use crate::procedure::declarable::Declarable;
use crate::procedure::link::all_fields;
use crate::procedure::{CheckedProcedure, Name};
use crate::source::Spanned;
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
        prover.amount(name, written);
    }

    fn checked(name: &Name, written: &WrittenSupply, proved: &Proved<'_>) -> Option<Self> {
        Some(Self { what: written.what.clone(), amount: proved.formulas.amounts.get(name).cloned() })
    }

    fn words<'p>(&'p self, _procedure: &'p CheckedProcedure) -> Option<&'p str> {
        Some(&self.what)
    }
}

all_fields! { Supply { what, amount } }
