//! Gauges: the drawing and the sentence.

use bayhand::terminal::{Fell, Gauge, Manner, Mark, Text, paint};
use proptest::prelude::*;
use textwrap::core::display_width;

fn reading(at: f64, fell: Fell) -> Gauge {
    Gauge::new(Mark::new(at, at.to_string()), fell)
}

fn between(gauge: Gauge) -> Gauge {
    gauge.lower(Mark::new(45.0, "45")).upper(Mark::new(55.0, "55"))
}

/// The drawing without attributes.
fn drawn(gauge: Gauge, width: usize) -> String {
    let painted = paint(&Text::new().gauge(gauge), width, Manner::Mono);
    console::strip_ansi_codes(&painted).trim_end_matches('\n').to_owned()
}

fn told(gauge: Gauge) -> String {
    paint(&Text::new().gauge(gauge), 80, Manner::Lines).trim().to_owned()
}

#[test]
fn a_reading_between_two_limits() {
    let gauge = between(reading(52.2, Fell::Inside)).distance("2.8 below the maximum");
    assert_eq!(drawn(gauge.clone(), 40), "······ 45 ━━━━━━━━━━━ [52.2] ━ 55 ······");
    assert_eq!(gauge.words(), "52.2 is between 45 and 55, 2.8 below the maximum");
    assert_eq!(told(gauge), "2.8 below the maximum");
}

#[test]
fn a_reading_on_a_limit_stands_on_the_side_it_was_judged_to_be() {
    let inside = drawn(between(reading(55.0, Fell::Inside)), 40);
    assert!(inside.contains("[55]  55 ·"), "{inside}");
    let outside = drawn(between(reading(55.0, Fell::Above)), 40);
    assert!(outside.contains("━ 55  [55]"), "{outside}");
}

#[test]
fn a_reading_beyond_the_ends_stands_at_the_end_with_an_arrow() {
    let below = between(reading(12.0, Fell::Below)).distance("33 below the minimum");
    assert!(drawn(below.clone(), 40).starts_with("‹[12] "), "{}", drawn(below, 40));
    let above = between(reading(300.0, Fell::Above)).distance("245 above the maximum");
    assert!(drawn(above.clone(), 40).ends_with(" [300]›"), "{}", drawn(above.clone(), 40));
    assert_eq!(above.words(), "300 is outside the upper limit 55, 245 above the maximum");
}

#[test]
fn one_limit_alone_leaves_the_other_end_open() {
    let lower = reading(52.2, Fell::Inside).lower(Mark::new(45.0, "45"));
    assert!(drawn(lower.clone(), 40).starts_with('·') && drawn(lower.clone(), 40).ends_with('━'));
    assert_eq!(lower.words(), "52.2 is inside the lower limit 45");
    let upper = reading(60.0, Fell::Above).upper(Mark::new(55.0, "55"));
    assert!(drawn(upper.clone(), 40).starts_with('━') && drawn(upper.clone(), 40).ends_with('·'));
    assert_eq!(upper.words(), "60 is outside the upper limit 55");
}

/// Where the verdict stands on a line of its own, linear output does not say it twice.
#[test]
fn without_a_distance_nothing_is_told() {
    assert_eq!(told(between(reading(52.2, Fell::Inside))), "");
}

#[test]
fn a_target_stands_between_its_limits_where_there_is_room() {
    let gauge = between(reading(47.0, Fell::Inside)).target(Mark::new(50.0, "50"));
    assert!(drawn(gauge.clone(), 60).contains("(50)"));
    assert_eq!(gauge.words(), "47 is between 45 and 55 (target 50)");
    let narrow = drawn(gauge, 18);
    assert!(!narrow.contains("(50)") && narrow.contains("[47]") && narrow.contains("45"), "{narrow}");
}

#[test]
fn the_sentence_is_told_where_nothing_can_be_drawn() {
    let long = "9 lbf·ft and three quarters".to_owned();
    let gauge = reading(50.0, Fell::Inside).lower(Mark::new(45.0, long.clone())).upper(Mark::new(55.0, long));
    assert!(drawn(gauge, 40).starts_with("50 is between 9 lbf·ft"));
    assert!(drawn(between(reading(f64::NAN, Fell::Below)), 40).starts_with("NaN is outside"));
    assert_eq!(drawn(reading(5.0, Fell::Inside), 40), "5 is without a limit");
}

proptest! {
    /// The drawing fills its width exactly and keeps the order of the numbers.
    #[test]
    fn the_drawing_fits_and_keeps_the_order(
        (lower, upper) in (-1e6_f64..1e6, 1e-3_f64..1e6).prop_map(|(lower, span)| (lower, lower + span)),
        at in -2e6_f64..2e6,
        width in 40_usize..64,
    ) {
        let fell = if at < lower { Fell::Below } else if at > upper { Fell::Above } else { Fell::Inside };
        let gauge = Gauge::new(Mark::new(at, "r"), fell).lower(Mark::new(lower, "low")).upper(Mark::new(upper, "up"));
        let out = drawn(gauge, width);
        // The space after a number at the right end is not written.
        prop_assert!((width - 1..=width).contains(&display_width(&out)), "{}", out);
        let (low, r, up) = (out.find("low"), out.find("[r]"), out.find("up"));
        prop_assert!(low < up && low.is_some() && r.is_some());
        prop_assert_eq!(r < low, fell == Fell::Below);
        prop_assert_eq!(r > up, fell == Fell::Above);
    }
}
