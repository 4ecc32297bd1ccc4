//! Lists to choose from.

use std::io;

use textwrap::core::display_width;

use super::keys::Press;
use super::raw::OneByOne;
use super::{Tty, strong};
use crate::terminal::choosing::{list, none_of_them, place_of_line};
use crate::terminal::clean::clean_line;
use crate::terminal::{Heard, Line, Role, Text, Ui};

/// Columns the list puts before an item.
const BEFORE_ITEM: usize = 3;

/// Rows that stand above the items and are seen with them.
const ABOVE_ITEMS: usize = 3;

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
        // What has left the screen above cannot be drawn anew.
        let is_too_high = items.len() + ABOVE_ITEMS >= self.height();
        if is_too_high || items.iter().any(|item| display_width(item) > room) {
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
        self.term.hide_cursor()?;
        let heard = self.move_in(items, start);
        // Whatever ended the list, the cursor is there again.
        self.term.show_cursor()?;
        heard
    }

    /// The list itself: drawn anew whenever a key has moved in it, or something was said above it.
    fn move_in(&mut self, items: &[String], start: usize) -> io::Result<Heard> {
        let (mut place, last) = (start, items.len() - 1);
        loop {
            self.write(&marked(items, place))?;
            let due = self.due_before_key()?;
            let pressed = if due.is_some() { Press::Other } else { self.next_press()? };
            let is_held = self.is_held_on(pressed)?;
            self.term.clear_last_lines(items.len())?;
            match pressed {
                _ if is_held => {}
                Press::Up => place = place.checked_sub(1).unwrap_or(last),
                Press::Down => place = if place == last { 0 } else { place + 1 },
                Press::Key('\n') => {
                    self.settled = Some(pressed);
                    self.write(&Line::plain(items[place].as_str()).indent(2).into())?;
                    return Ok(Heard::Chosen(place));
                }
                Press::Interrupt => return Ok(Heard::Interrupt),
                Press::Gone => return Ok(Heard::Gone),
                Press::Key(_) | Press::Other => {}
            }
            due.map_or(Ok(()), |due| self.write(&due))?;
        }
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

/// The items, the one that would be taken with its mark.
fn marked(items: &[String], place: usize) -> Text {
    let line = |(at, item): (usize, &String)| {
        let mark = if at == place { "> " } else { "  " };
        Line::plain(format!("{mark}{item}"))
    };
    items.iter().enumerate().map(line).fold(Text::new(), Text::line)
}
