//! `bayhand show --role`: one person's part. `BAYHAND_UPDATE=1` writes the expected pages anew.

use std::fs;
use std::path::{Path, PathBuf};

use bayhand::procedure::{CheckedProcedure, Library, Name, NotFound, read_linked};
use bayhand::source::SourceText;

use crate::session::stage::{Ended, Stage, ended, words_of};

const HERE: &str = env!("CARGO_MANIFEST_DIR");

fn show(folder: &str, arguments: &[&str], width: usize) -> Ended {
    let mut command = Stage::bare().command(&[&["show"], arguments].concat());
    let folder = Path::new(HERE).join(folder);
    ended(command.current_dir(folder).env("COLUMNS", width.to_string()).output().unwrap())
}

/// Own steps, steps for both, releases, a second reading, a witness, a check, the hazards before them, and whose the rest is.
#[test]
fn the_page_of_the_helper_at_both_widths() {
    for width in [80, 40] {
        let page = show("tests/cases/share/files", &["lines/drain.md", "--role", "helper"], width);
        assert_eq!((page.code, page.err.as_str()), (Some(0), ""));
        let path = Path::new(HERE).join(format!("tests/cases/part/helper.{width}.txt"));
        if std::env::var_os("BAYHAND_UPDATE").is_some() {
            fs::write(&path, &page.out).unwrap();
        }
        let expected = fs::read_to_string(&path).unwrap_or_default();
        assert!(page.out == expected, "{} differs from:\n{}", path.display(), page.out);
    }
}

#[test]
fn an_unknown_role_is_told_which_there_are() {
    for file in ["lines/drain.md", "leak.md"] {
        let page = show("tests/cases/share/files", &[file, "--role", "helpr"], 80);
        assert_eq!((page.code, page.out.as_str()), (Some(1), ""), "{file}");
        let said = words_of(&page.err);
        assert!(
            said.contains("`helpr` is no role of it; its roles are: lead, helper; did you mean `helper`?"),
            "{said}"
        );
    }
}

/// Of a job the page has each procedure in which the role is.
#[test]
fn the_part_in_a_whole_job() {
    let page = show("tests/cases/share/files", &["leak.md", "--role", "helper"], 80);
    assert_eq!((page.code, page.err.as_str()), (Some(0), ""));
    assert!(page.out.contains("Drain it\n") && page.out.contains("3.2 [helper] Sweep"), "{}", page.out);
    assert!(!page.out.contains("Fill it"), "{}", page.out);
}

struct Shipped;

impl Library for Shipped {
    fn find(&self, address: &str) -> Result<SourceText, NotFound> {
        let text = fs::read_to_string(Path::new(HERE).join("procedures").join(address));
        text.map(|text| SourceText::new(address, text)).map_err(|error| NotFound { why: error.to_string() })
    }
}

fn shipped() -> Vec<(PathBuf, CheckedProcedure)> {
    let files = fs::read_dir(Path::new(HERE).join("procedures")).unwrap().map(|entry| entry.unwrap().path());
    let markdown = files.filter(|path| path.extension().is_some_and(|ending| ending == "md"));
    let read = |path: PathBuf| {
        let text = SourceText::new("", fs::read_to_string(&path).unwrap());
        Some((path, read_linked(&text, "shipped", &Shipped).value?))
    };
    markdown.filter_map(read).collect()
}

/// Each step that the helper has to do with stands on the page under its number in the whole, and each DANGER and WARNING of
/// the whole is told.
#[test]
fn nothing_that_concerns_a_person_is_left_out() {
    let helper = Name::from("helper");
    let mut seen = 0;
    for (path, procedure) in shipped().iter().filter(|(_, procedure)| procedure.roles().contains(&helper)) {
        let path = path.to_string_lossy();
        let page = show("procedures", &[&path, "--role", "helper"], 80);
        assert_eq!(page.code, Some(0), "{path}");
        let page = words_of(&page.out);
        for step in procedure.steps() {
            let is_own =
                step.who.contains(&helper) || procedure.looks(step).iter().any(|(by, _)| **by == helper);
            let hold = step.hold.as_ref().and_then(|hold| procedure.hold(hold));
            let releases =
                hold.is_some_and(|hold| hold.release == helper || hold.second.as_ref() == Some(&helper));
            if is_own || releases {
                seen += 1;
                assert!(page.contains(&format!("{} [", step.number)), "{path}: {}", step.number);
            }
            assert!(
                !releases || page.contains("You: look at each of these yourself"),
                "{path}: {}",
                step.number
            );
        }
        for (name, hazard) in procedure.hazards().iter() {
            let is_grave = ["DANGER", "WARNING"].contains(&hazard.signal.word());
            assert!(
                !is_grave || page.contains(&words_of(hazard.hazard.trim_end_matches('.'))),
                "{path}: {name}"
            );
        }
    }
    assert!(seen > 100, "{seen}");
}
