//! Results against values worked out elsewhere; each row names where.

use bayhand::quantity::parse_literal;

use super::world::{check, evaluate, is_true, result};

/// A formula, the result as printed by the source, and how far the printed digits allow to be off (a ratio).
type Row = (&'static str, &'static str, f64);

fn hold(rows: &[Row]) {
    for (formula, expected, tolerance) in rows {
        let expected = parse_literal(expected).unwrap();
        let given = result(formula).in_unit(&expected.unit).unwrap();
        let (given, expected) = (given.number.to_f64(), expected.number.to_f64());
        assert!(
            (given - expected).abs() <= tolerance * expected.abs(),
            "{formula}: {given}, expected {expected}"
        );
    }
}

#[test]
fn flow_of_a_caught_volume() {
    // Arithmetic on the exact US gallon of 231 in³ (NIST SP 811, B.8); 15, 20 and 30 s are collecting times of
    // published cooler flow tests.
    hold(&[
        ("1 qt / 30 s", "1.8927059 L/min", 1e-7),
        ("1 qt / 30 s", "0.5 gal/min", 0.0),
        ("1 qt / 20 s", "2.8390588 L/min", 1e-7),
        ("1 qt / 15 s", "3.7854118 L/min", 1e-7),
    ]);
}

#[test]
fn heat_carried_by_a_flow() {
    // Q = m·cp·dT with 818.29 kg/m³ and 2000 J/(kg·K), worked by hand: 818.29 W.
    hold(&[("2 L/min * 818.29 kg/m³ * 2000 J/kg / 1 K * 15 K", "818.29 W", 1e-12)]);
}

#[test]
fn laminar_flow_in_a_line() {
    // Çengel and Cimbala, Fluid Mechanics, example on laminar flow in horizontal pipes, from memory:
    // 745 to 97 kPa, 5 cm, 40 m, 0.800 Pa·s gives 0.00311 m³/s. Pi to 16 digits stands for the circle.
    hold(&[(
        "(745 kPa - 97 kPa) * 3.141592653589793 * (5 cm)^4 / (128 * 800 mPa·s * 40 m)",
        "0.00311 m³/s",
        2e-3,
    )]);
}

#[test]
fn exact_factors_of_sp_811() {
    // NIST SP 811, B.8 and the exact definitions behind it: inch, pound, standard gravity, US gallon.
    hold(&[
        ("1 lbf·ft", "1.3558179483314004 N·m", 0.0),
        ("1 lbf·in", "0.1129848290276167 N·m", 0.0),
        ("1 qt", "0.946352946 L", 0.0),
        ("1 bar", "14.503773773020923 psi", 1e-15),
        ("1 lbf / (1 in)^2", "6894.757293168361 Pa", 1e-15),
        ("550 lbf·ft / 1 s", "745.69987158227022 W", 0.0),
        ("1 in * 1 in * 1 in", "16.387064 mL", 0.0),
    ]);
    assert!(is_true("1 in == 25.4 mm"));
    assert!(is_true("1 mi == 1609.344 m"));
    assert!(is_true("1 ft^3/min == 1.69901079552 m³/h"));
}

#[test]
fn temperatures_of_the_workshop() {
    // (F - 32) / 1.8, exact by definition.
    for (fahrenheit, celsius) in
        [("150", "590/9"), ("158", "70"), ("160", "640/9"), ("170", "690/9"), ("176", "80")]
    {
        let difference = format!("{fahrenheit} °F - 0 °C == {celsius} Δ°C");
        assert!(is_true(&difference), "{difference}");
    }
    assert!(is_true("68 °F <= 20 °C and 68 °F >= 20 °C"));
    assert!(is_true("163 °F - 120 °F == 43 Δ°F"));
    assert!(is_true("1 K == 1.8 Δ°F"));
}

#[test]
fn old_fluid_after_partial_changes() {
    // (1 - f)^n. 7 L with 4 L drained: a worked answer gives 42 % and 18 %. 10 L with 4 L: 36 %, about 8 % and about
    // 5 % in an owners' discussion; half each time, three times: 87.5 % is new.
    hold(&[
        ("old_fluid_left(4 L, holds = 7 L)", "42.857142857 %", 1e-9),
        ("old_fluid_left(4 L, holds = 7 L, times = 2)", "18.367347 %", 1e-7),
        ("old_fluid_left(4 L, holds = 7 L, times = 4)", "3.373594 %", 1e-6),
        ("old_fluid_left(4 L, holds = 10 L, times = 2)", "36 %", 0.0),
        ("old_fluid_left(4 L, holds = 10 L, times = 5)", "7.776 %", 0.0),
        ("old_fluid_left(4 L, holds = 10 L, times = 6)", "4.6656 %", 0.0),
        ("old_fluid_left(2 qt, holds = 4 qt, times = 3)", "12.5 %", 0.0),
        ("100 % - old_fluid_left(2.65 qt, holds = 7.6 qt, times = 4)", "82.0 %", 1e-3),
    ]);
}

