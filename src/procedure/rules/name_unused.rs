//! Every name that is declared is mentioned where it does something.

use std::collections::HashSet;

use super::name_unknown::everywhere;
use crate::procedure::check::Draft;
use crate::procedure::{Name, Table};
use crate::source::{Code, Diagnostic};

/// A declaration without a mention.
pub static NAME_UNUSED: Code = Code {
    name: "name-unused",
    summary: "something is declared and never mentioned",
    teaching: "\
A hazard that no step names is never shown, a reading that no step names is never taken. Name it where it belongs
or take the declaration out. A hold point must be named: that is an error of its own.

Wrong: `[readings.supply]` and no `[supply]` in the text

Right: a step `Read the supply pressure: [supply].`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let used = used(draft);
    let unused = draft.names.iter().filter(|(name, _)| !used.contains(name.as_str()));
    let all_read = draft.declarations.all_read();
    let matters = unused.filter(|(name, declared)| match declared.table {
        Table::Holds => false,
        // It is formulas that speak of these, and some may stand where nothing could be read.
        Table::Vehicle => all_read,
        _ => name.as_str() != "lead",
    });
    let reports = matters.map(|(name, declared)| {
        let headline = format!("the {} `{name}` is never mentioned", declared.table);
        let diagnostic =
            Diagnostic::warning(&NAME_UNUSED, headline).at(declared.span, declared.table.unmentioned());
        diagnostic.help(format!("write `[{name}]` in the step where it belongs, or take the declaration out"))
    });
    reports.chain(only_in_prose(draft)).collect()
}

/// Readings whose name stands in the text, but in no step that would take them. Those that a formula speaks of are the
/// business of another rule.
fn only_in_prose(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let mut taken: HashSet<&str> = draft.mentions.iter().map(|mention| mention.name.value.as_str()).collect();
    taken.extend(draft.holds().flat_map(|(_, hold)| &hold.readings).map(|name| name.value.as_str()));
    let prose = everywhere(draft).into_iter().filter(|mention| !taken.contains(mention.value.as_str()));
    let is_lost =
        |name: &Name| draft.names.table(name) == Some(Table::Readings) && !draft.formulas.used.contains(name);
    let lost = prose.filter(|mention| is_lost(&mention.value)).map(|mention| {
        let headline = format!("no step takes the reading `{}`", mention.value);
        let diagnostic = Diagnostic::warning(&NAME_UNUSED, headline).at(mention.span, "not in a step");
        diagnostic.help("name it in the step where it is read, or take it out")
    });
    lost.collect()
}

fn used<'d>(draft: &'d Draft<'_>) -> HashSet<&'d str> {
    let mut used: HashSet<&str> = everywhere(draft).into_iter().map(|name| name.value.as_str()).collect();
    used.extend(draft.formulas.used.iter().map(Name::as_str));
    let in_front_matter = draft.declarations.spoken().into_iter().filter(|spoken| spoken.is_use);
    used.extend(in_front_matter.map(|spoken| spoken.name.value.as_str()));
    used
}
