//! Every command there is, whatever is asked: what a person could say at any question, fitting or not.

use std::collections::BTreeSet;

use bayhand::procedure::{Name, SectionId, StepId};
use bayhand::run::{
    Answer, Declared, Disposition, EndId, FasteningAnswer, FlowAnswer, InterruptionAnswer, KeptFile,
    LateAnswer, Leave, LooseAnswer, ParticularAnswer, PeopleAnswer, Spot,
};

use super::drive::{Drive, leave, typed};

/// All of them, with what the procedure of a run has names for.
pub fn commands(drive: &Drive) -> Vec<Answer> {
    let mut all = plain(drive);
    all.extend(corrections(drive));
    all.extend(put_off(drive));
    all.extend(flow(drive).into_iter().map(Answer::Flow));
    all.extend(interruption().into_iter().map(Answer::Interruption));
    all.extend(people(drive).into_iter().map(Answer::People));
    all.extend(fastening(drive).into_iter().map(Answer::Fastening));
    all.extend(particular(drive).into_iter().map(Answer::Particular));
    all.extend(loose(drive).map(Answer::Loose));
    all.extend(late(drive));
    all
}

fn because() -> String {
    "because".to_owned()
}

const DISPOSITION: Disposition = Disposition::UseAsIs;

/// The first of the names that a table has.
fn first<'t>(mut names: impl Iterator<Item = &'t Name>) -> Name {
    names.next().cloned().unwrap_or(Name::from("nothing"))
}

fn plain(drive: &Drive) -> Vec<Answer> {
    let released = drive.people().into_iter().map(|said| Answer::Release { said });
    let steps = drive.book.procedure.steps().iter().map(|step| Answer::Pick(step.id));
    let amounts = ["3 mm", "20 mm", "3 N·m", "10 N·m"].map(typed);
    let always = [
        Answer::AcceptBrief,
        Answer::Person("Kim Marsh".to_owned()),
        Answer::Sourced { text: "10 N·m".to_owned(), source: because() },
        Answer::Acknowledge,
        Answer::True,
        Answer::Untrue { state: because() },
        Answer::Good,
        Answer::NotGood { state: because() },
        Answer::Done,
        Answer::Again { reason: because() },
        Answer::Accept { disposition: DISPOSITION, reason: because() },
        Answer::Accept { disposition: DISPOSITION, reason: String::new() },
        Answer::NotApplicable { reason: because() },
        Answer::Note(because()),
        Answer::Disturbed { what: because(), hold: None },
        leave(Leave::Suspend),
        leave(Leave::Stop),
        Answer::Dispose { disposition: DISPOSITION, reason: because() },
        Answer::Close,
    ];
    always.into_iter().chain(amounts).chain(released).chain(steps).collect()
}

/// Readings entered wrongly: to a small amount, and to a large one.
fn corrections(drive: &Drive) -> Vec<Answer> {
    let readings = drive.book.procedure.readings().names();
    let correct = |reading: &Name| {
        ["3", "20"].map(|text| Answer::Correct {
            entry: None,
            reading: reading.clone(),
            text: text.to_owned(),
            reason: because(),
        })
    };
    readings.flat_map(correct).collect()
}

fn put_off(drive: &Drive) -> Vec<Answer> {
    let procedure = &drive.book.procedure;
    let before = procedure.steps().iter().map(|step| Answer::Defer { before: step.id, reason: because() });
    let sections = (0..procedure.sections().len()).map(SectionId);
    let to_end = sections
        .map(|section| Answer::Interruption(InterruptionAnswer::DeferToEnd { section, reason: because() }));
    before.chain(to_end).collect()
}

fn flow(drive: &Drive) -> Vec<FlowAnswer> {
    let ways = drive.book.procedure.steps().iter().filter(|step| step.parent.is_some());
    let mut all = vec![
        FlowAnswer::Complete,
        FlowAnswer::WorkDone,
        FlowAnswer::Counts,
        FlowAnswer::Invalid { reason: because() },
        FlowAnswer::GiveUp { disposition: DISPOSITION, reason: because() },
        FlowAnswer::Extend { reason: because() },
        FlowAnswer::Restart { reason: because() },
        FlowAnswer::Choose(StepId(0)),
        FlowAnswer::Missed,
        FlowAnswer::Early,
    ];
    all.extend(ways.map(|way| FlowAnswer::Choose(way.id)));
    all
}

fn interruption() -> Vec<InterruptionAnswer> {
    vec![
        InterruptionAnswer::True,
        InterruptionAnswer::Untrue { state: because() },
        InterruptionAnswer::OutOfScope { disposition: DISPOSITION, reason: because() },
        InterruptionAnswer::Standing { state: because() },
        InterruptionAnswer::Keep,
        InterruptionAnswer::MakeSafe,
        InterruptionAnswer::Declare { declared: Declared::Order, reason: because() },
        InterruptionAnswer::Approve { said: "RV".to_owned() },
        InterruptionAnswer::Refuse { reason: because() },
    ]
}

