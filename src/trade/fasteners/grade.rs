//! What a bolt of a property class must carry, as the standard prints it.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

/// A property class, as marked on the head of the bolt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Class {
    /// 8.8
    Medium,
    /// 10.9
    High,
    /// 12.9
    Highest,
}

/// One thread: diameter and pitch in hundredths of a millimetre, loads in newtons for 8.8, 10.9, 12.9.
struct Thread {
    diameter: i64,
    pitch: i64,
    proof: [i64; 3],
    ultimate: [i64; 3],
}

/// ISO 898-1, coarse threads. The proof loads are not exactly stress area times proof stress: the standard rounds.
const THREADS: &[Thread] = &[
    thread(600, 100, [11_600, 16_700, 19_500], [16_100, 20_900, 24_500]),
    thread(800, 125, [21_200, 30_400, 35_500], [29_200, 38_100, 44_600]),
    thread(1000, 150, [33_700, 48_100, 56_300], [46_400, 60_300, 70_800]),
    thread(1200, 175, [48_900, 70_000, 81_800], [67_400, 87_700, 103_000]),
    thread(1400, 200, [66_700, 95_500, 112_000], [92_000, 120_000, 140_000]),
    thread(1600, 200, [91_000, 130_000, 152_000], [125_000, 163_000, 192_000]),
];

const fn thread(diameter: i64, pitch: i64, proof: [i64; 3], ultimate: [i64; 3]) -> Thread {
    Thread { diameter, pitch, proof, ultimate }
}

const CLASSES: &[&str] = &["8.8", "10.9", "12.9"];
const PARAMETERS: &[Parameter] = &[
    Parameter::amount("diameter", "mm", "the nominal diameter").above("0").at_most("300"),
    Parameter::amount("pitch", "mm", "from one thread to the next").above("0").at_most("50"),
    Parameter::choice("class", CLASSES, "the property class marked on the head"),
];
const ASSUMES: &[&str] = &[
    "the bolt is new, undamaged and of the class marked on it, and not for structural bolting",
    "a load in a table is no permission: the vehicle's service information decides",
];

pub(super) const PROOF_LOAD: Function = Function {
    name: "proof_load",
    summary: "the load that a bolt of a property class must carry without stretching for good",
    parameters: PARAMETERS,
    result: Shape::Amount("N"),
    call: |given| from_table(given, proof_load),
    assumes: ASSUMES,
    source: "ISO 898-1, proof loads for coarse threads",
    example: "proof_load(10 mm, pitch = 1.5 mm, class = '8.8')",
};

pub(super) const ULTIMATE_LOAD: Function = Function {
    name: "ultimate_load",
    summary: "the load below which a bolt of a property class must not break",
    parameters: PARAMETERS,
    result: Shape::Amount("N"),
    call: |given| from_table(given, ultimate_load),
    assumes: ASSUMES,
    source: "ISO 898-1, minimum ultimate tensile loads for coarse threads",
    example: "ultimate_load(10 mm, pitch = 1.5 mm, class = '8.8')",
};

/// The proof load in newtons of a coarse metric thread, from its diameter and pitch in millimetres; as printed in
/// ISO 898-1. `None` for a thread other than M6, M8, M10, M12, M14 and M16.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::fasteners::{Class, proof_load};
///
/// let pitch = Num::parse_decimal("1.5").unwrap();
/// assert_eq!(proof_load(10.into(), pitch, Class::Medium), Some(33_700.into()));
/// ```
pub fn proof_load(diameter: Num, pitch: Num, class: Class) -> Option<Num> {
    row(diameter, pitch).map(|thread| class.of(thread.proof).into())
}

/// The minimum ultimate tensile load in newtons, as [`proof_load`].
pub fn ultimate_load(diameter: Num, pitch: Num, class: Class) -> Option<Num> {
    row(diameter, pitch).map(|thread| class.of(thread.ultimate).into())
}

fn row(diameter: Num, pitch: Num) -> Option<&'static Thread> {
    let hundredths = |length: Num| length * 100.into();
    THREADS.iter().find(|thread| {
        hundredths(diameter) == thread.diameter.into() && hundredths(pitch) == thread.pitch.into()
    })
}

impl Class {
    fn named(name: &str) -> Self {
        match name {
            "8.8" => Self::Medium,
            "10.9" => Self::High,
            _ => Self::Highest,
        }
    }

    fn of(self, loads: [i64; 3]) -> i64 {
        let [medium, high, highest] = loads;
        match self {
            Self::Medium => medium,
            Self::High => high,
            Self::Highest => highest,
        }
    }
}

type Lookup = fn(Num, Num, Class) -> Option<Num>;

fn from_table(given: &Given<'_>, lookup: Lookup) -> Result<Answer, Refusal> {
    let class = Class::named(given.text("class")?);
    lookup(given.number("diameter")?, given.number("pitch")?, class).map(Answer::Number).ok_or_else(|| {
        Refusal::of(
            "diameter",
            "only the coarse threads M6x1, M8x1.25, M10x1.5, M12x1.75, M14x2 and M16x2 are in the table; \
                 read others in ISO 898-1",
        )
    })
}
