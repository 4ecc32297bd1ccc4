//! The time zone of the machine. Asked for it, a library of time zones first lists the whole database, some six hundred
//! files; where the machine keeps its zone in a file of its own, that file is enough.

use std::path::Path;
use std::sync::{Mutex, PoisonError};
use std::time::Duration;

use jiff::tz::TimeZone;

use super::{Disk, RealDisk};

/// Where most machines keep the zone they are in; a link into the database, whose path ends with its name.
const OWN_FILE: &str = "/etc/localtime";

/// Far beyond any zone, in bytes.
pub(super) const MOST: u64 = 1 << 20;

/// How long it is good: somebody may set another one while a run is open.
const GOOD_FOR: Duration = Duration::from_secs(60);

/// When it was read, and what.
static LAST: Mutex<Option<(Duration, TimeZone)>> = Mutex::new(None);

/// The time zone of the machine, at this moment of a clock that only goes on.
pub(super) fn of_machine(now: Duration) -> TimeZone {
    let mut last = LAST.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some((read, zone)) = &*last
        && now.saturating_sub(*read) < GOOD_FOR
    {
        return zone.clone();
    }
    let zone = own_file().unwrap_or_else(TimeZone::system);
    *last = Some((now, zone.clone()));
    zone
}

#[expect(
    clippy::disallowed_methods,
    reason = "whoever sets `TZ` wants another zone than that of the machine"
)]
fn own_file() -> Option<TimeZone> {
    if std::env::var_os("TZ").is_some() {
        return None;
    }
    let place = RealDisk.place(Path::new(OWN_FILE)).ok()?;
    let (_, name) = place.to_str()?.rsplit_once("zoneinfo/")?;
    TimeZone::tzif(name, &RealDisk.read(&place, MOST).ok()?).ok()
}
