//! The order of tightening.

use bayhand::trade::fasteners::cross_order;
use proptest::prelude::*;

/// Source: the legacy star pattern of ASME PCC-1 for rings of 4, 8, 12, 16 and 24 (from memory); 3, 5 and 6: common
/// practice.
#[test]
fn known_rings() {
    let rings: [&[usize]; 8] = [
        &[1, 2, 3],
        &[1, 3, 2, 4],
        &[1, 3, 5, 2, 4],
        &[1, 4, 2, 5, 3, 6],
        &[1, 5, 3, 7, 2, 6, 4, 8],
        &[1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12],
        &[1, 9, 5, 13, 3, 11, 7, 15, 2, 10, 6, 14, 4, 12, 8, 16],
        &[1, 13, 7, 19, 4, 16, 10, 22, 2, 14, 8, 20, 5, 17, 11, 23, 3, 15, 9, 21, 6, 18, 12, 24],
    ];
    for ring in rings {
        assert_eq!(cross_order(ring.len()), ring);
    }
    assert_eq!(cross_order(0), Vec::<usize>::new());
    assert_eq!(cross_order(1), [1]);
    assert_eq!(cross_order(2), [1, 2]);
}

/// How far apart two places of a ring are, the shorter way round.
fn apart(one: usize, other: usize, count: usize) -> usize {
    let way = one.abs_diff(other);
    way.min(count - way)
}

proptest! {
    #[test]
    fn each_place_comes_once(count in 0_usize..=200) {
        let mut order = cross_order(count);
        order.sort_unstable();
        prop_assert_eq!(order, (1..=count).collect::<Vec<_>>());
    }

    #[test]
    fn the_next_one_lies_far_away(count in 5_usize..=200) {
        let order = cross_order(count);
        for (turn, pair) in order.windows(2).enumerate() {
            let apart = apart(pair[0], pair[1], count);
            prop_assert!(apart >= 2, "{pair:?} of {count}");
            if count % 2 == 1 || turn % 2 == 0 {
                prop_assert_eq!(apart, count / 2, "{:?} of {} are opposite", pair, count);
            }
        }
    }
}
