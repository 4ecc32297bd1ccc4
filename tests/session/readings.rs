//! Readings as people type them, and what becomes of those that are not good.

use super::seat::{Seat, Speech};
use super::stage::Stage;
use super::walk;

const MANNERS: [(Speech, u16); 2] = [(Speech::Colour, 40), (Speech::Plain, 80)];
const PRESSURE: &str = "in psi:";

fn at_the_tap(stage: &Stage, speech: Speech, columns: u16) -> Seat {
    let mut seat = Seat::at_small_procedure(stage, speech, columns);
    walk::begin(&mut seat);
    walk::support(&mut seat);
    seat.key("1.2 Open the tap.", "d");
    seat
}

/// 1 bar is 14.5038 psi (the pascal and the pound-force of the SI brochure and NIST SP 811, appendix B).
#[test]
fn another_unit_is_converted_and_judged() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = at_the_tap(&stage, speech, columns);
        seat.reads("Wanted: 10 psi to 30 psi");
        seat.line(PRESSURE, "1 bar");
        seat.reads("1 bar = 14.504 psi: pass");
    }
}

#[test]
fn a_unit_of_something_else_is_not_taken() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = at_the_tap(&stage, speech, columns);
        seat.line(PRESSURE, "14 N·m");
        seat.reads("Not taken:");
        seat.reads("torque");
        seat.line(PRESSURE, "14 pis");
        seat.reads("psi");
        seat.line(PRESSURE, "much");
        seat.reads("Not taken:");
        assert!(!stage.kinds().contains(&"reading".to_owned()));
    }
}

#[test]
fn an_unlikely_value_is_typed_again_or_kept() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = at_the_tap(&stage, speech, columns);
        seat.line(PRESSURE, "1450");
        seat.key("outside what is likely here (0 psi to 200 psi)", "t");
        assert!(!stage.kinds().contains(&"reading".to_owned()));
        seat.line(PRESSURE, "1450");
        seat.key("Keep it?", "k");
        seat.reads("fail, 1420 psi above the");
        assert_eq!(stage.kinds().iter().filter(|kind| *kind == "reading").count(), 1);
    }
}

#[test]
fn a_number_with_two_meanings_is_asked_about() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = at_the_tap(&stage, speech, columns);
        seat.line(PRESSURE, "14.5");
        seat.line("in mL:", "1,234");
        seat.reads("1.234");
        assert!(seat.said().contains("1234"), "{}", seat.said());
        seat.line("in mL:", "1,234.0");
        seat.reads("1234 mL");
    }
}

#[test]
fn out_of_limits_it_is_taken_again() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = at_the_tap(&stage, speech, columns);
        seat.line(PRESSURE, "8");
        seat.reads("fail, 2 psi below the");
        seat.reads("What to do: Tighten the hose, then read again.");
        seat.key("[t] take it again", "t");
        seat.line("What was done about it?", "hose tightened");
        seat.reads("Earlier: 8 psi");
        seat.line(PRESSURE, "12");
        seat.reads("2.2 Catch the fluid");
        assert_eq!(stage.kinds()[12..], ["reading", "again", "reading"]);
    }
}

#[test]
fn out_of_limits_it_is_corrected() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = at_the_tap(&stage, speech, columns);
        seat.line(PRESSURE, "31");
        seat.key("[c] correct a wrong entry", "c");
        seat.item("Which entry was wrong", 0);
        seat.line("What was it really?", "13");
        seat.line("What was wrong with the entry?", "digits swapped");
        seat.reads("13 psi: pass");
        assert_eq!(stage.kinds()[12..], ["reading", "correction"]);
    }
}

#[test]
fn out_of_limits_it_is_gone_on_with_as_a_deviation() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = at_the_tap(&stage, speech, columns);
        seat.line(PRESSURE, "31");
        seat.key("[g] go on with a deviation", "g");
        seat.item("Disposition", 2);
        seat.line("Reason:", "the gauge reads one high");
        seat.reads("Last: deviation 1 recorded");
        seat.line("in mL:", "1 qt");
        seat.reads("1 qt = 946.35 mL");
        let accepted = stage.events()[13].to_string();
        assert!(accepted.contains("use as is") || accepted.contains("use_as_is"), "{accepted}");
    }
}

#[test]
fn a_condition_opens_its_step() {
    let stage = Stage::with_small_procedure();
    let mut seat = at_the_tap(&stage, Speech::Colour, 40);
    seat.line(PRESSURE, "12");
    seat.line("in mL:", "200");
    seat.key("[1] clear [2] dark [3] milky", "3");
    seat.key("What to do: Find the cause first.", "g");
    seat.item("Disposition", 0);
    seat.line("Reason:", "water is looked for next");
    seat.key("2.4 Find out where the water comes from.", "?");
    seat.reads("Only because:");
    seat.reads("Milky fluid has water in it.");
}
