//! Input of any kind, and what must hold of it: the same functions under a fuzzer (`tests/fuzz/run`) and in the tests, which
//! try every committed seed and every case that was found once.
//!
//! A seed of a target is a file in `tests/cases/fuzz/TARGET/`; one that was found once says in its name what it was.

mod archives;
pub mod chain;
mod journals;
mod numbers;
mod records;
mod scripts;
#[cfg(test)]
mod seeds;
mod signatures;
mod texts;
mod walks;

/// A door for input from outside, and what must hold of whatever comes through it.
pub struct Target {
    /// What it is called.
    pub name: &'static str,
    /// Panics where something does not hold.
    pub tries: fn(&[u8]),
}

/// All of them.
pub const TARGETS: [Target; 13] = [
    Target { name: "answers", tries: scripts::answers },
    Target { name: "archive", tries: archives::archive },
    Target { name: "forgery", tries: journals::forgery },
    Target { name: "formula", tries: numbers::formula },
    Target { name: "front-matter", tries: texts::front_matter },
    Target { name: "job", tries: texts::job },
    Target { name: "journal", tries: journals::journal },
    Target { name: "procedure", tries: texts::procedure },
    Target { name: "quantity", tries: numbers::quantity },
    Target { name: "record", tries: records::record },
    Target { name: "sheet", tries: texts::sheet },
    Target { name: "signature", tries: signatures::signature },
    Target { name: "walk", tries: walks::walk },
];

/// The bytes as a text, as bayhand reads a file of words.
fn text(bytes: &[u8]) -> std::borrow::Cow<'_, str> {
    String::from_utf8_lossy(bytes)
}
