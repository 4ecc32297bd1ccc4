//! Tests of `signature`: keys and signatures that OpenSSH made, and lists of signers. Where each file is from stands in
//! tests/cases/signature/SOURCE.txt.

use bayhand::journal::Digest;
use bayhand::signature::{Allowed, Locked, PublicKey, SshSig, signed_data};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ZonedDateTime};

const OPEN: &str = include_str!("cases/signature/open");
const OPEN_PUBLIC: &str = include_str!("cases/signature/open.pub");
const LOCKED: &str = include_str!("cases/signature/locked");
const LOCKED_PUBLIC: &str = include_str!("cases/signature/locked.pub");
const OTHER_LOCK: &str = include_str!("cases/signature/other-lock");
const SHA512: &str = include_str!("cases/signature/sha512.sig");
const SHA256: &str = include_str!("cases/signature/sha256.sig");
const HARDWARE: &str = include_str!("cases/signature/hardware.sig");
const RSA: &str = include_str!("cases/signature/rsa.sig");
const MESSAGE: &[u8] = b"This is a test, this is only a test";

fn why<T: std::fmt::Debug>(outcome: Result<T, bayhand::signature::Unfit>) -> String {
    outcome.unwrap_err().why
}

/// The signed bytes of OpenSSH's regression vector (PROTOCOL.sshsig version 1, namespace `unittest`, SHA-512): 100 bytes with
/// this hash, over which the library cryptography 50.0.2 finds the signature of that vector good.
#[test]
fn the_signed_bytes_are_those_of_the_protocol() {
    let data = signed_data("unittest", MESSAGE);
    assert_eq!(data.len(), 100);
    assert_eq!(
        Digest::of(&data).to_string(),
        "008d13ba95255d3777e6f45373caa930a01faf5d4d2d3e2147fa0ca9d252d7a7"
    );
}

#[test]
fn what_openssh_signed_is_verified() {
    for text in [SHA512, SHA256] {
        let signature = SshSig::parse(text).unwrap();
        assert_eq!(signature.verify("unittest", MESSAGE), Ok(()));
        assert_eq!(signature.key, PublicKey::parse(OPEN_PUBLIC).unwrap());
        assert_eq!(signature.armoured(), text, "and written as OpenSSH writes it");
    }
}

/// Ed25519 is deterministic: the same key signs the same message with the same bytes, whoever does it.
#[test]
fn ours_are_the_bytes_of_openssh() {
    let key = Locked::parse(OPEN).unwrap();
    assert!(!key.is_locked());
    assert_eq!(key.open("").unwrap().sign("unittest", MESSAGE).armoured(), SHA512);
}

#[test]
fn a_signature_by_hardware_is_verified() {
    let signature = SshSig::parse(HARDWARE).unwrap();
    assert_eq!(signature.verify("example", b"testing"), Ok(()));
    // As `ssh-keygen -Y check-novalidate` of OpenSSH 9.2p1 names the key.
    assert_eq!(signature.key.to_string(), "SHA256:6gcI7q24Uf/4jZEyRdzDIZ2x5pW2AxPAQt/lgHoHae0");
    assert!(signature.verify("example", b"resting").is_err());
}

#[test]
fn another_purpose_message_or_key_is_refused() {
    let signature = SshSig::parse(SHA512).unwrap();
    assert!(why(signature.verify("other", MESSAGE)).contains("made for `unittest`"));
    assert!(
        why(signature.verify("unittest", b"This is a test, this is only a tesT")).contains("was changed")
    );
    assert!(why(SshSig::parse(RSA)).contains("its key is `ssh-rsa`"));
    let locked = Locked::parse(LOCKED).unwrap().open("warm oil").unwrap();
    let other = locked.sign("unittest", MESSAGE);
    assert_ne!(other.key, signature.key);
}

/// Each bit of the text of a signature: it is not the same signature any more, whatever is made of it.
#[test]
fn a_flipped_bit_is_found() {
    for at in 0..SHA512.len() * 8 {
        let mut bytes = SHA512.as_bytes().to_vec();
        bytes[at / 8] ^= 1 << (at % 8);
        let Ok(text) = String::from_utf8(bytes) else { continue };
        let taken = SshSig::parse(&text).and_then(|signature| {
            signature.verify("unittest", MESSAGE)?;
            Ok(signature)
        });
        // A line may end at another place, and the end of the file may be another blank.
        assert!(taken.is_err() || taken.unwrap().armoured() == SHA512, "byte {}, bit {}", at / 8, at % 8);
    }
}

