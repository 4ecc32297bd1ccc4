//! Repeats: over lists and numbers, until something holds, at most so often, with passes that do not count.

use bayhand::run::{Answer, Ask, Disposition, FlowAnswer, FlowAsk, Over, PassEnd, Refusal};

use super::drive::{Drive, name, reason};

const ADJUST: &str = "\
[readings.drop]\nwhat = \"drop\"\nunit = \"rpm\"\ninformation_only = true\n\
[repeats.adjust]\nwhat = \"adjusting\"\nuntil = 'drop < 100 rpm'\nat_most = 3\nfails = \"Find the leak.\"\n";

const STUDS: &str = "\
[readings.studs]\nwhat = \"studs\"\nkind = \"count\"\ninformation_only = true\n\
[readings.length]\nwhat = \"length\"\nunit = \"mm\"\nmin = \"20 mm\"\n\
[repeats.each_stud]\nwhat = \"one stud after the other\"\ntimes = 'studs'\n";

fn counts(drive: &mut Drive) {
    drive.take(Answer::Flow(FlowAnswer::Counts));
}

fn invalid(drive: &mut Drive) {
    drive.take(Answer::Flow(FlowAnswer::Invalid { reason: reason() }));
}

fn ends_a_pass(drive: &Drive) -> bool {
    matches!(drive.ask(), Ask::Flow(FlowAsk::PassEnd(_)))
}

fn number(drive: &Drive, of: &str) -> String {
    let value = bayhand::formula::World::value_of(&drive.view().known(), of);
    value.map(|value| value.to_string().trim_matches('"').to_owned()).unwrap_or_default()
}

/// Three or nine items from one file.
#[test]
fn a_number_known_only_in_the_run_makes_so_many_passes() {
    for studs in [3_usize, 9] {
        let mut drive =
            Drive::of(STUDS, "## Count\n\n1. Count [studs].\n\n## Clean [each_stud]\n\n1. Read [length].\n");
        drive.enter(&studs.to_string());
        for pass in 1..=studs {
            assert_eq!(number(&drive, "each_stud"), pass.to_string());
            let coming = drive.view().after(drive.step("2.1"));
            assert!(coming.is_none(), "not what comes after all passes");
            drive.enter(&format!("{} mm", 20 + pass));
            counts(&mut drive);
        }
        assert_eq!(drive.ask(), Ask::Close);
        assert_eq!(drive.readings(&name("length")).len(), studs, "each pass is kept");
        drive.take(Answer::Close);
    }
}

#[test]
fn nothing_to_repeat_is_not_applicable() {
    let mut drive =
        Drive::of(STUDS, "## Count\n\n1. Count [studs].\n\n## Clean [each_stud]\n\n1. Read [length].\n");
    drive.enter("0");
    assert_eq!(drive.status("2.1"), "not applicable");
    assert_eq!(drive.ask(), Ask::Close);
}

#[test]
fn a_list_gives_each_pass_its_item() {
    let mut drive = Drive::of(
        "[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\nmax = 'if side == \"left\" then 1 mm else 2 mm'\n\
[repeats.side]\nwhat = \"both sides\"\neach = [\"left\", \"right\"]\n",
        "## Measure [side]\n\n1. On the [side] side read [gap].\n",
    );
    assert_eq!(drive.view().pass_words(drive.step("1.1")).as_deref(), Some("pass 1 of 2 (left)"));
    drive.enter("1.5 mm");
    assert!(matches!(drive.ask(), Ask::Failed(_)), "the limit of the left side");
    drive.take(Answer::Again { reason: reason() });
    drive.enter("1 mm");
    counts(&mut drive);
    assert_eq!(number(&drive, "side"), "right");
    drive.enter("1.5 mm");
    assert!(ends_a_pass(&drive), "the limit of the right side");
    counts(&mut drive);
    assert_eq!(drive.ask(), Ask::Close);
}

