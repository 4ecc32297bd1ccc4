//! A kit as lists of rows with the same columns: what tables are made of.

use super::model::{Buy, First, JobKit, Kit, ProcedureKit, Sum, SupplyKit};
use crate::quantity::Quantity;

/// A list: what it is of, the procedure of a job that it belongs to, and its rows.
pub(super) struct Table {
    pub(super) list: &'static str,
    pub(super) procedure: Option<String>,
    pub(super) rows: Vec<Row>,
}

/// A row. What a list has nothing of stays empty.
#[derive(Default)]
pub(super) struct Row {
    /// The place of its procedure in the job, or of all that need it.
    procedures: String,
    /// The step, or from which to which.
    step: String,
    what: String,
    /// How much, how long.
    amount: String,
    pack: String,
    /// How many packs or pieces.
    count: String,
    price: String,
    cost: String,
    ahead: String,
    who: String,
    remark: String,
}

type Column = (&'static str, fn(&Row) -> &String);

/// The columns, in their order.
pub(super) const COLUMNS: [Column; 11] = [
    ("procedure", |row| &row.procedures),
    ("step", |row| &row.step),
    ("what", |row| &row.what),
    ("amount", |row| &row.amount),
    ("pack", |row| &row.pack),
    ("to buy", |row| &row.count),
    ("price", |row| &row.price),
    ("cost", |row| &row.cost),
    ("order ahead", |row| &row.ahead),
    ("who", |row| &row.who),
    ("remark", |row| &row.remark),
];

/// All lists of a kit.
pub(super) fn tables(kit: Kit<'_>) -> Vec<Table> {
    match kit {
        Kit::Procedure(kit) => of_procedure(kit, ""),
        Kit::Job(kit) => of_job(kit),
    }
}

fn of_job(kit: &JobKit) -> Vec<Table> {
    let total = kit.cost.as_ref().map(|cost| Row {
        what: "in all".to_owned(),
        cost: cost.to_string(),
        remark: format!("without a cost: {}", kit.without_cost),
        ..Row::default()
    });
    let hours = [("alone", &kit.time.alone), ("for two", &kit.time.two)];
    let hours =
        hours.map(|(what, amount)| Row { what: what.to_owned(), amount: amount.clone(), ..Row::default() });
    let not_said = (kit.time.not_said > 0).then(|| Row {
        what: "not said of".to_owned(),
        amount: kit.time.not_said.to_string(),
        ..Row::default()
    });
    let tools = kit.tools.iter().map(|tool| Row {
        procedures: places(&tool.procedures),
        what: tool.what.clone(),
        remark: tool.remark.clone(),
        ..Row::default()
    });
    let mut tables = vec![
        table("Tools in all", tools),
        table("Materials in all", kit.materials.iter().map(sum)),
        table("Parts in all", kit.parts.iter().map(sum)),
        table("Cost", total.into_iter()),
        table("Time", hours.into_iter().chain(not_said)),
        table("Procedures", kit.procedures.iter().flat_map(evening)),
    ];
    for evening in &kit.procedures {
        let place = evening.place.to_string();
        let title = format!("{place} {}", evening.title);
        let own = of_procedure(&evening.kit, &place).into_iter();
        tables.extend(own.map(|table| Table { procedure: Some(title.clone()), ..table }));
    }
    tables
}

/// A row for each time that is said of it.
fn evening(evening: &super::model::Evening) -> Vec<Row> {
    let times = [("alone", &evening.alone), ("two", &evening.two)];
    let away = evening.away.as_ref().map(|away| format!("away for {away} before it")).unwrap_or_default();
    let row = |amount: String, who: &str| Row {
        procedures: evening.place.to_string(),
        what: evening.title.clone(),
        amount,
        who: who.to_owned(),
        remark: away.clone(),
        ..Row::default()
    };
    let said: Vec<Row> =
        times.into_iter().filter_map(|(who, time)| Some(row(time.as_ref()?.to_string(), who))).collect();
    if said.is_empty() { vec![row(String::new(), "")] } else { said }
}

fn of_procedure(kit: &ProcedureKit, place: &str) -> Vec<Table> {
    let row = || Row { procedures: place.to_owned(), ..Row::default() };
    let levels = kit.other_levels.iter().map(|other| (other.section.clone(), other.level_of_use));
    let levels = [(kit.title.clone(), kit.level_of_use)].into_iter().chain(levels);
    let persons = kit.persons.iter();
    let tools = kit.tools.iter().map(|tool| Row {
        what: tool.what.clone(),
        remark: tool.remark.clone(),
        ..at(row(), &tool.first)
    });
    let moments = kit.together.iter().map(|moment| {
        let pass = moment.pass.as_ref().map(|pass| format!(", {pass}")).unwrap_or_default();
        let remark = format!("{}{pass}", moment.why);
        let (step, what) = (moment.step.clone(), moment.what.clone());
        Row { step, what, who: moment.roles.join(" and "), remark, ..row() }
    });
    let waits = kit.waits.iter().map(|wait| {
        let least = wait.at_least.as_ref().map(|least| format!("at least {least}"));
        let most = wait.at_most.as_ref().map(|most| format!("at most {most}"));
        let amount: Vec<String> = least.into_iter().chain(most).collect();
        let step: Vec<String> = wait.from.iter().chain(&wait.to).cloned().collect();
        Row { what: wait.what.clone(), amount: amount.join(", "), step: step.join(" to "), ..row() }
    });
    vec![
        table("Level of use", levels.map(|(what, level)| Row { what, remark: level.to_owned(), ..row() })),
        table("Persons", persons.map(|one| Row { what: one.what.clone(), who: one.role.clone(), ..row() })),
        table("Tools to lay out", tools),
        table("Materials to pack", kit.materials.iter().map(|one| supply(row(), one))),
        table("Parts to pack", kit.parts.iter().map(|one| supply(row(), one))),
        table("Moments for two", moments),
        table("Waits", waits),
        table("Must be so before", kit.required.iter().map(|what| Row { what: what.clone(), ..row() })),
    ]
}

fn table(list: &'static str, rows: impl Iterator<Item = Row>) -> Table {
    Table { list, procedure: None, rows: rows.collect() }
}

fn places(places: &[usize]) -> String {
    places.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
}

fn at(row: Row, first: &First) -> Row {
    Row { step: first.step.clone().unwrap_or_default(), who: first.by.join(" and "), ..row }
}

fn supply(row: Row, supply: &SupplyKit) -> Row {
    let amount = supply.amount.as_ref().map(ToString::to_string).or_else(|| supply.formula.clone());
    let row = Row { what: supply.what.clone(), amount: amount.unwrap_or_default(), ..row };
    at(bought(row, &supply.buy), &supply.first)
}

fn sum(sum: &Sum) -> Row {
    let row = Row {
        procedures: places(&sum.procedures),
        what: sum.what.clone(),
        amount: sum.amount_in_words(),
        ..Row::default()
    };
    bought(row, &sum.buy)
}

fn bought(row: Row, buy: &Buy) -> Row {
    let shown = |quantity: &Option<Quantity>| quantity.as_ref().map(ToString::to_string).unwrap_or_default();
    Row {
        pack: shown(&buy.pack),
        count: shown(&buy.count),
        price: shown(&buy.price),
        cost: shown(&buy.cost),
        ahead: shown(&buy.lead_time),
        ..row
    }
}
