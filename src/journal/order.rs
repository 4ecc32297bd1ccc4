//! Whether each line stands in its place: by its number, and by the digest of the line before.

use super::contents::Head;
use super::line::Fields;
use super::{Damage, Digest, Flaw};

/// The first line (from 0) that does not stand in its place, and what happened there.
pub(super) fn first_misplaced(texts: &[&[u8]], fields: &[Fields]) -> Option<(usize, Damage)> {
    let wrong = |(at, fields): (usize, &Fields)| {
        let first = at == 0;
        fields.seq != at as u64 + 1 || fields.names_format != first
    };
    let at = fields.iter().enumerate().position(wrong)?;
    Some((at, what_happened(at, texts, fields)))
}

fn what_happened(at: usize, texts: &[&[u8]], fields: &[Fields]) -> Damage {
    let expected = at as u64 + 1;
    let carries = fields[at].seq;
    let later = &fields[at + 1..];
    let goes_on = later.first().is_none_or(|next| next.seq == carries + 1);
    if carries == expected {
        let why = "`format` stands in the first line and no other".to_owned();
        Damage::Unreadable { why }
    } else if let Some(of) = texts[..at].iter().position(|text| *text == texts[at]) {
        Damage::Doubled { of: of as u64 + 1 }
    } else if later.iter().any(|other| other.seq == expected) {
        Damage::OutOfOrder { carries }
    } else if carries > expected && goes_on {
        Damage::Missing { last: carries - 1 }
    } else {
        Damage::Changed
    }
}

/// Each line carries the digest of the line before it.
pub(super) fn check_links(texts: &[&[u8]], fields: &[Fields]) -> Result<Head, Flaw> {
    let mut head = Head::of_nothing();
    for (at, text) in texts.iter().enumerate() {
        if fields[at].prev != head.digest {
            return Err(broken_link(at, texts, fields));
        }
        head = head.after(text);
    }
    Ok(head)
}

/// Which line was changed when the link into the line at `at` (from 0) is broken.
///
/// If the next line vouches for this one as it is, the line before was changed. If it vouches for this one with the link
/// put right, only that link was changed. Else nobody can say which of the two it was.
fn broken_link(at: usize, texts: &[&[u8]], fields: &[Fields]) -> Flaw {
    let this = at as u64 + 1;
    let Some(before) = at.checked_sub(1) else {
        return Flaw::Line(this, Damage::Changed);
    };
    let vouched = fields.get(at + 1).map(|next| next.prev);
    let put_right = with_link(texts[at], &fields[at].prev, &Digest::of(texts[before]));
    if vouched == Some(Digest::of(texts[at])) {
        Flaw::Line(this - 1, Damage::Changed)
    } else if vouched == Some(Digest::of(&put_right)) {
        Flaw::Line(this, Damage::Changed)
    } else {
        Flaw::Line(this - 1, Damage::ChangedOrNext)
    }
}

fn with_link(text: &[u8], old: &Digest, new: &Digest) -> Vec<u8> {
    let text = String::from_utf8_lossy(text);
    text.replacen(&old.to_string(), &new.to_string(), 1).into_bytes()
}
