//! Named outcomes at a terminal: picked by a key at a choice and beside a stopwatch, typed in place of a number.

use super::seat::{Seat, Speech};
use super::stage::Stage;
use crate::run::drive::titled;

const MANNERS: [(Speech, u16); 2] = [(Speech::NoColour, 40), (Speech::Plain, 80)];

const TABLES: &str = "[readings.length]\nwhat = \"length that burned\"\nunit = \"mm\"\nmax = 100\n\
instead = { \"does not burn\" = \"pass\", \"never reached\" = \"fail\" }\nfails = \"Take another strip.\"\n\
[readings.burn_time]\nwhat = \"time until it goes out\"\nunit = \"s\"\nmax = 15\nstopwatch = true\n\
instead = { \"does not burn\" = \"pass\", \"never reached\" = \"fail\" }\nfails = \"Take another strip.\"\n\
[readings.look]\nwhat = \"look of the strip\"\nchoices = [\"clear\", \"charred\"]\naccept = [\"clear\"]\n\
instead = { \"strip is gone\" = \"fail\" }\nfails = \"Clean it.\"\n";

/// The program at the first step of a procedure of its own.
fn begun(stage: &Stage, speech: Speech, columns: u16, body: &str) -> Seat {
    let procedure = stage.file("strip.md", &titled("Glue a bracket", TABLES, body));
    let mut seat = Seat::take(stage, speech, columns, &["run", &procedure.to_string_lossy()]);
    seat.line("Name of the lead", "Robin Vale");
    seat.line("Odometer, in km", "1 km");
    seat.key("Is it for this vehicle?", "y");
    seat
}

fn outcomes(stage: &Stage) -> Vec<String> {
    let events = stage.events();
    let entered = events.iter().filter_map(|event| {
        let entry = event.get("reading").or_else(|| event.get("correction"))?;
        Some(entry["value"]["instead"].as_str().unwrap_or("a value").to_owned())
    });
    entered.collect()
}

#[test]
fn an_outcome_is_offered_beside_the_number_and_typed_by_its_words() {
    for (speech, columns) in MANNERS {
        let stage = Stage::bare();
        let mut seat = begun(&stage, speech, columns, "1. Read [length].\n2. Wipe.\n");
        seat.reads("Wanted: at most 100 mm; or instead \"does not burn\": pass, \"never reached\": fail");
        seat.line("in mm, or \"does not burn\", or \"never reached\":", "Never reached");
        seat.key("never reached: fail, as the procedure says", "c");
        seat.item("Which entry was wrong", 0);
        seat.line("What was it really?", "does not burn");
        seat.line("What was wrong with the entry?", "the clamp was in the way");
        seat.reads("does not burn: pass, as the procedure says");
        assert_eq!(outcomes(&stage), ["never reached", "does not burn"]);
    }
}

#[test]
fn beside_a_stopwatch_an_outcome_has_a_key() {
    for (speech, columns) in MANNERS {
        let stage = Stage::bare();
        let mut seat = begun(&stage, speech, columns, "1. Time it: [burn_time].\n2. Wipe.\n");
        seat.key("[1] does not burn [2] never reached", "1");
        seat.reads("does not burn: pass, as the procedure says");
        assert_eq!(outcomes(&stage), ["does not burn"]);
    }
}

#[test]
fn at_a_choice_an_outcome_is_one_more_key_also_when_it_is_corrected() {
    for (speech, columns) in MANNERS {
        let stage = Stage::bare();
        let mut seat = begun(&stage, speech, columns, "1. Look: [look].\n2. Wipe.\n");
        seat.key("[1] clear [2] charred [3] strip is gone", "2");
        seat.key("fail, accepted: clear", "c");
        seat.item("Which entry was wrong", 0);
        seat.item("What was it really?", 2);
        seat.line("What was wrong with the entry?", "it fell through the grate");
        seat.reads("strip is gone: fail, as the procedure says");
        assert_eq!(outcomes(&stage), ["a value", "strip is gone"]);
    }
}
