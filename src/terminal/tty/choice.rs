//! Lists to choose from.

use std::io;
use std::ops::Range;

use super::keys::Press;
use super::raw::OneByOne;
use super::{Tty, strong};
use crate::terminal::clean::clean_line;
use crate::terminal::{Heard, Line, Manner, Role, Text, Ui, rows};

/// Rows that say how many items are out of sight, above and below.
const OUT_OF_SIGHT: usize = 2;

impl Tty {
    /// A list to move in. What has left the screen above cannot be drawn anew: no more of it is shown at once than fits.
    pub(super) fn hear_choice(&mut self, prompt: &str, items: &[String], start: usize) -> io::Result<Heard> {
        let items: Vec<String> = items.iter().map(|item| clean_line(item)).collect();
        let _one_by_one = OneByOne::begin()?;
        let how = "Arrow keys move, Enter takes, b or Escape goes back.";
        let above = strong(prompt).line(Line::new().with(Role::Faint, how));
        self.write(&above)?;
        self.term.hide_cursor()?;
        let taken = self.move_in(&items, start.min(items.len() - 1), &above);
        // Whatever ended the list, the cursor is there again.
        self.term.show_cursor()?;
        taken
    }

    /// The list itself: drawn anew whenever a key has moved in it, or something was said above it.
    fn move_in(&mut self, items: &[String], start: usize, above: &Text) -> io::Result<Heard> {
        let (mut place, last) = (start, items.len() - 1);
        loop {
            let width = self.width();
            let room = self.height().saturating_sub(rows(above, width, Manner::Mono) + 1);
            let sight = in_sight(items, place, (width, room));
            let shown = marked(items, place, &sight);
            self.write(&shown)?;
            let due = self.due_before_key()?;
            let pressed = if due.is_some() { Press::Other } else { self.next_press()? };
            let is_held = self.is_held_on(pressed)?;
            self.term.clear_last_lines(rows(&shown, width, Manner::Mono))?;
            match pressed {
                _ if is_held => {}
                Press::Up => place = place.checked_sub(1).unwrap_or(last),
                Press::Down => place = if place == last { 0 } else { place + 1 },
                Press::PageUp => place = place.saturating_sub(sight.len()),
                Press::PageDown => place = (place + sight.len()).min(last),
                Press::Key('\n') => {
                    self.settled = Some(pressed);
                    self.write(&Line::plain(items[place].as_str()).indent(2).hang(2).into())?;
                    return Ok(Heard::Chosen(place));
                }
                Press::Interrupt | Press::ESCAPE | Press::Key('b') => return Ok(Heard::Interrupt),
                Press::Gone => return Ok(Heard::Gone),
                Press::Key(_) | Press::Other => {}
            }
            due.map_or(Ok(()), |due| self.write(&due))?;
        }
    }
}

/// An item as it stands in the list.
fn item_line(item: &str, is_marked: bool) -> Line {
    let mark = if is_marked { "> " } else { "  " };
    Line::plain(format!("{mark}{item}")).hang(4)
}

/// The items that are seen at once: as many as fit, with the one that would be taken in their middle.
fn in_sight(items: &[String], place: usize, (width, room): (usize, usize)) -> Range<usize> {
    let height = |item: &String| rows(&item_line(item, false).into(), width, Manner::Mono);
    if items.iter().map(height).sum::<usize>() <= room {
        return 0..items.len();
    }
    let room = room.saturating_sub(OUT_OF_SIGHT);
    let (mut sight, mut taken) = (place..place + 1, height(&items[place]));
    loop {
        let before = sight.start.checked_sub(1).map(|item| (item, height(&items[item])));
        let after = items.get(sight.end).map(|item| (sight.end, height(item)));
        let is_fitting = |found: &(usize, usize)| taken + found.1 <= room;
        let (before, after) = (before.filter(is_fitting), after.filter(is_fitting));
        // The nearer one comes first, so that the place stays in the middle.
        let is_above_nearer = place - sight.start < sight.end - place;
        match (before, after) {
            (Some((item, rows)), after) if after.is_none() || is_above_nearer => {
                taken += rows;
                sight.start = item;
            }
            (_, Some((item, rows))) => {
                taken += rows;
                sight.end = item + 1;
            }
            _ => return sight,
        }
    }
}

/// The items in sight, the one that would be taken with its mark, and how many are out of sight.
fn marked(items: &[String], place: usize, sight: &Range<usize>) -> Text {
    let lines = sight.clone().map(|at| item_line(&items[at], at == place));
    if sight.len() == items.len() {
        return lines.fold(Text::new(), Text::line);
    }
    let out = |count: usize, side: &str| Line::new().with(Role::Faint, format!("  ({count} more {side})"));
    let text = lines.fold(Text::new().line(out(sight.start, "above")), Text::line);
    text.line(out(items.len() - sight.end, "below"))
}
