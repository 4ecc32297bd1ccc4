//! Waits, logs and the stopwatch at the program itself: killed, taken up again, and while another question is asked.

use std::thread::sleep;
use std::time::Duration;

use serde_json::Value;

use super::seat::{Seat, Speech};
use super::stage::{Stage, words_of};
use crate::run::drive::titled;

const MANNERS: [(Speech, u16); 3] = [(Speech::Colour, 80), (Speech::NoColour, 40), (Speech::Plain, 80)];

fn stage(tables: &str, body: &str) -> Stage {
    let stage = Stage::bare();
    stage.file("glue.md", &titled("Glue a bracket", tables, body));
    stage
}

/// Begins the run, or goes on with it.
fn sits(stage: &Stage, speech: Speech, columns: u16) -> Seat {
    let procedure = stage.path("glue.md");
    Seat::take(stage, speech, columns, &["run", &procedure.to_string_lossy()])
}

/// Sits down and answers who and how far.
fn begun(stage: &Stage, speech: Speech, columns: u16) -> Seat {
    let mut seat = sits(stage, speech, columns);
    seat.line("Name of the lead", "Robin Vale");
    seat.line("Odometer, in km", "187400 km");
    seat.key("Is it for this vehicle?", "y");
    seat
}

fn status(stage: &Stage) -> Value {
    let ended = stage.bayhand(&["status", "--json"]);
    serde_json::from_str(&ended.out).expect("JSON")
}

const SOAK: &str = "[waits.soak]\nwhat = \"solvent soaks\"\nat_least = \"3 s\"\nat_most = \"40 min\"\n\
[waits.air]\nwhat = \"the room airs\"\nat_least = \"30 min\"\n";
const SOAKING: &str = "1. Fill:\n   1. Open the tap.\n   2. Fill it: [soak] and [air] begin.\n2. Drain after [soak].\n3. Breathe after [air].\n";

/// The clocks run on while the program is dead: what is told then is the time that really went by.
#[test]
fn a_kill_during_a_wait_loses_no_time() {
    for (speech, columns) in MANNERS {
        let stage = stage(SOAK, SOAKING);
        let mut seat = begun(&stage, speech, columns);
        seat.key("1.1.1 Open the tap.", "d");
        seat.key("1.1.2 Fill it", "d");
        seat.sees("left, over at");
        seat.pty.kill();
        sleep(Duration::from_secs(4));
        let shown = status(&stage);
        let [soak, air] = [&shown["waits"][0], &shown["waits"][1]];
        assert_eq!((&soak["name"], &soak["stands"]), (&Value::from("soak"), &Value::from("due")), "{shown}");
        assert_eq!((&air["name"], &air["stands"]), (&Value::from("air"), &Value::from("runs")), "{shown}");
        assert!(
            soak["elapsed_seconds"].as_i64().is_some_and(|seconds| (4..60).contains(&seconds)),
            "{shown}"
        );
        let standing = words_of(&stage.bayhand(&["status"]).out);
        assert!(
            standing.contains("DUE: solvent soaks since ")
                && standing.contains("Clock running: the room airs")
        );
        assert!(words_of(&stage.bayhand(&["runs"]).out).contains("DUE: solvent soaks since "));
        let mut seat = sits(&stage, speech, columns);
        seat.line("How do things stand (loose, hanging, open, live)?", "as it was");
        seat.reads("DUE: solvent soaks since ");
        seat.reads("Clock running: the room airs: since ");
        seat.key("Read it?", "y");
        seat.key("1.2 Drain after", "d");
        seat.interrupts("the room airs");
    }
}

const MISSED: &str = "[waits.glue]\nwhat = \"the glue stays soft\"\nat_most = \"2 s\"\n\
[conditions.set]\nmissed = \"glue\"\n\
[readings.note]\nwhat = \"what the can says\"\nkind = \"text\"\n";

/// Row by row: the alert comes by itself, the prompt stays and takes its answer, and the path is offered.
#[test]
fn a_missed_time_is_told_while_the_prompt_stays() {
    let body = "1. Spread the glue: [glue] begins.\n2. Clear the bench.\n3. Press within [glue].\n4. [set] Scrape it off.\n";
    for (speech, columns) in MANNERS {
        let stage = stage(MISSED, &body.replace("bench.", "bench, and read [note]."));
        let mut seat = begun(&stage, speech, columns);
        seat.key("1.1 Spread the glue", "d");
        seat.sees("Clock running: the glue stays soft");
        seat.sees("TIME MISSED: the glue stays soft, at the latest");
        seat.line("in words:", "two parts");
        seat.reads("TIME MISSED: the glue stays soft: at the latest");
        seat.key("[p] take the path for a missed time", "p");
        seat.key("1.4 Scrape it off.", "d");
        seat.reads("[e] end: close and seal the run");
        assert!(stage.events().iter().any(|event| event["reading"]["value"]["text"] == "two parts"));
        let shown = stage.bayhand(&["status"]).out;
        assert!(words_of(&shown).contains("1.3 not applicable:"), "{shown}");
    }
}

