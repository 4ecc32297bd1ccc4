//! Published numbers that no call of a formula gives: what lies inside of a computation, and mistakes seen in print.

use bayhand::quantity::Num;
use bayhand::trade::converter::k_factor;
use bayhand::trade::fluid::{
    Base, lubricating_oil_expansion, viscosity_index, viscosity_of_z, volume_factor, z_of_viscosity,
};

fn close(given: f64, expected: f64, tolerance: f64) {
    assert!((given - expected).abs() <= tolerance, "{given}, expected {expected}");
}

/// ASTM D341's form for thin oils, from 0.21 mm²/s on; the values worked from it, as both directions were seen printed.
#[test]
fn thin_oils_have_their_own_z() {
    close(z_of_viscosity(1.5), 2.204_619, 1e-6);
    close(viscosity_of_z(z_of_viscosity(1.5)), 1.5, 2e-4);
}

/// The indexes before they are rounded: ASTM D2270 5.1.4 prints 92.43; the others are of the library chemicals 1.5.2,
/// the one above 70 mm²/s also in its test-suite.
#[test]
fn index_before_rounding() {
    close(viscosity_index(73.30, 8.86).unwrap(), 92.4296, 1e-4);
    close(viscosity_index(22.83, 5.05).unwrap(), 156.4235, 1e-4);
    close(viscosity_index(53.47, 7.80).unwrap(), 111.3070, 1e-4);
    close(viscosity_index(73.5, 8.86).unwrap(), 92.033_29, 1e-4);
    close(viscosity_index(34.0, 7.2).unwrap(), 182.9833, 1e-4);
    close(viscosity_index(1000.0, 100.0).unwrap(), 192.997_54, 1e-5);
}

/// The standard prints 156.37 for 22.83 and 5.05 mm²/s, from H rounded to 28.97; both round to 156.
#[test]
fn the_printed_example_of_procedure_b_is_near() {
    close(viscosity_index(22.83, 5.05).unwrap(), 156.37, 0.1);
}

/// ASTM D2270, scope: no index below 2 mm²/s at 100 °C.
#[test]
fn no_index_below_two() {
    assert_eq!(viscosity_index(3.0, 1.5), None);
    assert_eq!(viscosity_index(f64::NAN, 5.0), None);
    assert!(viscosity_index(8.0, 2.0).is_some());
}

/// API MPMS 11.1: 0.6278 belongs to °C and 0.34878 to °F. A public document prints the latter for °C; with it the oil
/// would grow by 5/9 of what it does.
#[test]
fn the_constants_of_the_two_bases_are_not_mixed() {
    for base in [Base::Celsius15, Base::Fahrenheit60] {
        let expansion = lubricating_oil_expansion(850.0, base);
        close(expansion, 0.6278 / 850.0, 1e-8);
        assert!(expansion > 1.7 * 0.348_78 / 850.0);
    }
    close(volume_factor(0.6278 / 850.0, 65.0), 0.951_370, 1e-6);
}

/// Four published pages multiply by the root of the torque; 80 000 for this example. The corrected page says 200.
#[test]
fn the_k_factor_is_a_quotient() {
    let k = k_factor(4000.into(), 400.into()).unwrap();
    assert_eq!(k, Num::from(200));
    assert!(k < Num::from(80_000));
}
