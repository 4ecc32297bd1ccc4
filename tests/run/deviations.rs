//! Departures: numbered, with a reason, decided about before the run is closed; and no way round a rule without one.

use std::collections::BTreeSet;

use bayhand::procedure::{Name, Step, StepId};
use bayhand::run::{
    Answer, Ask, Declared, Departure, Disposition, Event, Input, InterruptionAnswer, InterruptionAsk,
    OpenItem, Place, Refusal, Status,
};
use proptest::prelude::*;

use super::commands::commands;
use super::drive::Drive;
use super::invariants::told::departs;
use crate::campaign::cases;

fn declare(declared: Declared) -> Answer {
    Answer::Interruption(InterruptionAnswer::Declare { declared, reason: "none at hand".to_owned() })
}

/// A person declares a departure at any question; each has its number.
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

/// Closing with an open deviation is refused, and lists it.
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

/// Left out where no condition says so: by the lead's word alone.
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

/// A later step is not done first; the refusal names the rule and the way.
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

/// Conditions, repeats, waits, hold points.
const WAY: (&str, &str) = (
    "[roles]\nlead = \"leads\"\nhelper = \"helps\"\n\
[readings.first]\nwhat = \"first\"\nunit = \"mm\"\nmax = \"10 mm\"\n\
[readings.second]\nwhat = \"second\"\nunit = \"mm\"\nmin = \"first / 2\"\n\
[values.both]\nwhat = \"both\"\nunit = \"mm\"\nformula = \"first + second\"\nmax = \"15 mm\"\n\
[conditions.big]\nif = \"first > 5 mm\"\n\
[waits.dry]\nwhat = \"dry\"\nat_least = \"5 min\"\nat_most = \"1 h\"\n\
[repeats.twice]\nwhat = \"twice\"\nuntil = \"second > 4 mm\"\nat_most = 2\n\
[hazards.fall]\nsignal = \"DANGER\"\nhazard = \"Fall\"\nconsequence = \"It kills\"\navoid = \"Stands\"\n\
[holds.support]\nwhat = \"Support\"\nconfirm = [\"on stands\"]\nrelease = \"lead\"\nsecond = \"helper\"\n\
lapses = [\"resume\", \"disturbed\"]\nprotection = \"on stands\"\n\
[holds.down]\nwhat = \"Down\"\nconfirm = [\"clear\"]\nrelease = \"lead\"\nends = [\"support\"]\n",
    "## Begin\n\n1. Measure [first].\n2. [fall] Lift: [support].\n\n## Work [twice]\n\n\
1. Read [second]: [both].\n2. [big] Wipe it.\n\n## Dry\n\n- Start [dry].\n- Sweep.\n\n## Close\n\n\
1. When [dry] is over, shut it.\n2. Lower: [down].\n3. Tidy up.\n",
);

/// Sign-off, a check, a witness, a blind second reading.
const PEOPLE: (&str, &str) = (
    "[roles]\nlead = \"leads\"\nhelper = { what = \"helps\", checked_by = \"lead\" }\n\
[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\nmax = \"10 mm\"\nsecond = \"helper\"\nagree = \"5 mm\"\n\
[checks.tight]\nwhat = \"tight\"\nby = \"helper\"\nalone = \"5 min\"\n\
[witnesses.seen]\nwhat = \"seen\"\nby = \"helper\"\n",
    "1. [helper] Wipe.\n2. Read [gap].\n3. [tight] Turn.\n4. [seen] Shut.\n",
);

/// A calibrated tool, what is typed, a file, a value of the vehicle, what is never passed.
const TAKING: (&str, &str) = (
    "[tools.gauge]\nwhat = \"gauge\"\ncalibrated = true\nrange = [\"1 mm\", \"15 mm\"]\n\
[vehicle.play]\nwhat = \"play\"\nunit = \"N·m\"\nfind = \"manual\"\n\
[readings.photo]\nwhat = \"photo\"\nkind = \"file\"\n\
[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\nmax = \"30 mm\"\ninstrument = \"gauge\"\n\
[readings.line]\nwhat = \"line\"\nunit = \"mm\"\nmax = \"2 mm\"\nnever_above = \"10 mm\"\nopens = \"shut\"\n\
[holds.shut]\nwhat = \"Shut\"\nconfirm = [\"closed\"]\nrelease = \"lead\"\n\
[critical.cut]\nwhat = \"cut\"\ntype = \"cut it\"\n[waits.glue]\nwhat = \"glue\"\nat_most = \"5 min\"\n\
[conditions.set]\nmissed = \"glue\"\n",
    "1. Show [photo].\n2. Shut [shut].\n3. Read [gap].\n4. Read [line].\n5. [cut] Cut: [glue] begins.\n\
6. Press within [glue].\n7. [set] Scrape.\n",
);

