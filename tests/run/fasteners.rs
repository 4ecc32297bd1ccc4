//! Groups of fasteners: place by place, stage by stage, and nothing hides.

use bayhand::procedure::Name;
use bayhand::run::{
    Answer, Ask, Disposition, Event, FasteningAnswer, FasteningAsk, FlowAnswer, Input, OpenItem,
    ParticularAnswer, ParticularAsk, Place, Refusal, Spot, replay,
};

use proptest::prelude::*;

use super::drive::{Drive, name, reason, typed};

/// Four bolts in three stages; the last is read. Torques are invented for the test.
const PAN: &str = "\
[vehicle.pan_torque]\nwhat = \"torque of the pan bolts\"\nunit = \"N·m\"\nfind = \"manual\"\n\
[fasteners.pan]\nwhat = \"bolts of the pan\"\npositions = [\"1\", \"2\", \"3\", \"4\"]\norder = \"cross\"\n\
stages = [\"by hand\", { what = \"half\", torque = '0.5 * pan_torque' }, \
{ what = \"full\", torque = 'pan_torque', within = \"4 %\", read = true }]\n";

const BODY: &str = "1. Tighten the bolts: [pan].\n2. Wipe the pan.\n";

fn pan() -> Drive {
    let mut drive = Drive::of(PAN, BODY);
    given(&mut drive);
    drive
}

fn given(drive: &mut Drive) {
    drive.take(Answer::Sourced { text: "10 N·m".to_owned(), source: "manual, page 3".to_owned() });
}

fn own(answer: FasteningAnswer) -> Answer {
    Answer::Fastening(answer)
}

fn set(drive: &mut Drive) {
    drive.take(own(FasteningAnswer::StageSet));
}

fn skip(drive: &mut Drive) {
    drive.take(own(FasteningAnswer::Skip { reason: reason() }));
}

fn loosen(drive: &mut Drive, position: Option<&str>) {
    let position = position.map(str::to_owned);
    drive.take(own(FasteningAnswer::Loosened { group: name("pan"), position, reason: reason() }));
}

fn spot(stage: usize, position: &str) -> Spot {
    Spot { group: name("pan"), stage, position: position.to_owned() }
}

fn place(drive: &Drive, stage: usize, position: &str) -> Place {
    drive.view().tightening(&name("pan")).unwrap().unwrap().place(stage, position)
}

/// Through a stage that is not read.
fn stage(drive: &mut Drive) {
    for _ in 0..4 {
        drive.done();
    }
}

/// Everything up to the last stage.
fn to_full(drive: &mut Drive) {
    stage(drive);
    set(drive);
    stage(drive);
    set(drive);
}

/// Stage by stage, in each by the pattern; one answer makes one place, and the step is done with the last.
#[test]
fn each_place_of_each_stage_is_asked_in_its_turn() {
    let mut drive = pan();
    let mut asked = Vec::new();
    while drive.number() == "1.1" {
        asked.push(drive.label());
        let entries = drive.events.len();
        match drive.ask() {
            Ask::Fastening(FasteningAsk::SetStage { .. }) => set(&mut drive),
            Ask::Fastening(FasteningAsk::Reach(_)) => drive.enter("10 N·m"),
            _ => drive.done(),
        }
        assert_eq!(drive.events.len(), entries + 1, "one answer, one entry");
    }
    assert_eq!(
        asked,
        [
            "pan by hand 1",
            "pan by hand 3",
            "pan by hand 2",
            "pan by hand 4",
            "pan stage half",
            "pan half 1",
            "pan half 3",
            "pan half 2",
            "pan half 4",
            "pan stage full",
            "pan full 1",
            "pan full 3",
            "pan full 2",
            "pan full 4",
        ]
    );
    assert_eq!(drive.status("1.1"), "done");
    assert_eq!(drive.number(), "1.2");
}

