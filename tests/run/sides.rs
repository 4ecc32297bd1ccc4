//! Too low and too high have different fixes.

use bayhand::run::Ask;

use super::drive::{Drive, name};

const LEVEL: &str = "[readings.level]\nwhat = \"level\"\nunit = \"mm\"\nmin = \"10 mm\"\nmax = \"20 mm\"\n\
too_low = \"Fill in some.\"\ntoo_high = \"Draw some off.\"\nfails = \"Read again on level ground.\"\n\
[values.over]\nwhat = \"over the lower mark\"\nunit = \"mm\"\nformula = 'level - 10 mm'\nabove = 0\nbelow = \"9 mm\"\n\
too_low = \"Too little.\"\n";

fn told(entry: &str, result: &str) -> Vec<String> {
    let mut drive = Drive::of(LEVEL, "1. Read [level]: [over].\n");
    drive.enter(entry);
    drive.view().what_to_do(&name(result)).into_iter().map(str::to_owned).collect()
}

#[test]
fn below_the_band_one_fix_is_told_above_it_the_other() {
    assert_eq!(told("5 mm", "level"), ["Fill in some.", "Read again on level ground."]);
    assert_eq!(told("25 mm", "level"), ["Draw some off.", "Read again on level ground."]);
    assert_eq!(told("15 mm", "level"), ["Read again on level ground."]);
}

#[test]
fn a_choice_made_early_selects_one_of_two_bands() {
    let tables = "[readings.oil]\nwhat = \"oil\"\nchoices = [\"thin\", \"thick\"]\ninformation_only = true\n\
[readings.level]\nwhat = \"level\"\nunit = \"mm\"\nmax = 'if oil == \"thin\" then 10 mm else 20 mm'\n";
    for (oil, passes) in [("thin", false), ("thick", true)] {
        let mut drive = Drive::of(tables, "1. See [oil].\n2. Read [level].\n");
        drive.enter(oil);
        drive.enter("15 mm");
        assert_eq!(drive.ask() == Ask::Close, passes, "{oil}");
    }
}

#[test]
fn a_computed_value_and_a_limit_that_is_not_good_itself_tell_the_side_too() {
    assert_eq!(told("10 mm", "over"), ["Too little."], "exactly on a limit that must be above it");
    assert!(told("19.5 mm", "over").is_empty(), "too high, and nothing is said for that");
}
