//! The SAE grade to which a viscosity belongs.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Parameter, Refusal, Shape};

/// A grade: its name, from which viscosity at 100 °C in mm²/s, and below which; the last may have no end.
type Grade = (&'static str, &'static str, Option<&'static str>);

/// SAE J300, January 2015. The thin grades overlap: there the viscosity at high shear decides.
const ENGINE: &[Grade] = &[
    ("8", "4.0", Some("6.1")),
    ("12", "5.0", Some("7.1")),
    ("16", "6.1", Some("8.2")),
    ("20", "6.9", Some("9.3")),
    ("30", "9.3", Some("12.5")),
    ("40", "12.5", Some("16.3")),
    ("50", "16.3", Some("21.9")),
    ("60", "21.9", Some("26.1")),
];

/// SAE J306, February 2019.
const GEAR: &[Grade] = &[
    ("65", "3.8", Some("5.0")),
    ("70", "5.0", Some("6.5")),
    ("75", "6.5", Some("8.5")),
    ("80", "8.5", Some("11.0")),
    ("85", "11.0", Some("13.5")),
    ("90", "13.5", Some("18.5")),
    ("110", "18.5", Some("24.0")),
    ("140", "24.0", Some("32.5")),
    ("190", "32.5", Some("41.0")),
    ("250", "41.0", None),
];

const VISCOSITY: Parameter = Parameter::amount("viscosity", "mm²/s", "the kinematic viscosity at 100 °C");

pub(super) const ENGINE_OIL_GRADE: Function = Function {
    name: "engine_oil_grade",
    summary: "the SAE engine oil grade of a viscosity at 100 °C",
    parameters: &[VISCOSITY.at_least("4.0").below("26.1")],
    result: Shape::Text,
    call: |given| answer(engine_oil_grade(given.number("viscosity")?)),
    assumes: &[
        "the edition of January 2015; the winter grade needs a cold test, and the high-shear limit its own",
    ],
    source: "SAE J300, January 2015",
    example: "engine_oil_grade(13.6 mm²/s)",
};

pub(super) const GEAR_OIL_GRADE: Function = Function {
    name: "gear_oil_grade",
    summary: "the SAE gear oil grade of a viscosity at 100 °C",
    parameters: &[VISCOSITY.at_least("3.8")],
    result: Shape::Text,
    call: |given| answer(gear_oil_grade(given.number("viscosity")?)),
    assumes: &["the edition of February 2019; the winter grade needs a cold test"],
    source: "SAE J306, February 2019",
    example: "gear_oil_grade(15 mm²/s)",
};

/// The grade or grades of SAE J300 for a viscosity at 100 °C in mm²/s: "40", "12 or 16" where they overlap. `None`
/// outside of 4.0 to below 26.1.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::fluid::engine_oil_grade;
///
/// assert_eq!(engine_oil_grade(Num::from(14)).as_deref(), Some("40"));
/// ```
pub fn engine_oil_grade(viscosity: Num) -> Option<String> {
    grades(ENGINE, viscosity)
}

/// The grade of SAE J306 for a viscosity at 100 °C in mm²/s. `None` below 3.8.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::fluid::gear_oil_grade;
///
/// assert_eq!(gear_oil_grade(Num::from(24)).as_deref(), Some("140"));
/// ```
pub fn gear_oil_grade(viscosity: Num) -> Option<String> {
    grades(GEAR, viscosity)
}

fn grades(grades: &[Grade], viscosity: Num) -> Option<String> {
    let fits = |(_, from, below): &&Grade| {
        let at_least = Num::parse_decimal(from).is_some_and(|from| viscosity >= from);
        let less = below.is_none_or(|below| Num::parse_decimal(below).is_some_and(|below| viscosity < below));
        at_least && less
    };
    let names: Vec<&str> = grades.iter().filter(fits).map(|(name, ..)| *name).collect();
    (!names.is_empty()).then(|| names.join(" or "))
}

fn answer(grade: Option<String>) -> Result<Answer, Refusal> {
    grade.map(Answer::Text).ok_or_else(|| Refusal::of("viscosity", "no grade has this viscosity"))
}