/// The readings of the step come first; the step needs no word of its own.
#[test]
fn the_other_readings_of_the_step_come_first() {
    let tables = "[readings.bolts]\nwhat = \"bolts\"\nkind = \"count\"\ninformation_only = true\n\
[fasteners.pan]\nwhat = \"bolts of the pan\"\ncount = 'bolts'\nstages = [\"by hand\"]\n";
    let mut drive = Drive::of(tables, "1. Count the bolts: [bolts]. Then tighten [pan].\n");
    assert_eq!(drive.label(), "bolts");
    drive.enter("3");
    for position in ["1", "2", "3"] {
        assert_eq!(drive.label(), format!("pan by hand {position}"));
        drive.done();
    }
    assert_eq!(drive.ask(), Ask::Close);
}

/// A number that is none, is zero or too large: nothing is made up, and there are ways out.
#[test]
fn a_number_of_places_that_cannot_be_is_refused_with_a_way_out() {
    let tables = "[readings.bolts]\nwhat = \"bolts\"\nkind = \"count\"\ninformation_only = true\n\
[fasteners.pan]\nwhat = \"bolts of the pan\"\ncount = 'bolts / 2'\nstages = [\"by hand\"]\n";
    for (wrong, shown) in [("0", "bolts / 2 = 0"), ("3", "bolts / 2 = 1.5"), ("402", "bolts / 2 = 201")] {
        let mut drive = Drive::of(tables, "1. Count the bolts: [bolts].\n2. Tighten [pan].\n");
        drive.enter(wrong);
        let Ask::Fastening(FasteningAsk::NoPlaces { why, .. }) = drive.ask() else {
            panic!("{:?}", drive.ask());
        };
        assert_eq!(why, format!("how many there are: {shown}; that must be a whole number from 1 to 200"));
        assert!(matches!(drive.answer(Answer::Done), Err(Refusal::NotAsked { .. })));
        let mut left_out = drive.clone();
        left_out.take(Answer::NotApplicable { reason: reason() });
        assert!(matches!(left_out.ask(), Ask::Dispose(0)));
        drive.take(Answer::Correct {
            entry: None,
            reading: name("bolts"),
            text: "2".to_owned(),
            reason: reason(),
        });
        assert_eq!(drive.label(), "pan by hand 1");
    }
}

/// Nobody runs into the next stage by habit: the word for a place does not begin a stage.
#[test]
fn a_stage_is_begun_by_its_own_word() {
    let mut drive = pan();
    assert!(matches!(drive.answer(own(FasteningAnswer::StageSet)), Err(Refusal::NotAsked { .. })));
    stage(&mut drive);
    assert_eq!(drive.ask(), Ask::Fastening(FasteningAsk::SetStage { group: name("pan"), stage: 1 }));
    assert!(matches!(drive.answer(Answer::Done), Err(Refusal::NotAsked { .. })));
    set(&mut drive);
    assert_eq!(drive.ask(), Ask::Fastening(FasteningAsk::Tighten(spot(1, "1"))));
}

/// 10 N·m within 4 %: 9.6 to 10.4 N·m, by hand.
#[test]
fn what_was_reached_is_judged_and_a_failing_one_is_asked_again() {
    let mut drive = pan();
    to_full(&mut drive);
    drive.enter("9.5");
    assert_eq!(drive.ask(), Ask::Fastening(FasteningAsk::Failed(spot(2, "1"))));
    assert_eq!(place(&drive, 2, "1"), Place::Failed);
    drive.take(Answer::Again { reason: reason() });
    assert_eq!(drive.ask(), Ask::Fastening(FasteningAsk::Reach(spot(2, "1"))));
    drive.enter("7.1 lbf·ft");
    let tightening = drive.view().tightening(&name("pan")).unwrap().unwrap();
    let reached = tightening.reached(2, "1");
    assert_eq!(reached.iter().map(|entry| entry.text.as_str()).collect::<Vec<_>>(), ["9.5", "7.1 lbf·ft"]);
    // 7.1 lbf·ft = 7.1 × 1.3558179483 N·m = 9.626 N·m (factor: NIST SP 811, appendix B.8).
    assert_eq!(tightening.place(2, "1"), Place::Done);
    assert_eq!(drive.label(), "pan full 3");
    assert_eq!(drive.state.deviations, []);
}

