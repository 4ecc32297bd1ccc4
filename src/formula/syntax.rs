//! What is said of a formula that cannot be read.

use super::codes::FORMULA_SYNTAX;
use super::token::{Mark, Placed, Token};
use crate::source::{Diagnostic, Span, Spanned};

fn error(message: &str) -> Diagnostic {
    Diagnostic::error(&FORMULA_SYNTAX, message)
}

pub(super) fn nothing(span: Span) -> Diagnostic {
    error("there is no formula here").at(span, "a formula is expected").help("for example `caught / took`")
}

/// Where a value should stand there is something else.
pub(super) fn no_value(found: &Placed, before: Option<&Placed>) -> Diagnostic {
    match (&found.value, before) {
        (Token::End, Some(before)) => {
            error("the formula ends too early").at(before.span, "a value is missing after this")
        }
        (Token::Mark(Mark::Assign), Some(Spanned { value: Token::Mark(Mark::Assign), .. })) => {
            error("two equals signs stand apart").at(found.span, "write `==` without a space")
        }
        (_, Some(before)) => error("a value is missing")
            .at(found.span, "a number, a name or a bracket is expected before this")
            .also(before.span, "after this"),
        (_, None) => {
            error("a value is missing").at(found.span, "a number, a name or a bracket is expected first")
        }
    }
}

/// After a whole formula there is something more.
pub(super) fn left_over(whole: Span, found: &Placed) -> Diagnostic {
    match found.value {
        Token::Mark(Mark::Assign) => {
            error("`=` compares nothing").at(found.span, "to compare, write `==`").replace(found.span, "==")
        }
        Token::Mark(Mark::Close) => {
            error("this bracket closes nothing").at(found.span, "no bracket is open here")
        }
        Token::Mark(Mark::Comma) => error("a comma stands outside a function")
            .at(found.span, "commas separate the arguments of a function")
            .help("write decimals with a point: `1.5`"),
        Token::Mark(Mark::Then | Mark::Else) => {
            error("there is no `if` to this").at(found.span, "write `if A then B else C`")
        }
        Token::Mark(Mark::Not) => error("`not` stands before what it denies")
            .at(found.span, "it cannot join two values")
            .help("write `and not`, or `!=` for unequal"),
        _ => error("an operator is missing")
            .at(found.span, "this follows a value without an operator between them")
            .also(whole, "the value before it")
            .help("to multiply, write `*`; a unit stands directly after a number"),
    }
}

/// `a < b < c`.
pub(super) fn chain(first: Span, second: Span) -> Diagnostic {
    error("two comparisons in a row")
        .at(second, "a second comparison")
        .also(first, "the first one already gives true or false")
        .help("join them with `and`: `0 psi < supply and supply < 30 psi`")
}

pub(super) fn not_closed(open: Span, found: &Placed) -> Diagnostic {
    match found.value {
        Token::End => error("this bracket is never closed").at(open, "a `)` is missing"),
        _ => error("something is missing between these values")
            .at(found.span, "an operator, a comma or `)` is expected before this")
            .also(open, "inside this bracket"),
    }
}

/// `if` without its `then` or `else`.
pub(super) fn half_a_choice(missing: Mark, word: Span, found: &Placed) -> Diagnostic {
    let missing = if missing == Mark::Then { "then" } else { "else" };
    let problem = error(&format!("this `if` has no `{missing}`")).at(word, "write `if A then B else C`");
    match found.value {
        Token::End => problem,
        _ => problem.also(found.span, format!("`{missing}` is expected before this")),
    }
}