#[test]
fn wrench_with_an_adapter() {
    hold(&[
        // US Army TM 1-1500-204-23-9, fig. 8-16: 300 in·lb, 10 in, 4 in gives 214 in·lb.
        ("adapter_setting(300 lbf·in, 10 in, adapter = 4 in)", "214 lbf·in", 2e-3),
        // NAVEDTRA 14315, fig. 3-44: 100 in·lb, 12 in, 6 in; the result worked by hand.
        ("adapter_setting(100 lbf·in, 12 in, adapter = 6 in)", "66.6667 lbf·in", 1e-6),
        // A special-tool sheet: 60 N·m, 0.33 m, 0.05 m gives 52.1 N·m.
        ("adapter_setting(60 N·m, 0.33 m, adapter = 0.05 m)", "52.1 N·m", 1e-3),
        // An aircraft manual's standard practices: 135 in·lb, 10 in, 1.5 in gives 117 lengthening, 159 shortening.
        ("adapter_setting(135 lbf·in, 10 in, adapter = 1.5 in)", "117 lbf·in", 5e-3),
        ("adapter_setting(135 lbf·in, 10 in, adapter = 1.5 in, way = 'shorter')", "159 lbf·in", 5e-3),
        // The same: at a right angle nothing changes.
        ("adapter_setting(135 lbf·in, 10 in, adapter = 1.5 in, way = 'right angle')", "135 lbf·in", 0.0),
    ]);
}

#[test]
fn between_two_marks() {
    // numpy 2.4.6: numpy.interp([50, 35, 20], [20, 80], [10, 40]) is [25, 17.5, 10]; numpy.interp(5, [0, 8], [3, -1]) is 0.5.
    hold(&[
        ("interpolated(50 °C, from = 20 °C, to = 80 °C, at_from = 10 mm, at_to = 40 mm)", "25 mm", 0.0),
        ("interpolated(95 °F, from = 20 °C, to = 80 °C, at_from = 10 mm, at_to = 40 mm)", "17.5 mm", 0.0),
        ("interpolated(20 °C, from = 80 °C, to = 20 °C, at_from = 40 mm, at_to = 10 mm)", "10 mm", 0.0),
        ("interpolated(5 L, from = 0 L, to = 8 L, at_from = 3, at_to = -1)", "0.5", 0.0),
        (
            "interpolated(2026-11-08, from = 2026-11-01, to = 2026-11-29, at_from = 0 km, at_to = 800 km)",
            "200 km",
            0.0,
        ),
    ]);
    for (formula, told) in [
        (
            "interpolated(81 °C, from = 20 °C, to = 80 °C, at_from = 10 mm, at_to = 40 mm)",
            "between the two marks",
        ),
        ("interpolated(20 °C, from = 20 °C, to = 20 °C, at_from = 10 mm, at_to = 40 mm)", "another place"),
    ] {
        let refused = evaluate(formula, "").unwrap_err().to_string();
        assert!(refused.contains(told), "{formula}: {refused}");
    }
    let mixed = check("interpolated(50 °C, from = 20 °C, to = 80 °C, at_from = 10 mm, at_to = 40 L)", "");
    assert_eq!(mixed.unwrap_err()[0].message, "`interpolated` needs quantities of one sort");
}

#[test]
fn standard_deviation_of_a_sample() {
    hold(&[
        // NIST StRD, univariate, from memory: NumAcc1 has a certified standard deviation of 1.
        ("standard_deviation(10000001, 10000003, 10000002)", "1", 0.0),
        // numpy 2.4.6, numpy.std(..., ddof=1).
        ("standard_deviation(1.2 s, 1.4 s, 1.3 s, 1.7 s)", "0.21602468994692867 s", 1e-14),
        ("standard_deviation(65 psi, 64 psi, 66.5 psi)", "1.2583057392117916 psi", 1e-14),
        ("standard_deviation(20 °C, 24 °C, 22 °C)", "2 K", 0.0),
    ]);
    assert!(check("standard_deviation(1 L, 2 kg)", "").is_err());
    let alone = evaluate("standard_deviation(x)", "x = 1.2 s | 1.2 s\n").unwrap();
    assert_eq!(alone.value.to_string(), "0 s");
}

/// Over the passes of a repeat as over values that are written out; one pass alone has none.
#[test]
fn standard_deviation_over_passes() {
    let over = evaluate("standard_deviation(x)", "x = 1.2 s | 1.4 s | 1.3 s | 1.7 s\n").unwrap();
    assert_eq!(over.value, evaluate("standard_deviation(1.2 s, 1.4 s, 1.3 s, 1.7 s)", "").unwrap().value);
    let newest = evaluate("standard_deviation(x, last = 2)", "x = 9 s | 1.2 s | 1.4 s\n").unwrap();
    assert_eq!(newest.value, evaluate("standard_deviation(1.2 s, 1.4 s)", "").unwrap().value);
    let alone = evaluate("standard_deviation(x)", "x = 1.2 s\n").unwrap_err().to_string();
    assert!(alone.contains("at least two values are needed"), "{alone}");
}
