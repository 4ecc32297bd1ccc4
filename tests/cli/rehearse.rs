//! `bayhand rehearse`

use crate::session::seat::{Seat, Speech};
use crate::session::stage::Stage;

const FLUSH: [&str; 5] =
    ["rehearse", "cooler-line-flush.md", "--vehicle", "vehicle-example.toml", "--answers"];

#[test]
fn the_author_s_answers_are_walked_and_nothing_is_recorded() {
    let stage = Stage::with_flush();
    let ended = stage.bayhand(&[&FLUSH[..], &["answers-example.toml"]].concat());
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    assert!(!stage.data().join("runs").exists(), "no run is there");
    let end = &ended.out[ended.out.find("Rehearsed. Nothing was recorded.").expect("its end")..];
    // The kit with its amounts worked out for the vehicle: 4 * (2 L + 0.6 L) of solvent.
    for words in ["Tools to lay out:", "flushing solvent (or fluid), 10.4 L", "Moments for two:", "Waits:"] {
        assert!(end.contains(words), "{words}\n{end}");
    }
    assert!(end.contains("Longest stretch without a stopping point:"), "{end}");
}

#[test]
fn ctrl_c_still_ends_in_what_to_get_ready() {
    let stage = Stage::with_small_procedure();
    let procedure = stage.path("bleed.md");
    let mut seat = Seat::take(&stage, Speech::NoColour, 80, &["rehearse", &procedure.to_string_lossy()]);
    seat.reads("This is a rehearsal");
    seat.types("\u{3}");
    seat.sees("Longest stretch without a stopping point:");
    assert_eq!(seat.leaves(), 0);
    assert!(!stage.data().join("runs").exists());
}

#[test]
fn answers_that_do_not_fit_are_pointed_at() {
    let stage = Stage::with_flush();
    let answers = stage.text("answers-example.toml").replacen("{ at = \"helper\"", "{ at = \"helpr\"", 1);
    stage.file("answers-example.toml", &answers);
    let ended = stage.bayhand(&[&FLUSH[..], &["answers-example.toml"]].concat());
    assert_eq!(ended.code, Some(1));
    assert!(ended.err.contains("the run asks for `helper`"), "{}", ended.err);
}
