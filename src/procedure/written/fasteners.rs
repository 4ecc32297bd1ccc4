use toml::de::DeValue;

use super::codes::{FASTENERS_ORDER, FASTENERS_UNCLEAR, word_unknown};
use super::repeats::twice;
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

/// One stage of tightening.
#[derive(Clone, Debug)]
pub struct WrittenStage {
    /// What it is called.
    pub what: String,
    /// To this torque.
    pub torque: Option<Wording>,
    /// By this angle.
    pub angle: Option<Wording>,
    /// How far from the torque or angle is still good.
    pub within: Option<Wording>,
    /// Whether what was reached is read, and judged.
    pub read: bool,
}

/// `[fasteners]`.
pub(super) fn fasteners(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenFasteners> {
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

fn unclear(fields: &mut Fields<'_, '_, '_>, what: &str, here: crate::source::Span, help: &str) {
    let headline = format!("{} {what}", fields.owner());
    let diagnostic =
        Diagnostic::error(&FASTENERS_UNCLEAR, headline).at(here, "this cannot be worked through");
    fields.scribe.note(diagnostic.help(help));
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

fn stages(fields: &mut Fields<'_, '_, '_>) -> Option<Vec<WrittenStage>> {
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
    WrittenStage { what: what.to_owned(), torque: None, angle: None, within: None, read: false }
}

fn stage(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenStage> {
    let what = fields.need_text("what", "full");
    let torque = fields.formula("torque");
    let angle = fields.formula("angle");
    let within = fields.formula("within");
    let read = fields.mark("read");
    if torque.is_some() && angle.is_some() {
        let here = fields.place();
        unclear(fields, "has both a torque and an angle", here, "make two stages of it");
        return None;
    }
    if let Some(within) = &within
        && torque.is_none()
        && angle.is_none()
    {
        let here = within.spanned().span;
        unclear(
            fields,
            "says within what it is good, and not of what",
            here,
            "give it a `torque` or an `angle`",
        );
        return None;
    }
    if let Some(here) = read
        && (torque.is_none() && angle.is_none() || within.is_none())
    {
        unclear(
            fields,
            "is read, and nothing says when it is good",
            here,
            "give it a `torque` or an `angle`, and `within`",
        );
        return None;
    }
    Some(WrittenStage { what: what?.value, torque, angle, within, read: read.is_some() })
}
