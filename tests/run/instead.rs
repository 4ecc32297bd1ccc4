//! Named outcomes in place of a value: each has the verdict that the procedure gives it, and no number.

use bayhand::procedure::{Shelf, read_linked};
use bayhand::run::{Answer, Answered, Ask, Book, Disposition, FlowAnswer, LateAnswer, PeopleAsk, Refusal};
use bayhand::source::SourceText;

use super::drive::{Drive, name, reason, text};

const BURN: &str = "[readings.burn_time]\nwhat = \"time until it goes out\"\nunit = \"s\"\nmax = 15\n\
instead = { \"does not burn\" = \"pass\", \"never reached\" = \"fail\", \"not tried\" = \"information only\" }\n\
fails = \"take another sample\"\n";
const LOOK: &str = "[readings.look]\nwhat = \"look of the strip\"\nchoices = [\"clear\", \"charred\"]\n\
accept = [\"clear\"]\ninstead = { \"strip is gone\" = \"fail\", \"under paint\" = \"pass\" }\nfails = \"take a strip\"\n";

fn words(drive: &Drive, of: &str) -> String {
    drive.view().judge(&name(of)).unwrap().judgement.to_string()
}

fn latest(drive: &Drive, of: &str) -> Answered {
    drive.view().latest(&name(of)).unwrap().value.clone()
}

fn outcome(words: &str) -> Answered {
    Answered::Instead(words.to_owned())
}

fn correct(of: &str, text: &str) -> Answer {
    Answer::Correct { entry: None, reading: name(of), text: text.to_owned(), reason: reason() }
}

fn accept() -> Answer {
    Answer::Accept { disposition: Disposition::UseAsIs, reason: reason() }
}

#[test]
fn the_verdict_is_the_one_of_the_table_and_has_no_distance() {
    for (typed, words, goes_on) in [
        ("does not burn", "pass, as the procedure says", true),
        ("not tried", "information only", true),
        ("never reached", "fail, as the procedure says", false),
    ] {
        let mut drive = Drive::of(BURN, "1. Time it: [burn_time].\n2. Go on.\n");
        drive.enter(typed);
        let judged = drive.view().judge(&name("burn_time")).unwrap();
        assert_eq!(judged.judgement.to_string(), words);
        assert!(judged.quantity.is_none() && judged.limits.is_none() && judged.certainty.is_none());
        assert_eq!(judged.judgement.side(), None);
        assert_eq!(drive.label() == "1.2", goes_on, "{typed}");
        assert_eq!(drive.ask() == Ask::Failed(name("burn_time")), !goes_on, "{typed}");
    }
}

#[test]
fn capitals_and_blanks_do_not_matter_and_the_words_of_the_file_are_kept() {
    let mut drive = Drive::of(BURN, "1. Time it: [burn_time].\n");
    drive.enter("  Does  NOT burn ");
    assert_eq!(latest(&drive, "burn_time"), outcome("does not burn"));
    let mut drive = Drive::of(BURN, "1. Time it: [burn_time].\n");
    let misspelt = drive.answer(super::drive::typed("does not bum"));
    assert!(matches!(misspelt, Err(Refusal::Unreadable(_))), "{misspelt:?}");
    drive.enter("12");
    assert!(words(&drive, "burn_time").starts_with("pass, 3 s below"));
}

#[test]
fn a_failing_outcome_is_taken_again_or_gone_on_with_like_any_failed_reading() {
    let mut drive = Drive::of(BURN, "1. Time it: [burn_time].\n2. Go on.\n");
    drive.enter("never reached");
    assert_eq!(drive.status("1.1"), "failed");
    assert_eq!(drive.view().what_to_do(&name("burn_time")), ["take another sample"]);
    drive.take(Answer::Again { reason: reason() });
    drive.enter("never reached");
    drive.take(accept());
    assert_eq!((drive.label().as_str(), drive.state.deviations.len()), ("1.2", 1));
}

