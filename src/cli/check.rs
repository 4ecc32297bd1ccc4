//! `bayhand check`

use std::path::{Component, Path, PathBuf};

use super::Exit;
use super::arguments::Check;
use super::context::Context;
use super::inputs::{self, Input, ProcedureInput};
use super::library_files::find;
use crate::answers::Script;
use crate::job;
use crate::procedure::{CheckedProcedure, LinkedText, check_sheet};
use crate::source::{Diagnostic, Severity, SourceText, to_json};
use crate::vehicle;

/// Checks files and tells everything that is wrong with them.
pub(super) fn check(context: &Context, command: &Check) -> Exit {
    match findings(context, command) {
        Ok(findings) => report(context, command, &findings),
        Err(exit) => exit,
    }
}

struct Finding {
    text: SourceText,
    diagnostics: Vec<Diagnostic>,
}

fn findings(context: &Context, command: &Check) -> Result<Vec<Finding>, Exit> {
    let (sheets, procedures): (Vec<_>, Vec<_>) = command.files.iter().partition(|path| is_sheet(path));
    let mut findings = Vec::new();
    let mut checked = Vec::new();
    for path in procedures {
        let text = context.read(path)?;
        if job::is_job(text.text()) {
            checked.extend(of_job(context, path, text, &mut findings)?);
            continue;
        }
        let input = inputs::procedure_of(context, path, text);
        checked.extend(procedure(input, &mut findings));
    }
    for path in sheets {
        let input = inputs::sheet(context, path)?;
        let finding = answers_finding(&input.text).unwrap_or_else(|| sheet_finding(input, &checked));
        findings.push(finding);
    }
    Ok(findings)
}

/// A job, with everything that is wrong with it and with its procedures.
fn of_job(
    context: &Context,
    path: &Path,
    text: SourceText,
    findings: &mut Vec<Finding>,
) -> Result<Vec<CheckedProcedure>, Exit> {
    let found = job::read(&text, &inputs::id(path));
    let own = findings.len();
    add(findings, Finding { text, diagnostics: found.diagnostics });
    let Some(job) = found.value else { return Ok(Vec::new()) };
    let folder = path.parent().unwrap_or(Path::new(""));
    let mut checked = Vec::new();
    for planned in &job.procedures {
        let input = inputs::procedure(context, &folder.join(&planned.address))?;
        checked.extend(procedure(input, findings));
    }
    if let Some(finding) = findings.get_mut(own) {
        finding.diagnostics.extend(job::check(&job, &checked));
        finding.diagnostics.extend(job::check_handing(&job, &checked));
    }
    Ok(checked)
}

/// A procedure, with everything that is wrong with it and with those that it links to.
fn procedure(input: ProcedureInput, findings: &mut Vec<Finding>) -> Option<CheckedProcedure> {
    let ProcedureInput { own, linked } = input;
    add(findings, Finding { text: own.text, diagnostics: own.diagnostics });
    for LinkedText { text, diagnostics, .. } in linked {
        add(findings, Finding { text, diagnostics });
    }
    own.value
}

/// A file that is named and linked to, or linked to twice, is told of once.
fn add(findings: &mut Vec<Finding>, finding: Finding) {
    if !findings.iter().any(|known| plain_path(&known.text) == plain_path(&finding.text)) {
        findings.push(finding);
    }
}

/// The path of a text without the folders that it only goes through and leaves again: `lines/../tap.md` is `tap.md`.
fn plain_path(text: &SourceText) -> PathBuf {
    let mut plain = PathBuf::new();
    for part in Path::new(text.name()).components() {
        let leaves = part == Component::ParentDir
            && matches!(plain.components().next_back(), Some(Component::Normal(_)));
        match part {
            Component::CurDir => {}
            _ if leaves => drop(plain.pop()),
            other => plain.push(other),
        }
    }
    plain
}

/// A sheet or a file of answers, by the ending; one inside the program is also known without it.
fn is_sheet(path: &Path) -> bool {
    let inside = path.extension().is_none().then(|| find(path)).flatten();
    let name = inside.map_or_else(|| path.to_owned(), |text| PathBuf::from(text.name()));
    name.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("toml"))
}

/// What is to be said of a file of answers; `None` for any other TOML.
fn answers_finding(text: &SourceText) -> Option<Finding> {
    let table = toml::from_str::<toml::Table>(text.text()).ok()?;
    table.get("answers")?;
    let diagnostics = Script::read(text.text()).err().map(|mistake| *mistake).into_iter().collect();
    Some(Finding { text: text.clone(), diagnostics })
}

fn sheet_finding(input: Input<vehicle::Sheet>, procedures: &[CheckedProcedure]) -> Finding {
    let Input { text, value, mut diagnostics } = input;
    let against =
        value.iter().flat_map(|sheet| procedures.iter().map(|procedure| check_sheet(procedure, sheet)));
    diagnostics.extend(against.flatten());
    Finding { text, diagnostics }
}

fn report(context: &Context, command: &Check, findings: &[Finding]) -> Exit {
    let shown = if command.json { as_json(findings) } else { as_text(context, findings) };
    let written = if command.json { context.write(&shown) } else { context.write_diagnosed(&shown) };
    match written {
        Exit::Done if findings.iter().any(|finding| counts(finding, command)) => Exit::Found,
        exit => exit,
    }
}

/// Whether a file is not good enough: errors in it, or with `--strict` anything at all.
fn counts(finding: &Finding, command: &Check) -> bool {
    finding.diagnostics.iter().any(|found| command.strict || found.severity == Severity::Error)
}

fn as_json(findings: &[Finding]) -> String {
    findings.iter().map(|finding| to_json(&finding.diagnostics, &finding.text)).collect()
}

fn as_text(context: &Context, findings: &[Finding]) -> String {
    let one = |finding: &Finding| {
        let shown = context.diagnosed(&finding.diagnostics, &finding.text);
        format!("{shown}{}\n", summary(finding))
    };
    findings.iter().map(one).collect()
}

fn summary(finding: &Finding) -> String {
    let count = |severity| finding.diagnostics.iter().filter(|found| found.severity == severity).count();
    let name = crate::source::clean(finding.text.name());
    match (count(Severity::Error), count(Severity::Warning)) {
        (0, 0) => format!("{name}: nothing to report"),
        (errors, warnings) => {
            let errors = counted(errors, "error");
            let warnings = counted(warnings, "warning");
            format!("{name}: {errors}, {warnings}; `bayhand explain CODE` teaches each")
        }
    }
}

fn counted(count: usize, what: &str) -> String {
    format!("{count} {what}{}", if count == 1 { "" } else { "s" })
}
