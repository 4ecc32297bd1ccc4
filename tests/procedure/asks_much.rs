//! The rules that say where a procedure asks too much: what they find, and what they leave alone.

use super::support::{codes, file, found};

/// What is said of a reading with these keys, beside these tables, in this body.
fn reading(keys: &str, tables: &str, body: &str) -> Vec<&'static str> {
    codes(&file(&format!("[readings.x]\nwhat = \"x\"\n{keys}\n{tables}"), body))
}

const READ: &str = "# T\n\n1. Read [x].\n";

#[test]
fn a_reading_that_nothing_comes_of_is_told() {
    for keys in [
        "unit = \"mm\"\ninformation_only = true",
        "kind = \"count\"\ninformation_only = true",
        "choices = [\"a\", \"b\"]\ninformation_only = true",
        "kind = \"text\"",
        "kind = \"list\"",
        "kind = \"file\"",
        "kind = \"date\"",
    ] {
        assert_eq!(reading(keys, "", READ), ["reading-idle"], "{keys}");
        assert!(reading(&format!("{keys}\nwhy = \"The owner asks.\""), "", READ).is_empty(), "{keys}");
    }
}

#[test]
fn a_reading_that_is_judged_is_left_alone() {
    for keys in [
        "unit = \"mm\"\nmax = \"3 mm\"\nfails = \"Mend it.\"",
        "unit = \"mm\"\nnominal = \"3 mm\"",
        "choices = [\"a\", \"b\"]\naccept = [\"a\"]\nfails = \"Mend it.\"",
        "choices = [\"a\", \"b\"]\ninformation_only = true\ninstead = { \"gone\" = \"fail\" }\nfails = \"Stop.\"",
        "kind = \"date\"\nmin = 2026-01-01\nfails = \"Take a fresh one.\"",
    ] {
        assert!(reading(keys, "", READ).is_empty(), "{keys}: {:?}", reading(keys, "", READ));
    }
}

const BARE: &str = "unit = \"mm\"\ninformation_only = true";

#[test]
fn a_reading_that_something_uses_is_left_alone() {
    let later = "# T\n\n1. Read [x].\n2. Turn it.\n";
    for (tables, body) in [
        ("[values.y]\nwhat = \"y\"\nformula = \"2 * x\"\nunit = \"mm\"\n", "# T\n\n1. Read [x]: [y].\n"),
        ("[conditions.wide]\nif = 'x > 3 mm'\n", "# T\n\n1. Read [x].\n2. [wide] Turn it.\n"),
        (
            "[readings.y]\nwhat = \"y\"\nunit = \"mm\"\nmax = \"x\"\nfails = \"Mend it.\"\n",
            "# T\n\n1. Read [x].\n2. Read [y].\n",
        ),
        (
            "[repeats.often]\nwhat = \"again\"\nuntil = 'x < 3 mm'\n",
            "# T\n\n1. [often] Bend it:\n   1. Read [x].\n",
        ),
        (
            "[holds.safe]\nwhat = \"safe\"\nreadings = [\"x\"]\nrelease = \"lead\"\n",
            "# T\n\n1. Release the hold point [safe].\n",
        ),
        (
            "[watches.low]\nwhat = \"low\"\nreadings = [\"x\"]\nunit = \"mm\"\nbelow = \"9 mm\"\n",
            "# T\n\n1. Bend it. From here on: [low].\n2. Read [x].\n3. Let go: [low] ends.\n",
        ),
        (
            "[readings.y]\nwhat = \"y\"\nunit = \"mm\"\ninformation_only = true\nas_left = \"x\"\n",
            "# T\n\n1. Read [x].\n2. Turn it.\n3. Read [y].\n",
        ),
    ] {
        let keys =
            if tables.contains("as_left") { format!("{BARE}\nas_found = true") } else { BARE.to_owned() };
        assert!(reading(&keys, tables, body).is_empty(), "{tables}: {:?}", reading(&keys, tables, body));
    }
    assert_eq!(reading(BARE, "", later), ["reading-idle"]);
    let shown = "# T\n\n1. Read [x].\n2. Set the stop to [x].\n";
    assert!(reading(BARE, "", shown).is_empty(), "a later step shows it");
    let list = "[repeats.each_one]\nwhat = \"each\"\neach = \"x\"\n";
    let body = "# T\n\n1. Read [x].\n2. [each_one] Clear [each_one].\n";
    assert!(reading("kind = \"list\"", list, body).is_empty());
}

