//! Leaving and coming back: what is asked before the run rests, what when it is taken up again, where it can be left.

use bayhand::run::{
    Answer, Ask, CanStop, FlowAnswer, Input, InterruptionAnswer, InterruptionAsk, Leave, Refusal, Statement,
};

use super::drive::{Drive, leave, name, typed};

const SUPPORT: &str = "[holds.support]\nwhat = \"Support\"\nconfirm = [\"on stands\"]\nrelease = \"lead\"\n\
lapses = [\"resume\", \"disturbed\"]\nprotection = \"vehicle on stands\"\n\
[holds.down]\nwhat = \"Down\"\nconfirm = [\"nobody under it\", \"tools clear\"]\nrelease = \"lead\"\nends = [\"support\"]\n\
[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\nmax = \"5 mm\"\n\
[readings.rest]\nwhat = \"rest\"\nunit = \"mm\"\ninformation_only = true\n\
[values.sum]\nwhat = \"sum\"\nunit = \"mm\"\nformula = \"gap + rest\"\n";
const BODY: &str = "## Lift\n\n1. Chock the wheels.\n2. Lift it: [support].\n\n## Work\n\n1. Measure [gap].\n\
2. Read [rest]: [sum].\n3. Undo the bolts.\n4. Do them up.\n\n## Close\n\n1. Lower it: [down].\n2. Tidy up.\n";

/// A run under support, at the first step of the work.
fn lifted() -> Drive {
    let mut drive = Drive::of(SUPPORT, BODY);
    drive.done();
    drive.release();
    assert_eq!(drive.label(), "gap");
    drive
}

/// ... and three steps further, at the last of the work.
fn undone() -> Drive {
    let mut drive = lifted();
    drive.enter("2 mm");
    drive.enter("3 mm");
    drive.done();
    assert_eq!(drive.label(), "2.4");
    drive
}

/// Verifies and releases what is asked about, and answers nothing else.
fn release(drive: &mut Drive) {
    loop {
        let answer = match drive.ask() {
            Ask::Confirm { .. } => Answer::True,
            Ask::Release { .. } => Answer::Release { said: "RV".to_owned() },
            _ => return,
        };
        drive.say(answer).unwrap();
    }
}

fn protection() -> Ask {
    Ask::Interruption(InterruptionAsk::Protection(name("support")))
}

fn standing() -> Ask {
    Ask::Interruption(InterruptionAsk::Standing)
}

/// A sitting that ended without a word: the state of things comes before anything else.
#[test]
fn after_a_kill_the_state_of_things_is_asked_before_anything_else() {
    let mut drive = undone();
    drive.input(Input::Resume).unwrap();
    assert_eq!(drive.ask(), standing());
    assert!(matches!(drive.say(Answer::AcceptBrief), Err(Refusal::NotAsked { .. })));
    assert!(matches!(drive.say(Answer::Done), Err(Refusal::NotAsked { .. })));
    let nothing = Answer::Interruption(InterruptionAnswer::Standing { state: "  ".to_owned() });
    assert!(matches!(drive.say(nothing), Err(Refusal::Empty(_))));
    drive.between(InterruptionAnswer::Standing { state: "two bolts out".to_owned() });
    assert_eq!(drive.ask(), Ask::Brief);
    assert_eq!(drive.state.interruption.found.as_ref().unwrap().0, "two bolts out");
    // Broken off once more before the brief was read: it was said, and is not asked twice.
    drive.input(Input::Resume).unwrap();
    assert_eq!(drive.ask(), Ask::Brief);
}

/// Before the work has begun there is no state of things to speak of; a state note is not asked for twice.
#[test]
fn the_state_is_asked_only_where_nobody_said_it() {
    let mut drive = Drive::begin(super::drive::book(&super::drive::text("", "1. One.\n")));
    drive.input(Input::Resume).unwrap();
    assert_eq!(drive.ask(), Ask::Brief);
    let mut drive = undone();
    drive.take(leave(Leave::Suspend));
    drive.input(Input::Resume).unwrap();
    assert_eq!(drive.ask(), Ask::Brief);
}

