//! Something was moved or used: what, and which protection rests on it.

use super::Turn;
use super::keys::{inner_choice, inner_line};
use crate::run::{Answer, View};
use crate::terminal::Ui;

/// Only what was touched is verified again.
pub(super) fn touched(ui: &mut dyn Ui, view: View<'_>) -> Result<Answer, Turn> {
    let what = inner_line(ui, "What was moved or used? ")?;
    let holds = view.can_be_touched();
    if holds.is_empty() {
        return Ok(Answer::Disturbed { what, hold: None });
    }
    let called = holds.iter().map(|(_, hold)| hold.protection.as_deref().unwrap_or(&hold.what).to_owned());
    let others = ["several of them, or nobody knows", "none of them: it is a remark"].map(str::to_owned);
    let items: Vec<String> = called.chain(others).collect();
    let place = inner_choice(ui, "What rests on it? Only that is verified again", &items)?;
    if place > holds.len() {
        return Ok(Answer::Note(format!("moved or used: {what}")));
    }
    Ok(Answer::Disturbed { what, hold: holds.get(place).map(|(name, _)| (*name).clone()) })
}
