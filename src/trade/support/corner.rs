//! What one of four stands or lift arms carries.

use super::shared::{CENTRE, LEVEL, NO_VERDICT, SPAN, WEIGHT, along, vehicle};
use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

/// One of the four stands or lift arms.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stand {
    /// In front, on the left.
    FrontLeft,
    /// In front, on the right.
    FrontRight,
    /// Behind, on the left.
    RearLeft,
    /// Behind, on the right.
    RearRight,
}

/// Where the centre of gravity lies between four supports, each way from 0 to 1.
#[derive(Clone, Copy, Debug)]
pub struct Place {
    /// From the front supports back, as a share of the way to the rear ones.
    pub back: Num,
    /// From the left supports to the right, as a share of the way to the right ones.
    pub across: Num,
}

const PARAMETERS: &[Parameter] = &[
    WEIGHT,
    CENTRE,
    SPAN,
    along("aside", "from the left supports across to the centre of gravity"),
    Parameter::amount("width", "mm", "from the left supports across to the right ones")
        .at_least("100")
        .at_most("10000"),
    Parameter::choice(
        "stand",
        &["front left", "front right", "rear left", "rear right"],
        "which of the four",
    ),
];
const RECTANGLE: &str = "the four supports stand in a rectangle";

pub(super) const LOAD: Function = Function {
    name: "stand_load",
    summary: "the load on one of four stands or lift arms when all four carry evenly",
    parameters: PARAMETERS,
    result: Shape::Same,
    call: |given| row(given, stand_load),
    assumes: &[
        LEVEL,
        RECTANGLE,
        "all four supports are equally high; stand_load_at_worst says what one may get when they are not",
        NO_VERDICT,
    ],
    source: "balance of moments, lengthwise and across",
    example: "stand_load(1500 kg, centre = 1.2 m, span = 2.7 m, aside = 0.7 m, width = 1.4 m, stand = 'rear left')",
};

pub(super) const LOAD_AT_WORST: Function = Function {
    name: "stand_load_at_worst",
    summary: "the most that one of four stands can get when the supports are not quite equally high",
    parameters: PARAMETERS,
    result: Shape::Same,
    call: |given| row(given, stand_load_at_worst),
    assumes: &[
        LEVEL,
        RECTANGLE,
        "the frame is stiff, and one of the other supports carries nothing",
        NO_VERDICT,
    ],
    source: "balance of moments: a stiff body on four supports rests on three when one is low",
    example: "stand_load_at_worst(1500 kg, centre = 1.2 m, span = 2.7 m, aside = 0.7 m, width = 1.4 m, stand = 'rear left')",
};

/// The load on one of four supports in a rectangle that carry evenly, in the unit of `weight`. `None` when the centre
/// of gravity lies outside of the rectangle.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::support::{Place, Stand, stand_load};
///
/// let half = Num::ratio(1, 2).unwrap();
/// let place = Place { back: half, across: half };
/// assert_eq!(stand_load(1600.into(), place, Stand::FrontLeft), Some(400.into()));
/// ```
pub fn stand_load(weight: Num, place: Place, stand: Stand) -> Option<Num> {
    place.is_inside().then(|| weight * place.share(stand))
}

/// The most that one of four supports can get: the load when the stiff body rests on it, on the one diagonally
/// opposite and on one of the others only.
pub fn stand_load_at_worst(weight: Num, place: Place, stand: Stand) -> Option<Num> {
    let [one, other] = stand.neighbours();
    let taken_over = place.share(one).min(place.share(other));
    Some(stand_load(weight, place, stand)? + weight * taken_over)
}

impl Place {
    fn is_inside(self) -> bool {
        [self.back, self.across].iter().all(|share| (Num::ZERO..=Num::ONE).contains(share))
    }

    fn share(self, stand: Stand) -> Num {
        let (front, left) = (Num::ONE - self.back, Num::ONE - self.across);
        match stand {
            Stand::FrontLeft => front * left,
            Stand::FrontRight => front * self.across,
            Stand::RearLeft => self.back * left,
            Stand::RearRight => self.back * self.across,
        }
    }
}

impl Stand {
    /// The two that do not stand diagonally opposite.
    const fn neighbours(self) -> [Self; 2] {
        match self {
            Self::FrontLeft | Self::RearRight => [Self::FrontRight, Self::RearLeft],
            Self::FrontRight | Self::RearLeft => [Self::FrontLeft, Self::RearRight],
        }
    }

    fn named(name: &str) -> Self {
        match name {
            "front left" => Self::FrontLeft,
            "front right" => Self::FrontRight,
            "rear left" => Self::RearLeft,
            _ => Self::RearRight,
        }
    }
}

type Load = fn(Num, Place, Stand) -> Option<Num>;

fn row(given: &Given<'_>, load: Load) -> Result<Answer, Refusal> {
    let share = |part, whole| -> Result<Num, Refusal> {
        given
            .number(part)?
            .checked_div(given.number(whole)?)
            .ok_or_else(|| Refusal::of(whole, "must be at least 100 mm"))
    };
    let place = Place { back: share("centre", "span")?, across: share("aside", "width")? };
    load(vehicle(given)?, place, Stand::named(given.text("stand")?)).map(Answer::Number).ok_or_else(|| {
        Refusal::of_all("the centre of gravity must lie between the supports: beyond them the vehicle tips")
    })
}