/// What comes first next time is kept with the state; a stop does not ask for it.
#[test]
fn suspending_keeps_what_comes_first_next_time() {
    let mut drive = undone();
    let (reason, state) = ("supper".to_owned(), "bolts out".to_owned());
    let first = Some("the bolts".to_owned());
    drive.take(Answer::Leave { how: Leave::Suspend, reason, state, first });
    assert_eq!(drive.state.left.as_ref().unwrap().first.as_deref(), Some("the bolts"));
}

/// Stop in the middle: the close-up of every protection in force is offered before the run can rest.
#[test]
fn before_the_run_rests_the_close_up_of_every_protection_in_force_is_offered() {
    for how in [Leave::Suspend, Leave::Stop] {
        let mut drive = undone();
        drive.say(leave(how)).unwrap();
        assert_eq!(drive.ask(), protection());
        assert!(matches!(drive.say(Answer::Done), Err(Refusal::NotAsked { .. })), "no work meanwhile");
        let mut kept = drive.clone();
        kept.between(InterruptionAnswer::Keep);
        assert_eq!(kept.ask(), Ask::Resting);
        assert_eq!(kept.view().protections().len(), 1);
        drive.between(InterruptionAnswer::MakeSafe);
        drive.say(Answer::True).unwrap();
        drive.say(Answer::True).unwrap();
        assert_eq!(drive.ask(), Ask::Release { hold: name("down"), role: name("lead") });
        drive.say(Answer::Release { said: "RV".to_owned() }).unwrap();
        assert!(drive.view().protections().is_empty());
        // The state that was said before does not hold any more.
        assert_eq!(drive.ask(), standing());
        drive.between(InterruptionAnswer::Standing { state: "on its wheels".to_owned() });
        assert_eq!(drive.ask(), Ask::Resting);
    }
}

/// Work goes on only under the protection again, and then it is ended again.
#[test]
fn a_protection_that_was_ended_early_is_put_in_force_and_ended_anew() {
    let mut drive = undone();
    drive.say(leave(Leave::Suspend)).unwrap();
    drive.between(InterruptionAnswer::MakeSafe);
    drive.release();
    drive.input(Input::Resume).unwrap();
    drive.take(Answer::AcceptBrief);
    assert_eq!(drive.ask(), Ask::Confirm { hold: name("support"), item: 0 });
    drive.release();
    assert_eq!(drive.label(), "2.4");
    drive.done();
    assert_eq!(drive.ask(), Ask::Confirm { hold: name("down"), item: 0 });
    drive.release();
    drive.done();
    drive.take(Answer::Close);
    assert_eq!(drive.ask(), Ask::Finished);
}

/// Where it cannot be ended, it is offered again: nobody is caught in it.
#[test]
fn what_cannot_be_ended_now_can_still_be_kept() {
    let mut drive = undone();
    drive.say(leave(Leave::Stop)).unwrap();
    drive.between(InterruptionAnswer::MakeSafe);
    drive.say(Answer::Untrue { state: "somebody is under it".to_owned() }).unwrap();
    assert_eq!(drive.ask(), protection());
    drive.between(InterruptionAnswer::Keep);
    assert_eq!(drive.ask(), Ask::Resting);
    assert_eq!(drive.view().protections().len(), 1);
}

