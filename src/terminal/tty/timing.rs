//! The stopwatch.

use std::io;
use std::time::Duration;

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use super::Tty;
use super::keys::Press;
use super::raw::OneByOne;
use crate::terminal::{Heard, Line, Role, Text, Timing};

/// How often the time that is shown goes on.
const LOOK: Duration = Duration::from_millis(100);

impl Tty {
    pub(super) fn hear_time(&mut self, timing: &Timing) -> io::Result<Heard> {
        let _one_by_one = OneByOne::begin()?;
        let label = Line::new().with(Role::Strong, timing.label);
        self.write(
            &Text::from(label)
                .line(Line::new().with(Role::Faint, "The stopwatch runs. Press any key to stop it.")),
        )?;
        let target = ProgressDrawTarget::term(self.term.clone(), 10);
        let style = ProgressStyle::with_template("{msg}").unwrap_or_else(|_| ProgressStyle::default_bar());
        let shown = ProgressBar::with_draw_target(None, target).with_style(style);
        let heard = self.run(timing, &shown);
        shown.finish_and_clear();
        heard
    }

    fn run(&mut self, timing: &Timing, shown: &ProgressBar) -> io::Result<Heard> {
        let began = (timing.ticks)();
        let gone = || (timing.ticks)().saturating_sub(began);
        loop {
            while !self.has_key(LOOK)? {
                self.remind_above(shown)?;
                shown.set_message(format!("{:.1} s", gone().as_secs_f64()));
            }
            // The key counts from when it is there, not from when it has been read.
            let took = gone();
            // The key that started it stops it only once it was let go.
            let Some(pressed) = self.press_anew()? else { continue };
            return Ok(match pressed {
                Press::Interrupt => Heard::Interrupt,
                Press::Gone => Heard::Gone,
                _ => Heard::Timed(took),
            });
        }
    }
}
