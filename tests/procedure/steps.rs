//! What the body becomes: sections, steps, parts, passages, and what each step does.

use bayhand::procedure::{CheckedProcedure, Name, Order, Passage, PassageKind, Piece, Step};

use super::support::{codes, file, found, sound};

const TABLES: &str = "\
helper = \"holds things\"
[hazards.hot]
signal = \"WARNING\"
hazard = \"hot oil\"
consequence = \"burns\"
avoid = \"gloves\"
[conditions.warm]
if = 'depth > 3 mm'
[readings.depth]
what = \"depth\"
unit = \"mm\"
information_only = true
[readings.look]
what = \"look\"
choices = [\"clear\", \"cloudy\"]
accept = [\"clear\"]
[values.double]
what = \"twice the depth\"
formula = '2 * depth'
unit = \"mm\"
[waits.drip]
what = \"it drips off\"
at_least = \"10 min\"
";

fn words(pieces: &[Piece]) -> String {
    let word = |piece: &Piece| match piece {
        Piece::Text(text) => text.clone(),
        Piece::Mention(name) => format!("[{}]", name.value),
    };
    pieces.iter().map(word).collect()
}

fn names(names: &[Name]) -> Vec<&str> {
    names.iter().map(Name::as_str).collect()
}

fn passages(passages: &[Passage]) -> Vec<(PassageKind, String)> {
    passages.iter().map(|passage| (passage.kind, words(&passage.text))).collect()
}

const BODY: &str = "\
# Oil and *level*

Before anything: read all of it.

## Find it

Mind the [hot] oil.

1. Open the pan:
   - take the plug out
   - [helper] hold the can
2. [lead] and [helper]: [hot] Read the depth, [depth].

   It stands higher when hot.

   > Never guess.
3. Its look is [look]; twice the depth is [double]. Hang it up: [drip].

That was all.

## Draw some off [warm]

- After [drip], draw some off; the depth was [depth].
- Wipe it.

```
a drawing
```
";

fn procedure() -> CheckedProcedure {
    sound(&file(TABLES, BODY))
}

fn step<'p>(procedure: &'p CheckedProcedure, number: &str) -> &'p Step {
    procedure.steps().iter().find(|step| step.number == number).unwrap()
}

#[test]
fn the_title_and_the_introduction_are_words() {
    let procedure = procedure();
    assert_eq!(procedure.title(), "Oil and level");
    assert_eq!(
        passages(procedure.introduction()),
        [(PassageKind::Prose, "Before anything: read all of it.".into())]
    );
}

#[test]
fn steps_are_numbered_by_section_step_and_part() {
    let procedure = procedure();
    let numbers: Vec<_> = procedure.steps().iter().map(|step| step.number.as_str()).collect();
    assert_eq!(numbers, ["1.1", "1.1.1", "1.1.2", "1.2", "1.3", "2.1", "2.2"]);
    assert_eq!(procedure.sections()[0].groups[0].order, Order::InOrder);
    assert_eq!(step(&procedure, "1.1").groups[0].order, Order::AnyOrder);
    assert_eq!(step(&procedure, "1.1.2").parent, Some(step(&procedure, "1.1").id));
}

#[test]
fn roles_hazards_and_conditions_are_taken_off_the_front() {
    let procedure = procedure();
    let both = step(&procedure, "1.2");
    assert_eq!(names(&both.who), ["lead", "helper"]);
    assert_eq!(names(&both.hazards), ["hot"]);
    assert_eq!(words(&both.text), "Read the depth, [depth].");
    assert_eq!(names(&step(&procedure, "1.1.2").who), ["helper"]);
}

#[test]
fn a_hazard_in_the_prose_before_a_step_is_that_steps_hazard() {
    assert_eq!(names(&step(&procedure(), "1.1").hazards), ["hot"]);
}

#[test]
fn the_first_mention_takes_computes_or_starts() {
    let procedure = procedure();
    assert_eq!(names(&step(&procedure, "1.2").takes), ["depth"]);
    let third = step(&procedure, "1.3");
    assert_eq!(names(&third.takes), ["look"]);
    assert_eq!(names(&third.computes), ["double"]);
    assert_eq!(names(&third.starts), ["drip"]);
    let later = step(&procedure, "2.1");
    assert_eq!(names(&later.needs), ["drip"]);
    assert!(later.takes.is_empty());
}

#[test]
fn further_paragraphs_and_notes_stay_with_their_step() {
    let procedure = procedure();
    let expected = [
        (PassageKind::Prose, "It stands higher when hot.".to_owned()),
        (PassageKind::Note, "Never guess.".to_owned()),
    ];
    assert_eq!(passages(&step(&procedure, "1.2").passages), expected);
}

#[test]
fn a_heading_gives_its_conditions_to_its_section() {
    let procedure = procedure();
    let section = &procedure.sections()[1];
    assert_eq!((section.title.as_str(), names(&section.conditions)), ("Draw some off", vec!["warm"]));
    assert_eq!(passages(&section.after), [(PassageKind::Verbatim, "a drawing".into())]);
    assert_eq!(passages(&procedure.sections()[0].after), [(PassageKind::Prose, "That was all.".into())]);
}

#[test]
fn a_table_that_asks_for_readings_is_one_step() {
    let body = "# Sheet\n\n| what | value |\n|---|---|\n| depth | [depth] |\n| look | [look] |\n\n\
                1. [warm] Work out [double], start [drip].\n2. [hot] After [drip], [helper] wipe it.\n";
    let procedure = sound(&file(TABLES, body));
    let sheet = step(&procedure, "1.1");
    assert_eq!(names(&sheet.takes), ["depth", "look"]);
    assert_eq!(words(&sheet.text), "what | value | \ndepth | [depth] | \nlook | [look] |");
}