#[test]
fn a_reading_taken_twice_by_two_people_is_left_alone() {
    let text =
        file(&format!("[readings.x]\nwhat = \"x\"\n{BARE}\nsecond = \"helper\"\nagree = \"1 mm\"\n"), READ);
    let text = text.replace("lead = \"does the work\"\n", "lead = \"does the work\"\nhelper = \"reads\"\n");
    assert!(codes(&text).is_empty(), "{:?}", codes(&text));
}

/// What is said of two hold points with these statements.
fn holds(first: &str, second: &str) -> Vec<&'static str> {
    let hold = |name: &str, statement: &str| {
        format!("[holds.{name}]\nwhat = \"{name}\"\nconfirm = [\"{statement}\"]\nrelease = \"lead\"\n")
    };
    let tables = format!("{}{}", hold("one", first), hold("two", second));
    codes(&file(&tables, "# T\n\n1. Release the hold point [one].\n2. Release the hold point [two].\n"))
}

#[test]
fn the_same_words_are_confirmed_once() {
    assert_eq!(holds("The pins are locked", "the pins  are LOCKED."), ["statement-twice"]);
    assert!(holds("The pins are locked", "The chocks are in").is_empty());
    let hold = "[holds.one]\nwhat = \"one\"\nconfirm = [\"The floor is dry\", \"the floor is dry\"]\nrelease = \"lead\"\n";
    let body = "# T\n\n1. Release the hold point [one].\n";
    assert_eq!(codes(&file(hold, body)), ["statement-twice"]);
    for key in ["required", "close_up"] {
        let text = file(&hold.replace(", \"the floor is dry\"", ""), body);
        let text = text.replace(&format!("{key} = \"none\""), &format!("{key} = [\"the floor is dry\"]"));
        assert_eq!(codes(&text), ["statement-twice"], "{key}");
    }
}

/// Before and after are two states; of two hold points that exclude each other one alone is asked; one that is verified at
/// two steps asks its own again.
#[test]
fn what_is_not_asked_twice_is_left_alone() {
    let both = file("", "# T\n\n1. Turn it.\n").replace("required = \"none\"", "required = [\"It is dry\"]");
    assert!(codes(&both.replace("close_up = \"none\"", "close_up = [\"It is dry\"]")).is_empty());
    let hold = |name: &str| {
        format!("[holds.{name}]\nwhat = \"{name}\"\nconfirm = [\"All is off\"]\nrelease = \"lead\"\n")
    };
    let look = "[readings.look]\nwhat = \"look\"\nchoices = [\"a\", \"b\"]\ninformation_only = true\n\
                [conditions.is_a]\nif = 'look == \"a\"'\n[conditions.is_b]\nif = 'look == \"b\"'\n";
    let body = "# T\n\n1. Look: [look].\n2. [is_a] Release the hold point [one].\n3. [is_b] Release the hold point [two].\n";
    let tables = format!("{}{}{look}", hold("one"), hold("two"));
    assert!(codes(&file(&tables, body)).is_empty(), "{:?}", codes(&file(&tables, body)));
    let again = "# T\n\n1. Release the hold point [one].\n2. Turn it.\n3. [one] Look at all of it again.\n";
    assert!(codes(&file(&hold("one"), again)).is_empty(), "{:?}", codes(&file(&hold("one"), again)));
}

/// So many steps in sections of eight.
fn steps(count: usize) -> String {
    let sections = (0..count).collect::<Vec<_>>();
    let section = |steps: &[usize]| format!("## Part\n\n{}\n", "1. Turn it.\n".repeat(steps.len()));
    format!("# T\n\n{}", sections.chunks(8).map(section).collect::<String>())
}

/// The lead's name, the scope and the close, and 57 steps; nobody is asked for the end of a section.
#[test]
fn sixty_answers_are_enough() {
    assert!(codes(&file("", &steps(57))).is_empty());
    let said = found(&file("", &steps(58))).diagnostics;
    let said: Vec<_> = said.iter().map(|said| said.message.as_str()).collect();
    assert_eq!(said, ["the way asks for 61 answers, more than 60"]);
}

#[test]
fn what_only_a_condition_leads_to_is_not_counted_and_said_apart() {
    let tables = "[readings.look]\nwhat = \"look\"\nchoices = [\"a\", \"b\"]\ninformation_only = true\n\
                  [conditions.is_a]\nif = 'look == \"a\"'\n";
    let body = |more: usize| {
        format!(
            "{}## Look\n\n1. Look: [look].\n2. [is_a] Clean it:\n{}",
            steps(more),
            "   1. Turn it.\n".repeat(30)
        )
    };
    assert!(codes(&file(tables, &body(40))).is_empty());
    let said = found(&file(tables, &body(62))).diagnostics;
    assert_eq!(said[0].message, "the way asks for 66 answers, more than 60");
    assert_eq!(said[0].notes, ["under conditions: 30 more"]);
}
