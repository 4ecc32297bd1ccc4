//! The way of speaking that was chosen, opened.

use std::io;

use super::{Bell, Door, Manner, Plain, StandardInput, Tty, Ui};

/// Opens the way of speaking that was chosen.
///
/// # Errors
/// When the standard streams cannot be used.
pub fn open(manner: Manner, bell: Bell) -> io::Result<Box<dyn Ui>> {
    match manner {
        Manner::Lines => {
            // Linear text at a terminal is wrapped to it; in a pipe or a file, to the usual width.
            let columns = Door::output().columns().unwrap_or(80);
            Ok(Box::new(Plain::new(StandardInput::open()?, Door::output()).wrapped_to(columns)))
        }
        Manner::Mono | Manner::Colour => Ok(Box::new(Tty::new(manner, bell)?)),
    }
}