/// "Until three valid" with one invalid takes four passes.
#[test]
fn an_invalid_pass_is_kept_and_does_not_count() {
    let mut drive = Drive::of(
        "[readings.engage]\nwhat = \"engagement\"\nunit = \"s\"\ninformation_only = true\n\
[repeats.three]\nwhat = \"three engagements\"\ntimes = 3\n",
        "## Engage [three]\n\n1. Read [engage].\n",
    );
    let tries = [counts, invalid, counts, counts].into_iter().enumerate();
    let (places, words) = (["1", "2", "2", "3"], ["1 of 3", "2 of 3", "3 (2 of 3)", "4 (3 of 3)"]);
    for (pass, ends) in tries {
        assert_eq!(number(&drive, "three"), places[pass], "the one that is to count");
        assert_eq!(drive.view().pass_number(&name("three")).unwrap(), format!("pass {}", words[pass]));
        drive.enter(&format!("1.{pass} s"));
        ends(&mut drive);
    }
    assert_eq!(drive.ask(), Ask::Close);
    let rounds = drive.view().round(&name("three")).unwrap();
    assert_eq!((rounds.ended.len(), rounds.counting.len()), (4, 3));
    let second = drive.state.at(rounds.ended[1]).end.as_ref().unwrap();
    assert!(matches!(second.how, PassEnd::Invalid(_)));
    assert_eq!(drive.readings(&name("engage")).len(), 4);
}

#[test]
fn a_list_that_is_read_in_the_run_is_gone_through_and_an_invalid_pass_keeps_its_item() {
    let mut drive = Drive::of(
        "[readings.faults]\nwhat = \"fault codes\"\nkind = \"list\"\n\
[repeats.fault]\nwhat = \"each fault\"\neach = \"faults\"\n",
        "## Read\n\n1. Write down [faults].\n\n## Look up [fault]\n\n1. Look up [fault].\n",
    );
    drive.enter("E17, E4");
    drive.done();
    invalid(&mut drive);
    assert_eq!(number(&drive, "fault"), "E17");
    drive.done();
    counts(&mut drive);
    assert_eq!(number(&drive, "fault"), "E4");
    drive.done();
    counts(&mut drive);
    assert_eq!(drive.ask(), Ask::Close);
}

#[test]
fn a_repeat_stops_when_what_it_goes_on_for_has_come() {
    let mut drive = Drive::of(ADJUST, "## Adjust [adjust]\n\n1. Read [drop].\n2. Turn.\n");
    for value in ["150 rpm", "99 rpm"] {
        drive.enter(value);
        drive.done();
        counts(&mut drive);
    }
    let rounds = drive.view().round(&name("adjust")).unwrap();
    assert_eq!((rounds.over, rounds.counting.len()), (Some(Over::Met), 2));
    assert_eq!(drive.ask(), Ask::Close);
}

/// A correction in the last pass moves what rests on it: the repeat goes on.
#[test]
fn a_correction_can_show_that_the_repeat_is_not_over() {
    let mut drive = Drive::of(ADJUST, "## Adjust [adjust]\n\n1. Read [drop].\n2. Turn.\n");
    drive.enter("99 rpm");
    drive.done();
    counts(&mut drive);
    assert_eq!(drive.ask(), Ask::Close);
    drive.take(Answer::Correct {
        entry: None,
        reading: name("drop"),
        text: "199 rpm".to_owned(),
        reason: reason(),
    });
    assert_eq!(drive.ask(), Ask::Reading(name("drop")), "the second pass");
}

#[test]
fn at_the_most_passes_the_person_decides_and_it_is_a_deviation() {
    let mut drive = in_vain("");
    assert_eq!(drive.ask(), Ask::Flow(FlowAsk::Exhausted(name("adjust"))));
    drive.take(Answer::Flow(FlowAnswer::Extend { reason: reason() }));
    assert_eq!(drive.state.deviations.len(), 1, "a pass more than the procedure allows");
    drive.enter("150 rpm");
    drive.done();
    counts(&mut drive);
    assert_eq!(drive.ask(), Ask::Flow(FlowAsk::Exhausted(name("adjust"))));
    drive.take(Answer::Flow(FlowAnswer::GiveUp { disposition: Disposition::UseAsIs, reason: reason() }));
    assert_eq!(drive.state.deviations.len(), 2);
    assert_eq!(drive.ask(), Ask::Close);
}

