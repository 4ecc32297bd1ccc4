//! The rules for authors: what they find, what they leave alone, and how a file turns them off.
//!
//! What a text shows whole stands in the golden cases; here the edges of each rule.

use bayhand::procedure::read;
use bayhand::source::{Look, SourceText, render};

use super::support::{codes, file, repository, sound, text};

/// What is said about one step.
fn of_step(step: &str) -> Vec<&'static str> {
    codes(&file("", &format!("# T\n\n1. {step}\n")))
}

fn quiet(steps: &[&str]) {
    for step in steps {
        assert!(of_step(step).is_empty(), "{step}: {:?}", of_step(step));
    }
}

fn found(code: &str, steps: &[&str]) {
    for step in steps {
        assert_eq!(of_step(step), [code], "{step}");
    }
}

#[test]
fn one_action_per_step() {
    found(
        "two-actions",
        &[
            "Remove the bolt and torque the nut.",
            "Remove A and torque B.",
            "Fit the seal, then tighten the nut.",
            "Open the vent. Drain the case.",
            "Take the clamp off and tie it back.",
            "Remove the cover and the seal, and wipe the seat.",
        ],
    );
    quiet(&[
        "Remove the bolt and the nut.",
        "Measure the gap and write it down.",
        "Lift the drum so that the shaft can turn and lock the pawl.",
        "Fit the upper and lower covers.",
        "Use the bar to lift and turn the drum.",
        "Lift and turn the cap.",
        "Hold the nut and turn the bolt.",
        "Check the hose and clamp for wear.",
        "Count the cap, plug and seal.",
        "Push until the pawl drops and locks the drum.",
        "Look at the old oil. It must be clear.",
        "Wait until the pump stops and drain the case is lit.",
    ]);
}

#[test]
fn the_condition_comes_before_the_action() {
    found(
        "condition-last",
        &[
            "Close the valve if oil shows.",
            "Stop the pump when it is empty.",
            "Wipe the seat unless it is dry.",
            "Close the valve only if oil shows.",
        ],
    );
    quiet(&[
        "If oil shows, close the valve.",
        "When oil shows, close the valve.",
        "Check if the valve is tight.",
        "See when the bubbles stop.",
        "Turn the shaft and, when oil shows, hold it.",
        "Fit the clip as if it were new.",
        "Fit the spacer (if the old one is worn).",
    ]);
}

#[test]
fn and_is_not_mixed_with_or() {
    found("and-or-mixed", &["Fit the seal and the ring or the gasket.", "Wipe the seat and/or the ring."]);
    quiet(&[
        "Fit the seal or the gasket.",
        "Wait one or two minutes and look at the seal.",
        "Turn it 3 or 4 times and look at the mark.",
        "Look at the ring and the seal, more or less closely.",
        "Take the long bolt or the short one, and the washer.",
        "Look along the line and in the manual for a filter or a valve.",
    ]);
}

#[test]
fn steps_are_worded_positively() {
    found(
        "negative-wording",
        &[
            "Do not let go of the lever.",
            "Don't turn the shaft.",
            "Never look away.",
            "Hold the lever and do not let go.",
        ],
    );
    quiet(&["Check that the hoses do not touch.", "Look whether it never drips."]);
}

#[test]
fn a_step_begins_with_its_verb() {
    found(
        "verb-first",
        &["The valve should be closed.", "You close the valve.", "It is closed.", "Each nut is turned."],
    );
    quiet(&[
        "Close the valve.",
        "With the pump on, close the valve.",
        "Slowly close the valve.",
        "Both lift the case.",
    ]);
}

const HOT: &str =
    "[hazards.hot]\nsignal = \"WARNING\"\nhazard = \"hot\"\nconsequence = \"burns\"\navoid = \"gloves\"\n";

fn with_hazard(body: &str) -> Vec<&'static str> {
    codes(&file(HOT, body))
}

#[test]
fn a_hazard_stands_before_its_act() {
    for late in [
        "# T\n\n1. Open it.\n\n   It is hot: [hot].\n",
        "# T\n\n1. Open it.\n\n   > It is hot: [hot].\n",
        "# T\n\n## A\n\n1. Open it.\n\nIt was hot: [hot].\n",
    ] {
        assert_eq!(with_hazard(late), ["hazard-late"], "{late}");
    }
    for early in [
        "# T\n\n1. [hot] Open it.\n\n   > It is hot: [hot].\n",
        "# T\n\n## A [hot]\n\n1. Open it.\n\n   > It is hot: [hot].\n",
        "# T\n\n## A\n\nIt is hot: [hot].\n\n1. Open it.\n",
        "# T\n\n1. [hot] Open it:\n   - Lift the lid.\n\n     It is hot: [hot].\n",
    ] {
        assert!(with_hazard(early).is_empty(), "{early}");
    }
}

