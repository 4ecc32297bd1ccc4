//! Whole files appear at once and never over another; each error says what, where and the way out.

use std::fs;

use bayhand::system::{Disk, DiskError, RealDisk, Standing, Why};
use tempfile::TempDir;

fn folder() -> TempDir {
    TempDir::new().unwrap()
}

fn names(folder: &TempDir) -> Vec<String> {
    let entries = RealDisk.list(folder.path()).unwrap();
    entries.into_iter().map(|entry| entry.name).collect()
}

#[test]
fn a_new_file_is_there_wholly_with_nothing_beside_it() {
    let folder = folder();
    let path = folder.path().join("record.json");
    RealDisk.write_new(&path, b"{}").unwrap();
    assert_eq!(fs::read(&path).unwrap(), b"{}");
    assert_eq!(names(&folder), ["record.json"]);
}

#[test]
fn an_existing_file_is_never_replaced_by_a_new_one() {
    let folder = folder();
    let path = folder.path().join("record.json");
    RealDisk.write_new(&path, b"first").unwrap();
    let error = RealDisk.write_new(&path, b"second").unwrap_err();
    assert!(matches!(error.why, Why::AlreadyThere), "{error}");
    assert_eq!(fs::read(&path).unwrap(), b"first");
    assert_eq!(names(&folder), ["record.json"]);
    RealDisk.replace(&path, b"third").unwrap();
    assert_eq!(fs::read(&path).unwrap(), b"third");
}

#[test]
#[cfg(unix)]
fn others_may_read_a_written_file_as_they_may_any_file_of_the_person() {
    use std::os::unix::fs::PermissionsExt;
    let folder = folder();
    let (ours, usual) = (folder.path().join("ours"), folder.path().join("usual"));
    RealDisk.write_new(&ours, b"").unwrap();
    fs::write(&usual, b"").unwrap();
    let mode = |path| fs::metadata(path).unwrap().permissions().mode();
    assert_eq!(mode(&ours), mode(&usual));
}

#[test]
fn reading_stops_at_the_cap() {
    let folder = folder();
    let path = folder.path().join("procedure.md");
    fs::write(&path, "12345").unwrap();
    assert_eq!(RealDisk.read(&path, 5).unwrap(), b"12345");
    let error = RealDisk.read(&path, 4).unwrap_err();
    assert!(matches!(error.why, Why::TooLarge { most: 4 }), "{error}");
}

#[test]
#[cfg(target_os = "linux")]
fn what_is_no_file_is_refused_and_not_waited_for() {
    let folder = folder();
    let pipe = folder.path().join("pipe.md");
    let made = std::process::Command::new("mkfifo").arg(&pipe).status().unwrap();
    assert!(made.success());
    let socket = folder.path().join("socket.md");
    let _listener = std::os::unix::net::UnixListener::bind(&socket).unwrap();
    for path in ["/dev/zero".as_ref(), "/dev/tty".as_ref(), pipe.as_path(), &socket] {
        let error = RealDisk.read(path, 1000).unwrap_err();
        assert!(matches!(error.why, Why::NoFile), "{error}");
        assert!(error.way_out().contains("save what comes from it to a file"));
    }
    // Nor are they waited for where a log or a lock should be.
    let error = RealDisk.open_log(&pipe, Standing::Existing).unwrap_err();
    assert!(matches!(error.why, Why::Other(_)), "{error}");
    assert!(RealDisk.try_lock(&pipe).is_err());
}

#[test]
fn each_reason_is_told_apart() {
    let folder = folder();
    let text = folder.path().join("latin.md");
    fs::write(&text, b"\xd6l").unwrap();
    let error = |path: &str| RealDisk.read_text(&folder.path().join(path), 100).unwrap_err();
    let tail = |error: DiskError| {
        let text = format!("{error}; {}", error.way_out());
        text.split_once("`: ").unwrap().1.to_owned()
    };
    assert_eq!(tail(error("absent.md")), "there is nothing of this name; check the path");
    assert_eq!(tail(error("")), "it is a folder, not a file; name a file");
    assert_eq!(
        tail(error("latin.md")),
        "it is not UTF-8 text from byte 0 on; save it as UTF-8 in a text editor"
    );
}

#[test]
fn a_folder_is_claimed_once() {
    let folder = folder();
    let path = folder.path().join("run");
    RealDisk.claim_folder(&path).unwrap();
    let error = RealDisk.claim_folder(&path).unwrap_err();
    assert!(matches!(error.why, Why::AlreadyThere), "{error}");
    RealDisk.make_folder(&path).unwrap();
    RealDisk.make_folder(&path.join("a/b/c")).unwrap();
    assert!(path.join("a/b/c").is_dir());
    fs::write(path.join("file"), "").unwrap();
    assert!(RealDisk.make_folder(&path.join("file")).is_err());
    assert!(RealDisk.make_folder(&path.join("file/below")).is_err());
}

#[test]
fn a_log_must_be_new_or_must_be_there_as_asked() {
    let folder = folder();
    let path = folder.path().join("journal.jsonl");
    let missing = RealDisk.open_log(&path, Standing::Existing).unwrap_err();
    assert!(matches!(missing.why, Why::NotThere), "{missing}");
    drop(RealDisk.open_log(&path, Standing::New).unwrap());
    let there = RealDisk.open_log(&path, Standing::New).unwrap_err();
    assert!(matches!(there.why, Why::AlreadyThere), "{there}");
    assert!(RealDisk.open_log(&path, Standing::Existing).is_ok());
}

#[test]
#[cfg(target_os = "linux")]
fn a_disk_that_is_really_full_says_so() {
    // /dev/full answers each write with ENOSPC (full(4) of the Linux manual).
    let mut log = RealDisk.open_log("/dev/full".as_ref(), Standing::Existing).unwrap();
    let error = log.append(b"one line\n").unwrap_err();
    assert!(matches!(error.why, Why::Full), "{error}");
}
