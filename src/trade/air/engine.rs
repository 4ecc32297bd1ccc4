//! The carbon monoxide that a running engine gives off.

use super::shared::METER;
use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

pub(super) const GIVEN_OFF: Function = Function {
    name: "carbon_monoxide_given_off",
    summary: "the carbon monoxide that a running engine gives off",
    parameters: &[
        Parameter::amount("displacement", "L", "of all cylinders together").above("0").at_most("100"),
        Parameter::amount("speed", "rpm", "the speed at which it runs").at_least("0").at_most("20000"),
        FILLING,
        Parameter::amount("share", "%", "carbon monoxide in the exhaust, by an analyser")
            .at_least("0")
            .at_most("15"),
    ],
    result: Shape::Amount("m³/h"),
    call: row,
    assumes: &[
        "a four-stroke engine; the exhaust, cooled down, takes up as much room as the air that went in",
        "run engines outside or with the exhaust led out: the gas kills without a warning",
        METER,
    ],
    source: "displacement in every second turn, times filling, times share",
    example: "carbon_monoxide_given_off(2 L, speed = 800 rpm, filling = 30 %, share = 3 %)",
};

/// Without a default on purpose: an engine fills little at idle and nearly whole at full throttle.
const FILLING: Parameter = Parameter::amount(
    "filling",
    "%",
    "how full its cylinders get: commonly 25 % to 40 % at idle, near 100 % at full throttle",
)
.above("0")
.at_most("300");

/// An engine that runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Running {
    /// The displacement of all cylinders, in litres.
    pub displacement: Num,
    /// In rpm.
    pub speed: Num,
    /// How full the cylinders get, as a ratio.
    pub filling: Num,
    /// Carbon monoxide in the exhaust, as a ratio.
    pub share: Num,
}

impl Running {
    /// The carbon monoxide it gives off, in m³/h; exact.
    ///
    /// ```
    /// use bayhand::quantity::Num;
    /// use bayhand::trade::air::Running;
    ///
    /// let percent = |share| Num::ratio(share, 100).unwrap();
    /// let engine = Running { displacement: 2.into(), speed: 800.into(), filling: percent(30), share: percent(3) };
    /// assert_eq!(engine.carbon_monoxide(), Num::ratio(432, 1000).unwrap());
    /// ```
    pub fn carbon_monoxide(self) -> Num {
        // Each cylinder fills in every second turn; from L/min to m³/h.
        let exhaust =
            self.displacement * self.speed * self.filling * Num::ratio(60, 2000).unwrap_or(Num::ZERO);
        exhaust * self.share
    }
}

fn row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let ratio = |name| Ok::<_, Refusal>(given.number(name)? * Num::ratio(1, 100).unwrap_or(Num::ZERO));
    let engine = Running {
        displacement: given.number("displacement")?,
        speed: given.number("speed")?,
        filling: ratio("filling")?,
        share: ratio("share")?,
    };
    Ok(Answer::Number(engine.carbon_monoxide()))
}
