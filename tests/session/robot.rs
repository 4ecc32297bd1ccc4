//! Somebody who answers whatever the small procedure asks, from wherever it stands.

use super::seat::{Seat, Waits};

/// The photo that is named where one is asked for.
pub const PHOTO: &str = "jug.jpg";

/// What the end of a question for a line looks like, and the answer.
const LINES: [(&str, &str); 15] = [
    ("the path of the photo or file: >", PHOTO),
    ("How do things stand (loose, hanging, open, live)? >", "as it was"),
    ("Approved by Robin Vale (lead); name or initials: >", "RV"),
    ("Name of the lead (does the work and releases the hold points): >", "Robin Vale"),
    ("Name of the helper (watches and releases a second time): >", "Sam Hollis"),
    ("Odometer, in km or with its unit: >", "187400 km"),
    ("Present, by name or initials, with commas between: >", "RV, SH"),
    ("Released by Robin Vale (lead); name or initials: >", "RV"),
    ("Released by Sam Hollis (helper); name or initials: >", "SH"),
    ("in mL: >", "250"),
    ("a whole number: >", "4"),
    ("in words: >", "nothing"),
    ("What was done about it? >", "hose tightened"),
    ("Why does it not apply? >", "a new jug"),
    ("Reason: >", "a new jug is clean"),
];

/// What is said at a question for a key, and the key.
const KEYS: [(&str, &str); 16] = [
    ("[y] still so", "y"),
    ("[Enter] still ", "\r"),
    ("[y] the lead approves", "y"),
    ("Read it? [y] yes", "y"),
    ("[a] acknowledge", "a"),
    ("Is it for this vehicle?", "y"),
    ("[y] yes [n] no", "y"),
    // Only the step that does not apply leads to what else can be done.
    ("[u] this step is not applicable", "u"),
    ("[k] keep it, it is so", "k"),
    ("[t] take it again", "t"),
    ("[1] clear", "1"),
    ("[1] 2.5.", "1"),
    ("[2] 2.5.", "2"),
    ("[d] done", "d"),
    ("[y] section complete", "y"),
    ("[e] end: close and seal the run", "e"),
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
pub fn line(said: &str) -> (&'static str, String) {
    const PRESSURE: &str = "in psi: >";
    if said.ends_with(PRESSURE) {
        let value = if said.contains("Earlier: ") { "12" } else { "800" };
        return (PRESSURE, format!("{value}\r"));
    }
    let found = LINES.iter().find(|(end, _)| said.ends_with(end));
    let (end, answer) = found.unwrap_or_else(|| panic!("nobody knows what to say to: {said}"));
    (*end, format!("{answer}\r"))
}

pub fn key(said: &str) -> (&'static str, String) {
    let (keys, answer) = known_key(said).unwrap_or_else(|| panic!("nobody knows which key to press: {said}"));
    (keys, answer.to_owned())
}

fn known_key(said: &str) -> Option<(&'static str, &'static str)> {
    if said.contains("12/15") && said.contains("[d] done") {
        return Some(("step 12 of 15", "o"));
    }
    KEYS.iter().find(|(keys, _)| said.contains(keys)).copied()
}
