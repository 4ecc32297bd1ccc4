//! A name stands in the table that is needed where it is used.

use crate::procedure::Table;
use crate::procedure::check::Declared;
use crate::source::{Code, Diagnostic, Spanned};

/// A name of the wrong kind.
pub static NAME_WRONG_TABLE: Code = Code {
    name: "name-wrong-table",
    summary: "a name is declared, but as something else than is needed here",
    teaching: "\
An instrument is a tool, a hold point is released by a role and takes readings. The message says which table the
name would have to stand in.

Wrong: `instrument = \"pan_temp\"`

Right: `instrument = \"thermometer\"` with `thermometer` under `[tools]`
",
};

/// Says that `name` stands in another table than the one that `whose` needs.
pub(in crate::procedure) fn wrong(
    name: &Spanned<String>,
    declared: &Declared,
    table: Table,
    whose: &str,
) -> Diagnostic {
    let headline = format!("{whose} is a {table}, and `{}` is a {}", name.value, declared.table);
    let diagnostic = Diagnostic::error(&NAME_WRONG_TABLE, headline).at(name.span, format!("not a {table}"));
    let diagnostic = diagnostic.also(declared.span, format!("declared as a {} here", declared.table));
    diagnostic.help(format!("name something that stands under `[{}]`", table.key()))
}