/// The example of PROTOCOL.sshsig section 1 leaves the hash out: what is cut short is refused.
#[test]
fn cut_short_at_any_byte_it_is_refused() {
    for end in 0..SHA512.len() - 1 {
        assert!(SshSig::parse(&SHA512[..end]).is_err(), "{end}");
        assert!(Locked::parse(&OPEN[..end.min(OPEN.len() - 2)]).is_err(), "{end}");
    }
}

#[test]
fn a_locked_key_opens_with_its_passphrase() {
    let locked = Locked::parse(LOCKED).unwrap();
    assert!(locked.is_locked());
    assert_eq!(locked.public, PublicKey::parse(LOCKED_PUBLIC).unwrap());
    assert!(why(locked.open("cold oil")).contains("the passphrase is not the one of this key"));
    let signature = locked.open("warm oil").unwrap().sign("unittest", MESSAGE);
    assert_eq!(signature.verify("unittest", MESSAGE), Ok(()));
    assert_eq!(signature.key, locked.public);
}

#[test]
fn another_lock_is_refused_with_the_way_out() {
    let said = why(Locked::parse(OTHER_LOCK));
    assert!(said.contains("aes256-gcm") && said.contains("ssh-keygen -p -Z aes256-ctr"), "{said}");
}

fn allowed(text: &str) -> Result<Allowed, bayhand::signature::Unfit> {
    Allowed::parse(text, &TimeZone::fixed(jiff::tz::offset(1)))
}

fn at(text: &str) -> ZonedDateTime {
    text.parse::<Timestamp>().unwrap().to_zoned_datetime(TimeZone::UTC)
}

/// Who the list says the key belongs to, at noon of a day in November.
fn says(text: &str) -> Result<String, String> {
    let key = PublicKey::parse(OPEN_PUBLIC).unwrap();
    let list = allowed(text).map_err(|error| error.why)?;
    let signer = list.signer(&key, &at("2026-11-21T12:00:00Z"));
    signer.map(|signer| signer.principals.clone()).map_err(|error| error.why)
}

#[test]
fn the_list_says_whose_key_it_is() {
    let list = format!("# our bay\n\nsam@bay {LOCKED_PUBLIC}\nrobin@bay,lead {OPEN_PUBLIC}");
    assert_eq!(says(&list), Ok("robin@bay,lead".to_owned()));
    assert_eq!(says(&format!("\"Robin Vale, lead\" {OPEN_PUBLIC}")), Ok("Robin Vale, lead".to_owned()));
    assert!(
        says(&format!("sam@bay {LOCKED_PUBLIC}")).unwrap_err().contains("is not one of the allowed signers")
    );
}

#[test]
fn a_key_counts_only_for_what_and_when_it_is_allowed() {
    let with = |options: &str| says(&format!("robin@bay {options} {OPEN_PUBLIC}"));
    for good in [
        "namespaces=\"bayhand-record-v1\"",
        "namespaces=\"file,bayhand-record-v?\"",
        "namespaces=\"*\"",
        "valid-after=\"20261121\"",
        "valid-after=20261121130000,valid-before=202611211201Z",
        "namespaces=\"*,!file\",valid-before=\"20261122\"",
    ] {
        assert_eq!(with(good), Ok("robin@bay".to_owned()), "{good}");
    }
    for (bad, words) in [
        ("namespaces=\"file\"", "is not allowed for `bayhand-record-v1`"),
        ("namespaces=\"*,!bayhand-*\"", "is not allowed for"),
        ("valid-after=20261121130001", "was not valid yet"),
        ("valid-before=\"202611211200Z\"", "was not valid any more"),
        ("cert-authority", "certificates are not taken"),
        ("no-touch-required", "the option `no-touch-required` is not known"),
        ("valid-after=yesterday", "`yesterday` is not a time"),
        ("valid-after=20261340", "`20261340` is not a time"),
        ("namespaces=\"file", "a quote is not closed"),
    ] {
        let said = with(bad).unwrap_err();
        assert!(said.contains(words), "{bad}: {said}");
    }
}

#[test]
fn a_line_that_is_not_understood_is_named() {
    let list = format!("robin@bay {OPEN_PUBLIC}sam@bay\n");
    assert!(why(allowed(&list)).starts_with("line 2: the type of the key is missing"));
    assert!(why(allowed("sam@bay ssh-ed25519 AAA*")).starts_with("line 1: "));
}
