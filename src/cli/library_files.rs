//! The files inside the program, as they were when it was built.

use std::path::Path;

use crate::source::SourceText;

/// Each file with its text, as it was when the program was built.
macro_rules! embedded {
    ($($name:literal,)*) => { &[$(($name, include_str!(concat!("../../procedures/", $name)))),*] };
}

pub(super) static FILES: &[(&str, &str)] = embedded![
    "FORMAT.md",
    "battery-drain-exhaust.md",
    "bench-and-seals.md",
    "cheap-causes.md",
    "cold-mornings-after.md",
    "cold-mornings-before.md",
    "cold-reverse-stall.md",
    "converter-away.md",
    "converter-back.md",
    "converter-seat.md",
    "cooler-line-flush.md",
    "decision-and-orders.md",
    "driveshafts-off.md",
    "emergencies.md",
    "engagement-check.md",
    "engine-side.md",
    "first-fill-and-start.md",
    "fluid-as-found.md",
    "hand-over.md",
    "level-hot.md",
    "other-oils.md",
    "pressure-and-stall.md",
    "raise-and-support.md",
    "refit-around.md",
    "road-test.md",
    "seized-fastener.md",
    "transfer-case-off.md",
    "transmission-in.md",
    "transmission-out.md",
    "vehicle-example.toml",
];

/// The file of that name, with or without its ending.
pub(super) fn find(name: &Path) -> Option<SourceText> {
    let name = name.to_str()?;
    let is_it = |(file, _): &&(&str, &str)| {
        *file == name || file.rsplit_once('.').is_some_and(|(stem, _)| stem == name)
    };
    FILES.iter().find(is_it).map(|(file, text)| SourceText::new(*file, *text))
}
