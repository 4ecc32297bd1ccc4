//! A job that rests: what is asked when it is left, and what is told when it is taken up again.

use super::seat::{Seat, Speech};
use super::stage::Stage;
use super::walk;

const MANNERS: [(Speech, u16); 2] = [(Speech::Colour, 80), (Speech::Plain, 40)];

fn at_the_tap(stage: &Stage, speech: Speech, columns: u16) -> Seat {
    let mut seat = Seat::at_small_procedure(stage, speech, columns);
    walk::begin(&mut seat);
    walk::support(&mut seat);
    seat
}

#[test]
fn a_suspended_run_tells_its_state_and_verifies_its_protections_again() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = at_the_tap(&stage, speech, columns);
        seat.key("1.2 Open the tap.", "o");
        seat.key("[s] suspend until another time", "s");
        seat.line("Why is it suspended?", "");
        seat.key("1.2 Open the tap.", "o");
        seat.key("[s] suspend until another time", "s");
        seat.line("Why is it suspended?", "supper");
        seat.line("What state are things left in", "hose hangs, tap shut");
        seat.line("What comes first next time", "open the tap");
        seat.key("Before the run rests: vehicle on stands", "k");
        seat.sees("In force: vehicle on stands");
        seat.sees("goes on with it.");
        assert_eq!(seat.leaves(), 0);
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        seat.reads("You left things like this: hose hangs, tap shut.");
        seat.reads("because: supper. First next time, you said: open the tap.");
        seat.key("Read it?", "y");
        seat.reads(walk::WARNING);
        walk::support(&mut seat);
        seat.reads("1.2 Open the tap.");
        assert_eq!(stage.kinds()[11..15], ["suspended", "interruption", "resumed", "brief_read"]);
    }
}

#[test]
fn the_stop_key_works_at_a_key_and_at_a_line() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = at_the_tap(&stage, speech, columns);
        seat.key("1.2 Open the tap.", "!");
        seat.line("Why is the job stopped?", "a stand creaks");
        seat.line("What state are things left in", "vehicle on stands, nobody under it");
        seat.key("Before the run rests: vehicle on stands", "k");
        seat.sees("STOPPED");
        assert_eq!(seat.leaves(), 0);
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        seat.key("You STOPPED the job", "y");
        walk::support(&mut seat);
        seat.key("1.2 Open the tap.", "d");
        seat.one_key_at_line("in psi:", "!");
        seat.line("Why is the job stopped?", "the tap leaks");
        seat.line("What state are things left in", "tap shut");
        seat.key("Before the run rests: vehicle on stands", "k");
        seat.sees("STOPPED");
        assert_eq!(seat.leaves(), 0);
        let stops = stage.events().iter().filter(|event| event.get("stopped").is_some()).count();
        assert_eq!(stops, 2, "{:?}", stage.events());
    }
}

#[test]
fn a_wait_runs_on_while_nobody_is_there() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = at_the_tap(&stage, speech, columns);
        walk::measure(&mut seat);
        seat.interrupts("the drip time");
        seat.key("The clock runs on.", "!");
        seat.line("Why is the job stopped?", "the telephone");
        seat.line("What state are things left in", "hose hangs low");
        seat.key("Before the run rests: vehicle on stands", "k");
        assert_eq!(seat.leaves(), 0);
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        seat.reads("the drip time: since ");
        seat.key("Read it?", "y");
        walk::support(&mut seat);
        seat.key("2.7 When the drip time is over, take the hose off.", "d");
        seat.reads("2.8 Rinse the jug.");
    }
}
