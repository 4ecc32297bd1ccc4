//! The working copy on paper: boxes, blanks, hazards that stay with their step, and what a run has done.

use std::fs;

use bayhand::print::PictureData;

use crate::session::stage::{Stage, words_of};

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

/// A grey point: a whole PNG of 8 bits, made with Python 3.11 (zlib, struct), and as base64 by the same.
const POINT: &[u8] = &[
    0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0x00, 0x00, 0x00, 0x0d, 0x49, 0x48, 0x44, 0x52, 0x00,
    0x00, 0x00, 0x01, 0x00, 0x00, 0x00, 0x01, 0x08, 0x00, 0x00, 0x00, 0x00, 0x3a, 0x7e, 0x9b, 0x55, 0x00,
    0x00, 0x00, 0x0a, 0x49, 0x44, 0x41, 0x54, 0x78, 0x9c, 0x63, 0x68, 0x00, 0x00, 0x00, 0x82, 0x00, 0x81,
    0x77, 0xcd, 0x72, 0xb6, 0x00, 0x00, 0x00, 0x00, 0x49, 0x45, 0x4e, 0x44, 0xae, 0x42, 0x60, 0x82,
];
const POINT_BASE64: &str =
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==";

/// Two procedures with pictures beside them, and a drawing that a page does not take.
fn with_pictures() -> Stage {
    let stage = Stage::bare();
    fs::create_dir(stage.path("lines")).expect("a folder");
    let head = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-25\nauthor = \"a tester\"\nscope = \"any\"\nlevel_of_use = \"continuous\"\n\
tools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\nrequired = \"none\"\nclose_up = \"none\"\nhazards = \"none\"\n[roles]\nlead = \"works\"\n+++\n";
    stage.file(
        "pan.md",
        &format!(
            "{head}# Pan\n\n![the pan \"from below\" <b>](pan.png)\n\n1. Look at the plug ![the plug](lines/plug.png) and go on.\n\
2. Look.\n\n   ![drawn](drawn.png)\n\n   > See ![the label](https://example.org/label.png).\n3. [Close the tap](lines/tap.md).\n"
        ),
    );
    stage.file("lines/tap.md", &format!("{head}# Tap\n\n1. Close it.\n\n   ![the tap closed](plug.png)\n"));
    stage.file("drawn.png", "<svg xmlns=\"http://www.w3.org/2000/svg\"/>");
    for name in ["pan.png", "lines/plug.png"] {
        fs::write(stage.file(name, ""), POINT).expect("a picture");
    }
    stage
}

#[test]
fn pictures_stand_on_the_page_and_nothing_leaves_it() {
    let stage = with_pictures();
    let ended = stage.bayhand(&["sheet", "pan.md"]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    let page = ended.out;
    let source = format!("src=\"data:image/png;base64,{POINT_BASE64}\"");
    assert_eq!((page.matches(&source).count(), page.matches("src=").count()), (3, 3), "{page}");
    assert!(
        page.contains("&#39;; img-src data:; base-uri"),
        "the policy lets in what is in the page: {page}"
    );
    for words in [
        "<img alt=\"the pan &quot;from below&quot; &lt;b&gt;\" src=",
        "<figcaption>Picture: the pan &quot;from below&quot; &lt;b&gt; (pan.png)</figcaption>",
        // Within a sentence its words stay there too; of a linked procedure it is seen from the first one's folder.
        "Look at the plug the plug and go on.",
        "<figcaption>Picture: the plug (lines/plug.png)</figcaption>",
        "<figcaption>Picture: the tap closed (lines/plug.png)</figcaption>",
        "<p>Picture: drawn (drawn.png)</p>",
        "<p>Picture: the label (https://example.org/label.png)</p>",
    ] {
        assert!(page.contains(words), "{words}\n{page}");
    }
    // It is not parted from its step.
    assert!(
        kept(&page)
            .iter()
            .any(|part| part.contains("1.1 Look at the plug") && part.contains("the plug (lines"))
    );
    // A page without one has the policy that it always had.
    fs::remove_file(stage.path("pan.png")).expect("it was there");
    fs::remove_file(stage.path("lines/plug.png")).expect("it was there");
    let without = stage.bayhand(&["sheet", "pan.md"]).out;
    assert!(!without.contains("img-src") && !without.contains("<img"), "{without}");
    assert!(without.contains("<p>Picture: the plug (lines/plug.png)</p>"), "{without}");
}

#[test]
fn a_picture_that_cannot_be_shown_is_found_and_its_words_are_on_the_screen() {
    let stage = with_pictures();
    let said = words_of(&stage.bayhand(&["check", "pan.md"]).out);
    assert_eq!(said.matches("warning[image-missing]").count(), 1, "{said}");
    assert!(
        said.contains("this is no PNG, JPEG, GIF or WebP") && said.contains("put it at `drawn.png`"),
        "{said}"
    );
    fs::remove_file(stage.path("lines/plug.png")).expect("it was there");
    let said = words_of(&stage.bayhand(&["check", "pan.md"]).out);
    assert_eq!(said.matches("warning[image-missing]").count(), 3, "{said}");
    let shown = words_of(&stage.bayhand(&["show", "pan.md"]).out);
    for words in [
        "Picture: the plug (lines/plug.png)",
        "Picture: the tap closed (lines/plug.png)",
        "Picture: the label (https://example.org/label.png)",
    ] {
        assert!(shown.contains(words), "{words}\n{shown}");
    }
    // It does not keep anybody from the work, and stands where the step is done.
    let answers = "Robin Vale\ntrue\n";
    let run = stage.bayhand_fed(&["run", "pan.md"], answers).out;
    assert!(words_of(&run).contains("Picture: the pan \"from below\" <b> (pan.png)"), "{run}");
}

/// The first bytes as their standards have them: PNG ISO/IEC 15948, 5.2; JPEG ISO/IEC 10918-1, B.1.1.3 (SOI) and the marker
/// after it; GIF 87a and 89a and WebP RFC 9649, 2.4 (from memory).
#[test]
fn a_picture_is_told_by_its_first_bytes() {
    for (bytes, kind) in [
        (POINT, Some("image/png")),
        (b"\xff\xd8\xff\xe0..", Some("image/jpeg")),
        (b"GIF87a..", Some("image/gif")),
        (b"GIF89a..", Some("image/gif")),
        (b"RIFF....WEBPVP8 ", Some("image/webp")),
        (b"RIFF....WAVEfmt ", None),
        (b"<svg xmlns", None),
        (b"\x89PNG\r\n", None),
        (b"", None),
    ] {
        let found = PictureData::of(bytes.to_vec());
        assert_eq!(found.as_ref().map(PictureData::kind), kind, "{bytes:?}");
    }
}
