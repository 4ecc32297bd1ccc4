//! Names that the front matter itself mentions, such as instruments and releasing roles.

use super::Names;
use crate::procedure::declarable::Spoken;
use crate::procedure::rules::{name_table, name_unknown};
use crate::procedure::{Declarations, Name};
use crate::source::Diagnostic;

/// Says which of those names are unknown, or name something else than can stand there.
pub(super) fn problems(declarations: &Declarations, names: &Names) -> Vec<Diagnostic> {
    declarations.spoken().into_iter().filter_map(|spoken| problem(names, spoken)).collect()
}

fn problem(names: &Names, spoken: Spoken<'_>) -> Option<Diagnostic> {
    let Spoken { name, tables, whose, .. } = spoken;
    let table = *tables.first()?;
    let wanted = Name::from(&name.value);
    match names.get(&wanted) {
        None => Some(name_unknown::unknown(names, &wanted, name.span, &[table])),
        Some(declared) if tables.contains(&declared.table) => None,
        Some(declared) => Some(name_table::wrong(name, declared, table, whose)),
    }
}
