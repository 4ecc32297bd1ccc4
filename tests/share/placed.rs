//! What came, put into a folder: all of it or nothing, and nothing lost.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use bayhand::share::{differences, place};
use bayhand::system::RealDisk;
use bayhand::system::scripted::{Fault, FaultyDisk};
use tempfile::TempDir;

use super::made::bundle;

/// Every file and folder below one, with what is in it.
fn below(folder: &Path) -> BTreeMap<String, Option<Vec<u8>>> {
    let mut found = BTreeMap::new();
    let mut open = vec![folder.to_owned()];
    while let Some(at) = open.pop() {
        for entry in fs::read_dir(&at).into_iter().flatten() {
            let path = entry.unwrap().path();
            let name = path.strip_prefix(folder).unwrap().to_string_lossy().into_owned();
            if path.is_dir() {
                found.insert(name, None);
                open.push(path);
            } else {
                found.insert(name, Some(fs::read(&path).unwrap()));
            }
        }
    }
    found
}

/// The disk fills up after any number of bytes: nothing of what came is there then, and everything else as it was.
#[test]
fn a_disk_that_fills_up_leaves_everything_as_it_was() {
    let came = bundle(&[
        ("a.md", b"came a"),
        ("lines/b.md", b"came b"),
        ("lines/deep/c.md", b"came c"),
        ("z.md", b"came z"),
    ]);
    for room in 0..30 {
        let folder = TempDir::new().unwrap();
        fs::write(folder.path().join("a.md"), "there").unwrap();
        fs::write(folder.path().join("z.md"), "there too").unwrap();
        fs::write(folder.path().join("z.md.old"), "older").unwrap();
        let before = below(folder.path());
        let disk = FaultyDisk::default();
        let places = place(&disk, folder.path(), &came).unwrap();
        disk.inject(Fault::FullAfter(room));
        assert!(places.write(&disk).is_err(), "38 bytes are written, {room} fit");
        // To put back what was replaced takes room as well; where there is none, what was kept stays.
        let after = below(folder.path());
        let is_kept = |bytes: &[u8]| after.values().any(|there| there.as_deref() == Some(bytes));
        assert!(
            after == before || (is_kept(b"there") && is_kept(b"there too") && is_kept(b"older")),
            "{room}: {after:?}"
        );
        assert!(!after.contains_key("lines"), "{room}");
    }
}

#[test]
fn a_file_in_place_of_a_folder_or_the_other_way_round_stops_everything() {
    for (there, is_folder) in [("lines", false), ("a.md", true)] {
        let folder = TempDir::new().unwrap();
        let path = folder.path().join(there);
        if is_folder {
            fs::create_dir(&path).unwrap();
        } else {
            fs::write(&path, "a file").unwrap();
        }
        let came = bundle(&[("0.md", b"first"), ("a.md", b"a"), ("lines/b.md", b"b")]);
        assert!(place(&RealDisk, folder.path(), &came).is_err(), "{there}");
        assert_eq!(below(folder.path()).len(), 1);
    }
}

#[test]
fn what_is_kept_never_takes_the_place_of_something_kept_before() {
    let folder = TempDir::new().unwrap();
    for turn in ["one", "two", "three"] {
        let came = bundle(&[("a.md", turn.as_bytes())]);
        place(&RealDisk, folder.path(), &came).unwrap().write(&RealDisk).unwrap();
    }
    let texts = |name: &str| fs::read_to_string(folder.path().join(name)).unwrap();
    assert_eq!([texts("a.md"), texts("a.md.old"), texts("a.md.old2")], ["three", "one", "two"]);
}

#[test]
fn differences_are_told_in_a_few_lines() {
    let there = "same\nold\nsame\nsame\n";
    assert_eq!(
        differences(there.as_bytes(), b"same\nnew\nsame\nsame\nmore\n"),
        ["line 2:", "- old", "+ new", "line 5:", "+ more"]
    );
    let long: String = (0..100).map(|line| line.to_string() + "\n").collect();
    let told = differences(b"", long.as_bytes());
    assert_eq!((told.len(), told.last().map(String::as_str)), (13, Some("and 89 lines more")));
    assert_eq!(differences(b"a\r\nb\r\n", b"a\nb\n"), ["only the ends of the lines differ"]);
    assert_eq!(differences(&[0xff, 0], b"a"), ["2 bytes are there, 1 came; it is no text"]);
}
