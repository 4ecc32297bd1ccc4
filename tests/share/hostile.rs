//! Archives that were made to do harm, or came to harm: refused whole, with a reason.

use bayhand::share::{PathProblem, Refused, SharedPath, pack, unpack};
use proptest::prelude::*;
use rawzip::CompressionMethod;

use super::made::{Made, archive, bundle, ordinary};

fn refused(archive: &[u8]) -> Refused {
    unpack(archive).unwrap_err()
}

#[test]
fn a_path_that_leads_elsewhere_is_refused() {
    let cases: [(&str, PathProblem); 15] = [
        ("/etc/passwd", PathProblem::Absolute),
        ("../out.md", PathProblem::Wandering),
        ("a/../../out.md", PathProblem::Wandering),
        ("a/./b.md", PathProblem::Wandering),
        ("a//b.md", PathProblem::Wandering),
        ("..\\out.md", PathProblem::Letter('\\')),
        ("C:out.md", PathProblem::Letter(':')),
        ("a.md:stream", PathProblem::Letter(':')),
        ("a\u{1b}[2J.md", PathProblem::Letter('\u{1b}')),
        ("a\nb.md", PathProblem::Letter('\n')),
        ("a\0.md", PathProblem::Letter('\0')),
        ("\u{202e}dm.a", PathProblem::Letter('\u{202e}')),
        ("a.md.", PathProblem::End),
        ("a /b.md", PathProblem::End),
        ("", PathProblem::Empty),
    ];
    for (path, problem) in cases {
        assert_eq!(SharedPath::parse(path), Err(problem), "{path:?}");
        let files = [ordinary("good.md", b"good"), ordinary(path, b"bad")];
        let Refused::Path { why, .. } = refused(&archive(&files)) else { panic!("{path:?}") };
        assert_eq!(why, problem, "{path:?}");
    }
    let long = "a".repeat(300);
    assert_eq!(SharedPath::parse(&long), Err(PathProblem::Long));
    let bytes = Made { name: b"a\xff.md", ..ordinary("", b"") };
    assert!(matches!(
        refused(&archive(&[bytes])),
        Refused::Path { why: PathProblem::Letter('\u{fffd}'), .. }
    ));
    let said = refused(&archive(&[ordinary("a\u{1b}[2J.md", b"")])).to_string();
    assert!(said.contains("\\u{1b}") && !said.contains('\u{1b}'), "{said}");
}

/// Whatever else is wrong with the file; and a path of many kilobytes fills no screen.
#[test]
fn no_refusal_shows_a_path_as_it_is() {
    for mode in [0o100_644, 0o120_777] {
        let link = Made { mode, ..ordinary("a\u{1b}[2J\nverified: b.md", b"") };
        let said = refused(&archive(&[link])).to_string();
        assert!(said.contains("a\\u{1b}[2J\\nverified") && !said.contains(['\u{1b}', '\n']), "{said}");
    }
    let said = refused(&archive(&[ordinary(&"long/".repeat(10_000), b"")])).to_string();
    assert!(said.len() < 250 && said.contains("longer than"), "{} bytes", said.len());
}

#[test]
fn what_is_no_ordinary_file_is_refused() {
    // A symbolic link, a device, a pipe; a folder is none, and neither is what has no type at all.
    for mode in [0o120_777, 0o020_666, 0o060_666, 0o010_666, 0o140_666] {
        let link = Made { mode, ..ordinary("link.md", b"/etc/passwd") };
        let said = refused(&archive(&[ordinary("a.md", b"a"), link]));
        assert!(matches!(said, Refused::NotAFile { .. }), "{mode:o}: {said}");
    }
    let folder = Made { name: b"lines/", mode: 0o040_755, method: CompressionMethod::STORE, bytes: b"" };
    assert_eq!(unpack(&archive(&[folder, ordinary("lines/a.md", b"a")])).unwrap().len(), 1);
}

#[test]
fn two_files_of_one_name_are_refused() {
    for other in ["a.md", "A.MD", "a.md/b.md"] {
        let said = refused(&archive(&[ordinary("a.md", b"one"), ordinary(other, b"two")]));
        assert!(matches!(said, Refused::Bundle(_)), "{other}: {said}");
    }
    let said = refused(&archive(&[ordinary("a/b.md", b"one"), ordinary("a", b"two")]));
    assert!(said.to_string().contains("a file and a folder at once"), "{said}");
}

