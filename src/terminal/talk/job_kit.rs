//! What a whole job takes: tools by procedure, materials and parts summed, hours alone and for two, days away.

use std::collections::BTreeMap;

use super::kit::tool;
use super::lists::list;
use crate::formula::Value;
use crate::job::{Job, Planned};
use crate::procedure::{Named, Supply};
use crate::quantity::Quantity;
use crate::run::View;
use crate::terminal::{Line, Role, Text};

/// Which procedures of a job need something, and how much of it where that is known of each.
#[derive(Default)]
struct Needed {
    places: Vec<usize>,
    sum: Option<Quantity>,
    is_unknown: bool,
}

/// The kit of a whole job: each procedure by its place in the list, seen before its run.
pub fn job_kit(job: &Job, views: &[(usize, View<'_>)]) -> Text {
    let head = Line::new().with(Role::Strong, job.title.as_str());
    let text = Text::from(head).line(Line::plain(job.what.as_str()).hang(2)).blank();
    let mut tools: BTreeMap<String, Needed> = BTreeMap::new();
    for (place, view) in views {
        for laid_out in view.tools() {
            tools.entry(tool(laid_out.thing)).or_default().places.push(place + 1);
        }
    }
    let tools = tools.iter().map(|(what, needed)| format!("{what} ({})", numbers(needed)));
    let materials = summed(views, |view| view.book.procedure.materials());
    let parts = summed(views, |view| view.book.procedure.parts());
    text.then(list("Tools, with the procedures that use them", tools))
        .then(list("Materials in all", told(&materials)))
        .then(list("Parts in all", told(&parts)))
        .then(list("Time", hours(&job.procedures)))
        .then(list("Days away from the bay", away(&job.procedures)))
}

fn summed<'v>(
    views: &[(usize, View<'v>)],
    of: impl Fn(View<'v>) -> &'v Named<Supply>,
) -> BTreeMap<String, Needed> {
    let mut all: BTreeMap<String, Needed> = BTreeMap::new();
    for (place, view) in views {
        for (_, supply) in of(*view).iter() {
            let needed = all.entry(supply.what.clone()).or_default();
            needed.places.push(place + 1);
            let Some(packed) = view.packed(supply) else { continue };
            match (packed.comes_to, needed.sum.take()) {
                (Some(Value::Quantity(amount)), None) => needed.sum = Some(amount),
                (Some(Value::Quantity(amount)), Some(sum)) => {
                    needed.sum = sum.plus(&amount).ok().and_then(|both| both.in_unit(&sum.unit).ok());
                    needed.is_unknown |= needed.sum.is_none();
                }
                (_, sum) => {
                    needed.sum = sum;
                    needed.is_unknown = true;
                }
            }
        }
    }
    all
}

fn told(all: &BTreeMap<String, Needed>) -> impl Iterator<Item = String> + '_ {
    all.iter().map(|(what, needed)| {
        let more = if needed.is_unknown { " and more, by the vehicle" } else { "" };
        let sum = needed.sum.as_ref().map(|sum| format!(", {sum}{more}")).unwrap_or_default();
        format!("{what}{sum} ({})", numbers(needed))
    })
}

fn numbers(needed: &Needed) -> String {
    let numbers: Vec<String> = needed.places.iter().map(ToString::to_string).collect();
    numbers.join(", ")
}

fn hours(procedures: &[Planned]) -> impl Iterator<Item = String> {
    let sum = |times: Vec<&Quantity>| {
        let minutes: f64 = times.iter().map(|time| time.base().to_f64() / 60.0).sum();
        format!("{:.0} h {:02.0} min", (minutes / 60.0).floor(), minutes % 60.0)
    };
    let alone: Vec<&Quantity> = procedures.iter().filter_map(|one| one.alone.as_ref()).collect();
    let takes_two = |one: &&Planned| one.alone.is_none();
    let two: Vec<&Quantity> =
        procedures.iter().filter(takes_two).filter_map(|one| one.two.as_ref()).collect();
    let unsaid = procedures.iter().filter(|one| one.alone.is_none() && one.two.is_none()).count();
    let unsaid = (unsaid > 0).then(|| format!("not said of: {unsaid}"));
    [format!("alone: {}", sum(alone)), format!("for two: {}", sum(two))].into_iter().chain(unsaid)
}

fn away(procedures: &[Planned]) -> impl Iterator<Item = String> + '_ {
    procedures.iter().filter_map(|one| Some(format!("before {}: {}", one.title, one.away.as_ref()?)))
}
