//! Text, spans, diagnostics and their renderers.

pub(crate) mod base64;
mod clean;
mod diagnostic;
mod excerpt;
mod few;
mod json;
mod render;
mod span;
pub mod suggest;
mod text;
mod words;

pub use clean::clean;
pub use diagnostic::{Code, Diagnostic, Fix, Found, Label, Severity};
pub use few::CODES;
pub use json::{escaped, to_json};
pub use render::{Colour, Look, render};
pub use span::{Span, Spanned};
pub use text::{Position, SourceText};
pub use words::{find_words, first_words};
