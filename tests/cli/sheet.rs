//! The working copy on paper: boxes, blanks, hazards that stay with their step, and what a run has done.

use std::fs;

use crate::session::stage::Stage;

/// The parts of a page that are not parted on paper.
fn kept(html: &str) -> Vec<&str> {
    html.split("<div class=\"keep\">").skip(1).map(|part| part.split("</div>").next().unwrap()).collect()
}

#[test]
fn of_a_procedure() {
    let stage = Stage::with_small_procedure();
    let ended = stage.bayhand(&["sheet", "bleed.md", "--vehicle", "vehicle.toml"]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    let page = ended.out;
    assert!(page.contains("<p>WORKING COPY</p>") && page.contains("Each pin is locked"), "{page}");
    let shown = stage.bayhand(&["show", "bleed.md"]).out;
    let steps = shown
        .lines()
        .filter(|line| line.trim_start().starts_with(|first: char| first.is_ascii_digit()))
        .count();
    let boxes = page.matches("aria-label=\"to do\"").count();
    assert!(boxes >= steps && steps > 0, "{boxes} boxes, {steps} steps");
    assert!(page.contains(">name</span>") && page.contains(">time</span>"), "a release has its blanks");
    let style = page.lines().find(|line| line.contains("break-inside: avoid")).unwrap_or_default();
    assert!(style.contains(".keep"), "what is kept together is not parted on paper: {style}");
    let warned = kept(&page).into_iter().filter(|part| part.contains("class=\"hazard\"")).collect::<Vec<_>>();
    assert_eq!(
        warned.len(),
        page.matches("<p class=\"hazard\">").count(),
        "each hazard is kept with something"
    );
    assert!(warned.iter().all(|part| part.contains("<ul class=\"ticks\">")), "with a step: {warned:?}");
}

/// What is written by hand: one of the choices, a number in its unit, a value of the vehicle and where it was found, each
/// place of the fasteners.
#[test]
fn what_is_written_by_hand_has_room() {
    let stage = Stage::bare();
    let head = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-25\nauthor = \"a tester\"\nscope = \"any\"\nlevel_of_use = \"continuous\"\n\
tools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\nrequired = \"none\"\nclose_up = \"none\"\nhazards = \"none\"\n[roles]\nlead = \"works\"\n\
[vehicle.gap_max]\nwhat = \"largest gap\"\nunit = \"mm\"\nfind = \"service manual\"\n\
[readings.look]\nwhat = \"look\"\nchoices = [\"dry\", \"wet\"]\naccept = [\"dry\"]\n[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\nmax = \"gap_max\"\n\
[fasteners.pan]\nwhat = \"pan bolts\"\ncount = \"4\"\n[[fasteners.pan.stages]]\nwhat = \"snug\"\n+++\n";
    let text = format!("{head}# Pan\n\n1. Look: [look].\n2. Measure: [gap].\n3. Tighten the [pan].\n");
    stage.file("pan.md", &text);
    let ended = stage.bayhand(&["sheet", "pan.md"]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    let page = ended.out;
    for (words, count) in
        [("</svg>dry</span>", 1), ("</svg>wet</span>", 1), ("<span class=\"blank\">in mm</span>", 2)]
    {
        assert_eq!(page.matches(words).count(), count, "{words}\n{page}");
    }
    let (_, grid) = page.split_once("<caption>pan bolts</caption>").expect("a grid");
    assert_eq!(grid.matches("<tr><th scope=\"row\">").count(), 4, "{grid}");
}

#[test]
fn of_a_run_with_what_is_done_filled_in() {
    let stage = Stage::with_small_procedure();
    let answers = "Robin Vale\nSam Hollis\n187400 km\n10 psi\nmanual\ny\nRV, SH\na\ny\ny\nRV\nSH\n";
    stage.bayhand_fed(&["run", "bleed.md"], answers);
    let run = stage.run().file_name().unwrap().to_str().unwrap().to_owned();
    let ended = stage.bayhand(&["sheet", &run]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    let page = ended.out;
    assert!(page.contains(&format!("What run {run} has done so far is filled in.")), "{page}");
    assert!(page.contains("aria-label=\"done\"") && page.contains("aria-label=\"to do\""), "{page}");
    assert!(
        page.contains("released by Robin Vale (lead)") && page.contains("released by Sam Hollis (helper)"),
        "{page}"
    );
}

#[test]
fn into_a_file_that_is_not_there_yet() {
    let stage = Stage::with_small_procedure();
    let written = stage.bayhand(&["sheet", "bleed.md", "--to", "bleed.html"]);
    assert_eq!((written.code, written.out.as_str()), (Some(0), ""), "{}", written.err);
    assert!(stage.text("bleed.html").starts_with("<!DOCTYPE html>"));
    let again = stage.bayhand(&["sheet", "bleed.md", "--to", "bleed.html"]);
    assert_ne!(again.code, Some(0));
    assert!(again.err.contains("bleed.html"), "{}", again.err);
}

/// The whole example: the first page stands on a page, all of it on a few, and every form is one command.
#[test]
fn the_record_of_the_example_in_every_form() {
    // By names as short as in the README: a long path would make the page longer.
    let stage = Stage::with_flush();
    let files = ["cooler-line-flush.md", "vehicle-example.toml", "answers-example.toml"];
    let ended = stage.bayhand(&["run", files[0], "--vehicle", files[1], "--answers", files[2]]);
    assert_eq!(ended.code, Some(0), "{}", ended.err);
    let text = fs::read_to_string(stage.run().join("record.txt")).unwrap();
    let first = text.lines().position(|line| line == "READINGS").unwrap();
    assert!(first < 60, "page one has {first} lines");
    assert!(text.lines().count() < 400, "{} lines", text.lines().count());
    for (form, begins) in [
        ("--html", "<!DOCTYPE html>"),
        ("--markdown", "# Transmission cooler flush"),
        ("--csv", "run,procedure,"),
        ("--json", "{\n  \"format\": 1"),
        ("--schema", "{\n\"$schema\""),
    ] {
        let ended = stage.bayhand(&["record", form]);
        assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{form}");
        assert!(ended.out.starts_with(begins), "{form}: {}", &ended.out[..60]);
    }
    assert_eq!(stage.bayhand(&["record", "--html", "--csv"]).code, Some(2), "one form at a time");
}
