//! Somebody who answers whatever the small procedure asks, from wherever it stands.

use super::seat::{Seat, Waits};

/// What the end of a question looks like, and the answer.
const LINES: [(&str, &str); 12] = [
    ("Name of the lead (does the work and releases the hold points): >", "Robin Vale"),
    ("Name of the helper (watches and releases a second time): >", "Sam Hollis"),
    ("Odometer, in km or with its unit: >", "187400 km"),
    ("Present, by name or initials, with commas between: >", "RV, SH"),
    ("Released by Robin Vale (lead); name or initials: >", "RV"),
    ("Released by Sam Hollis (helper); name or initials: >", "SH"),
    ("fluid caught, in mL: >", "250"),
    ("bolts counted, a whole number: >", "4"),
    ("what the next job must know, in words: >", "nothing"),
    ("What was done about it? >", "hose tightened"),
    ("Why does it not apply? >", "a new jug"),
    ("Reason: >", "a new jug is clean"),
];

const KEYS: [(&str, &str); 11] = [
    ("[c] section complete", "c"),
    ("[g] go on [o] other", "g"),
    ("[a] acknowledge", "a"),
    ("[y] it is so", "y"),
    ("[k] keep it, it is so", "k"),
    ("[t] take it again", "t"),
    ("[1] clear", "1"),
    ("[1] 2.5.", "1"),
    ("[2] 2.5.", "2"),
    ("[d] done", "d"),
    ("[c] close and seal the run", "c"),
];

/// One question with the robot's answer to it.
pub struct Question {
    /// The sort of question.
    pub name: &'static str,
    pub kind: Waits,
    /// The keys that answer it.
    pub keys: String,
}

/// Waits for the question that is asked now.
pub fn question(seat: &Seat) -> Question {
    let (said, kind) = seat.question();
    let (name, keys) = match kind {
        Waits::Time => ("the time", String::new()),
        Waits::List => ("the list", "\u{1b}[B\u{1b}[B\r".to_owned()),
        Waits::Line => line(&said),
        Waits::Key => key(&said),
    };
    Question { name, kind, keys }
}

/// The pressure is too low at first, and typed wrongly before that.
fn line(said: &str) -> (&'static str, String) {
    const PRESSURE: &str = "pressure at the tap, in psi: >";
    if said.ends_with(PRESSURE) {
        let value = if said.contains("Earlier: ") { "12" } else { "800" };
        return (PRESSURE, format!("{value}\r"));
    }
    let found = LINES.iter().find(|(end, _)| said.ends_with(end));
    let (end, answer) = found.unwrap_or_else(|| panic!("nobody knows what to say to: {said}"));
    (*end, format!("{answer}\r"))
}

fn key(said: &str) -> (&'static str, String) {
    if said.contains("2.8 Rinse the jug. Last:") || said.contains("/ step 12 of 15") {
        return ("[n] not applicable", "n".to_owned());
    }
    let offered = &said[said.rfind("Next: ").unwrap_or_default()..];
    let found = KEYS.iter().find(|(keys, _)| offered.contains(keys));
    let (keys, answer) = found.unwrap_or_else(|| panic!("nobody knows which key to press: {said}"));
    (*keys, (*answer).to_owned())
}