#[test]
fn a_hazard_without_a_consequence_is_refused() {
    let tables = HOT.replace("consequence = \"burns\"\n", "");
    assert_eq!(codes(&file(&tables, "# T\n\n1. [hot] Open it.\n")), ["key-missing"]);
}

/// What is said of a hazard that asks for `avoid`, where the only step is `step`.
fn avoiding(avoid: &str, step: &str) -> Vec<&'static str> {
    let tables = HOT.replace("avoid = \"gloves\"", &format!("avoid = \"{avoid}\""));
    codes(&file(&tables, &format!("# T\n\n1. [hot] {step}\n")))
}

#[test]
fn what_a_hazard_asks_for_is_a_step_too() {
    assert_eq!(avoiding("Disconnect the battery.", "Lift the pump out."), ["avoid-no-step"]);
    assert_eq!(avoiding("Disconnect the battery.", "Disconnect the pump."), ["avoid-no-step"]);
    assert_eq!(avoiding("Keep clear, and drain the tank first.", "Lift the tank."), ["avoid-no-step"]);
    assert!(avoiding("Disconnect the battery.", "Disconnect the battery.").is_empty());
    assert!(avoiding("Chock both wheels.", "See that each wheel is chocked.").is_empty());
    assert!(avoiding("Tag the switch before work.", "Hang a note on it: switch tagged.").is_empty());
    assert!(avoiding("Stay out until the drain is shut.", "Lift the pump out.").is_empty());
}

#[test]
fn a_statement_of_a_hold_point_does_for_what_a_hazard_asks() {
    let tables = HOT.replace("avoid = \"gloves\"", "avoid = \"Disconnect the battery.\"");
    let hold =
        "[holds.safe]\nwhat = \"safe\"\nconfirm = [\"The battery is disconnected\"]\nrelease = \"lead\"\n";
    let body = "# T\n\n1. [hot] Lift the pump out.\n2. Release the hold point [safe].\n";
    assert!(codes(&file(&format!("{tables}{hold}"), body)).is_empty());
}

/// What is said of a CAUTION with this consequence.
fn caution(consequence: &str) -> Vec<&'static str> {
    let tables = HOT.replace("WARNING", "CAUTION").replace("burns", consequence);
    codes(&file(&tables, "# T\n\n1. [hot] Open it.\n"))
}

#[test]
fn a_caution_hurts_somebody() {
    assert_eq!(caution("The thread strips."), ["caution-no-injury"]);
    assert_eq!(caution("It wears out the pump."), ["caution-no-injury"]);
    assert!(caution("It strips the thread and cuts the hand.").is_empty());
    assert!(caution("A fall sprains and bruises.").is_empty());
    assert!(caution("It splashes about.").is_empty(), "nothing certain to say");
}

/// What is said of a reading with these keys, named in the only step.
fn reading(keys: &str) -> Vec<&'static str> {
    codes(&file(&format!("[readings.x]\nwhat = \"x\"\n{keys}\n"), "# T\n\n1. Read [x].\n"))
}

#[test]
fn a_limit_needs_a_way_on() {
    for keys in [
        "unit = \"psi\"\nmax = \"3 psi\"",
        "unit = \"psi\"\ntarget = \"3 psi\"\nwithin = \"1 psi\"",
        "kind = \"count\"\nmax = 0",
        "choices = [\"a\", \"b\"]\naccept = [\"a\"]",
        "kind = \"date\"\nmin = 2026-01-01",
    ] {
        assert_eq!(reading(keys), ["fails-missing"], "{keys}");
        assert!(reading(&format!("{keys}\nfails = \"Mend it.\"")).is_empty(), "{keys}");
    }
    for keys in
        ["unit = \"psi\"\nnominal = \"3 psi\"", "unit = \"psi\"\ninformation_only = true", "kind = \"text\""]
    {
        assert!(reading(&format!("{keys}\nwhy = \"The owner asks.\"")).is_empty(), "{keys}");
    }
}

