//! What must go up when something goes up, and ends that must never be passed.

use bayhand::quantity::Num;
use bayhand::trade::air::{Bay, level_build_up, scald_time};
use bayhand::trade::driveline::{
    Yokes, compound_angle, compound_angle_of_bearing, joint_angle_limit, joint_fastest, joint_slowest,
    joint_speed, leftover_angle,
};
use bayhand::trade::evidence::{
    Counts, all_before, clean_run_probability, fault_rate_highest, fewer_after, rule_of_three, unlike,
};
use bayhand::trade::fasteners::{stress_area, torque_tool_tolerance};
use bayhand::trade::measurement::{
    Decision, Rule, Sides, combined_uncertainty, coverage_factor, decide, guard_band, normal_factor,
    probability_below, probability_between,
};
use bayhand::trade::support::{Place, Stand, stand_load, stand_load_at_worst};
use proptest::prelude::*;

const STANDS: [Stand; 4] = [Stand::FrontLeft, Stand::FrontRight, Stand::RearLeft, Stand::RearRight];

fn percent(share: i128) -> Num {
    Num::ratio(share, 100).unwrap()
}

proptest! {
    #[test]
    fn the_stands_carry_the_weight_and_worst_is_worse(weight in 1..3000_i64, back in 0..=100_i128, across in 0..=100_i128) {
        let place = Place { back: percent(back), across: percent(across) };
        let loads = STANDS.map(|stand| stand_load(weight.into(), place, stand).unwrap());
        prop_assert_eq!(loads.into_iter().fold(Num::ZERO, |sum, load| sum + load), weight.into());
        for (stand, load) in STANDS.into_iter().zip(loads) {
            let worst = stand_load_at_worst(weight.into(), place, stand).unwrap();
            prop_assert!(load <= worst && worst <= weight.into());
            prop_assert!(worst + worst <= Num::from(weight) + load, "it takes over no more than the rest of its diagonal leaves");
        }
    }

    #[test]
    fn the_driven_shaft_stays_between_slowest_and_fastest(speed in 1.0..6000.0_f64, angle in 0.0..60.0_f64, position in 0.0..360.0_f64) {
        let there = joint_speed(speed, angle, position);
        prop_assert!(there >= joint_slowest(speed, angle) * (1.0 - 1e-12));
        prop_assert!(there <= joint_fastest(speed, angle) * (1.0 + 1e-12));
    }

    #[test]
    fn a_true_angle_is_larger_than_each_of_its_views(side in 0.0..60.0_f64, plan in 0.0..60.0_f64) {
        for true_angle in [compound_angle(side, plan), compound_angle_of_bearing(side, plan)] {
            prop_assert!(true_angle >= side.max(plan) - 1e-6 && true_angle <= side + plan + 1e-6);
        }
    }

    #[test]
    fn crossed_yokes_are_never_better(first in 0.0..45.0_f64, second in 0.0..45.0_f64) {
        let in_line = leftover_angle(first, second, Yokes::InLine);
        prop_assert!(in_line <= leftover_angle(first, second, Yokes::Crossed) + 1e-9);
        prop_assert!(leftover_angle(first, first, Yokes::InLine).abs() < 1e-9);
    }

    #[test]
    fn faster_shafts_get_smaller_angles(speed in 0..5000_i64) {
        prop_assert!(joint_angle_limit(speed.into()) >= joint_angle_limit((speed + 1).into()));
    }

    #[test]
    fn a_thread_carries_less_than_its_shank(diameter in 1.0..60.0_f64, share in 0.05..0.49_f64) {
        let area = stress_area(diameter, diameter * share).unwrap();
        prop_assert!(area > 0.0 && area < std::f64::consts::FRAC_PI_4 * diameter * diameter);
        prop_assert!(area > stress_area(diameter, diameter * (share + 0.005)).unwrap());
    }

    #[test]
    fn a_torque_tool_is_never_trusted_below_a_fifth(setting in 1..1000_i64, largest in 1..1000_i64) {
        let tolerance = torque_tool_tolerance(setting.into(), largest.into());
        prop_assert_eq!(tolerance.is_some(), setting * 5 >= largest && setting <= largest);
    }

    #[test]
    fn gas_builds_up_to_its_steady_level(time in 0.0..100.0_f64, mixing in 0.05..=1.0_f64) {
        let bay = Bay { volume: 60.0, flow: 300.0, mixing };
        let (now, later) = (level_build_up(1.0, bay, time), level_build_up(1.0, bay, time + 0.1));
        prop_assert!(now >= 0.0 && now <= later && later <= 1.0 / (300.0 * mixing) * (1.0 + 1e-12));
    }

    #[test]
    fn a_closed_bay_is_the_worst_and_the_end_of_less_and_less_air(time in 0.0..10.0_f64, flow in 1e-6..300.0_f64) {
        let at = |flow| level_build_up(0.1, Bay { volume: 60.0, flow, mixing: 0.3 }, time);
        prop_assert!(at(flow) <= at(0.0) * (1.0 + 1e-12));
        prop_assert!((at(1e-9) - at(0.0)).abs() <= 1e-9);
    }

    #[test]
    fn fewer_mornings_prove_less(faults in 1..20_u32, clean in 1..40_u32) {
        // The rate is 100 % each time; that one or two clean mornings prove nothing then is what the counts must tell.
        let by_luck = all_before(faults, faults, clean).unwrap();
        prop_assert!(by_luck >= all_before(faults + 1, faults + 1, clean).unwrap());
        prop_assert!(by_luck > all_before(faults, faults, clean + 1).unwrap());
        let counts = Counts { faults_before: faults, mornings_before: faults, faults_after: 0, mornings_after: clean };
        prop_assert!((by_luck - fewer_after(counts).unwrap()).abs() < 1e-9);
    }

    #[test]
    fn hotter_burns_sooner(hundredths in 4500..6500_i128) {
        let at = |hundredths| scald_time(percent(hundredths)).unwrap();
        prop_assert!(at(hundredths + 1) <= at(hundredths));
    }

    #[test]
    fn more_clean_mornings_prove_more(rate in 1..100_i128, mornings in 0..150_i32) {
        let run = |mornings| clean_run_probability(percent(rate), mornings).unwrap();
        prop_assert!(run(mornings + 1) < run(mornings));
    }

    #[test]
    fn the_rule_of_three_is_never_too_low(mornings in 3..3000_u32) {
        let rule = rule_of_three(i64::from(mornings).into()).unwrap().to_f64();
        prop_assert!(rule >= fault_rate_highest(0, mornings, 0.05).unwrap());
    }

    #[test]
    fn both_ways_is_never_rarer_than_one_way(before in 0..30_u32, after in 0..30_u32, clean in 1..30_u32) {
        let counts = Counts {
            faults_before: before,
            mornings_before: before + clean,
            faults_after: after,
            mornings_after: after + clean,
        };
        let turned = Counts {
            faults_before: after,
            mornings_before: after + clean,
            faults_after: before,
            mornings_after: before + clean,
        };
        let (one, either) = (fewer_after(counts).unwrap(), unlike(counts).unwrap());
        prop_assert!(one > 0.0 && one <= 1.0 && either <= 1.0);
        prop_assert!(either >= one.min(fewer_after(turned).unwrap()) - 1e-9);
        prop_assert!((either - unlike(turned).unwrap()).abs() < 1e-9);
    }

    #[test]
    fn parts_together_are_more_than_the_largest_and_less_than_their_sum(parts in prop::collection::vec(0..1000_i64, 1..8)) {
        let parts: Vec<Num> = parts.into_iter().map(Num::from).collect();
        let together = combined_uncertainty(&parts).unwrap().to_f64();
        let largest = parts.iter().copied().max().unwrap().to_f64();
        let sum: f64 = parts.iter().map(|part| part.to_f64()).sum();
        prop_assert!(together >= largest * (1.0 - 1e-12) && together <= sum * (1.0 + 1e-12));
    }

    #[test]
    fn fewer_readings_need_a_wider_factor(confidence in 0.5..0.999_f64, freedom in 1.0..200.0_f64) {
        let factor = coverage_factor(confidence, freedom).unwrap();
        prop_assert!(factor >= coverage_factor(confidence, freedom + 1.0).unwrap() - 1e-9);
        prop_assert!(factor >= normal_factor(confidence, Sides::Two).unwrap() - 1e-9);
    }

    #[test]
    fn a_reading_on_the_guard_band_is_as_sure_as_it_was_made_for(uncertainty in 0.01..10.0_f64, confidence in 0.5..0.999_f64) {
        let guard = guard_band(uncertainty, confidence).unwrap();
        prop_assert!((probability_below(guard, uncertainty) - confidence).abs() < 1e-9);
        prop_assert!(probability_between(guard, 1e6, uncertainty) <= confidence + 1e-9);
    }

    #[test]
    fn the_rules_never_contradict_each_other(room in -500..500_i64, expanded in 0..300_i64) {
        let by = |rule| decide(room.into(), expanded.into(), rule);
        if by(Rule::Prove) == Decision::Conforms {
            prop_assert_eq!([Rule::GuardBand, Rule::FourWay, Rule::Simple].map(by), [Decision::Pass; 3]);
        }
        if by(Rule::Prove) == Decision::DoesNotConform {
            prop_assert_eq!([Rule::GuardBand, Rule::FourWay, Rule::Simple].map(by), [Decision::Fail; 3]);
        }
        let within = matches!(by(Rule::FourWay), Decision::Pass | Decision::ConditionalPass);
        prop_assert_eq!(within, by(Rule::Simple) == Decision::Pass);
    }
}
