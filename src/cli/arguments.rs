//! The command line: every command with what it takes, and the words of the help.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand};

use super::Exit;
pub(super) use super::arguments_found::{Compare, History, Impact, PageForm};
pub(super) use super::arguments_passed_on::{Receive, Records, Share};
pub(super) use super::arguments_record::{Dates, Record, RecordForm, Sign, Verify};

const TEACHING: &str =
    "A procedure is a Markdown file with TOML between two `+++` lines on top; procedures/FORMAT.md \
teaches how one is written.

A first walk:
  bayhand check procedures/cooler-line-flush.md
  bayhand run procedures/cooler-line-flush.md --vehicle procedures/vehicle-example.toml

A run survives anything: type the same `run` command again and it goes on where it stood.";

/// A guided checklist for people who take vehicles apart: walks a procedure step by step, judges readings,
/// stops at hold points, survives being killed, and seals a record.
#[derive(Debug, Parser)]
#[command(name = "bayhand", version, after_long_help = format!("{TEACHING}\n\n{}", Exit::MEANINGS), after_help = TEACHING)]
pub(super) struct Arguments {
    /// The folder that holds the runs, in place of the platform's own (or set `BAYHAND_DATA`).
    #[arg(long, global = true, value_name = "FOLDER")]
    pub(super) data: Option<PathBuf>,
    /// Linear text: no cursor movement, no colour, no drawings. Good for a screen reader.
    #[arg(long, global = true)]
    pub(super) plain: bool,
    #[command(subcommand)]
    pub(super) command: Command,
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Check procedures and vehicle sheets, and say everything that is wrong with them.
    Check(Check),
    /// Show a procedure: what it needs and every step; or one person's part in it. Of a job, each procedure.
    Show(Show),
    /// A working copy on paper: the procedure as a web page to print, with boxes and blanks; of a run, with what is done.
    Sheet(Sheet),
    /// What to lay out before the work, or what a whole job takes: tools, amounts, packs, costs, moments for two, waits.
    Kit(Kit),
    /// Run a procedure, or go on with a run.
    Run(Run),
    /// Walk a procedure the evening before: the same questions, nothing recorded; ends in what to get ready.
    Rehearse(Rehearse),
    /// List all runs, the open ones first.
    Runs(Runs),
    /// List the procedures that are inside the program, or write them out.
    Library(Library),
    /// Pass a procedure or a job on: it and all that it links to in one file, which any unzip program opens.
    Share(Share),
    /// Take what somebody shared into a folder: checked before anything is written, and nothing there is overwritten.
    Receive(Receive),
    /// Make a vehicle sheet: every value that procedures or a job need is asked for, with where it is found.
    Vehicle(Vehicle),
    /// Show where a run stands: protections, what is open, every step.
    Status(Status),
    /// Print the sealed record of a run or a job; of one that is not closed, what was done and what is open.
    Record(Record),
    /// Find closed runs by vehicle, date, procedure, part, instrument, deviation or person.
    Records(Records),
    /// Two records of one procedure side by side: what changed, and whether it means anything given the instruments.
    Compare(Compare),
    /// A reading, a computed value or a count over all runs of a vehicle: as a table, and drawn.
    History(History),
    /// List what falls due after a run or a job, and write it as a calendar file.
    Dates(Dates),
    /// Verify records and the folders of runs: the seal, each entry, every value and verdict worked out again.
    Verify(Verify),
    /// Sign a record: performed, verified or released, with a key of OpenSSH. The signature lies beside it.
    Sign(Sign),
    /// List every reading that was taken with an instrument, over all runs; with its error, judge them again.
    Impact(Impact),
    /// Work out a formula with units, or a function of the trade.
    #[command(disable_help_flag = true)]
    Calc(Calc),
    /// Teach what a diagnostic code means and how to mend it.
    Explain(Explain),
    /// Print the completions for a shell.
    Completions(Completions),
}

