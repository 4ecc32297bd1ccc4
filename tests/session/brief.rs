//! The resume brief after a kill and after a long time: told in sentences, and the last steps looked at again.

use std::sync::Arc;

use bayhand::journal::{Pinned, Runs};
use bayhand::procedure;
use bayhand::run::{Answer, Ask, Book, Input, Leave, SlipCheck};
use bayhand::session::LiveRun;
use bayhand::source::SourceText;
use bayhand::system::scripted::{FaultyDisk, ScriptedClock};
use bayhand::system::{Environment, System};
use bayhand::vehicle;
use jiff::{SignedDuration, ZonedDateTime};

use super::seat::{Seat, Speech};
use super::stage::Stage;
use super::walk;
use crate::run::drive::{by_itself, titled};

const MANNERS: [(Speech, u16); 2] = [(Speech::Colour, 80), (Speech::Plain, 40)];

/// Nobody said how things were left, so it is asked before anything else; then the brief tells it.
#[test]
fn after_a_kill_the_state_is_asked_and_the_brief_tells_it() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        walk::begin(&mut seat);
        walk::support(&mut seat);
        seat.reads("1.2 Open the tap.");
        seat.pty.kill();
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        seat.reads("The last sitting broke off");
        assert!(!seat.said().contains("Resume brief"));
        seat.line("How do things stand (loose, hanging, open, live)?", "tap shut, hose on");
        seat.reads("Things stand like this now: tap shut, hose on.");
        seat.reads("In force: vehicle on stands, released by Robin Vale");
        seat.key("Next: step 1.2: Open the tap.", "y");
        walk::support(&mut seat);
        seat.reads("1.2 Open the tap.");
        let kinds = stage.kinds();
        let resumed = kinds.iter().position(|kind| kind == "resumed").expect("it was taken up again");
        assert_eq!(kinds[resumed..resumed + 3], ["resumed", "interruption", "brief_read"]);
    }
}

/// A run that somebody left years ago, by its journal: at step 2.8, with a step put off, a clock running and a danger ahead.
fn left_long_ago(stage: &Stage) {
    let text = stage.text("bleed.md").replace("8. Rinse the jug.", "8. [crush] Rinse the jug.");
    stage.file("bleed.md", &text);
    let sheet = stage.text("vehicle.toml");
    let found = procedure::read(&SourceText::new("bleed.md", text.as_str()), "bleed").value;
    let known = vehicle::read(&SourceText::new("vehicle.toml", sheet.as_str())).value;
    let book = Book::new(found.expect("a procedure"), known);
    let later = book.procedure.step_numbered("3.1").expect("step 3.1").id;
    let mut now: ZonedDateTime = "2024-03-01T18:30:00+00:00[UTC]".parse().expect("a time");
    let clock = Arc::new(ScriptedClock::ticking(now.clone(), SignedDuration::ZERO));
    let system = System::new(clock, Arc::new(FaultyDisk::default()), Environment::default());
    let runs = Runs::new(&system, &stage.data());
    let pinned = Pinned { procedure: text, linked: Vec::new(), vehicle: Some(sheet) };
    let mut live = LiveRun::start(&runs, book, pinned, None, &now).expect("a run");
    let typed = |text: &str| Answer::Typed { text: text.to_owned(), slip: SlipCheck::Ask };
    let release = |said: &str| Answer::Release { said: said.to_owned() };
    let mut answers = vec![Answer::Person("Robin Vale".to_owned()), Answer::Person("Sam Hollis".to_owned())];
    answers.extend([typed("187400 km"), Answer::Acknowledge, Answer::True, Answer::True]);
    answers.extend([release("RV"), release("SH"), Answer::Done]);
    answers.extend([typed("20 psi"), typed("250 mL"), typed("clear")]);
    let picks =
        ["2.5.1", "2.5.3"].map(|number| live.run.book.procedure.step_numbered(number).expect("it").id);
    answers.extend(picks.iter().flat_map(|step| [Answer::Pick(*step), Answer::Done]));
    answers.extend([typed("4"), Answer::Done]);
    answers.push(Answer::Defer { before: later, reason: "the drip tray is full".to_owned() });
    let (reason, left_as) = ("supper".to_owned(), "hose hangs low".to_owned());
    let first = Some("rinse the jug".to_owned());
    answers.push(Answer::Leave { how: Leave::Suspend, reason, state: left_as, first });
    for answer in answers {
        now = now.checked_add(SignedDuration::from_millis(100)).expect("a time");
        live.take(Input::Answer(answer.clone()), &now).unwrap_or_else(|error| panic!("{answer:?}: {error}"));
        while let Some(answer) = by_itself(live.run.view(&now)) {
            live.take(Input::Answer(answer), &now).expect("what is asked besides");
        }
    }
    assert_eq!(live.run.view(&now).next().ask, Ask::Resting);
}

