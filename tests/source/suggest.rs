use bayhand::source::suggest::nearest;

const NAMES: [&str; 5] = ["pan_temp", "room_temp", "supply", "supply_pressure", "t1"];

#[test]
fn a_slip_of_the_finger_is_mended() {
    assert_eq!(nearest("pan_tmep", NAMES), Some("pan_temp"));
    assert_eq!(nearest("Pan_Temp", NAMES), Some("pan_temp"));
    assert_eq!(nearest("suply", NAMES), Some("supply"));
}

#[test]
fn the_beginning_of_one_name_is_enough() {
    assert_eq!(nearest("room", NAMES), Some("room_temp"));
    assert_eq!(nearest("sup", NAMES), None, "two names begin like this");
}

#[test]
fn what_is_far_from_everything_suggests_nothing() {
    assert_eq!(nearest("viscosity", NAMES), None);
    assert_eq!(nearest("t2", NAMES), None, "half of a two-letter name is wrong");
    assert_eq!(nearest("x", []), None);
}
