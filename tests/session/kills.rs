//! Killed at any question: what was acknowledged is there, nothing is there twice.
//!
//! A run that was killed is a run that was left without a word: its protections are verified again and its hazards
//! acknowledged anew before the work goes on. Kills at random moments are in [`super::any_moment`].

use std::collections::BTreeSet;

use serde_json::Value;

use super::robot;
use super::seat::{Seat, Speech, Waits};
use super::stage::{Stage, kind};

/// What is done at a question.
enum Turn {
    Answer,
    KillBefore,
}

/// Sits at the run until it is closed, or killed: then gives the journal as it was acknowledged.
fn sit(stage: &Stage, mut decide: impl FnMut(&robot::Question) -> Turn) -> Option<Vec<String>> {
    let mut seat = Seat::at_small_procedure(stage, Speech::Colour, 80);
    loop {
        let question = robot::question(&seat);
        // The question is there, so every answer before it was acknowledged.
        let acknowledged = stage.journal_lines();
        match decide(&question) {
            Turn::KillBefore => {
                if question.kind == Waits::Line {
                    seat.types("half an ans");
                }
                seat.pty.kill();
                assert_eq!(stage.journal_lines(), acknowledged, "nothing half-typed is kept");
                return Some(acknowledged);
            }
            Turn::Answer if question.kind == Waits::Time => seat.sits_it_out(),
            Turn::Answer => {
                match question.kind {
                    Waits::Key => seat.press(&question.keys),
                    _ => seat.types(&question.keys),
                }
                if question.name.starts_with("[e] end") {
                    assert_eq!(seat.leaves(), 0);
                    return None;
                }
            }
        }
    }
}

/// Everything acknowledged before a kill stands unchanged at the beginning of the journal.
fn is_kept(stage: &Stage, acknowledged: &[String]) {
    let lines = stage.journal_lines();
    assert!(lines.len() >= acknowledged.len());
    assert_eq!(lines[..acknowledged.len()], *acknowledged);
}

#[test]
fn killed_at_each_sort_of_question() {
    let stage = Stage::with_small_procedure();
    let mut killed_at = BTreeSet::new();
    let mut kept = Vec::new();
    while let Some(acknowledged) =
        sit(&stage, |question| if killed_at.insert(question.name) { Turn::KillBefore } else { Turn::Answer })
    {
        is_kept(&stage, &kept);
        kept = acknowledged;
    }
    is_kept(&stage, &kept);
    assert!(killed_at.len() >= 22, "{killed_at:?}");
    nothing_is_doubled(&stage.events(), 6);
    verified_before_work(&stage.events());
    assert_eq!(stage.kinds().iter().filter(|kind| *kind == "resumed").count(), killed_at.len());
    assert_eq!(stage.bayhand(&["record"]).code, Some(0));
}

/// Each thing that is asked once stands once; the pressure was taken twice, with the reason between.
pub fn nothing_is_doubled(events: &[Value], readings: usize) {
    let once = ["started", "person", "odometer", "done", "reading", "not_applicable", "disposed", "closed"];
    let mut seen = BTreeSet::new();
    let single = events.iter().filter(|event| once.contains(&kind(event).as_str()));
    for event in single {
        assert!(seen.insert(event.to_string()), "twice: {event}");
    }
    let count = |what: &str| events.iter().filter(|event| kind(event) == what).count();
    assert_eq!((count("person"), count("reading"), count("again"), count("disposed")), (2, readings, 1, 1));
    assert_eq!((count("done"), count("not_applicable")), (6, 1));
}

/// Whenever the run was taken up again, the hazard was acknowledged and the hold point released before any work.
fn verified_before_work(events: &[Value]) {
    // A decision about a result ("again") needs nobody at the vehicle.
    let work = ["done", "reading", "picked", "not_applicable"];
    for sitting in events.split(|event| kind(event) == "resumed") {
        let kinds: Vec<String> = sitting.iter().map(kind).collect();
        let Some(first) = kinds.iter().position(|kind| work.contains(&kind.as_str())) else {
            continue;
        };
        let before = |what: &str| kinds[..first].iter().filter(|kind| *kind == what).count();
        assert!(before("acknowledged") >= 1, "{kinds:?}");
        assert_eq!(before("released"), 2, "{kinds:?}");
    }
}
