//! The keys of the conversation, and asking with a way back.

use super::{Ended, Turn};
use crate::run::Disposition;
use crate::terminal::hints::offer;
use crate::terminal::{Entry, Heard, KeyHint, Line, Manner, Ui, rows};

/// Why this is asked.
pub(super) const WHY: char = '?';
/// Stop the job.
pub(super) const STOP: char = '!';
/// What else can be done.
pub(super) const OTHER: char = 'o';

/// Keys with words, then those that are good everywhere.
pub(super) fn with_common(own: &[(char, &str)]) -> Vec<KeyHint> {
    own.iter().map(|&(key, does)| KeyHint::new(key, does)).chain(common()).collect()
}

/// What each of the keys does that are good everywhere.
const COMMON: [(char, &str); 3] = [(OTHER, "other"), (WHY, "why"), (STOP, "stop the job")];

fn common() -> impl Iterator<Item = KeyHint> {
    COMMON.into_iter().map(|(key, does)| KeyHint::common(key, does))
}

/// What the keys mean that are good everywhere, told once.
pub(super) fn taught() -> Line {
    let words = COMMON.map(|(key, does)| format!("[{key}]\u{a0}{does}")).join(", ");
    Line::plain(format!("At every question: {words}.")).hang(2)
}

/// A key. Ctrl-C ends the conversation.
pub(super) fn key(ui: &mut dyn Ui, prompt: &str, keys: &[KeyHint]) -> Result<char, Turn> {
    match ui.ask_key(prompt, keys) {
        Ok(Heard::Key(key)) => Ok(key),
        other => Err(ended(other)),
    }
}

/// A key of many; on a screen that is too small for them, one of a list to move in.
pub(super) fn of_many(ui: &mut dyn Ui, keys: &[KeyHint]) -> Result<char, Turn> {
    if ui.keeps_what_was_said() || rows(&offer(keys), ui.width(), Manner::Mono) < ui.height() {
        return key(ui, "", keys);
    }
    let items: Vec<String> = keys.iter().map(|hint| hint.does.clone()).collect();
    let place = inner_choice(ui, "What else?", &items)?;
    keys.get(place).map(|hint| hint.key).ok_or(Turn::Again)
}

/// A key of a question within a question. Ctrl-C goes back to the main prompt.
pub(super) fn inner_key(ui: &mut dyn Ui, prompt: &str, keys: &[KeyHint]) -> Result<char, Turn> {
    match ui.ask_key(prompt, keys) {
        Ok(Heard::Key(key)) => Ok(key),
        other => Err(back(other)),
    }
}

/// A line at a main prompt, under the keys that do something else there. Ctrl-C ends the conversation.
pub(super) fn line(ui: &mut dyn Ui, prompt: &str, entry: Entry) -> Result<String, Turn> {
    ui.say(&offer(&common().collect::<Vec<_>>())).map_err(Turn::Broken)?;
    match ui.ask_text(prompt, entry) {
        Ok(Heard::Text(text)) => Ok(text),
        other => Err(ended(other)),
    }
}

/// A line of a question within a question. An empty line, Escape or Ctrl-C goes back to the main prompt; the key that
/// stops the job stops it here too.
pub(super) fn inner_line(ui: &mut dyn Ui, prompt: &str) -> Result<String, Turn> {
    optional_line(ui, prompt)?.ok_or(Turn::Again)
}

/// A line of a question within a question that may stay empty.
pub(super) fn optional_line(ui: &mut dyn Ui, prompt: &str) -> Result<Option<String>, Turn> {
    match ui.ask_text(prompt, Entry::Aside) {
        Ok(Heard::Text(text)) => match text.trim() {
            "" => Ok(None),
            "!" => Err(Turn::Stop),
            _ => Ok(Some(text)),
        },
        other => Err(back(other)),
    }
}

/// One of a list, within a question: `start` is marked first. Escape or Ctrl-C goes back to the main prompt.
pub(super) fn inner_choice_from(
    ui: &mut dyn Ui,
    prompt: &str,
    items: &[String],
    start: usize,
) -> Result<usize, Turn> {
    if items.is_empty() {
        return Err(Turn::Again);
    }
    match ui.ask_choice(prompt, items, start) {
        Ok(Heard::Chosen(place)) => Ok(place),
        other => Err(back(other)),
    }
}

/// One of a list, within a question.
pub(super) fn inner_choice(ui: &mut dyn Ui, prompt: &str, items: &[String]) -> Result<usize, Turn> {
    inner_choice_from(ui, prompt, items, 0)
}

/// What is decided about a departure, and why.
pub(super) fn disposition(ui: &mut dyn Ui) -> Result<(Disposition, String), Turn> {
    let items: Vec<String> = Disposition::ALL.iter().map(|disposition| disposition.meaning()).collect();
    let place = inner_choice(ui, "Disposition", &items)?;
    let reason = inner_line(ui, "Reason: ")?;
    Ok((Disposition::ALL[place.min(Disposition::ALL.len() - 1)], reason))
}

/// Whether an unlikely value is kept.
pub(super) fn keep_or_retype(ui: &mut dyn Ui) -> Result<(), Turn> {
    let keys = [KeyHint::new('k', "keep it, it is so"), KeyHint::new('t', "type it again")];
    match key(ui, "Keep it? ", &keys)? {
        'k' => Ok(()),
        _ => Err(Turn::Again),
    }
}

fn ended(heard: std::io::Result<Heard>) -> Turn {
    match heard {
        Ok(Heard::Interrupt) => Turn::End(Ended::Interrupted),
        other => back(other),
    }
}

/// What comes of anything but an answer: back to the main prompt, or the end.
pub(super) fn back(heard: std::io::Result<Heard>) -> Turn {
    match heard {
        Ok(Heard::Gone) => Turn::End(Ended::Gone),
        Ok(_) => Turn::Again,
        Err(error) => Turn::Broken(error),
    }
}