/// Three passes that did not bring it.
fn in_vain(more: &str) -> Drive {
    let body = format!("## Adjust [adjust]\n\n1. Read [drop].\n2. Turn.\n{more}");
    let path = if more.is_empty() { "" } else { "[conditions.hopeless]\ngave_up = \"adjust\"\n" };
    let mut drive = Drive::of(&format!("{ADJUST}{path}"), &body);
    for _ in 0..3 {
        drive.enter("150 rpm");
        drive.done();
        counts(&mut drive);
    }
    drive
}

#[test]
fn at_the_most_passes_the_authors_path_is_taken_without_a_deviation() {
    let mut drive = in_vain("\n## Call for help [hopeless]\n\n1. Call.\n");
    assert_eq!(drive.number(), "2.1");
    drive.done();
    assert_eq!(drive.ask(), Ask::Close);
    assert!(drive.state.deviations.is_empty());
}

#[test]
fn the_authors_path_stays_shut_when_the_repeat_has_come_to_its_end() {
    let body = "## Adjust [adjust]\n\n1. Read [drop].\n\n## Call for help [hopeless]\n\n1. Call.\n";
    let mut drive = Drive::of(&format!("{ADJUST}[conditions.hopeless]\ngave_up = \"adjust\"\n"), body);
    drive.enter("50 rpm");
    counts(&mut drive);
    assert_eq!(drive.status("2.1"), "not applicable");
    assert_eq!(drive.ask(), Ask::Close);
}

const ADJUST_AND_WIPE: &str = "## Adjust [adjust]\n\n1. Read [drop].\n2. Turn.\n\n## After\n\n1. Wipe.\n";

/// Else the steps after it would come as if it had come to its end.
#[test]
fn what_the_steps_after_may_need_is_not_given_up() {
    let mut drive = Drive::of(ADJUST, ADJUST_AND_WIPE);
    let given_up = Answer::Flow(FlowAnswer::GiveUp { disposition: Disposition::UseAsIs, reason: reason() });
    let refused = Err(Refusal::NotForeseen { what: "adjusting".to_owned() });
    assert_eq!(drive.answer(given_up.clone()), refused);
    for _ in 0..3 {
        drive.enter("150 rpm");
        drive.done();
        counts(&mut drive);
    }
    assert_eq!(drive.ask(), Ask::Flow(FlowAsk::Exhausted(name("adjust"))));
    assert_eq!(drive.answer(given_up), refused);
    let left_out = Answer::NotApplicable { reason: reason() };
    assert_eq!(drive.answer(left_out), refused, "leaving it out after its passes is giving it up");
    drive.take(Answer::Flow(FlowAnswer::Extend { reason: reason() }));
    drive.enter("50 rpm");
    drive.done();
    counts(&mut drive);
    assert_eq!(drive.number(), "2.1");
}

#[test]
fn a_person_gives_up_in_the_middle_of_a_pass_and_says_why() {
    let mut drive = Drive::of(&format!("{ADJUST}not_needed_after = \"wiped anyhow\"\n"), ADJUST_AND_WIPE);
    drive.enter("150 rpm");
    drive.take(Answer::Flow(FlowAnswer::GiveUp { disposition: Disposition::Repair, reason: reason() }));
    assert_eq!(drive.status("1.2"), "not applicable");
    assert_eq!((drive.number().as_str(), drive.state.deviations.len()), ("2.1", 1));
    assert_eq!(
        drive.answer(Answer::Flow(FlowAnswer::GiveUp { disposition: Disposition::Repair, reason: reason() })),
        Err(Refusal::NoRepeat)
    );
}

#[test]
fn repeats_within_repeats_count_for_themselves() {
    let mut drive = Drive::of(
        "[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\ninformation_only = true\n\
[repeats.side]\nwhat = \"both sides\"\neach = [\"left\", \"right\"]\n\
[repeats.place]\nwhat = \"two places\"\neach = [\"top\", \"bottom\"]\n",
        "## Measure [side]\n\n1. [place] On the [side] at the [place] read [gap].\n2. Wipe.\n",
    );
    for side in ["left", "right"] {
        for place in ["top", "bottom"] {
            assert_eq!(
                (number(&drive, "side"), number(&drive, "place")),
                (side.to_owned(), place.to_owned())
            );
            drive.enter("1 mm");
            counts(&mut drive);
        }
        drive.done();
        counts(&mut drive);
    }
    assert_eq!(drive.ask(), Ask::Close);
    assert_eq!(drive.readings(&name("gap")).len(), 4);
}

