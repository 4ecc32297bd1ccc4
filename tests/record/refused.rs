//! No record while anything is open.

use bayhand::run::{Answer, Ask, OpenItem};

use super::support::Bench;

fn open_of(bench: &Bench) -> Vec<String> {
    bench.build().unwrap_err().iter().map(ToString::to_string).collect()
}

#[test]
fn while_a_step_is_open() {
    let mut bench = Bench::new();
    bench.begin().support().open_line();
    let open = bench.build().unwrap_err();
    let step = OpenItem::Step { number: "2.1".to_owned(), status: "current" };
    assert!(open.contains(&step), "{open:?}");
    assert!(!open.contains(&OpenItem::Step { number: "1.2".to_owned(), status: "done" }));
}

#[test]
fn while_a_hold_point_is_open() {
    let mut bench = Bench::new();
    bench.begin().support().open_line().pressure().flow();
    let hold = OpenItem::Hold { what: "Tools clear, people clear".to_owned() };
    let open = bench.build().unwrap_err();
    assert!(open.contains(&hold), "{open:?}");
    assert!(!open.iter().any(|item| matches!(item, OpenItem::Step { .. })), "{open:?}");
}

#[test]
fn while_a_protection_is_in_force() {
    let mut bench = Bench::new();
    bench.begin().support();
    let protection = OpenItem::Protection {
        what: "vehicle on stands".to_owned(),
        by: "Robin Vale and Sam Hollis".to_owned(),
        entry: 12,
    };
    assert!(bench.build().unwrap_err().contains(&protection));
    bench.open_line().pressure().flow().clear();
    assert!(!bench.build().unwrap_err().contains(&protection));
}

#[test]
fn while_a_deviation_has_no_disposition() {
    let mut bench = Bench::new();
    bench.begin().support().open_line();
    bench.give(Answer::NotApplicable { reason: "no supply here".to_owned() });
    let deviation = OpenItem::Deviation { number: 1, reason: "no supply here".to_owned() };
    assert!(bench.build().unwrap_err().contains(&deviation));
}

#[test]
fn while_the_run_is_not_closed() {
    let mut bench = Bench::new();
    bench.begin().support().open_line().pressure().flow().clear();
    assert_eq!(bench.ask(), Ask::Close);
    assert_eq!(open_of(&bench), ["the run is not closed"]);
    bench.close();
    assert!(bench.build().is_ok());
}
