//! Archives of strangers: refused with a reason, or files that stay below the folder they are put into.

use std::path::{Component, Path};

use bayhand::share::{MOST_BYTES, SharedPath, links, pack, unpack};

use super::text;

/// The bytes as an archive; and each of its lines as the path of a file in one.
pub fn archive(bytes: &[u8]) {
    text(bytes).lines().take(8).for_each(stays_below);
    match unpack(bytes) {
        Ok(bundle) => {
            assert!(!bundle.is_empty() && bundle.bytes() <= MOST_BYTES);
            for (path, content) in bundle.files() {
                stays_below(path.as_str());
                assert_eq!(SharedPath::parse(path.as_str()).as_ref(), Ok(path));
                links(path.as_str(), content);
            }
            let again = pack(&bundle).expect("what was taken can be passed on");
            assert_eq!(unpack(&again).expect("and is taken again"), bundle);
        }
        Err(refused) => {
            let said = refused.to_string();
            assert!(!said.is_empty() && !said.contains('\u{1b}'), "{said:?}");
        }
    }
}

fn stays_below(path: &str) {
    let Ok(path) = SharedPath::parse(path) else { return };
    let as_disk = Path::new(path.as_str());
    assert!(as_disk.components().all(|part| matches!(part, Component::Normal(_))), "{path}");
    assert_eq!(as_disk.components().count(), path.names().count(), "{path}");
}