/// After an hour those of the last three steps at which the state of something was judged are confirmed one by one, under
/// their hold points: an act stays done, and a finding stays a finding.
#[test]
fn after_an_hour_what_can_have_changed_is_looked_at_again() {
    let mut drive = undone();
    drive.take(leave(Leave::Suspend));
    drive.pass(60);
    drive.input(Input::Resume).unwrap();
    drive.say(Answer::AcceptBrief).unwrap();
    let mut looked_at = Vec::new();
    while drive.label() != "2.4" {
        match drive.ask() {
            Ask::Confirm { .. } => drive.say(Answer::True).unwrap(),
            Ask::Release { .. } => drive.say(Answer::Release { said: "RV".to_owned() }).unwrap(),
            _ => {
                assert!(drive.view().stands(&name("support")), "nobody looks under it before it is safe");
                looked_at.push(drive.label());
                assert!(matches!(drive.say(Answer::Done), Err(Refusal::NotAsked { .. })));
                drive.between(InterruptionAnswer::True);
            }
        }
    }
    assert_eq!(looked_at, ["check 2.1"]);
}

#[test]
fn after_less_than_an_hour_only_the_brief_is_read() {
    let mut drive = undone();
    drive.take(leave(Leave::Suspend));
    drive.pass(59);
    drive.input(Input::Resume).unwrap();
    drive.say(Answer::AcceptBrief).unwrap();
    release(&mut drive);
    assert_eq!(drive.label(), "2.4");
}

/// A clock that was set back says nothing of how much time has passed.
#[test]
fn a_clock_set_back_counts_as_an_hour() {
    let mut drive = undone();
    drive.take(leave(Leave::Suspend));
    drive.pass(-120);
    drive.input(Input::Resume).unwrap();
    assert_eq!(drive.state.interruption.recheck.len(), 1);
}

/// Broken off again and again within the hour, the absence is still as long as it was.
#[test]
fn the_hour_is_not_lost_when_the_brief_is_broken_off() {
    let mut drive = undone();
    drive.take(leave(Leave::Suspend));
    for _ in 0..3 {
        drive.pass(30);
        drive.input(Input::Resume).unwrap();
    }
    assert_eq!(drive.state.interruption.recheck.len(), 1);
}

/// What is not so any more is done anew, with what rests on it.
#[test]
fn a_step_that_is_not_so_any_more_is_reopened_with_what_rests_on_it() {
    let mut drive = undone();
    drive.take(leave(Leave::Suspend));
    drive.pass(240);
    drive.input(Input::Resume).unwrap();
    drive.say(Answer::AcceptBrief).unwrap();
    release(&mut drive);
    assert_eq!(drive.label(), "check 2.1");
    let nothing = Answer::Interruption(InterruptionAnswer::Untrue { state: String::new() });
    assert!(matches!(drive.say(nothing), Err(Refusal::Empty(_))));
    drive.between(InterruptionAnswer::Untrue { state: "it was bent".to_owned() });
    assert_eq!(drive.status("2.1"), "current");
    assert!(drive.is_reopened("2.1"));
    assert_ne!(drive.status("2.2"), "done", "its sum rests on the gap");
    assert_eq!(drive.status("2.3"), "done");
    assert_eq!(drive.label(), "gap");
    assert_eq!(drive.state.attempts(&name("gap")), 1, "the first is kept");
    drive.say(typed("4 mm")).unwrap();
    assert_eq!(drive.status("2.2"), "done");
    assert_eq!(drive.state.attempts(&name("gap")), 2);
}

/// A hold point vouches for what stands before it.
#[test]
fn a_step_before_a_hold_point_that_is_not_so_any_more_shuts_it() {
    let chocks =
        "[readings.chocks]\nwhat = \"chocks\"\nchoices = [\"four\", \"fewer\"]\naccept = [\"four\"]\n";
    let tables = format!("{}{chocks}", SUPPORT.replace("\"resume\", ", ""));
    let mut drive = Drive::of(&tables, &BODY.replace("Chock the wheels.", "Count the [chocks]."));
    drive.enter("four");
    drive.release();
    drive.take(leave(Leave::Suspend));
    drive.pass(240);
    drive.input(Input::Resume).unwrap();
    drive.say(Answer::AcceptBrief).unwrap();
    assert_eq!(drive.label(), "check 1.1");
    assert!(drive.view().stands(&name("support")));
    drive.between(InterruptionAnswer::Untrue { state: "a chock is gone".to_owned() });
    assert!(!drive.view().stands(&name("support")));
    assert_eq!(drive.label(), "chocks");
    drive.enter("four");
    assert_eq!(drive.ask(), Ask::Confirm { hold: name("support"), item: 0 });
}

