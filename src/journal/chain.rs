//! From the bytes of a journal to its lines, or to the first line that is not as it was written.

use super::contents::{Contents, Line, Torn};
use super::line::{self, Fields, Unread};
use super::{Damage, Flaw, order};

/// The links are looked at only between lines that stand in their places: where lines were moved, all links near them are
/// broken, and the numbers say better what happened.
pub(crate) fn check(mut bytes: Vec<u8>) -> Result<Contents, Flaw> {
    let (whole, torn) = split_torn(&bytes);
    let texts: Vec<&[u8]> = whole.split_inclusive(|&byte| byte == b'\n').collect();
    let (fields, unread) = read_lines(&texts);
    let misplaced = order::first_misplaced(&texts, &fields);
    let in_place = misplaced.as_ref().map_or(fields.len(), |(at, _)| *at);
    let head = order::check_links(&texts[..in_place], &fields[..in_place])?;
    let misplaced = misplaced.map(|(at, damage)| Flaw::Line(at as u64 + 1, damage));
    if let Some(flaw) = misplaced.or(unread) {
        return Err(flaw);
    }
    let torn = (!torn.is_empty()).then(|| Torn { line: head.seq + 1, bytes: torn.to_vec(), kept_in: None });
    let lines = to_lines(&texts, fields);
    let whole = whole.len();
    bytes.truncate(whole);
    // Each line was read as text, so that all of them are.
    let text = String::from_utf8(bytes).unwrap_or_default();
    Ok(Contents { text, lines, torn, head })
}

/// All lines before the first that cannot be read, and why that cannot.
fn read_lines(texts: &[&[u8]]) -> (Vec<Fields>, Option<Flaw>) {
    let mut fields = Vec::with_capacity(texts.len());
    for (number, text) in (1..).zip(texts) {
        match read_line(number, text) {
            Ok(read) => fields.push(read),
            Err(flaw) => return (fields, Some(flaw)),
        }
    }
    (fields, None)
}

fn read_line(number: u64, text: &[u8]) -> Result<Fields, Flaw> {
    let unreadable = |why| Flaw::Line(number, Damage::Unreadable { why });
    let text = without_newline(text).map_err(unreadable)?;
    line::read(text).map_err(|unread| match unread {
        Unread::Format(found) if number == 1 => Flaw::Format(found),
        Unread::Format(found) => unreadable(format!("`format` cannot be `{found}` here")),
        Unread::Wrong(why) => unreadable(why),
    })
}

fn without_newline(text: &[u8]) -> Result<&str, String> {
    let text = text.strip_suffix(b"\n").unwrap_or(text);
    if text.ends_with(b"\r") {
        return Err("it ends with a carriage return, so another program has saved the file anew".to_owned());
    }
    std::str::from_utf8(text).map_err(|error| format!("not UTF-8 text from byte {} on", error.valid_up_to()))
}

fn to_lines(texts: &[&[u8]], fields: Vec<Fields>) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::with_capacity(fields.len());
    let mut begin = 0;
    for (text, fields) in texts.iter().zip(fields) {
        let end = begin + text.len();
        let back = lines.last().map(|before| before.time.duration_since(&fields.time));
        lines.push(Line {
            seq: fields.seq,
            span: begin..end - 1,
            time: fields.time,
            clock_back: back.filter(jiff::SignedDuration::is_positive),
        });
        begin = end;
    }
    lines
}

/// Zeros in a row that a change of single bytes does not make, but a file system that grows a file before its data does.
const ZEROS: [u8; 4] = [0; 4];

/// Splits off what follows the last newline; else a last line that the file system has filled with zeros.
fn split_torn(bytes: &[u8]) -> (&[u8], &[u8]) {
    let ends = end_of_lines(bytes);
    if ends < bytes.len() {
        return bytes.split_at(ends);
    }
    let last = end_of_lines(&bytes[..ends.saturating_sub(1)]);
    let zeros = bytes[last..].windows(ZEROS.len()).any(|window| window == ZEROS);
    bytes.split_at(if zeros { last } else { ends })
}

fn end_of_lines(bytes: &[u8]) -> usize {
    bytes.iter().rposition(|&byte| byte == b'\n').map_or(0, |newline| newline + 1)
}
