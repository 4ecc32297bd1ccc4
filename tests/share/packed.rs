//! An archive that is written, read again.

use bayhand::share::{Bundle, SharedPath, pack, unpack};
use proptest::prelude::*;

use super::made::bundle;

fn any_bundle() -> impl Strategy<Value = Bundle> {
    let name = "[a-z0-9äß .-]{1,6}";
    let path = prop::collection::vec(name, 1..4).prop_map(|names| names.join("/"));
    let bytes = prop_oneof![
        prop::collection::vec(any::<u8>(), 0..200),
        (any::<u8>(), 0_usize..3000).prop_map(|(byte, times)| vec![byte; times]),
    ];
    prop::collection::vec((path, bytes), 1..8).prop_map(|files| {
        let mut all = Bundle::default();
        for (path, bytes) in files {
            if let Ok(path) = SharedPath::parse(&path) {
                // One that does not go with the others is left out.
                let _ = all.add(path, bytes);
            }
        }
        all
    })
}

proptest! {
    #[test]
    fn what_is_packed_is_unpacked(files in any_bundle()) {
        prop_assume!(!files.is_empty());
        let archive = pack(&files).unwrap();
        prop_assert_eq!(&archive, &pack(&files.clone()).unwrap(), "the same files, the same bytes");
        prop_assert_eq!(files.bytes(), files.files().map(|(_, bytes)| bytes.len()).sum::<usize>());
        prop_assert_eq!(unpack(&archive).unwrap(), files);
    }
}

/// The order in which files were found does not show.
#[test]
fn the_archive_depends_on_the_files_alone() {
    let one = bundle(&[("a.md", b"a"), ("b/c.md", b"c")]);
    let other = bundle(&[("b/c.md", b"c"), ("a.md", b"a")]);
    assert_eq!(pack(&one).unwrap(), pack(&other).unwrap());
}

/// `tests/reference/archive.py` opens the committed archive with the `zipfile` module of Python, and made the other one.
#[test]
fn archives_of_and_for_another_program() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/share");
    let read = |name: &str| std::fs::read(folder.join(name)).unwrap();
    let leak = pack(&unpack(&read("made-by-python.zip")).unwrap()).unwrap();
    if std::env::var_os("BAYHAND_UPDATE").is_some() {
        std::fs::write(folder.join("leak.zip"), &leak).unwrap();
    }
    assert_eq!(leak, read("leak.zip"), "the same files, and the same bytes as ever");
    let files = unpack(&leak).unwrap();
    let names: Vec<&str> = files.files().map(|(path, _)| path.as_str()).collect();
    let wanted =
        ["emergency.md", "leak.md", "lines/drain.md", "lines/fill.md", "lines/tap.md", "pictures/plug.png"];
    assert_eq!(names, wanted);
    for (path, bytes) in files.files() {
        assert_eq!(bytes, read(&format!("files/{path}")), "{path}");
    }
}
