//! Every unit of the table against values from outside: `tests/reference/units.py` wrote them.

use bayhand::quantity::{Num, Unit, rows, units};

const REFERENCE: &str = include_str!("../cases/quantity/units.csv");
const TEMPERATURES: &str = include_str!("../cases/quantity/temperatures.csv");

struct Reference {
    unit: &'static str,
    size: &'static str,
    source: &'static str,
}

fn references() -> Vec<Reference> {
    let lines = REFERENCE.lines().skip(1);
    let split = lines.map(|line| {
        let mut fields = line.splitn(3, ',');
        let mut next = || fields.next().expect("three fields a line");
        Reference { unit: next(), size: next(), source: next().trim_matches('"') }
    });
    split.collect()
}

impl Reference {
    /// How far off the reference itself may be: half of its last printed digit, or the noise of `f64`
    /// arithmetic in the library that computed it.
    fn tolerance(&self) -> f64 {
        if !self.source.starts_with("NIST") {
            return self.value().abs() * 2e-15;
        }
        let (mantissa, exponent) = self.size.split_once('E').expect("printed with a power of ten");
        let places = mantissa.split_once('.').map_or(0, |(_, decimals)| decimals.len());
        let last = exponent.parse::<i32>().unwrap() - i32::try_from(places).unwrap();
        0.5 * 10_f64.powi(last) * (1.0 + 1e-9)
    }

    fn value(&self) -> f64 {
        self.size.parse().unwrap()
    }
}