#[test]
fn a_failing_place_can_be_gone_on_with_as_a_deviation() {
    let mut drive = pan();
    to_full(&mut drive);
    drive.enter("12");
    drive.take(Answer::Accept { disposition: Disposition::UseAsIs, reason: reason() });
    assert_eq!(place(&drive, 2, "1"), Place::Deviation(0));
    assert_eq!(drive.state.deviations.len(), 1);
    // Another value, and what was accepted is not that.
    let correct = |text: &str| {
        own(FasteningAnswer::Correct {
            entry: None,
            at: spot(2, "1"),
            text: text.to_owned(),
            reason: reason(),
        })
    };
    drive.take(correct("13"));
    assert_eq!(drive.ask(), Ask::Fastening(FasteningAsk::Failed(spot(2, "1"))));
    drive.take(correct("10.1"));
    assert_eq!(place(&drive, 2, "1"), Place::Done);
    assert_eq!(drive.state.deviations.len(), 1, "it stays numbered");
}

#[test]
fn what_cannot_be_a_torque_is_refused() {
    let mut drive = pan();
    to_full(&mut drive);
    for wrong in ["", "ten", "10 mm", "-10"] {
        assert!(drive.answer(typed(wrong)).is_err(), "{wrong}");
    }
    assert_eq!(drive.label(), "pan full 1");
    assert!(drive.answer(Answer::Done).is_err(), "a place that is read is not done by a word");
    let never = own(FasteningAnswer::Correct {
        entry: None,
        at: spot(2, "3"),
        text: "10".to_owned(),
        reason: reason(),
    });
    assert!(matches!(drive.answer(never), Err(Refusal::NeverTaken { .. })));
}

/// A place that is left out is a numbered deviation from that stage on, and the run cannot be closed before it is
/// decided about.
#[test]
fn a_place_left_out_cannot_hide() {
    let mut drive = pan();
    stage(&mut drive);
    set(&mut drive);
    assert!(drive.answer(own(FasteningAnswer::Skip { reason: " ".to_owned() })).is_err());
    drive.done();
    skip(&mut drive);
    assert_eq!(place(&drive, 0, "3"), Place::Done);
    assert_eq!([place(&drive, 1, "3"), place(&drive, 2, "3")], [Place::Deviation(0); 2]);
    assert_eq!(drive.label(), "pan half 2");
    let open = drive.view().open_items();
    assert!(open.contains(&OpenItem::Deviation { number: 1, reason: reason() }), "{open:?}");
    drive.done();
    drive.done();
    set(&mut drive);
    for _ in 0..3 {
        drive.enter("10");
    }
    assert_eq!(drive.number(), "1.2", "the step is done");
    drive.done();
    assert_eq!(drive.ask(), Ask::Dispose(0));
    assert!(drive.answer(Answer::Close).is_err());
}

/// The way back to the first stage, for one place; the tool has to be set anew for it.
#[test]
fn a_place_loosened_again_goes_through_all_stages() {
    let mut drive = pan();
    to_full(&mut drive);
    drive.enter("10");
    loosen(&mut drive, Some("3"));
    let again = [
        "pan stage by hand",
        "pan by hand 3",
        "pan stage half",
        "pan half 3",
        "pan stage full",
        "pan full 3",
    ];
    for label in again {
        assert_eq!(drive.label(), label);
        match drive.ask() {
            Ask::Fastening(FasteningAsk::SetStage { .. }) => set(&mut drive),
            Ask::Fastening(FasteningAsk::Tighten(_)) => drive.done(),
            _ => drive.enter("10"),
        }
    }
    assert_eq!(drive.label(), "pan full 2");
    assert_eq!(place(&drive, 2, "1"), Place::Done, "the others stay as they are");
}

