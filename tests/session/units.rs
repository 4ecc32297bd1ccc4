//! Units at a terminal: each prompt says its own, a bare number is shown back with it, and another one can stand beside.

use super::seat::{Seat, Speech};
use super::stage::Stage;
use crate::run::drive::titled;

const MANNERS: [(Speech, u16); 2] = [(Speech::NoColour, 40), (Speech::Plain, 80)];

const TABLES: &str = "[tools.gauge]\nwhat = \"the gauge\"\nunit = \"psi\"\n\
[vehicle.least]\nwhat = \"least pressure\"\nunit = \"kPa\"\nfind = \"manual\"\n\
[readings.warm]\nwhat = \"fluid\"\nunit = \"°C\"\nmin = \"18 °C\"\nmax = \"38 °C\"\nfails = \"Wait.\"\n\
[readings.likely]\nwhat = \"room\"\nunit = \"°C\"\nplausible = [\"-30 °C\", \"50 °C\"]\ninformation_only = true\n\
[readings.pressure]\nwhat = \"pressure\"\nunit = \"kPa\"\nmin = \"least\"\ninstrument = \"gauge\"\n";
const BODY: &str = "1. Read [warm].\n2. Read [pressure].\n3. Read [likely].\n";

fn begun(stage: &Stage, speech: Speech, columns: u16, more: &[&str]) -> Seat {
    let procedure = stage.file("units.md", &titled("Read it", TABLES, BODY));
    let mut seat =
        Seat::take(stage, speech, columns, &[&["run", &procedure.to_string_lossy()], more].concat());
    seat.line("Name of the lead", "Robin Vale");
    seat.line("Odometer, in km", "187400");
    seat.reads("Last: odometer: 187400 km");
    seat.line("least pressure (find it in: manual), in kPa", "100");
    seat.line("Where was it found", "page 3-1");
    seat.reads("Last: least pressure: 100 kPa");
    seat.key("Is it for this vehicle?", "y");
    seat
}

/// 72 °F is 22.2 °C: exact by the definition of the degree Fahrenheit.
#[test]
fn a_bare_number_that_would_pass_in_another_unit_is_asked_about() {
    for (speech, columns) in MANNERS {
        let stage = Stage::bare();
        let mut seat = begun(&stage, speech, columns, &[]);
        seat.line("in °C:", "72");
        seat.reads("Was it another unit? 72 °F = 22.222 °C would pass.");
        seat.key("[c] correct a wrong entry", "c");
        seat.item("Which entry was wrong", 0);
        seat.line("What was it really?", "72 °F");
        seat.line("What was wrong with the entry?", "the unit");
        // What stands on the scale of the instrument is what a bare number means.
        seat.reads("Wanted: at least 100 kPa = 14.504 psi");
        seat.line("in psi:", "15");
        seat.reads("pressure: 15 psi: pass");
        seat.line("in °C:", "68");
        seat.key("68 °F = 20 °C would be likely", "t");
        seat.line("in °C:", "68 F");
        seat.reads("[e] end");
    }
}

#[test]
fn preferred_units_stand_beside_and_are_remembered() {
    for (speech, columns) in MANNERS {
        let stage = Stage::bare();
        let mut seat = begun(&stage, speech, columns, &["--units", "°F, bar"]);
        seat.reads("Wanted: 18 °C to 38 °C = 64.4 °F to 100.4 °F");
        seat.line("in °C or °F:", "70 °F");
        seat.reads("in psi or bar:");
        seat.pty.kill();
        let mut seat =
            Seat::take(&stage, speech, columns, &["run", &stage.path("units.md").to_string_lossy()]);
        seat.line("How do things stand", "as they were");
        seat.key("Read it?", "y");
        seat.reads("in psi or bar:");
    }
    let stage = Stage::bare();
    let procedure = stage.file("units.md", &titled("Read it", TABLES, BODY));
    let ended = stage.bayhand(&["run", &procedure.to_string_lossy(), "--units", "furlong"]);
    assert!(ended.err.contains("--units none"), "{}", ended.err);
}

/// A person is known by the whole name, by any part of it, and by the initials.
#[test]
fn a_name_is_known_by_any_part() {
    let tables = "[holds.safe]\nwhat = \"Safe\"\nconfirm = [\"it is\"]\nrelease = \"lead\"\n";
    for said in ["RV", "robin", "Vale", "Robin Vale"] {
        let stage = Stage::bare();
        let procedure = stage.file("hold.md", &titled("Hold it", tables, "1. Look: [safe].\n2. Go on.\n"));
        let mut seat = Seat::take(&stage, Speech::NoColour, 80, &["run", &procedure.to_string_lossy()]);
        seat.line("Name of the lead", "Robin Vale");
        seat.line("Odometer, in km", "1 km");
        seat.key("Is it for this vehicle?", "y");
        seat.key("1 of 1: it is", "y");
        seat.line("Released by Robin Vale (lead)", said);
        seat.reads("Go on.");
    }
}

const SOAK: &str = "[waits.soak]\nwhat = \"it soaks\"\nat_least = \"1 s\"\nat_most = \"40 min\"\n";

/// The end of a wait rings, unless it is to be quiet; the wait shows its latest time too.
#[test]
fn a_bell_calls_at_the_end_of_a_wait() {
    for (more, rings) in [(&[][..], true), (&["--quiet"][..], false)] {
        let stage = Stage::bare();
        let procedure = stage
            .file("soak.md", &titled("Soak it", SOAK, "1. Fill it: [soak].\n2. Drain it after [soak].\n"));
        let mut seat = Seat::take(
            &stage,
            Speech::NoColour,
            80,
            &[&["run", &procedure.to_string_lossy()], more].concat(),
        );
        seat.line("Name of the lead", "Robin Vale");
        seat.line("Odometer, in km", "1 km");
        seat.key("Is it for this vehicle?", "y");
        seat.key("Fill it", "d");
        seat.sees(", at the latest until");
        seat.key("Drain it after it soaks", "d");
        seat.reads("[e] end");
        assert_eq!(seat.pty.written().contains('\u{7}'), rings);
    }
}
