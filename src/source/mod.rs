//! Text, spans, diagnostics and their renderers.

mod code;
mod diagnostic;
mod span;
mod text;

pub use code::Code;
pub use diagnostic::{Diagnostic, Fix, Found, Label, Severity};
pub use span::{Span, Spanned};
pub use text::{Position, SourceText};
