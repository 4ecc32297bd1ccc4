//! `bayhand explain`

use crate::session::stage::Stage;

#[test]
fn each_code_that_is_listed_is_explained() {
    let stage = Stage::bare();
    let list = stage.bayhand(&["explain"]);
    assert_eq!((list.code, list.err.as_str()), (Some(0), ""));
    let is_code = |code: &&str| !code.contains(' ') && !code.is_empty();
    let heads =
        list.out.lines().filter(|line| !line.starts_with(' ')).filter_map(|line| line.split_once(": "));
    let codes: Vec<&str> = heads.map(|(code, _)| code).filter(is_code).collect();
    assert!(codes.len() >= 40, "{codes:?}");
    assert!(codes.is_sorted(), "{codes:?}");
    for code in codes {
        let lesson = stage.bayhand(&["explain", code]);
        assert_eq!(lesson.code, Some(0), "{code}");
        assert!(lesson.out.starts_with(&format!("{code}: ")), "{}", lesson.out);
        assert!(lesson.out.lines().count() >= 4, "it teaches:\n{}", lesson.out);
    }
}

#[test]
fn an_unknown_code_is_met_with_the_nearest() {
    let ended = Stage::bare().bayhand(&["explain", "unit-mismatsh"]);
    assert_eq!((ended.code, ended.out.as_str()), (Some(1), ""));
    assert!(
        ended.err.contains("there is no code `unit-mismatsh`; did you mean `unit-mismatch`?"),
        "{}",
        ended.err
    );
}
