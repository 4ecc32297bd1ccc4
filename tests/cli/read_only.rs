//! Printing asks for no lock and no write: from a place that may only be read, as somebody else, from a copy.

use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use crate::session::stage::{Ended, PROGRAM, Stage, ended, words_of};

const NOBODY: &str = "65534";

/// A data folder with a closed run, whose record is not kept yet, and an open one.
fn data(stage: &Stage) -> (String, String) {
    for name in ["bleed.md", "vehicle.toml"] {
        let text =
            fs::read_to_string(Path::new("tests/cases/session").join(name)).expect("a file of the tests");
        stage.file(name, &text);
    }
    let run = [
        "run",
        "cooler-line-flush.md",
        "--vehicle",
        "vehicle-example.toml",
        "--answers",
        "answers-example.toml",
    ];
    assert_eq!(stage.bayhand(&run).code, Some(0));
    let closed = stage.run_name();
    fs::remove_file(stage.run().join("record.json")).expect("the record");
    fs::remove_file(stage.run().join("record.txt")).expect("the record");
    assert_eq!(
        stage.bayhand_fed(&["run", "bleed.md", "--vehicle", "vehicle.toml"], "Robin Vale\n").code,
        Some(5)
    );
    let open = stage.runs().into_iter().find(|run| !run.ends_with(&closed)).expect("the open run");
    (closed, open.file_name().expect("a name").to_string_lossy().into_owned())
}

/// Everything below a folder may be read by all and written by nobody.
fn lock_up(folder: &Path) {
    for entry in fs::read_dir(folder).expect("a folder").flatten() {
        let path = entry.path();
        if path.is_dir() {
            lock_up(&path);
        } else {
            fs::set_permissions(&path, fs::Permissions::from_mode(0o444)).expect("its mode");
        }
    }
    fs::set_permissions(folder, fs::Permissions::from_mode(0o555)).expect("its mode");
}

/// May be removed with the test again.
fn open_up(folder: &Path) {
    fs::set_permissions(folder, fs::Permissions::from_mode(0o755)).expect("its mode");
    for entry in fs::read_dir(folder).expect("a folder").flatten().filter(|entry| entry.path().is_dir()) {
        open_up(&entry.path());
    }
}

fn all_below(folder: &Path) -> Vec<(PathBuf, Vec<u8>)> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder").flatten() {
        let path = entry.path();
        if path.is_dir() {
            found.extend(all_below(&path));
        } else {
            found.push((path.clone(), fs::read(&path).expect("a file")));
        }
    }
    found.sort();
    found
}

/// Whether this process may write wherever it likes.
fn is_root(stage: &Stage) -> bool {
    let probe = stage.path("probe");
    fs::create_dir(&probe).expect("a folder");
    fs::set_permissions(&probe, fs::Permissions::from_mode(0o555)).expect("its mode");
    fs::write(probe.join("file"), "").is_ok()
}

/// Somebody who owns nothing here, if this process can become him.
struct Reader {
    program: PathBuf,
    before: Vec<String>,
}

impl Reader {
    fn of(stage: &Stage) -> Option<Self> {
        let program = stage.path("bayhand");
        fs::copy(PROGRAM, &program).expect("the program");
        fs::set_permissions(&program, fs::Permissions::from_mode(0o755)).expect("its mode");
        fs::set_permissions(stage.path(""), fs::Permissions::from_mode(0o755)).expect("its mode");
        if !is_root(stage) {
            return Some(Self { program, before: Vec::new() });
        }
        let before =
            ["setpriv", "--reuid", NOBODY, "--regid", NOBODY, "--clear-groups"].map(str::to_owned).to_vec();
        let reads = Command::new(&before[0]).args(&before[1..]).arg("ls").arg(stage.path("")).output();
        reads.is_ok_and(|output| output.status.success()).then_some(Self { program, before })
    }

    fn reads(&self, stage: &Stage, data: &Path, arguments: &[&str]) -> Ended {
        let words: Vec<String> =
            self.before.iter().cloned().chain([self.program.to_string_lossy().into_owned()]).collect();
        let mut command = Command::new(&words[0]);
        command.args(&words[1..]).args(arguments).current_dir(stage.path("")).env_clear();
        command.env("BAYHAND_DATA", data).env("TZ", "UTC").env("PATH", "/usr/bin:/bin");
        ended(command.stdin(Stdio::null()).output().expect("it starts"))
    }
}

#[test]
fn printing_asks_for_no_lock_and_no_write() {
    let stage = Stage::with_flush();
    let (closed, open) = data(&stage);
    let Some(reader) = Reader::of(&stage) else {
        eprintln!("nothing is shown here: this process may write everywhere and cannot become somebody else");
        return;
    };
    // A copy, which nobody may write to, elsewhere than where it was made.
    let copy = stage.path("archive");
    assert!(Command::new("cp").arg("-r").arg(stage.data()).arg(&copy).status().expect("cp").success());
    lock_up(&copy);
    let before = all_below(&copy);
    let folder = copy.join("runs").join(&closed).to_string_lossy().into_owned();
    let commands: [&[&str]; 22] = [
        &["runs"],
        &["runs", "--json"],
        &["status", &open],
        &["status", &open, "--json"],
        &["status", &closed],
        &["record", &closed],
        &["record", &closed, "--json"],
        &["record", &closed, "--html"],
        &["record", &closed, "--markdown"],
        &["record", &closed, "--csv"],
        &["record", &open],
        &["records"],
        &["records", "--json"],
        &["records", "--csv"],
        &["sheet", &closed],
        &["sheet", &open],
        &["sheet", "cooler-line-flush.md"],
        &["kit", "cooler-line-flush.md"],
        &["verify", &folder],
        &["impact", "TW-1"],
        &["dates", &closed],
        &["check", "cooler-line-flush.md"],
    ];
    for arguments in commands {
        let here = stage.bayhand(arguments);
        let there = reader.reads(&stage, &copy, arguments);
        assert_eq!(there.code, Some(0), "{arguments:?}: {}", there.err);
        match arguments[0] {
            // It names the folder.
            "verify" => {}
            // That the original is still there is said besides.
            "runs" => assert!(
                words_of(&there.out).contains(&open) && there.out.contains("data/runs/"),
                "{}",
                there.out
            ),
            _ => assert_eq!(there.out, here.out, "{arguments:?}"),
        }
        let is_of_closed = matches!(arguments[0], "record" | "dates") && arguments[1] == closed;
        assert_eq!(
            there.err.contains("the record is not kept beside its journal"),
            is_of_closed,
            "{arguments:?}: {}",
            there.err
        );
    }
    // Where the record lies there already nothing is said at all.
    let kept = stage.path("kept");
    assert!(Command::new("cp").arg("-r").arg(stage.data()).arg(&kept).status().expect("cp").success());
    lock_up(&kept);
    let there = reader.reads(&stage, &kept, &["record", &closed]);
    assert_eq!((there.code, there.err.as_str()), (Some(0), ""));
    // Whoever would write is told why he cannot, and nothing is changed.
    let refused = reader.reads(&stage, &copy, &["run", &open]);
    assert_eq!(refused.code, Some(3), "{}", refused.out);
    assert!(words_of(&refused.err).contains("the system does not allow it"), "{}", refused.err);
    assert_eq!(all_below(&copy), before);
    open_up(&copy);
    open_up(&kept);
}
