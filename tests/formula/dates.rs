//! Dates: two have a difference in days, a length of time makes another, and nothing else is done with them.

use bayhand::quantity::{Quantity, parse_date};

use super::world::{check, is_true, result};

/// The days by Python's datetime 3.11: `(date(2026, 11, 29) - date(2026, 11, 1)).days` and so on.
#[test]
fn two_dates_have_a_difference_in_days() {
    for (formula, days) in [
        ("2026-11-29 - 2026-11-01", "28 d"),
        ("2026-11-01 - 2026-11-29", "-28 d"),
        ("2024-03-01 - 2024-02-28", "2 d"),
        ("2026-03-01-2026-02-28", "1 d"),
        ("1900-03-01 - 1900-02-28", "1 d"),
        ("2000-01-01 - 1970-01-01", "10957 d"),
        ("1970-01-01 - 1582-10-15", "141427 d"),
        ("spread(2026-11-29, 2026-11-01, 2026-12-24)", "53 d"),
        ("2026-11-29 - 2026-11-01 in wk", "4 wk"),
    ] {
        assert_eq!(result(formula).to_string(), days, "{formula}");
    }
}

/// The days by Python's datetime 3.11: `date(2026, 11, 1) + timedelta(weeks=26)` and so on.
#[test]
fn a_date_and_a_length_of_time_make_a_date() {
    for (formula, day) in [
        ("2026-11-01 + 26 wk", "2027-05-02"),
        ("100 d + 2026-11-01", "2027-02-09"),
        ("2024-02-28 + 1 d", "2024-02-29"),
        ("2026-01-01 - 1 d", "2025-12-31"),
        ("2026-11-01 + 36 h", "2026-11-02 12:00"),
        ("mean(2026-11-01, 2026-11-03)", "2026-11-02"),
        ("max(2026-11-01, 2026-10-31)", "2026-11-01"),
        ("1969-12-31", "1969-12-31"),
    ] {
        assert_eq!(result(formula).to_string(), day, "{formula}");
    }
    assert!(is_true("2026-11-01 < 2026-11-29 and 2026-11-01 + 28 d == 2026-11-29"));
}

#[test]
fn nothing_else_is_done_with_dates() {
    for (formula, told) in [
        ("2026-11-29 + 2026-11-01", "two dates cannot be added"),
        ("28 d - 2026-11-01", "a date cannot be taken from a difference"),
        ("2026-11-01 * 2", "only amounts can be multiplied or divided"),
        ("-2026-11-01", "a minus sign needs an amount"),
        ("2026-11-01 > 28 d", "a date is compared with a difference"),
        ("2026-11-01 + 3 km", "cannot add these"),
        ("2026-02-30 - 2026-02-01", "there is no such day"),
        ("1000-20-10", "there is no such day"),
        ("2026-11-01 in °C", "the result cannot be shown in this unit"),
        ("scald_time(2026-11-01)", "`temperature` of `scald_time` must be a temperature"),
        ("date_plus_months(20 °C, months = 2)", "`date` of `date_plus_months` must be a date"),
        ("abs(2026-11-01)", "`x` of `abs` must be an amount"),
    ] {
        let mistakes = check(formula, "").unwrap_err();
        assert_eq!(mistakes[0].message, told, "{formula}");
        let shown = format!("{mistakes:?}");
        assert!(!shown.contains("temperature on a scale"), "{formula}: {shown}");
    }
}

#[test]
fn a_date_is_kept_on_disk_as_it_is() {
    let date = parse_date("2026-11-01").unwrap();
    assert_eq!(Quantity::from_exact_text(&date.to_exact_text()), Some(date));
    for text in ["2026-11-1", "26-11-01", "2026-11-01 ", "2026-11-011", "2026/11/01", "20261101", ""] {
        assert_eq!(parse_date(text), None, "{text}");
    }
}
