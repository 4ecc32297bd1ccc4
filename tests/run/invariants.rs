//! Whatever a person answers: what must always hold.

use std::fmt::Write as _;

use bayhand::procedure::{Name, StepId};
use bayhand::run::{
    Answer, Ask, Disposition, Event, FlowAnswer, FlowAsk, FlowEvent, Input, InterruptionAnswer,
    InterruptionAsk, InterruptionEvent, Leave, PassEnd, PeopleAnswer, PeopleAsk, PeopleEvent, Stamp, replay,
};
use jiff::ZonedDateTime;
use proptest::prelude::*;

use super::drive::{Drive, leave, typed};

/// What the person does at one prompt: mostly answers it, sometimes something else.
#[derive(Clone, Debug)]
enum Act {
    Answer(u8),
    Wrong(u8),
    Leave(bool),
    Resume,
    Disturb,
    Correct(u8, u8),
    Later(u8),
    NotApplicable,
    Restart,
    GiveUp,
    Pass(u16),
}

fn acts() -> impl Strategy<Value = Vec<Act>> {
    let act = prop_oneof![
        20 => any::<u8>().prop_map(Act::Answer),
        3 => any::<u8>().prop_map(Act::Wrong),
        1 => any::<bool>().prop_map(Act::Leave),
        1 => Just(Act::Resume),
        1 => Just(Act::Disturb),
        1 => (any::<u8>(), any::<u8>()).prop_map(|(which, value)| Act::Correct(which, value)),
        1 => any::<u8>().prop_map(Act::Later),
        1 => Just(Act::NotApplicable),
        1 => Just(Act::Restart),
        1 => Just(Act::GiveUp),
        2 => (0_u16..600).prop_map(Act::Pass),
    ];
    prop::collection::vec(act, 0..120)
}

/// A section of a random procedure.
#[derive(Clone, Debug)]
struct Part {
    kind: u8,
    ordered: bool,
    conditional: bool,
}

fn parts() -> impl Strategy<Value = Vec<Part>> {
    let part = (0_u8..11, any::<bool>(), any::<bool>());
    prop::collection::vec(
        part.prop_map(|(kind, ordered, conditional)| Part { kind, ordered, conditional }),
        1..6,
    )
}

