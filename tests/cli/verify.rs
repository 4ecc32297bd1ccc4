//! `bayhand verify`, and what `record`, `runs` and `status` say of files that are not what they were.

use std::fs;
use std::path::Path;

use bayhand::cli::{Fault, Proved};
use bayhand::system::System;

use crate::session::stage::{Ended, Stage, words_of};

fn proved(system: &System, path: &Path) -> Result<Proved, Vec<Fault>> {
    bayhand::cli::proved(system, path, None)
}

/// A closed run with an attached photo.
pub fn closed() -> Stage {
    let stage = Stage::bare();
    stage.file("leak.md", include_str!("../cases/record/leak.md"));
    stage.file("photo of the leak.jpg", "not really a picture");
    let fed = "Robin Vale\ny\nphoto of the leak.jpg\n3 ml\nd\ne\n";
    let ended = stage.bayhand_fed(&["run", "leak.md"], fed);
    assert_eq!(ended.code, Some(0), "{}{}", ended.out, ended.err);
    assert!(stage.run().join("record.json").exists(), "{}", ended.out);
    stage
}

fn verify(stage: &Stage, what: &Path) -> Ended {
    stage.bayhand(&["verify", what.to_str().expect("a path")])
}

/// Exit 1, and these words.
pub fn finds(ended: &Ended, words: &[&str]) {
    let said = words_of(&(ended.out.clone() + &ended.err));
    assert_eq!(ended.code, Some(1), "{said}");
    for words in words {
        assert!(said.contains(words), "`{words}` is not in: {said}");
    }
}

fn kept_photo(stage: &Stage) -> std::path::PathBuf {
    let mut files = fs::read_dir(stage.run().join("files")).expect("files");
    files.next().expect("one").expect("a file").path()
}

#[test]
fn a_good_one_says_what_was_verified_and_what_an_unsigned_seal_cannot_show() {
    let stage = closed();
    let entries = stage.journal_lines().len();
    for what in [
        stage.run(),
        stage.run().join("record.json"),
        stage.run().join("journal.jsonl"),
        stage.run_name().into(),
    ] {
        let ended = verify(&stage, &what);
        assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{}", ended.out);
        let said = words_of(&ended.out);
        assert!(said.starts_with("verified: "), "{said}");
        assert!(
            said.contains(&format!("{entries} entries in their chain, 1 pinned text, 1 kept file;")),
            "{said}"
        );
        assert!(said.contains("Not signed: the seal shows accidents and edits, not who made it."), "{said}");
    }
}

/// Elsewhere the photo is not there: that is said, and nothing else is missed.
#[test]
fn a_record_alone_is_enough() {
    let stage = closed();
    let json = fs::read_to_string(stage.run().join("record.json")).expect("the record");
    let alone = Stage::bare();
    let path = alone.file("sent.json", &json);
    let ended = verify(&alone, &path);
    assert_eq!(ended.code, Some(0), "{}", ended.err);
    assert!(
        words_of(&ended.out).contains("not looked at, since not beside it: 1 kept file"),
        "{}",
        ended.out
    );
}

#[test]
fn several_are_verified_and_one_bad_one_is_enough() {
    let stage = closed();
    let good = stage.run().join("record.json");
    let bad = stage.file("bad.json", &fs::read_to_string(&good).expect("the record").replace("3 ml", "2 ml"));
    let ended = stage.bayhand(&["verify", good.to_str().expect("a path"), bad.to_str().expect("a path")]);
    finds(
        &ended,
        &[
            "verified: ",
            "NOT VERIFIED: ",
            "bad.json: the seal does not belong to this record",
            "not verified at entry",
        ],
    );
}

#[test]
fn an_open_run_is_verified_as_far_as_it_has_come() {
    let stage = Stage::bare();
    stage.file("leak.md", include_str!("../cases/record/leak.md"));
    stage.bayhand_fed(&["run", "leak.md"], "Robin Vale\n");
    let ended = verify(&stage, &stage.run());
    assert_eq!(ended.code, Some(0), "{}", ended.err);
    assert!(
        words_of(&ended.out).contains("nothing shows whether entries at the end are missing"),
        "{}",
        ended.out
    );
    let journal = stage.run().join("journal.jsonl");
    let mut bytes = fs::read(&journal).expect("the journal");
    bytes.truncate(bytes.len() - 5);
    fs::write(&journal, bytes).expect("the journal");
    finds(
        &verify(&stage, &stage.run()),
        &["journal.jsonl: not verified at entry 2", "only its beginning is there"],
    );
}

/// The photo changed by one bit, and taken away: said wherever it is named.
#[test]
fn a_kept_file_is_checked_wherever_it_is_named() {
    let stage = closed();
    let photo = kept_photo(&stage);
    let mut bytes = fs::read(&photo).expect("the photo");
    bytes[3] ^= 1;
    fs::write(&photo, bytes).expect("the photo");
    let changed = "entry 4: the file `photo of the leak.jpg` is not the one that was kept with it";
    finds(&verify(&stage, &stage.run()), &[changed]);
    finds(&verify(&stage, &stage.run().join("record.json")), &[changed]);
    finds(&stage.bayhand(&["record"]), &[changed]);
    let status = words_of(&stage.bayhand(&["status"]).out);
    assert!(status.starts_with("NOT AS IT WAS: ") && status.contains(changed), "{status}");
    fs::remove_file(&photo).expect("the photo");
    let gone = "entry 4: the file `photo of the leak.jpg` that was kept with it is not there";
    finds(&verify(&stage, &stage.run()), &[gone]);
    finds(&stage.bayhand(&["record", "--json"]), &[gone]);
    let status = stage.bayhand(&["status", "--json"]).out;
    assert!(status.contains(gone), "{status}");
}