#[test]
fn all_loosened_again_reopens_a_step_that_was_done_and_keeps_what_was() {
    let mut drive = pan();
    to_full(&mut drive);
    for _ in 0..4 {
        drive.enter("10");
    }
    drive.done();
    assert_eq!(drive.ask(), Ask::Close);
    let acts = drive.view().acts_now(&name("pan")).count();
    loosen(&mut drive, None);
    assert_eq!(drive.label(), "pan stage by hand");
    assert_eq!(drive.view().acts_now(&name("pan")).count(), acts + 1, "nothing is deleted");
    assert!(drive.is_reopened("1.1"));
}

#[test]
fn loosening_needs_something_that_was_tightened() {
    let mut drive = pan();
    let loosened = |group: &str, position: Option<&str>| {
        let position = position.map(str::to_owned);
        own(FasteningAnswer::Loosened { group: Name::from(group), position, reason: reason() })
    };
    assert!(matches!(drive.answer(loosened("pan", None)), Err(Refusal::NothingTightened { .. })));
    drive.done();
    assert!(matches!(drive.answer(loosened("pot", None)), Err(Refusal::NothingTightened { .. })));
    assert!(matches!(drive.answer(loosened("pan", Some("9"))), Err(Refusal::NoSuchPlace { .. })));
}

/// Suspended in the middle of a stage, or ended without a word: it goes on at the very place.
#[test]
fn an_interruption_comes_back_to_the_exact_place() {
    let mut drive = pan();
    stage(&mut drive);
    set(&mut drive);
    drive.done();
    drive.done();
    assert_eq!(drive.label(), "pan half 2");
    let replayed = replay(&drive.book, drive.events.iter().map(|(event, stamp)| (event, stamp)));
    assert_eq!(replayed, drive.state, "what was kept says the same");
    drive.overnight();
    assert_eq!(drive.label(), "pan half 2");
    drive.input(Input::Resume).unwrap();
    drive.take(Answer::AcceptBrief);
    assert_eq!(drive.label(), "pan half 2");
}

/// In a section that is done more than once, each pass tightens anew, and the tool is set back first.
#[test]
fn a_new_pass_is_a_new_group() {
    let tables = format!("{PAN}[repeats.sides]\nwhat = \"both pans\"\neach = [\"left\", \"right\"]\n");
    let mut drive = Drive::of(&tables, "## Pan [sides]\n\n1. Tighten [pan].\n");
    given(&mut drive);
    let pass = |drive: &mut Drive| {
        to_full(drive);
        for _ in 0..4 {
            drive.enter("10");
        }
        drive.take(Answer::Flow(FlowAnswer::Counts));
    };
    pass(&mut drive);
    assert_eq!(drive.label(), "pan stage by hand");
    assert_eq!(place(&drive, 0, "1"), Place::ToDo);
    set(&mut drive);
    pass(&mut drive);
    assert_eq!(drive.ask(), Ask::Close);
    let tightened = drive.events.iter().filter(|(event, _)| {
        matches!(event, Event::Fastening(bayhand::run::FasteningEvent::Tightened { .. }))
    });
    assert_eq!(tightened.count(), 2 * 3 * 4);
}

#[test]
fn a_section_begun_anew_tightens_anew() {
    let mut drive = pan();
    stage(&mut drive);
    drive.take(Answer::Flow(FlowAnswer::Restart { reason: reason() }));
    assert_eq!(drive.label(), "pan by hand 1");
}