#[test]
fn a_failing_outcome_opens_the_path_for_a_failed_reading() {
    let tables = format!("{BURN}[conditions.bad]\nfailed = \"burn_time\"\n");
    let body = "1. Time it: [burn_time].\n2. [bad] Throw it out.\n3. Go on.\n";
    for (typed, next) in [("never reached", "1.2"), ("does not burn", "1.3"), ("not tried", "1.3")] {
        let mut drive = Drive::of(&tables, body);
        drive.enter(typed);
        assert_eq!(drive.label(), next, "{typed}");
    }
}

#[test]
fn a_hold_point_opens_by_a_passing_outcome_and_stays_shut_by_a_failing_one() {
    let tables = format!(
        "{BURN}[holds.gate]\nwhat = \"it is safe\"\nreadings = [\"burn_time\"]\nrelease = \"lead\"\n"
    );
    let body = "1. Release [gate].\n2. Go on.\n";
    let mut drive = Drive::of(&tables, body);
    drive.enter("never reached");
    assert_eq!(drive.ask(), Ask::Failed(name("burn_time")));
    assert!(matches!(drive.answer(accept()), Err(Refusal::HoldPoint(_))));
    drive.take(Answer::Again { reason: reason() });
    drive.enter("does not burn");
    drive.release();
    assert_eq!(drive.label(), "1.2");
}

#[test]
fn a_correction_leads_from_a_number_to_an_outcome_and_back() {
    let mut drive = Drive::of(BURN, "1. Time it: [burn_time].\n2. Go on.\n");
    drive.enter("40");
    drive.take(correct("burn_time", "does not burn"));
    assert_eq!((latest(&drive, "burn_time"), drive.label().as_str()), (outcome("does not burn"), "1.2"));
    drive.take(correct("burn_time", "40 s"));
    assert_eq!(drive.ask(), Ask::Failed(name("burn_time")));
    drive.take(correct("burn_time", "never reached"));
    assert_eq!(words(&drive, "burn_time"), "fail, as the procedure says");
    assert_eq!(drive.readings(&name("burn_time")).len(), 4, "every entry is kept");
}

#[test]
fn what_was_done_on_paper_can_have_come_out_so() {
    let mut drive = Drive::of(BURN, "1. Time it: [burn_time].\n2. Go on.\n");
    drive.pass(30);
    let done = "18:40".to_owned();
    let answer = Box::new(super::drive::typed("does not burn"));
    drive.take(LateAnswer { answer, done, reason: reason() }.into());
    assert_eq!((latest(&drive, "burn_time"), drive.label().as_str()), (outcome("does not burn"), "1.2"));
}

// Choices.

#[test]
fn an_outcome_stands_after_the_choices_and_outside_their_criterion() {
    for (typed, value, verdict) in [
        ("strip is gone", outcome("strip is gone"), "fail, as the procedure says"),
        ("4", outcome("under paint"), "pass, as the procedure says"),
        ("1", Answered::Choice("clear".to_owned()), "pass, accepted: clear"),
        ("charred", Answered::Choice("charred".to_owned()), "fail, accepted: clear"),
    ] {
        let mut drive = Drive::of(LOOK, "1. Look: [look].\n2. Go on.\n");
        drive.enter(typed);
        assert_eq!((latest(&drive, "look"), words(&drive, "look").as_str()), (value, verdict));
    }
    let mut drive = Drive::of(LOOK, "1. Look: [look].\n");
    let Err(Refusal::NotAChoice { choices, .. }) = drive.answer(super::drive::typed("5")) else { panic!() };
    assert_eq!(choices, ["clear", "charred", "strip is gone", "under paint"]);
}

#[test]
fn a_formula_compares_a_choice_with_an_outcome_as_with_any_choice() {
    let tables = format!("{LOOK}[conditions.gone]\nif = 'look == \"strip is gone\"'\n");
    let mut drive = Drive::of(&tables, "1. Look: [look].\n2. [gone] Fit a strip.\n3. Go on.\n");
    drive.enter("strip is gone");
    drive.take(accept());
    assert_eq!(drive.label(), "1.2");
}

