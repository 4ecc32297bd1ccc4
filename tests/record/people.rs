//! What people did stands in the record, each under the name that counted then.

use bayhand::record::model::Record;
use bayhand::record::{to_json, verify};
use bayhand::run::{Answer, Disposition, Input, Leave, PeopleAnswer};
use bayhand::{procedure::Name, record::text::render};

use super::same_fields::compare;
use super::support::Bench;

fn people(answer: PeopleAnswer) -> Answer {
    Answer::People(answer)
}

fn sign(said: &str) -> Answer {
    Answer::Release { said: said.to_owned() }
}

fn present(names: [&str; 2]) -> Answer {
    people(PeopleAnswer::Present(names.map(str::to_owned).to_vec()))
}

/// Two people, then a third for one of them; two readings that differ and two that agree.
pub fn two_people() -> Record {
    let mut bench = Bench::of_people();
    bench.give(Answer::Person("Robin Vale".to_owned())).give(Answer::Person("Sam Hollis".to_owned()));
    bench.typed("152 300 km").give(present(["RV", "SH"])).give(Answer::Acknowledge);
    bench.give(Answer::True).give(sign("RV"));
    bench.give(people(PeopleAnswer::Absent { reason: "at the telephone".to_owned() }));
    bench.typed("50").typed("47").give(Answer::Again { reason: "the wrench slipped".to_owned() });
    bench.typed("50").typed("51");
    bench.give(Answer::Untrue { state: "the mark is missing".to_owned() });
    bench.give(sign("SH")).typed("50").typed("35 lbf·ft");
    bench.give(Answer::Accept { disposition: Disposition::UseAsIs, reason: "an old wrench".to_owned() });
    bench.give(sign("SH"));
    let note = "the lever is next".to_owned();
    let role = Name::from("helper");
    bench.give(people(PeopleAnswer::TakeOver { role, person: "Kim Day".to_owned(), note }));
    bench
        .give(sign("KD"))
        .give(present(["RV", "KD"]))
        .give(Answer::Acknowledge)
        .give(Answer::True)
        .give(sign("RV"));
    bench.typed("in P").give(sign("Robin Vale"));
    bench.leave(Leave::Suspend, "supper", "all tight").pass(30);
    bench.take(Input::Resume).give(Answer::AcceptBrief).typed("12 mm");
    bench.close();
    bench.record()
}

#[test]
fn data_and_text_say_the_same_of_people() {
    compare(&two_people());
}

#[test]
fn it_is_verified_from_itself_alone() {
    assert_eq!(verify(&to_json(&two_people())), Ok(()));
}

#[test]
fn each_second_reading_stands_with_its_first_and_both_names() {
    let record = two_people();
    let torque = record.readings.iter().filter(|reading| reading.name == "torque");
    let said: Vec<(&str, &str, &str)> = torque
        .flat_map(|reading| &reading.attempts)
        .map(|attempt| {
            let second = attempt.second.last().unwrap();
            (attempt.who[0].as_str(), second.who.as_str(), second.agreement.as_str())
        })
        .collect();
    let differ = ("Robin Vale", "Sam Hollis", "the two readings differ");
    let gone_on = ("Robin Vale", "Sam Hollis", "the two readings differ, gone on with");
    assert_eq!(said, [differ, ("Robin Vale", "Sam Hollis", "the two readings agree"), gone_on]);
}

/// One act, two people, both names on the reading.
#[test]
fn a_reading_of_two_at_once_has_both_names() {
    let record = two_people();
    let level = record.readings.iter().find(|reading| reading.name == "level").unwrap();
    assert_eq!(level.attempts[0].who, ["Robin Vale", "Kim Day"]);
    let step = record.steps.iter().find(|step| step.number == "1.4").unwrap();
    assert_eq!(step.who, ["Robin Vale", "Kim Day"]);
}

#[test]
fn whoever_looked_stands_with_whoever_did_it() {
    let record = two_people();
    let looks: Vec<(&str, Option<&str>, &str)> = record
        .looks
        .iter()
        .map(|look| (look.kind.as_str(), look.who.as_deref(), look.step.as_str()))
        .collect();
    assert_eq!(
        looks,
        [
            ("not witnessed", None, "1.2"),
            ("found otherwise", Some("Sam Hollis"), "1.2"),
            ("witnessed", Some("Sam Hollis"), "1.2"),
            ("independent verification", Some("Sam Hollis"), "1.2"),
            ("sign-off", Some("Robin Vale"), "1.3"),
        ]
    );
    assert_eq!(record.looks[3].performers, ["Robin Vale"]);
    assert_eq!(record.looks[4].performers, ["Kim Day"]);
}

#[test]
fn a_turnover_says_from_whom_what_was_said_and_when_it_was_accepted() {
    let record = two_people();
    let incoming = record.people.last().unwrap();
    let turnover = incoming.turnover.as_ref().unwrap();
    assert_eq!((incoming.name.as_str(), turnover.from.as_str()), ("Kim Day", "Sam Hollis"));
    assert_eq!(turnover.note.as_deref(), Some("the lever is next"));
    assert!(turnover.accepted.as_ref().unwrap().entry > incoming.when.entry);
    assert_eq!(record.holds[0].verifications[0].ended.as_ref().unwrap().why, "Kim Day took over as helper");
    assert_eq!(record.briefs.len(), 2);
    assert_eq!(record.briefs[1].present, ["Robin Vale", "Kim Day"]);
    assert_eq!(record.briefs[1].stop_word, "!");
}

#[test]
fn a_step_has_the_person_who_did_it_and_not_who_has_the_role_at_the_end() {
    let text = render(&two_people(), 80);
    assert!(text.contains("second reading, blind to the first"), "{text}");
    let record = two_people();
    let step = record.steps.iter().find(|step| step.number == "1.2").unwrap();
    assert_eq!(step.who, ["Robin Vale"]);
    assert!(record.notes.iter().any(|note| note.kind == "people" && note.text.contains("Kim Day")));
}
