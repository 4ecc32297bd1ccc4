//! The name of a run, safe as the name of a folder everywhere.

use std::fmt;

use jiff::civil::Date;

use super::JournalError;

/// The longest name of a procedure that goes into the name of a run, in characters.
const MOST_OF_NAME: usize = 60;
/// The longest name of a run.
const MOST_BYTES: usize = 100;

/// The name of a run and of its folder: `2026-11-21-cooler-line-flush`, then `2026-11-21-cooler-line-flush-2`.
///
/// Lower-case letters, digits and hyphens only, so that it is a safe folder name everywhere.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct RunId(String);

impl RunId {
    /// The name of the nth run (from 1) of a procedure that was started on this day.
    pub(super) fn of(date: Date, procedure: &str, nth: u32) -> Self {
        let name = folder_name(procedure);
        let number = if nth > 1 { format!("-{nth}") } else { String::new() };
        Self(format!("{date}-{name}{number}"))
    }

    /// Reads a name as the person typed it.
    ///
    /// ```
    /// use bayhand::journal::RunId;
    /// assert!(RunId::parse("2026-11-21-cooler-line-flush").is_ok());
    /// assert!(RunId::parse("../somewhere").is_err());
    /// ```
    pub fn parse(text: &str) -> Result<Self, JournalError> {
        let plain = text.bytes().all(is_plain) && text.len() <= MOST_BYTES;
        let dated = text.get(..10).is_some_and(|date| date.parse::<Date>().is_ok());
        if plain && dated {
            return Ok(Self(text.to_owned()));
        }
        let text = text.to_owned();
        Err(JournalError::NotARun { text })
    }

    /// Whether a run of this procedure can have this name.
    ///
    /// ```
    /// use bayhand::journal::RunId;
    /// let id = RunId::parse("2026-11-21-cooler-line-flush-2").unwrap();
    /// assert!(id.is_of("cooler-line-flush"));
    /// assert!(!id.is_of("cooler-line"));
    /// ```
    pub fn is_of(&self, procedure: &str) -> bool {
        const DATE: usize = "2026-11-21-".len();
        let name = folder_name(procedure);
        let number = self.0.get(DATE..).and_then(|rest| rest.strip_prefix(&name));
        number.is_some_and(|number| {
            number.is_empty() || number.strip_prefix('-').is_some_and(|nth| nth.parse::<u32>().is_ok())
        })
    }

    /// The name.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

fn is_plain(byte: u8) -> bool {
    matches!(byte, b'a'..=b'z' | b'0'..=b'9' | b'-')
}

/// `Cooler line, flush.` becomes `cooler-line-flush`; nothing usable becomes `run`.
fn folder_name(procedure: &str) -> String {
    let lower = procedure.to_ascii_lowercase();
    let words = lower.split(|letter: char| !letter.is_ascii_alphanumeric()).filter(|word| !word.is_empty());
    let mut name = words.collect::<Vec<_>>().join("-");
    name.truncate(MOST_OF_NAME);
    let name = name.trim_end_matches('-');
    if name.is_empty() { "run" } else { name }.to_owned()
}

impl fmt::Display for RunId {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}
