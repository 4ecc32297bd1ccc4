//! The commands, one file each.

mod arguments;
mod arguments_found;
mod arguments_passed_on;
mod arguments_record;
mod beside;
mod calc;
mod calc_data;
mod calc_lesson;
mod calc_list;
mod calc_typed;
mod calc_units;
mod check;
mod check_files;
mod check_one;
mod compare;
mod completions;
mod context;
mod dates;
mod earlier;
mod exit;
mod explain;
mod going_on;
mod history;
mod impact;
mod impact_again;
mod in_order;
mod inputs;
mod job;
mod job_found;
mod job_record;
mod job_runs;
mod kept;
mod kit;
mod library;
mod library_files;
mod open_run;
mod pictures;
mod preferences;
mod proved;
mod receive;
mod record;
mod records;
mod redact;
mod rehearse;
mod run;
mod running;
mod runs;
mod sealed;
mod share;
mod sheet;
mod show;
mod sign;
mod signatures;
mod status;
mod status_data;
mod taken_with;
mod usage;
mod vehicle;
mod vehicle_keep;
mod verify;

use std::ffi::OsString;

use clap::Parser;

use arguments::{Arguments, Command};
pub use beside::Fault;
use context::Context;
pub use exit::Exit;
pub use proved::{Proved, proved, proved_with};
pub use status_data::status_json;

use crate::system::System;

/// Carries out the command of these arguments, the program's own name first.
pub fn main(system: System, arguments: impl IntoIterator<Item = OsString>) -> Exit {
    let arguments = match Arguments::try_parse_from(arguments.into_iter().map(no_option)) {
        Ok(arguments) => arguments,
        Err(error) => return usage::help_or_mistake(&system, &error),
    };
    if let Err(trouble) = system.time_makes_sense() {
        return Context::new(system, arguments.data, arguments.plain).trouble(&trouble);
    }
    let context = Context::new(system, arguments.data, arguments.plain);
    match arguments.command {
        Command::Check(command) => check::check(&context, &command),
        Command::Show(command) => show::show(&context, &command),
        Command::Sheet(command) => sheet::sheet(&context, &command),
        Command::Kit(command) => kit::kit(&context, &command),
        Command::Run(command) => run::run(&context, &command),
        Command::Rehearse(command) => rehearse::rehearse(&context, &command),
        Command::Library(command) => library::library(&context, &command),
        Command::Share(command) => share::share(&context, &command),
        Command::Receive(command) => receive::receive(&context, &command),
        Command::Vehicle(command) => vehicle::vehicle(&context, &command),
        Command::Runs(command) => runs::runs(&context, &command),
        Command::Status(command) => status::status(&context, &command),
        Command::Record(command) => record::record(&context, &command),
        Command::Records(command) => records::records(&context, &command),
        Command::Compare(command) => compare::compare(&context, &command),
        Command::History(command) => history::history(&context, &command),
        Command::Dates(command) => dates::dates(&context, &command),
        Command::Verify(command) => verify::verify(&context, &command),
        Command::Sign(command) => sign::sign(&context, &command),
        Command::Impact(command) => impact::impact(&context, &command),
        Command::Calc(command) => calc::calc(&context, &command),
        Command::Explain(command) => explain::explain(&context, &command),
        Command::Completions(command) => completions::completions(&context, &command),
    }
}

/// A negative quantity, `-40 F in C`, is no option: with a blank before it nothing takes it for one.
fn no_option(argument: OsString) -> OsString {
    let text = argument.to_str().and_then(|text| text.strip_prefix('-'));
    match text {
        Some(rest) if rest.starts_with(|first: char| first.is_ascii_digit()) => format!(" -{rest}").into(),
        _ => argument,
    }
}
