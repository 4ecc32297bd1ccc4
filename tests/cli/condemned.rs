//! The example's ways beside the faultless one: whatever is found, the run goes on without a deviation where the
//! procedure foresees it, and nobody is left with a cooler that is worth nothing. The looks and amounts are invented.

use crate::session::stage::{Stage, words_of};

const FOUND: &str = "enter = \"fine paste at most\"";
const WAY: &str = "    { at = \"way\", enter = \"solvent, then fluid\" },\n";
const SPLASH: &str = "    { at = \"splash\", do = \"acknowledge\" },\n";
const CAPPED: &str = "    { at = \"9.4\", do = \"done\" },\n";

/// The sections of the example's answers, by their comments.
const HEADS: [&str; 8] = [
    "Who is there",
    "Kit and support",
    "Lines and first look",
    "Air and pressure test",
    "Solvent and bay",
    "Flush:",
    "Fluid and flow",
    "Close-up",
];

/// The example's answers of one section.
fn part(head: &str) -> String {
    let text = Stage::with_flush().text("answers-example.toml");
    let place = HEADS.iter().position(|each| *each == head).expect("a section of the example");
    let at = |head: &str| text.find(&format!("    # {head}")).expect("its comment");
    let end = HEADS.get(place + 1).map_or_else(|| text.rfind(']').expect("the end"), |next| at(next));
    text[at(head)..end].to_owned()
}

fn parts(heads: &[&str]) -> String {
    heads.iter().map(|head| part(head)).collect()
}

/// The lines of the file of answers: one reading each.
fn reads(readings: &[(&str, &str)]) -> String {
    let line = |(at, text): &(&str, &str)| format!("    {{ at = \"{at}\", enter = \"{text}\" }},\n");
    readings.iter().map(line).collect::<Vec<_>>().concat()
}

fn does(at: &str, act: &str) -> String {
    format!("    {{ at = \"{at}\", do = \"{act}\" }},\n")
}

/// Answers after the one to this reading.
fn after(reading: &str, answers: &str, more: &str) -> String {
    let asked = answers.find(&format!("at = \"{reading}\"")).expect("the reading");
    let end = asked + answers[asked..].find('\n').expect("its line") + 1;
    answers[..end].to_owned() + more + &answers[end..]
}

/// The first look condemns the cooler: its section ends where the job can be left.
fn can_be_left() -> String {
    does("section 2", "complete")
}

/// Up to the first look, which says this; then nothing is chosen.
fn looked(found: &str) -> String {
    let lines = part("Lines and first look").replace(FOUND, &format!("enter = \"{found}\""));
    let lines = lines.replace(WAY, "");
    parts(&["Who is there", "Kit and support"]) + &lines
}

/// A round that ends with this look.
fn round(way: &str, look: &str) -> String {
    let gauge = reads(&[(&format!("{way}_gauge"), "0")]);
    let look = format!("    {{ at = \"{way}_look\", enter = \"{look}\", after = \"9 min\" }},\n");
    gauge + &look
}

/// Rounds from the line FROM COOLER that end with these looks.
fn reverse(looks: &[&str]) -> String {
    SPLASH.to_owned() + &looks.iter().map(|look| round("reverse", look)).collect::<String>()
}

fn dried() -> String {
    reads(&[("air_look", "dry air")])
}

/// The air is checked, as in the pressure test.
fn low_air() -> String {
    let said = does("low_air", "true");
    let readings = [("relief_set", "2 bar"), ("canister_rating", "100 psi"), ("air_pressure", "20 psi")];
    said.repeat(2) + &reads(&readings) + &reads(&[("low_air", "RV")])
}