// No number.

const RATE: &str = "[values.rate]\nwhat = \"how fast it burns\"\nformula = '250 mm / burn_time'\nunit = \"mm/min\"\n\
max = \"100 mm/min\"\nfails = \"see the source\"\n";

/// As with any result that cannot be worked out: a person decides, and it is a deviation.
#[test]
fn a_value_that_needs_the_number_cannot_be_judged_and_says_why() {
    let mut drive = Drive::of(&format!("{BURN}{RATE}"), "1. Time it: [burn_time], [rate].\n2. Go on.\n");
    drive.enter("does not burn");
    assert_eq!(drive.ask(), Ask::Failed(name("rate")));
    assert_eq!(
        words(&drive, "rate"),
        "cannot be judged: time until it goes out is \"does not burn\", no number"
    );
    drive.take(accept());
    assert_eq!(drive.label(), "1.2");
}

/// The same person decides in the same way where the reading was never taken at all.
#[test]
fn without_a_number_it_goes_on_as_after_a_step_that_was_left_out() {
    let body = "1. Time it: [burn_time].\n2. It is [rate].\n3. Go on.\n";
    for first in [super::drive::typed("does not burn"), Answer::NotApplicable { reason: reason() }] {
        let mut drive = Drive::of(&format!("{BURN}{RATE}"), body);
        drive.take(first);
        assert_eq!(drive.ask(), Ask::Failed(name("rate")));
        assert!(words(&drive, "rate").starts_with("cannot be judged: time until it goes out is "));
        drive.take(accept());
        drive.done();
        assert_eq!(drive.label(), "1.3");
    }
}

#[test]
fn a_value_upon_such_a_value_has_no_number_either() {
    let tables = format!(
        "{BURN}{RATE}[values.twice]\nwhat = \"twice that\"\nformula = '2 * rate'\nunit = \"mm/min\"\ninformation_only = true\n"
    );
    let mut drive = Drive::of(&tables, "1. Time it: [burn_time].\n2. It is [rate] and [twice].\n");
    drive.enter("does not burn");
    assert_eq!(words(&drive, "twice"), "cannot be judged: how fast it burns is \"does not burn\", no number");
}

#[test]
fn a_limit_that_needs_the_number_says_so() {
    let tables =
        format!("{BURN}[readings.second_time]\nwhat = \"second sample\"\nunit = \"s\"\nmax = 'burn_time'\n");
    let mut drive = Drive::of(&tables, "1. Time it: [burn_time].\n2. Again: [second_time].\n");
    drive.enter("does not burn");
    drive.enter("12");
    assert_eq!(
        words(&drive, "second_time"),
        "cannot be judged: no limit: time until it goes out is \"does not burn\", no number"
    );
}

#[test]
fn whoever_asks_first_needs_no_number() {
    let safe = "[values.rate]\nwhat = \"how fast it burns\"\nunit = \"mm/min\"\nmax = \"100 mm/min\"\n\
formula = 'if burn_time == \"does not burn\" then 0 mm/min else 250 mm / burn_time'\n";
    let mut drive = Drive::of(&format!("{BURN}{safe}"), "1. Time it: [burn_time], [rate].\n2. Go on.\n");
    drive.enter("does not burn");
    assert_eq!(drive.label(), "1.2");
    let judged = drive.view().judge(&name("rate")).unwrap();
    assert!(judged.judgement.to_string().starts_with("pass, "));
    assert!(
        drive
            .view()
            .trace(&name("rate"))
            .unwrap()
            .show()
            .contains("if \"does not burn\" == \"does not burn\"")
    );
}

