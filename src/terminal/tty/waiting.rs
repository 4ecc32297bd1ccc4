//! The bar of a wait.

use std::io;
use std::time::Duration;

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use super::Tty;
use super::keys::Press;
use super::raw::OneByOne;
use crate::terminal::clean::clean_line;
use crate::terminal::{Heard, Line, Role, Text, Wait};

/// How often the bar moves.
const LOOK: Duration = Duration::from_millis(250);

impl Tty {
    pub(super) fn hear_wait(&mut self, wait: &Wait) -> io::Result<Heard> {
        let _one_by_one = OneByOne::begin()?;
        self.write(&heading(wait))?;
        let bar = self.bar(wait);
        let heard = self.watch(wait, &bar);
        bar.finish_and_clear();
        heard
    }

    fn watch(&mut self, wait: &Wait, bar: &ProgressBar) -> io::Result<Heard> {
        loop {
            let left = wait.left();
            if left.is_zero() {
                self.ring()?;
                return Ok(Heard::Elapsed);
            }
            self.remind_above(bar)?;
            bar.set_message(clean_line(&wait.outlook(left)));
            bar.set_position(millis(wait.total.saturating_sub(left)));
            if !self.has_key(left.min(LOOK))? {
                continue;
            }
            let Some(pressed) = self.press_anew()? else { continue };
            return Ok(match pressed {
                Press::Interrupt => Heard::Interrupt,
                Press::Gone => Heard::Gone,
                Press::Key(key) => Heard::Key(key),
                // Any key will do, and this one has no character to say which.
                _ => Heard::Key(' '),
            });
        }
    }

    /// What is due is said above what moves.
    pub(super) fn remind_above(&mut self, bar: &ProgressBar) -> io::Result<()> {
        match self.take_due()? {
            Some(due) => bar.suspend(|| self.write(&due)),
            None => Ok(()),
        }
    }

    fn bar(&self, wait: &Wait) -> ProgressBar {
        let target = ProgressDrawTarget::term(self.term.clone(), 10);
        let style =
            ProgressStyle::with_template("{wide_bar} {msg}").unwrap_or_else(|_| ProgressStyle::default_bar());
        ProgressBar::with_draw_target(Some(millis(wait.total)), target)
            .with_style(style.progress_chars("━━·"))
    }
}

fn heading(wait: &Wait) -> Text {
    let label = Line::new().with(Role::Strong, wait.label);
    Text::from(label).line(Line::new().with(Role::Faint, "Press any key to do something else meanwhile."))
}

fn millis(time: Duration) -> u64 {
    u64::try_from(time.as_millis()).unwrap_or(u64::MAX)
}