/// The old cooler comes out, its lines are flushed, the new one goes in and is proved.
fn new_cooler(first: &str, kind: &str) -> String {
    let told = if first.contains("oil film") { does("7.8", "done") } else { String::new() };
    let line = reads(&[("line_gauge", "0"), ("line_look", "clear, as poured in")]);
    let out = does("7.3", "done") + &does("7.4", "done") + &does("air_jet", "acknowledge") + &low_air();
    let nuts = does("line_nuts by hand nut at its inlet", "done")
        + &does("line_nuts by hand nut at its outlet", "done")
        + &does("line_nuts stage tight", "stage set")
        + &reads(&[
            ("line_nuts tight nut at its inlet", "27 N·m"),
            ("line_nuts tight nut at its outlet", "20 lbf·ft"),
        ]);
    let outside = if kind == "as before" { String::new() } else { does("8.2", "done") };
    let nuts = if kind == "outside one in its place" { String::new() } else { nuts };
    let proved = reads(&[
        ("lost_new", "0 psi"),
        ("new_gauge", "0"),
        ("new_temp", "22 °C"),
        ("new_look", "as poured in"),
        ("took_new", "24 s"),
        ("new_pressure", "20 psi"),
    ]);
    let flushed = line.repeat(2) + &reads(&[("joint_gauge", "0")]) + &told;
    let fitted = reads(&[("new_kind", kind)]) + &outside + &nuts + &proved;
    SPLASH.to_owned() + first + &out + &flushed + &fitted
}

/// The end, where broken metal calls for a filter with a magnet.
fn closed_after_metal() -> String {
    part("Close-up").replace(CAPPED, &(does("9.3", "done") + CAPPED))
}

/// Whether a step is among those that did not apply: they stand together, by their reason.
fn is_passed_by(said: &str, step: &str) -> bool {
    said.match_indices(" NOT APPLICABLE").any(|(place, _)| {
        let is_of_list = |letter: char| letter.is_ascii_digit() || "., ".contains(letter);
        let steps = said[..place].rsplit(|letter| !is_of_list(letter)).next().unwrap_or_default();
        steps.split([',', ' ']).any(|other| other == step)
    })
}

/// What the run says when it is answered like this, from the first question to the record.
fn walked(answers: &str) -> String {
    let stage = Stage::with_flush();
    let head = stage.text("answers-example.toml");
    let (head, _) = head.split_once("answers = [\n").expect("answers");
    stage.file("way.toml", &format!("{head}answers = [\n{answers}]\n"));
    let run = ["run", "cooler-line-flush.md", "--vehicle", "vehicle-example.toml"];
    let ended = stage.bayhand(&[&run[..], &["--answers", "way.toml"]].concat());
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{}", ended.out);
    let said = words_of(&ended.out);
    assert!(said.contains("Deviations: 0"), "nobody had to depart from anything: {said}");
    said
}

/// What is found first decides before air or solvent is there.
#[test]
fn condemned_at_the_first_look() {
    let old = new_cooler("", "as before");
    let said = walked(&(looked("flakes or slivers") + &can_be_left() + &old + &closed_after_metal()));
    for step in ["2.7", "3.1", "4.2", "5.1.1", "6.1", "7.1", "7.2", "8.2"] {
        assert!(is_passed_by(&said, step), "{step}: {said}");
    }
    assert!(said.contains("9.3 DONE"), "metal calls for the filter: {said}");
    let coolant = reads(&[("coolant_look", "oil film or brown cream")]);
    let wet = new_cooler(&coolant, "as before");
    let said = walked(&(looked("milky") + &can_be_left() + &wet + &part("Close-up")));
    assert!(said.contains("7.2 DONE") && is_passed_by(&said, "9.3"), "{said}");
}

#[test]
fn a_leak_or_a_kink_condemns_before_anything_is_set_up() {
    for outside in ["leaking", "kinked or crushed"] {
        let looked = looked("fine paste at most").replace("sound and dry", outside);
        let said = walked(&(looked + &can_be_left() + &new_cooler("", "as before") + &part("Close-up")));
        assert!(is_passed_by(&said, "2.7") && is_passed_by(&said, "3.1"), "{said}");
    }
}

