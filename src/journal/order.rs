//! Whether each line stands where its number says.

use super::Damage;
use super::line::Fields;

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
