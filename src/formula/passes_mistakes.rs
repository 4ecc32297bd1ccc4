//! What is said of a call that goes over the passes of a repeat and does not fit.

use super::Type;
use super::codes::{
    ARGUMENT_MISSING, ARGUMENT_UNKNOWN, NAME_NEEDED, OUT_OF_RANGE, TEMPERATURE_SCALE, TYPE_MISMATCH,
    UNIT_MISMATCH,
};
use super::passes::{LAST, Over};
use super::proof::{Proved, Step};
use super::tree::Call;
use crate::source::suggest::nearest;
use crate::source::{Diagnostic, Span};
use crate::trade::Function;

pub(super) fn no_name(over: Over, call: &Call) -> Diagnostic {
    Diagnostic::error(&ARGUMENT_MISSING, format!("`{}` needs a name", over.name()))
        .at(call.close, "the name of a reading or a value is missing here")
        .help(format!("for example `{}`", over.signature()))
}

pub(super) fn several(over: Over, second: Span) -> Diagnostic {
    let mistake = needs_one_name(over).at(second, "this is one too many");
    match over {
        Over::Fold(function) => mistake
            .note(format!("without `last`, `{}` takes several values", function.name))
            .help(format!("for example `{}`", over.signature())),
        Over::Count => mistake.help("to look at the newest passes only, write `last = 3`"),
        Over::Before | Over::First | Over::Last => {
            mistake.help(format!("for example `{}`", over.signature()))
        }
    }
}

pub(super) fn not_a_name(over: Over, span: Span) -> Diagnostic {
    needs_one_name(over).at(span, "this is not a bare name").help(format!(
        "declare it in `[values]`, mention it in the step that is repeated, and give its name here: `{}`",
        over.signature()
    ))
}

/// A name that is the same in each pass, or is known of the present one only.
pub(super) fn no_passes(over: Over, name: &str, span: Span) -> Diagnostic {
    needs_one_name(over).at(span, format!("`{name}` has no value of its own in each pass")).help(format!(
        "only a reading or a computed value has: declare one in `[values]` that rests on `{name}`, and mention it in \
         the step that is repeated"
    ))
}

fn needs_one_name(over: Over) -> Diagnostic {
    Diagnostic::error(&NAME_NEEDED, format!("{} goes over the passes of one name", asked(over)))
}

/// What is said where nothing has a name, so that there are no passes either.
pub(super) fn nowhere(mistake: Diagnostic) -> Diagnostic {
    mistake.note("nothing has passes here: they come about in a repeat of a procedure")
}

/// Who asks for one name: a function of several values does so with `last`, and where it is given one value alone.
fn asked(over: Over) -> String {
    match over {
        Over::Fold(function) => format!("`{}` of one value, or with `last`,", function.name),
        Over::Before | Over::Count | Over::First | Over::Last => format!("`{}`", over.name()),
    }
}

pub(super) fn no_such_argument(over: Over, name: &str, span: Span) -> Diagnostic {
    let mistake = Diagnostic::error(
        &ARGUMENT_UNKNOWN,
        format!("`{}` over passes has no parameter `{name}`", over.name()),
    )
    .at(span, "there is none of this name")
    .note(format!("it is called as `{}`", over.signature()));
    if !over.takes_newest() {
        return mistake;
    }
    match nearest(name, [LAST]) {
        Some(meant) => mistake.help(format!("did you mean `{meant}`?")).replace(span, meant),
        None => mistake,
    }
}

pub(super) fn no_number(newest: &Proved) -> Diagnostic {
    let code = if matches!(newest.gives, Type::Quantity { .. }) { &UNIT_MISMATCH } else { &TYPE_MISMATCH };
    Diagnostic::error(code, "`last` must be a plain number")
        .at(newest.span, format!("this is {}", newest.gives))
        .help("it is how many of the newest passes are looked at: `last = 3`")
}

pub(super) fn no_count(span: Span) -> Diagnostic {
    Diagnostic::error(&OUT_OF_RANGE, HOW_MANY).at(span, "this is no number of passes")
}

/// What a number of passes can be.
pub(super) const HOW_MANY: &str = "`last` must be a whole number from 1 to 1000";

pub(super) fn on_a_scale(function: &Function, of: &Proved) -> Diagnostic {
    let mean = match &of.step {
        Step::Name(name) => format!("mean({name})"),
        _ => "mean(pan_temp)".to_owned(),
    };
    if of.gives == Type::DATE {
        return Diagnostic::error(&UNIT_MISMATCH, format!("dates have no {}", function.name))
            .at(of.span, "this is a date");
    }
    Diagnostic::error(&TEMPERATURE_SCALE, format!("temperatures on a scale have no {}", function.name))
        .at(of.span, "this is a temperature on a scale")
        .help(format!("they have a mean: `{mean}`"))
}

pub(super) fn no_quantity(function: &Function, of: &Proved) -> Diagnostic {
    Diagnostic::error(&TYPE_MISMATCH, format!("`{}` needs quantities", function.name))
        .at(of.span, format!("each of these is {}", of.gives))
        .help(format!("of what is {} there are `first`, `last`, `before` and `count`", of.gives))
}
