//! What must be true of the whole job: the scope covers the vehicle, what is required before, what closes it up after.

use bayhand::run::{
    Answer, Ask, Departure, Disposition, InterruptionAnswer, InterruptionAsk, Leave, OpenItem, Refusal,
    Statement,
};

use super::drive::{Drive, book, leave, text, typed};

const REQUIRED: &str = "required = [\"level ground\", \"engine cold\"]";
const CLOSE_UP: &str = "close_up = [\"the floor is dry\"]";

/// A run that has its people and its odometer; the next question is whether the scope covers the vehicle.
fn begun() -> Drive {
    begun_with("", "1. One.\n2. Two.\n")
}

fn begun_with(tables: &str, body: &str) -> Drive {
    let text = text(tables, body);
    let text = text.replacen("required = \"none\"", REQUIRED, 1).replacen("close_up = \"none\"", CLOSE_UP, 1);
    let mut drive = Drive::begin(book(&text));
    drive.say(Answer::Person("Robin Vale".to_owned())).unwrap();
    drive.say(typed("187400 km")).unwrap();
    assert_eq!(drive.ask(), Ask::Interruption(InterruptionAsk::Scope));
    drive
}

fn untrue(state: &str) -> InterruptionAnswer {
    InterruptionAnswer::Untrue { state: state.to_owned() }
}

fn statement(statement: Statement) -> Ask {
    Ask::Interruption(InterruptionAsk::Statement(statement))
}

/// Outside the applicability the run is blocked unless a deviation is recorded.
#[test]
fn a_vehicle_that_the_procedure_is_not_for_blocks_the_start_unless_a_deviation_is_recorded() {
    let mut drive = begun();
    drive.between(untrue("it has no dipstick"));
    assert_eq!(drive.ask(), Ask::Interruption(InterruptionAsk::Scope), "asked again");
    for past in [Answer::Done, Answer::Close, Answer::NotApplicable { reason: "no".to_owned() }] {
        assert!(matches!(drive.say(past), Err(Refusal::NotAsked { .. })));
    }
    let disposition = Disposition::UseAsIs;
    let bare = InterruptionAnswer::OutOfScope { disposition, reason: String::new() };
    assert!(matches!(drive.say(Answer::Interruption(bare)), Err(Refusal::Empty(_))));
    let mut covered = drive.clone();
    let reason = "the level plug serves as one".to_owned();
    drive.between(InterruptionAnswer::OutOfScope { disposition, reason });
    assert_eq!(drive.state.deviations[0].departure, Departure::Scope);
    assert_eq!(drive.ask(), statement(Statement::Required(0)));
    // It was a mistake: no deviation.
    covered.between(InterruptionAnswer::True);
    assert!(covered.state.deviations.is_empty());
    assert_eq!(covered.ask(), statement(Statement::Required(0)));
}

/// A condition answered "no" blocks the start; nothing goes round it.
#[test]
fn a_required_statement_that_is_not_true_blocks_the_start() {
    let mut drive = begun();
    drive.between(InterruptionAnswer::True);
    drive.between(InterruptionAnswer::True);
    assert_eq!(drive.ask(), statement(Statement::Required(1)));
    let nothing = Answer::Interruption(untrue(" "));
    assert!(matches!(drive.say(nothing), Err(Refusal::Empty(_))));
    drive.between(untrue("it has just run"));
    assert_eq!(drive.state.interruption.unmet[&Statement::Required(1)], "it has just run");
    let out =
        InterruptionAnswer::OutOfScope { disposition: Disposition::UseAsIs, reason: "hurry".to_owned() };
    for past in [Answer::Done, Answer::Close, Answer::Interruption(out)] {
        assert!(matches!(drive.say(past), Err(Refusal::NotAsked { .. })));
    }
    // Leaving and coming back does not go round it either.
    drive.take(leave(Leave::Suspend));
    drive.input(bayhand::run::Input::Resume).unwrap();
    drive.say(Answer::AcceptBrief).unwrap();
    assert_eq!(drive.ask(), statement(Statement::Required(1)));
    drive.between(InterruptionAnswer::True);
    assert_eq!(drive.label(), "1.1");
}

/// The close-up is confirmed one by one after the last step, before the run is closed.
#[test]
fn the_close_up_is_confirmed_before_the_run_is_closed() {
    let mut drive = begun();
    for _ in 0..3 {
        drive.between(InterruptionAnswer::True);
    }
    drive.done();
    drive.done();
    assert_eq!(drive.ask(), statement(Statement::CloseUp(0)));
    assert_eq!(drive.label(), "close-up 1");
    drive.between(untrue("oil under the case"));
    assert!(matches!(drive.say(Answer::Close), Err(Refusal::NotAsked { .. })));
    let open = drive.view().open_items();
    assert_eq!(open, [OpenItem::Statement { words: "the floor is dry".to_owned() }]);
    drive.between(InterruptionAnswer::True);
    assert_eq!(drive.ask(), Ask::Close);
    drive.take(Answer::Close);
}

/// What was confirmed before the last step was done says nothing of now.
#[test]
fn a_step_done_anew_asks_for_the_close_up_again() {
    let look = "[readings.look]\nwhat = \"the look\"\nchoices = [\"dry\", \"wet\"]\naccept = [\"dry\"]\n";
    let mut drive = begun_with(look, "1. Take the [look].\n2. Two.\n");
    for _ in 0..3 {
        drive.between(InterruptionAnswer::True);
    }
    drive.enter("dry");
    drive.done();
    drive.between(InterruptionAnswer::True);
    assert_eq!(drive.ask(), Ask::Close);
    drive.take(leave(Leave::Suspend));
    drive.pass(240);
    drive.input(bayhand::run::Input::Resume).unwrap();
    drive.say(Answer::AcceptBrief).unwrap();
    drive.between(untrue("it dripped"));
    drive.enter("dry");
    assert_eq!(drive.ask(), statement(Statement::CloseUp(0)));
}
