//! From the bytes of a journal to its lines, or to the first line that is not as it was written.

use super::contents::{Contents, Head, Line, Torn};
use super::line::{self, Fields, Unread};
use super::{Damage, Digest};

/// The first line that is wrong.
#[derive(Debug)]
pub(super) enum Flaw {
    /// The format of the journal is not known.
    Format(String),
    /// A line, from 1, and what is wrong with it.
    Line(u64, Damage),
}

/// Zeros in a row that a change of single bytes does not make, but a file system that grows a file before its data does.
const ZEROS: [u8; 4] = [0; 4];

pub(super) fn check(bytes: &[u8]) -> Result<Contents, Flaw> {
    let (whole, torn) = split_torn(bytes);
    let texts: Vec<&[u8]> = whole.split_inclusive(|&byte| byte == b'\n').collect();
    let fields = read_lines(&texts)?;
    check_numbers(&texts, &fields)?;
    check_format_places(&fields)?;
    let head = check_links(&texts, &fields)?;
    let torn = (!torn.is_empty()).then(|| Torn {
        line: head.seq + 1,
        bytes: torn.to_vec(),
        kept_in: None,
    });
    let lines = to_lines(&texts, fields);
    Ok(Contents { lines, torn, head })
}

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
    bytes
        .iter()
        .rposition(|&byte| byte == b'\n')
        .map_or(0, |newline| newline + 1)
}

fn read_lines(texts: &[&[u8]]) -> Result<Vec<Fields>, Flaw> {
    let numbered = (1..).zip(texts);
    numbered.map(|(number, text)| read_line(number, text)).collect()
}

fn read_line(number: u64, text: &[u8]) -> Result<Fields, Flaw> {
    let unreadable = |why| Flaw::Line(number, Damage::Unreadable { why });
    let text = without_newline(text)
        .map_err(|error| unreadable(format!("not UTF-8 text from byte {} on", error.valid_up_to())))?;
    line::read(text).map_err(|unread| match unread {
        Unread::Format(found) if number == 1 => Flaw::Format(found),
        Unread::Format(found) => unreadable(format!("`format` cannot be `{found}` here")),
        Unread::Wrong(why) => unreadable(why),
    })
}

fn without_newline(text: &[u8]) -> Result<&str, std::str::Utf8Error> {
    std::str::from_utf8(text.strip_suffix(b"\n").unwrap_or(text))
}

/// Line n carries the number n.
fn check_numbers(texts: &[&[u8]], fields: &[Fields]) -> Result<(), Flaw> {
    let wrong = (1..).zip(fields).find(|(number, fields)| fields.seq != *number);
    wrong.map_or(Ok(()), |(number, _)| {
        let at = usize::try_from(number - 1).unwrap_or(usize::MAX);
        Err(Flaw::Line(number, misplaced(at, texts, fields)))
    })
}

/// What happened to a line that carries a number not its own; `at` counts from 0.
fn misplaced(at: usize, texts: &[&[u8]], fields: &[Fields]) -> Damage {
    let expected = at as u64 + 1;
    let carries = fields[at].seq;
    let later = &fields[at + 1..];
    let goes_on = later.first().is_none_or(|next| next.seq == carries + 1);
    if let Some(of) = texts[..at].iter().position(|text| *text == texts[at]) {
        Damage::Doubled { of: of as u64 + 1 }
    } else if later.iter().any(|other| other.seq == expected) {
        Damage::OutOfOrder { carries }
    } else if carries > expected && goes_on {
        Damage::Missing { last: carries - 1 }
    } else {
        Damage::Changed
    }
}

/// The first line names the format, and no other. Looked at after the numbers, since a line that was moved is wrong here
/// too, and the number says more.
fn check_format_places(fields: &[Fields]) -> Result<(), Flaw> {
    let wrong = (1..)
        .zip(fields)
        .find(|(number, fields)| fields.names_format != (*number == 1));
    wrong.map_or(Ok(()), |(number, _)| {
        let why = "`format` belongs in the first line only".to_owned();
        Err(Flaw::Line(number, Damage::Unreadable { why }))
    })
}

/// Each line carries the digest of the line before it.
fn check_links(texts: &[&[u8]], fields: &[Fields]) -> Result<Head, Flaw> {
    let mut head = Head::of_nothing();
    for (at, text) in texts.iter().enumerate() {
        if fields[at].prev != head.digest {
            return Err(Flaw::Line(changed_line(at, texts, fields), Damage::Changed));
        }
        head = head.after(text);
    }
    Ok(head)
}

/// The link into the line at `at` (from 0) is broken: the line before it was changed, unless the link out of this one is
/// broken too, or there is no line before it.
fn changed_line(at: usize, texts: &[&[u8]], fields: &[Fields]) -> u64 {
    let next = fields.get(at + 1);
    let broken_too = next.is_some_and(|next| next.prev != Digest::of(texts[at]));
    let before = at as u64;
    if at == 0 || broken_too { before + 1 } else { before }
}

fn to_lines(texts: &[&[u8]], fields: Vec<Fields>) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::with_capacity(fields.len());
    for (text, fields) in texts.iter().zip(fields) {
        let back = lines
            .last()
            .map(|before| before.time.duration_since(&fields.time));
        lines.push(Line {
            seq: fields.seq,
            raw: without_newline(text).unwrap_or_default().to_owned(),
            time: fields.time,
            event: fields.event,
            clock_back: back.filter(jiff::SignedDuration::is_positive),
        });
    }
    lines
}