/// A procedure with a hold point that is ended at the close, a wait, readings, values, conditions, lists of both orders.
fn procedure(parts: &[Part]) -> (String, String) {
    let mut tables = String::from(
        "[roles]\nlead = \"leads\"\nhelper = { what = \"helps\", checked_by = \"lead\" }\n\
[readings.first]\nwhat = \"first\"\nunit = \"mm\"\nmax = \"200 mm\"\n\
[conditions.big]\nif = \"first > 100 mm\"\n\
[hazards.fall]\nsignal = \"DANGER\"\nhazard = \"Fall\"\nconsequence = \"It kills\"\navoid = \"Stands\"\n\
[holds.support]\nwhat = \"Support\"\nconfirm = [\"on stands\"]\nrelease = \"lead\"\nsecond = \"helper\"\n\
lapses = [\"resume\", \"disturbed\", \"people\", \"8 h\"]\nprotection = \"on stands\"\n\
[holds.down]\nwhat = \"Down\"\nconfirm = [\"clear\"]\nrelease = \"lead\"\nends = [\"support\"]\n",
    );
    let mut body = String::from("## Begin\n\n1. Measure [first].\n2. [fall] Check [support].\n\n");
    for (place, part) in parts.iter().enumerate() {
        let condition = if part.conditional { " [big]" } else { "" };
        let mark = if part.ordered { "1." } else { "-" };
        let repeat = if matches!(part.kind, 6 | 7 | 9) { format!(" [t{place}]") } else { String::new() };
        let _ = writeln!(body, "## Part {place}{condition}{repeat}\n");
        match part.kind {
            0 => {
                let _ =
                    write!(tables, "[readings.r{place}]\nwhat = \"r\"\nunit = \"mm\"\nmin = \"first / 2\"\n");
                let _ = write!(body, "{mark} Read [r{place}].\n{mark} Wipe.\n\n");
            }
            1 => {
                let _ = write!(
                    tables,
                    "[waits.w{place}]\nwhat = \"w\"\nat_least = \"5 min\"\nat_most = \"1 h\"\n"
                );
                let _ = write!(body, "1. Start [w{place}].\n2. Wipe.\n3. End [w{place}].\n\n");
            }
            2 => {
                let _ = write!(
                    tables,
                    "[readings.a{place}]\nwhat = \"a\"\nunit = \"mm\"\ninformation_only = true\n\
[values.v{place}]\nwhat = \"v\"\nunit = \"mm\"\nformula = \"first + a{place}\"\nmax = \"300 mm\"\n"
                );
                let _ = write!(body, "{mark} Read [a{place}]: [v{place}].\n{mark} Wipe.\n\n");
            }
            3 => {
                let _ = write!(body, "{mark} Left:\n   - One.\n   - Two.\n{mark} Right.\n{mark} Top.\n\n");
            }
            4 => {
                let _ = write!(
                    tables,
                    "[readings.c{place}]\nwhat = \"c\"\nchoices = [\"good\", \"bad\"]\naccept = [\"good\"]\n"
                );
                let _ = write!(body, "{mark} See [c{place}].\n{mark} [helper] Wipe.\n\n");
            }
            6 => {
                let _ = write!(
                    tables,
                    "[readings.p{place}]\nwhat = \"p\"\nunit = \"mm\"\ninformation_only = true\n\
[values.m{place}]\nwhat = \"m\"\nunit = \"mm\"\nformula = \"mean(p{place})\"\nmax = \"250 mm\"\n\
[repeats.t{place}]\nwhat = \"twice\"\ntimes = 2\n"
                );
                let _ = write!(body, "{mark} Read [p{place}]: [m{place}].\n{mark} Wipe.\n\n");
            }
            7 => {
                let _ = write!(
                    tables,
                    "[readings.u{place}]\nwhat = \"u\"\nunit = \"mm\"\ninformation_only = true\n\
[repeats.t{place}]\nwhat = \"until\"\nuntil = \"u{place} > 100 mm\"\nat_most = 2\nfails = \"Think.\"\n"
                );
                let _ = write!(body, "{mark} Read [u{place}].\n{mark} Wipe.\n\n");
            }
            8 => {
                let _ = write!(tables, "[alternatives.w{place}]\nwhat = \"ways\"\n");
                let _ = write!(body, "{mark} [w{place}] Pull:\n   - One.\n   - Two.\n{mark} Wipe.\n\n");
            }
            9 => {
                let _ = write!(
                    tables,
                    "[readings.q{place}]\nwhat = \"q\"\nunit = \"mm\"\nmax = \"180 mm\"\n\
[repeats.t{place}]\nwhat = \"sides\"\neach = [\"left\", \"right\"]\n\
[repeats.i{place}]\nwhat = \"places\"\ntimes = 2\n"
                );
                let _ =
                    write!(body, "{mark} [i{place}] On the [t{place}] read [q{place}].\n{mark} Wipe.\n\n");
            }
            10 => {
                let _ = write!(
                    tables,
                    "[readings.t{place}]\nwhat = \"t\"\nunit = \"mm\"\nmax = \"200 mm\"\nsecond = \"helper\"\nagree = \"40 mm\"\n\
[checks.k{place}]\nwhat = \"k\"\nby = \"helper\"\n[witnesses.s{place}]\nwhat = \"s\"\nby = \"helper\"\n"
                );
                let _ =
                    write!(body, "{mark} [s{place}] [k{place}] Read [t{place}].\n{mark} [helper] Wipe.\n\n");
            }
            _ => {
                let _ = write!(body, "{mark} [fall] Do it.\n{mark} Wipe.\n\n");
            }
        }
    }
    body.push_str("## Close\n\n1. Lower it: [down].\n2. Tidy up.\n");
    (tables, body)
}