/// A correction says what was read before, and is no reading: neither of the next pass nor of a section begun anew.
#[test]
fn a_correction_stands_where_the_entry_does_that_it_corrects() {
    let mut drive = Drive::of(RUNS, RUNS_BODY);
    let correct = |drive: &mut Drive, text: &str| {
        let (reading, text) = (name("engage"), text.to_owned());
        drive.take(Answer::Correct { entry: None, reading, text, reason: reason() });
    };
    drive.enter("1.2 s");
    counts(&mut drive);
    correct(&mut drive, "1.0 s");
    assert_eq!(drive.ask(), Ask::Reading(name("engage")), "the second pass is still to be read");
    drive.enter("1.5 s");
    assert_eq!(number(&drive, "longer"), "0.5 s", "after the first as it was corrected");
    drive.take(Answer::Flow(FlowAnswer::Restart { reason: reason() }));
    correct(&mut drive, "1.6 s");
    assert_eq!(drive.ask(), Ask::Reading(name("engage")), "it is read anew all the same");
}

/// Of a pass that has ended and counts, a reading that is corrected to a failing one does not slip through: it is a
/// deviation. One that does not count any more is none.
#[test]
fn a_reading_of_an_ended_pass_corrected_to_a_failing_one_is_a_deviation() {
    let tables = "[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\nmax = \"2 mm\"\n\
[repeats.twice]\nwhat = \"twice\"\ntimes = 2\n";
    let correct = |text: &str| Answer::Correct {
        entry: None,
        reading: name("gap"),
        text: text.to_owned(),
        reason: "misread".to_owned(),
    };
    for (ends, deviations) in [(counts as fn(&mut Drive), 1), (invalid, 0)] {
        let mut drive = Drive::of(tables, "## Measure [twice]\n\n1. Read [gap].\n2. Wipe.\n");
        drive.enter("1 mm");
        drive.done();
        ends(&mut drive);
        drive.take(correct("1.5 mm"));
        assert!(drive.state.deviations.is_empty());
        drive.take(correct("3 mm"));
        if deviations > 0 {
            assert_eq!(drive.ask(), Ask::Failed(name("gap")), "in the pass that has ended");
            assert!(drive.answer(Answer::Close).is_err());
            drive.take(Answer::Accept { disposition: Disposition::UseAsIs, reason: reason() });
        }
        assert_eq!(drive.state.deviations.len(), deviations);
        assert_eq!(drive.ask(), Ask::Reading(name("gap")));
        drive.enter("1 mm");
        drive.take(correct("3 mm"));
        assert!(matches!(drive.ask(), Ask::Failed(_)), "in its own pass a person decides");
        assert_eq!(drive.state.deviations.len(), deviations);
    }
}

/// Restart twice: three passes in the record, all readings kept.
#[test]
fn a_section_is_begun_anew_and_everything_is_kept() {
    let mut drive = Drive::of(
        "[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\ninformation_only = true\n",
        "## Measure\n\n1. Read [gap].\n2. Wipe.\n",
    );
    for gap in ["1 mm", "2 mm"] {
        drive.enter(gap);
        drive.take(Answer::Flow(FlowAnswer::Restart { reason: reason() }));
        assert_eq!(drive.ask(), Ask::Reading(name("gap")));
    }
    drive.enter("3 mm");
    drive.done();
    assert_eq!(drive.ask(), Ask::Close);
    assert_eq!(drive.readings(&name("gap")).len(), 3);
    let set_aside = drive.state.tree.all().filter(|(at, _)| drive.state.tree.is_set_aside(*at));
    assert_eq!(set_aside.count(), 2);
    assert!(drive.state.deviations.is_empty(), "the run has not failed");
}

