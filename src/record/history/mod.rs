//! One reading, computed value or count on one vehicle over all its runs: each time, the oldest first, and how it moved.

mod csv;
mod model;
mod page;
mod plot;
mod taken;

pub use csv::to_csv as history_csv;
pub use model::{HISTORY_SCHEMA, History, Taken, Unread};
pub use page::{page as history_page, title as history_title};
pub use plot::plot as history_plot;
pub use taken::taken;
