//! `bayhand vehicle`: a sheet for a vehicle, asked for value by value.

use std::fmt::Write;
use std::path::Path;

use super::arguments::{Vehicle, VehicleDeed};
use super::context::Context;
use super::{Exit, inputs, job};
use crate::procedure::{CheckedProcedure, Name, VehicleValue};
use crate::quantity::parse_entry;
use crate::terminal::{self, Bell, Entry, Guard, Heard, Line, Paged, Role, Text, Ui};

pub(super) fn vehicle(context: &Context, command: &Vehicle) -> Exit {
    match &command.deed {
        VehicleDeed::New { file, what } => new(context, file, what),
        VehicleDeed::Keep { file, run } => super::vehicle_keep::keep(context, file, run),
    }
    .unwrap_or_else(|exit| exit)
}

/// A sheet as it grows: each answer is in it at once.
struct Sheet {
    text: String,
    given: usize,
    not_given: usize,
}

fn new(context: &Context, file: &Path, what: &[std::path::PathBuf]) -> Result<Exit, Exit> {
    if context.system.disk().read_text(file, u64::MAX).is_ok() {
        return Err(context.found(&format!("{} is there already; name another file", file.display())));
    }
    let wanted = wanted(context, what)?;
    let manner = context.manner();
    let asked = {
        let _guard = Guard::start(manner, Text::new()).map_err(|error| context.trouble(&error))?;
        let mut ui = terminal::open(manner, Bell::Silent).map_err(|error| context.trouble(&error))?;
        ask(&mut Paged::new(&mut *ui), &wanted).map_err(|error| context.trouble(&error))?
    };
    let Some(sheet) = asked else { return Ok(Exit::Interrupted) };
    context.system.disk().write_new(file, sheet.text.as_bytes()).map_err(|error| context.trouble(&error))?;
    let left = wanted.len() - sheet.given - sheet.not_given;
    Ok(context.write(&format!(
        "{}: {} values with their sources, {} not given, {left} not asked yet.\n",
        file.display(),
        sheet.given,
        sheet.not_given
    )))
}

/// Every value that the procedures, or those of the jobs, need, each once; what is handed on in a job is not asked for.
fn wanted(context: &Context, what: &[std::path::PathBuf]) -> Result<Vec<(Name, VehicleValue)>, Exit> {
    let mut procedures: Vec<CheckedProcedure> = Vec::new();
    for path in what {
        match job::path_of(context, &path.to_string_lossy()) {
            Some(job) => procedures.extend(job::procedures(context, &job)?),
            None => procedures.push(inputs::book(context, path, None)?.0.procedure),
        }
    }
    let mut wanted: Vec<(Name, VehicleValue)> = Vec::new();
    for (name, value) in procedures.iter().flat_map(|procedure| procedure.vehicle().iter()) {
        if value.handed_on.is_none() && wanted.iter().all(|(known, _)| known != name) {
            wanted.push((name.clone(), value.clone()));
        }
    }
    Ok(wanted)
}

/// Asks for the vehicle and its values. Whoever stops half-way keeps what was typed; nothing where not even the vehicle was
/// named.
fn ask(ui: &mut dyn Ui, wanted: &[(Name, VehicleValue)]) -> std::io::Result<Option<Sheet>> {
    let head = format!(
        "{} values are asked for, each with where it was found. Enter alone: no source gives it. Ctrl-C ends it, and what \
         was typed is kept.",
        wanted.len()
    );
    ui.say(&Line::plain(head).hang(2).into())?;
    let Some(vehicle) = line(ui, "What its people call the vehicle: ")?.filter(|text| !text.is_empty())
    else {
        return Ok(None);
    };
    let Some(number) = line(ui, "What identifies it (the number on its plate): ")? else { return Ok(None) };
    let Some(unit) = line(ui, "What its odometer counts, km or mi (Enter alone: km): ")? else {
        return Ok(None);
    };
    let unit = if unit == "mi" { "mi" } else { "km" };
    let number = if number.is_empty() { "not given".to_owned() } else { number };
    let text = format!(
        "format = 1\nvehicle = {}\nidentification = {}\nodometer_unit = \"{unit}\"\n",
        quoted(&vehicle),
        quoted(&number)
    );
    let mut sheet = Sheet { text, given: 0, not_given: 0 };
    for (place, (name, value)) in wanted.iter().enumerate() {
        let of = format!("{} of {}", place + 1, wanted.len());
        let Some((typed, source)) = value_of(ui, &of, value)? else { break };
        if typed == NOT_GIVEN {
            sheet.not_given += 1;
        } else {
            sheet.given += 1;
        }
        let (typed, source) = (quoted(&typed), quoted(&source));
        let _ = write!(sheet.text, "\n[values.{name}]\nvalue = {typed}\nsource = {source}\n");
    }
    Ok(Some(sheet))
}

/// What stands where no source gives a value.
const NOT_GIVEN: &str = "not given";

/// One value and its source; nothing where the person is gone.
fn value_of(ui: &mut dyn Ui, of: &str, value: &VehicleValue) -> std::io::Result<Option<(String, String)>> {
    let unit = value.unit.as_ref().map(|unit| format!(", in {}", unit.symbol())).unwrap_or_default();
    let choices = if value.choices.is_empty() {
        String::new()
    } else {
        format!(", one of: {}", value.choices.join(", "))
    };
    loop {
        let Some(typed) =
            line(ui, &format!("{of}. {}{unit}{choices} (find it in: {}): ", value.what, value.find))?
        else {
            return Ok(None);
        };
        let (typed, is_given) = if typed.is_empty() { (NOT_GIVEN.to_owned(), false) } else { (typed, true) };
        let wrong = match &value.unit {
            Some(unit) if is_given => parse_entry(&typed, unit).err().map(|problem| problem.to_string()),
            None if is_given && !value.choices.is_empty() && !value.choices.contains(&typed) => {
                Some("it is none of the choices".to_owned())
            }
            _ => None,
        };
        if let Some(wrong) = wrong {
            ui.say(&Line::new().with(Role::Bad, "Not taken: ").with(Role::Plain, wrong).hang(2).into())?;
            continue;
        }
        let question =
            if is_given { "Where was it found (document, page)? " } else { "Where was it looked for? " };
        let Some(source) = line(ui, question)? else { return Ok(None) };
        let source = if source.is_empty() { value.find.clone() } else { source };
        // A bare number stands in the sheet with its unit.
        let typed = match value.unit.as_ref().and_then(|unit| parse_entry(&typed, unit).ok()) {
            Some(entry) if typed.chars().all(|char| !char.is_alphabetic()) => entry.asked.to_string(),
            _ => typed,
        };
        return Ok(Some((typed, source)));
    }
}

/// A line without the white space around it; nothing where the person is gone or wants out.
fn line(ui: &mut dyn Ui, prompt: &str) -> std::io::Result<Option<String>> {
    Ok(match ui.ask_text(prompt, Entry::Main)? {
        Heard::Text(text) => Some(text.trim().to_owned()),
        _ => None,
    })
}

fn quoted(text: &str) -> String {
    toml::Value::String(text.to_owned()).to_string()
}
