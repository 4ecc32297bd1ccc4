//! A clock that is set: entries count in their order, and the one that shows it is flagged.

use bayhand::run::{Ask, Jumped};

use super::drive::{Drive, name};

#[test]
fn set_back_an_hour_the_order_stays_and_the_entry_is_flagged() {
    let mut drive = Drive::of("", "1. One.\n2. Two.\n3. Three.\n");
    drive.pass(5);
    drive.done();
    drive.pass(-60);
    drive.done();
    drive.pass(1);
    drive.done();
    let [jump] = &drive.state.times.jumps[..] else { panic!("{:?}", drive.state.times.jumps) };
    assert_eq!(jump.how, Jumped::Back(jiff::SignedDuration::from_hours(1)));
    let two = drive.completed("1.2");
    assert_eq!(jump.stamp.seq, two);
    let order: Vec<u64> = ["1.1", "1.2", "1.3"].map(|step| drive.completed(step)).to_vec();
    assert!(order.is_sorted());
    let words =
        format!("entry {two} bears a time 1 h before that of entry {}: the clock was set back", two - 1);
    assert!(jump.to_string().starts_with(&words), "{jump}");
    assert!(jump.to_string().contains("a clock set forward leaves no trace"));
}

#[test]
fn another_offset_is_flagged_although_the_time_goes_on() {
    let mut drive = Drive::of("", "1. One.\n2. Two.\n");
    drive.done();
    drive.pass(1);
    drive.now = drive.now.with_time_zone(jiff::tz::TimeZone::fixed(jiff::tz::offset(2)));
    drive.done();
    let [jump] = &drive.state.times.jumps[..] else { panic!("{:?}", drive.state.times.jumps) };
    assert_eq!(jump.how, Jumped::Offset { from: "+01:00".to_owned(), to: "+02:00".to_owned() });
}

/// With the clock set back, a shortest time only gets longer: nobody goes on too early.
#[test]
fn a_wait_is_on_the_safe_side() {
    let soak = "[waits.soak]\nwhat = \"it soaks\"\nat_least = \"10 min\"\n";
    let mut drive = Drive::of(soak, "1. Fill: [soak] begins.\n2. Lay out rags.\n3. Drain after [soak].\n");
    drive.done();
    drive.pass(-60);
    drive.done();
    drive.pass(11);
    let Ask::Wait { until, .. } = drive.ask() else { panic!("{:?}", drive.ask()) };
    assert_eq!(until.strftime("%H:%M").to_string(), "18:40");
    assert_eq!(drive.view().wait_began(&name("soak")).unwrap().strftime("%H:%M").to_string(), "18:30");
}