#[derive(Debug, Args)]
pub(super) struct Check {
    /// Procedures (.md), vehicle sheets and files of answers (.toml), or folders of them. A sheet is held against each
    /// procedure named with it.
    #[arg(required = true, value_name = "FILE or FOLDER")]
    pub(super) files: Vec<PathBuf>,
    /// One JSON object a finding, for a program to read.
    #[arg(long)]
    pub(super) json: bool,
    /// Warnings count as well: exit code 1 when there is anything to report.
    #[arg(long)]
    pub(super) strict: bool,
}

#[derive(Debug, Args)]
#[command(
    after_help = "With `--role` it is a page to be hung up: what that person does, says and must never touch. The \
steps have the numbers of the whole procedure, so that two people speak of the same one.

Example:
  bayhand show transmission-out --role helper"
)]
pub(super) struct Show {
    /// The procedure, or the job.
    #[arg(value_name = "FILE")]
    pub(super) file: PathBuf,
    /// Only the part of this role: `helper`.
    #[arg(long, value_name = "ROLE")]
    pub(super) role: Option<String>,
    /// The vehicle sheet: limits, torques and amounts are shown with this vehicle's figures and their sources.
    #[arg(long, value_name = "FILE")]
    pub(super) vehicle: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub(super) struct Sheet {
    /// The procedure; or the name of a run, for what is left of it.
    #[arg(value_name = "FILE or RUN")]
    pub(super) what: PathBuf,
    /// The vehicle sheet: limits, torques and amounts stand there with this vehicle's figures. A run has its own.
    #[arg(long, value_name = "FILE")]
    pub(super) vehicle: Option<PathBuf>,
    /// Write it to this file; one that is there is not overwritten.
    #[arg(long, value_name = "FILE")]
    pub(super) to: Option<PathBuf>,
}

#[derive(Debug, Args)]
#[command(
    after_help = "Of a job, materials and parts are summed over its procedures, packs are rounded up over all of \
them together, and each evening has its own list.

Examples:
  bayhand kit cooler-line-flush --vehicle vehicle-example.toml
  bayhand kit cold-reverse-stall --vehicle vehicle-example.toml --csv > kit.csv"
)]
pub(super) struct Kit {
    /// The procedure, or the job.
    #[arg(value_name = "FILE")]
    pub(super) file: PathBuf,
    /// The vehicle sheet: amounts are worked out for this vehicle.
    #[arg(long, value_name = "FILE")]
    pub(super) vehicle: Option<PathBuf>,
    /// Of a job: the whole kit of each evening, not a line each. The other forms always hold it.
    #[arg(long, conflicts_with = "form")]
    pub(super) evenings: bool,
    #[command(flatten)]
    pub(super) form: Form,
}

/// In which form something is written; as text without any.
#[derive(Debug, Args)]
#[group(id = "form", multiple = false)]
pub(super) struct Form {
    /// Markdown: a heading and a table for each list, to be printed or passed on.
    #[arg(long)]
    pub(super) markdown: bool,
    /// CSV (RFC 4180), one table for a spreadsheet. What it would take for a formula begins with an apostrophe.
    #[arg(long)]
    pub(super) csv: bool,
    /// One JSON object, for a program to read.
    #[arg(long)]
    pub(super) json: bool,
}

#[derive(Clone, Debug, Args)]
pub(super) struct Run {
    /// A procedure, a job, or the name of a run to go on with. An open run of the procedure is gone on with.
    #[arg(value_name = "FILE or RUN")]
    pub(super) what: String,
    /// The vehicle sheet. Without one, every vehicle value is asked for, with its source.
    #[arg(long, value_name = "FILE")]
    pub(super) vehicle: Option<PathBuf>,
    /// Take the answers from this file; no terminal is needed.
    #[arg(long, value_name = "FILE")]
    pub(super) answers: Option<PathBuf>,
    /// Begin anew, although a run of this procedure is open.
    #[arg(long)]
    pub(super) new: bool,
    /// Units that stand beside those that are asked for (`"psi, °F, qt"`); remembered until others are given, or `none`.
    #[arg(long, value_name = "UNITS")]
    pub(super) units: Option<String>,
    /// No bell at the end of a wait and when a time is missed.
    #[arg(long)]
    pub(super) quiet: bool,
    /// Of a job, only what one person can do.
    #[arg(long)]
    pub(super) alone: bool,
    /// Of a job, only what fits in this time (`"2 h"`).
    #[arg(long, value_name = "TIME")]
    pub(super) within: Option<String>,
}

