//! Who looks at whose work: sign-off, verification, re-inspection, witnesses, challenge and response.

use bayhand::run::{Answer, Ask, Departure, PeopleAnswer, PeopleAsk, PeopleRefusal, Refusal};

use super::drive::{Drive, name};

const ROLES: &str =
    "[roles]\nlead = \"does the work\"\n[roles.helper]\nwhat = \"helps\"\nchecked_by = \"lead\"\n";
const CHECK: &str = "[roles]\nlead = \"does the work\"\nhelper = \"checks\"\n\
[checks.pins]\nwhat = \"the pins stand in the holes marked 2\"\nby = \"helper\"\nalone = \"10 min\"\n";

fn sign(said: &str) -> Answer {
    Answer::Release { said: said.to_owned() }
}

fn again(said: &str) -> Answer {
    let reason = "nobody else is in the shop".to_owned();
    Answer::People(PeopleAnswer::Reinspect { said: said.to_owned(), reason })
}

fn untrue(state: &str) -> Answer {
    Answer::Untrue { state: state.to_owned() }
}

fn hand_over(drive: &mut Drive, role: &str, person: &str) {
    let note = "half done".to_owned();
    let answer = PeopleAnswer::TakeOver { role: name(role), person: person.to_owned(), note };
    drive.take(Answer::People(answer));
    drive.take(sign(person));
}

#[test]
fn a_helpers_step_awaits_the_check_of_whoever_answers_for_it() {
    let mut drive = Drive::of(ROLES, "1. [helper] Clean the seat.\n2. Fit the ring.\n");
    drive.done();
    assert_eq!(drive.ask(), Ask::People(PeopleAsk::SignOff(name("lead"))));
    assert_eq!(drive.label(), "sign-off 1.1");
    let step = drive.book.procedure.step(drive.step("1.1")).unwrap();
    assert_eq!(drive.view().awaits(step).as_deref(), Some("awaiting check by Robin Vale (lead)"));
    assert_ne!(drive.status("1.1"), "done");
    let open: Vec<String> = drive.view().open_items().iter().map(ToString::to_string).collect();
    assert!(open.contains(&"step 1.1 is awaiting check".to_owned()), "{open:?}");
    assert!(matches!(drive.answer(sign("SH")), Err(Refusal::People(PeopleRefusal::NotThatPerson { .. }))));
    drive.take(sign("rv"));
    assert_eq!((drive.status("1.1"), drive.label().as_str()), ("done", "1.2"));
}

#[test]
fn a_step_of_both_or_of_the_lead_awaits_nobody() {
    let mut drive = Drive::of(ROLES, "1. [lead] [helper] Lift it.\n2. Fit the ring.\n3. [helper] Sweep.\n");
    drive.done();
    drive.done();
    assert_eq!(drive.label(), "1.3");
}

#[test]
fn whoever_signs_off_sends_it_back_when_it_is_not_so() {
    let mut drive = Drive::of(ROLES, "1. [helper] Clean the seat.\n2. Fit the ring.\n");
    drive.done();
    drive.take(untrue("grit in the groove"));
    assert_eq!((drive.ask(), drive.number().as_str()), (Ask::Do, "1.1"));
    assert!(drive.is_reopened("1.1"));
    drive.done();
    assert_eq!(drive.label(), "sign-off 1.1", "the sign-off is asked for anew");
    drive.take(sign("RV"));
    assert_eq!(drive.label(), "1.2");
}

#[test]
fn one_who_changed_roles_does_not_sign_off_their_own_work() {
    let mut drive = Drive::of(ROLES, "1. [helper] Clean the seat.\n");
    drive.done();
    hand_over(&mut drive, "helper", "Kim Day");
    hand_over(&mut drive, "lead", "Sam Hollis");
    assert!(matches!(drive.answer(sign("SH")), Err(Refusal::People(PeopleRefusal::OwnWork { .. }))));
}

#[test]
fn a_check_is_another_persons() {
    let mut drive = Drive::of(CHECK, "1. [pins] Set the pins.\n2. Go on.\n");
    drive.done();
    assert_eq!(drive.ask(), Ask::People(PeopleAsk::Check(name("pins"))));
    assert!(matches!(drive.answer(sign("RV")), Err(Refusal::People(PeopleRefusal::NotThatPerson { .. }))));
    drive.take(sign("SH"));
    assert_eq!((drive.status("1.1"), drive.label().as_str()), ("done", "1.2"));
    assert!(drive.state.deviations.is_empty());
}

#[test]
fn the_same_person_in_another_role_is_refused_with_the_way_forward() {
    let mut drive = Drive::of(CHECK, "1. [pins] Set the pins.\n2. Go on.\n");
    hand_over(&mut drive, "helper", "Robin Vale");
    drive.done();
    let refused = drive.answer(sign("RV")).unwrap_err();
    assert!(matches!(refused, Refusal::People(PeopleRefusal::OwnWork { .. })));
    let said = refused.to_string();
    assert!(
        said.contains("hands the role helper over") && said.contains("after a break of 10 min"),
        "{said}"
    );
}

#[test]
fn one_who_worked_on_it_before_the_hand_over_is_no_other_person() {
    let readings = "[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\ninformation_only = true\n";
    let mut drive = Drive::of(
        &format!("{CHECK}{readings}"),
        "1. [pins] Set the pins.\n   1. Push them in.\n   2. Read [gap].\n",
    );
    drive.done();
    hand_over(&mut drive, "lead", "Kim Day");
    hand_over(&mut drive, "helper", "Robin Vale");
    drive.enter("2 mm");
    assert_eq!(drive.label(), "pins");
    assert!(matches!(drive.answer(sign("RV")), Err(Refusal::People(PeopleRefusal::OwnWork { .. }))));
}