#[test]
fn a_condition_works_out_from_left_to_right_no_more_than_it_needs() {
    let body = "1. Time it: [burn_time].\n2. [asked] Do it.\n3. Go on.\n";
    for (formula, typed, next) in [
        ("burn_time == \"does not burn\"", "Does not burn", "1.2"),
        ("\"does not burn\" == burn_time", "12", "1.3"),
        ("burn_time != \"does not burn\"", "12", "1.2"),
        ("burn_time != \"does not burn\"", "not tried", "1.2"),
        ("burn_time == \"does not burn\" or burn_time < 9 s", "does not burn", "1.2"),
        ("burn_time != \"does not burn\" and burn_time < 9 s", "does not burn", "1.3"),
    ] {
        let mut drive = Drive::of(&format!("{BURN}[conditions.asked]\nif = '{formula}'\n"), body);
        drive.enter(typed);
        assert_eq!(drive.label(), next, "{formula} with {typed}");
    }
}

/// A condition that cannot be worked out leaves its steps in play, as ever; it says why.
#[test]
fn a_condition_that_needs_the_number_says_why_it_cannot_be_worked_out() {
    let tables = format!("{BURN}[conditions.quick]\nif = 'burn_time < 9 s'\n");
    let mut drive = Drive::of(&tables, "1. Time it: [burn_time].\n2. [quick] Do it.\n");
    drive.enter("does not burn");
    assert_eq!(drive.label(), "1.2");
    assert_eq!(
        drive.view().condition_shown(&name("quick")),
        "whether time until it goes out is below 9 s cannot be worked out: time until it goes out is \"does not burn\", no number"
    );
}

// Passes.

fn three(values: &str, mentioned: &str) -> Drive {
    let tables = format!("{BURN}[repeats.sample]\nwhat = \"three samples\"\ntimes = 3\n{values}");
    Drive::of(&tables, &format!("1. [sample] Burn it: [burn_time]{mentioned}.\n2. Together: [result].\n"))
}

fn burn(drive: &mut Drive, times: [&str; 3]) {
    for time in times {
        drive.enter(time);
        drive.take(Answer::Flow(FlowAnswer::Counts));
    }
}

fn result(formula: &str, unit: &str) -> String {
    format!(
        "[values.result]\nwhat = \"result\"\nformula = '{formula}'\nunit = \"{unit}\"\ninformation_only = true\n"
    )
}

#[test]
fn what_goes_over_passes_does_not_pass_over_one_without_a_number() {
    for of in ["mean", "min", "max", "sum", "spread"] {
        let mut drive = three(&result(&format!("{of}(burn_time)"), "s"), "");
        burn(&mut drive, ["10", "does not burn", "12"]);
        assert_eq!(
            words(&drive, "result"),
            "cannot be judged: time until it goes out is \"does not burn\", no number",
            "{of}"
        );
    }
}

#[test]
fn a_value_of_each_pass_that_rests_on_it_is_not_passed_over_either() {
    let each = "[values.half]\nwhat = \"half of it\"\nformula = 'burn_time / 2'\nunit = \"s\"\ninformation_only = true\n";
    let mut drive = three(&format!("{each}{}", result("mean(half)", "s")), ", [half]");
    drive.enter("10");
    drive.take(Answer::Flow(FlowAnswer::Counts));
    drive.enter("does not burn");
    drive.take(accept());
    drive.take(Answer::Flow(FlowAnswer::Counts));
    drive.enter("12");
    drive.take(Answer::Flow(FlowAnswer::Counts));
    assert_eq!(words(&drive, "result"), "cannot be judged: half of it is \"does not burn\", no number");
}

#[test]
fn the_passes_that_are_looked_at_decide() {
    for (formula, unit, wanted) in [
        ("mean(burn_time, last = 2)", "s", Some("11 s")),
        ("last(burn_time)", "s", Some("12 s")),
        ("first(burn_time)", "s", None),
        ("count(burn_time)", "1", Some("3")),
        ("if first(burn_time) == \"does not burn\" then 0 s else mean(burn_time)", "s", Some("0 s")),
        ("if last(burn_time) == \"does not burn\" then 0 s else 1 s", "s", Some("1 s")),
    ] {
        let mut drive = three(&result(formula, unit), "");
        burn(&mut drive, ["does not burn", "10", "12"]);
        let judged = drive.view().judge(&name("result")).unwrap();
        assert_eq!(judged.quantity.map(|quantity| quantity.to_string()).as_deref(), wanted, "{formula}");
    }
}

