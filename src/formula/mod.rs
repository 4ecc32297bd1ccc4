//! Formulas: parsed with spans, dimension-checked before a run, evaluated with a trace.
//!
//! `text ─ lexer ─▶ tokens ─ parser ─▶ Formula ─ check(scope) ─▶ Typed ─ evaluate(world) ─▶ Outcome`
//!
//! There is no input, no output, no clock and no loop in a formula: the same values give the same result, on
//! every machine, in bounded time.

mod arithmetic;
mod call_mistakes;
mod check;
mod check_arguments;
mod check_binary;
mod check_call;
mod check_comparison;
mod check_passes;
pub(crate) mod codes;
mod evaluate;
mod evaluate_call;
mod evaluate_passes;
pub mod functions;
mod interpolation;
mod kind;
mod known;
mod lexer;
mod literal;
mod parser;
mod parser_call;
mod passes;
mod passes_mistakes;
mod problem;
mod proof;
mod said;
mod scope;
mod suggested;
mod syntax;
mod telling;
mod telling_words;
mod token;
mod trace;
mod tree;
mod typed;
mod unit_text;
mod usual;
mod whole;

pub use codes::CODES;
pub use kind::Type;
pub use problem::EvalProblem;
pub use said::Said;
pub use scope::{NoNames, Scope, Value, World};
pub use trace::{Outcome, Passed, Trace};
pub use typed::Typed;
pub use whole::Formula;

/// The longest formula, in bytes.
pub const MAX_LENGTH: usize = 4096;
/// The most levels of brackets, operators and calls that a formula can have.
pub const MAX_DEPTH: usize = 200;