/// The answer that fits a prompt, varied by a number.
fn fitting(drive: &Drive, vary: u8) -> Answer {
    let reason = || "reason".to_owned();
    match drive.ask() {
        Ask::Brief => Answer::AcceptBrief,
        Ask::Person(role) => Answer::Person(format!("Person {role}")),
        Ask::Odometer => typed("1 km"),
        Ask::VehicleValue(_) => Answer::Sourced { text: "1 mm".to_owned(), source: reason() },
        Ask::Acknowledge(_) => Answer::Acknowledge,
        Ask::Confirm { .. } if vary.is_multiple_of(8) => Answer::Untrue { state: reason() },
        Ask::Confirm { .. } => Answer::True,
        Ask::Reading(reading) if reading.as_str().starts_with('c') => {
            typed(if vary.is_multiple_of(4) { "bad" } else { "good" })
        }
        Ask::Reading(_) => typed(&format!("{vary} mm")),
        Ask::Failed(_) if vary.is_multiple_of(2) => Answer::Again { reason: reason() },
        Ask::Failed(_) | Ask::Late { .. } => {
            Answer::Accept { disposition: Disposition::UseAsIs, reason: reason() }
        }
        Ask::Release { role, .. } => Answer::Release { said: drive.state.people[&role].clone() },
        Ask::Pick(steps) => Answer::Pick(steps[usize::from(vary) % steps.len()]),
        Ask::Do | Ask::Wait { .. } | Ask::Resting | Ask::Finished => Answer::Done,
        Ask::Dispose(_) => Answer::Dispose { disposition: Disposition::Repair, reason: reason() },
        Ask::Close => Answer::Close,
        Ask::Flow(ask) => way(&ask, vary),
        Ask::Interruption(ask) => between(&ask, vary),
        Ask::People(ask) => people(drive, &ask, vary),
        other => panic!("no answer for {other:?}"),
    }
}

fn people(drive: &Drive, ask: &PeopleAsk, vary: u8) -> Answer {
    let reason = || "reason".to_owned();
    let named = |role: &str| Answer::Release { said: drive.state.people[&Name(role.to_owned())].clone() };
    match ask {
        PeopleAsk::Still(_) => Answer::People(PeopleAnswer::Keep),
        PeopleAsk::Turnover(role) => named(role.as_str()),
        PeopleAsk::PreJobBrief => {
            let everybody = drive.view().everybody().into_iter().map(str::to_owned);
            Answer::People(PeopleAnswer::Present(everybody.collect()))
        }
        PeopleAsk::Witness(_) if vary.is_multiple_of(2) => {
            Answer::People(PeopleAnswer::Absent { reason: reason() })
        }
        PeopleAsk::Check(_) | PeopleAsk::SignOff(_) if vary.is_multiple_of(16) => {
            Answer::Untrue { state: reason() }
        }
        PeopleAsk::Witness(_) | PeopleAsk::Check(_) => named("helper"),
        PeopleAsk::SignOff(_) => named("lead"),
        PeopleAsk::Second(_) => typed(&format!("{vary} mm")),
        PeopleAsk::Differs(_) if vary.is_multiple_of(2) => Answer::Again { reason: reason() },
        PeopleAsk::Differs(_) => Answer::Accept { disposition: Disposition::UseAsIs, reason: reason() },
    }
}

fn way(ask: &FlowAsk, vary: u8) -> Answer {
    let reason = || "reason".to_owned();
    Answer::Flow(match ask {
        FlowAsk::SectionComplete(_) if vary.is_multiple_of(16) => FlowAnswer::Restart { reason: reason() },
        FlowAsk::SectionComplete(_) => FlowAnswer::Complete,
        FlowAsk::Perform(_) => FlowAnswer::WorkDone,
        FlowAsk::PassEnd(_) if vary.is_multiple_of(4) => FlowAnswer::Invalid { reason: reason() },
        FlowAsk::PassEnd(_) => FlowAnswer::Counts,
        FlowAsk::Exhausted(_) if vary.is_multiple_of(2) => FlowAnswer::Extend { reason: reason() },
        FlowAsk::Exhausted(_) => FlowAnswer::GiveUp { disposition: Disposition::UseAsIs, reason: reason() },
        FlowAsk::Choose { ways, .. } => FlowAnswer::Choose(ways[usize::from(vary) % ways.len()]),
    })
}

fn between(ask: &InterruptionAsk, vary: u8) -> Answer {
    let words = || "so it is".to_owned();
    Answer::Interruption(match ask {
        InterruptionAsk::Scope if vary.is_multiple_of(16) => InterruptionAnswer::Untrue { state: words() },
        InterruptionAsk::Scope if vary % 16 == 1 => {
            InterruptionAnswer::OutOfScope { disposition: Disposition::UseAsIs, reason: words() }
        }
        InterruptionAsk::StillSo(_) if vary.is_multiple_of(4) => {
            InterruptionAnswer::Untrue { state: words() }
        }
        InterruptionAsk::Scope | InterruptionAsk::Statement(_) | InterruptionAsk::StillSo(_) => {
            InterruptionAnswer::True
        }
        InterruptionAsk::Standing => InterruptionAnswer::Standing { state: words() },
        InterruptionAsk::Protection(_) if vary.is_multiple_of(2) => InterruptionAnswer::MakeSafe,
        InterruptionAsk::Protection(_) => InterruptionAnswer::Keep,
        InterruptionAsk::Approval(_) if vary.is_multiple_of(3) => {
            InterruptionAnswer::Refuse { reason: words() }
        }
        InterruptionAsk::Approval(_) => InterruptionAnswer::Approve { said: "Robin Vale".to_owned() },
    })
}

