//! `[fasteners]`.

use toml::de::DeValue;

use super::codes::{FASTENERS_ORDER, word_unknown};
use super::repeats::{texts, twice};
use super::stages::{WrittenGoal, WrittenStage, prove_stage, stage_criterion, stages, unclear};
use crate::procedure::check::{Proved, Prover};
use crate::procedure::declarable::{Called, Declarable, Spoken};
use crate::procedure::{Fasteners, MOST_PLACES, Name, Pattern, Positions, Stage, Table};
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, Item, Wording};

/// A group of fasteners whose names are not followed and whose formulas are not read yet.
#[derive(Clone, Debug)]
pub struct WrittenFasteners {
    /// What they are.
    pub what: String,
    /// Their places.
    pub positions: WrittenPositions,
    /// In which order they are tightened.
    pub order: WrittenPattern,
    /// How they are tightened, stage by stage.
    pub stages: Vec<WrittenStage>,
    /// The tool it is done with.
    pub instrument: Option<Spanned<String>>,
}

/// The places of a group of fasteners.
#[derive(Clone, Debug)]
pub enum WrittenPositions {
    /// Each has a name.
    Named(Vec<Spanned<String>>),
    /// So many, numbered from 1.
    Count(Wording),
}

/// The order of a group of fasteners.
#[derive(Clone, Debug)]
pub enum WrittenPattern {
    /// As their places are listed.
    AsListed,
    /// Crosswise: each next one lies as far as can be from the one before.
    Cross,
    /// In this order of places.
    Given(Vec<Spanned<String>>),
}

impl Declarable for Fasteners {
    type Written = WrittenFasteners;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenFasteners> {
        fasteners(fields)
    }

    fn spoken(written: &WrittenFasteners) -> Vec<Spoken<'_>> {
        let instrument = written.instrument.iter();
        instrument.map(|name| Spoken::of(name, &[Table::Tools], "an instrument")).collect()
    }

    fn prove(name: &Spanned<Name>, written: &WrittenFasteners, prover: &mut Prover<'_>) {
        prove_places(prover, name, written);
    }

    fn checked(name: &Name, written: &WrittenFasteners, proved: &Proved<'_>) -> Option<Self> {
        let positions = match &written.positions {
            WrittenPositions::Named(positions) => Positions::Named(texts(positions)),
            WrittenPositions::Count(_) => Positions::Count(proved.typed(name, "count")?),
        };
        let order = match &written.order {
            WrittenPattern::AsListed => Pattern::AsListed,
            WrittenPattern::Cross => Pattern::Cross,
            WrittenPattern::Given(order) => Pattern::Given(texts(order)),
        };
        let stages = written.stages.iter().enumerate();
        Some(Self {
            what: written.what.clone(),
            positions,
            order,
            stages: stages.map(|(index, stage)| checked_stage(name, index, stage, proved)).collect(),
            instrument: written.instrument.as_ref().map(|name| Name::from(&name.value)),
        })
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

fn checked_stage(name: &Name, index: usize, stage: &WrittenStage, proved: &Proved<'_>) -> Stage {
    let unit = match &stage.goal {
        Some(WrittenGoal::Judged { unit, .. }) => Some(unit.value.clone()),
        _ => None,
    };
    let criterion = stage_criterion(proved, name, index);
    Stage { what: stage.what.clone(), criterion, unit, read: stage.read }
}

fn fasteners(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenFasteners> {
    let what = fields.need_text("what", "bolts of the pan");
    let positions = positions(fields);
    let order = order(fields);
    let stages = stages(fields);
    let instrument = fields.text("instrument");
    if let (Some(positions), Some(WrittenPattern::Given(order))) = (&positions, &order) {
        covers(fields, positions, order)?;
    }
    Some(WrittenFasteners {
        what: what?.value,
        positions: positions?,
        order: order?,
        stages: stages?,
        instrument,
    })
}

/// A given order names each place once.
fn covers(
    fields: &mut Fields<'_, '_, '_>,
    positions: &WrittenPositions,
    order: &[Spanned<String>],
) -> Option<()> {
    let headline = format!("the order of {} is not one of all its places", fields.owner());
    let here = fields.item("order").map_or_else(|| fields.place(), |item| item.span);
    let WrittenPositions::Named(places) = positions else {
        let diagnostic =
            Diagnostic::error(&FASTENERS_ORDER, headline).at(here, "the places have no names yet");
        fields.scribe.note(diagnostic.help("list the `positions`, or write `order = \"cross\"`"));
        return None;
    };
    let is_in =
        |list: &[Spanned<String>], name: &Spanned<String>| list.iter().any(|other| other.value == name.value);
    if let Some(stranger) = order.iter().find(|name| !is_in(places, name)) {
        let diagnostic =
            Diagnostic::error(&FASTENERS_ORDER, headline).at(stranger.span, "no place has this name");
        fields.scribe.note(diagnostic.help("name the places as they stand in `positions`"));
        return None;
    }
    if let Some(missing) = places.iter().find(|name| !is_in(order, name)) {
        let diagnostic = Diagnostic::error(&FASTENERS_ORDER, headline).at(here, "a place is missing here");
        let diagnostic = diagnostic.also(missing.span, "this one");
        fields.scribe.note(diagnostic.help(format!("add \"{}\" where its turn comes", missing.value)));
        return None;
    }
    Some(())
}

fn positions(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenPositions> {
    let named = fields.item("positions");
    let count = fields.item("count");
    let help = "write `positions = [\"1\", \"2\", \"3\"]`, or `count = 'bolt_count'`";
    match (named, count) {
        (Some(_), None) => {
            let list = fields.texts("positions")?;
            if list.value.is_empty() {
                unclear(fields, "has no positions", list.span, help);
                return None;
            }
            if list.value.len() > crate::procedure::MOST_PLACES {
                unclear(fields, "has more than 200 positions", list.span, "make groups of it");
                return None;
            }
            twice(fields, &list.value).is_none().then_some(WrittenPositions::Named(list.value))
        }
        (None, Some(_)) => fields.formula("count").map(WrittenPositions::Count),
        _ => {
            let here = fields.place();
            unclear(fields, "needs exactly one of `positions` and `count`", here, help);
            None
        }
    }
}

fn order(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenPattern> {
    match fields.item("order") {
        None => Some(WrittenPattern::AsListed),
        Some(Item { value: DeValue::Array(_), .. }) => {
            let list = fields.texts("order")?;
            twice(fields, &list.value).is_none().then_some(WrittenPattern::Given(list.value))
        }
        Some(_) => {
            let word = fields.text("order")?;
            match word.value.as_str() {
                "cross" => Some(WrittenPattern::Cross),
                "as listed" => Some(WrittenPattern::AsListed),
                _ => {
                    fields.scribe.note(word_unknown("order", &word, &["cross", "as listed"]));
                    None
                }
            }
        }
    }
}

fn prove_places(prover: &mut Prover<'_>, name: &Spanned<Name>, group: &WrittenFasteners) {
    if let WrittenPositions::Count(wording) = &group.positions {
        prover.keep_count(name, "count", wording, MOST_PLACES);
    }
    for (index, stage) in group.stages.iter().enumerate() {
        prove_stage(prover, name, index, stage);
    }
}
