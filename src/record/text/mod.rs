//! The record as text that a stranger can read without bayhand.
//!
//! Exceptions first: the deviations and their number stand at the top, also when there are none. Everything the record
//! says as data is here too, but for the texts and the journal that it was made from: of these stands the hash.

mod dues;
mod fasteners;
mod first_page;
mod gauge;
mod holds;
mod logs;
mod page;
mod people;
mod results;
mod said;
mod texts;
mod watches;
mod work;

pub(crate) use page::Page;
pub(crate) use said::{amount, time};

use super::model::Record;

/// The narrowest that is written; what is asked narrower gets this.
pub const NARROWEST: usize = 40;

/// The head of the first page alone: result, deviations, who, which vehicle, when.
pub fn head(record: &Record, width: usize) -> String {
    let mut page = Page::new(width.max(NARROWEST));
    first_page::head(&mut page, record);
    page.finish()
}

/// The record as text, no line wider than `width` (at least [`NARROWEST`]) but what cannot be broken.
pub fn render(record: &Record, width: usize) -> String {
    let mut page = Page::new(width.max(NARROWEST));
    first_page::write(&mut page, record);
    dues::write(&mut page, record);
    results::write(&mut page, record);
    fasteners::write(&mut page, record);
    watches::write(&mut page, record);
    holds::write(&mut page, record);
    people::write(&mut page, record);
    work::write(&mut page, record);
    texts::write(&mut page, record);
    page.finish()
}
