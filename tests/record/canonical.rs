//! The canonical form against vectors from outside: RFC 8785 test data by its author, public repository
//! cyberphone/json-canonicalization, commit 19d51d7f; digests reproduced with the Python library `rfc8785` 0.1.4.

use bayhand::journal::Digest;
use bayhand::record::canonical;
use serde_json::Value;

fn canonical_text(json: &str) -> String {
    let value: Value = serde_json::from_str(json).unwrap();
    String::from_utf8(canonical(&value).unwrap()).unwrap()
}

fn expect(json: &str, canonical: &str, sha256: &str) {
    let is = canonical_text(json);
    assert_eq!(is, canonical);
    assert_eq!(Digest::of(is.as_bytes()).to_string(), sha256);
}

#[test]
fn arrays() {
    expect(
        r#"[56, {"d": true, "10": null, "1": [ ]}]"#,
        r#"[56,{"1":[],"10":null,"d":true}]"#,
        "099601b171cafed97c333f8878d68e7f8c8f795412adb34b2fdcf0e7c7beac42",
    );
}

#[test]
fn values() {
    expect(
        r#"{"numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
            "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/", "literals": [null, true, false]}"#,
        r#"{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}"#,
        "2d5e01a318d0f0879ab568c4be289c8b1f64ef8921a53c6277d5e069978baacb",
    );
}

#[test]
fn structures() {
    expect(
        r#"{"1": {"f": {"f": "hi", "F": 5}, "\n": 56.0}, "10": {}, "": "empty", "a": {},
            "111": [{"e": "yes", "E": "no"}], "A": {}}"#,
        r#"{"":"empty","1":{"\n":56,"f":{"F":5,"f":"hi"}},"10":{},"111":[{"E":"no","e":"yes"}],"A":{},"a":{}}"#,
        "605f65004ec2db7692522a0852c22f1c989e036d547e88963d1a3143cf3195d5",
    );
}

/// U+1F602 (its first UTF-16 unit is D83D) comes before U+FB33: sorting by UTF-8 or by code points gets this wrong.
#[test]
fn keys_are_sorted_by_utf16_units() {
    let is = canonical_text(
        r#"{"\u20ac": 1, "\r": 2, "\ufb33": 3, "1": 4, "\ud83d\ude02": 5, "\u0080": 6, "\u00f6": 7, "\n": 8, "</script>": 9}"#,
    );
    assert_eq!(
        is,
        "{\"\\n\":8,\"\\r\":2,\"1\":4,\"</script>\":9,\"\u{80}\":6,\"ö\":7,\"€\":1,\"😂\":5,\"\u{fb33}\":3}"
    );
}

#[test]
fn text_is_not_normalised() {
    assert_eq!(canonical_text(r#"{"k": "A\u030a"}"#), "{\"k\":\"A\u{30a}\"}");
}

/// IEEE 754 numbers by their bits, from the same test data (RFC 8785, appendix B).
#[test]
fn numbers() {
    let vectors: [(u64, &str); 7] = [
        (0x4340_0000_0000_0001, "9007199254740994"),
        (0x4340_0000_0000_0002, "9007199254740996"),
        (0x444b_1ae4_d6e2_ef50, "1e+21"),
        (0x3eb0_c6f7_a0b5_ed8d, "0.000001"),
        (0x3eb0_c6f7_a0b5_ed8c, "9.999999999999997e-7"),
        (0x8000_0000_0000_0000, "0"),
        (0, "0"),
    ];
    for (bits, text) in vectors {
        let is = canonical(&f64::from_bits(bits)).unwrap();
        assert_eq!(String::from_utf8(is).unwrap(), text);
    }
}
