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
    let standing = words_of(&stage.bayhand(&["status", "cold-reverse-stall.md"]).out).replace('\u{a0}', " ");
    assert!(!standing.contains(" waits ") && !standing.contains(" ready "), "nothing is left: {standing}");
    fluid_adds_up(&standing);
    ends_with_its_record(&said);
    let record = words_of(&stage.bayhand(&["record", "2026-12-02-first-fill-and-start"]).out);
    for handed in [
        "`drained` of run 2026-11-07-battery-drain-exhaust",
        "`in_converter` of run 2026-11-28-converter-seat",
    ] {
        // A name may break at its hyphens.
        assert!(record.replace(' ', "").contains(&handed.replace(' ', "")), "{handed}\n{record}");
    }
    super::facts::are_all_there(&stage);
    super::kept::is_found_anew(&stage);
}

/// What came out went in again, each figure with its entry. 6.2 US quarts are 5.8673882652 L: NIST SP 811, appendix B.8.
fn fluid_adds_up(standing: &str) {
    for figure in [
        "+ 0.6 L content of cooler and lines (2026-12-02-first-fill-and-start, entry 1,",
        "+ 0.47 L in the converter now (2026-11-28-converter-seat, entry ",
        "+ 5.8674 L filled in all (2026-12-02-first-fill-and-start, entry ",
        "+ 0.4 L filled in now (drawn off: minus), pass 2 (2026-12-03-level-hot, entry ",
        "- 3.8 L fluid that came out (2026-11-07-battery-drain-exhaust, entry ",
        "- 0.1 L fluid lost on floor and cloths, guessed (2026-11-07-battery-drain-exhaust, entry ",
        "- 0.9 L fluid that ran out of lines and bell (2026-11-11-transmission-out, entry ",
        "- 2.1 L what ran out of the converter (2026-11-12-converter-away, entry ",
        "- 0.6 L content of cooler and lines (2026-11-21-cooler-line-flush, entry 1,",
        "= -0.16261 L 7.3374 L less 7.5 L",
        "= 1060.75 money",
        "1 studs, nuts and bolts of the exhaust that were cut or broke (2026-11-07-battery-drain-exhaust, entry ",
        "all run on to the end new studs, bolts or nuts, by hand, where one was cut or broke (2026-11-29-refit-around, entry ",
    ] {
        assert!(standing.contains(figure), "{figure}\n{standing}");
    }
    assert!(!standing.contains("NOT WHOLE"), "{standing}");
}

/// The walk ends with the record of the whole job: in sentences, and with what is due.
fn ends_with_its_record(said: &str) {
    let record = said.rsplit("RECORD OF THE JOB").next().unwrap_or_default();
    for words in [
        "Result: complete: 25 of 25 procedures closed, 2 deviations",
        "In \"Road test, look again\", wet places: 1 (fail, 1 above the maximum of 0); taken again: 0, pass.",
        "next transmission fluid: due 2030-12-02 or at 247400 km, whichever comes first.",
        "second look again, about 500 km after the first drive (common practice): due at 187931 km;",
        "`drained` of run 2026-11-07-battery-drain-exhaust, entry ",
        "sum: 7.3374 L",
    ] {
        assert!(record.contains(words), "{words}\n{record}");
    }
    assert!(!record.contains("IN FORCE") && !record.contains("NOT WHOLE"), "nothing is left behind");
}

/// The other ways that its procedures can take. A file that begins `after those of ANOTHER` goes on where that one stopped.
#[test]
fn every_other_walk_comes_to_its_end() {
    let whole = text_of("whole-job.toml");
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
        for sitting in up_to(&file) {
            let ended = walk(&stage, &procedure, &format!("answers/{sitting}"));
            assert_eq!(ended.code, Some(0), "{sitting}\n{}", ended.err);
        }
        super::kept::is_found_anew(&stage);
    }
}

/// The files of the sittings of a run, to this one.
fn up_to(file: &str) -> Vec<String> {
    let text = text_of(file);
    let before = text.lines().next().and_then(|line| line.split_once(", after those of "));
    let mut files = before.map(|(_, name)| up_to(name.trim_end_matches(':'))).unwrap_or_default();
    files.push(file.to_owned());
    files
}

fn text_of(answers: &str) -> String {
    std::fs::read_to_string(format!("procedures/answers/{answers}")).expect("a text")
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
            let result = Name::from(&from.result);
            if let Some(giver) = &procedures[earlier] {
                assert!(giver.place(&result).is_some(), "`{}` in `{}`", from.result, from.procedure);
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

/// A machine with the program and an empty folder: everything goes by names.
#[test]
fn without_a_clone_everything_goes_by_names() {
    let stage = Stage::bare();
    let vehicle = ["--vehicle", "vehicle-example"];
    let commands: [&[&str]; 7] = [
        &["check", "cold-reverse-stall", "vehicle-example"],
        &["show", "cooler-line-flush", vehicle[0], vehicle[1]],
        &["show", "cold-reverse-stall", "--role", "helper"],
        &["kit", "cold-reverse-stall", vehicle[0], vehicle[1]],
        &["kit", "cooler-line-flush", vehicle[0], vehicle[1]],
        &["status", "cold-reverse-stall"],
        &["explain", "price-unclear"],
    ];
    for command in commands {
        let ended = stage.bayhand(command);
        assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{command:?}");
        assert!(!ended.out.is_empty(), "{command:?}");
    }
    stage.file("answers.toml", &std::fs::read_to_string("procedures/answers-example.toml").expect("a text"));
    let walked =
        stage.bayhand(&["run", "cooler-line-flush", vehicle[0], vehicle[1], "--answers", "answers.toml"]);
    assert_eq!(walked.code, Some(0), "{}", walked.err);
}
