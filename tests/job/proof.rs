//! How many clean mornings prove a repair, by what the procedures of the cold mornings work out.
//!
//! Fisher's exact test, one-sided, by hand: with `k` stalls in `n` mornings before and none in `m` after, the chance that all `k`
//! fell among the first `n` by luck is C(n, k) / C(n + m, k). Second source: scipy 1.17.1, `fisher_exact`, in
//! tests/cases/trade/statistics.txt, written by tests/reference/statistics.py.

use super::shop::Shop;

/// Stalls, mornings before, clean mornings; then the chance, as a fraction worked out by hand.
struct Count {
    stalls: u32,
    before: u32,
    clean: u32,
    chance: (f64, f64),
    is_enough: bool,
}

const COUNTS: [Count; 6] = [
    // C(3, 3) / C(7, 3) = 1 / 35 = 2.86 %.
    Count { stalls: 3, before: 3, clean: 4, chance: (1.0, 35.0), is_enough: true },
    // C(3, 3) / C(6, 3) = 1 / 20 = 5 %, and 5 % is not below 5 %.
    Count { stalls: 3, before: 3, clean: 3, chance: (1.0, 20.0), is_enough: false },
    // C(8, 4) / C(16, 4) = 70 / 1820 = 3.85 %.
    Count { stalls: 4, before: 8, clean: 8, chance: (70.0, 1820.0), is_enough: true },
    // C(8, 4) / C(15, 4) = 70 / 1365 = 5.13 %.
    Count { stalls: 4, before: 8, clean: 7, chance: (70.0, 1365.0), is_enough: false },
    // C(10, 3) / C(26, 3) = 120 / 2600 = 4.62 %.
    Count { stalls: 3, before: 10, clean: 16, chance: (120.0, 2600.0), is_enough: true },
    // C(10, 3) / C(25, 3) = 120 / 2300 = 5.22 %.
    Count { stalls: 3, before: 10, clean: 15, chance: (120.0, 2300.0), is_enough: false },
];

const DIED: &str = "was pulled down shaking and died";

/// Cold mornings, one a pass: so many that stall, the rest run on.
fn mornings(shop: Shop, stalls: u32, all: u32) -> Shop {
    let each = |stalled: &'static str, ran: &'static str| -> Vec<&'static str> {
        (0..all).map(|morning| if morning < stalls { stalled } else { ran }).collect()
    };
    shop.said_each("kept", &each("as agreed", "as agreed"))
        .said_each("parked_h", &each("11 h", "12 h"))
        .said_each("air_temp", &each("-2 °C", "-3 °C"))
        .said_each("rpm_n", &each("1050 rpm", "1060 rpm"))
        .said_each("lowest_r", &each("0 rpm", "900 rpm"))
        .said_each("r_end", &each(DIED, "ran on"))
}

/// The procedures round to a hundredth of a percent, so that 5 % to the hair is not below 5 % on any machine.
fn is_near(found: f64, (part, of): (f64, f64)) -> bool {
    (found - part / of).abs() <= 0.000_050_1
}

/// Before: the number that is asked for is fixed, and too small a one is refused.
#[test]
fn the_number_of_clean_mornings_is_fixed_beforehand() {
    for count in COUNTS {
        let shop = Shop::of("cold-mornings-before").vehicle("mornings_before", &count.before.to_string());
        let shop = mornings(shop, count.stalls, count.before).said("clean_planned", &count.clean.to_string());
        let told = format!("{} of {}, {} clean", count.stalls, count.before, count.clean);
        assert!((shop.amount("faults", "1") - f64::from(count.stalls)).abs() < 1e-9, "{told}");
        assert!((shop.amount("mornings", "1") - f64::from(count.before)).abs() < 1e-9, "{told}");
        assert!(is_near(shop.amount("luck_planned", "1"), count.chance), "{told}");
        assert_eq!(shop.is_good("luck_planned"), count.is_enough, "{told}");
    }
}

/// After: it is proven with that many, and with one fewer it is not.
#[test]
fn it_is_proven_with_as_many_as_were_asked_for_and_not_with_one_fewer() {
    for count in COUNTS {
        let planned = if count.is_enough { count.clean } else { count.clean + 1 };
        let shop = Shop::of("cold-mornings-after")
            .vehicle("faults", &count.stalls.to_string())
            .vehicle("mornings", &count.before.to_string())
            .vehicle("clean_planned", &planned.to_string());
        let shop = mornings(shop, 0, count.clean);
        let told = format!("{} of {}, {} clean", count.stalls, count.before, count.clean);
        assert!(is_near(shop.amount("luck", "1"), count.chance), "{told}");
        assert_eq!(shop.holds("proven"), count.is_enough, "{told}");
        assert_eq!(shop.holds("open_still"), !count.is_enough, "{told}");
        assert_eq!(shop.is_over("morning"), count.is_enough, "{told}");
    }
}

/// One real stall ends it, however many clean mornings came before; a stall on a morning that is too warm is one as well.
#[test]
fn one_stall_is_not_fixed() {
    let shop = mornings(Shop::of("cold-mornings-after"), 1, 12);
    assert!(shop.holds("not_fixed") && !shop.holds("proven") && shop.is_over("morning"));
    let warm = mornings(Shop::of("cold-mornings-after"), 1, 1).said("air_temp", "12 °C");
    assert!(warm.holds("void") && warm.holds("not_fixed"));
}

/// Mild mornings can be clean by themselves: they count towards nothing.
#[test]
fn mild_mornings_prove_nothing() {
    let mild = vec!["6 °C"; 12];
    let shop = mornings(Shop::of("cold-mornings-after"), 0, 12).said_each("air_temp", &mild);
    assert!(!shop.holds("proven") && shop.holds("open_still") && !shop.is_over("morning"));
}
