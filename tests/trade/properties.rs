//! What holds for every value: inverse pairs come back, and what grows in nature grows here.

use bayhand::quantity::Num;
use bayhand::trade::converter::{
    Drive, converter_slip, engine_speed, k_factor, road_speed, speed_ratio, stall_speed, torque_absorbed,
};
use bayhand::trade::cooler::{Line, Oil, laminar_flow, laminar_pressure_drop};
use bayhand::trade::fluid::{
    Base, KnownViscosity, Stages, Warming, base_density, drains_needed, level_rise,
    lubricating_oil_expansion, oil_volume_at, old_fluid_left, packs_to_buy, viscosity_at, viscosity_index,
    volume_factor,
};
use bayhand::trade::upkeep::{Job, service_left};
use proptest::prelude::*;

fn near(left: f64, right: f64) -> bool {
    (left - right).abs() <= 1e-9 * left.abs().max(right.abs()).max(1e-9)
}

/// Millilitres and such: exact numbers with three decimals.
fn amount() -> impl Strategy<Value = Num> {
    (0i128..20_000).prop_map(|thousandths| Num::ratio(thousandths, 1000).unwrap())
}

fn positive() -> impl Strategy<Value = Num> {
    (1i128..20_000).prop_map(|thousandths| Num::ratio(thousandths, 1000).unwrap())
}

fn stages() -> impl Strategy<Value = Stages> {
    prop::array::uniform5(amount()).prop_map(|[drained, poured, spilled, prefilled, filled]| Stages {
        drained,
        poured,
        spilled,
        prefilled,
        filled,
    })
}

fn base() -> impl Strategy<Value = Base> {
    prop::sample::select(vec![Base::Celsius15, Base::Fahrenheit60])
}

