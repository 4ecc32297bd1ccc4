//! Times as the journal writes and reads them: RFC 3339, nothing else.

use std::fmt;

use jiff::ZonedDateTime;
use jiff::civil::{Date, DateTime, Time};
use jiff::tz::{Offset, TimeZone};

/// A text that is not a time in the form of RFC 3339.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotATime {
    /// The text.
    pub text: String,
}

impl fmt::Display for NotATime {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = &self.text;
        write!(out, "`{text}` is not a date and time with offset, such as 2026-11-21T18:30:05+01:00")
    }
}

impl std::error::Error for NotATime {}

/// A time as the journal writes it: RFC 3339 to the millisecond, the rest cut off, with offset.
///
/// ```
/// let time: jiff::ZonedDateTime = "2026-11-21T18:30:05.1239+01:00[Europe/Berlin]".parse()?;
/// assert_eq!(bayhand::journal::write_time(&time), "2026-11-21T18:30:05.123+01:00");
/// # Ok::<(), jiff::Error>(())
/// ```
pub fn write_time(time: &ZonedDateTime) -> String {
    time.strftime("%Y-%m-%dT%H:%M:%S.%3f%:z").to_string()
}

/// Reads a time in the form of RFC 3339 section 5.6, and nothing but that form.
///
/// The offset is kept as the zone of the result. Digits past the nanosecond are cut off. A leap second (`:60`, allowed in
/// the last minute of a day in UTC only) reads as the second before it, since the clocks of computers have none.
pub fn read_time(text: &str) -> Result<ZonedDateTime, NotATime> {
    parse(text.as_bytes()).ok_or_else(|| NotATime { text: text.to_owned() })
}

fn parse(text: &[u8]) -> Option<ZonedDateTime> {
    let (date, rest) = text.split_at_checked(10)?;
    let (mark, rest) = rest.split_first()?;
    let (clock, rest) = rest.split_at_checked(8)?;
    let (nanosecond, offset) = fraction(rest)?;
    let date = read_date(date)?;
    let second = pair(clock, 6)?;
    let time = read_clock(clock, second.min(59), nanosecond)?;
    let zone = TimeZone::fixed(read_offset(offset)?);
    let read = DateTime::from_parts(date, time).to_zoned_datetime(zone).ok()?;
    let fits = mark.eq_ignore_ascii_case(&b'T') && (second <= 59 || may_be_leap_second(second, &read));
    fits.then_some(read)
}

/// `2026-11-21`
fn read_date(text: &[u8]) -> Option<Date> {
    let hyphens = text.get(4) == Some(&b'-') && text.get(7) == Some(&b'-');
    let year = i16::from(pair(text, 0)?) * 100 + i16::from(pair(text, 2)?);
    let date = Date::new(year, pair(text, 5)?, pair(text, 8)?).ok()?;
    hyphens.then_some(date)
}

/// `18:30:05`, with the second already read.
fn read_clock(text: &[u8], second: i8, nanosecond: i32) -> Option<Time> {
    let colons = text.get(2) == Some(&b':') && text.get(5) == Some(&b':');
    let time = Time::new(pair(text, 0)?, pair(text, 3)?, second, nanosecond).ok()?;
    colons.then_some(time)
}

/// The nanoseconds of `.123`, and what follows them.
fn fraction(text: &[u8]) -> Option<(i32, &[u8])> {
    let Some(after_point) = text.strip_prefix(b".") else {
        return Some((0, text));
    };
    let count = after_point.iter().take_while(|byte| byte.is_ascii_digit()).count();
    let (digits, rest) = after_point.split_at(count);
    let padded = digits.iter().copied().chain(std::iter::repeat(b'0')).take(9);
    let nanosecond = padded.fold(0, |sum, digit| sum * 10 + i32::from(digit - b'0'));
    (count > 0).then_some((nanosecond, rest))
}

/// `Z` or `+01:00`
fn read_offset(text: &[u8]) -> Option<Offset> {
    if text.eq_ignore_ascii_case(b"Z") {
        return Some(Offset::UTC);
    }
    let sign = match text.first()? {
        b'+' => 1,
        b'-' => -1,
        _ => return None,
    };
    let (hours, minutes) = (pair(text, 1)?, pair(text, 4)?);
    let fits = text.len() == 6 && text[3] == b':' && hours <= 23 && minutes <= 59;
    let seconds = sign * (i32::from(hours) * 3600 + i32::from(minutes) * 60);
    Offset::from_seconds(seconds).ok().filter(|_| fits)
}

fn may_be_leap_second(second: i8, read: &ZonedDateTime) -> bool {
    let utc = read.with_time_zone(TimeZone::UTC);
    second == 60 && (utc.hour(), utc.minute()) == (23, 59)
}

/// Two decimal digits at a place.
fn pair(text: &[u8], at: usize) -> Option<i8> {
    let [tens, ones] = text.get(at..at + 2)? else {
        return None;
    };
    let both = tens.is_ascii_digit() && ones.is_ascii_digit();
    both.then(|| ((tens - b'0') * 10 + (ones - b'0')).cast_signed())
}
