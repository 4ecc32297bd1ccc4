//! Bytes as text between a line that begins them and one that ends them; base64 of RFC 4648, read strictly.

use super::Unfit;
use crate::source::base64::{LETTERS, encode};

/// OpenSSH breaks its lines here.
const LINE: usize = 70;

/// What may end a line: nothing else is passed over.
const ENDS: [char; 2] = ['\n', '\r'];

pub(super) fn armoured(what: &str, bytes: &[u8]) -> String {
    let text = encode(bytes);
    let mut rest = text.as_str();
    let mut out = format!("-----BEGIN {what}-----\n");
    while !rest.is_empty() {
        let (line, after) = rest.split_at(rest.len().min(LINE));
        out.push_str(line);
        out.push('\n');
        rest = after;
    }
    out + &format!("-----END {what}-----\n")
}

pub(super) fn bare(what: &str, text: &str) -> Result<Vec<u8>, Unfit> {
    let begin = format!("-----BEGIN {what}-----");
    let end = format!("-----END {what}-----");
    let inside = text.trim_matches(ENDS).strip_prefix(&begin).and_then(|text| text.strip_suffix(&end));
    let inside = inside.ok_or_else(|| {
        Unfit::because(format!(
            "it does not begin with `{begin}` and end with `{end}`, each on a line of its own"
        ))
    })?;
    decode(&inside.replace(ENDS, ""))
}

/// Only what [`encode`] writes: no other letters, no bits left over.
pub(super) fn decode(text: &str) -> Result<Vec<u8>, Unfit> {
    let body = text.trim_end_matches('=');
    let mut bytes = Vec::with_capacity(body.len() / 4 * 3 + 3);
    let (mut bits, mut count) = (0_u32, 0);
    for letter in body.bytes() {
        let value = LETTERS.iter().position(|other| *other == letter);
        let value = value.and_then(|value| u32::try_from(value).ok());
        bits =
            bits << 6 | value.ok_or_else(|| Unfit::because("there are letters in it that are not base64"))?;
        count += 6;
        if count >= 8 {
            count -= 8;
            bytes.extend(u8::try_from(bits >> count & 0xff));
            bits &= (1 << count) - 1;
        }
    }
    if encode(&bytes) == text { Ok(bytes) } else { Err(Unfit::because("its base64 is not whole")) }
}
