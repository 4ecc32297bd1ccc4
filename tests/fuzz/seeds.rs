//! Every committed seed and every case that was found, tried once.

use std::path::Path;

use super::TARGETS;

fn seeds(target: &str) -> Vec<std::path::PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/fuzz").join(target);
    let entries = std::fs::read_dir(&folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    let mut files: Vec<_> = entries.map(|entry| entry.expect("a seed").path()).collect();
    files.sort();
    files
}

#[test]
fn every_seed_holds() {
    let mut broken = Vec::new();
    for target in TARGETS {
        let seeds = seeds(target.name);
        assert!(!seeds.is_empty(), "{} has no seed", target.name);
        for seed in seeds {
            let bytes = std::fs::read(&seed).expect("a seed");
            if std::panic::catch_unwind(|| (target.tries)(&bytes)).is_err() {
                broken.push(seed);
            }
        }
    }
    assert!(broken.is_empty(), "{broken:#?}");
}

#[test]
fn every_folder_of_seeds_is_of_a_target() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/fuzz");
    for entry in std::fs::read_dir(folder).expect("the seeds") {
        let name = entry.expect("a folder").file_name();
        assert!(TARGETS.iter().any(|target| *target.name == *name), "{}", name.display());
    }
}