#[test]
fn a_condition_that_speaks_of_a_reading_is_a_way_on() {
    let tables =
        "[readings.x]\nwhat = \"x\"\nunit = \"psi\"\nmax = \"3 psi\"\n[conditions.high]\nif = 'x > 3 psi'\n";
    assert!(codes(&file(tables, "# T\n\n1. Read [x].\n2. [high] Let it out.\n")).is_empty());
}

#[test]
fn a_limit_divides_what_is_likely() {
    let bounds = |low: &str, high: &str, limit: &str| {
        reading(&format!(
            "unit = \"psi\"\nplausible = [\"{low}\", \"{high}\"]\n{limit}\nfails = \"Mend it.\""
        ))
    };
    assert_eq!(bounds("0 psi", "200 psi", "max = \"300 psi\""), ["limit-idle"]);
    assert_eq!(bounds("0 psi", "200 psi", "min = \"30 bar\""), ["limit-idle"]);
    assert_eq!(bounds("10 psi", "200 psi", "below = \"10 psi\""), ["limit-idle"]);
    assert!(bounds("0 psi", "200 psi", "max = \"200 psi\"").is_empty());
    assert!(bounds("0 psi", "200 psi", "max = \"0 psi\"").is_empty());
    assert!(bounds("0 psi", "200 psi", "min = \"-1 psi\"\nmax = \"20 psi\"").is_empty());
}

const TWO: &str = "[readings.a]\nwhat = \"a\"\nchoices = [\"x\", \"y\"]\ninformation_only = true\nwhy = \"w\"\n\
                   [readings.n]\nwhat = \"n\"\nunit = \"mm\"\ninformation_only = true\nwhy = \"w\"\n";

/// What is said of steps under these conditions.
fn conditions(first: &str, second: &str) -> Vec<&'static str> {
    let tables = format!("{TWO}[conditions.one]\nif = '{first}'\n[conditions.two]\nif = '{second}'\n");
    codes(&file(&tables, "# T\n\n1. Read [a] and [n].\n2. [one] Turn it.\n3. [one] [two] Lift it.\n"))
}

#[test]
fn a_condition_can_be_true_and_can_be_false() {
    assert_eq!(conditions("a == \"x\" and a == \"y\"", "n > 1 mm"), ["condition-constant"]);
    assert_eq!(conditions("a == \"x\" or a == \"y\"", "n > 1 mm"), ["condition-constant"]);
    assert_eq!(conditions("2 > 3", "n > 1 mm"), ["condition-constant"]);
    assert_eq!(conditions("a == \"x\"", "a == \"y\""), ["step-unreachable"]);
    assert_eq!(conditions("a == \"x\"", "not one"), ["step-unreachable"]);
    assert!(conditions("a == \"x\"", "n > 1 mm").is_empty());
    assert!(
        conditions("a == \"x\" and n > 1 mm", "a == \"y\" and n < 1 mm").is_empty(),
        "not by choices alone"
    );
}

#[test]
fn a_section_has_nine_steps_at_most() {
    let steps = |count: usize| "1. Turn it.\n".repeat(count);
    assert!(codes(&file("", &format!("# T\n\n{}", steps(9)))).is_empty());
    assert_eq!(codes(&file("", &format!("# T\n\n{}", steps(10)))), ["section-long"]);
    let parts = format!("# T\n\n1. Turn it:\n{}", "   1. Turn it.\n".repeat(12));
    assert!(codes(&file("", &parts)).is_empty());
}

const SPLIT: &str = "# T\n\n1. Remove the bolt and torque the nut.\n";

#[test]
fn a_rule_that_is_turned_off_is_silent_and_kept_with_its_reason() {
    let procedure = sound(&file("[rules_off]\ntwo-actions = \"one hand, one movement\"\n", SPLIT));
    let rules: Vec<_> =
        procedure.rules_off().iter().map(|rule| (rule.code.as_str(), rule.reason.as_str())).collect();
    assert_eq!(rules, [("two-actions", "one hand, one movement")]);
    assert!(codes(procedure.text().text()).is_empty());
}

#[test]
fn only_advice_can_be_turned_off_with_a_reason_and_for_something() {
    let off = |line: &str| codes(&file(&format!("[rules_off]\n{line}\n"), SPLIT));
    assert_eq!(off("two-acts = \"why not\""), ["rule-off-unknown"]);
    assert_eq!(off("name-unused = \"for later\""), ["rule-off-unknown"]);
    assert_eq!(off("two-actions = \" \""), ["text-empty"]);
    assert_eq!(off("two-actions = 1"), ["value-type"]);
    assert_eq!(off("two-actions = \"one movement\"\nverb-first = \"so what\""), ["rule-off-idle"]);
}

