//! What checking a procedure costs, as a ratio to parsing the same text plainly; and what one answer costs, as a ratio
//! to checking the procedure once.
//!
//! `cargo bench --bench walk`; the ratios, not the times, can be compared between machines.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a bench reads the clock, reads plainly, and prints"
)]

use std::error::Error;
use std::time::{Duration, Instant};

use bayhand::answers::Script;
use bayhand::procedure;
use bayhand::run::{Ask, Book, Inherited, Input, Pin, Stamp, Start, State, View, apply, decide};
use bayhand::source::SourceText;
use bayhand::vehicle;

const ROUNDS: usize = 50;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/procedures/");
    let text = std::fs::read_to_string(format!("{folder}cooler-line-flush.md"))?;
    let source = SourceText::new("cooler-line-flush.md", text.clone());
    let sheet = SourceText::new("sheet", std::fs::read_to_string(format!("{folder}vehicle-example.toml"))?);
    let script = std::fs::read_to_string(format!("{folder}answers-example.toml"))?;

    let checked = fastest(|| drop(procedure::read(&source, "flush")));
    let plain = fastest(|| plainly(&text));
    let procedure = procedure::read(&source, "flush").value.ok_or("the example does not check")?;
    let book = Book::new(procedure, vehicle::read(&sheet).value);
    let script = Script::read(&script).map_err(|_| "the answers cannot be read")?;
    let answers = script.lines.len();
    let walked = fastest(|| drop(walk(&book, &script)));
    let answer = walked / u32::try_from(answers)?;

    println!("check: {checked:?}; parse Markdown and TOML plainly: {plain:?}");
    println!("ratio: {:.1}", checked.as_secs_f64() / plain.as_secs_f64());
    println!("one answer (question, decision, state), mean of {answers}: {answer:?}");
    println!("ratio to one check: {:.3}", answer.as_secs_f64() / checked.as_secs_f64());
    Ok(())
}

fn fastest(mut work: impl FnMut()) -> Duration {
    let once = |_| {
        let started = Instant::now();
        work();
        started.elapsed()
    };
    (0..ROUNDS).map(once).min().unwrap_or_default()
}

fn plainly(text: &str) {
    let mut parts = text.splitn(3, "+++");
    let front = parts.nth(1).unwrap_or_default();
    let _ = toml::from_str::<toml::Table>(front);
    pulldown_cmark::Parser::new(parts.next().unwrap_or_default()).into_offset_iter().for_each(drop);
}

/// The whole example, in memory.
fn walk(book: &Book, script: &Script) -> State {
    let mut now = script.clock.clone();
    let pin = Pin { name: "flush".to_owned(), what: "flush".to_owned(), sha256: String::new() };
    let start = Start {
        job: None,
        inherited: Inherited::default(),
        run: "bench".to_owned(),
        engine: String::new(),
        procedure: pin,
        linked: Vec::new(),
        sheet: None,
        answered_from: None,
    };
    let mut state = State::default();
    let mut seq = 0;
    let mut take =
        |state: State, input: Input, now: &jiff::ZonedDateTime| match decide(book, &state, input, now) {
            Ok(decided) => {
                seq += 1;
                let stamp = Stamp { seq, at: now.clone(), place: decided.place.map(std::sync::Arc::new) };
                apply(book, state, &decided.event, &stamp)
            }
            Err(_) => state,
        };
    state = take(state, Input::Start(start), &now);
    for (line, _) in &script.lines {
        let pause = line.pause().and_then(Result::ok).unwrap_or(script.pace);
        now = now.checked_add(pause).unwrap_or(now);
        let view = View::new(book, &state, &now);
        let prompt = view.next();
        if let Ask::Wait { until, .. } = &prompt.ask {
            now = until.clone();
            continue;
        }
        if let Ok(answer) = line.answer(view, &prompt) {
            state = take(state, Input::Answer(answer), &now);
        }
    }
    assert!(state.closed.is_some(), "the walk ends in a closed run");
    state
}
