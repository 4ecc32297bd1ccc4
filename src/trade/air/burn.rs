//! How fast hot fluid burns.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Parameter, Refusal, Shape};

/// Hundredths of a degree Celsius (whole degrees Fahrenheit rounded up), and tenths of a second until hot water burns:
/// of all published lists the shortest time at each temperature. The lists disagree at 140 °F (3 to 6 s) and 120 °F
/// (5 to 10 min).
const SHORTEST: &[(i64, i64)] = &[
    (4500, 3 * 36_000),
    (4700, 45 * 600),
    (4800, 20 * 600),
    (4889, 5 * 600),
    (5100, 2 * 600),
    (5445, 300),
    (5500, 170),
    (5723, 100),
    (6000, 30),
    (6556, 15),
];

pub(super) const SCALD: Function = Function {
    name: "scald_time",
    summary: "the shortest published time in which water of a temperature burns skin",
    parameters: &[Parameter::temperature("temperature", "°C", "how hot it is")],
    result: Shape::Amount("s"),
    call: |given| {
        let temperature = given.number("temperature")?;
        scald_time(temperature).map(Answer::Number).ok_or_else(|| {
            Refusal::of(
                "temperature",
                "times are published from 45 °C to 65.56 °C; hotter fluid burns in less than 1.5 s, \
                 so keep skin and eyes away from it",
            )
        })
    },
    assumes: &[
        "the times are for water; none were found for oil, which clings and cools more slowly",
        "between two temperatures of the table the hotter one counts",
    ],
    source: "published tables of scald times for hot water; the shortest of those that disagree",
    example: "scald_time(60 °C)",
};

/// The shortest published time in seconds until water of a temperature in °C burns skin. `None` below 45 °C and above
/// 65.56 °C, where no time is published.
///
/// ```
/// use bayhand::trade::air::scald_time;
///
/// assert_eq!(scald_time(60.into()), Some(3.into()));
/// ```
pub fn scald_time(temperature: Num) -> Option<Num> {
    let hundredths = temperature * 100.into();
    let (coolest, _) = SHORTEST.first()?;
    if hundredths < (*coolest).into() {
        return None;
    }
    let (_, tenths) = SHORTEST.iter().find(|(degrees, _)| hundredths <= (*degrees).into())?;
    Num::ratio(i128::from(*tenths), 10)
}
