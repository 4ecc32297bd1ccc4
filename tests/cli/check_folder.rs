//! `bayhand check FOLDER`: what lies in a folder is checked, in the order of the paths.

use std::fs;

use crate::session::stage::Stage;

fn procedure(step: &str) -> String {
    format!(
        "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-25\nauthor = \"a test\"\nscope = \"any\"\n\
         level_of_use = \"continuous\"\ntools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\n\
         required = \"none\"\nclose_up = \"none\"\nhazards = \"none\"\n[roles]\nlead = \"works\"\n+++\n\
         # Wipe\n\n1. {step}\n"
    )
}

/// Sixty sound procedures in three folders; each third links to the one before it.
fn stage() -> Stage {
    let stage = Stage::bare();
    for number in 0..60 {
        let folder = stage.path("shop").join(format!("bay-{}", number % 3));
        fs::create_dir_all(&folder).expect("a folder");
        let link = format!("[Wipe the other one](../bay-2/wipe-{}.md).", number - 1);
        let step = if number % 3 == 0 && number > 0 { link } else { "Wipe it.".to_owned() };
        fs::write(folder.join(format!("wipe-{number}.md")), procedure(&step)).expect("a file");
    }
    stage
}

#[test]
fn sound_files_are_counted() {
    let ended = stage().bayhand(&["check", "shop"]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    assert_eq!(ended.out, "60 files checked: nothing to report\n");
}

#[test]
fn findings_come_in_the_order_of_the_paths_each_file_once() {
    let stage = stage();
    for name in ["bay-0/wipe-9.md", "bay-2/wipe-2.md", "bay-1/wipe-1.md", "bay-2/wipe-11.md"] {
        fs::write(stage.path("shop").join(name), procedure("Read [gap].")).expect("a file");
    }
    let ended = stage.bayhand(&["check", "shop"]);
    assert_eq!(ended.code, Some(1));
    let told: Vec<&str> = ended.out.lines().filter(|line| line.contains("`bayhand explain CODE`")).collect();
    let names: Vec<&str> =
        told.iter().filter_map(|line| line.split_once(": ")).map(|(name, _)| name).collect();
    // Two others link to files that are wrong now.
    let expected = [
        "bay-0/wipe-12.md",
        "bay-0/wipe-3.md",
        "bay-0/wipe-9.md",
        "bay-1/wipe-1.md",
        "bay-2/wipe-11.md",
        "bay-2/wipe-2.md",
    ];
    assert_eq!(names, expected.map(|name| format!("shop/{name}")));
    assert!(
        ended.out.ends_with("60 files checked: findings in 6, nothing to report in 54\n"),
        "{}",
        ended.out
    );
    let again = stage.bayhand(&["check", "./shop/../shop"]);
    assert_eq!(again.out, ended.out, "however the folder is spelt");
}

#[test]
fn what_is_no_file_of_ours_is_passed_over_and_said() {
    let stage = stage();
    for name in ["README.md", "a.md", "b.md", "notes.md", "other.toml"] {
        fs::write(stage.path("shop").join(name), "# Notes = 1\n").expect("a file");
    }
    fs::create_dir(stage.path("shop/.hidden")).expect("a folder");
    fs::write(stage.path("shop/.hidden/wrong.md"), "+++\n").expect("a file");
    fs::write(stage.path("shop/picture.png"), [0xff, 0xd8]).expect("a file");
    let ended = stage.bayhand(&["check", "shop"]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    assert_eq!(
        ended.out,
        "60 files checked: nothing to report\n\
         passed over 5 files (no procedure, job, vehicle sheet or file of answers): `shop/README.md`, `shop/a.md`, \
         `shop/b.md` and 2 more\n"
    );
}

#[test]
fn sheets_and_answers_in_a_folder_are_checked_too() {
    let stage = Stage::with_flush();
    stage.file("wrong.toml", "format = 1\nvehicle = \"\"\n");
    let ended = stage.bayhand(&["check", "."]);
    assert_eq!(ended.code, Some(1));
    assert!(ended.out.contains("wrong.toml: "), "{}", ended.out);
    assert!(ended.out.ends_with("4 files checked: findings in 1, nothing to report in 3\n"), "{}", ended.out);
}

#[test]
fn a_sheet_that_is_named_is_held_against_each_procedure_of_the_folder() {
    let stage = Stage::with_small_procedure();
    let text = stage.text("vehicle.toml").replace("test_pressure", "tets_pressure");
    let sheet = stage.file("other.txt", &text);
    fs::create_dir(stage.path("shop")).expect("a folder");
    fs::rename(stage.path("bleed.md"), stage.path("shop/bleed.md")).expect("a file");
    fs::rename(sheet, stage.path("green.toml")).expect("a file");
    let ended = stage.bayhand(&["check", "shop", "green.toml"]);
    assert!(ended.out.contains("test_pressure") && ended.out.contains("green.toml: "), "{}", ended.out);
}

#[test]
fn one_that_cannot_be_read_hides_no_other() {
    let stage = stage();
    fs::write(stage.path("shop/bay-1/wipe-1.md"), [b'+', b'+', b'+', b'\n', 0xff]).expect("a file");
    fs::write(stage.path("shop/bay-1/wipe-4.md"), procedure("Read [gap].")).expect("a file");
    let ended = stage.bayhand(&["check", "shop", "nowhere.md"]);
    assert_eq!(ended.code, Some(3));
    assert!(ended.err.contains("wipe-1.md") && ended.err.contains("nowhere.md"), "{}", ended.err);
    assert!(ended.out.contains("shop/bay-1/wipe-4.md: 1 error"), "{}", ended.out);
}

#[cfg(unix)]
#[test]
fn links_in_circles_and_what_is_no_file_are_not_waited_for() {
    let stage = stage();
    std::os::unix::fs::symlink("..", stage.path("shop/bay-0/round")).expect("a link");
    std::os::unix::fs::symlink("wipe-3.md", stage.path("shop/bay-0/zz-link.md")).expect("a link");
    let _socket =
        std::os::unix::net::UnixListener::bind(stage.path("shop/bay-0/zz-socket.md")).expect("a socket");
    let ended = stage.bayhand(&["check", "shop"]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    assert_eq!(
        ended.out,
        "61 files checked: nothing to report\n\
         passed over 2 files (a link to a folder, a pipe or a device): `shop/bay-0/round`, `shop/bay-0/zz-socket.md`\n"
    );
}

/// The pages, sheets and files of answers that come with bayhand, those for a whole job among them.
#[test]
fn the_folder_that_comes_with_bayhand_is_sound() {
    let stage = Stage::bare();
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/procedures");
    let ended = stage.bayhand(&["check", folder]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{}", ended.out);
    assert!(ended.out.contains(" files checked: nothing to report\n"), "{}", ended.out);
    assert!(
        ended.out.contains("FORMAT.md"),
        "a page that shows how one is written is passed over: {}",
        ended.out
    );
}

#[test]
fn a_file_of_answers_for_a_job_tells_all_its_mistakes_at_once() {
    let stage = Stage::bare();
    stage.file(
        "job.toml",
        "format = 1\n[[runs]]\nprocedure = \"a\"\n[[runs]]\nanswers = 7\nprocedur = \"b\"\n",
    );
    let ended = stage.bayhand(&["check", "job.toml"]);
    assert_eq!(ended.code, Some(1));
    for said in ["job.toml:2:", "job.toml:5:", "job.toml:6:", "`answers`", "`procedur`"] {
        assert!(ended.out.contains(said), "{said}\n{}", ended.out);
    }
}
