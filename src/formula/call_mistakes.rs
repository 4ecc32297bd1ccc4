//! What is said of a call whose arguments do not fit the function's parameters.

use super::codes::{ARGUMENT_MISSING, ARGUMENT_UNKNOWN, ARGUMENT_UNNAMED};
use super::tree::Call;
use crate::source::suggest::nearest;
use crate::source::{Diagnostic, Span};
use crate::trade::{Function, Parameter};

pub(super) fn no_such_parameter(function: &Function, name: &str, span: Span) -> Diagnostic {
    let mistake =
        Diagnostic::error(&ARGUMENT_UNKNOWN, format!("`{}` has no parameter `{name}`", function.name))
            .at(span, "there is none of this name")
            .note(format!("it is called as `{}`", function.signature()));
    match nearest(name, function.parameters.iter().map(|parameter| parameter.name)) {
        Some(meant) => mistake.help(format!("did you mean `{meant}`?")).replace(span, meant),
        None => mistake,
    }
}

pub(super) fn too_many(function: &Function, span: Span) -> Diagnostic {
    let count = function.parameters.len();
    let takes = if count == 1 { "1 argument".to_owned() } else { format!("{count} arguments") };
    Diagnostic::error(&ARGUMENT_UNKNOWN, format!("too many arguments for `{}`", function.name))
        .at(span, format!("it takes {takes}"))
        .note(format!("it is called as `{}`", function.signature()))
}

/// An argument that could be taken for another one. Which it is only the person knows, so no name is proposed.
pub(super) fn unnamed(function: &Function, place: usize, span: Span) -> Diagnostic {
    let Some(parameter) = function.parameters.get(place) else {
        return too_many(function, span);
    };
    let mistake = Diagnostic::error(
        &ARGUMENT_UNNAMED,
        format!("an argument of `{}` needs its name, since it is easily taken for another", function.name),
    )
    .at(span, "which of them is this?");
    let alike = function.parameters.iter().filter(|other| other.measures_like(parameter));
    alike
        .fold(mistake, |mistake, other| mistake.note(format!("`{}` is {}", other.name, other.meaning)))
        .help(format!("write its name before it, as in `{}`", function.example))
}

pub(super) fn out_of_order(span: Span) -> Diagnostic {
    Diagnostic::error(&ARGUMENT_UNKNOWN, "an argument without a name follows one with a name")
        .at(span, "which parameter this belongs to is not clear")
        .help("give the arguments in order first, then those with names; or all of them with names")
}

pub(super) fn given_twice(parameter: &Parameter, first: Span, second: Span) -> Diagnostic {
    given_again(parameter.name, first, second)
}

pub(super) fn given_again(name: &str, first: Span, second: Span) -> Diagnostic {
    Diagnostic::error(&ARGUMENT_UNKNOWN, format!("`{name}` is given twice"))
        .at(second, "given again here")
        .also(first, "given here first")
}

pub(super) fn missing_arguments(function: &Function, missing: &[&Parameter], call: &Call) -> Diagnostic {
    let names: Vec<String> = missing.iter().map(|parameter| format!("`{}`", parameter.name)).collect();
    let mistake =
        Diagnostic::error(&ARGUMENT_MISSING, format!("`{}` needs {}", function.name, names.join(" and ")))
            .at(
                call.close,
                format!(
                    "{} missing here",
                    if missing.len() == 1 { "one argument is" } else { "arguments are" }
                ),
            )
            .note(format!("it is called as `{}`", function.signature()));
    let mistake = missing.iter().fold(mistake, |mistake, parameter| {
        mistake.note(format!("`{}` is {}: {}", parameter.name, parameter.meaning, parameter.sort))
    });
    mistake.help(format!("for example `{}`", function.example))
}
