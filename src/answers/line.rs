//! One line of a file of answers, as it is written.

use jiff::SignedDuration;
use toml::de::DeValue;

use crate::answers::codes::problem;
use crate::answers::times::duration;
use crate::table::Fields;

/// One answer.
#[derive(Clone, Debug)]
pub struct Line {
    /// Where the run stands: see [`crate::run::Prompt::label`].
    pub at: String,
    /// What is typed.
    pub enter: Option<String>,
    /// What is done, in a word.
    pub act: Option<String>,
    /// Why.
    pub reason: Option<String>,
    /// Where a deferred step comes back: before a step, by its number, before a hold point, by its name, or at the end
    /// of a section: `section 3`.
    pub before: Option<String>,
    /// How things are: for a statement that is untrue, for a sitting that ends.
    pub state: Option<String>,
    /// What comes first next time, where a sitting is suspended.
    pub first: Option<String>,
    /// Where a vehicle value was found.
    pub source: Option<String>,
    /// What is corrected: a reading, a value of the vehicle, or `odometer`.
    pub reading: Option<String>,
    /// In which pass the entry was made that is corrected: its number or its item, the outer one first: `2 / left`.
    pub pass: Option<String>,
    /// The role that somebody takes over, or whose name was entered wrongly.
    pub role: Option<String>,
    /// The loose end that is settled or carried out of the job, in its words; none for the one that is asked about.
    pub end: Option<String>,
    /// Who sees to a loose end that leaves the job.
    pub by: Option<String>,
    /// The hold point that was touched.
    pub hold: Option<String>,
    /// The tool for which an instrument is named.
    pub tool: Option<String>,
    /// The day on which the calibration of an instrument comes due.
    pub due: Option<String>,
    /// What is decided about a deviation.
    pub disposition: Option<String>,
    /// When it was really done, where it is entered late: a time, or a date and a time.
    pub done_at: Option<String>,
    /// Why it is entered late.
    pub late: Option<String>,
    /// The group of fasteners.
    pub group: Option<String>,
    /// The stage of the group, as it is called.
    pub stage: Option<String>,
    /// The place in the group.
    pub position: Option<String>,
    /// An unlikely value is so.
    pub sure: bool,
    /// The time since the answer before.
    pub after: Option<String>,
}

impl Line {
    /// Reads one answer; a time in it that cannot be used is found before anything is answered.
    pub(super) fn read(fields: &mut Fields<'_, '_, '_>) -> Self {
        let at = text(fields, "at");
        if at.is_none() && fields.item("at").is_none() {
            fields.missing("at", "\"1.1\"");
        }
        let line = Self {
            at: at.unwrap_or_default(),
            enter: text(fields, "enter"),
            act: text(fields, "do"),
            reason: text(fields, "reason"),
            before: text(fields, "before"),
            state: text(fields, "state"),
            first: text(fields, "first"),
            source: text(fields, "source"),
            reading: text(fields, "reading"),
            pass: text(fields, "pass"),
            role: text(fields, "role"),
            end: text(fields, "end"),
            by: text(fields, "by"),
            hold: text(fields, "hold"),
            tool: text(fields, "tool"),
            due: text(fields, "due"),
            disposition: text(fields, "disposition"),
            done_at: text(fields, "done_at"),
            late: text(fields, "late"),
            group: text(fields, "group"),
            stage: text(fields, "stage"),
            position: text(fields, "position"),
            after: text(fields, "after"),
            sure: truth(fields, "sure"),
        };
        if let (Some(Err(why)), Some(after)) = (line.pause(), fields.item("after")) {
            fields.scribe.note(problem(after.span, &why, "this time cannot be used"));
        }
        line
    }

    /// The time since the answer before, where the line says it.
    pub fn pause(&self) -> Option<Result<SignedDuration, String>> {
        self.after.as_deref().map(duration)
    }
}

/// A text as it would be typed, an empty one too.
fn text(fields: &mut Fields<'_, '_, '_>, key: &'static str) -> Option<String> {
    let item = fields.item(key)?;
    if let DeValue::String(text) = item.value {
        return Some(text.to_string());
    }
    fields.wrong_type(key, item, "a text in quotes");
    None
}

fn truth(fields: &mut Fields<'_, '_, '_>, key: &'static str) -> bool {
    let Some(item) = fields.item(key) else { return false };
    if let DeValue::Boolean(truth) = item.value {
        return *truth;
    }
    fields.wrong_type(key, item, "`true`, or leave the key out");
    false
}

pub(super) fn given(what: &str, value: Option<&String>) -> Result<String, String> {
    value.cloned().ok_or_else(|| format!("`{what}` is missing here"))
}
