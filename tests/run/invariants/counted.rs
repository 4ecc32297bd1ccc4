//! How many answers a check says that a procedure asks for is how many questions a run without a hitch puts.

use bayhand::procedure;
use bayhand::run::Ask;
use bayhand::source::SourceText;

use super::super::drive::{Drive, book, text};
use super::answers::fitting;

/// Each sort of question at least once.
const TABLES: &str = r#"[roles]
lead = "does the work"
helper = { what = "hands over", checked_by = "lead" }
[tools]
gauge = { what = "gauge", calibrated = true }
[hazards.hot]
signal = "WARNING"
hazard = "hot"
consequence = "It burns."
avoid = "gloves"
[hazards.wet]
signal = "CAUTION"
hazard = "wet floor"
consequence = "A fall bruises."
avoid = "dry shoes"
[holds.support]
what = "support"
confirm = ["level ground", "all four pins are locked"]
readings = ["height"]
release = "lead"
second = "helper"
[readings.height]
what = "height"
unit = "mm"
information_only = true
[readings.gap]
what = "gap"
unit = "mm"
nominal = "3 mm"
instrument = "gauge"
[readings.play]
what = "play"
unit = "mm"
information_only = true
second = "helper"
agree = "1 mm"
[readings.look]
what = "look"
choices = ["clear", "dark"]
information_only = true
[values.twice]
what = "twice the play"
formula = "2 * play"
unit = "mm"
nominal = "6 mm"
[conditions.dark]
if = 'look == "dark"'
[conditions.missed]
missed = "drip"
[waits.drip]
what = "it drips off"
at_least = "10 min"
at_most = "1 h"
[repeats.twofold]
what = "both plugs"
each = ["drain plug"]
[alternatives.pull]
what = "pull the seal"
[checks.tight]
what = "tight"
by = "helper"
[witnesses.seat]
what = "the seat"
by = "helper"
[critical.cut]
what = "cannot be undone"
type = "cut it"
[fasteners.cover]
what = "bolts"
count = 3
stages = ["by hand", { what = "full", unit = "N·m", nominal = "3 N·m", read = true }]
instrument = "gauge"
[levels]
routine = "reference"
"#;

const BODY: &str = "## Support [hot]\n\n\
1. [hot] Release the hold point [support].\n\
2. [wet] Measure [gap]. It begins to drip: [drip].\n\
3. When [drip] is over, measure [play]: [twice].\n\
4. [hot] [cut] Cut it.\n\
5. [missed] Wipe it.\n\n\
## Parts\n\n\
1. [twofold] Turn the [twofold].\n\
2. [pull] Pull the seal:\n   - With a hook.\n   - With two screws.\n   - With a bar.\n\
3. Lay out:\n   - The cap.\n   - The plug.\n   - The seal.\n\
4. [helper] Hold it.\n\
5. [seat] [tight] Press it in.\n\
6. Look: [look].\n\
7. [dark] Change it.\n\
8. Tighten [cover].\n\n\
## Routine [routine]\n\n\
1. Wipe it.\n\
2. Hang it up.\n";

/// Steps enough that the number is told.
fn filled() -> String {
    let section = |place: usize| format!("\n## More {place}\n\n{}", "1. Turn it.\n".repeat(8));
    format!("{BODY}{}", (1..=5).map(section).collect::<String>())
}

/// The number that is told, and that of the fasteners, which is told apart.
fn told(tables: &str, body: &str) -> [usize; 2] {
    let found = procedure::read(&SourceText::new("test.md", text(tables, body)), "test");
    let said = found.diagnostics.iter().find(|said| said.code.name == "answers-many").expect("it is told");
    let number = |words: &str| words.split(' ').find_map(|word| word.parse().ok()).expect("a number");
    let fasteners = said.notes.iter().find(|note| note.contains("fasteners")).expect("they are told apart");
    [number(&said.message), number(fasteners)]
}

/// How many questions a run puts whose every answer is a good one.
fn asked(tables: &str, body: &str) -> Vec<String> {
    let mut drive = Drive::begin(book(&text(tables, body)));
    let mut asked = Vec::new();
    while drive.ask() != Ask::Finished {
        if let Some(answer) = drive.view().answers_itself() {
            drive.say(answer).expect("what nobody is asked about");
            continue;
        }
        asked.push(drive.label());
        assert!(asked.len() < 500, "{asked:?}");
        if matches!(drive.ask(), Ask::Wait { .. }) {
            drive.pass(10);
            continue;
        }
        // By this number every statement is true, every pass counts, every choice is the first.
        let answer = fitting(&drive, 3);
        drive.say(answer.clone()).unwrap_or_else(|refusal| panic!("{answer:?}: {refusal}"));
    }
    asked
}

#[test]
fn what_a_check_counts_is_what_a_run_asks() {
    let body = filled();
    let asked = asked(TABLES, &body);
    // Three bolts by hand and to a torque that a person judges, and the word between the stages.
    let fasteners = 3 + 1 + 3 + 3;
    assert_eq!(told(TABLES, &body), [asked.len() - fasteners, fasteners], "{asked:#?}");
}
