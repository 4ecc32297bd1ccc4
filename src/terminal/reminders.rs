//! What is to be said while a question stays unanswered.

use std::rc::Rc;
use std::time::Duration;

use super::{Line, Reminder, Text};

/// How often a question that waits for an answer looks at the clock.
const LOOK: Duration = Duration::from_secs(1);

/// Lines with the moment at which each is due.
#[derive(Default)]
pub(super) struct Reminders {
    ticks: Option<Rc<dyn Fn() -> Duration>>,
    due: Vec<(Duration, Line)>,
}

impl Reminders {
    pub(super) fn new(ticks: Rc<dyn Fn() -> Duration>, reminders: Vec<Reminder>) -> Self {
        let now = ticks();
        let due = reminders.into_iter().map(|reminder| (now + reminder.after, reminder.line)).collect();
        Self { ticks: Some(ticks), due }
    }

    /// How long a question may wait before it looks here again; nothing where nothing is to come.
    pub(super) fn pause(&self) -> Option<Duration> {
        let now = self.ticks.as_ref()?();
        let left = self.due.iter().map(|(due, _)| due.saturating_sub(now)).min()?;
        Some(left.min(LOOK))
    }

    /// What is still to come, and in how long.
    pub(super) fn to_come(&self) -> Vec<(Duration, Text)> {
        let Some(ticks) = &self.ticks else { return Vec::new() };
        let now = ticks();
        let left = |(due, line): &(Duration, Line)| (due.saturating_sub(now), Text::from(line.clone()));
        self.due.iter().map(left).collect()
    }

    /// What is due now; it is said once.
    pub(super) fn take_due(&mut self) -> Option<Text> {
        let now = self.ticks.as_ref()?();
        let (due, to_come): (Vec<_>, Vec<_>) = self.due.drain(..).partition(|(due, _)| *due <= now);
        self.due = to_come;
        let lines = due.into_iter().map(|(_, line)| line);
        let text = lines.fold(Text::new(), Text::line);
        (text != Text::new()).then_some(text)
    }
}
