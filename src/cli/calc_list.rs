//! `bayhand calc --list`: the functions, all of them or those in which a word stands.

use super::Exit;
use super::arguments::Calc;
use super::calc_data;
use super::context::Context;
use crate::formula::functions;
use crate::trade::Function;

/// A subject, and those of its functions that are listed.
type Listed = (&'static str, Vec<&'static Function>);

/// Lists the functions in which `word` stands; all of them without one.
pub(super) fn list(context: &Context, word: &str, command: &Calc) -> Exit {
    let listed = with_word(word.trim());
    if listed.is_empty() {
        return context
            .found(&format!("nothing with `{word}` in it; `bayhand calc --list` names all functions"));
    }
    context.write(&if command.json { calc_data::list(&listed) } else { lines(&listed) })
}

fn with_word(word: &str) -> Vec<Listed> {
    let subjects = functions::subjects().map(|subject| {
        let is_about = stands_in(word, subject.name);
        let meant = subject.functions.iter().filter(|function| is_about || speaks_of(function, word));
        (subject.name, meant.collect::<Vec<_>>())
    });
    subjects.filter(|(_, functions)| !functions.is_empty()).collect()
}

/// Whether the word stands in its name, in what it gives, or in what it is given.
fn speaks_of(function: &Function, word: &str) -> bool {
    let given = function.parameters.iter().flat_map(|parameter| [parameter.name, parameter.meaning]);
    [function.name, function.summary].into_iter().chain(given).any(|text| stands_in(word, text))
}

fn stands_in(word: &str, text: &str) -> bool {
    text.to_lowercase().replace('_', " ").contains(&word.to_lowercase().replace('_', " "))
}

/// One line a function, however long: a list is searched by line.
fn lines(listed: &[Listed]) -> String {
    let row = |function: &&Function| format!("  {}: {}\n", function.name, function.summary);
    let subject = |(subject, functions): &Listed| {
        format!("{subject}\n{}", functions.iter().map(row).collect::<String>())
    };
    listed.iter().map(subject).collect()
}
