//! Exact numbers, and where a root or an angle forces it, approximate ones that say so.

mod arithmetic;
mod num;
mod order;
mod round;
mod shown;
mod small;
mod text;

pub use num::Num;
