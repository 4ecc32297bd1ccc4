//! A value that is judged is shown with as many digits as tell it from its limits: through a run, as a person reads it.

use bayhand::procedure::Name;

use crate::run::drive::Drive;

const TABLES: &str = "[readings.took]\nwhat = \"time of the round\"\nunit = \"s\"\ninformation_only = true\n\
    [readings.allowed]\nwhat = \"time that is allowed\"\nunit = \"s\"\ninformation_only = true\n\
    [values.share]\nwhat = \"share of the time\"\nformula = 'took / allowed'\nunit = \"%\"\nmax = \"100 %\"\nfails = \"Wait.\"\n\
    [readings.play]\nwhat = \"play\"\nunit = \"mm\"\nmax = \"55 mm\"\nfails = \"Turn it.\"\n";

/// The share as it is shown with these digits at least.
fn share(took: &str, allowed: &str, digits: i32) -> (String, String) {
    let mut drive = Drive::of(TABLES, "1. Read [took] and [allowed]: [share].\n2. Read [play].\n");
    drive.enter(took);
    drive.enter(allowed);
    let judged = drive.view().judge(&Name::from("share")).unwrap();
    (judged.shown(digits).unwrap(), judged.judgement.to_string())
}

/// 24 / 23.935 = 1.0027157: by long division.
#[test]
fn what_fails_by_little_is_not_shown_as_the_limit() {
    let (shown, verdict) = share("24", "23.935", 3);
    assert_eq!((shown.as_str(), verdict.as_str()), ("100.3 %", "fail, 0.272 % above the maximum of 100 %"));
    assert_eq!(share("24", "23.935", 5).0, "100.27 %");
    // 23.9349 / 23.935 = 0.99999582.
    let (shown, verdict) = share("23.9349", "23.935", 3);
    assert_eq!(shown, "99.9996 %");
    assert!(verdict.starts_with("pass"), "{verdict}");
}

#[test]
fn what_is_on_the_limit_or_far_from_it_keeps_its_few_digits() {
    assert_eq!(share("24", "24", 3), ("100 %".to_owned(), "pass, exactly on the maximum".to_owned()));
    // 2 / 3.
    assert_eq!(share("2", "3", 3).0, "66.7 %");
    assert_eq!(share("7", "3", 3).0, "233 %");
}

/// A number with more digits than are shown, and one that came in another unit.
#[test]
fn a_reading_is_shown_as_what_it_is_too() {
    for (typed, shown) in
        [("55.00000001", "55.00000001 mm"), ("2.165354331 in", "2.1654 in = 55.00000001 mm"), ("55", "55 mm")]
    {
        let mut drive = Drive::of(TABLES, "1. Read [play].\n2. Read [took] and [allowed]: [share].\n");
        drive.enter(typed);
        let view = drive.view();
        let results = view.results_at(view.present_at(&view.book.procedure.steps()[0]));
        assert_eq!(results[0].shown.as_deref(), Some(shown));
        assert_eq!(results[0].judged.judgement.lets_go_on(), typed == "55");
    }
}
