//! Pairs of functions of which one undoes the other.

use bayhand::quantity::Num;
use bayhand::trade::air::{
    Bay, air_changes, carbon_monoxide_level, carbon_monoxide_mass, level_after, time_to_clear,
};
use bayhand::trade::driveline::{joint_angle_for_swing, joint_swing, joint_turned};
use bayhand::trade::evidence::{
    clean_mornings_needed, clean_run_probability, fault_rate_highest, fault_rate_lowest,
};
use bayhand::trade::fasteners::{adapter_setting, preload, torque_at_fastener, torque_for_preload};
use bayhand::trade::support::{
    Tilt, Unit, centre_after_removal, centre_behind_front, centre_height, common_centre, front_load,
    load_gain_when_raised, rear_load,
};
use proptest::prelude::*;

/// A positive number with two decimals.
fn amount(below: i64) -> impl Strategy<Value = Num> {
    (1..below * 100).prop_map(|hundredths| Num::ratio(hundredths.into(), 100).unwrap())
}

fn near(first: f64, second: f64) -> bool {
    (first - second).abs() <= 1e-9 * first.abs().max(second.abs())
}

proptest! {
    #[test]
    fn the_fastener_gets_what_the_setting_is_for(torque in amount(300), wrench in amount(900), adapter in amount(300)) {
        let setting = adapter_setting(torque, wrench, adapter).unwrap();
        prop_assert_eq!(torque_at_fastener(setting, wrench, adapter), Some(torque));
        prop_assert!(setting < torque, "an adapter that lengthens asks for less");
    }

    #[test]
    fn preload_comes_back(torque in amount(300), diameter in amount(40), nut_factor in 5..50_i64) {
        let nut_factor = Num::ratio(nut_factor.into(), 100).unwrap();
        let force = preload(torque, diameter, nut_factor).unwrap();
        prop_assert_eq!(torque_for_preload(force, diameter, nut_factor), Some(torque));
    }

    #[test]
    fn swing_comes_back(angle in 0.01..80.0_f64) {
        prop_assert!(near(joint_angle_for_swing(joint_swing(angle)), angle));
    }

    #[test]
    fn a_turn_is_a_turn(position in -1000.0..1000.0_f64, angle in 0.0..45.0_f64) {
        let turned = joint_turned(position, angle);
        prop_assert!((joint_turned(position + 360.0, angle) - turned - 360.0).abs() < 1e-6);
        prop_assert!((turned - position).abs() < 10.0, "never far apart below 45°");
    }

    #[test]
    fn loads_add_up_and_give_the_centre_back(weight in amount(3000), span in amount(4000), share in 0..=100_i128) {
        let centre = span * Num::ratio(share, 100).unwrap();
        let (front, rear) = (front_load(weight, centre, span).unwrap(), rear_load(weight, centre, span).unwrap());
        prop_assert_eq!(front + rear, weight);
        prop_assert_eq!(centre_behind_front(front, rear, span), Some(centre));
    }

    #[test]
    fn what_comes_out_can_be_put_back(weight in amount(3000), centre in amount(2000), position in amount(2000)) {
        let vehicle = Unit { weight, position: centre };
        let removed = Unit { weight: weight * Num::ratio(1, 8).unwrap(), position };
        let left = Unit { weight: weight - removed.weight, position: centre_after_removal(vehicle, removed).unwrap() };
        prop_assert_eq!(common_centre(left, removed), Some(centre));
    }

    #[test]
    fn the_height_comes_back(weight in amount(3000), height in amount(900), raised in amount(900)) {
        let tilt = Tilt { span: 2700.into(), raised, radius: 300.into() };
        let gain = load_gain_when_raised(weight, height, tilt).unwrap();
        prop_assert!(near(centre_height(weight, gain, tilt).unwrap().to_f64(), height.to_f64()));
    }

    #[test]
    fn after_the_time_to_clear_the_level_is_there(volume in 10.0..500.0_f64, flow in 10.0..900.0_f64, from in 2.0..500.0_f64) {
        let bay = Bay { volume, flow, mixing: 0.3 };
        prop_assert!(near(level_after(bay, from, time_to_clear(bay, from, 1.5)), 1.5));
        prop_assert!(air_changes(from, 1.5, 0.3) > air_changes(from, 1.5, 1.0), "dead corners take longer");
    }

    #[test]
    fn carbon_monoxide_comes_back(level in 0.0..2000.0_f64) {
        prop_assert!(near(carbon_monoxide_level(carbon_monoxide_mass(level)), level));
    }

    #[test]
    fn so_many_mornings_and_not_one_fewer(rate in 1..100_i128, confidence in 1..1000_i128) {
        let (rate, confidence) = (Num::ratio(rate, 100).unwrap(), Num::ratio(confidence, 1000).unwrap());
        let needed = clean_mornings_needed(rate, confidence).unwrap();
        let left = Num::ONE - confidence;
        prop_assert!(clean_run_probability(rate, needed).unwrap() <= left);
        prop_assert!(clean_run_probability(rate, needed - 1).unwrap() > left);
    }

    #[test]
    fn the_rate_counted_lies_within_its_limits(mornings in 1..300_u32, share in 0.0..=1.0_f64, beyond in 0.001..0.3_f64) {
        let faults = (0..=mornings).find(|faults| f64::from(*faults) >= share * f64::from(mornings)).unwrap();
        let counted = f64::from(faults) / f64::from(mornings);
        let lowest = fault_rate_lowest(faults, mornings, beyond).unwrap();
        let highest = fault_rate_highest(faults, mornings, beyond).unwrap();
        prop_assert!(lowest <= counted && counted <= highest);
        let mirrored = fault_rate_highest(mornings - faults, mornings, beyond).unwrap();
        prop_assert!((lowest - (1.0 - mirrored)).abs() < 1e-9, "clean mornings are counted the same way");
    }
}