#[test]
fn a_journal_shorter_than_its_sealed_record_is_said_everywhere() {
    let stage = closed();
    let lines = stage.journal_lines();
    let journal = stage.run().join("journal.jsonl");
    fs::write(&journal, lines[..lines.len() - 2].join("\n") + "\n").expect("the journal");
    let words = format!(
        "the sealed record holds {} entries, and the journal beside it only {}",
        lines.len(),
        lines.len() - 2
    );
    finds(&verify(&stage, &stage.run()), &[&words]);
    finds(&stage.bayhand(&["record"]), &[&words]);
    finds(&stage.bayhand(&["run", "leak.md"]), &[&words]);
    for command in [&["runs"][..], &["runs", "--json"], &["status"], &["status", "--json"]] {
        let said = words_of(&stage.bayhand(command).out);
        assert!(said.contains(&words), "{said}");
    }
    let ended = verify(&stage, &stage.run().join("record.json"));
    assert_eq!(ended.code, Some(0), "the record has all of it: {}", ended.out);
}

/// Bits of every file in the folder of a closed run: some in the usual run, all with `BAYHAND_ALL_FLIPS=1`.
#[test]
fn a_flipped_bit_of_any_file_of_a_run_is_found() {
    let stage = closed();
    let run = stage.run();
    let system = System::real();
    assert!(proved(&system, &run).is_ok());
    let files =
        ["journal.jsonl", "leak.md", "procedure.md", "record.json", "record.txt"].map(|name| run.join(name));
    for path in files.into_iter().chain([kept_photo(&stage)]).filter(|path| path.exists()) {
        let whole = fs::read(&path).expect("a file");
        let stride = if std::env::var_os("BAYHAND_ALL_FLIPS").is_some() { 1 } else { whole.len() / 4 + 1 };
        for place in (0..8 * whole.len()).step_by(stride) {
            let mut bytes = whole.clone();
            bytes[place / 8] ^= 1 << (place % 8);
            fs::write(&path, &bytes).expect("a file");
            let found = proved(&system, &run).err();
            let at = format!("{}, byte {}, bit {}", path.display(), place / 8, place % 8);
            assert!(found.is_some_and(|faults| !faults.is_empty()), "{at}");
        }
        fs::write(&path, &whole).expect("a file");
    }
    assert!(proved(&system, &run).is_ok());
}

/// Each line of the journal dropped, doubled, swapped with the next, cut: the entry is named.
#[test]
fn any_change_of_the_lines_is_found_at_its_entry() {
    let stage = closed();
    let journal = stage.run().join("journal.jsonl");
    let lines = stage.journal_lines();
    let found = |changed: &[String]| {
        fs::write(&journal, changed.join("\n") + "\n").expect("the journal");
        let faults = proved(&System::real(), &stage.run()).expect_err("it was changed");
        faults[0].to_string()
    };
    for at in 0..lines.len() {
        let named = |said: &str, near: [usize; 2]| {
            let is_named = near.iter().any(|entry| said.contains(&format!("at entry {entry}:")));
            assert!(is_named || said.contains("the sealed record holds"), "line {}: {said}", at + 1);
        };
        let mut dropped = lines.clone();
        dropped.remove(at);
        named(&found(&dropped), [at + 1, at + 1]);
        let mut doubled = lines.clone();
        doubled.insert(at, lines[at].clone());
        named(&found(&doubled), [at + 1, at + 2]);
        let mut cut = lines.clone();
        cut[at].truncate(lines[at].len() / 2);
        named(&found(&cut), [at + 1, at + 1]);
        if at + 1 < lines.len() {
            let mut swapped = lines.clone();
            swapped.swap(at, at + 1);
            named(&found(&swapped), [at + 1, at + 2]);
        }
    }
}

#[test]
fn what_is_no_record_is_refused_with_the_way_out() {
    let stage = closed();
    finds(
        &verify(&stage, &stage.run().join("record.txt")),
        &["this is the text of a record", "record --json"],
    );
    finds(&verify(&stage, &stage.path("leak.md")), &["leak.md: this is not a record"]);
    finds(&verify(&stage, &stage.data()), &["there is no journal in"]);
    finds(&verify(&stage, Path::new("nowhere.json")), &["nowhere.json", "there is nothing of this name"]);
}

/// The copy is verified like any record, says that it is one, and can be signed by itself.
#[test]
fn a_redacted_copy_is_a_record_of_its_own() {
    let stage = closed();
    let ended = stage.bayhand(&["record", "--redact", "names,vehicle", "--to", "copy.json"]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{}", ended.out);
    assert!(ended.out.contains("Read it before you hand it on"), "{}", ended.out);
    assert!(!stage.text("copy.json").contains("Robin"));
    let key = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/cases/signature/open");
    let sign = ["sign", "copy.json", "--name", "Bay 4", "--meaning", "verified", "--key", key];
    assert_eq!(stage.bayhand(&sign).code, Some(0));
    let ended = stage.bayhand(&["verify", "copy.json"]);
    let said = words_of(&ended.out);
    assert_eq!(ended.code, Some(0), "{said}{}", ended.err);
    assert!(said.contains("REDACTED COPY (names and vehicle hidden) of the record with the seal"), "{said}");
    assert!(said.contains("signed: verified by Bay 4"), "{said}");
    let again = stage.bayhand(&["record", "--redact", "names", "--to", "copy.json"]);
    assert_eq!(again.code, Some(3), "what is there is not written over");
    for wrong in [&["--redact", "names"][..], &["--redact", "plates", "--to", "other.json"]] {
        assert_eq!(stage.bayhand(&[&["record"], wrong].concat()).code, Some(2), "{wrong:?}");
    }
}
