//! How much torque a bolt bears: force times arm against what twists it off.

use std::f64::consts::PI;

use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

/// Newtons on a square millimetre in one thousand pounds-force on a square inch.
const KSI: f64 = 6.894_757_293_168_361;
const INCH: f64 = 25.4;
/// A bolt bears less in shear than in tension: by the hypothesis of von Mises 1/√3 where it begins to yield.
const SHEAR_AT_YIELD: f64 = 0.577_350_269_189_625_8;

/// What a bolt is made of: tensile strength and yield point in N/mm², and the share of the strength that it bears in
/// torsion until it breaks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    /// The least tensile strength.
    pub tensile: f64,
    /// The least yield point, or 0.2 % proof stress.
    pub yields: f64,
    /// The torsional strength over the tensile strength.
    pub torsion: f64,
}

/// What a torque does to a bolt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// It is twisted for good.
    Yields,
    /// It is twisted off.
    Breaks,
}

const ENDS: &[&str] = &["breaks", "yields"];
const AT: Parameter =
    Parameter::choice("at", ENDS, "whether it is twisted off, or twisted for good").or("breaks");
const ASSUMES: &[&str] = &[
    "a new bolt at the small end of its thread's tolerance, held fast at one end; rust, a notch or a bend takes less",
    "this is where it fails, never a torque to tighten to: the vehicle's service information decides",
];

pub(super) const LEVER_TORQUE: Function = Function {
    name: "lever_torque",
    summary: "the torque of a force on an arm: what a bar does to a seized fastener",
    parameters: &[
        Parameter::amount("force", "N", "the force at the end of the arm").at_least("0"),
        Parameter::amount("arm", "mm", "from the fastener to where the force acts")
            .at_least("0")
            .at_most("5000"),
    ],
    result: Shape::Amount("N·m"),
    call: |given| Ok(Answer::Number(lever_torque(given.number("force")?, given.number("arm")?))),
    assumes: &["the force acts square to the arm"],
    source: "force times arm",
    example: "lever_torque(300 N, arm = 600 mm)",
};

pub(super) const TWIST_TORQUE: Function = Function {
    name: "bolt_twist_torque",
    summary: "the torque that twists a metric bolt off, coarse or fine, or twists it for good",
    parameters: &[
        Parameter::amount("diameter", "mm", "the nominal diameter").at_least("3").at_most("39"),
        Parameter::amount("pitch", "mm", "from one thread to the next").above("0").at_most("6"),
        Parameter::choice(
            "class",
            &["5.8", "8.8", "9.8", "10.9", "12.9"],
            "the property class marked on the head",
        ),
        AT,
    ],
    result: Shape::Amount("N·m"),
    call: metric_row,
    assumes: ASSUMES,
    source: "ISO 898-7: torsional strength times π/16·d3³ of the thinnest thread (ISO 965-1, 6g); strengths of ISO 898-1",
    example: "bolt_twist_torque(10 mm, pitch = 1.25 mm, class = '8.8')",
};

pub(super) const TWIST_TORQUE_INCH: Function = Function {
    name: "bolt_twist_torque_inch",
    summary: "the torque that twists an inch bolt off, coarse or fine, or twists it for good",
    parameters: &[
        Parameter::amount("diameter", "in", "the nominal diameter").at_least("0.25").at_most("1.5"),
        Parameter::number("threads", "threads in one inch").at_least("4").at_most("80"),
        Parameter::choice(
            "grade",
            &["2", "5", "8"],
            "the grade, by the marks on the head: none, three or six lines",
        ),
        AT,
    ],
    result: Shape::Amount("N·m"),
    call: inch_row,
    assumes: ASSUMES,
    source: "strengths of SAE J429; torsion as in ISO 898-7, the profile being the same",
    example: "bolt_twist_torque_inch(3/8 in, threads = 24, grade = '5')",
};

