//! `[balances]` of a job: results of several procedures that belong together, summed, or told one below the other.

use toml::de::DeValue;

use super::codes::{BALANCE_UNCLEAR, JOB_UNKNOWN};
use super::model::{Balance, Figures, Planned, Source};
use crate::procedure::ResultOf;
use crate::quantity::Kind;
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, badly_formed, is_name, unit};

/// The balances of the front matter, in the order of the file.
pub(super) fn balances(fields: &mut Fields<'_, '_, '_>) -> Vec<Balance> {
    let Some(item) = fields.item("balances") else { return Vec::new() };
    let DeValue::Table(table) = item.value else {
        fields.wrong_type("balances", item, "a table `[balances.name]` for each balance");
        return Vec::new();
    };
    let rest = Fields::new(table, "balances", item.key, fields.scribe).rest();
    let read = rest.into_iter().filter_map(|(name, item)| {
        if !is_name(&name.value) {
            fields.scribe.note(badly_formed(&name));
            return None;
        }
        let DeValue::Table(table) = item.value else {
            fields.wrong_type(
                &name.value,
                item,
                "a table with `what`, `unit` and `plus`, or `what` and `lists`",
            );
            return None;
        };
        let mut own = Fields::new(table, format!("the balance `{}`", name.value), name.span, fields.scribe);
        let balance = balance(&mut own, &name);
        own.finish();
        balance
    });
    read.collect()
}

fn balance(fields: &mut Fields<'_, '_, '_>, name: &Spanned<String>) -> Option<Balance> {
    let what = fields.need_text("what", "transmission fluid, in less out");
    let is_sum = ["unit", "plus", "minus"].map(|key| fields.item(key).is_some()).contains(&true);
    let unit = unit(fields, "unit");
    let (plus, minus) = (sources(fields, "plus"), sources(fields, "minus"));
    let lists = sources(fields, "lists");
    let figures = match (unit, lists) {
        (Some(unit), None) if unit.value.kind() != Kind::Difference || unit.value.is_date() => {
            unclear(fields, &format!("`{}` is a place on a scale, and two of them have no sum", unit.value));
            return None;
        }
        (Some(unit), None) if plus.is_some() => Figures::Sum {
            unit: unit.value,
            plus: plus.unwrap_or_default(),
            minus: minus.unwrap_or_default(),
        },
        (None, Some(lists)) if !is_sum => Figures::Lists(lists),
        _ => {
            unclear(fields, "a sum has `unit` and `plus`, a list has `lists` and neither");
            return None;
        }
    };
    Some(Balance { name: name.value.clone(), what: what?.value, figures })
}

fn unclear(fields: &mut Fields<'_, '_, '_>, why: &str) {
    let headline = format!("{} is neither a sum nor a list", fields.owner());
    let diagnostic = Diagnostic::error(&BALANCE_UNCLEAR, headline).at(fields.place(), why);
    fields.scribe.note(
        diagnostic.help(
            "write `unit = \"L\"` with `plus = [\"drained in drain\"]`, or `lists = [\"bags in strip\"]`",
        ),
    );
}

/// The results under a key; none where it is not there or lists nothing.
fn sources(fields: &mut Fields<'_, '_, '_>, key: &'static str) -> Option<Vec<Source>> {
    let written = fields.texts(key)?.value;
    let read =
        |written: &Spanned<String>| Some(Source { of: ResultOf::read(fields, written)?, span: written.span });
    let sources: Vec<Source> = written.iter().filter_map(read).collect();
    // What was written and could not be read is told already.
    (!written.is_empty()).then_some(sources)
}

/// What balances speak of and the job does not list.
pub(super) fn unknown(balances: &[Balance], listed: &[Planned]) -> Vec<Diagnostic> {
    let is_unknown = |source: &&Source| listed.iter().all(|planned| planned.id != source.of.procedure);
    let told = |source: &Source| unlisted(&Spanned::new(source.of.procedure.clone(), source.span), listed);
    balances.iter().flat_map(Balance::sources).filter(is_unknown).map(told).collect()
}

/// A name that is no procedure of the job.
pub(super) fn unlisted(name: &Spanned<String>, listed: &[Planned]) -> Diagnostic {
    let headline = format!("`{}` is no procedure of this job", name.value);
    let diagnostic = Diagnostic::error(&JOB_UNKNOWN, headline).at(name.span, "not in the list");
    let ids: Vec<&str> = listed.iter().map(|planned| planned.id.as_str()).collect();
    diagnostic.help(format!("these are: {}", ids.join(", ")))
}
