//! A friend with an empty folder and one shared file: nothing else of the workshop is within reach.

use std::fs;

use crate::session::stage::{Stage, words_of};
use crate::share::taken::{shared, workshop};

const ANSWERS: &str = r#"format = 1
clock = "2026-11-28T18:30:00+00:00"
pace = "60 s"
answers = [
    { at = "lead", enter = "Robin Vale" },
    { at = "helper", enter = "Sam Hollis" },
    { at = "scope", do = "true" },
    { at = "pre-job brief", enter = "RV, SH" },
    { at = "support", do = "true" },
    { at = "support", enter = "RV" },
    { at = "support", enter = "SH" },
    { at = "crush", do = "acknowledge" },
    { at = "2.1", do = "done" },
    { at = "hot", do = "acknowledge" },
    { at = "2.2", do = "done" },
    { at = "ran_out", enter = "1.50 L" },
    { at = "second ran_out", enter = "1.52 L" },
    { at = "magnet", enter = "SH" },
    { at = "plug", enter = "clean" },
    { at = "2.5", do = "done" },
    { at = "tight", enter = "SH" },
    { at = "2.6.1", do = "done" },
    { at = "lowered", do = "true" },
    { at = "lowered", do = "true" },
    { at = "lowered", enter = "SH" },
    { at = "3.2", do = "done" },
    { at = "close", do = "close" },
]
"#;

#[test]
fn a_friend_walks_his_part_from_one_shared_file() {
    let friend = Stage::bare();
    {
        let workshop = workshop();
        shared(&workshop);
        fs::copy(workshop.path("leak.zip"), friend.path("leak.zip")).expect("the one file");
    }
    let taken = friend.bayhand(&["receive", "leak.zip", "."]);
    assert_eq!((taken.code, taken.err.as_str()), (Some(0), ""), "{}", taken.out);
    let checked = friend.bayhand(&["check", "leak.md", "emergency.md", "sheet.toml"]);
    assert_eq!(checked.code, Some(0), "{}{}", checked.out, checked.err);
    let part = words_of(&friend.bayhand(&["show", "leak.md", "--role", "helper"]).out);
    assert!(
        part.contains("2.2 [lead and helper] Open the plug over") && part.contains("3.2 [helper] Sweep"),
        "{part}"
    );
    friend.file("answers.toml", ANSWERS);
    let run = ["run", "lines/drain.md", "--vehicle", "sheet.toml", "--answers", "answers.toml"];
    let walked = friend.bayhand(&run);
    assert_eq!((walked.code, walked.err.as_str()), (Some(0), ""));
    let said = words_of(&walked.out);
    assert!(said.contains("second reading by Sam Hollis, blind to the first"), "{said}");
    assert!(said.contains("Deviations: 0"), "{said}");
    // The whole job stands in this folder alone, and its first procedure is not a run of it: it was walked by itself.
    let job = words_of(&friend.bayhand(&["status", "leak.md"]).out);
    assert!(job.contains("1 ready Drain it 2 waits Fill it"), "{job}");
}
