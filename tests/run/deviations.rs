//! Departures: numbered, with a reason, decided about before the run is closed; and no way round a rule without one.

use std::collections::BTreeSet;

use bayhand::procedure::StepId;
use bayhand::run::{
    Answer, Ask, Declared, Departure, Disposition, Event, FlowAnswer, Input, InterruptionAnswer,
    InterruptionAsk, Leave, OpenItem, Refusal, Status, apply, decide,
};
use proptest::prelude::*;

use super::drive::{Drive, leave, name, typed};

fn declare(declared: Declared) -> Answer {
    Answer::Interruption(InterruptionAnswer::Declare { declared, reason: "none at hand".to_owned() })
}

/// Feature 47: a person declares a departure at any question; each has its number.
#[test]
fn a_departure_of_each_sort_can_be_declared_at_any_time() {
    let mut drive = Drive::of("", "1. One.\n2. Two.\n");
    for declared in Declared::ALL {
        drive.say(declare(declared)).unwrap();
        assert_eq!(Declared::from_words(declared.words()), Some(declared));
    }
    assert_eq!(drive.label(), "1.1", "the question stays");
    let sorts: Vec<Departure> =
        drive.state.deviations.iter().map(|deviation| deviation.departure.clone()).collect();
    let at = Some(drive.step("1.1"));
    assert_eq!(sorts, Declared::ALL.map(|declared| Departure::Declared(at, declared)));
    let nothing = InterruptionAnswer::Declare { declared: Declared::Other, reason: " ".to_owned() };
    assert!(matches!(drive.say(Answer::Interruption(nothing)), Err(Refusal::Empty(_))));
}

/// Feature 48: closing with an open deviation is refused, and lists it.
#[test]
fn the_run_is_not_closed_while_a_declared_deviation_is_open() {
    let mut drive = Drive::of("", "1. One.\n");
    drive.take(declare(Declared::Substitute));
    drive.done();
    assert_eq!(drive.ask(), Ask::Dispose(0));
    assert!(drive.answer(Answer::Close).is_err());
    let open = drive.view().open_items();
    assert_eq!(open, [OpenItem::Deviation { number: 1, reason: "none at hand".to_owned() }]);
    drive.take(Answer::Dispose { disposition: Disposition::UseAsIs, reason: "as good".to_owned() });
    drive.take(Answer::Close);
}

/// Feature 37: left out where no condition says so: by the lead's word alone.
#[test]
fn leaving_a_step_out_needs_the_lead() {
    let mut drive =
        Drive::of("[roles]\nlead = \"leads\"\nhelper = \"helps\"\n", "1. [helper] One.\n2. Two.\n");
    drive.say(Answer::NotApplicable { reason: "no such part".to_owned() }).unwrap();
    assert_eq!(drive.ask(), Ask::Interruption(InterruptionAsk::Approval(drive.step("1.1"))));
    assert_ne!(drive.status("1.1"), "not applicable");
    assert!(drive.state.deviations.is_empty());
    let approve = |said: &str| Answer::Interruption(InterruptionAnswer::Approve { said: said.to_owned() });
    for somebody in ["SH", "Sam Hollis", "", "lead"] {
        assert!(matches!(drive.say(approve(somebody)), Err(Refusal::NotTheLead { .. })), "{somebody}");
    }
    assert!(drive.say(Answer::Done).is_err(), "and nothing goes on before");
    let mut refused = drive.clone();
    drive.say(approve("rv")).unwrap();
    assert_eq!(drive.status("1.1"), "not applicable");
    assert_eq!(drive.state.deviations.len(), 1);
    refused.between(InterruptionAnswer::Refuse { reason: "it is there".to_owned() });
    assert_eq!(refused.label(), "1.1");
    assert!(refused.state.deviations.is_empty());
}

