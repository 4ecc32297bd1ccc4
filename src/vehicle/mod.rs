//! Vehicle sheets: what is known of one vehicle, and from where.
//!
//! ```toml
//! format = 1
//! vehicle = "the green one, automatic"
//! identification = "EXAMPLE-0040-17"
//! odometer_unit = "km"
//!
//! [values.flow_min]
//! value = "2.0 L/min"
//! source = "workshop manual, page 7-33, cooler flow test"
//! ```

mod amended;
mod codes;
mod read;
mod sheet;

pub use amended::{PutIn, amended};
pub use codes::CODES;
pub use read::{is_sheet, read};
pub use sheet::{Sheet, SheetValue};