#[test]
fn advice_waits_until_nothing_is_wrong() {
    assert_eq!(codes(&file("", "# T\n\n1. The [bolt] and the nut.\n")), ["mention-unknown"]);
    assert_eq!(codes(&file("", "# T\n\n1. The bolt and the nut.\n")), ["verb-first"]);
}

#[test]
fn conditions_that_go_round_or_on_and_on_end() {
    let link = |at: u32| format!("[conditions.c{at}]\nif = 'c{} and c{}'\n", at - 1, at - 1);
    let chain = (1..400).map(link).collect::<Vec<_>>().concat();
    let tables = format!("{TWO}[conditions.c0]\nif = 'a == \"x\"'\n{chain}");
    assert!(codes(&file(&tables, "# T\n\n1. Read [a] and [n].\n2. [c399] Turn it.\n")).is_empty());
}

/// The file that has every type of step.
fn every_type() -> String {
    text(&repository("tests/cases/procedure/every-step-type.md"))
}

#[test]
fn every_type_of_step_is_read() {
    let procedure = sound(&every_type());
    let steps = procedure.steps();
    assert!(codes(&every_type()).is_empty());
    let any = |is: &dyn Fn(&bayhand::procedure::Step) -> bool| steps.iter().any(is);
    assert!(any(&|step| step.hold.is_some()), "hold point");
    assert!(any(&|step| !step.takes.is_empty()), "data recording");
    assert!(any(&|step| !step.conditions.is_empty()), "conditional");
    assert!(any(&|step| step.groups.iter().any(|group| group.order == bayhand::procedure::Order::AnyOrder)));
    assert!(any(&|step| step.alternatives.is_some()), "alternatives");
    assert!(any(&|step| !step.starts.is_empty()) && any(&|step| !step.needs.is_empty()), "time-dependent");
    assert!(any(&|step| step.who.len() == 2), "concurrent");
    assert!(
        any(&|step| !step.watch_begins.is_empty()) && any(&|step| !step.watch_ends.is_empty()),
        "continuous"
    );
    assert!(any(&|step| step.repeat.is_some()), "repeated");
    assert!(any(&|step| !step.checks.is_empty()), "verification");
    assert!(any(&|step| !step.witnesses.is_empty()), "notification");
    assert!(any(&|step| !step.critical.is_empty()), "critical");
}

#[test]
fn an_unknown_name_is_told_with_file_line_and_column() {
    for (right, wrong) in [("[drill] Drill", "[dril] Drill"), ("[pull_seal] Pull", "[pul_seal] Pull")] {
        let text = every_type().replace(right, wrong);
        let line = text.lines().position(|line| line.contains(wrong)).unwrap() + 1;
        let column = text.lines().nth(line - 1).unwrap().find(wrong).unwrap() + 1;
        let source = SourceText::new("every.md", text);
        let said = render(&read(&source, "every").diagnostics, &source, Look::PLAIN);
        assert!(said.contains("error[mention-unknown]"), "{said}");
        assert!(said.contains(&format!("every.md:{line}:{column}")), "{said}");
    }
}

/// Each fault of a procedure's structure: its code and the words on the line that the message points at.
#[test]
fn each_fault_of_the_structure_names_its_line() {
    let faults = [
        ("limits-missing", "[readings.", "limits or information only"),
        ("fails-missing", "[readings.line]", "no way on"),
        ("none-not-said", "+++", "what must be true after it"),
        ("mention-unknown", "[", "a reference that leads nowhere"),
        ("step-unreachable", "1. [dark] Drain it:", "a step that nothing leads to"),
        (
            "condition-constant",
            "if = 'look == \"dark\" and look == \"milky\"'",
            "a step that is never reached",
        ),
        ("repeat-endless", "until", "a loop without an end"),
    ];
    for (code, words, why) in faults {
        let path = repository(&format!("tests/cases/procedure/{code}.md"));
        let source = SourceText::new("case.md", text(&path));
        let said = read(&source, "case").diagnostics;
        let places =
            said.iter().filter(|said| said.code.name == code).filter_map(bayhand::source::Diagnostic::place);
        let mut lines = places.map(|place| {
            let line = source.position(place.start).line;
            source.text().lines().nth(line - 1).unwrap().to_owned()
        });
        assert!(lines.any(|line| line.contains(words)), "{code}: {why}");
    }
}