#[test]
fn a_hold_point_in_a_repeat_is_released_in_each_pass() {
    let mut drive = Drive::of(
        "[holds.clear]\nwhat = \"Clear\"\nconfirm = [\"hands off\"]\nrelease = \"lead\"\n\
[repeats.twice]\nwhat = \"twice\"\ntimes = 2\n",
        "## Press [twice]\n\n1. [clear]\n2. Press.\n\n## After\n\n1. Wipe.\n",
    );
    for _ in 0..2 {
        assert!(matches!(drive.ask(), Ask::Confirm { .. }));
        drive.release();
        drive.done();
        counts(&mut drive);
    }
    assert_eq!(drive.label(), "2.1", "and not once more after the last pass");
    drive.done();
    assert_eq!(drive.ask(), Ask::Close);
}

/// Whoever corrects the list in the middle leaves no item out and does none twice.
#[test]
fn a_list_that_is_corrected_goes_on_with_what_is_left_of_it() {
    let mut drive = Drive::of(
        "[readings.wheels]\nwhat = \"wheels\"\nkind = \"list\"\n\
[repeats.wheel]\nwhat = \"each wheel\"\neach = \"wheels\"\n",
        "## Read\n\n1. Write down [wheels].\n\n## Take off [wheel]\n\n1. Take off the [wheel].\n2. Hang it up.\n",
    );
    drive.enter("left, right");
    drive.done();
    drive.done();
    counts(&mut drive);
    drive.done();
    assert_eq!(number(&drive, "wheel"), "right");
    let (reading, text) = (name("wheels"), "rear, right, left".to_owned());
    drive.take(Answer::Correct { entry: None, reading, text, reason: reason() });
    assert_eq!(number(&drive, "wheel"), "right", "what is begun stays what it is");
    drive.done();
    counts(&mut drive);
    assert_eq!(number(&drive, "wheel"), "rear");
    drive.done();
    drive.done();
    counts(&mut drive);
    assert_eq!(drive.ask(), Ask::Close);
}

/// An adjustment begins the count anew.
#[test]
fn a_pass_that_resets_does_not_count_nor_do_those_before() {
    let mut drive = Drive::of(
        "[readings.turned]\nwhat = \"turned\"\nchoices = [\"no\", \"yes\"]\ninformation_only = true\n\
[repeats.rows]\nwhat = \"rows\"\ntimes = 2\nresets = 'turned == \"yes\"'\n",
        "## Rows [rows]\n\n1. Say [turned].\n",
    );
    for turned in ["no", "yes", "no"] {
        drive.enter(turned);
        counts(&mut drive);
    }
    assert_eq!(drive.ask(), Ask::Reading(name("turned")), "one row counts");
    drive.enter("no");
    counts(&mut drive);
    assert_eq!(drive.ask(), Ask::Close);
}

const RUNS: &str = "\
[readings.engage]\nwhat = \"engagement\"\nunit = \"s\"\ninformation_only = true\n\
[repeats.three]\nwhat = \"three engagements\"\ntimes = 3\n\
[values.longer]\nwhat = \"longer by\"\nunit = \"s\"\nformula = 'if three > 1 then engage - before(engage) else 0 s'\n\
[values.average]\nwhat = \"average\"\nunit = \"s\"\nformula = 'mean(engage)'\nmax = \"1.3 s\"\n\
[values.most]\nwhat = \"most\"\nunit = \"s\"\nformula = 'max(longer)'\n\
[values.number]\nwhat = \"number\"\nunit = \"1\"\nformula = 'count(engage)'\n";

const RUNS_BODY: &str = "## Engage [three]\n\n1. Read [engage], longer by [longer].\n\n## Judge\n\n1. [average], [most], [number].\n";

/// Three timed engagements give a mean and each time; an invalid one is not among them, and a correction of the last
/// moves the mean. 1.2, 1.4 and 1.0 have the mean 1.2: arithmetic.
#[test]
fn a_formula_speaks_of_all_passes_that_count() {
    let mut drive = Drive::of(RUNS, RUNS_BODY);
    for (time, ends) in
        [("1.2 s", counts as fn(&mut Drive)), ("9 s", invalid), ("1.4 s", counts), ("1.0 s", counts)]
    {
        drive.enter(time);
        ends(&mut drive);
    }
    assert_eq!(["average", "most", "number"].map(|of| number(&drive, of)), ["1.2 s", "0.2 s", "3"]);
    drive.take(Answer::Correct {
        entry: None,
        reading: name("engage"),
        text: "1.6 s".to_owned(),
        reason: reason(),
    });
    assert_eq!(number(&drive, "average"), "1.4 s");
}

