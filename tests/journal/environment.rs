//! What the surroundings say, and where runs are kept.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use bayhand::system::scripted::ScriptedClock;
use bayhand::system::{Environment, RealDisk, System};
use jiff::ZonedDateTime;
use jiff::tz::TimeZone;

use super::support::evening;

fn system(now: ZonedDateTime, environment: Environment) -> System {
    System::new(Arc::new(ScriptedClock::standing(now)), Arc::new(RealDisk), environment)
}

#[test]
fn the_folder_given_goes_before_the_variable_and_that_before_the_platform() {
    let own = || Environment::of([]).with_own_data_folder("/home/lena/.local/share/bayhand");
    let both = Environment::of([("BAYHAND_DATA", "/mnt/stick")]).with_own_data_folder("/home/lena/data");
    let folder = |environment, given: Option<&str>| {
        let given = given.map(Path::new);
        system(evening(), environment).data_folder(given)
    };
    assert_eq!(folder(both.clone(), Some("here")), Ok(PathBuf::from("here")));
    assert_eq!(folder(both, None), Ok(PathBuf::from("/mnt/stick")));
    assert_eq!(folder(own(), None), Ok(PathBuf::from("/home/lena/.local/share/bayhand")));
    let error = folder(Environment::of([("BAYHAND_DATA", "")]), None).unwrap_err();
    assert!(error.to_string().contains("BAYHAND_DATA=/path/to/folder"), "{error}");
}

#[test]
fn variables_mean_what_their_conventions_say() {
    // no-color.org: present and not an empty string, whatever the value.
    assert!(Environment::of([("NO_COLOR", "0")]).refuses_colour());
    assert!(!Environment::of([("NO_COLOR", "")]).refuses_colour());
    assert!(!Environment::of([]).refuses_colour());
    assert_eq!(Environment::of([("TERM", "dumb")]).terminal(), Some("dumb"));
    for (text, columns) in [("80", Some(80)), ("0", None), ("-1", None), ("wide", None), ("99999", None)] {
        assert_eq!(Environment::of([("COLUMNS", text)]).columns(), columns);
    }
}

#[test]
fn a_machine_that_does_not_know_its_zone_is_told_to_the_person() {
    let unknown = evening().with_time_zone(TimeZone::unknown());
    assert!(system(unknown, Environment::default()).zone_notice().unwrap().contains("UTC"));
    assert_eq!(system(evening(), Environment::default()).zone_notice(), None);
}

#[test]
fn a_scripted_clock_goes_on_only_as_it_is_told() {
    let still = system(evening(), Environment::default());
    assert_eq!((still.now(), still.now()), (evening(), evening()));
}
