//! `bayhand impact`

use super::Exit;
use super::arguments;
use super::context::Context;
use super::impact_again;
use super::taken_with::of_run;
use crate::catalogue::Catalogue;
use crate::record::impact::{IMPACT_SCHEMA, TakenWith};
use crate::terminal::{Line, Role, Text};

/// Lists every reading that was taken with an instrument, over all runs, and every one of which nobody can say with
/// which instrument it was taken.
pub(super) fn impact(context: &Context, command: &arguments::Impact) -> Exit {
    if command.schema {
        return context.write_json(IMPACT_SCHEMA);
    }
    if let Some(off) = &command.error {
        return impact_again::impact_again(context, command, off);
    }
    match readings(context, command) {
        Ok(rows) if command.json => context
            .write_json(&serde_json::to_string_pretty(&rows).map(|json| json + "\n").unwrap_or_default()),
        Ok(rows) => context.show(&text(&rows, command)),
        Err(exit) => exit,
    }
}

fn readings(context: &Context, command: &arguments::Impact) -> Result<Vec<TakenWith>, Exit> {
    let runs = context.runs()?;
    let catalogue = Catalogue::read(&runs).map_err(|error| context.journal_error(&error))?;
    let mut rows = Vec::new();
    let unread = catalogue.each(&runs, |run| rows.extend(of_run(&run, command)));
    rows.extend(unread.into_iter().map(|(run, trouble)| TakenWith {
        run,
        trouble: Some(trouble),
        ..TakenWith::default()
    }));
    Ok(rows)
}

fn text(rows: &[TakenWith], command: &arguments::Impact) -> Text {
    if rows.is_empty() {
        let since = command.since.map(|since| format!(" since {since}")).unwrap_or_default();
        return Text::plain(&format!(
            "No reading was taken with {}{since}, and none with an instrument that nobody named.",
            command.instrument()
        ));
    }
    rows.iter().fold(Text::new(), |text, row| text.line(row_line(row)))
}

fn row_line(row: &TakenWith) -> Line {
    if let Some(trouble) = &row.trouble {
        let words = format!("{}  {trouble}", row.run);
        return Line::new().with(Role::Strong, "cannot be read: ").with(Role::Plain, words).hang(4);
    }
    let corrected = if row.corrected { " (a correction)" } else { "" };
    let pass = row.pass.as_ref().map(|pass| format!(", {pass}")).unwrap_or_default();
    let due = row.due.as_deref().unwrap_or_default();
    let with = match &row.identity {
        Some(identity) => format!("{identity}, calibration due {due}"),
        None => format!("{}, nobody said which one: it may be this one", row.tool),
    };
    let words =
        format!("{}, step {}{pass}, {}: {}{corrected}; {with}", row.run, row.step, row.reading, row.value);
    Line::new().with(Role::Strong, format!("{}  ", row.at)).with(Role::Plain, words).hang(4)
}
