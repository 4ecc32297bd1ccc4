//! SHA-256 against the examples of FIPS 180-4.

use bayhand::journal::Digest;

#[test]
fn sha256_agrees_with_the_examples_of_the_standard() {
    // FIPS 180-4 example messages (from memory), digests reproduced with coreutils sha256sum.
    let long = vec![b'a'; 1_000_000];
    let examples: [(&[u8], &str); 4] = [
        (b"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"),
        (b"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"),
        (
            b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
        ),
        (&long, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"),
    ];
    for (message, expected) in examples {
        assert_eq!(Digest::of(message).to_string(), expected);
        assert_eq!(Digest::parse(expected), Some(Digest::of(message)));
    }
}

#[test]
fn only_64_lower_case_digits_are_a_digest() {
    let good = Digest::of(b"abc").to_string();
    let longer = format!("{good}0");
    let upper = good.to_uppercase();
    let strange = good.replacen('b', "g", 1);
    for text in ["", &good[1..], &longer, &upper, &strange] {
        assert_eq!(Digest::parse(text), None, "{text}");
    }
}