fn wrong(vary: u8) -> Answer {
    match vary % 8 {
        7 => Answer::People(PeopleAnswer::TakeOver {
            role: Name("helper".to_owned()),
            person: format!("Person {vary}"),
            note: "two bolts in".to_owned(),
        }),
        0 => Answer::Done,
        1 => Answer::Close,
        2 => typed("nonsense"),
        3 => Answer::True,
        4 => Answer::Release { said: "nobody".to_owned() },
        5 => Answer::Acknowledge,
        _ => Answer::Accept { disposition: Disposition::UseAsIs, reason: String::new() },
    }
}

/// Does one act and checks what must hold whatever it was.
fn act(drive: &mut Drive, act: &Act) -> Result<(), TestCaseError> {
    let before = drive.clone();
    let input = match act {
        Act::Answer(vary) => Input::Answer(fitting(drive, *vary)),
        Act::Wrong(vary) => Input::Answer(wrong(*vary)),
        Act::Leave(stop) => Input::Answer(leave(if *stop { Leave::Stop } else { Leave::Suspend })),
        Act::Resume => Input::Resume,
        Act::Disturb => Input::Answer(Answer::Disturbed("bumped".to_owned())),
        Act::Correct(which, value) => Input::Answer(correction(drive, *which, *value)),
        Act::Later(which) => {
            let steps = drive.book.procedure.steps();
            let before = steps[usize::from(*which) % steps.len()].id;
            Input::Answer(Answer::Defer { before, reason: "later".to_owned() })
        }
        Act::Restart => Input::Answer(Answer::Flow(FlowAnswer::Restart { reason: "anew".to_owned() })),
        Act::GiveUp => Input::Answer(Answer::Flow(FlowAnswer::GiveUp {
            disposition: Disposition::Reject,
            reason: "no use".to_owned(),
        })),
        Act::NotApplicable => Input::Answer(Answer::NotApplicable { reason: "no".to_owned() }),
        Act::Pass(minutes) => {
            drive.pass(i64::from(*minutes));
            return Ok(());
        }
    };
    match drive.input(input.clone()) {
        Err(_) => prop_assert_eq!(&drive.state, &before.state, "a refused answer changes nothing"),
        Ok(()) => check_event(&before, drive, &input)?,
    }
    Ok(())
}

fn correction(drive: &Drive, which: u8, value: u8) -> Answer {
    let taken: Vec<&Name> = drive.state.readings.keys().collect();
    let reading = match taken.len() {
        0 => Name("first".to_owned()),
        count => taken[usize::from(which) % count].clone(),
    };
    let text = if reading.as_str().starts_with('c') { "bad".to_owned() } else { format!("{value} mm") };
    Answer::Correct { reading, text, reason: "slip".to_owned() }
}

/// Work under a hold point happens only while it stands; nothing is entered while the run rests.
fn check_event(before: &Drive, after: &Drive, input: &Input) -> Result<(), TestCaseError> {
    let (event, stamp) = after.events.last().unwrap();
    let step = match event {
        Event::Done(step) => Some(*step),
        Event::Read { .. } => before.prompt().step,
        _ => None,
    };
    let (first, last) = (support_step(after, "support"), support_step(after, "down"));
    if step.is_some_and(|step| first < step && step < last) {
        prop_assert!(supported(&before.events, &stamp.at), "{event:?} while nothing supports the vehicle");
    }
    if before.ask() == Ask::Resting {
        prop_assert!(matches!(input, Input::Resume));
    }
    Ok(())
}

fn support_step(drive: &Drive, hold: &str) -> StepId {
    let mut steps = drive.book.procedure.steps().iter();
    steps.find(|step| step.hold.as_ref().is_some_and(|name| name.as_str() == hold)).unwrap().id
}

