//! The small procedure from the first question to the record, at terminals of every kind.

use super::seat::{Seat, Speech};
use super::stage::Stage;

/// Who is there, and the vehicle.
pub fn begin(seat: &mut Seat) {
    seat.line("Name of the lead (does the work and releases the hold points):", "Robin Vale");
    seat.line("Name of the helper (watches and releases a second time):", "Sam Hollis");
    seat.line("Odometer, with its unit:", "187400 km");
}

/// The hazard and the hold point.
pub fn support(seat: &mut Seat) {
    seat.key("Read and understood?", "a");
    seat.key("Is this so? (1 of 2) The vehicle stands on stands", "y");
    seat.key("Is this so? (2 of 2) Each pin is locked", "y");
    seat.line("Released by Robin Vale (lead); name or initials:", "RV");
    seat.line("Released by Sam Hollis (helper); name or initials:", "sh");
}

/// Everything from the tap to the end.
fn measure(seat: &mut Seat) {
    seat.key("1.2 Open the tap.", "d");
    seat.line("pressure at the tap, in psi:", "1 bar");
    seat.line("fluid caught, in mL:", "250");
    seat.key("[1] clear [2] dark [3] milky", "1");
    seat.key("These can be done in any order:", "2");
    seat.line("bolts counted, a whole number:", "4");
    seat.key("[1] 2.5.1 [2] 2.5.3", "2");
    seat.key("2.5.3 Shut the box.", "d");
    seat.key("2.5.1 Wipe the floor.", "d");
    seat.key("2.6 Hang the hose low", "d");
}

fn finish(seat: &mut Seat) {
    seat.interrupts("the drip time");
    seat.key("The clock runs on.", "w");
    seat.key("2.7 When the drip time is over, take the hose off.", "d");
    seat.key("2.8 Rinse the jug.", "n");
    seat.line("Why does it not apply?", "it is a new jug");
    seat.key("Last: step 2.8 not applicable, recorded as a deviation", "l");
    seat.line("Why later?", "no pen here");
    seat.line("At the latest before which step (its number)?", "3.1");
    seat.line("what the next job must know, in words:", "nothing");
    seat.key("2.9 Write the date on the jug.", "d");
    seat.key("Nobody is under the vehicle", "y");
    seat.line("Released by Robin Vale (lead); name or initials:", "Robin Vale");
    seat.item("Disposition", 2);
    seat.line("Reason:", "a new jug is clean");
    seat.key("[c] close the run", "c");
}

fn walk(speech: Speech, columns: u16) -> (Stage, String) {
    let stage = Stage::with_small_procedure();
    let mut seat = Seat::at_small_procedure(&stage, speech, columns);
    seat.reads("begins. Everything answered is kept at once;");
    begin(&mut seat);
    support(&mut seat);
    measure(&mut seat);
    finish(&mut seat);
    seat.sees("the seal of this record");
    let written = seat.pty.written();
    assert_eq!(seat.leaves(), 0, "{speech:?} {columns}");
    (stage, written)
}

#[test]
fn x() {
    let (_, written) = walk(Speech::Colour, 80);
    println!("{written}");
}