/// Feature 47: a later step is not done first; the refusal names the rule and the way.
#[test]
fn a_later_step_is_not_done_first() {
    let mut drive = Drive::of("", "1. One.\n2. Two.\n");
    assert!(drive.answer(Answer::Pick(drive.step("1.2"))).is_err());
    let mut drive = Drive::of("", "- One.\n- Two.\n\n## Later\n\n1. Three.\n");
    let refusal = drive.answer(Answer::Pick(drive.step("2.1"))).unwrap_err();
    assert_eq!(refusal, Refusal::NotOffered);
    let words = refusal.to_string();
    assert!(words.contains("in their order") && words.contains("declare a deviation"), "{words}");
}

const TABLES: &str = "[roles]\nlead = \"leads\"\nhelper = \"helps\"\n\
[readings.first]\nwhat = \"first\"\nunit = \"mm\"\nmax = \"10 mm\"\n\
[readings.second]\nwhat = \"second\"\nunit = \"mm\"\nmin = \"first / 2\"\n\
[values.both]\nwhat = \"both\"\nunit = \"mm\"\nformula = \"first + second\"\nmax = \"15 mm\"\n\
[conditions.big]\nif = \"first > 5 mm\"\n\
[waits.dry]\nwhat = \"dry\"\nat_least = \"5 min\"\nat_most = \"1 h\"\n\
[repeats.twice]\nwhat = \"twice\"\nuntil = \"second > 4 mm\"\nat_most = 2\n\
[hazards.fall]\nsignal = \"DANGER\"\nhazard = \"Fall\"\nconsequence = \"It kills\"\navoid = \"Stands\"\n\
[holds.support]\nwhat = \"Support\"\nconfirm = [\"on stands\"]\nrelease = \"lead\"\nsecond = \"helper\"\n\
lapses = [\"resume\", \"disturbed\"]\nprotection = \"on stands\"\n\
[holds.down]\nwhat = \"Down\"\nconfirm = [\"clear\"]\nrelease = \"lead\"\nends = [\"support\"]\n";
const BODY: &str = "## Begin\n\n1. Measure [first].\n2. [fall] Lift: [support].\n\n## Work [twice]\n\n\
1. Read [second]: [both].\n2. [big] Wipe it.\n\n## Dry\n\n- Start [dry].\n- Sweep.\n\n## Close\n\n\
1. When [dry] is over, shut it.\n2. Lower: [down].\n3. Tidy up.\n";

/// Every command there is, whatever is asked.
fn commands(drive: &Drive) -> Vec<Answer> {
    let reason = || "because".to_owned();
    let disposition = Disposition::UseAsIs;
    let steps = || drive.book.procedure.steps().iter().map(|step| step.id);
    let mut all = vec![
        Answer::AcceptBrief,
        Answer::Person("Kim Marsh".to_owned()),
        typed("3 mm"),
        typed("20 mm"),
        Answer::Acknowledge,
        Answer::True,
        Answer::Untrue { state: reason() },
        Answer::Release { said: "RV".to_owned() },
        Answer::Release { said: "Sam Hollis".to_owned() },
        Answer::Done,
        Answer::Again { reason: reason() },
        Answer::Accept { disposition, reason: reason() },
        Answer::NotApplicable { reason: reason() },
        Answer::Note(reason()),
        Answer::Disturbed(reason()),
        leave(Leave::Suspend),
        leave(Leave::Stop),
        Answer::Dispose { disposition, reason: reason() },
        Answer::Close,
    ];
    all.extend(["3 mm", "20 mm"].map(|text| Answer::Correct {
        reading: name("first"),
        text: text.to_owned(),
        reason: reason(),
    }));
    all.extend(steps().map(Answer::Pick));
    all.extend(steps().map(|before| Answer::Defer { before, reason: reason() }));
    let sections = (0..drive.book.procedure.sections().len()).map(bayhand::procedure::SectionId);
    let to_end = sections.map(|section| InterruptionAnswer::DeferToEnd { section, reason: reason() });
    all.extend(to_end.map(Answer::Interruption));
    all.extend(
        [
            FlowAnswer::Complete,
            FlowAnswer::WorkDone,
            FlowAnswer::Counts,
            FlowAnswer::Invalid { reason: reason() },
            FlowAnswer::GiveUp { disposition, reason: reason() },
            FlowAnswer::Extend { reason: reason() },
            FlowAnswer::Restart { reason: reason() },
            FlowAnswer::Choose(StepId(0)),
            FlowAnswer::Missed,
        ]
        .map(Answer::Flow),
    );
    all.extend(
        [
            InterruptionAnswer::True,
            InterruptionAnswer::Untrue { state: reason() },
            InterruptionAnswer::OutOfScope { disposition, reason: reason() },
            InterruptionAnswer::Standing { state: reason() },
            InterruptionAnswer::Keep,
            InterruptionAnswer::MakeSafe,
            InterruptionAnswer::Declare { declared: Declared::Order, reason: reason() },
            InterruptionAnswer::Approve { said: "RV".to_owned() },
            InterruptionAnswer::Refuse { reason: reason() },
        ]
        .map(Answer::Interruption),
    );
    all
}