/// In a procedure that another links to, each name is another, and the words stay.
#[test]
fn a_linked_procedure_asks_for_an_outcome_of_its_own() {
    let condition = "[conditions.burns]\nif = 'burn_time != \"does not burn\"'\n";
    let inner = text(&format!("{BURN}{condition}"), "1. Time it: [burn_time].\n2. [burns] Put it out.\n")
        .replace("# Test", "# Burn it");
    let outer = text("", "1. [Burn it](inner.md).\n2. Go on.\n");
    let shelf: Shelf = [("inner.md".to_owned(), SourceText::new("inner.md", inner))].into_iter().collect();
    let found = read_linked(&SourceText::new("own.md", outer), "own", &shelf);
    let mut drive = Drive::begin(Book::new(found.value.unwrap(), None));
    drive.take(Answer::Person("Robin Vale".to_owned()));
    drive.enter("187400 km");
    drive.enter("does not burn");
    assert_eq!(drive.label(), "1.2");
}

// Two people.

#[test]
fn two_people_agree_on_the_same_outcome_and_on_nothing_else() {
    let tables = format!(
        "[roles]\nlead = \"does the work\"\nhelper = \"reads again\"\n{BURN}second = \"helper\"\nagree = \"2 s\"\n"
    );
    for (first, second, agree) in [
        ("does not burn", "does not burn", true),
        ("does not burn", "never reached", false),
        ("does not burn", "12 s", false),
        ("12 s", "does not burn", false),
        ("12 s", "13 s", true),
    ] {
        let mut drive = Drive::of(&tables, "1. Time it: [burn_time].\n2. Go on.\n");
        drive.enter(first);
        assert_eq!(drive.ask(), Ask::People(PeopleAsk::Second(name("burn_time"))));
        drive.enter(second);
        let differs = drive.ask() == Ask::People(PeopleAsk::Differs(name("burn_time")));
        assert_eq!(differs, !agree, "{first} and {second}");
    }
}

#[test]
fn a_count_has_outcomes_and_a_nominal_value_asks_nobody_about_one() {
    let tables = "[readings.chips]\nwhat = \"chips\"\nkind = \"count\"\nmax = 2\ninstead = { \"too many to count\" = \"fail\" }\n\
[readings.five]\nwhat = \"voltage\"\nunit = \"V\"\nnominal = \"5 V\"\ninstead = { \"no reading\" = \"fail\" }\n";
    let mut drive = Drive::of(tables, "1. Count: [chips].\n2. Measure: [five].\n");
    drive.enter("too many to count");
    assert_eq!(drive.ask(), Ask::Failed(name("chips")));
    drive.take(accept());
    drive.enter("no reading");
    assert_eq!(drive.ask(), Ask::Failed(name("five")));
}

#[test]
fn nothing_that_is_never_passed_and_no_limit_in_force_is_broken_without_a_number() {
    let tables = "[readings.rise]\nwhat = \"pressure\"\nunit = \"bar\"\nmax = 3\nnever_above = 4\nopens = \"shut\"\n\
instead = { \"gauge is dead\" = \"information only\" }\n\
[holds.shut]\nwhat = \"line shut\"\nconfirm = [\"shut\"]\nrelease = \"lead\"\n\
[watches.low]\nwhat = \"pressure stays low\"\nunit = \"bar\"\nbelow = 1\nreadings = [\"rise\"]\n";
    let mut drive =
        Drive::of(tables, "1. Release [shut].\n2. Open it: [low].\n3. Read [rise].\n4. Close it: [low].\n");
    drive.release();
    drive.done();
    drive.enter("gauge is dead");
    assert_eq!((drive.label().as_str(), words(&drive, "rise").as_str()), ("1.4", "information only"));
}