#[test]
fn a_table_without_readings_is_shown_as_it_stands() {
    let body = "# Sheet\n\n| a | b |\n|---|---|\n| c | d |\n\n1. Step.\n";
    let procedure = sound(&file("", body));
    assert_eq!(passages(procedure.introduction()), [(PassageKind::Table, "a | b | \nc | d |".into())]);
}

/// A table that stands in a step asks for what it names, as the words of the step do.
#[test]
fn a_table_in_a_step_takes_its_readings() {
    let readings = "[readings.left]\nwhat = \"left\"\nunit = \"mm\"\nmax = 1\n[readings.right]\nwhat = \"right\"\nunit = \"mm\"\nmax = 1\n";
    let procedure = sound(&file(
        readings,
        "# Pads\n\n1. Read both:\n\n   | at | read |\n   |---|---|\n   | left | [left] |\n   | right | [right] |\n",
    ));
    let takes: Vec<&str> = procedure.steps()[0].takes.iter().map(bayhand::procedure::Name::as_str).collect();
    assert_eq!(takes, ["left", "right"]);
}

#[test]
fn links_images_and_comments() {
    let body =
        "# T\n\n1. See [the page](other.html) <!-- not shown -->now.\n\n   ![bolt order](flange.png)\n";
    let procedure = sound(&file("", body));
    assert_eq!(words(&procedure.steps()[0].text), "See the page (other.html) now.");
    assert_eq!(passages(&procedure.steps()[0].passages), [(PassageKind::Image, "bolt order".into())]);
}

#[test]
fn a_list_in_a_note_is_words() {
    let procedure = sound(&file("", "# T\n\n1. Step.\n\n   > First:\n   > - one\n   > - two\n"));
    assert_eq!(procedure.steps().len(), 1);
    assert_eq!(words(&procedure.steps()[0].passages[0].text), "First:\n- one\n- two");
}

#[test]
fn control_characters_in_the_body_are_made_harmless() {
    let procedure = sound(&file("", "# T\n\n1. Open\u{1b}[2J &#27;the pan\u{202e}.\n"));
    assert_eq!(words(&procedure.steps()[0].text), "Open␛[2J ␛the pan\u{fffd}.");
}

#[test]
fn a_reading_in_a_note_is_not_taken_there() {
    let tables = "[readings.depth]\nwhat = \"depth\"\nunit = \"mm\"\ninformation_only = true\n\
                  [conditions.deep]\nif = 'depth > 3 mm'\n";
    let body = "# T\n\n1. Open it.\n\n   > It was [depth].\n2. [deep] Draw some off.\n";
    assert_eq!(codes(&file(tables, body)), ["needed-never"]);
}

/// What a mention of a named step shows is its number, before the step and after it.
#[test]
fn a_named_step_is_spoken_of_by_its_number() {
    let tables = "[steps]\nrefill = \"fill in the first part\"\n";
    let body = "# Fill\n\n## Drain\n\n1. Drain it; after that comes [refill].\n\n## Fill\n\n1. Wipe.\n\
                2. [lead] [refill] Fill in a litre.\n3. If it leaked, go back to [refill].\n";
    let procedure = sound(&file(tables, body));
    let named = procedure.step_numbered("2.2").unwrap();
    assert_eq!((words(&named.text).as_str(), names(&named.names)), ("Fill in a litre.", vec!["refill"]));
    assert_eq!(procedure.called(&named.names[0]), "step 2.2 (fill in the first part)");
    let others = procedure.steps().iter().filter(|step| step.number != "2.2");
    assert!(others.clone().count() == 3 && others.into_iter().all(|step| step.names.is_empty()));
}

/// Words that only look like numbers of steps, and those that are.
#[test]
fn numbers_of_steps_are_told_from_measures() {
    let said = |text: &str| codes(&file("", &format!("# Count\n\n1. Wipe.\n\n   {text}\n\n2. Dry.\n")));
    for text in [
        "Lower it step by step.",
        "A step 3 mm high is left.",
        "The display shows STEP 4.",
        "    step 9 of a code block",
        "Take the first step 2 min later.",
        "<!-- step 9 -->",
        "Stepping 9 times.",
    ] {
        let found: Vec<_> = said(text).into_iter().filter(|code| code.starts_with("step-number")).collect();
        assert!(found.is_empty(), "{text}: {found:?}");
    }
    for text in
        ["Go to step 9.", "(step 9)", "Step\n   9 again", "*steps* 1.1 to 9", "> as in step `x`, step 9"]
    {
        assert_eq!(said(text), ["step-number-unknown"], "{text}");
    }
    for text in ["Go to step 1.2.", "steps 1.1, 1.2 and then", "steps 1.1-1.2"] {
        assert_eq!(said(text), ["step-number"], "{text}");
    }
}

/// A time is written as people say it; half of one, or a part of another kind, is none.
#[test]
fn a_time_in_two_parts_is_a_time() {
    let time = |written: &str| {
        let tables = format!("[waits.drip]\nwhat = \"it drips\"\nat_least = \"{written}\"\n");
        let text = file(&tables, "# Drip\n\n1. Open it: [drip].\n2. After [drip] wipe.\n");
        let wait = found(&text).value?.waits().iter().next()?.1.at_least.clone()?;
        Some(wait.base().to_f64())
    };
    assert_eq!(time("1 h 15 min"), Some(4500.0));
    assert_eq!(time("75 min"), Some(4500.0));
    for wrong in ["1 h 15", "1 h 15 mm", "1 h -5 min", "h"] {
        assert_eq!(time(wrong), None, "{wrong}");
    }
}