/// This pass and the pass before: the first has none before it.
#[test]
fn a_formula_speaks_of_this_pass_and_of_the_one_before() {
    let mut drive = Drive::of(RUNS, RUNS_BODY);
    for (time, longer) in [("1.2 s", "0 s"), ("1.4 s", "0.2 s"), ("1 s", "-0.4 s")] {
        drive.enter(time);
        assert_eq!(number(&drive, "longer"), longer);
        counts(&mut drive);
    }
}

const STEADY: &str = "\
[readings.temp]\nwhat = \"temperature\"\nunit = \"°C\"\ninformation_only = true\n\
[values.drift]\nwhat = \"drift\"\nunit = \"K\"\nformula = 'spread(temp, last = 3)'\nmax = \"1 K\"\n\
[values.twice]\nwhat = \"twice\"\nunit = \"K\"\nformula = '2 * drift'\nmax = \"2 K\"\n\
[repeats.three]\nwhat = \"three rows\"\ntimes = 3\nnot_needed_after = \"judged by what there is\"\n";

/// Too few passes are no failure while further ones come; what rests on them waits as well.
#[test]
fn what_needs_more_passes_is_not_judged_yet() {
    let mut drive =
        Drive::of(STEADY, "## Soak [three]\n\n1. Read [temp], drift [drift], twice that [twice].\n");
    let judged = |drive: &Drive, of: &str| drive.view().judge(&name(of)).unwrap();
    for (pass, temp) in ["50 °C", "50.5 °C"].into_iter().enumerate() {
        drive.enter(temp);
        for of in ["drift", "twice"] {
            let said = judged(&drive, of).judgement.to_string();
            assert!(said.starts_with("not judged yet: "), "pass {pass}: {said}");
        }
        counts(&mut drive);
    }
    drive.enter("53 °C");
    assert!(matches!(drive.ask(), Ask::Failed(_)), "three passes are there, and 3 K are too much");
    assert!(!judged(&drive, "twice").judgement.lets_go_on());
}

/// When the repeat is over and there are too few, no further pass can help: a person decides.
#[test]
fn too_few_passes_of_a_repeat_that_is_over_are_a_failure() {
    let mut drive =
        Drive::of(STEADY, "## Soak [three]\n\n1. Read [temp].\n\n## Judge\n\n1. [drift], [twice].\n");
    drive.enter("50 °C");
    counts(&mut drive);
    drive.enter("50 °C");
    drive.take(Answer::Flow(FlowAnswer::GiveUp { disposition: Disposition::Repair, reason: reason() }));
    assert!(matches!(drive.ask(), Ask::Failed(_)));
    let judged = drive.view().judge(&name("drift")).unwrap();
    assert!(judged.judgement.to_string().starts_with("cannot be judged: "));
}

const EVEN: &str =
    "[readings.even]\nwhat = \"evenness\"\nunit = \"%\"\nmin = \"75 %\"\nfails = \"Test wet.\"\n";
const EVEN_BODY: &str = "## Judge\n\n1. Read [even].\n2. [uneven] Test wet.\n3. Wipe.\n";

/// A failing result with a path of its own goes on by that path; without one a person decides.
#[test]
fn a_failing_result_takes_the_authors_path() {
    let tables = format!("{EVEN}[conditions.uneven]\nfailed = \"even\"\n");
    for (value, next, state) in [("60 %", "1.2", "current"), ("80 %", "1.3", "not applicable")] {
        let mut drive = Drive::of(&tables, EVEN_BODY);
        drive.enter(value);
        assert_eq!((drive.number().as_str(), drive.status("1.2")), (next, state));
        assert!(drive.state.deviations.is_empty());
    }
    let mut drive = Drive::of(EVEN, "## Judge\n\n1. Read [even].\n");
    drive.enter("60 %");
    assert!(matches!(drive.ask(), Ask::Failed(_)));
}
