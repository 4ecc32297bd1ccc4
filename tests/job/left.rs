//! What the runs of a job leave to those that come after: protections that outlast their run, loose ends.

use crate::session::stage::{Ended, Stage, words_of};

const HEAD: &str = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-25\nauthor = \"a tester\"\nscope = \"any\"\nlevel_of_use = \"continuous\"\n\
tools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\nrequired = \"none\"\nclose_up = \"none\"\nhazards = \"none\"\n[roles]\nlead = \"works\"\n";

const RAISE: &str = "[loose_ends.pad]\nwhat = \"renew a torn pad\"\n[holds.support]\nwhat = \"Support\"\nconfirm = [\"on hard ground\", \"pins home\"]\n\
release = \"lead\"\nlapses = [\"resume\"]\nprotection = \"vehicle on stands\"\nshort = \"on stands\"\nstays = true\n+++\n# Raise\n\n\
1. Raise it, [pad] is to be done.\n2. Release [support].\n3. Come out.\n";
const WORK: &str = "[holds.support]\nwhat = \"Support\"\nconfirm = [\"nothing has crept\"]\nrelease = \"lead\"\nlapses = [\"resume\"]\n\
protection = \"vehicle on stands\"\nshort = \"on stands\"\nhanded_on = \"support in raise\"\n+++\n# Work\n\n1. Look again: [support].\n2. Work.\n";
const ASIDE: &str = "+++\n# Aside\n\n1. Paint.\n";
const LOWER: &str = "[holds.lowering]\nwhat = \"Lowering\"\nconfirm = [\"nobody under it\"]\nrelease = \"lead\"\n\
ends = [\"support in raise\"]\n+++\n# Lower\n\n1. Release [lowering].\n2. Lower it.\n";

fn stage() -> Stage {
    let stage = Stage::bare();
    let job = "+++\nformat = 1\njob = \"it leaks\"\n[procedures.aside]\nafter = [\"raise\"]\n[procedures.lower]\nafter = [\"work\", \"aside\"]\n+++\n# Leak\n\n\
1. [Raise](raise.md)\n2. [Work](work.md)\n3. [Aside](aside.md)\n4. [Lower](lower.md)\n";
    stage.file("leak.md", job);
    for (file, text) in [("raise", RAISE), ("work", WORK), ("aside", ASIDE), ("lower", LOWER)] {
        stage.file(&format!("{file}.md"), &format!("{HEAD}{text}"));
    }
    stage
}

/// Answers a procedure of the job from the lines of a file.
fn answered(stage: &Stage, procedure: &str, day: u8, lines: &str) -> Ended {
    let text = format!(
        "format = 1\nclock = \"2026-11-{day:02}T18:00:00+00:00\"\nanswers = [\n{{ at = \"lead\", enter = \"Robin Vale\" }},\n\
{{ at = \"scope\", do = \"true\" }},\n{lines}{{ at = \"close\", do = \"close\" }},\n]\n"
    );
    stage.file("a.toml", &text);
    stage.file(
        "one.toml",
        &format!("format = 1\n[[runs]]\nprocedure = \"{procedure}\"\nanswers = \"a.toml\"\n"),
    );
    stage.bayhand(&["run", "leak.md", "--answers", "one.toml"])
}

fn good(ran: &Ended) -> String {
    assert_eq!(ran.code, Some(0), "{}\n{}", ran.out, ran.err);
    words_of(&ran.out)
}

const RAISED: &str = "{ at = \"1.1\", do = \"done\" },\n{ at = \"support\", do = \"true\" },\n{ at = \"support\", do = \"true\" },\n\
{ at = \"support\", enter = \"RV\" },\n{ at = \"1.3\", do = \"done\" },\n";
const WORKED: &str = "{ at = \"support\", do = \"true\" },\n{ at = \"support\", enter = \"RV\" },\n{ at = \"1.2\", do = \"done\" },\n";
const PAINTED: &str =
    "{ at = \"1.1\", do = \"loose end\", reason = \"second coat\" },\n{ at = \"1.1\", do = \"done\" },\n";