/// All six parts of the brief, then one confirmation for each of the last three steps.
#[test]
fn after_a_long_time_the_brief_tells_all_and_the_last_steps_are_confirmed_one_by_one() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        left_long_ago(&stage);
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        seat.reads("Read it?");
        let said = seat.said();
        for part in [
            "You left things like this: hose hangs low. You suspended the job 2024-03-01 18:30 (",
            "days ago), because: supper.",
            "First next time, you said: rinse the jug.",
            "In force: vehicle on stands, released by Robin Vale and Sam Hollis (2024-03-01 18:30). It has LAPSED (the run was taken up again): verify it again first.",
            "Done last: 2.5.3 Shut the box. 2.5.2 Count the bolts: 4. bolts counted: 4: pass",
            "2.6 Hang the hose low for",
            "Put off: step 2.7; it comes back before step 3.1. the drip tray is full.",
            "DUE: the drip time since 2024-03-01 18:30",
            "WARNING The vehicle can come off its stands. It crushes and kills",
            "So long after, look at what was done last again; it is asked step by step.",
            "Next: step 2.8: Rinse the jug.",
        ] {
            assert!(said.contains(part), "{part}\n{said}");
        }
        seat.key("Read it?", "y");
        let same = if seat.is_plain() { "" } else { "\r" };
        seat.key("Is Robin Vale still the lead", same);
        seat.key("Is Sam Hollis still the helper", same);
        walk::support(&mut seat);
        // An act stays done: only what was judged can have changed.
        seat.key("is it still so? 2.5.2 Count the bolts: 4.", "n");
        seat.line("How is it now?", "one was taken out");
        seat.line("2.5.2 Count the bolts", "4");
        seat.key("Read and understood?", "a");
        seat.reads("2.8 Rinse the jug.");
    }
}

/// Asked at any question, answered in sentences; suspending elsewhere is allowed and says so.
#[test]
fn can_i_stop_here() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let text = stage
            .text("bleed.md")
            .replace("[stopping_points]\n", "[stopping_points]\ntap_shut = \"the tap is shut\"\n");
        let text = text.replace(
            "Catch the fluid in the [jug]: [caught].",
            "[tap_shut] Catch the fluid in the [jug]: [caught].",
        );
        stage.file("bleed.md", &text);
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        walk::begin(&mut seat);
        walk::support(&mut seat);
        seat.key("1.2 Open the tap.", "d");
        seat.one_key_at_line("in psi:", if speech == Speech::Plain { "" } else { "\r" });
        seat.key("[z] can I stop here?", "z");
        seat.reads("This is no safe stopping point. Last done: step 1.2 (Open the tap.).");
        seat.reads("The next one is after step 2.2 (Catch the fluid in the measuring jug), 2 steps away: the tap is shut.");
        seat.reads("vehicle on stands");
        seat.line("in psi:", "20");
        seat.line("in mL:", "250");
        seat.reads("Safe to stop here.");
        seat.key("[1] clear", "o");
        seat.key("[z] can I stop here?", "z");
        seat.reads("You can stop here: the tap is shut.");
        seat.key("[1] clear", "1");
        seat.key("These can be done in any order:", "1");
        seat.key("2.5.1 Wipe the floor.", "d");
        seat.key("These can be done in any order:", "o");
        seat.key("[s] suspend until another time", "s");
        seat.line("This is no safe stopping point.", "supper");
        seat.line("What state are things left in", "tap shut");
        seat.line("What comes first next time", "");
        seat.key("[k] keep it in force", "k");
        seat.sees("Safe stopping point: no;");
        assert_eq!(seat.leaves(), 0);
    }
}

/// The protection is ended before the run rests, by its hold point, and the state said anew.
#[test]
fn a_protection_is_ended_before_the_run_rests() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        walk::begin(&mut seat);
        walk::support(&mut seat);
        seat.key("1.2 Open the tap.", "!");
        seat.line("Why is the job stopped?", "a stand creaks");
        seat.line("What state are things left in", "tap shut");
        seat.key("To end it, this hold point is verified and released: Tools clear, people clear.", "e");
        seat.key("Nobody is under the vehicle", "y");
        seat.line("Released by Robin Vale (lead); name or initials:", "RV");
        seat.line("How do things stand (loose, hanging, open, live)?", "on its wheels");
        seat.sees("State of things: on its wheels");
        seat.sees("In force: no protection");
        assert_eq!(seat.leaves(), 0);
        assert_eq!(stage.kinds().last().map(String::as_str), Some("interruption"));
    }
}

/// In a repeat the brief tells the passes so far, and a step says which one it is about.
#[test]
fn the_brief_tells_the_passes_that_were_made() {
    let tables = "[repeats.start]\nwhat = \"three cold starts\"\ntimes = 3\n";
    let body = "## Start [start]\n\n1. Crank for start [start].\n2. Listen.\n";
    for (speech, columns) in MANNERS {
        let stage = Stage::bare();
        let file = stage.file("starts.md", &titled("Start it cold", tables, body));
        let sits = || Seat::take(&stage, speech, columns, &["run", &file.to_string_lossy()]);
        let mut seat = sits();
        seat.line("Name of the lead", "Robin Vale");
        seat.line("Odometer, in km", "187400 km");
        seat.key("Is it for this vehicle?", "y");
        seat.key("1.1 Crank for start 1.", "d");
        seat.key("pass 1 of 3", "d");
        seat.key("pass 1 done: three cold starts", "o");
        seat.key("[x] the pass that ended last does not count", "x");
        seat.line("Why does it not count?", "it stalled");
        seat.key("1.1 Crank for start 1.", "d");
        seat.reads("1.2 Listen.");
        seat.pty.kill();
        let mut seat = sits();
        seat.line("How do things stand", "as it was");
        seat.reads("Read it?");
        let said = seat.said();
        for part in [
            "Done last: 1.1 Crank for start 1.",
            "Passes so far, three cold starts: 1 made, 0 count. The last does not: it stalled.",
            "Next: step 1.2, pass 2 (1 of 3): Listen.",
        ] {
            assert!(said.contains(part), "{part}\n{said}");
        }
    }
}