/// A little that becomes much: by what it says it is, and by what it is.
#[test]
fn a_bomb_is_refused_before_it_goes_off() {
    let much = vec![0; 2 << 20];
    let whole = archive(&[ordinary("zeros.md", &much)]);
    assert!(whole.len() < 4096, "it is small");
    let list = whole.windows(4).rposition(|four| four == b"PK\x01\x02").unwrap();
    let with_size = |size: u32| {
        let mut bytes = whole.clone();
        bytes[list + 24..list + 28].copy_from_slice(&size.to_le_bytes());
        bytes
    };
    let said = refused(&with_size(u32::MAX - 1));
    assert_eq!(said.to_string(), "unpacked it is larger than 64 MiB; it is no job that somebody shared");
    assert!(matches!(refused(&with_size(10)), Refused::Damaged { .. }), "no more is unpacked than it says");
    let many: Vec<String> = (0..1001).map(|count| format!("{count}.md")).collect();
    let many: Vec<Made<'_>> = many.iter().map(|name| ordinary(name, b"")).collect();
    assert!(refused(&archive(&many)).to_string().contains("more than 1000 files"));
}

/// Where the list of files begins.
fn lists(archive: &[u8]) -> Vec<usize> {
    archive.windows(4).enumerate().filter(|(_, four)| four == b"PK\x01\x02").map(|(at, _)| at).collect()
}

/// An entry of the list points to another file, or into what is in another one.
#[test]
fn files_that_lie_over_each_other_are_refused() {
    let mut bytes = archive(&[ordinary("a.md", b"the same"), ordinary("b.md", b"the same")]);
    let list = lists(&bytes);
    bytes.copy_within(list[0] + 42..list[0] + 46, list[1] + 42);
    assert!(matches!(refused(&bytes), Refused::TwoNames { .. }));
    let inner = archive(&[ordinary("b.md", b"the same")]);
    let inner = &inner[..lists(&inner)[0]];
    let outer = Made { method: CompressionMethod::STORE, ..ordinary("a.md", inner) };
    let mut bytes = archive(&[outer, ordinary("b.md", b"the same")]);
    let within = bytes.windows(inner.len()).position(|part| part == inner).unwrap();
    let list = *lists(&bytes).last().unwrap();
    bytes[list + 42..list + 46].copy_from_slice(&u32::try_from(within).unwrap().to_le_bytes());
    assert!(matches!(refused(&bytes), Refused::Overlapping));
}

#[test]
fn an_encrypted_file_and_one_packed_otherwise_are_refused() {
    let plain = archive(&[ordinary("a.md", b"some words, some words")]);
    let list = plain.windows(4).rposition(|four| four == b"PK\x01\x02").unwrap();
    let mut encrypted = plain.clone();
    encrypted[list + 8] |= 1;
    assert!(matches!(refused(&encrypted), Refused::Encrypted { .. }));
    let mut otherwise = plain;
    otherwise[list + 10] = 12;
    assert!(matches!(refused(&otherwise), Refused::Packed { .. }));
}

#[test]
fn what_is_no_archive_and_what_is_cut_off_is_refused() {
    for bytes in [&b""[..], b"PK", b"# no archive\n", &[0; 1000]] {
        assert!(matches!(refused(bytes), Refused::NotAnArchive(_)));
    }
    assert!(matches!(refused(&archive(&[])), Refused::Empty));
    let whole = pack(&bundle(&[("a.md", b"one, one, one, one"), ("lines/b.md", b"two")])).unwrap();
    for end in 0..whole.len() {
        assert!(unpack(&whole[..end]).is_err(), "cut off at {end}");
    }
}

proptest! {
    /// Whatever happens to the bytes: refused, or files with safe names and right checksums. No panic.
    #[test]
    fn no_change_does_harm(at in 0_usize..600, to in any::<u8>(), cut in 0_usize..600) {
        let files = bundle(&[("a.md", b"one, one, one, one"), ("lines/b.md", &[7; 300])]);
        let mut bytes = pack(&files).unwrap();
        let length = bytes.len();
        bytes[at % length] = to;
        for bytes in [&bytes[..], &bytes[..cut % length]] {
            if let Ok(found) = unpack(bytes) {
                for (path, content) in found.files() {
                    prop_assert!(SharedPath::parse(path.as_str()).is_ok());
                    prop_assert!(files.files().any(|(_, other)| other == content));
                }
            }
        }
    }

    #[test]
    fn no_bytes_do_harm(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
        let _ = unpack(&[&b"PK\x03\x04"[..], &bytes, b"PK\x05\x06\0\0\0\0\x01\0\x01\0\x20\0\0\0\x04\0\0\0\0\0"].concat());
        let _ = unpack(&bytes);
    }
}
