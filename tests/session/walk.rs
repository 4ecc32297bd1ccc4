//! The small procedure from the first question to the record, at terminals of every kind.

use super::seat::{Seat, Speech};
use super::stage::Stage;

/// Who is there, and the vehicle.
pub fn begin(seat: &mut Seat) {
    seat.line("Name of the lead (does the work and releases the hold points):", "Robin Vale");
    seat.line("Name of the helper (watches and releases a second time):", "Sam Hollis");
    seat.line("Odometer, in km or with its unit:", "187400 km");
    seat.key("Is it for this vehicle?", "y");
    brief(seat);
}

/// Two people talk the job through before the first hold point.
pub fn brief(seat: &mut Seat) {
    seat.line("Present, by name or initials, with commas between:", "RV, SH");
}

/// The hazard and the hold point.
pub fn support(seat: &mut Seat) {
    seat.key("Read and understood?", "a");
    verify_again(seat);
}

/// The hold point alone.
pub fn verify_again(seat: &mut Seat) {
    seat.key("1 of 2: The vehicle stands on stands", "y");
    seat.key("2 of 2: Each pin is locked", "y");
    seat.line("Released by Robin Vale (lead); name or initials:", "RV");
    seat.line("Released by Sam Hollis (helper); name or initials:", "sh");
}

/// Everything from the tap to the end.
pub fn measure(seat: &mut Seat) {
    seat.key("1.2 Open the tap.", "d");
    seat.line("in psi:", "1 bar");
    seat.line("in mL:", "250");
    seat.key("[1] clear [2] dark [3] milky", "1");
    seat.key("These can be done in any order:", "2");
    seat.line("a whole number:", "4");
    seat.key("[1] 2.5.1 [3] 2.5.3", "3");
    seat.key("2.5.3 Shut the box.", "d");
    seat.key("2.5.1 Wipe the floor.", "d");
    seat.key("2.6 Hang the hose low", "d");
}

fn finish(seat: &mut Seat) {
    seat.interrupts("the drip time");
    seat.key("The clock runs on.", if seat.is_plain() { "" } else { "\r" });
    seat.key("drip time", "d");
    seat.key("2.8 Rinse the jug.", "o");
    seat.key("[u] this step is not applicable", "u");
    seat.line("Why does it not apply?", "it is a new jug");
    seat.key("it is a deviation, and the lead has to approve it.", "y");
    seat.line("Approved by Robin Vale (lead); name or initials:", "rv");
    seat.key("step 2.8 not applicable, approved by Robin Vale; deviation 1 recorded", "o");
    seat.key("[l] this step later", "l");
    seat.line("Why later?", "no pen here");
    seat.line("At the latest before which step", "3.1");
    seat.line("in words:", "nothing");
    seat.key("2.9 Write the date on the jug.", "d");
    seat.key("[y] section complete", "y");
    seat.key("Nobody is under the vehicle", "y");
    seat.line("Released by Robin Vale (lead); name or initials:", "Robin Vale");
    seat.item("Disposition", 2);
    seat.line("Reason:", "a new jug is clean");
    seat.key("[e] end: close and seal the run", "e");
}

/// Walks it all, and gives what is left: the folder, and everything that was written to the terminal.
fn walk(speech: Speech, columns: u16) -> (Stage, String) {
    let stage = Stage::with_small_procedure();
    let mut seat = Seat::at_small_procedure(&stage, speech, columns);
    seat.reads("begins. Everything answered is kept at once;");
    begin(&mut seat);
    seat.reads(WARNING);
    support(&mut seat);
    measure(&mut seat);
    finish(&mut seat);
    seat.sees("The record is sealed; `bayhand record");
    let ended = seat.pty.exit_code();
    assert_eq!(ended, 0, "{speech:?} {columns}");
    (stage, seat.pty.written())
}

/// Each word of it, in whatever rows it comes: a cut word would not be found.
pub const WARNING: &str = "WARNING The vehicle can come off its stands. It crushes and kills whoever is under it. Stay out \
from under it until its support is checked and released.";

const EVENTS: [&str; 32] = [
    "started",
    "person",
    "person",
    "odometer",
    "interruption",
    "people",
    "acknowledged",
    "confirmed",
    "confirmed",
    "released",
    "released",
    "done",
    "reading",
    "reading",
    "reading",
    "picked",
    "reading",
    "picked",
    "done",
    "done",
    "done",
    "done",
    "not_applicable",
    "interruption",
    "deferred",
    "reading",
    "done",
    "flow",
    "confirmed",
    "released",
    "disposed",
    "closed",
];

fn walks(speech: Speech, columns: u16) -> String {
    let (stage, written) = walk(speech, columns);
    assert_eq!(stage.kinds(), EVENTS);
    let record = stage.bayhand(&["record"]);
    assert_eq!(record.code, Some(0));
    assert!(record.out.contains("a new jug is clean"), "{}", record.out);
    written
}

/// Whether something is written in colour. Source: ECMA-48, SGR 30 to 37, 40 to 47; 90 to 97 and 100 to 107 are what
/// all terminals make of them beyond it.
fn is_coloured(written: &str) -> bool {
    let runs = written.split("\u{1b}[").skip(1);
    let codes = runs.filter_map(|run| run.split_once('m')).flat_map(|(codes, _)| codes.split(';'));
    codes.filter_map(|code| code.parse::<u32>().ok()).any(|code| matches!(code, 30..=47 | 90..=107))
}

#[test]
fn in_colour_at_80_columns() {
    assert!(is_coloured(&walks(Speech::Colour, 80)));
}

#[test]
fn in_colour_at_40_columns() {
    assert!(is_coloured(&walks(Speech::Colour, 40)));
}

#[test]
fn without_colour_at_80_columns() {
    assert!(!is_coloured(&walks(Speech::NoColour, 80)));
}

#[test]
fn without_colour_at_40_columns() {
    assert!(!is_coloured(&walks(Speech::NoColour, 40)));
}

#[test]
fn plain_at_80_columns_has_no_escape_codes() {
    assert!(!walks(Speech::Plain, 80).contains('\u{1b}'));
}

#[test]
fn plain_at_40_columns_has_no_escape_codes() {
    assert!(!walks(Speech::Plain, 40).contains('\u{1b}'));
}
