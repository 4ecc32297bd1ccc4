//! Lists to choose from.

use std::io;

use dialoguer::Select;
use dialoguer::theme::SimpleTheme;
use textwrap::core::display_width;

use super::raw::OneByOne;
use super::{Tty, strong};
use crate::terminal::choosing::{list, none_of_them, place_of_line};
use crate::terminal::clean::clean_line;
use crate::terminal::{Heard, Line, Role, Ui};

/// Columns the list puts before an item.
const BEFORE_ITEM: usize = 3;

impl Tty {
    /// A list to move in; a numbered one where an item does not fit into a row, because the moving one would
    /// leave parts of itself behind.
    pub(super) fn hear_choice(
        &mut self,
        prompt: &str,
        items: &[String],
        default: Option<usize>,
    ) -> io::Result<Heard> {
        let items: Vec<String> = items.iter().map(|item| clean_line(item)).collect();
        let room = self.width().saturating_sub(BEFORE_ITEM);
        // What becomes due is said above a line that is typed; a moving list has no room for it.
        let is_due = self.reminders.pause().is_some();
        if is_due || items.iter().any(|item| display_width(item) > room) {
            return self.hear_number(prompt, &items, default);
        }
        self.hear_selection(prompt, &items, default)
    }

    fn hear_selection(
        &mut self,
        prompt: &str,
        items: &[String],
        default: Option<usize>,
    ) -> io::Result<Heard> {
        let _one_by_one = OneByOne::begin()?;
        let how = Line::new().with(Role::Faint, "Move with the arrow keys, take with Enter.");
        self.write(&strong(prompt).line(how))?;
        let start = default.filter(|place| *place < items.len()).unwrap_or(0);
        let chosen = Select::with_theme(&SimpleTheme).items(items).default(start).interact_on(&self.term);
        // Whatever ended the list, it may have left the cursor hidden.
        self.term.show_cursor()?;
        let place = chosen.map_err(|dialoguer::Error::IO(error)| error)?;
        let taken = items.get(place).cloned().unwrap_or_default();
        self.write(&Line::plain(taken).indent(2).into())?;
        Ok(Heard::Chosen(place))
    }

    fn hear_number(&mut self, prompt: &str, items: &[String], default: Option<usize>) -> io::Result<Heard> {
        self.say(&list(prompt, items, default))?;
        loop {
            let heard = self.hear_line("")?;
            let Heard::Text(line) = heard else {
                return Ok(heard);
            };
            if let Some(place) = place_of_line(items, default, &line) {
                return Ok(Heard::Chosen(place));
            }
            self.say(&none_of_them(&line, items))?;
        }
    }
}
