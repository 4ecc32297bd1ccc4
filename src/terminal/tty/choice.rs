//! Lists to choose from.

use std::io;

use textwrap::core::display_width;

use super::keys::Press;
use super::raw::OneByOne;
use super::{Tty, strong};
use crate::terminal::choosing::{goes_back, list, none_of_them, place_of_line};
use crate::terminal::clean::clean_line;
use crate::terminal::{Heard, Line, Role, Text, Ui};

/// Columns the list puts before an item.
const BEFORE_ITEM: usize = 3;

/// Rows that stand above the items and are seen with them.
const ABOVE_ITEMS: usize = 3;

/// Rows that say how many items are out of sight, above and below.
const OUT_OF_SIGHT: usize = 2;

/// With fewer items than this in sight at once nobody finds his way.
const FEWEST_IN_SIGHT: usize = 3;

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
        let sight = self.in_sight(items.len());
        if sight < FEWEST_IN_SIGHT.min(items.len()) || items.iter().any(|item| display_width(item) > room) {
            return self.hear_number(prompt, &items, default);
        }
        self.hear_selection(prompt, &items, (default, sight))
    }

    /// How many of so many items are seen at once: what has left the screen above cannot be drawn anew.
    fn in_sight(&self, items: usize) -> usize {
        let room = self.height().saturating_sub(ABOVE_ITEMS + 1);
        if items <= room { items } else { room.saturating_sub(OUT_OF_SIGHT) }
    }

    fn hear_selection(
        &mut self,
        prompt: &str,
        items: &[String],
        (default, sight): (Option<usize>, usize),
    ) -> io::Result<Heard> {
        let _one_by_one = OneByOne::begin()?;
        let how = "Move with the arrow keys, take with Enter, go back with b.";
        let how = Line::new().with(Role::Faint, how);
        self.write(&strong(prompt).line(how))?;
        let start = default.filter(|place| *place < items.len()).unwrap_or(0);
        self.term.hide_cursor()?;
        let heard = self.move_in(items, (start, sight));
        // Whatever ended the list, the cursor is there again.
        self.term.show_cursor()?;
        heard
    }

    /// The list itself: drawn anew whenever a key has moved in it, or something was said above it.
    fn move_in(&mut self, items: &[String], (start, sight): (usize, usize)) -> io::Result<Heard> {
        let (mut place, last) = (start, items.len() - 1);
        let rows = if sight < items.len() { sight + OUT_OF_SIGHT } else { sight };
        loop {
            self.write(&marked(items, place, sight))?;
            let due = self.due_before_key()?;
            let pressed = if due.is_some() { Press::Other } else { self.next_press()? };
            let is_held = self.is_held_on(pressed)?;
            self.term.clear_last_lines(rows)?;
            match pressed {
                _ if is_held => {}
                Press::Up => place = place.checked_sub(1).unwrap_or(last),
                Press::Down => place = if place == last { 0 } else { place + 1 },
                Press::Key('\n') => {
                    self.settled = Some(pressed);
                    self.write(&Line::plain(items[place].as_str()).indent(2).into())?;
                    return Ok(Heard::Chosen(place));
                }
                Press::Interrupt | Press::Key('b') => return Ok(Heard::Interrupt),
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
            if goes_back(default, &line) {
                return Ok(Heard::Interrupt);
            }
            self.say(&none_of_them(&line, items))?;
        }
    }
}

/// The items in sight, the one that would be taken with its mark, and how many are out of sight.
fn marked(items: &[String], place: usize, sight: usize) -> Text {
    let first = place.saturating_sub(sight / 2).min(items.len() - sight);
    let lines = items.iter().enumerate().skip(first).take(sight).map(|(at, item)| {
        let mark = if at == place { "> " } else { "  " };
        Line::plain(format!("{mark}{item}"))
    });
    if sight == items.len() {
        return lines.fold(Text::new(), Text::line);
    }
    let below = items.len() - sight - first;
    let out = |count: usize, side: &str| Line::new().with(Role::Faint, format!("  ({count} more {side})"));
    let text = lines.fold(Text::new().line(out(first, "above")), Text::line);
    text.line(out(below, "below"))
}
