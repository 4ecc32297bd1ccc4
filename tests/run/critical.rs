//! Before what cannot be undone something is typed; nothing else passes.

use bayhand::run::{Answer, Ask, ParticularAnswer, ParticularAsk, Refusal};

use super::drive::{Drive, name, typed};

const CUT: &str = "[critical.cut]\nwhat = \"the shaft is cut\"\ntype = \"cut it\"\n\
[readings.length]\nwhat = \"length\"\nunit = \"mm\"\ninformation_only = true\n\
[critical.measure]\nwhat = \"cut to this length\"\nvalue = 'length / 2'\n\
[hazards.chips]\nsignal = \"WARNING\"\nhazard = \"Chips\"\nconsequence = \"Eyes\"\navoid = \"Goggles\"\n";
const BODY: &str = "1. Read [length].\n2. [cut] [chips] Saw it off.\n3. [measure] Cut the tube.\n4. Wipe.\n";

fn say(text: &str) -> Answer {
    Answer::Particular(ParticularAnswer::Typed(text.to_owned()))
}

fn at_cut() -> Drive {
    let mut drive = Drive::of(CUT, BODY);
    drive.enter("71 mm");
    assert!(matches!(drive.ask(), Ask::Acknowledge(_)), "the hazard comes first");
    drive.take(Answer::Acknowledge);
    assert_eq!(drive.ask(), Ask::Particular(ParticularAsk::Critical(name("cut"))));
    drive
}

#[test]
fn only_the_words_themselves_pass() {
    let mut drive = at_cut();
    for wrong in ["", "y", "yes", "cut", "cccccccc", "cut it off"] {
        let refusal = drive.answer(say(wrong)).unwrap_err();
        assert!(matches!(refusal, Refusal::NotWhatIsTyped { .. }), "{wrong:?}: {refusal}");
    }
    for other in [Answer::Done, Answer::True, Answer::Acknowledge, typed("cut it")] {
        assert!(matches!(drive.answer(other), Err(Refusal::NotAsked { .. })));
    }
    assert_eq!(drive.ask(), Ask::Particular(ParticularAsk::Critical(name("cut"))));
    drive.take(say(" Cut  IT "));
    assert_eq!(drive.ask(), Ask::Do);
}

#[test]
fn an_amount_is_typed_exactly_in_any_unit() {
    let mut drive = at_cut();
    drive.take(say("cut it"));
    drive.done();
    assert_eq!(drive.ask(), Ask::Particular(ParticularAsk::Critical(name("measure"))));
    assert!(matches!(drive.answer(say("35.4 mm")), Err(Refusal::NotWhatIsTyped { .. })));
    assert!(matches!(drive.answer(say("35.5 N·m")), Err(Refusal::Unreadable(_))));
    let mut in_millimetres = drive.clone();
    in_millimetres.take(say("35.5"));
    drive.take(say("3.55 cm"));
    assert_eq!((drive.ask(), in_millimetres.ask()), (Ask::Do, Ask::Do));
}

/// A third of 71 mm has no last digit: 23.7 mm is what stands where it is worked out, 23.667 mm where it stands alone.
#[test]
fn an_amount_without_a_last_digit_is_typed_as_it_is_shown() {
    let third = "[values.third]\nwhat = \"a third\"\nunit = \"mm\"\nformula = 'length / 3'\n";
    let tables = format!("{}{third}", CUT.replace("'length / 2'", "'third'"));
    let body = "1. Read [length]: [third].\n2. [cut] [chips] Saw it off.\n3. [measure] Cut the tube.\n";
    let mut drive = Drive::of(&tables, body);
    drive.enter("71 mm");
    let shown = drive.view().trace(&name("third")).unwrap().show();
    assert!(shown.ends_with("= 23.7 mm"), "{shown}");
    drive.take(Answer::Acknowledge);
    drive.take(say("cut it"));
    drive.done();
    assert!(matches!(drive.answer(say("23.6 mm")), Err(Refusal::NotWhatIsTyped { .. })));
    assert!(matches!(drive.answer(say("24 mm")), Err(Refusal::NotWhatIsTyped { .. })));
    let mut alone = drive.clone();
    alone.take(say("23.667 mm"));
    drive.take(say("23.7 mm"));
    assert_eq!(drive.ask(), Ask::Do);
}

#[test]
fn it_is_asked_anew_after_a_resume() {
    let mut drive = at_cut();
    drive.take(say("cut it"));
    drive.overnight();
    assert!(matches!(drive.ask(), Ask::Acknowledge(_)));
    drive.take(Answer::Acknowledge);
    assert_eq!(drive.ask(), Ask::Particular(ParticularAsk::Critical(name("cut"))));
    drive.take(say("cut it"));
    drive.done();
    drive.overnight();
    assert_eq!(drive.status("1.2"), "done", "what is done is done");
}