fn people(drive: &Drive) -> Vec<PeopleAnswer> {
    let everybody = drive.people();
    let reinspect = everybody.clone().into_iter();
    let reinspect = reinspect.map(|said| PeopleAnswer::Reinspect { said, reason: because() });
    let take_over = drive.book.procedure.roles().names().map(|role| PeopleAnswer::TakeOver {
        role: role.clone(),
        person: format!("Kim {} Marsh", drive.events.len()),
        note: because(),
    });
    let always = [
        PeopleAnswer::Keep,
        PeopleAnswer::Named("Ash Linden".to_owned()),
        PeopleAnswer::Present(everybody),
        PeopleAnswer::Absent { reason: because() },
    ];
    let correct = drive.book.procedure.roles().names().map(|role| PeopleAnswer::CorrectName {
        role: role.clone(),
        person: format!("Kit {} Marsh", drive.events.len()),
        reason: because(),
    });
    always.into_iter().chain(reinspect).chain(take_over).chain(correct).collect()
}

fn fastening(drive: &Drive) -> Vec<FasteningAnswer> {
    let group = first(drive.book.procedure.fasteners().names());
    let tightening = drive.view().tightening(&group).and_then(Result::ok);
    let position = tightening.and_then(|group| group.places.first().cloned());
    let at = |stage| Spot { group: group.clone(), stage, position: position.clone().unwrap_or_default() };
    let correct = |stage, text: &str| FasteningAnswer::Correct {
        entry: None,
        at: at(stage),
        text: text.to_owned(),
        reason: because(),
    };
    vec![
        FasteningAnswer::StageSet,
        correct(0, "10"),
        correct(1, "3"),
        correct(1, "10"),
        FasteningAnswer::Skip { reason: because() },
        FasteningAnswer::Loosened { group: group.clone(), position: None, reason: because() },
        FasteningAnswer::Loosened { group: group.clone(), position: position.clone(), reason: because() },
    ]
}

fn particular(drive: &Drive) -> Vec<ParticularAnswer> {
    let procedure = &drive.book.procedure;
    let calibrated = procedure.tools().iter().filter(|(_, tool)| tool.calibrated);
    let tool = first(calibrated.map(|(name, _)| name));
    let instrument = |due: &str| ParticularAnswer::Instrument {
        tool: tool.clone(),
        identity: "G-1".to_owned(),
        due: due.to_owned(),
    };
    let file = KeptFile { name: "photo.jpg".to_owned(), size: 9, sha256: "0".repeat(64) };
    let all = vec![
        instrument("2026-11-20"),
        instrument("2027-03-31"),
        ParticularAnswer::Typed("cut it".to_owned()),
        ParticularAnswer::Typed(String::new()),
        ParticularAnswer::File(file.clone()),
        ParticularAnswer::CorrectFile {
            entry: None,
            reading: first(procedure.readings().names()),
            file,
            reason: because(),
        },
        ParticularAnswer::Odometer("1 km".to_owned()),
        ParticularAnswer::CorrectOdometer { text: "2 km".to_owned(), reason: because() },
        ParticularAnswer::CorrectVehicleValue {
            name: first(procedure.vehicle().names()),
            text: "10 N·m".to_owned(),
            source: because(),
            reason: because(),
        },
    ];
    all
}

fn loose(drive: &Drive) -> impl Iterator<Item = LooseAnswer> {
    let ends = drive.view().loose_ends().into_iter().map(|end| end.id);
    let ends: Vec<EndId> = ends.chain([EndId::HandedOn(7)]).collect();
    let settle = |end: &EndId| LooseAnswer::Settle { end: end.clone(), how: because() };
    let carry = |end: &EndId| LooseAnswer::CarryOut { end: end.clone(), by: because(), why: because() };
    let settled: Vec<LooseAnswer> = ends.iter().map(settle).chain(ends.iter().map(carry)).collect();
    [LooseAnswer::Note { what: because() }, LooseAnswer::Note { what: String::new() }]
        .into_iter()
        .chain(settled)
}

fn late(drive: &Drive) -> impl Iterator<Item = Answer> {
    let late = [Answer::Done, typed("3"), typed("20"), Answer::Close].map(|answer| LateAnswer {
        answer: Box::new(answer),
        done: drive.now.strftime("%Y-%m-%dT%H:%M:%S%:z").to_string(),
        reason: because(),
    });
    late.into_iter().map(Answer::Late)
}

