//! A journal as somebody writes it who can make its chain anew.

use bayhand::journal::Digest;

/// The lines of a journal out of times and events, numbered and chained.
pub fn chained<'l>(told: impl IntoIterator<Item = (&'l str, &'l str)>) -> Vec<String> {
    let mut made: Vec<String> = Vec::new();
    for (time, event) in told {
        let before = made.last().map(|line| format!("{line}\n")).unwrap_or_default();
        let format = if made.is_empty() { "\"format\":1," } else { "" };
        let (seq, link) = (made.len() + 1, Digest::of(before.as_bytes()));
        made.push(format!(
            "{{{format}\"seq\":{seq},\"time\":\"{time}\",\"prev\":\"{link}\",\"event\":{event}}}"
        ));
    }
    made
}

/// The time and the event of a line.
pub fn told(line: &str) -> Option<(&str, &str)> {
    let (_, rest) = line.split_once("\"time\":\"")?;
    let (time, rest) = rest.split_once("\",\"prev\":\"")?;
    let (_, event) = rest.split_once("\",\"event\":")?;
    Some((time, event.strip_suffix('}')?))
}
