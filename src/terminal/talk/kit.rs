//! What is laid out before a job, on one page; a rehearsal ends in the same lists.

use super::lists::{head, list};
use crate::kit::{Buy, First, Moment, PlannedWait, ProcedureKit, SupplyKit, ToolKit, procedure_kit};
use crate::procedure::{LevelOfUse, Tool};
use crate::run::View;
use crate::terminal::{Line, Role, Text};

/// What to lay out for a job that has not begun: persons, tools, materials, parts, moments for two, waits, and what must
/// be so before.
pub fn kit(view: View<'_>) -> Text {
    let kit = procedure_kit(view);
    head(&view.book.procedure)
        .line(levels(view))
        .blank()
        .then(persons(&kit))
        .then(lists(&kit))
        .then(required(&kit))
        .then(missing(kit.materials.iter().chain(&kit.parts).any(is_missing)))
}

/// The tools, materials and parts with the step that needs each first, the moments for two, the waits.
pub(super) fn lists(kit: &ProcedureKit) -> Text {
    list("Tools to lay out", kit.tools.iter().map(tool_to_lay_out))
        .then(list("Materials to pack", kit.materials.iter().map(supply)))
        .then(list("Parts to pack", kit.parts.iter().map(supply)))
        .then(list("Moments for two", kit.together.iter().map(together)))
        .then(list("Waits", kit.waits.iter().map(wait)))
}

pub(super) fn persons(kit: &ProcedureKit) -> Text {
    list("Persons", kit.persons.iter().map(|person| format!("{}: {}", person.role, person.what)))
}

pub(super) fn required(kit: &ProcedureKit) -> Text {
    list("Must be so before the job", kit.required.iter().cloned())
}

/// A tool of a procedure that is shown.
pub(super) fn tool(tool: &Tool) -> String {
    good_for(&tool.what, &crate::kit::good_for(tool))
}

fn tool_to_lay_out(tool: &ToolKit) -> String {
    format!("{}{}", good_for(&tool.what, &tool.remark), when(&tool.first))
}

/// Something with what it has to be good for.
pub(super) fn good_for(what: &str, remark: &str) -> String {
    if remark.is_empty() { what.to_owned() } else { format!("{what}, {remark}") }
}

/// Which level of use holds, and in which sections another one does.
fn levels(view: View<'_>) -> Line {
    let procedure = &view.book.procedure;
    let said = |level: LevelOfUse| format!("{} ({})", level.word(), level.meaning());
    let usual = procedure.header().level_of_use;
    let others = procedure.sections().iter().filter(|section| section.level != usual);
    let others = others.map(|section| format!("; \"{}\": {}", section.title, said(section.level)));
    Line::plain(format!("Level of use: {}{}", said(usual), others.collect::<String>())).hang(2)
}

fn supply(supply: &SupplyKit) -> String {
    let amount = supply.amount.as_ref().map(ToString::to_string).or_else(|| supply.formula.clone());
    let amount = amount.map(|amount| format!(", {amount}")).unwrap_or_default();
    format!("{}{amount}{}{}", supply.what, bought(&supply.buy), when(&supply.first))
}

/// `, 3 packs of 1 L, each 14.50 money: 43.50 money, ordered 3 d ahead`.
pub(super) fn bought(buy: &Buy) -> String {
    let count = buy.count.as_ref().map(|count| format!("{count} ")).unwrap_or_default();
    let packs = buy.pack.as_ref().map(|pack| format!(", {count}packs of {pack}"));
    let price = buy.price.as_ref().map(|price| format!(", each {price}"));
    let cost = buy.cost.as_ref().map(|cost| format!(": {cost}"));
    let ahead = buy.lead_time.as_ref().map(|time| format!(", ordered {time} ahead"));
    packs.into_iter().chain(price).chain(cost).chain(ahead).collect()
}

/// ` (first at 3.4, helper)`.
fn when(first: &First) -> String {
    let Some(step) = &first.step else { return String::new() };
    format!(" (first at {step}, {})", first.by.join(" and "))
}

fn together(moment: &Moment) -> String {
    let pass = moment.pass.as_ref().map(|pass| format!(", {pass}")).unwrap_or_default();
    format!("{} {}{pass}: {} ({})", moment.step, moment.what, moment.roles.join(" and "), moment.why)
}

fn wait(wait: &PlannedWait) -> String {
    let least = wait.at_least.as_ref().map(|least| format!("at least {least}"));
    let most = wait.at_most.as_ref().map(|most| format!("at most {most}"));
    let from = wait.from.as_ref().map(|from| format!("from step {from}"));
    let until = wait
        .to
        .as_ref()
        .map_or_else(|| ", and no later step needs it".to_owned(), |until| format!(" to {until}"));
    let words: Vec<String> = least.into_iter().chain(most).chain(from).collect();
    let often = match wait.times {
        0 | 1 => String::new(),
        times => format!(", {times} times"),
    };
    format!("{}: {}{until}{often}", wait.what, words.join(", "))
}

/// Whether it says how an amount is worked out that is not.
pub(super) fn is_missing(supply: &SupplyKit) -> bool {
    supply.amount.is_none() && supply.formula.is_some()
}

/// What the words in brackets are, where there are any.
pub(super) fn missing(is_missing: bool) -> Text {
    if !is_missing {
        return Text::new();
    }
    let words = "What stands in [ ] is a value of the vehicle: `--vehicle SHEET` gives its figure.";
    Text::new().blank().line(Line::new().with(Role::Faint, words))
}