#[derive(Debug, Args)]
pub(super) struct Rehearse {
    /// The procedure.
    #[arg(value_name = "FILE")]
    pub(super) file: PathBuf,
    /// The vehicle sheet. Without one, every vehicle value is asked for, with its source.
    #[arg(long, value_name = "FILE")]
    pub(super) vehicle: Option<PathBuf>,
    /// Take the answers from this file; no terminal is needed.
    #[arg(long, value_name = "FILE")]
    pub(super) answers: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub(super) struct Vehicle {
    #[command(subcommand)]
    pub(super) deed: VehicleDeed,
}

#[derive(Debug, Subcommand)]
pub(super) enum VehicleDeed {
    /// Ask for a new sheet and write it; a file that is there is not overwritten.
    New {
        /// The sheet to be written.
        #[arg(value_name = "SHEET")]
        file: PathBuf,
        /// The procedures or jobs that it is for.
        #[arg(required = true, value_name = "PROCEDURE or JOB")]
        what: Vec<PathBuf>,
    },
    /// Keep in a sheet what was typed in a run, each value with its source; what the sheet gives already stays.
    Keep {
        /// The sheet that it is put into.
        #[arg(value_name = "SHEET")]
        file: PathBuf,
        /// The run.
        #[arg(value_name = "RUN")]
        run: String,
    },
}

#[derive(Debug, Args)]
pub(super) struct Library {
    #[command(subcommand)]
    pub(super) deed: Option<LibraryDeed>,
}

#[derive(Debug, Subcommand)]
pub(super) enum LibraryDeed {
    /// Write the procedures, the format and the example sheet into a folder; nothing that is there is overwritten.
    Copy {
        /// The folder.
        #[arg(value_name = "FOLDER")]
        folder: PathBuf,
    },
}

#[derive(Debug, Args)]
pub(super) struct Runs {
    /// One JSON array, for a program to read.
    #[arg(long)]
    pub(super) json: bool,
}

#[derive(Debug, Args)]
pub(super) struct Status {
    /// The name of the run. Not needed when only one is open.
    #[arg(value_name = "RUN")]
    pub(super) run: Option<String>,
    /// One JSON object, for a program to read.
    #[arg(long)]
    pub(super) json: bool,
}

#[derive(Debug, Args)]
#[command(after_help = "Examples:
  bayhand calc \"1.00 qt / 22 s in L/min\"
  bayhand calc 163 F in C
  bayhand calc --list dipstick
  bayhand calc --units
  bayhand calc --help old_fluid_left")]
pub(super) struct Calc {
    /// The formula; `in UNIT` at its end asks for the unit of the result. Quotes keep `*`, `(` and `<` from the shell. A
    /// single quantity is read as a person types it: `1:30 min`, `0,5 L`, `5 ft 3 in`.
    #[arg(value_name = "FORMULA", required_unless_present_any = ["list", "units", "help"])]
    pub(super) formula: Vec<String>,
    /// List all functions, one a line; with a word, those that it stands in.
    #[arg(long, num_args = 0.., value_name = "WORD")]
    pub(super) list: Option<Vec<String>>,
    /// List all units by what they measure: symbol, name and other spellings.
    #[arg(long)]
    pub(super) units: bool,
    /// Teach a function: meaning, arguments, an example, source. Without a name, this help.
    #[arg(long, short = 'h', num_args = 0..=1, value_name = "NAME", default_missing_value = "")]
    pub(super) help: Option<String>,
    /// JSON, for a program to read: the result, the functions, or what is wrong.
    #[arg(long)]
    pub(super) json: bool,
}

#[derive(Debug, Args)]
pub(super) struct Explain {
    /// A code such as `unit-mismatch`. Without one, all codes are listed.
    #[arg(value_name = "CODE")]
    pub(super) code: Option<String>,
}

#[derive(Debug, Args)]
pub(super) struct Completions {
    /// The shell.
    pub(super) shell: clap_complete::Shell,
}