/// A thermostat that cannot be held open leaves nothing to flush; one that can is flushed like any other.
#[test]
fn a_thermostat_inside_the_cooler() {
    let inside = |open: &str| {
        let thermostat = reads(&[("thermostat_open", open)]);
        let asked = "    { at = \"lines_open\", do = \"true\" },\n";
        let looked = looked("fine paste at most").replace("\"nothing\"", "\"thermostat in the cooler\"");
        looked.replacen(asked, &(thermostat + asked), 1)
    };
    let shut = inside("the manual gives no way") + &can_be_left();
    let said = walked(&(shut + &new_cooler("", "as before") + &part("Close-up")));
    assert!(is_passed_by(&said, "2.7"), "{said}");
    let rest = ["Air and pressure test", "Solvent and bay", "Flush:", "Fluid and flow", "Close-up"];
    let said = walked(&(inside("held open") + WAY + &parts(&rest)));
    assert!(said.contains("2.4 DONE") && is_passed_by(&said, "7.3"), "{said}");
}

#[test]
fn a_new_cooler_at_once_and_one_outside() {
    let way = reads(&[("way", "new cooler at once")]);
    let cooler = new_cooler("", "outside one in its place");
    let said = walked(&(looked("fine paste at most") + &way + &cooler + &part("Close-up")));
    assert!(said.contains("8.2 DONE") && is_passed_by(&said, "8.3"), "{said}");
    assert!(is_passed_by(&said, "4.2"), "no solvent is opened: {said}");
}

/// Fresh fluid alone: no solvent, no bay without sparks, nothing to dry; the rounds and the flow stay.
#[test]
fn fresh_fluid_only() {
    let way = reads(&[("way", "fresh fluid only")]);
    let rounds = reverse(&["clear, as poured in"]) + &round("normal", "clear, as poured in");
    let begun = looked("nothing to see") + &way + &part("Air and pressure test");
    let said = walked(&(begun + &rounds + &parts(&["Fluid and flow", "Close-up"])));
    for step in ["4.1", "4.2", "5.3", "7.3"] {
        assert!(is_passed_by(&said, step), "{step}: {said}");
    }
    assert!(said.contains("9.5 DONE"), "{said}");
}

#[test]
fn a_solvent_that_does_not_burn() {
    let text = parts(&HEADS).replace("63 °C", "does not burn");
    let said = walked(&text);
    assert!(said.contains("its flash point: does not burn: pass"), "{said}");
}

const BEFORE_THE_FLUSH: [&str; 5] =
    ["Who is there", "Kit and support", "Lines and first look", "Air and pressure test", "Solvent and bay"];

/// The flush with solvent, answered like this, then a new cooler.
fn condemned_in_the_flush(rounds: &str, close: &str) -> String {
    let old = new_cooler(&reads(&[("old_gauge", "0")]), "as before");
    walked(&(parts(&BEFORE_THE_FLUSH) + rounds + &dried() + &old + close))
}

/// Three rounds are the most: nobody has to give up by hand, and no fourth round is asked for.
#[test]
fn not_clear_after_three_rounds() {
    let rounds = reverse(&["tinted or dark"; 3]);
    let said = condemned_in_the_flush(&rounds, &part("Close-up"));
    assert!(said.contains("5.1.1, pass 3 DONE"), "{said}");
    assert!(is_passed_by(&said, "5.2.1"), "the other way is of no use any more: {said}");
    assert!(said.contains("line FROM COOLER, drive") && said.contains("line TO COOLER, drive"), "{said}");
}

/// Four fillings are laid out, and no round is asked for that they do not give.
#[test]
fn no_more_rounds_than_solvent() {
    let three = reverse(&["tinted or dark", "tinted or dark", "clear, as poured in"]);
    let said = condemned_in_the_flush(&(three + &round("normal", "tinted or dark")), &part("Close-up"));
    assert!(!said.contains("5.2.1, pass 2"), "{said}");
    let one = reverse(&["clear, as poured in"]) + &round("normal", "tinted or dark").repeat(3);
    let said = condemned_in_the_flush(&one, &part("Close-up"));
    assert!(said.contains("5.2.1, pass 3 DONE"), "{said}");
}

