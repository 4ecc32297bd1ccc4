//! Due dates listed, and as a calendar file that another program reads.

use bayhand::job::calendar::calendar;
use bayhand::job::record::model::Due;
use bayhand::record::model::{self, Amount, Moment};
use serde_json::{Value, json};

use super::due_job::walked;
use crate::session::stage::words_of;

const GOLDEN: &str = "tests/cases/job/calendar/hostile.ics";
/// What `tests/reference/calendars.py` reads in it.
const READ: &str = "tests/cases/job/calendar/hostile.json";

fn due(name: &str, what: &str, words: &str, day: Option<&str>, estimate: Option<&str>) -> Due {
    let odometer =
        Amount { number: "152500".to_owned(), unit: "km".to_owned(), shown: "152500 km".to_owned() };
    Due {
        run: "2026-12-20-hand-over".to_owned(),
        uid: format!("{name}@bayhand"),
        due: model::Due {
            name: name.to_owned(),
            what: what.to_owned(),
            step: "1.4".to_owned(),
            set: Moment { entry: 8, at: "2026-12-20T16:04:40.000+01:00".to_owned() },
            since: "2026-12-20".to_owned(),
            words: words.to_owned(),
            by_calendar: day.map(str::to_owned),
            odometer: Some(odometer),
            estimate: estimate.map(str::to_owned),
        },
    }
}

/// Texts that mean something in a calendar, or to a terminal; days at the ends of months; one without a day.
fn hostile() -> Vec<Due> {
    let long = "Öl ".repeat(60);
    vec![
        due("signs", "oil; filter, \\n and \\\\ \"quoted\": all", "due 2028-02-29", Some("2028-02-29"), None),
        due("lines", "one\nEND:VEVENT\r\nBEGIN:VALARM", "two\n\nthree", Some("2027-02-28"), None),
        due(
            "moves",
            "red\u{1b}[31m \u{202e}turned \u{0}end",
            "due \u{7}soon",
            Some("2027-12-31"),
            Some("2027-05-03"),
        ),
        due("long", &long, &format!("😀{long}"), Some("2027-01-01"), None),
        due("nowhere", "at a distance", "due at 152500 km", None, None),
    ]
}

#[test]
fn a_calendar_is_read_back_by_another_program() {
    let made = calendar(&hostile());
    if std::env::var_os("BAYHAND_UPDATE").is_some() {
        std::fs::write(GOLDEN, &made).expect("a file of the tests");
    }
    assert_eq!(std::fs::read_to_string(GOLDEN).unwrap_or_default(), made);
    let read = std::fs::read_to_string(READ).expect("what another program read");
    let read: Value = serde_json::from_str(&read).expect("JSON");
    let expected: Vec<Value> = hostile().iter().filter_map(expected).collect();
    assert_eq!(read, Value::Array(expected));
    let widest = made.split("\r\n").map(str::len).max();
    assert!(widest <= Some(76), "lines are folded: {widest:?}");
    assert!(
        made.chars().all(|letter| !letter.is_control() || "\r\n".contains(letter)),
        "nothing moves a cursor"
    );
}

/// What a calendar is to say of a due: worked out here once more, beside the program.
fn expected(due: &Due) -> Option<Value> {
    let shown = |text: &str| {
        let text =
            text.replace('\r', "\u{240d}").replace('\u{1b}', "\u{241b}").replace('\u{202e}', "\u{fffd}");
        text.replace('\u{0}', "\u{2400}").replace('\u{7}', "\u{2407}")
    };
    let estimate = due.due.estimate.as_ref();
    let day = estimate.or(due.due.by_calendar.as_ref())?;
    let about = if estimate.is_some() { " (estimated day)" } else { "" };
    let summary = format!("{}{about}", shown(&due.due.what));
    Some(json!({
        "uid": due.uid,
        "stamp": "2026-12-20T15:04:40+00:00",
        "day": day,
        "all_day": true,
        "summary": summary,
        "description": format!("{}\nrun 2026-12-20-hand-over, step 1.4, entry 8", shown(&due.due.words)),
        "reminder_days": -7,
        "reminder": summary,
    }))
}

#[test]
fn the_dates_of_a_run_and_of_its_job() {
    let stage = walked();
    let of_run = words_of(&stage.bayhand(&["dates", "2027-01-31-serve"]).out);
    assert!(of_run.contains("2027-02-28 the next oil: due 2027-02-28 or at 152500 km, whichever comes first (run 2027-01-31-serve, step 1.2)"), "{of_run}");
    assert!(
        of_run.contains(
            "no day the filter: due at 153000 km; in no calendar: the sheet does not say `use_per_month`"
        ),
        "{of_run}"
    );
    let of_job = words_of(&stage.bayhand(&["dates", "service.md", "--to", "dates.ics"]).out);
    assert!(of_job.contains("1 of 2 written to dates.ics"), "{of_job}");
    let first = stage.text("dates.ics");
    assert!(first.contains("DTSTART;VALUE=DATE:20270228\r\n") && !first.contains("filter"), "{first}");
    // The same run gives the same file, whenever it is asked.
    assert_eq!(stage.bayhand(&["dates", "2027-01-31-serve", "--to", "dates.ics"]).code, Some(0));
    assert_eq!(stage.text("dates.ics"), first);
    stage.file("mine.ics", "mine");
    let kept = stage.bayhand(&["dates", "service.md", "--to", "mine.ics"]);
    assert_eq!((kept.code, stage.text("mine.ics").as_str()), (Some(1), "mine"), "{}", kept.err);
    let status = words_of(&stage.bayhand(&["status", "service.md"]).out);
    assert!(
        status.contains("Due the next oil: due 2027-02-28 or at 152500 km, whichever comes first (run"),
        "{status}"
    );
    let run = words_of(&stage.bayhand(&["status", "2027-01-31-serve"]).out);
    assert!(run.contains("Due the next oil: due 2027-02-28"), "{run}");
    let record = words_of(&stage.bayhand(&["record", "2027-01-31-serve"]).out);
    assert!(record.contains("the next oil [next_oil]: due 2027-02-28 or at 152500 km"), "{record}");
}

#[test]
fn nothing_is_due_before_it_is_set() {
    let stage = super::due_job::stage();
    let said = words_of(&stage.bayhand(&["dates", "service.md"]).out);
    assert!(said.contains("Nothing falls due"), "{said}");
}
