//! Instruments: which one it is, whether its calibration is good on the day, whether it reads there.

use bayhand::run::{
    Answer, Ask, Disposition, Event, Input, Judgement, Leave, ParticularAnswer, ParticularAsk,
    ParticularEvent, Refusal, SlipCheck,
};
use proptest::prelude::*;

use super::drive::{Drive, book, leave, name, text, typed};

const WRENCH: &str = "[tools.wrench]\nwhat = \"torque wrench\"\ncalibrated = true\nrange = [\"20 N·m\", \"200 N·m\"]\n\
[readings.bolt]\nwhat = \"torque of the bolt\"\nunit = \"N·m\"\nmin = \"45 N·m\"\nmax = \"55 N·m\"\ninstrument = \"wrench\"\n";

/// A run of a test procedure with tools.
pub fn with_tools(tables: &str, body: &str) -> Drive {
    let whole = text(tables, body).replacen("tools = \"none\"\n", "", 1);
    let mut drive = Drive::begin(book(&whole));
    drive.take(Answer::Person("Robin Vale".to_owned()));
    drive.enter("187400 km");
    drive
}

fn instrument(identity: &str, due: &str) -> Answer {
    Answer::Particular(ParticularAnswer::Instrument {
        tool: name("wrench"),
        identity: identity.to_owned(),
        due: due.to_owned(),
    })
}

fn accept() -> Answer {
    Answer::Accept { disposition: Disposition::UseAsIs, reason: "no other at hand".to_owned() }
}

fn asked(ask: ParticularAsk) -> Ask {
    Ask::Particular(ask)
}

#[test]
fn a_calibrated_instrument_is_named_before_its_first_reading_of_the_day() {
    let mut drive = with_tools(WRENCH, "1. Tighten it: [bolt].\n2. Wipe.\n");
    assert_eq!(drive.ask(), asked(ParticularAsk::Instrument(name("wrench"))));
    assert!(matches!(drive.answer(typed("50 N·m")), Err(Refusal::NotAsked { .. })));
    assert!(matches!(drive.answer(instrument("TW-1", "soon")), Err(Refusal::NotADate(_))));
    assert!(matches!(drive.answer(instrument(" ", "2027-03-31")), Err(Refusal::Empty(_))));
    drive.take(instrument("TW-1", "2027-03-31"));
    drive.enter("60 N·m");
    drive.overnight();
    drive.take(Answer::Again { reason: "loosened and tightened anew".to_owned() });
    assert_eq!(drive.ask(), asked(ParticularAsk::Instrument(name("wrench"))), "another day");
    drive.take(instrument("TW-1", "2027-03-31"));
    drive.enter("50 N·m");
    assert_eq!(drive.label(), "1.2");
}

#[test]
fn an_overdue_instrument_is_exchanged_or_is_a_deviation() {
    let mut drive = with_tools(WRENCH, "1. Tighten it: [bolt].\n");
    // The run begins on 2026-11-21: the last good day is still good, the day after is not.
    drive.take(instrument("TW-1", "2026-11-20"));
    assert_eq!(drive.ask(), asked(ParticularAsk::Overdue(name("wrench"))));
    assert!(matches!(drive.answer(typed("50 N·m")), Err(Refusal::NotAsked { .. })));
    let mut exchanged = drive.clone();
    exchanged.take(instrument("TW-2", "2026-11-21"));
    assert_eq!(exchanged.ask(), Ask::Reading(name("bolt")));
    drive.take(accept());
    assert_eq!(drive.state.deviations.len(), 1);
    drive.enter("50 N·m");
    assert_eq!(drive.ask(), Ask::Close);
    let place = drive.view().latest(&name("bolt")).unwrap().place;
    let used = drive.view().instrument_of(&name("bolt"), place).cloned().unwrap();
    assert_eq!((used.identity.as_str(), used.due.to_string().as_str()), ("TW-1", "2026-11-20"));
    assert_eq!(used.accepted, Some(0));
}

#[test]
fn a_reading_outside_the_range_of_its_instrument_fails_whatever_its_limits_say() {
    let tables = WRENCH.replace("min = \"45 N·m\"\nmax = \"55 N·m\"", "information_only = true");
    let mut drive = with_tools(&tables, "1. Tighten it: [bolt].\n");
    drive.take(instrument("TW-1", "2027-03-31"));
    drive.enter("210 N·m");
    assert_eq!(drive.ask(), Ask::Failed(name("bolt")));
    let judged = drive.view().judge(&name("bolt")).unwrap();
    assert!(
        judged
            .judgement
            .to_string()
            .starts_with("fail, outside the range of the torque wrench (20 N·m to 200 N·m)"),
        "{}",
        judged.judgement
    );
    drive.take(Answer::Again { reason: "took the larger one".to_owned() });
    drive.enter("200 N·m");
    assert_eq!(drive.ask(), Ask::Close);
}

