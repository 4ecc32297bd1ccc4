//! A page as data, and the ways to print it: text, Markdown, HTML.
//!
//! Whoever makes a [`Page`] says what stands on it, in plain words; the printers say how that looks, and each of them escapes
//! what it writes in one place. So every form says the same. A [`figure`](Figure) is drawn and told in words.

mod figure;
mod html;
mod markdown;
mod page;
mod text;

pub use figure::{Figure, Gauge, Point, Trend};
pub use html::html;
pub use markdown::markdown;
pub use page::{Block, Grid, Mark, Page, Part, Row, Section, Style, Table, Tick};
pub use text::{NARROWEST, text};
