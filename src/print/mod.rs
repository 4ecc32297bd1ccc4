//! A page as data, and the ways to print it: text, Markdown, HTML.
//!
//! Whoever makes a [`Page`] says what stands on it, in plain words; the printers say how that looks, and each of them escapes
//! what it writes in one place. So every form says the same. A [`figure`](Figure) is drawn and told in words.

mod csv;
mod figure;
mod html;
mod lines;
mod markdown;
mod page;
mod picture;
mod plot;
mod text;

pub use csv::{csv_row, csv_words};
pub use figure::{Figure, Gauge, Point, Trend};
pub use html::{html, svg};
pub(crate) use lines::Lines;
pub use markdown::markdown;
pub use page::{Block, Grid, Mark, Page, Part, Row, Section, Style, Table, Tick};
pub use picture::{Picture, PictureData};
pub use plot::{Dot, Level, Plot};
pub use text::{NARROWEST, text};
