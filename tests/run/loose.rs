//! Loose ends: left by a step or a person, settled or carried out of the job by name before the run is closed.

use bayhand::run::{Answer, Ask, Became, EndId, FlowAnswer, LooseAnswer, OpenItem, Refusal};

use super::drive::{Drive, name, typed};

const TABLES: &str = "[loose_ends.new_bolt]\nwhat = \"fit a new bolt\"\n\
[readings.state]\nwhat = \"the bolt\"\nchoices = [\"sound\", \"cut\"]\ninformation_only = true\n\
[conditions.was_cut]\nif = 'state == \"cut\"'\n";
const BODY: &str = "## Take off\n\n1. Look at it: [state].\n2. [was_cut] Bag the rest, [new_bolt] is to be done.\n3. Wipe.\n";

fn settle(end: &EndId, how: &str) -> Answer {
    Answer::Loose(LooseAnswer::Settle { end: end.clone(), how: how.to_owned() })
}

fn looked_at(state: &str) -> Drive {
    let mut drive = Drive::of(TABLES, BODY);
    drive.take(typed(state));
    drive
}

#[test]
fn a_step_leaves_its_loose_end_only_where_it_is_done() {
    let mut sound = looked_at("sound");
    sound.done();
    assert!(sound.view().loose_ends().is_empty());
    assert_eq!(sound.ask(), Ask::Close);

    let mut cut = looked_at("cut");
    assert!(cut.view().loose_ends().is_empty(), "not before it is done");
    cut.done();
    let ends = cut.view().loose_ends();
    assert_eq!(ends.len(), 1);
    assert_eq!((ends[0].what.as_str(), ends[0].left_at.as_str()), ("fit a new bolt", "step 1.2"));
    assert!(matches!(&ends[0].id, EndId::Own { name: Some(own), .. } if *own == name("new_bolt")));
}

/// Where nothing of its own is to be done for it, the step before leaves it under a condition.
#[test]
fn a_condition_says_whether_it_is_left() {
    let tables =
        TABLES.replace("what = \"fit a new bolt\"\n", "what = \"fit a new bolt\"\nif = \"was_cut\"\n");
    for (state, left) in [("sound", 0), ("cut", 1)] {
        let mut drive =
            Drive::of(&tables, "1. Look at it: [state]. A cut one leaves [new_bolt].\n2. Wipe.\n");
        drive.take(typed(state));
        assert_eq!(drive.view().loose_ends().len(), left, "{state}");
        let (reading, reason) = (name("state"), "looked again".to_owned());
        let text = if state == "cut" { "sound" } else { "cut" }.to_owned();
        drive.take(Answer::Correct { reading, entry: None, text, reason });
        assert_eq!(drive.view().loose_ends().len(), 1 - left, "corrected from {state}");
    }
}

#[test]
fn a_run_is_not_closed_over_a_loose_end() {
    let mut drive = looked_at("cut");
    drive.done();
    drive.done();
    let Ask::LooseEnd(end) = drive.ask() else { panic!("{:?}", drive.ask()) };
    assert!(matches!(drive.answer(Answer::Close), Err(Refusal::NotAsked { .. })));
    assert!(drive.view().open_items().contains(&OpenItem::LooseEnd { what: "fit a new bolt".to_owned() }));
    assert!(matches!(drive.answer(settle(&end, "  ")), Err(Refusal::Empty(_))));
    drive.take(settle(&end, "new M10 fitted"));
    assert_eq!(drive.ask(), Ask::Close);
    assert!(matches!(drive.answer(settle(&end, "again")), Err(Refusal::NoSuchEnd { .. })));
    drive.take(Answer::Close);
    let ends = drive.view().loose_ends();
    let (became, stamp) = ends[0].became.unwrap();
    assert_eq!(*became, Became::Settled { how: "new M10 fitted".to_owned() });
    assert!(stamp.seq > ends[0].stamp.as_ref().unwrap().seq);
}

#[test]
fn a_person_notes_one_at_any_question_and_carries_it_out_by_name() {
    let mut drive = Drive::of(TABLES, BODY);
    drive.take(Answer::Loose(LooseAnswer::Note { what: "order a breather hose".to_owned() }));
    assert_eq!(drive.label(), "state", "the question stays");
    drive.take(typed("sound"));
    drive.done();
    let Ask::LooseEnd(end) = drive.ask() else { panic!("{:?}", drive.ask()) };
    let carry = |by: &str| {
        let (by, why) = (by.to_owned(), "none in stock".to_owned());
        Answer::Loose(LooseAnswer::CarryOut { end: end.clone(), by, why })
    };
    assert!(matches!(drive.answer(carry(" ")), Err(Refusal::Empty(_))), "by name, or not at all");
    drive.take(carry("Robin Vale"));
    assert_eq!(drive.ask(), Ask::Close);
}

/// What a step left that is corrected away, or whose pass does not count, was never loose.
#[test]
fn what_does_not_hold_any_more_leaves_nothing() {
    let mut drive = looked_at("cut");
    drive.done();
    let (reading, text, reason) = (name("state"), "sound".to_owned(), "looked again".to_owned());
    drive.take(Answer::Correct { reading, entry: None, text, reason });
    assert!(drive.view().loose_ends().is_empty());

    let tables = "[loose_ends.seal]\nwhat = \"renew the seal\"\n[repeats.side]\nwhat = \"side\"\neach = [\"left\", \"right\"]\n";
    let mut drive =
        Drive::of(tables, "## Sides [side]\n\n1. Take it off, [seal] is to be done.\n\n## End\n\n1. Wipe.\n");
    let pass = |drive: &mut Drive, answer: FlowAnswer| {
        drive.done();
        drive.take(Answer::Flow(answer));
    };
    pass(&mut drive, FlowAnswer::Invalid { reason: "the wrong side".to_owned() });
    assert!(drive.view().loose_ends().is_empty(), "{:?}", drive.view().loose_ends());
    pass(&mut drive, FlowAnswer::Counts);
    pass(&mut drive, FlowAnswer::Counts);
    let at: Vec<String> = drive.view().loose_ends().into_iter().map(|end| end.left_at).collect();
    assert_eq!(at.len(), 2, "one a pass: {at:?}");
    assert!(at[0].starts_with("step 1.1, pass") && at[1].contains("right"), "{at:?}");
}