#[test]
fn every_unit_agrees_with_its_references() {
    let mut wrong = Vec::new();
    for reference in references() {
        let unit = Unit::parse(reference.unit).unwrap_or_else(|problem| panic!("{problem}"));
        assert_eq!(unit.symbol(), reference.unit);
        let ours = unit.factor().to_f64();
        if (ours - reference.value()).abs() > reference.tolerance() {
            wrong.push(format!(
                "{}: {ours:e} here, {} by {}",
                reference.unit, reference.size, reference.source
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn exact_definitions_are_met_exactly() {
    let exact: Vec<_> = references().into_iter().filter(|one| one.source.starts_with("exact")).collect();
    assert!(exact.len() >= 10, "the file has the exact definitions");
    for reference in exact {
        let unit = Unit::parse(reference.unit).unwrap();
        assert_eq!(Some(unit.factor()), Num::parse_decimal(reference.size), "{}", reference.unit);
    }
}

#[test]
fn every_unit_has_a_reference() {
    let references = references();
    for row in rows() {
        let found = references.iter().any(|reference| reference.unit == row.symbol);
        assert!(found, "`{}` has no row in units.csv: add it to tests/reference/units.py", row.symbol);
    }
}

#[test]
fn every_row_of_the_table_works_out() {
    let worked: Vec<_> = units().iter().map(|(row, _)| row.symbol).collect();
    let all: Vec<_> = rows().iter().map(|row| row.symbol).collect();
    assert_eq!(worked, all);
}

#[test]
fn every_factor_but_the_radian_is_exact() {
    let approximate = units().iter().filter(|(_, unit)| !unit.factor().is_exact());
    assert_eq!(approximate.map(|(row, _)| row.symbol).collect::<Vec<_>>(), ["rad"]);
}

#[test]
fn every_spelling_leads_to_its_unit_and_to_no_other() {
    let mut seen = std::collections::HashMap::new();
    for (row, unit) in units() {
        for spelling in std::iter::once(&row.symbol).chain(row.aliases) {
            assert_eq!(Unit::parse(spelling).as_ref(), Ok(unit), "`{spelling}`");
            assert_eq!(seen.insert(*spelling, row.symbol), None, "`{spelling}` stands twice");
        }
        assert!(!row.name.is_empty());
    }
}

#[test]
fn scales_agree_with_scipy() {
    for line in TEMPERATURES.lines().skip(1) {
        let [fahrenheit, celsius, kelvin] = line.splitn(3, ',').collect::<Vec<_>>()[..] else {
            panic!("{line}")
        };
        let value = super::q(&format!("{fahrenheit} °F"));
        let ours = value.in_unit(&super::unit("°C")).unwrap().number.to_f64();
        assert!((ours - celsius.parse::<f64>().unwrap()).abs() < 1e-12 * 300.0, "{line}: {ours}");
        assert!((value.base().to_f64() - kelvin.parse::<f64>().unwrap()).abs() < 1e-12 * 500.0, "{line}");
    }
}

#[test]
fn spellings_of_one_unit_are_the_same_unit() {
    let same = [
        ("N·m", "N.m Nm N*m N-m N⋅m nm NM"),
        ("lbf·ft", "ft-lb ft·lbf lb·ft lbf-ft FT-LB ft.lb lb-ft lbft lbf*ft"),
        ("lbf·in", "in-lb in·lbf lb·in IN-LBS"),
        ("mm²/s", "mm2/s mm^2/s mm²/s MM2/S"),
        ("g/cm³", "g/cm3 g/cm^3 g/cc"),
        ("1/min", "min-1 min^-1 min⁻¹ 1/min"),
        ("°C", "C degC ℃ c DEGC"),
        ("mL", "ml ML"),
        ("MPa", "MPa N/mm2"),
        ("mPa·s", "mPa.s mPas"),
        ("L/min", "l/min LPM lpm L/MIN"),
        ("Ω", "ohm Ohm \u{2126}"),
        ("mmH2O", "mmH2O mmh2o"),
        ("in", "inch IN in. \""),
    ];
    for (symbol, spellings) in same {
        for spelling in spellings.split(' ') {
            assert_eq!(
                Unit::parse(spelling).map(|unit| unit.symbol().to_owned()),
                Ok(symbol.to_owned()),
                "{spelling}"
            );
        }
    }
}

#[test]
fn units_make_up_others() {
    let pairs = [
        ("kg·m/s^2", "N"),
        ("kg*m^2/s^3", "W"),
        ("kJ/(kg·K)", "J/(g·K)"),
        ("W/(m²·K)", "J/(s·m²·°C)"),
        ("lbf/in/in", "psi"),
        ("km/h/s", "km/(h·s)"),
        ("1/s", "Hz"),
        ("deg F·h", "h·°F"),
    ];
    for (left, right) in pairs {
        let (left, right) = (super::unit(left), super::unit(right));
        assert_eq!(
            (left.factor(), left.dimension()),
            (right.factor(), right.dimension()),
            "{left:?} {right:?}"
        );
    }
}

#[test]
fn a_rotation_is_not_a_frequency() {
    assert!(!super::unit("rpm").fits(&super::unit("Hz")));
    assert!(super::unit("rpm").fits(&super::unit("°/s")));
}

#[test]
fn an_unknown_unit_says_what_may_have_been_meant() {
    let said = |text: &str| Unit::parse(text).unwrap_err().to_string();
    assert_eq!(said("kliopascal"), "`kliopascal` is no unit known here; did you mean `kilopascal`?");
    assert_eq!(
        said("xyzzy"),
        "`xyzzy` is no unit known here; units are written like `N·m`, `L/min`, `mm²` or `°C`"
    );
    for wrong in
        ["N··m", "/", "m/", "m//s", "(m", "m)", "((m))", "m^0", "m^", "kg·", "·", "²", "1·m/()", "m(s)"]
    {
        assert!(Unit::parse(wrong).is_err(), "{wrong}");
    }
}

/// Each is a unit of its own, or most of one: absolute pressure, another size, another scale. What is proposed in its place
/// would change the meaning.
#[test]
fn a_unit_of_another_meaning_is_never_proposed() {
    for other in [
        "psia",
        "psid",
        "kPaa",
        "bara",
        "mmHga",
        "inHga",
        "psi abs",
        "mpa",
        "MPAa",
        "imp",
        "imp ton",
        "ozt",
        "nmi",
        "poundal",
        "knot",
        "cmHg",
        "gr",
        "grain",
        "dr",
        "st",
        "stone",
        "cwt",
        "rankine",
        "degrees R",
        "deg R",
        "deg K",
        "delta K",
        "nanometre",
        "decapascal",
        "hectolitre",
        "microlitre",
        "centipascal",
        "decagram",
        "microampere",
        "gigawatt",
        "milliwatts hour",
        "kVA",
        "kvar",
        "slug",
        "barye",
        "stokes",
        "poise",
        "therm",
        "month",
        "year",
        "mph²s",
    ] {
        let unknown =
            Unit::parse(other).map(|unit| unit.symbol().to_owned()).map_err(|unknown| unknown.did_you_mean);
        assert!(matches!(unknown, Err(None)), "{other}: {unknown:?}");
    }
}

/// Whatever single slip is made in whatever spelling, nothing but the unit itself is proposed, and often it is.
#[test]
fn a_slip_leads_back_to_its_own_unit_or_nowhere() {
    let (mut led_back, mut slips) = (0, 0);
    for (row, unit) in units() {
        for name in std::iter::once(&row.symbol).chain(row.aliases) {
            // Each fifth of them: every sort of slip still comes at every place of some spelling.
            for slip in slips_of(name).into_iter().skip(name.len() % 5).step_by(5) {
                let Err(unknown) = Unit::parse(&slip) else { continue };
                slips += 1;
                let Some(meant) = unknown.did_you_mean else { continue };
                assert_eq!(&Unit::parse(&meant).unwrap(), unit, "{name} as {slip}: {meant}");
                led_back += 1;
            }
        }
    }
    assert!(led_back * 4 > slips, "{led_back} of {slips}");
}

/// A letter left out, doubled or swapped with the next one.
fn slips_of(name: &str) -> Vec<String> {
    let letters: Vec<char> = name.chars().collect();
    let with = |change: &dyn Fn(&mut Vec<char>)| {
        let mut letters = letters.clone();
        change(&mut letters);
        letters.into_iter().collect::<String>()
    };
    let left_out = (0..letters.len()).map(|at| {
        with(&|letters| {
            letters.remove(at);
        })
    });
    let doubled = (0..letters.len()).map(|at| with(&|letters| letters.insert(at, letters[at])));
    let swapped = (1..letters.len()).map(|at| with(&|letters| letters.swap(at - 1, at)));
    left_out.chain(doubled).chain(swapped).collect()
}

#[test]
fn products_are_named_so_that_they_read_back() {
    let (pound, foot) = (super::unit("lb"), super::unit("ft"));
    assert_eq!(pound.times(&foot).symbol(), "lb¹·ft");
    assert_eq!(super::unit("qt").per(&super::unit("s")).symbol(), "qt/s");
    assert_eq!(super::unit("lbf").times(&foot).symbol(), "lbf·ft");
    assert_eq!(super::unit("km/h").times(&super::unit("h")).symbol(), "km");
    assert_eq!(super::unit("s").powi(-2).symbol(), "1/s²");
    assert_eq!(super::unit("J").per(&super::unit("kg")).per(&super::unit("°C")).symbol(), "J/(kg·°C)");
    assert_eq!(super::unit("Δ°C").times(&super::unit("s")).per(&super::unit("s")).symbol(), "Δ°C");
}