#[test]
fn alone_it_is_a_re_inspection_after_a_break_and_a_deviation() {
    let mut drive = Drive::of(CHECK, "1. [pins] Set the pins.\n2. Go on.\n");
    drive.done();
    assert!(matches!(drive.answer(again("RV")), Err(Refusal::People(PeopleRefusal::TooSoon { .. }))));
    drive.pass(9);
    assert!(matches!(drive.answer(again("RV")), Err(Refusal::People(PeopleRefusal::TooSoon { .. }))));
    drive.pass(1);
    assert!(matches!(drive.answer(again("SH")), Err(Refusal::People(PeopleRefusal::NotAPerformer { .. }))));
    let silent = PeopleAnswer::Reinspect { said: "RV".to_owned(), reason: " ".to_owned() };
    assert!(matches!(drive.answer(Answer::People(silent)), Err(Refusal::Empty(_))));
    drive.take(again("RV"));
    let departure = &drive.state.deviations[0].departure;
    assert_eq!(*departure, Departure::Reinspected(drive.step("1.1"), name("pins")));
    assert!(drive.view().departure(departure).contains("re-inspection (one person)"));
    assert_eq!(drive.label(), "1.2");
    drive.done();
    assert!(matches!(drive.ask(), Ask::Dispose(0)));
}

#[test]
fn without_leave_of_the_procedure_nobody_re_inspects_alone() {
    let tables = CHECK.replace("alone = \"10 min\"\n", "");
    let mut drive = Drive::of(&tables, "1. [pins] Set the pins.\n");
    drive.done();
    drive.pass(60);
    assert!(matches!(drive.answer(again("RV")), Err(Refusal::People(PeopleRefusal::NeverAlone { .. }))));
}

#[test]
fn a_check_that_finds_it_otherwise_has_the_step_done_anew() {
    let readings = "[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\ninformation_only = true\n";
    let mut drive =
        Drive::of(&format!("{CHECK}{readings}"), "1. [pins] Set the pins and read [gap].\n2. Go on.\n");
    drive.enter("2 mm");
    drive.take(untrue("one pin in hole 3"));
    assert_eq!(drive.ask(), Ask::Reading(name("gap")));
    drive.enter("2.5 mm");
    assert_eq!(drive.label(), "pins", "verified anew");
    drive.take(sign("SH"));
    assert_eq!(drive.label(), "1.2");
    assert_eq!(drive.state.attempts(&name("gap")), 2, "the first reading is kept");
}

#[test]
fn in_a_repeat_each_pass_is_verified() {
    let tables = format!("{CHECK}[repeats.studs]\nwhat = \"each stud\"\neach = [\"left\", \"right\"]\n");
    let mut drive = Drive::of(&tables, "1. [studs] [pins] Set the pin.\n2. Go on.\n");
    for _ in 0..2 {
        drive.done();
        assert_eq!(drive.label(), "pins");
        drive.take(sign("SH"));
        drive.take(Answer::Flow(bayhand::run::FlowAnswer::Counts));
    }
    assert_eq!(drive.label(), "1.2");
}

const WITNESS: &str = "[roles]\nlead = \"does the work\"\nhelper = \"watches\"\n\
[witnesses.seal]\nwhat = \"the seal before it goes in\"\nby = \"helper\"\n";

#[test]
fn a_witness_is_called_before_the_step_and_never_blocks_it() {
    let mut drive = Drive::of(WITNESS, "1. [seal] Press the seal in.\n2. [seal] And the other.\n");
    assert_eq!(drive.ask(), Ask::People(PeopleAsk::Witness(name("seal"))));
    assert!(matches!(drive.answer(sign("RV")), Err(Refusal::People(PeopleRefusal::NotThatPerson { .. }))));
    drive.take(sign("SH"));
    drive.done();
    assert_eq!(drive.label(), "seal");
    drive.take(Answer::People(PeopleAnswer::Absent { reason: "at the telephone".to_owned() }));
    drive.done();
    assert_eq!(drive.label(), "close");
    assert!(drive.state.deviations.is_empty(), "a witness point without a witness is no deviation");
}

#[test]
fn nobody_witnesses_their_own_step() {
    let mut drive = Drive::of(WITNESS, "1. [seal] Press the seal in.\n");
    hand_over(&mut drive, "helper", "Robin Vale");
    assert!(matches!(drive.answer(sign("RV")), Err(Refusal::People(PeopleRefusal::OwnWork { .. }))));
}

const STATE: &str = "[roles]\nlead = \"reads aloud\"\nhelper = \"answers\"\n\
[readings.selector]\nwhat = \"selector\"\nkind = \"text\"\n\
[readings.lever]\nwhat = \"lever\"\nchoices = [\"P\", \"N\", \"D\"]\naccept = [\"P\"]\n";

/// D&W, guideline 4: the response is the actual status or value.
#[test]
fn a_word_that_says_nothing_of_the_state_is_no_answer() {
    let mut drive = Drive::of(STATE, "1. [helper] Look: [selector].\n2. [helper] Look: [lever].\n");
    for word in ["ok", "OK.", "yes", "checked", "Checked!", "done", "good", "\"ok\""] {
        assert!(matches!(drive.answer(super::drive::typed(word)), Err(Refusal::NotAState(_))), "{word}");
    }
    drive.enter("in P, button out");
    drive.enter("D");
    assert_eq!(
        drive.ask(),
        Ask::Failed(name("lever")),
        "a response unlike the expected one does not advance"
    );
    assert!(drive.answer(Answer::Done).is_err());
    drive.take(Answer::Again { reason: "lever moved to P".to_owned() });
    drive.enter("P");
    assert_eq!(drive.label(), "close");
}