/// The torque in newton metres of a force in newtons on an arm in millimetres; exact.
///
/// ```
/// use bayhand::trade::fasteners::lever_torque;
///
/// assert_eq!(lever_torque(300.into(), 600.into()), 180.into());
/// ```
pub fn lever_torque(force: Num, arm: Num) -> Num {
    force * arm * Num::ratio(1, 1000).unwrap_or(Num::ZERO)
}

/// The torque in newton metres at which a bolt fails in torsion, from the diameter and the pitch of its thread in
/// millimetres. `None` when the pitch is too coarse for the diameter.
///
/// ```
/// use bayhand::trade::fasteners::{End, Strength, twist_torque};
///
/// let class_8_8 = Strength { tensile: 800.0, yields: 640.0, torsion: 0.84 };
/// assert!((twist_torque(8.0, 1.25, class_8_8, End::Breaks).unwrap() - 33.0).abs() < 1.0);
/// ```
pub fn twist_torque(diameter: f64, pitch: f64, strength: Strength, end: End) -> Option<f64> {
    let sound = pitch > 0.0 && pitch < diameter / 2.0;
    let root = least_root(diameter, pitch);
    let stress = match end {
        End::Breaks => strength.tensile * strength.torsion,
        End::Yields => strength.yields * SHEAR_AT_YIELD,
    };
    sound.then_some(PI / 16.0 * root * root * root * stress / 1000.0)
}

/// The root of the thread at the small end of its tolerance, 6g of ISO 965-1: below the nominal root by the allowance
/// and by the tolerance of the pitch diameter.
fn least_root(diameter: f64, pitch: f64) -> f64 {
    let allowance = 0.015 + 0.011 * pitch;
    let tolerance = 0.09 * libm::pow(pitch, 0.4) * libm::pow(diameter, 0.1);
    diameter - 1.226_869 * pitch - allowance - tolerance
}

/// ISO 898-1, tables of mechanical properties; of 8.8 above M16 somewhat more. Torsion by ISO 898-7; of 5.8, which it
/// leaves out, that of 8.8.
fn of_class(class: &str, diameter: f64) -> Strength {
    let (tensile, yields, torsion) = match class {
        "5.8" => (520.0, 420.0, 0.84),
        "8.8" if diameter > 16.0 => (830.0, 660.0, 0.84),
        "8.8" => (800.0, 640.0, 0.84),
        "9.8" => (900.0, 720.0, 0.815),
        "10.9" => (1040.0, 940.0, 0.79),
        _ => (1220.0, 1100.0, 0.75),
    };
    Strength { tensile, yields, torsion }
}

/// SAE J429, in thousand pounds-force on a square inch; thicker bolts of grades 2 and 5 are weaker.
fn of_grade(grade: &str, diameter: f64) -> Strength {
    let (tensile, yields, torsion) = match grade {
        "2" if diameter > 0.75 => (60.0, 36.0, 0.84),
        "2" => (74.0, 57.0, 0.84),
        "5" if diameter > 1.0 => (105.0, 81.0, 0.84),
        "5" => (120.0, 92.0, 0.84),
        _ => (150.0, 130.0, 0.79),
    };
    Strength { tensile: tensile * KSI, yields: yields * KSI, torsion }
}

fn end(given: &Given<'_>) -> Result<End, Refusal> {
    Ok(if given.text("at")? == "yields" { End::Yields } else { End::Breaks })
}

fn metric_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let diameter = given.float("diameter")?;
    let strength = of_class(given.text("class")?, diameter);
    twist_torque(diameter, given.float("pitch")?, strength, end(given)?)
        .ok_or_else(|| Refusal::of("pitch", "must be less than half of the diameter"))
        .and_then(Answer::float)
}

fn inch_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let diameter = given.float("diameter")?;
    let strength = of_grade(given.text("grade")?, diameter);
    twist_torque(diameter * INCH, INCH / given.float("threads")?, strength, end(given)?)
        .ok_or_else(|| {
            Refusal::of("threads", "one inch divided by the threads must be less than half of the diameter")
        })
        .and_then(Answer::float)
}
