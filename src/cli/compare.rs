//! `bayhand compare`

use std::path::Path;

use super::Exit;
use super::arguments::{Compare, PageForm};
use super::beside::KEPT_WIDTH;
use super::context::Context;
use super::proved::proved;
use super::verify::{MOST_SAID, place_of};
use crate::print;
use crate::record::compare::{COMPARE_SCHEMA, Comparison, compared, compared_csv, compared_page};
use crate::record::model::Record;
use crate::source::escaped;

/// Puts two records of one procedure side by side.
pub(super) fn compare(context: &Context, command: &Compare) -> Exit {
    if command.form.schema {
        return context.write_to(command.to.as_deref(), COMPARE_SCHEMA);
    }
    match both(context, command) {
        Ok(compared) => context.write_to(command.to.as_deref(), &formed(context, command, &compared)),
        Err(exit) => exit,
    }
}

fn both(context: &Context, command: &Compare) -> Result<Comparison, Exit> {
    let before = record(context, command.before.as_deref())?;
    let after = record(context, command.after.as_deref())?;
    compared(&before, &after).ok_or_else(|| {
        context.found(&format!(
            "these are records of two procedures, `{}` and `{}`: only two of one procedure have the same readings. `bayhand \
             records --procedure {}` lists those of the first",
            before.procedure.id, after.procedure.id, before.procedure.id
        ))
    })
}

/// A record that proves itself; nothing is compared with one that does not.
fn record(context: &Context, named: Option<&Path>) -> Result<Record, Exit> {
    // The command line asks for both.
    let named = named.unwrap_or(Path::new(""));
    match proved(&context.system, &place_of(context, named), None) {
        Ok(proved) => Ok(proved.verified.record),
        Err(faults) => {
            for fault in faults.iter().take(MOST_SAID) {
                context.complain(&format!(
                    "{} is not compared, since it is not verified: {fault}",
                    named.display()
                ));
            }
            Err(Exit::Found)
        }
    }
}

fn formed(context: &Context, command: &Compare, compared: &Comparison) -> String {
    let page = || compared_page(compared);
    match command.form {
        PageForm { json: true, .. } => {
            serde_json::to_string_pretty(compared).map(|json| escaped(&json) + "\n").unwrap_or_default()
        }
        PageForm { html: true, .. } => print::html(&page()),
        PageForm { markdown: true, .. } => print::markdown(&page()),
        PageForm { csv: true, .. } => compared_csv(compared),
        _ if command.to.is_some() => print::text(&page(), KEPT_WIDTH),
        _ => print::text(&page(), context.width()),
    }
}
