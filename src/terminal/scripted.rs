//! A person made of a list of answers: for tests of the conversation.

use std::collections::VecDeque;
use std::io;
use std::rc::Rc;
use std::time::Duration;

use super::heard::meant;
use super::{Entry, Heard, KeyHint, Reminder, Text, Timing, Ui, Wait};

/// What happened at the screen, in order.
#[derive(Debug, Clone, PartialEq)]
pub enum Asked {
    /// Something was said.
    Said(Text),
    /// A key was asked for.
    Key {
        /// The prompt.
        prompt: String,
        /// The keys that were offered.
        keys: Vec<KeyHint>,
    },
    /// A key was typed that was not offered.
    Refused(char),
    /// A line of text was asked for.
    Text {
        /// The prompt.
        prompt: String,
        /// How it was asked for.
        entry: Entry,
    },
    /// One of these was asked for.
    Choice {
        /// The prompt.
        prompt: String,
        /// The items.
        items: Vec<String>,
    },
    /// A wait was shown.
    Wait {
        /// What is waited for.
        label: String,
        /// How long it lasted from its beginning.
        total: Duration,
    },
    /// A time was taken.
    Time {
        /// What was timed.
        label: String,
    },
    /// These were to be said while the question stays.
    Reminders(Vec<Reminder>),
    /// A new screen began.
    Screen,
}

/// Answers from a queue; when it is empty, the person is [`Heard::Gone`].
#[derive(Debug, Default)]
pub struct Scripted {
    answers: VecDeque<Heard>,
    log: Vec<Asked>,
    size: (usize, usize),
}

impl Scripted {
    /// A person with these answers at a screen of 80 by 24.
    pub fn new(answers: impl IntoIterator<Item = Heard>) -> Self {
        Self { answers: answers.into_iter().collect(), log: Vec::new(), size: (80, 24) }
    }

    /// What happened, in order.
    pub fn log(&self) -> &[Asked] {
        &self.log
    }

    /// All words that were said or asked, a line each.
    pub fn words(&self) -> String {
        self.log.iter().map(words_of).collect::<Vec<_>>().join("\n")
    }

    /// The answers that were not asked for yet.
    pub fn left(&self) -> usize {
        self.answers.len()
    }

    fn next(&mut self) -> Heard {
        self.answers.pop_front().unwrap_or(Heard::Gone)
    }

    /// The next answer, if it is one that this question can have. A script that is out of step would make a
    /// test pass for the wrong reason.
    fn answer(&mut self, question: &str, fits: impl Fn(&Heard) -> bool) -> io::Result<Heard> {
        let answer = self.next();
        if matches!(answer, Heard::Interrupt | Heard::Gone) || fits(&answer) {
            return Ok(answer);
        }
        let message = format!("the script answers {answer:?} to `{question}`");
        Err(io::Error::new(io::ErrorKind::InvalidData, message))
    }
}

impl Ui for Scripted {
    fn say(&mut self, text: &Text) -> io::Result<()> {
        self.log.push(Asked::Said(text.clone()));
        Ok(())
    }

    fn ask_key(&mut self, prompt: &str, keys: &[KeyHint]) -> io::Result<Heard> {
        self.log.push(Asked::Key { prompt: prompt.into(), keys: keys.into() });
        loop {
            let answer = self.answer(prompt, |heard| matches!(heard, Heard::Key(_)))?;
            let Heard::Key(typed) = answer else {
                return Ok(answer);
            };
            if let Some(hint) = meant(keys, typed) {
                return Ok(Heard::Key(hint.key));
            }
            self.log.push(Asked::Refused(typed));
        }
    }

    fn ask_text(&mut self, prompt: &str, entry: Entry) -> io::Result<Heard> {
        self.log.push(Asked::Text { prompt: prompt.into(), entry });
        self.answer(prompt, |heard| matches!(heard, Heard::Text(_)))
    }

    fn ask_choice(&mut self, prompt: &str, items: &[String], _start: usize) -> io::Result<Heard> {
        super::ui::refuse_empty(items)?;
        self.log.push(Asked::Choice { prompt: prompt.into(), items: items.into() });
        self.answer(prompt, |heard| matches!(heard, Heard::Chosen(place) if *place < items.len()))
    }

    fn wait(&mut self, wait: &Wait) -> io::Result<Heard> {
        self.log.push(Asked::Wait { label: wait.label.into(), total: wait.total });
        if wait.left().is_zero() {
            return Ok(Heard::Elapsed);
        }
        self.answer(wait.label, |heard| matches!(heard, Heard::Key(_) | Heard::Elapsed))
    }

    fn time(&mut self, timing: &Timing) -> io::Result<Heard> {
        self.log.push(Asked::Time { label: timing.label.into() });
        self.answer(timing.label, |heard| matches!(heard, Heard::Timed(_)))
    }

    fn remind(&mut self, _ticks: Rc<dyn Fn() -> Duration>, reminders: Vec<Reminder>) {
        self.log.extend((!reminders.is_empty()).then_some(Asked::Reminders(reminders)));
    }

    fn clear_for_screen(&mut self) -> io::Result<()> {
        self.log.push(Asked::Screen);
        Ok(())
    }

    fn keeps_what_was_said(&self) -> bool {
        false
    }

    fn width(&self) -> usize {
        self.size.0
    }

    fn height(&self) -> usize {
        self.size.1
    }
}

fn words_of(asked: &Asked) -> String {
    match asked {
        Asked::Said(text) => text.words(),
        Asked::Key { prompt, keys } => {
            let keys: Vec<String> =
                keys.iter().map(|hint| format!("[{}] {}", hint.name(), hint.does)).collect();
            format!("{prompt}\n{}", keys.join("  "))
        }
        Asked::Refused(key) => format!("`{key}` is not asked for here."),
        Asked::Text { prompt, .. } => prompt.clone(),
        Asked::Choice { prompt, items } => format!("{prompt}\n{}", items.join("\n")),
        Asked::Wait { label, .. } | Asked::Time { label } => label.clone(),
        Asked::Reminders(reminders) => {
            reminders.iter().fold(Text::new(), |text, reminder| text.line(reminder.line.clone())).words()
        }
        Asked::Screen => String::new(),
    }
}