/// A target that moves because a reading was corrected makes what was good fail.
#[test]
fn a_target_that_moved_is_judged_anew() {
    let tables = "[readings.dry]\nwhat = \"torque of dry threads\"\nunit = \"N·m\"\ninformation_only = true\n\
[fasteners.pan]\nwhat = \"bolts\"\npositions = [\"a\", \"b\"]\n\
stages = [{ what = \"full\", torque = 'dry', within = \"1 N·m\", read = true }]\n";
    let mut drive = Drive::of(tables, "1. Note [dry].\n2. Tighten [pan].\n");
    drive.enter("20");
    drive.enter("20.5");
    drive.take(Answer::Correct {
        entry: None,
        reading: name("dry"),
        text: "30".to_owned(),
        reason: reason(),
    });
    assert_eq!(drive.ask(), Ask::Fastening(FasteningAsk::Failed(spot(0, "a"))));
}

/// Sections that are done and then confirmed do not swallow a group: it is led place by place.
#[test]
fn a_group_is_led_whatever_the_level_of_use() {
    let tables = format!("{PAN}[levels]\nroutine = \"reference\"\n");
    let mut drive = Drive::of(&tables, "## Pan [routine]\n\n1. Tighten [pan].\n");
    given(&mut drive);
    assert_eq!(drive.label(), "pan by hand 1");
}

/// What somebody does at a group, mostly what is asked.
fn some_answer(drive: &Drive, choice: u8) -> Answer {
    let at = drive.prompt();
    let Ask::Fastening(ask) = at.ask else {
        return if at.ask == Ask::Do { Answer::Done } else { Answer::Note("waits".to_owned()) };
    };
    let places = ["1", "2", "3", "4"].map(str::to_owned);
    let position = Some(places[usize::from(choice / 8) % 4].clone()).filter(|_| !choice.is_multiple_of(3));
    let loosened = own(FasteningAnswer::Loosened { group: name("pan"), position, reason: reason() });
    match (choice % 16, ask) {
        (0, _) => loosened,
        (1, _) => own(FasteningAnswer::Skip { reason: reason() }),
        (2, _) | (4.., FasteningAsk::SetStage { .. }) => own(FasteningAnswer::StageSet),
        (3, _) | (_, FasteningAsk::Tighten(_)) => Answer::Done,
        (_, FasteningAsk::Reach(_)) => typed(["10", "9.9", "12"][usize::from(choice) % 3]),
        (_, FasteningAsk::Nominal(_)) => Answer::Good,
        (4..10, FasteningAsk::Failed(_)) => Answer::Again { reason: reason() },
        (_, FasteningAsk::Failed(_)) => {
            Answer::Accept { disposition: Disposition::UseAsIs, reason: reason() }
        }
        (_, FasteningAsk::NoPlaces { .. }) => Answer::NotApplicable { reason: reason() },
    }
}

fn settled(drive: &Drive) -> usize {
    let places = ["1", "2", "3", "4"];
    let spots = (0..3).flat_map(|stage| places.map(|position| place(drive, stage, position)));
    spots.filter(|place| matches!(place, Place::Done)).count()
}

proptest! {
    #![proptest_config(crate::campaign::cases(60))]

    /// Whatever is answered: an answer makes one entry and at most one place done, each deviation is numbered, and what
    /// was kept says the same when it is read again.
    #[test]
    fn whatever_is_answered_nothing_hides(choices in prop::collection::vec(any::<u8>(), 0..60)) {
        let mut drive = pan();
        for choice in choices {
            let (entries, done) = (drive.events.len(), settled(&drive));
            let taken = drive.answer(some_answer(&drive, choice)).is_ok();
            let called = drive.events.iter().filter(|(event, _)| matches!(event, Event::Flow(_))).count();
            prop_assert!(drive.events.len() - entries <= usize::from(taken) + called);
            prop_assert!(settled(&drive) <= done + 1);
        }
        let departed = drive.events.iter().filter(|(event, _)| {
            use bayhand::run::FasteningEvent::{Accepted, Skipped};
            matches!(event, Event::Fastening(Accepted { .. } | Skipped { .. }))
        });
        prop_assert_eq!(departed.count(), drive.state.deviations.len());
        let replayed = replay(&drive.book, drive.events.iter().map(|(event, stamp)| (event, stamp)));
        prop_assert_eq!(&replayed, &drive.state);
        // And there is a way to the end.
        for _ in 0..60 {
            let answer = match drive.ask() {
                Ask::Dispose(_) => Answer::Dispose { disposition: Disposition::Rework, reason: reason() },
                Ask::Close => Answer::Close,
                Ask::Finished => break,
                _ => some_answer(&drive, 15),
            };
            drive.take(answer);
        }
        prop_assert_eq!(drive.ask(), Ask::Finished);
    }
}