/// Whether the support hold stands at a moment, told from the events alone and not by the code under test: both people
/// have released it since it last lapsed (resume, stop, disturbance, 8 h) or was ended.
fn supported(events: &[(Event, Stamp)], now: &ZonedDateTime) -> bool {
    let mut signed: Vec<(&str, &ZonedDateTime)> = Vec::new();
    for (event, stamp) in events {
        match event {
            Event::Released { hold, role } if hold.as_str() == "support" => {
                signed.push((role.as_str(), &stamp.at));
            }
            Event::Released { hold, .. } if hold.as_str() == "down" => signed.clear(),
            Event::Resumed
            | Event::Disturbed(_)
            | Event::Left { how: Leave::Stop, .. }
            | Event::People(PeopleEvent::TakenOver { .. })
            // The first step stands before the hold point.
            | Event::Interruption(InterruptionEvent::NotSo { step: StepId(0), .. }) => signed.clear(),
            Event::Confirmed { hold, .. } if hold.as_str() == "support" => signed.clear(),
            _ => {}
        }
    }
    let both = ["lead", "helper"].iter().all(|role| signed.iter().any(|(by, _)| by == role));
    both && signed.last().is_some_and(|(_, at)| at.duration_until(now).as_hours() < 8)
}

/// A repeat of two passes has two that count, told from the events alone: unless its section did not apply, it was
/// given up, or nobody was there to go through it.
fn passes_add_up(drive: &Drive, parts: &[Part]) -> Result<(), TestCaseError> {
    let left_out = drive.events.iter().any(|(event, _)| matches!(event, Event::NotApplicable { .. }));
    for (place, part) in parts.iter().enumerate().filter(|(_, part)| part.kind == 6) {
        let own = Name(format!("t{place}"));
        let counted = drive.events.iter().filter(|(event, _)| {
            matches!(event, Event::Flow(FlowEvent::PassEnded { repeat, end: PassEnd::Counts }) if *repeat == own)
        });
        let given_up = drive.events.iter().any(
            |(event, _)| matches!(event, Event::Flow(FlowEvent::GivenUp { repeat, .. }) if *repeat == own),
        );
        let counted = counted.count();
        let whole = !part.conditional && !left_out && !given_up;
        prop_assert!(if whole { counted == 2 } else { counted <= 2 }, "{own}: {counted} passes count");
    }
    Ok(())
}

/// From any state, fitting answers lead to the end: there is always a way forward.
fn finish(mut drive: Drive) -> Result<Drive, TestCaseError> {
    for round in 0..2000_u32 {
        match drive.ask() {
            Ask::Finished => return Ok(drive),
            Ask::Resting => drive.input(Input::Resume).unwrap(),
            Ask::Wait { until, .. } => drive.now = until,
            Ask::Failed(name) => {
                let again = Answer::Again { reason: "again".to_owned() };
                let accept = Answer::Accept { disposition: Disposition::UseAsIs, reason: "as is".to_owned() };
                let answer = if round.is_multiple_of(3) { again } else { accept };
                let taken = drive.answer(answer.clone()).is_ok();
                prop_assert!(taken, "{answer:?} at {name}");
            }
            _ => {
                let answer = fitting(&drive, if round.is_multiple_of(5) { 150 } else { 101 });
                let asked = drive.ask();
                let taken = drive.answer(answer.clone());
                prop_assert!(taken.is_ok(), "{answer:?} to {asked:?}: {taken:?}");
            }
        }
    }
    Err(TestCaseError::fail(format!("no end in sight at {:?}", drive.ask())))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, ..ProptestConfig::default() })]

    #[test]
    fn whatever_is_answered(parts in parts(), acts in acts()) {
        let (tables, body) = procedure(&parts);
        let mut drive = Drive::of(&tables, &body);
        for one in &acts {
            act(&mut drive, one)?;
        }
        let events = drive.events.iter().map(|(event, stamp)| (event, stamp));
        prop_assert_eq!(&replay(&drive.book, events), &drive.state, "replay equals live");
        let ended = finish(drive)?;
        passes_add_up(&ended, &parts)?;
        prop_assert!(ended.view().unsealed_items().is_empty());
        prop_assert!(ended.view().protections().is_empty());
    }

    #[test]
    fn any_prefix_of_a_journal_replays(parts in parts(), acts in acts(), cut in any::<prop::sample::Index>()) {
        let (tables, body) = procedure(&parts);
        let mut drive = Drive::of(&tables, &body);
        for one in &acts {
            act(&mut drive, one)?;
        }
        let kept = cut.index(drive.events.len()).max(1);
        drive.events.truncate(kept);
        let events = drive.events.iter().map(|(event, stamp)| (event, stamp));
        drive.state = replay(&drive.book, events);
        drive.input(Input::Resume).ok();
        finish(drive)?;
    }
}