/// Which of its family an answer is. A new one does not compile until it has a number here, and is then missed below
/// until it is among the commands.
const fn place(command: &Answer) -> (char, usize) {
    let own = match command {
        Answer::Flow(answer) => return ('w', of_flow(answer)),
        Answer::Interruption(answer) => return ('b', of_interruption(answer)),
        Answer::People(answer) => return ('p', of_people(answer)),
        Answer::Fastening(answer) => return ('f', of_fastening(answer)),
        Answer::Particular(answer) => return ('t', of_particular(answer)),
        Answer::Loose(answer) => return ('l', of_loose(answer)),
        Answer::AcceptBrief => 0,
        Answer::Person(_) => 1,
        Answer::Typed { .. } => 2,
        Answer::Sourced { .. } => 3,
        Answer::Acknowledge => 4,
        Answer::True => 5,
        Answer::Untrue { .. } => 6,
        Answer::Good => 7,
        Answer::NotGood { .. } => 8,
        Answer::Release { .. } => 9,
        Answer::Pick(_) => 10,
        Answer::Done => 11,
        Answer::Again { .. } => 12,
        Answer::Accept { .. } => 13,
        Answer::NotApplicable { .. } => 14,
        Answer::Defer { .. } => 15,
        Answer::Correct { .. } => 16,
        Answer::Note(_) => 17,
        Answer::Disturbed { .. } => 18,
        Answer::Leave { .. } => 19,
        Answer::Dispose { .. } => 20,
        Answer::Late(_) => 21,
        Answer::Close => 22,
    };
    ('a', own)
}

const fn of_flow(answer: &FlowAnswer) -> usize {
    match answer {
        FlowAnswer::Complete => 0,
        FlowAnswer::WorkDone => 1,
        FlowAnswer::Counts => 2,
        FlowAnswer::Invalid { .. } => 3,
        FlowAnswer::GiveUp { .. } => 4,
        FlowAnswer::Extend { .. } => 5,
        FlowAnswer::Restart { .. } => 6,
        FlowAnswer::Choose(_) => 7,
        FlowAnswer::Missed => 8,
        FlowAnswer::Early => 9,
    }
}

const fn of_interruption(answer: &InterruptionAnswer) -> usize {
    match answer {
        InterruptionAnswer::True => 0,
        InterruptionAnswer::Untrue { .. } => 1,
        InterruptionAnswer::OutOfScope { .. } => 2,
        InterruptionAnswer::Standing { .. } => 3,
        InterruptionAnswer::Keep => 4,
        InterruptionAnswer::MakeSafe => 5,
        InterruptionAnswer::DeferToEnd { .. } => 6,
        InterruptionAnswer::Declare { .. } => 7,
        InterruptionAnswer::Approve { .. } => 8,
        InterruptionAnswer::Refuse { .. } => 9,
    }
}

const fn of_loose(answer: &LooseAnswer) -> usize {
    match answer {
        LooseAnswer::Note { .. } => 0,
        LooseAnswer::Settle { .. } => 1,
        LooseAnswer::CarryOut { .. } => 2,
    }
}

const fn of_people(answer: &PeopleAnswer) -> usize {
    match answer {
        PeopleAnswer::Keep => 0,
        PeopleAnswer::Named(_) => 1,
        PeopleAnswer::TakeOver { .. } => 2,
        PeopleAnswer::Present(_) => 3,
        PeopleAnswer::Absent { .. } => 4,
        PeopleAnswer::Reinspect { .. } => 5,
        PeopleAnswer::CorrectName { .. } => 6,
    }
}

const fn of_fastening(answer: &FasteningAnswer) -> usize {
    match answer {
        FasteningAnswer::StageSet => 0,
        FasteningAnswer::Correct { .. } => 1,
        FasteningAnswer::Skip { .. } => 2,
        FasteningAnswer::Loosened { .. } => 3,
    }
}

const fn of_particular(answer: &ParticularAnswer) -> usize {
    match answer {
        ParticularAnswer::Instrument { .. } => 0,
        ParticularAnswer::Typed(_) => 1,
        ParticularAnswer::File(_) => 2,
        ParticularAnswer::CorrectFile { .. } => 3,
        ParticularAnswer::CorrectOdometer { .. } => 4,
        ParticularAnswer::CorrectVehicleValue { .. } => 5,
        ParticularAnswer::Odometer(_) => 6,
    }
}

#[test]
fn every_answer_is_among_them() {
    let reading = "[readings.r]\nwhat = \"r\"\nunit = \"mm\"\ninformation_only = true\n";
    let drive = Drive::of(reading, "1. Read [r].\n");
    let there: BTreeSet<(char, usize)> = commands(&drive).iter().map(place).collect();
    let all = [('a', 23), ('w', 10), ('b', 10), ('p', 7), ('f', 4), ('t', 7), ('l', 3)];
    assert_eq!(
        there,
        all.into_iter().flat_map(|(family, count)| (0..count).map(move |at| (family, at))).collect()
    );
}
