//! The command line of what is looked at over several runs: two records side by side, a value over the years, an instrument that was off.

use std::path::PathBuf;

use clap::Args;
use jiff::civil::Date;

use crate::quantity::Off;

#[derive(Debug, Args)]
#[command(
    after_help = "Both are verified first. What is compared is what was left: the last attempt, the last pass that counts, \
item by item. A change is held against the accuracies that the procedures state; where none is stated, nothing is judged.

Example:
  bayhand compare 2026-10-12-cooler-line-flush 2026-11-21-cooler-line-flush"
)]
pub(super) struct Compare {
    /// The first: the name of a run, its folder, or a record (`record.json`).
    #[arg(value_name = "BEFORE", required_unless_present = "schema")]
    pub(super) before: Option<PathBuf>,
    /// The second.
    #[arg(value_name = "AFTER", required_unless_present = "schema")]
    pub(super) after: Option<PathBuf>,
    #[command(flatten)]
    pub(super) form: PageForm,
    /// Write it to this file; one that is there is not overwritten.
    #[arg(long, value_name = "FILE")]
    pub(super) to: Option<PathBuf>,
}

/// The form of a page; text where none is named.
#[derive(Debug, Args)]
#[expect(clippy::struct_excessive_bools, reason = "options of the command line, one of them at most")]
#[group(id = "page_form", multiple = false)]
pub(super) struct PageForm {
    /// One JSON object, for a program to read.
    #[arg(long)]
    pub(super) json: bool,
    /// One web page that needs nothing else: no script; prints on A4 and Letter.
    #[arg(long)]
    pub(super) html: bool,
    /// Markdown, with tables.
    #[arg(long)]
    pub(super) markdown: bool,
    /// A table as RFC 4180 has it, for a spreadsheet or a program.
    #[arg(long)]
    pub(super) csv: bool,
    /// The JSON Schema of the JSON; nothing else is needed.
    #[arg(long)]
    pub(super) schema: bool,
}

#[derive(Debug, Args)]
#[command(
    after_help = "Runs of every procedure that has something under this name are looked at, closed ones and open ones. A run \
that cannot be read is said. Counted are the passes of a repeat, under its name, and over a whole run what `compare` counts, \
such as `deviations` or `time at work`. A name that nothing has is answered with all that there are.

Example:
  bayhand history line_pressure --vehicle EXAMPLE-1 --html --to line-pressure.html"
)]
pub(super) struct History {
    /// The reading, the computed value or the count, by its name in the procedure, or by what it is.
    #[arg(value_name = "NAME", required_unless_present = "schema")]
    pub(super) name: Option<String>,
    /// Part of what its people call the vehicle, or of what identifies it. Not needed when there is only one.
    #[arg(long, value_name = "WORDS")]
    pub(super) vehicle: Option<String>,
    #[command(flatten)]
    pub(super) form: PageForm,
    /// The drawing alone, as SVG.
    #[arg(long, conflicts_with = "page_form")]
    pub(super) svg: bool,
    /// Write it to this file; one that is there is not overwritten.
    #[arg(long, value_name = "FILE")]
    pub(super) to: Option<PathBuf>,
}

#[derive(Debug, Args)]
#[command(
    after_help = "With `--error` every reading that was taken with it is corrected and judged again by its own limits, and so \
is all that rests on it. `+` says that it read high, `-` that it read low: with `+8 %` what was there is what was read, \
divided by 1.08; with `+0.5 bar` it is what was read, less 0.5 bar. The runs stay as they are. Exit code 1 when a verdict \
that was good is not any more.

Example:
  bayhand impact TW-1 --since 2026-11-01 --error \"+8 %\""
)]
pub(super) struct Impact {
    /// What is written on the instrument, as it was entered: `TW-1`.
    #[arg(value_name = "INSTRUMENT", value_parser = instrument, required_unless_present = "schema")]
    instrument: Option<String>,
    /// Only readings of this day and later, such as 2026-11-01.
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub(super) since: Option<Date>,
    /// By how much it read too high (`+8 %`, `+0.5 bar`) or too low (`-8 %`): each reading is judged again.
    #[arg(long, value_name = "ERROR", value_parser = Off::parse, allow_hyphen_values = true)]
    pub(super) error: Option<Off>,
    /// For a program to read: a JSON array; with an error, one JSON object.
    #[arg(long)]
    pub(super) json: bool,
    /// The JSON Schema of the JSON, with an error and without; nothing else is needed.
    #[arg(long, conflicts_with_all = ["json", "error"])]
    pub(super) schema: bool,
}

impl Impact {
    /// What is written on the instrument; empty where only the schema was asked for.
    pub(super) fn instrument(&self) -> &str {
        self.instrument.as_deref().unwrap_or_default()
    }
}

fn instrument(text: &str) -> Result<String, String> {
    if text.trim().is_empty() {
        return Err("no instrument is named; write what is written on it, such as TW-1".to_owned());
    }
    Ok(text.to_owned())
}

fn date(text: &str) -> Result<Date, String> {
    text.trim().parse().map_err(|_| format!("`{text}` is no date; write it as 2026-11-01"))
}