const POINT: &str = "[stopping_points]\nbolts_out = \"the bolts are in the tray\"\n";

fn with_a_point() -> Drive {
    let body = BODY.replace("Undo the bolts.", "[bolts_out] Undo the bolts.");
    let mut drive = Drive::of(&format!("{SUPPORT}{POINT}"), &body);
    assert!(matches!(drive.view().can_stop(), CanStop::Yes("nothing is begun yet")));
    drive.done();
    drive.release();
    drive
}

/// Can I stop here? No: what is begun, and the next place where one can, with the steps until then.
#[test]
fn whether_the_job_can_be_left_here_and_where_it_can_next() {
    let mut drive = with_a_point();
    let place = |drive: &Drive| match drive.view().can_stop() {
        CanStop::Yes(state) => (state.to_owned(), 0),
        CanStop::No(place) => {
            let next = place.next.map_or("none", |(step, _)| step.number.as_str());
            (format!("after {next}"), place.away)
        }
    };
    assert_eq!(place(&drive), ("after 2.3".to_owned(), 3));
    drive.enter("2 mm");
    assert_eq!(place(&drive), ("after 2.3".to_owned(), 2));
    drive.enter("3 mm");
    drive.done();
    assert_eq!(place(&drive), ("the bolts are in the tray".to_owned(), 0));
    drive.done();
    assert_eq!(place(&drive), ("after none".to_owned(), 2));
    // Allowed all the same.
    drive.take(leave(Leave::Suspend));
    assert_eq!(drive.ask(), Ask::Resting);
}

/// In a repeat the last that was done counts, not the last that is still complete; fasteners half tight are begun.
#[test]
fn a_stopping_point_before_a_repeat_is_none_in_the_middle_of_it() {
    let tables = "[stopping_points]\nlaid_out = \"all is laid out\"\n[repeats.side]\nwhat = \"both sides\"\n\
each = [\"left\", \"right\"]\n[fasteners.lid]\nwhat = \"lid\"\npositions = [\"1\", \"2\"]\nstages = [\"by hand\"]\n";
    let body =
        "## Kit\n\n1. [laid_out] Lay out.\n\n## Off [side]\n\n1. Take off the [side] one.\n2. Turn [lid].\n";
    let mut drive = Drive::of(tables, body);
    let can = |drive: &Drive| matches!(drive.view().can_stop(), CanStop::Yes(_));
    drive.done();
    assert!(can(&drive));
    drive.done();
    assert!(!can(&drive));
    let tighten = || Answer::Done;
    drive.take(tighten());
    assert!(!can(&drive), "half tight");
    drive.take(tighten());
    drive.take(Answer::Flow(FlowAnswer::Counts));
    assert!(!can(&drive), "one side is off");
}

/// A statement about the whole job: see `before_after`.
#[test]
fn a_word_for_each_question_between_the_steps() {
    let asks = [
        InterruptionAsk::Scope,
        InterruptionAsk::Statement(Statement::Required(0)),
        InterruptionAsk::Statement(Statement::CloseUp(0)),
        InterruptionAsk::Standing,
        InterruptionAsk::StillSo(bayhand::procedure::StepId(0)),
        InterruptionAsk::Protection(name("support")),
        InterruptionAsk::Approval(bayhand::procedure::StepId(0)),
    ];
    let words: std::collections::BTreeSet<&str> = asks.iter().map(InterruptionAsk::word).collect();
    assert_eq!(words.len(), asks.len(), "{words:?}");
}