#[test]
fn flakes_or_nothing_at_all_end_the_rounds_at_once() {
    let said = condemned_in_the_flush(&reverse(&["flakes or grit"]), &closed_after_metal());
    assert!(!said.contains("5.1.1, pass 2"), "{said}");
    let said = condemned_in_the_flush(&reverse(&["nothing or only drops"]), &part("Close-up"));
    assert!(is_passed_by(&said, "5.2.1") && is_passed_by(&said, "9.3"), "{said}");
    let late = reverse(&["clear, as poured in"]) + &round("normal", "flakes or grit");
    let said = condemned_in_the_flush(&late, &closed_after_metal());
    assert!(is_passed_by(&said, "6.1"), "{said}");
}

/// A cooler that leaks is found before solvent is open.
#[test]
fn the_pressure_test_fails() {
    for lost in ["6 psi", "does not hold at all"] {
        let test = part("Air and pressure test").replace("\"0.5 psi\"", &format!("\"{lost}\""));
        let test = after("lost", &test, &does("3.4", "done"));
        let old = new_cooler(&reads(&[("old_gauge", "0")]), "as before");
        let begun = parts(&["Who is there", "Kit and support", "Lines and first look"]);
        let said = walked(&(begun + &test + &old + &part("Close-up")));
        assert!(is_passed_by(&said, "4.2") && is_passed_by(&said, "5.1.1"), "{said}");
    }
}

/// The gauge is read before each lid, and what it still shows sends back to the hold point: there is no way round.
#[test]
fn the_gauge_is_not_at_zero_before_a_lid() {
    let zero = "    { at = \"normal_gauge\", enter = \"0\" },\n";
    // What is done anew is warned of anew, before anything else.
    let warned = does("air_jet", "acknowledge") + &low_air();
    let left = reads(&[("normal_gauge", "3 psi")]) + &warned + zero;
    let said = walked(&parts(&HEADS).replace(zero, &left));
    assert!(said.contains("3 psi"), "{said}");
    let lids = ["reverse_gauge", "normal_gauge", "fill_gauge", "last_gauge"];
    assert!(lids.iter().all(|lid| parts(&HEADS).contains(lid)), "the faultless walk reads it too");
}

/// Hose and valve alone take 6.5 s for 1 L, so that 40 s with the cooler are 33.5 s of the cooler: 1.8 L/min of 2.
#[test]
fn the_flow_is_too_low_against_the_run_without_the_cooler() {
    let flow = part("Fluid and flow").replace("0:27 min", "40 s").replace("26.5 s", "40 s");
    let short = after("pressure_set", &flow, &does("6.8", "done"));
    let old = new_cooler(&reads(&[("old_gauge", "0")]), "as before");
    let begun = parts(&BEFORE_THE_FLUSH) + &part("Flush:");
    let said = walked(&(begun + &short + &old + &part("Close-up")));
    assert!(
        said.contains(
            "1 L / (the mean of 1 L with the cooler 40 s - 1 L without the cooler 6.5 s) = 1.79 L/min: fail"
        ),
        "{said}"
    );
    assert!(said.contains("0.209 L/min below the minimum"), "{said}");
    assert!(said.contains("6.8 DONE") && said.contains("8.3 DONE"), "{said}");
}

/// Nothing comes at the rinse: nobody waits for a catch that never fills.
#[test]
fn nothing_comes_at_the_rinse() {
    let flow = part("Fluid and flow");
    let until = flow.find("    { at = \"rinse_look\"").expect("the rinse");
    let blocked = reads(&[("rinse_look", "nothing or only drops")]) + &does("6.7", "done");
    let old = new_cooler(&reads(&[("old_gauge", "0")]), "as before");
    let begun = parts(&BEFORE_THE_FLUSH) + &part("Flush:") + &flow[..until];
    let said = walked(&(begun + &blocked + &old + &part("Close-up")));
    assert!(is_passed_by(&said, "6.5") && is_passed_by(&said, "6.6"), "{said}");
}
