//! Whether the clock and the time zone of the machine make sense: times go into records that are signed.

use std::fmt;
use std::path::Path;

use jiff::tz::TimeZone;

use super::{Disk, RealDisk, System, zone};

/// Why the machine's time cannot go into a record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoTime {
    /// `TZ` names no time zone.
    Zone {
        /// What it says.
        named: String,
    },
    /// The clock shows a year that cannot be.
    Clock {
        /// The year.
        year: i16,
    },
}

impl fmt::Display for NoTime {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Zone { named } => write!(
                out,
                "the environment names a time zone that there is none of, TZ=`{named}`; unset TZ, or set it to a name that \
                 this machine knows, such as TZ=Europe/Lisbon, or to TZ=UTC"
            ),
            Self::Clock { year } => {
                write!(out, "the clock of this machine shows the year {year}; set it, and begin again")
            }
        }
    }
}

impl std::error::Error for NoTime {}

impl System {
    /// Whether the time of this machine can be written down.
    pub fn time_makes_sense(&self) -> Result<(), NoTime> {
        if let Some(named) = self.environment().variable("TZ").filter(|named| !is_zone(named)) {
            return Err(NoTime::Zone { named: named.to_owned() });
        }
        match self.now().year() {
            1970..=9998 => Ok(()),
            year => Err(NoTime::Clock { year }),
        }
    }
}

/// What POSIX lets `TZ` be: a rule, the name of a zone, or the path of its file.
fn is_zone(named: &str) -> bool {
    const FOLDER: &str = "zoneinfo/";
    let name = named.strip_prefix(':').unwrap_or(named);
    let within = name.rfind(FOLDER).map_or(name, |at| &name[at + FOLDER.len()..]);
    TimeZone::posix(named).is_ok() || is_known(within) || is_file(Path::new(name))
}

/// A name is looked up as a file of the system's database: nothing else may be reached by it.
fn is_known(name: &str) -> bool {
    let is_plain = |letter: char| letter.is_ascii_alphanumeric() || "/_+-".contains(letter);
    name.starts_with(|first: char| first.is_ascii_alphanumeric())
        && name.chars().all(is_plain)
        && TimeZone::get(name).is_ok()
}

fn is_file(path: &Path) -> bool {
    RealDisk.read(path, zone::MOST).is_ok_and(|bytes| TimeZone::tzif("", &bytes).is_ok())
}