/// A group whose last stage is read, with a calibrated tool.
const FASTENING: (&str, &str) = (
    "[tools.wrench]\nwhat = \"wrench\"\ncalibrated = true\n\
[fasteners.pan]\nwhat = \"bolts\"\npositions = [\"a\", \"b\"]\norder = \"cross\"\ninstrument = \"wrench\"\n\
stages = [\"by hand\", { what = \"full\", torque = \"9 N·m\", within = \"2 N·m\", read = true }]\n",
    "1. Tighten [pan].\n2. Wipe.\n",
);

/// What stands in the way of closing, apart from statements: steps that are to be done, results that fail.
fn to_do(drive: &Drive) -> BTreeSet<StepId> {
    let steps = drive.book.procedure.steps().iter();
    steps.filter(|step| !drive.view().is_settled(step)).map(|step| step.id).collect()
}

/// Whether a step that is shown as done is: its results pass or are gone on with, each of its fasteners is tightened or
/// has a number.
fn is_really_done(drive: &Drive, step: &Step) -> bool {
    let results = step.takes.iter().chain(&step.computes);
    let judged = |result| drive.view().judge(result);
    let passes =
        results.clone().all(|result| judged(result).is_some_and(|judged| judged.judgement.lets_go_on()));
    let accepted =
        results.clone().any(|result| drive.view().said(step.id).accepted.iter().any(|(of, _)| of == result));
    let tight = |group: &Name| {
        let tightening = drive.view().tightening(group).unwrap().unwrap();
        let stages = 0..tightening.group.stages.len();
        let mut spots = stages.flat_map(|stage| tightening.places.iter().map(move |place| (stage, place)));
        spots
            .all(|(stage, place)| matches!(tightening.place(stage, place), Place::Done | Place::Deviation(_)))
    };
    (passes || accepted) && step.fasteners.iter().all(tight)
}

/// An answer that makes a step be settled which nobody has done, and that no condition, way or pass takes out, has made
/// a deviation.
fn nothing_is_passed_by(before: &Drive, after: &Drive) -> Result<(), TestCaseError> {
    let grown = after.state.deviations.len() > before.state.deviations.len();
    let (event, _) = after.events.last().unwrap();
    for gone in to_do(before).difference(&to_do(after)) {
        let step = after.book.procedure.step(*gone).unwrap();
        let by_rule = match after.view().status(step, None) {
            Status::Done => is_really_done(after, step),
            Status::NotApplicable(why) => {
                ["condition not met", "given up", "nothing to repeat", "the time was missed"]
                    .iter()
                    .any(|rule| why.starts_with(rule))
            }
            _ => false,
        };
        prop_assert!(by_rule || grown, "{event:?} passes {} by", step.number);
    }
    let corrects = matches!(event, Event::Corrected { .. });
    prop_assert!(departs(event) == grown || corrects, "{:?}", event);
    Ok(())
}

/// At each question of a walk every command is tried, and one of those that were taken is gone on with.
fn try_everything((tables, body): (&str, &str), choices: &[u16]) -> Result<(), TestCaseError> {
    let mut drive = Drive::of(tables, body);
    for choice in choices {
        if let Ask::Wait { until, .. } = drive.ask() {
            drive.now = until;
        }
        drive.pass(i64::from(choice % 7));
        let mut taken = Vec::new();
        for command in commands(&drive) {
            if drive.takes(&command) {
                let mut after = drive.clone();
                after.say(command.clone()).unwrap();
                nothing_is_passed_by(&drive, &after)?;
                taken.push(command);
            }
        }
        let next = match taken.len() {
            0 => Input::Resume,
            count => Input::Answer(taken[usize::from(*choice) % count].clone()),
        };
        if drive.input(next).is_err() {
            break;
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(cases(10))]

    /// At each question of a random walk every command is tried: none passes a rule by without a deviation.
    #[test]
    fn no_command_passes_a_rule_by_without_a_deviation(choices in prop::collection::vec(any::<u16>(), 0..60)) {
        for procedure in [WAY, PEOPLE, TAKING, FASTENING] {
            try_everything(procedure, &choices)?;
        }
    }
}
