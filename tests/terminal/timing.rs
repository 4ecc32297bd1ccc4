//! The stopwatch and reminders in linear output, by a clock that the test moves.

use std::cell::Cell;
use std::io;
use std::rc::Rc;
use std::time::Duration;

use bayhand::terminal::{Entry, Heard, KeyHint, Line, Lines, Plain, Reminder, Scripted, Timing, Ui};

/// A person who types a line after a while; the clock goes on meanwhile.
struct Slow {
    clock: Rc<Cell<Duration>>,
    lines: Vec<(Duration, &'static str)>,
}

impl Lines for Slow {
    fn next_line(&mut self) -> io::Result<Option<String>> {
        if self.lines.is_empty() {
            return Ok(None);
        }
        let (at, line) = self.lines.remove(0);
        self.clock.set(self.clock.get().max(at));
        Ok(Some(line.to_owned()))
    }

    fn is_ready(&mut self, within: Duration) -> io::Result<bool> {
        let now = self.clock.get();
        let ready = self.lines.first().is_none_or(|(at, _)| *at <= now + within);
        if !ready {
            self.clock.set(now + within);
        }
        Ok(ready)
    }
}

type Ticks = Rc<dyn Fn() -> Duration>;

fn plain(lines: &[(u64, &'static str)]) -> (Plain<Slow, Vec<u8>>, Ticks) {
    let clock = Rc::new(Cell::new(Duration::ZERO));
    let lines = lines.iter().map(|(at, line)| (Duration::from_millis(*at), *line)).collect();
    let ui = Plain::new(Slow { clock: Rc::clone(&clock), lines }, Vec::new());
    (ui, Rc::new(move || clock.get()))
}

fn out(ui: Plain<Slow, Vec<u8>>) -> String {
    String::from_utf8(ui.into_output()).unwrap()
}

#[test]
fn a_time_goes_from_the_call_to_the_next_line() {
    let (mut ui, ticks) = plain(&[(12_340, "")]);
    let heard = ui.time(&Timing { label: "bite", ticks: &*ticks }).unwrap();
    assert_eq!(heard, Heard::Timed(Duration::from_millis(12_340)));
    assert_eq!(out(ui), "bite: the stopwatch runs. Enter stops it.\n");
    let (mut ui, ticks) = plain(&[]);
    assert_eq!(ui.time(&Timing { label: "bite", ticks: &*ticks }).unwrap(), Heard::Gone);
}

fn reminders() -> Vec<Reminder> {
    [(3, "three"), (60, "sixty")]
        .map(|(after, words)| Reminder { after: Duration::from_secs(after), line: Line::plain(words) })
        .to_vec()
}

#[test]
fn a_reminder_is_said_once_and_the_question_stays() {
    let (mut ui, ticks) = plain(&[(10_000, "y"), (20_000, "4")]);
    ui.remind(ticks, reminders());
    assert_eq!(ui.ask_key("Cold?", &[KeyHint::new('y', "yes")]).unwrap(), Heard::Key('y'));
    assert_eq!(ui.ask_text("How much?", Entry::Main).unwrap(), Heard::Text("4".to_owned()));
    assert_eq!(out(ui), "Cold?\n[y] yes\nthree\nHow much?\n");
}

#[test]
fn whoever_answers_before_is_not_reminded() {
    let (mut ui, ticks) = plain(&[(2_000, "y")]);
    ui.remind(ticks, reminders());
    assert_eq!(ui.ask_key("Cold?", &[KeyHint::new('y', "yes")]).unwrap(), Heard::Key('y'));
    assert_eq!(out(ui), "Cold?\n[y] yes\n");
}

#[test]
fn new_reminders_take_the_place_of_the_old() {
    let (mut ui, ticks) = plain(&[(10_000, "y")]);
    ui.remind(Rc::clone(&ticks), reminders());
    ui.remind(ticks, Vec::new());
    assert_eq!(ui.ask_key("Cold?", &[KeyHint::new('y', "yes")]).unwrap(), Heard::Key('y'));
    assert_eq!(out(ui), "Cold?\n[y] yes\n");
}

#[test]
fn a_scripted_person_has_a_fixed_clock() {
    let mut ui = Scripted::new([Heard::Timed(Duration::from_millis(900)), Heard::Key('y')]);
    let timing = Timing { label: "bite", ticks: &|| Duration::ZERO };
    assert_eq!(ui.time(&timing).unwrap(), Heard::Timed(Duration::from_millis(900)));
    assert!(ui.time(&timing).is_err(), "a key is no time");
}