/// The largest group there is: each place once in each stage.
#[test]
fn two_hundred_places_are_led_one_by_one() {
    let tables = "[fasteners.ring]\nwhat = \"ring bolts\"\ncount = 200\norder = \"cross\"\n\
stages = [\"by hand\", \"full\"]\n";
    let mut drive = Drive::of(tables, "1. Tighten [ring].\n");
    let mut asked = std::collections::BTreeSet::new();
    while drive.ask() != Ask::Close {
        if let Ask::Fastening(FasteningAsk::SetStage { .. }) = drive.ask() {
            set(&mut drive);
        } else {
            assert!(asked.insert(drive.label()));
            drive.done();
        }
    }
    assert_eq!(asked.len(), 400);
}

/// Put off in the middle of a stage, it comes back at its point and to the very place, and the section stays open.
#[test]
fn a_group_put_off_comes_back_to_its_place() {
    let mut drive = Drive::of(PAN, "1. Tighten the bolts: [pan].\n2. Wipe the pan.\n3. Fill.\n");
    given(&mut drive);
    drive.done();
    drive.done();
    let before = drive.step("1.3");
    drive.take(Answer::Defer { before, reason: reason() });
    assert_eq!((drive.number().as_str(), drive.status("1.1")), ("1.2", "deferred"));
    drive.done();
    assert_eq!(drive.label(), "pan by hand 2");
    drive.done();
    drive.done();
    assert_eq!(drive.number(), "1.1", "nothing goes on before it is done");
}

/// A calibrated tool is named before it is set for a torque, and on the next day anew; a stage by hand needs none.
#[test]
fn a_calibrated_tool_is_named_before_the_first_stage_that_it_is_set_for() {
    let tables = "[tools.wrench]\nwhat = \"torque wrench\"\ncalibrated = true\n\
[fasteners.pan]\nwhat = \"bolts\"\npositions = [\"a\", \"b\"]\ninstrument = \"wrench\"\n\
stages = [\"by hand\", { what = \"full\", torque = \"10 N·m\", within = \"1 N·m\", read = true }]\n";
    let mut drive = Drive::of(tables, "1. Tighten [pan].\n");
    let asked = Ask::Particular(ParticularAsk::Instrument(name("wrench")));
    let named = |due: &str| {
        let (tool, identity) = (name("wrench"), "TW-1".to_owned());
        Answer::Particular(ParticularAnswer::Instrument { tool, identity, due: due.to_owned() })
    };
    drive.done();
    drive.done();
    assert_eq!(drive.ask(), asked);
    assert!(matches!(drive.answer(own(FasteningAnswer::StageSet)), Err(Refusal::NotAsked { .. })));
    // The run begins on 2026-11-21.
    drive.take(named("2026-11-20"));
    assert_eq!(drive.ask(), Ask::Particular(ParticularAsk::Overdue(name("wrench"))));
    drive.take(named("2027-03-31"));
    set(&mut drive);
    drive.enter("10");
    drive.overnight();
    assert_eq!(drive.ask(), asked, "another day");
    drive.take(named("2027-03-31"));
    drive.enter("10");
    assert_eq!(drive.ask(), Ask::Close);
}