#[test]
fn an_instrument_can_be_exchanged_at_any_time_and_only_a_calibrated_one_is_named() {
    let mut drive = with_tools(WRENCH, "1. Wipe.\n2. Tighten it: [bolt].\n");
    drive.take(instrument("TW-7", "2027-01-31"));
    drive.done();
    assert_eq!(drive.ask(), Ask::Reading(name("bolt")));
    drive.take(instrument("TW-8", "2027-02-28"));
    drive.enter("50 N·m");
    assert_eq!(drive.state.particulars.instruments[&name("wrench")].len(), 2);
    let other = ParticularAnswer::Instrument {
        tool: name("bolt"),
        identity: "B-1".to_owned(),
        due: "2027-01-01".to_owned(),
    };
    assert!(matches!(drive.answer(Answer::Particular(other)), Err(Refusal::NotCalibrated { .. })));
}

#[derive(Clone, Debug)]
enum Act {
    Type(u8),
    Name(u8),
    Accept,
    Again,
    Correct(u8),
    Restart,
    Rest,
    Pass(u8),
}

fn acts() -> impl Strategy<Value = Vec<Act>> {
    let act = prop_oneof![
        6 => (40_u8..60).prop_map(Act::Type),
        3 => any::<u8>().prop_map(Act::Name),
        2 => Just(Act::Accept),
        2 => Just(Act::Again),
        1 => any::<u8>().prop_map(Act::Correct),
        1 => Just(Act::Restart),
        1 => Just(Act::Rest),
        2 => any::<u8>().prop_map(Act::Pass),
    ];
    prop::collection::vec(act, 0..60)
}

fn input(act: &Act, drive: &Drive) -> Input {
    let reason = || "reason".to_owned();
    Input::Answer(match act {
        Act::Type(value) => typed(&format!("{value} N·m")),
        Act::Name(day) => instrument("TW", &format!("2026-11-{:02}", 10 + day % 20)),
        Act::Accept => accept(),
        Act::Again => Answer::Again { reason: reason() },
        Act::Correct(value) => Answer::Correct {
            entry: None,
            reading: name("bolt"),
            text: format!("{value} N·m"),
            reason: reason(),
        },
        Act::Restart => Answer::Flow(bayhand::run::FlowAnswer::Restart { reason: reason() }),
        Act::Rest if drive.ask() == Ask::Resting => return Input::Resume,
        Act::Rest => leave(Leave::Suspend),
        Act::Pass(_) => Answer::AcceptBrief,
    })
}

proptest! {
    #![proptest_config(crate::campaign::cases(64))]

    /// Whatever is answered: no reading stands in the journal before somebody has said, on the same day, with which
    /// instrument it is taken; and none with an overdue one without a deviation.
    #[test]
    fn no_reading_without_an_identity_before_it(acts in acts()) {
        let mut drive = with_tools(WRENCH, "1. Tighten it: [bolt].\n2. Again: turn it, [bolt].\n3. Wipe.\n");
        for act in &acts {
            if let Act::Pass(hours) = act {
                drive.pass(i64::from(*hours) * 60);
            }
            let next = input(act, &drive);
            let _ = drive.input(next);
        }
        let mut named: Option<(jiff::civil::Date, jiff::civil::Date)> = None;
        let mut accepted = false;
        for (event, stamp) in &drive.events {
            match event {
                Event::Particular(ParticularEvent::Instrument { due, .. }) => {
                    named = Some((stamp.at.date(), *due));
                    accepted = false;
                }
                Event::Particular(ParticularEvent::OverdueAccepted { .. }) => accepted = true,
                Event::Read { .. } => {
                    let (day, due) = named.expect("a named instrument");
                    prop_assert_eq!(day, stamp.at.date());
                    prop_assert!(due >= day || accepted);
                }
                _ => {}
            }
        }
    }
}

#[test]
fn an_unlikely_value_of_an_instrument_is_asked_about_before_it_is_judged() {
    // Plausibility asks again, acceptance judges; a confirmed value is kept and fails.
    let tables = WRENCH.replace("min =", "plausible = [\"0 N·m\", \"300 N·m\"]\nmin =");
    let mut drive = with_tools(&tables, "1. Tighten it: [bolt].\n2. Wipe.\n");
    drive.take(instrument("TW-1", "2027-03-31"));
    assert!(matches!(drive.answer(typed("4500 N·m")), Err(Refusal::Unlikely { .. })));
    drive.take(Answer::Typed { text: "4500 N·m".to_owned(), slip: SlipCheck::Sure });
    assert_eq!(drive.ask(), Ask::Failed(name("bolt")));
    let judged = drive.view().judge(&name("bolt")).unwrap();
    assert!(matches!(judged.judgement, Judgement::Spoiled(..)));
    drive.take(Answer::Again { reason: "read the wrong scale".to_owned() });
    drive.enter("60 N·m");
    assert_eq!(drive.ask(), Ask::Failed(name("bolt")), "kept, judged, and it does not go on by itself");
}