proptest! {
    #[test]
    fn the_stages_of_a_fill_add_up(stages in stages(), first_fill in amount(), holds in positive()) {
        let (before, after) = (stages.to_add_before_start(first_fill), stages.to_add_after_start(first_fill));
        prop_assert_eq!(before + after, stages.to_add());
        prop_assert!(before >= Num::ZERO && before <= first_fill);
        match stages.now_in(holds) {
            Some(now) => prop_assert_eq!(now + stages.to_add(), holds),
            None => prop_assert!(stages.out() > holds),
        }
    }

    #[test]
    fn packs_cover_and_one_less_does_not(missing in positive(), pack in positive()) {
        let packs = packs_to_buy(missing, pack).unwrap();
        prop_assert!(packs * pack >= missing);
        prop_assert!((packs - Num::ONE) * pack < missing);
    }

    #[test]
    fn drains_are_enough_and_one_less_is_not(drained in 1i64..100, left in 1i128..100) {
        let (drained, holds) = (Num::from(drained), Num::from(100));
        let left = Num::ratio(left, 100).unwrap();
        let Some(times) = drains_needed(drained, holds, left) else {
            prop_assert!(old_fluid_left(drained, holds, 100).unwrap() > left);
            return Ok(());
        };
        prop_assert!(old_fluid_left(drained, holds, times).unwrap() <= left);
        prop_assert!(times == 0 || old_fluid_left(drained, holds, times - 1).unwrap() > left);
    }

    #[test]
    fn a_density_goes_to_its_base_and_back(density in 801.0..1163.0, celsius in -50.0..150.0, base in base()) {
        let above = celsius - base.celsius();
        let there = density * volume_factor(lubricating_oil_expansion(density, base), above);
        let back = base_density(there, celsius, base);
        prop_assert!(back.is_some_and(|back| near(back, density)), "{:?} is not {}", back, density);
    }

    #[test]
    fn oil_grows_with_heat_and_shrinks_back(
        volume in 0.1..20.0, density in 801.0..1163.0, from in -50.0..150.0, warmer in 0.1..50.0,
    ) {
        let there = Warming { from, to: from + warmer, density };
        let back = Warming { from: there.to, to: from, density };
        prop_assert!(level_rise(volume, there) > 0.0);
        prop_assert!(near(oil_volume_at(oil_volume_at(volume, there), back), volume));
    }

    #[test]
    fn oil_thins_with_heat(at_40 in 10.0..500.0, share in 0.1..0.5, celsius in -40.0..140.0, warmer in 0.1..20.0) {
        let cooler = KnownViscosity { celsius: 40.0, viscosity: at_40 };
        let hotter = KnownViscosity { celsius: 100.0, viscosity: at_40 * share };
        let at = |celsius| viscosity_at(celsius, cooler, hotter);
        if let (Some(cold), Some(hot)) = (at(celsius), at(celsius + warmer)) {
            prop_assert!(hot < cold);
        }
        prop_assert!(at(40.0).is_some_and(|back| (back / at_40 - 1.0).abs() < 1e-3));
    }

    #[test]
    fn an_oil_that_thins_less_has_the_higher_index(at_100 in 2.0..120.0, share in 2.5..20.0, thicker in 1.01..1.5) {
        let at_40 = at_100 * share;
        let (better, worse) = (viscosity_index(at_40, at_100), viscosity_index(at_40 * thicker, at_100));
        prop_assert!(better > worse);
    }

    #[test]
    fn pressure_and_flow_of_a_line_come_back(
        flow in 1e-6..1e-4, bore in 0.004..0.02, length in 0.1..10.0, viscosity in 1e-6..1e-3, density in 700.0..1200.0,
    ) {
        let (line, oil) = (Line { bore, length }, Oil { viscosity, density });
        if let Some(drop) = laminar_pressure_drop(flow, line, oil) {
            // Within the last digits the way back may be just over the laminar limit.
            prop_assert!(laminar_flow(drop * 0.999, line, oil).is_some_and(|back| near(back / 0.999, flow)));
            let narrower = Line { bore: bore / 2.0, length };
            if let Some(more) = laminar_pressure_drop(flow, narrower, oil) {
                prop_assert!(near(more, 16.0 * drop));
            }
        }
    }

    #[test]
    fn speeds_on_the_road_come_back(
        engine in positive(), axle in positive(), gear in positive(), tyre in positive(), slip in 0i128..100,
    ) {
        let drive = Drive { axle, gear, tyre, slip: Num::ratio(slip, 100).unwrap() };
        let speed = road_speed(engine, drive).unwrap();
        prop_assert!(near(engine_speed(speed, drive).unwrap().to_f64(), engine.to_f64()));
        let locked = Drive { slip: Num::ZERO, ..drive };
        prop_assert!(road_speed(engine, locked).unwrap() >= speed);
    }

    #[test]
    fn a_k_factor_gives_its_speed_and_torque_back(speed in positive(), torque in positive(), more in positive()) {
        let k = k_factor(speed, torque).unwrap();
        prop_assert!(near(stall_speed(k, torque).unwrap().to_f64(), speed.to_f64()));
        prop_assert!(near(torque_absorbed(k, speed).unwrap().to_f64(), torque.to_f64()));
        prop_assert!(stall_speed(k, torque + more).unwrap() > stall_speed(k, torque).unwrap());
    }

    #[test]
    fn slip_and_speed_ratio_make_one(engine in positive(), turbine in amount()) {
        let (ratio, slip) = (speed_ratio(engine, turbine).unwrap(), converter_slip(engine, turbine).unwrap());
        prop_assert_eq!(ratio + slip, Num::ONE);
    }

    #[test]
    fn money_stays_exact(work in amount(), rate in amount(), parts in amount(), materials in amount(), tax in 0i128..100) {
        let job = Job { work, rate, parts, materials, tax: Num::ratio(tax, 100).unwrap() };
        let without = Job { tax: Num::ZERO, ..job };
        prop_assert!(job.cost().is_exact());
        prop_assert_eq!(job.cost() - without.cost(), without.cost() * job.tax);
    }

    #[test]
    fn what_is_driven_comes_off_the_way_to_the_service(last in amount(), driven in amount(), interval in positive()) {
        prop_assert_eq!(service_left(last + driven, last, interval), Some(interval - driven));
    }
}
