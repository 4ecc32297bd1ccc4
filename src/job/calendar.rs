//! Due dates as a calendar file: RFC 5545, one all-day event for each that has a day.

use ics::parameters::Value;
use ics::properties::{Description, DtStart, Summary, Transp, Trigger};
use ics::{Alarm, Event, ICalendar, escape_text};
use jiff::tz::TimeZone;

use super::record::model::Due;
use crate::journal::read_time;
use crate::source::clean;

/// What says in a calendar file that it was made here.
pub const MADE_HERE: &str = "-//bayhand//due dates//EN";

/// How long before the day one is reminded.
const BEFORE: &str = "-P7D";

/// Those that have a day, as a calendar file. The same dues make the same bytes.
pub fn calendar(dues: &[Due]) -> String {
    let mut calendar = ICalendar::new("2.0", MADE_HERE);
    dues.iter().filter_map(event).for_each(|event| calendar.add_event(event));
    calendar.to_string()
}

fn event(due: &Due) -> Option<Event<'static>> {
    let (day, is_estimate) = due.due.day()?;
    let set = read_time(&due.due.set.at).ok()?.with_time_zone(TimeZone::UTC);
    let mut event = Event::new(due.uid.clone(), set.strftime("%Y%m%dT%H%M%SZ").to_string());
    let mut start = DtStart::new(day.replace('-', ""));
    start.add(Value::DATE);
    event.push(start);
    let about = if is_estimate { " (estimated day)" } else { "" };
    let summary = text(&format!("{}{about}", due.due.what));
    let source = format!("run {}, step {}, entry {}", due.run, due.due.step, due.due.set.entry);
    event.push(Summary::new(summary.clone()));
    event.push(Description::new(text(&format!("{}\n{source}", due.due.words))));
    event.push(Transp::transparent());
    event.add_alarm(Alarm::display(Trigger::new(BEFORE), Description::new(summary)));
    Some(event)
}

/// A text as the calendar holds it: without what would move a cursor, and with what has a meaning there escaped.
fn text(words: &str) -> String {
    escape_text(clean(words).into_owned()).into_owned()
}
