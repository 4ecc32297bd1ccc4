//! `[materials]` and `[parts]`.

use super::supply_codes::PRICE_UNCLEAR;
use crate::formula::{Type, Typed};
use crate::procedure::check::{Proved, Prover, Wanted};
use crate::procedure::declarable::{Called, Declarable};
use crate::procedure::link::all_fields;
use crate::procedure::rules::formula_codes::{AMOUNT_NOT_KNOWN, FORMULA_UNIT};
use crate::procedure::{Name, Table};
use crate::quantity::Quantity;
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, Wording, duration};

/// A material or a part, its formulas still texts.
#[derive(Clone, Debug)]
pub struct WrittenSupply {
    /// What it is.
    pub what: String,
    /// How much or how many.
    pub amount: Option<Wording>,
    /// What one pack of it holds.
    pub pack: Option<Wording>,
    /// What one pack, or one piece, costs.
    pub price: Option<Wording>,
    /// How long before the job it is ordered.
    pub lead_time: Option<Quantity>,
}

/// Something that is used up, or a part that stays on the vehicle.
#[derive(Clone, Debug)]
pub struct Supply {
    /// What it is.
    pub what: String,
    /// How much or how many are needed.
    pub amount: Option<Typed>,
    /// What one pack of it holds: an amount of the same kind.
    pub pack: Option<Typed>,
    /// What one pack costs; without a pack one piece.
    pub price: Option<Typed>,
    /// How long before the job it is ordered.
    pub lead_time: Option<Quantity>,
}

impl Declarable for Supply {
    type Written = WrittenSupply;
    const NONE_IS_SAID: bool = true;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenSupply> {
        let what = fields.need_text("what", "fresh transmission fluid");
        let amount = fields.formula("amount");
        let pack = fields.formula("pack");
        let price = fields.formula("price");
        let lead_time = duration(fields, "lead_time").map(|time| time.value);
        Some(WrittenSupply { what: what?.value, amount, pack, price, lead_time })
    }

    fn prove(name: &Spanned<Name>, written: &WrittenSupply, prover: &mut Prover<'_>) {
        let keys = [("amount", &written.amount, Wanted::Amount), ("pack", &written.pack, Wanted::Amount)];
        for (key, wording, wanted) in keys.into_iter().chain([("price", &written.price, Wanted::Money)]) {
            if let Some(wording) = wording {
                prove_beforehand(prover, (name, key), wording, wanted);
            }
        }
        prove_price(prover, name, written);
    }

    fn checked(name: &Name, written: &WrittenSupply, proved: &Proved<'_>) -> Option<Self> {
        Some(Self {
            what: written.what.clone(),
            amount: proved.typed(name, "amount"),
            pack: proved.typed(name, "pack"),
            price: proved.typed(name, "price"),
            lead_time: written.lead_time.clone(),
        })
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

all_fields! { Supply { what, amount, pack, price, lead_time } }

/// What is bought is bought before the job.
fn prove_beforehand(
    prover: &mut Prover<'_>,
    (name, key): (&Spanned<Name>, &str),
    wording: &Wording,
    wanted: Wanted,
) {
    for input in prover.kept(name, key, wording, wanted).into_iter().flatten() {
        if prover.names.table(&input.value) != Some(Table::Vehicle) {
            let headline = format!("the {key} of `{}` is not known before the job begins", name.value);
            let diagnostic = Diagnostic::error(&AMOUNT_NOT_KNOWN, headline);
            let diagnostic = diagnostic.at(input.span, "only known during the job");
            prover
                .diagnostics
                .push(diagnostic.help("use numbers and vehicle values only: the kit is packed before"));
        }
    }
}

/// A pack holds what the amount is an amount of; a price is of a pack or of a piece.
fn prove_price(prover: &mut Prover<'_>, name: &Spanned<Name>, written: &WrittenSupply) {
    let kind = |prover: &Prover<'_>, key: &str| {
        let formula = prover.formulas.flow.get(&(name.value.clone(), key.to_owned()));
        formula.map(Typed::result_type)
    };
    let (amount, pack) = (kind(prover, "amount"), kind(prover, "pack"));
    if let (Some(amount), Some(pack), Some(wording)) = (amount, pack, &written.pack)
        && amount != pack
    {
        let headline = format!("a pack of `{}` does not hold what is needed of it", name.value);
        let diagnostic = Diagnostic::error(&FORMULA_UNIT, headline);
        let diagnostic = diagnostic.at(wording.spanned().span, format!("this is {pack}"));
        prover.diagnostics.push(diagnostic.help(format!("its amount is {amount}; give both alike")));
    }
    if let (Some(price), None, Some(amount)) = (&written.price, &written.pack, amount)
        && amount != Type::NUMBER
    {
        let headline = format!("what `{}` costs cannot be worked out", name.value);
        let diagnostic = Diagnostic::error(&PRICE_UNCLEAR, headline);
        let diagnostic = diagnostic.at(price.spanned().span, "of how much?");
        prover.diagnostics.push(diagnostic.help("say what one pack holds, such as `pack = \"1 L\"`"));
    }
}