#[test]
fn a_protection_outlasts_its_run_and_is_ended_by_a_later_procedure() {
    let stage = stage();
    let checked = stage.bayhand(&["check", "--strict", "leak.md"]);
    assert_eq!(checked.code, Some(0), "{}{}", checked.out, checked.err);

    let said = good(&answered(&stage, "raise", 21, RAISED));
    assert!(said.contains("In force: vehicle on stands (looked at by Robin Vale, 18:0"), "{said}");
    assert!(said.contains("Loose end: renew a torn pad (step 1.1, run 2026-11-21-raise, entry"), "{said}");
    let record = words_of(&stage.bayhand(&["record", "2026-11-21-raise"]).out);
    assert!(record.contains("Left in force: vehicle on stands (released by Robin Vale, "), "{record}");
    assert!(record.contains("Loose end: renew a torn pad (step 1.1): OPEN"), "{record}");

    // Whoever is not under it sees it too; whoever is looks again, and the newest look counts.
    let said = good(&answered(&stage, "aside", 22, PAINTED));
    assert!(said.contains("run 2026-11-21-raise"), "{said}");
    let said = good(&answered(&stage, "work", 23, WORKED));
    let found = "Found in force: vehicle on stands (looked at by Robin Vale, 2026-11-21 18:";
    assert!(said.contains(found) && said.contains("run 2026-11-21-raise)"), "{said}");
    assert!(
        said.contains("In force: vehicle on stands (looked at by Robin Vale, 18:01, 2026-11-23-work)"),
        "{said}"
    );

    let lowered = "{ at = \"lowering\", do = \"true\" },\n{ at = \"lowering\", enter = \"RV\" },\n{ at = \"1.2\", do = \"done\" },\n\
{ at = \"loose end\", do = \"settle\", end = \"renew a torn pad\", reason = \"new pad, glued\" },\n\
{ at = \"loose end\", do = \"carry out\", by = \"Sam Hollis\", reason = \"warmer weather\" },\n";
    let said = good(&answered(&stage, "lower", 24, lowered));
    assert!(said.contains("vehicle on stands run 2026-11-23-work, released by Robin Vale, 2026-11-23 18:01:20 +00:00, entry 5 over: handed on to a later run"), "{said}");
    assert!(!said.contains("IN FORCE"), "{said}");
    let left = "What is left to do ------------------ second coat (a remark, run 2026-11-22-aside): carried out of the job, Sam Hollis";
    assert!(said.contains(left), "{said}");
    let said = words_of(&stage.bayhand(&["status", "leak.md"]).out);
    assert!(said.contains("In force: no protection"), "{said}");
    for words in [
        "renew a torn pad (step 1.1, run 2026-11-21-raise, entry 4); settled: new pad, glued (run 2026-11-24-lower, entry",
        "second coat (a remark, run 2026-11-22-aside, entry 4); carried out of the job, Sam Hollis sees to it: warmer weather",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
}

/// The last procedure of a job is not closed over what the others left.
#[test]
fn the_last_run_of_a_job_settles_what_is_loose() {
    let stage = stage();
    for (procedure, day, lines) in [("raise", 21, RAISED), ("aside", 22, PAINTED), ("work", 23, WORKED)] {
        good(&answered(&stage, procedure, day, lines));
    }
    let lowered = "{ at = \"lowering\", do = \"true\" },\n{ at = \"lowering\", enter = \"RV\" },\n{ at = \"1.2\", do = \"done\" },\n";
    let ran = answered(&stage, "lower", 24, lowered);
    assert_eq!(ran.code, Some(1), "{}", ran.out);
    assert!(ran.err.contains("loose end"), "{}", ran.err);
}

#[test]
fn what_is_handed_on_from_nowhere_is_found_before_the_job() {
    let stage = stage();
    for (file, from, to, code) in [
        ("work", "support in raise", "support in lower", "`lower` does not come before it"),
        ("work", "support in raise", "pins in raise", "it has no hold point `pins`"),
        ("raise", "stays = true\n", "", "puts nothing"),
        ("lower", "support in raise", "support in lift", "`lift` is no procedure of this job"),
    ] {
        let good = stage.text(&format!("{file}.md"));
        stage.file(&format!("{file}.md"), &good.replace(from, to));
        let checked = stage.bayhand(&["check", "leak.md"]);
        assert_eq!(checked.code, Some(1), "{code}");
        let said = words_of(&checked.err) + &words_of(&checked.out);
        if code != "puts nothing" {
            assert!(said.contains("error[job-handed-on]") && said.contains(code), "{code}\n{said}");
        }
        stage.file(&format!("{file}.md"), &good);
    }
    // Nobody ends it: a warning, for a job may be written piece by piece.
    let lower = stage.text("lower.md");
    stage.file("lower.md", &lower.replace("ends = [\"support in raise\"]\n", ""));
    let checked = stage.bayhand(&["check", "leak.md"]);
    assert_eq!(checked.code, Some(0));
    assert!((words_of(&checked.err) + &words_of(&checked.out)).contains("warning[job-never-ended]"));
}

/// The evening begins with the short look, and with what it is a look at.
#[cfg(unix)]
#[test]
fn at_a_terminal_what_protects_is_told_before_the_short_look() {
    use crate::session::seat::{Seat, Speech};
    let stage = stage();
    for (procedure, day, lines) in [("raise", 21, RAISED), ("aside", 22, PAINTED)] {
        good(&answered(&stage, procedure, day, lines));
    }
    let job = stage.path("leak.md").to_string_lossy().into_owned();
    let mut seat = Seat::take(&stage, Speech::NoColour, 80, &["run", &job]);
    seat.item("What is done now?", 0);
    seat.line("Name of the lead", "Robin Vale");
    seat.key("Is it for this vehicle?", "y");
    seat.sees("on stands");
    seat.sees("Handed on: vehicle on stands (looked at by Robin Vale, 2026-11-21 18:");
    seat.key("nothing has crept", "y");
    seat.line("Released by Robin Vale", "RV");
    seat.key("1.2", "o");
    seat.key("[+]", "+");
    seat.item("Loose ends", 1);
    seat.sees("[d] settled");
    seat.press("d");
    seat.line("How was it settled?", "glued");
    seat.sees("settled: renew a torn pad; glued");
    seat.key("[d] done", "d");
    seat.key("[e] end", "e");
    assert_eq!(seat.leaves(), 0);
    let status = words_of(&stage.bayhand(&["status", "leak.md"]).out);
    assert!(status.contains("settled: glued"), "{status}");
}
