//! `bayhand explain`

use super::Exit;
use super::arguments::Explain;
use super::context::Context;
use crate::source::{Code, suggest};
use crate::terminal::{Line, Role, Text};
use crate::{answers, formula, job, procedure, source, vehicle};

/// Teaches a code, or lists all.
pub(super) fn explain(context: &Context, command: &Explain) -> Exit {
    match &command.code {
        None => context.show(&list()),
        Some(name) => match codes().find(|code| code.name == name.trim()) {
            Some(code) => context.show(&lesson(code)),
            None => context.found(&unknown(name)),
        },
    }
}

/// Every code there is, by name.
fn codes() -> impl Iterator<Item = &'static Code> {
    let mut all: Vec<&'static Code> =
        [formula::CODES, &procedure::codes(), vehicle::CODES, answers::CODES, job::CODES, source::CODES]
            .concat();
    all.sort_unstable_by_key(|code| code.name);
    all.into_iter()
}

fn list() -> Text {
    codes().fold(Text::new(), |text, code| {
        text.line(
            Line::new()
                .with(Role::Strong, code.name)
                .with(Role::Plain, format!(": {}", code.summary))
                .hang(4),
        )
    })
}

fn lesson(code: &Code) -> Text {
    let head =
        Line::new().with(Role::Strong, code.name).with(Role::Plain, format!(": {}", code.summary)).hang(4);
    Text::new().line(head).blank().then(Text::plain(code.teaching))
}

fn unknown(name: &str) -> String {
    let near = suggest::nearest(name, codes().map(|code| code.name));
    let hint = near.map(|near| format!("did you mean `{near}`? ")).unwrap_or_default();
    format!("there is no code `{name}`; {hint}`bayhand explain` lists all")
}