/// What stands in the way of closing, apart from statements: steps that are to be done, results that fail.
fn to_do(drive: &Drive) -> BTreeSet<StepId> {
    let steps = drive.book.procedure.steps().iter();
    steps.filter(|step| !drive.view().is_settled(step)).map(|step| step.id).collect()
}

/// An answer that makes a step be settled which nobody has done, and that no condition, way or pass takes out, has made
/// a deviation.
fn nothing_is_passed_by(before: &Drive, after: &Drive) -> Result<(), TestCaseError> {
    let grown = after.state.deviations.len() > before.state.deviations.len();
    let (event, _) = after.events.last().unwrap();
    for gone in to_do(before).difference(&to_do(after)) {
        let step = after.book.procedure.step(*gone).unwrap();
        let results = step.takes.iter().chain(&step.computes);
        let passes = results.clone().all(|result| {
            after.book.judge(&after.state, result).is_some_and(|judged| judged.judgement.lets_go_on())
        });
        let by_rule = match after.view().status(step, None) {
            Status::Done => passes || results.clone().any(|result| after.state.accepted.contains_key(result)),
            Status::NotApplicable(why) => ["condition not met", "given up", "nothing to repeat"]
                .iter()
                .any(|rule| why.starts_with(rule)),
            _ => false,
        };
        prop_assert!(by_rule || grown, "{event:?} passes {} by", step.number);
    }
    let departs = matches!(
        event,
        Event::Accepted { .. }
            | Event::LateAccepted { .. }
            | Event::Flow(bayhand::run::FlowEvent::GivenUp { .. } | bayhand::run::FlowEvent::Extended { .. })
            | Event::Interruption(
                bayhand::run::InterruptionEvent::OutOfScope { .. }
                    | bayhand::run::InterruptionEvent::Approved { .. }
                    | bayhand::run::InterruptionEvent::Declared { .. }
            )
    );
    prop_assert_eq!(departs, grown, "{:?}", event);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// Feature 47: at each question of a random walk every command is tried: none passes a rule by without a deviation.
    #[test]
    fn no_command_passes_a_rule_by_without_a_deviation(choices in prop::collection::vec(any::<u16>(), 0..60)) {
        let mut drive = Drive::of(TABLES, BODY);
        for choice in choices {
            if let Ask::Wait { until, .. } = drive.ask() {
                drive.now = until;
            }
            let mut taken = Vec::new();
            for command in commands(&drive) {
                if let Ok(event) = decide(&drive.book, &drive.state, Input::Answer(command.clone()), &drive.now) {
                    let mut after = drive.clone();
                    let stamp = bayhand::run::Stamp { seq: after.events.len() as u64 + 1, at: after.now.clone() };
                    after.state = apply(&after.book, after.state, &event, &stamp);
                    after.events.push((event, stamp));
                    nothing_is_passed_by(&drive, &after)?;
                    taken.push(command);
                }
            }
            let next = match taken.len() {
                0 => Input::Resume,
                count => Input::Answer(taken[usize::from(choice) % count].clone()),
            };
            if drive.input(next).is_err() {
                break;
            }
        }
    }
}
