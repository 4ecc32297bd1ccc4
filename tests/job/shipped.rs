//! The job that comes with bayhand: walked from its first cold morning to its hand-over, with the answers of its example.

use std::path::Path;

use crate::session::stage::{Ended, Stage, words_of};

const SHEET: &str = "vehicle-example.toml";

/// A folder with everything that is shipped.
fn stage() -> Stage {
    let stage = Stage::bare();
    copy(&stage, Path::new("procedures"), "");
    stage
}

fn copy(stage: &Stage, folder: &Path, within: &str) {
    for entry in std::fs::read_dir(folder).expect("a folder that is shipped") {
        let path = entry.expect("an entry").path();
        let name = format!("{within}{}", path.file_name().expect("a name").to_string_lossy());
        if path.is_dir() {
            std::fs::create_dir_all(stage.path(&name)).expect("a folder of the test");
            copy(stage, &path, &format!("{name}/"));
        } else {
            stage.file(&name, &std::fs::read_to_string(&path).expect("a text"));
        }
    }
}

fn walk(stage: &Stage, what: &str, answers: &str) -> Ended {
    stage.bayhand(&["run", what, "--vehicle", SHEET, "--answers", answers])
}

#[test]
fn the_whole_job_from_one_file_of_answers() {
    let stage = stage();
    let ended = walk(&stage, "cold-reverse-stall.md", "answers/whole-job.toml");
    assert_eq!(ended.code, Some(0), "{}", ended.err);
    let said = words_of(&ended.out);
    assert!(said.contains("25 done Hand-over and next service"), "{}", &said[said.len() - 2000..]);
    let standing = said.rsplit("Cold stall in reverse").next().unwrap_or_default();
    assert!(!standing.contains(" waits ") && !standing.contains(" ready "), "nothing is left: {standing}");
    let record = words_of(&stage.bayhand(&["record", "2026-12-02-first-fill-and-start"]).out);
    for handed in [
        "`drained` of run 2026-11-07-battery-drain-exhaust",
        "`in_converter` of run 2026-11-28-converter-seat",
    ] {
        // A name may break at its hyphens.
        assert!(record.replace(' ', "").contains(&handed.replace(' ', "")), "{handed}\n{record}");
    }
}

/// The other ways that its procedures can take.
#[test]
fn every_other_walk_comes_to_its_end() {
    let whole = std::fs::read_to_string("procedures/answers/whole-job.toml").expect("a text");
    let mut files: Vec<String> = std::fs::read_dir("procedures/answers")
        .expect("a folder that is shipped")
        .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
        .filter(|name| name != "whole-job.toml" && !whole.contains(&format!("\"{name}\"")))
        .collect();
    files.sort();
    for file in files {
        let stem = file.trim_end_matches(".toml");
        let names = std::fs::read_dir("procedures").expect("a folder that is shipped");
        let names = names.map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned());
        let procedure =
            names.filter(|name| name.strip_suffix(".md").is_some_and(|name| stem.starts_with(name)));
        let procedure =
            procedure.max_by_key(String::len).unwrap_or_else(|| panic!("{file} is of no procedure"));
        let stage = stage();
        let ended = walk(&stage, &procedure, &format!("answers/{file}"));
        assert_eq!(ended.code, Some(0), "{file}\n{}", ended.err);
    }
}

/// What a procedure wants handed on, an earlier one of the job has.
#[test]
fn whatever_is_handed_on_is_there() {
    use bayhand::procedure::{Name, read};
    use bayhand::source::SourceText;
    let text = |name: &str| {
        SourceText::new(name, std::fs::read_to_string(format!("procedures/{name}")).expect("a text"))
    };
    let job = bayhand::job::read(&text("cold-reverse-stall.md"), "cold-reverse-stall").value.expect("a job");
    let procedures: Vec<_> =
        job.procedures.iter().map(|one| read(&text(&one.address), &one.id).value).collect();
    let mut handed = 0;
    for (place, procedure) in procedures.iter().enumerate() {
        // One with links is read with its files, by the program alone.
        let Some(procedure) = procedure else { continue };
        for (name, value) in procedure.vehicle().iter() {
            let Some(from) = &value.handed_on else { continue };
            let earlier = job.procedures.iter().take(place).position(|one| one.id == from.procedure);
            let earlier = earlier.unwrap_or_else(|| panic!("{name}: no `{}` before", from.procedure));
            let result = Name(from.name.clone());
            if let Some(giver) = &procedures[earlier] {
                assert!(giver.place(&result).is_some(), "`{}` in `{}`", from.name, from.procedure);
                handed += 1;
            }
        }
    }
    assert!(handed > 20, "{handed}");
}

#[test]
fn the_library_is_inside_the_program() {
    let stage = Stage::bare();
    let listed = words_of(&stage.bayhand(&["library"]).out);
    assert!(
        listed.contains("transmission-out Transmission out") && listed.contains("cold-reverse-stall"),
        "{listed}"
    );
    let shown = stage.bayhand(&["show", "driveshafts-off"]);
    assert_eq!(shown.code, Some(0), "{}", shown.err);
    assert_eq!(stage.bayhand(&["kit", "cooler-line-flush", "--vehicle", SHEET]).code, Some(0));
    assert_eq!(stage.bayhand(&["library", "copy", "own"]).code, Some(0));
    assert_eq!(
        std::fs::read_to_string(stage.path("own/other-oils.md")).ok(),
        std::fs::read_to_string("procedures/other-oils.md").ok()
    );
    stage.file("own/other-oils.md", "mine");
    let again = stage.bayhand(&["library", "copy", "own"]);
    assert_eq!(again.code, Some(1));
    assert!(again.out.contains("Left as they are, and different: other-oils.md."), "{}", again.out);
    assert_eq!(std::fs::read_to_string(stage.path("own/other-oils.md")).ok().as_deref(), Some("mine"));
    let inside = listed.split("show, kit").next().unwrap_or_default();
    for entry in std::fs::read_dir("procedures").expect("a folder that is shipped") {
        let name = entry.expect("an entry").file_name().to_string_lossy().into_owned();
        let is_carried = name.strip_suffix(".md");
        assert!(is_carried.is_none_or(|name| inside.contains(name)), "{name} is not inside");
    }
}
