//! `bayhand sign`, and `verify` with signatures.

use std::fs;
use std::path::{Path, PathBuf};

use bayhand::journal::write_time;
use bayhand::signature::{Locked, NAMESPACE, Signed};

use super::verify::{closed, finds};
use crate::session::stage::{Ended, PROGRAM, Stage, words_of};
use crate::terminal::pty::Pty;

const KEYS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/cases/signature");

fn sign(stage: &Stage, more: &[&str]) -> Ended {
    let run = stage.run_name();
    let with = [&["sign", run.as_str(), "--name", "Robin Vale"][..], more].concat();
    stage.bayhand(&with)
}

fn key(name: &str) -> String {
    format!("{KEYS}/{name}")
}

fn by_open(stage: &Stage, meaning: &str) -> PathBuf {
    let ended = sign(stage, &["--meaning", meaning, "--key", &key("open")]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{}", ended.out);
    stage.run().join(format!("record.{meaning}.robin-vale.signature"))
}

fn verify(stage: &Stage, more: &[&str]) -> Ended {
    let run = stage.run_name();
    stage.bayhand(&[&["verify", run.as_str()][..], more].concat())
}

fn is_said(ended: &Ended, words: &[&str]) {
    let said = words_of(&ended.out);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{said}");
    for words in words {
        assert!(said.contains(words), "`{words}` is not in: {said}");
    }
}

fn signers(stage: &Stage, key: &str, options: &str) -> String {
    let public = fs::read_to_string(self::key(key)).expect("a key");
    stage.file("signers", &format!("robin@bay {options} {public}"));
    "signers".to_owned()
}

#[test]
fn several_sign_one_record_and_each_is_told() {
    let stage = closed();
    by_open(&stage, "performed");
    by_open(&stage, "released");
    let ended = verify(&stage, &[]);
    is_said(
        &ended,
        &[
            "signed: performed by Robin Vale, ",
            "signed: released by Robin Vale, ",
            "only `--allowed-signers` can say",
        ],
    );
    assert!(!ended.out.contains("Not signed"), "{}", ended.out);
    let list = signers(&stage, "open.pub", "");
    is_said(&verify(&stage, &["--allowed-signers", &list]), &["with the key of robin@bay (SHA256:"]);
    let again = sign(&stage, &["--meaning", "performed", "--key", &key("open")]);
    assert_eq!(again.code, Some(3), "nothing is written over: {}", again.out);
}

#[test]
fn where_signers_are_named_an_unsigned_record_is_not_enough() {
    let stage = closed();
    let list = signers(&stage, "open.pub", "");
    finds(&verify(&stage, &["--allowed-signers", &list]), &["it is not signed: no signature lies beside it"]);
}

#[test]
fn a_signature_of_somebody_else_or_not_for_this_is_refused() {
    let stage = closed();
    by_open(&stage, "performed");
    for (key, options, words) in [
        ("locked.pub", "", "is not one of the allowed signers"),
        ("open.pub", "namespaces=\"git\"", "is not allowed for `bayhand-record-v1`"),
        ("open.pub", "valid-before=\"20200101\"", "was not valid any more when it was signed"),
    ] {
        let list = signers(&stage, key, options);
        finds(&verify(&stage, &["--allowed-signers", &list]), &[words]);
    }
    let list = stage.file("signers", "robin@bay cert-authority ssh-ed25519 AAAA\n");
    finds(
        &verify(&stage, &["--allowed-signers", &list.to_string_lossy()]),
        &["line 1: keys that are vouched for"],
    );
}

/// On a record of another run it names whose it is.
#[test]
fn a_signature_moved_to_another_record_is_refused() {
    let (stage, other) = (closed(), closed_otherwise());
    let signature = by_open(&stage, "performed");
    fs::copy(&signature, other.run().join(signature.file_name().expect("a name"))).expect("it is copied");
    finds(&verify(&other, &[]), &["it belongs to another record: that of run"]);
}

fn closed_otherwise() -> Stage {
    let stage = Stage::bare();
    stage.file("leak.md", include_str!("../cases/record/leak.md"));
    stage.file("other.jpg", "another one");
    let ended = stage.bayhand_fed(&["run", "leak.md"], "Sam Hollis\ny\nother.jpg\n2 ml\nd\ne\n");
    assert_eq!(ended.code, Some(0), "{}{}", ended.out, ended.err);
    stage
}

/// Each byte of the signature file in turn: the name, the meaning, the time, the seal, the signature.
#[test]
fn a_changed_byte_is_refused() {
    let stage = closed();
    let signature = by_open(&stage, "verified");
    let whole = fs::read_to_string(&signature).expect("the signature");
    let read = Signed::parse(&whole).expect("it is good");
    for at in 0..whole.len() {
        let mut bytes = whole.clone().into_bytes();
        bytes[at] ^= 1;
        let Ok(text) = String::from_utf8(bytes) else { continue };
        assert!(Signed::parse(&text).is_ok_and(|signed| signed == read) == (text == whole), "byte {at}");
    }
    fs::write(&signature, whole.replace("\"verified\"", "\"released\"")).expect("the signature");
    finds(&verify(&stage, &[]), &["what it stands on was changed"]);
}

/// What was changed is not signed.
#[test]
fn only_what_is_verified_is_signed() {
    let stage = closed();
    let path = stage.run().join("record.json");
    let json = fs::read_to_string(&path).expect("the record").replace("Robin Vale", "Robin Dale");
    fs::write(&path, json).expect("the record");
    finds(
        &sign(&stage, &["--meaning", "performed", "--key", &key("open")]),
        &["what is not verified is not signed"],
    );
}

#[test]
fn what_is_not_closed_releases_nothing() {
    let stage = Stage::bare();
    stage.file("leak.md", include_str!("../cases/record/leak.md"));
    stage.bayhand_fed(&["run", "leak.md"], "Robin Vale\n");
    finds(
        &sign(&stage, &["--meaning", "released", "--key", &key("open")]),
        &["nothing can be released by it"],
    );
    is_said(&sign(&stage, &["--meaning", "performed", "--key", &key("open")]), &["performed by Robin Vale"]);
}

#[test]
fn a_name_that_cannot_be_printed_is_refused() {
    let stage = closed();
    for name in ["", " ", "two\nlines", "\u{202e}backwards", "\u{1b}[2J"] {
        let run = stage.run_name();
        let ended =
            stage.bayhand(&["sign", &run, "--name", name, "--meaning", "performed", "--key", &key("open")]);
        finds(&ended, &["the name must be one line"]);
    }
}

/// As `ssh-keygen -Y sign` leaves it: what is signed in one file, the signature in another.
#[test]
fn a_signature_apart_from_what_it_signs_counts_as_well() {
    let stage = closed();
    let ended = sign(&stage, &["--meaning", "performed", "--manifest"]);
    is_said(&ended, &["ssh-keygen -Y sign -n bayhand-record-v1 -f KEY"]);
    let manifest = stage.run().join("record.performed.robin-vale.manifest");
    let line = fs::read_to_string(&manifest).expect("what is signed");
    let key = Locked::parse(&fs::read_to_string(key("open")).expect("a key")).and_then(|key| key.open(""));
    let signature = key.expect("an open key").sign(NAMESPACE, line.as_bytes());
    let apart = stage.run().join("record.performed.robin-vale.manifest.sig");
    fs::write(&apart, signature.armoured()).expect("the signature");
    is_said(&verify(&stage, &[]), &["signed: performed by Robin Vale"]);
    fs::write(&manifest, line.replace("performed", "released")).expect("what is signed");
    finds(&verify(&stage, &[]), &["what it stands on was changed"]);
}

#[test]
fn a_locked_key_says_the_way_out_where_nobody_can_be_asked() {
    let stage = closed();
    let ended = sign(&stage, &["--meaning", "performed", "--key", &key("locked")]);
    finds(&ended, &["nobody can be asked for its passphrase here", "ssh-add"]);
    let ended = sign(&stage, &["--meaning", "performed", "--key", &key("locked.pub")]);
    finds(&ended, &["this is a public key, and no agent runs that has the other half"]);
}

/// At a terminal it is asked for, and not a letter of it is shown.
#[test]
fn a_passphrase_is_asked_for_and_not_shown() {
    let stage = closed();
    let (run, locked, data) = (stage.run_name(), key("locked"), stage.data());
    let arguments = ["sign", &run, "--name", "Robin Vale", "--meaning", "performed", "--key", &locked];
    let env = [("BAYHAND_DATA", data.to_str().expect("a path")), ("TERM", "xterm"), ("TZ", "UTC")];
    let mut pty = Pty::start((Path::new(PROGRAM), &arguments), 100, 24, &env);
    pty.until_text("Passphrase of");
    pty.type_keys("warm oil\r");
    pty.until_text("performed by Robin Vale");
    assert_eq!(pty.exit_code(), 0);
    assert!(!pty.written().contains("warm"), "{}", pty.written());
    is_said(&verify(&stage, &[]), &["signed: performed by Robin Vale"]);
}

/// An agent that does not have the key answers with a failure (message 5).
#[cfg(unix)]
#[test]
fn an_agent_without_the_key_is_said() {
    use std::io::{Read, Write};
    let stage = closed();
    let socket = stage.path("agent");
    let listener = std::os::unix::net::UnixListener::bind(&socket).expect("a socket");
    let agent = std::thread::spawn(move || {
        let (mut stream, _) = listener.accept().expect("bayhand");
        let mut length = [0; 4];
        stream.read_exact(&mut length).expect("a length");
        let mut request = vec![0; u32::from_be_bytes(length) as usize];
        stream.read_exact(&mut request).expect("a request");
        stream.write_all(&[0, 0, 0, 1, 5]).expect("the answer");
        request
    });
    let (run, public) = (stage.run_name(), key("open.pub"));
    let mut command =
        stage.command(&["sign", &run, "--name", "Robin Vale", "--meaning", "performed", "--key", &public]);
    let ended =
        crate::session::stage::ended(command.env("SSH_AUTH_SOCK", &socket).output().expect("it ends"));
    finds(&ended, &["the agent does not have this key"]);
    let request = agent.join().expect("the agent");
    assert_eq!(request[0], 13, "SSH_AGENTC_SIGN_REQUEST");
    assert!(request.windows(NAMESPACE.len()).any(|part| part == NAMESPACE.as_bytes()));
}

/// The time is that of the signer's clock, to the millisecond, with its offset.
#[test]
fn the_time_of_a_signature_is_a_time() {
    let stage = closed();
    let text = fs::read_to_string(by_open(&stage, "performed")).expect("the signature");
    let time = Signed::parse(&text).expect("it is good").manifest.time;
    let read = bayhand::journal::read_time(&time).expect("a time");
    assert_eq!(write_time(&read), time);
}