#[test]
fn an_alert_comes_at_a_prompt_for_a_key_too() {
    let body = "1. Spread the glue: [glue] begins.\n2. Clear the bench.\n3. Press within [glue].\n4. [set] Scrape it off.\n5. Read [note].\n";
    for (speech, columns) in MANNERS {
        let stage = stage(MISSED, body);
        let mut seat = begun(&stage, speech, columns);
        seat.key("1.1 Spread the glue", "d");
        seat.reads("1.2 Clear the bench.");
        seat.sees("TIME MISSED: the glue stays soft, at the latest");
        seat.types(if speech == Speech::Plain { "d\r" } else { "d" });
        seat.reads("[p] take the path for a missed time");
    }
}

const TIMED: &str = "[readings.engage]\nwhat = \"from the shift to the bite\"\nunit = \"s\"\n\
information_only = true\nstopwatch = true\n";
const TIME_IT: &str = "1. Shift and time it: [engage].\n2. Wipe.\n";

fn starts(seat: &mut Seat) {
    seat.key("from the shift to the bite:", if seat.is_plain() { "" } else { "\r" });
    seat.sees("stopwatch runs");
}

fn stops(seat: &mut Seat, speech: Speech) {
    seat.types(if speech == Speech::Plain { "\r" } else { "x" });
}

#[test]
fn a_time_is_taken_by_key_kept_or_discarded() {
    for (speech, columns) in MANNERS {
        let stage = stage(TIMED, TIME_IT);
        let mut seat = begun(&stage, speech, columns);
        starts(&mut seat);
        stops(&mut seat, speech);
        seat.key("by stopwatch.", "x");
        assert!(!stage.kinds().contains(&"reading".to_owned()), "discarded");
        starts(&mut seat);
        sleep(Duration::from_millis(700));
        stops(&mut seat, speech);
        seat.key("by stopwatch.", "k");
        seat.reads("1.2 Wipe.");
        let events = stage.events();
        let taken = events.iter().find(|event| !event["reading"].is_null()).expect("the time");
        let text = taken["reading"]["value"]["quantity"]["text"].as_str().expect("a text").to_owned();
        let seconds: f64 = text.strip_suffix(" s by stopwatch").expect("the mark").parse().expect("a number");
        assert!((0.7..20.0).contains(&seconds), "{text}");
    }
}

#[test]
fn a_time_can_be_typed_instead() {
    for (speech, columns) in MANNERS {
        let stage = stage(TIMED, TIME_IT);
        let mut seat = begun(&stage, speech, columns);
        seat.key("from the shift to the bite:", "w");
        seat.line("from the shift to the bite, in s:", "1.4");
        seat.reads("1.2 Wipe.");
        let text = &stage.events()[4]["reading"]["value"]["quantity"]["text"];
        assert_eq!(text, "1.4");
    }
}

#[test]
fn killed_while_the_stopwatch_runs_nothing_is_entered_and_it_is_asked_again() {
    for (speech, columns) in MANNERS {
        let stage = stage(TIMED, TIME_IT);
        let mut seat = begun(&stage, speech, columns);
        starts(&mut seat);
        seat.pty.kill();
        assert!(!stage.kinds().contains(&"reading".to_owned()));
        let mut seat = sits(&stage, speech, columns);
        seat.line("How do things stand (loose, hanging, open, live)?", "as it was");
        seat.key("Read it?", "y");
        starts(&mut seat);
    }
}

const LOG: &str = "[repeats.rows]\nwhat = \"a row of the log\"\ntimes = 2\nevery = \"3 s\"\nlate = \"2 s\"\n\
[readings.temp]\nwhat = \"temperature\"\nunit = \"°C\"\ninformation_only = true\n";

#[test]
fn a_log_survives_a_kill_and_flags_the_late_row() {
    for (speech, columns) in MANNERS {
        let stage = stage(LOG, "1. [rows] Read [temp].\n2. Wipe.\n");
        let mut seat = begun(&stage, speech, columns);
        seat.line("in °C:", "20");
        seat.sees("left, over at");
        seat.pty.kill();
        sleep(Duration::from_secs(6));
        let mut seat = sits(&stage, speech, columns);
        seat.line("How do things stand (loose, hanging, open, live)?", "as it was");
        seat.key("Read it?", "y");
        seat.line("in °C:", "30");
        seat.reads("This row is late by");
    }
}

#[test]
fn what_was_done_on_paper_is_entered_late() {
    for (speech, columns) in MANNERS {
        let stage = stage(TIMED, "1. Wipe.\n2. Read [engage].\n");
        let mut seat = begun(&stage, speech, columns);
        seat.key("1.1 Wipe.", "o");
        seat.key("[d] it was done before: enter it late (from paper)", "d");
        seat.line("When was it really done", "2020-01-01 08:00");
        seat.reads("lies before the run began");
        seat.key("1.1 Wipe.", "o");
        seat.key("[d] it was done before: enter it late (from paper)", "d");
        let now = stage.journal_lines().last().map(|line| serde_json::from_str::<Value>(line).expect("JSON"));
        let now = now.expect("a line")["time"].as_str().expect("a time").to_owned();
        seat.line("When was it really done", &format!("{}Z", &now[..19]).replace("ZZ", "Z"));
        seat.line("Why is it entered late", "from paper");
        seat.reads("entered late");
    }
}
