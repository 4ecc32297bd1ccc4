//! Before and after: is it fewer faults, or luck?

use statrs::function::factorial::ln_binomial;

use super::shared::{ALIKE, INDEPENDENT, count, counted};
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

/// Faults and mornings before the repair and after it.
#[derive(Clone, Copy, Debug)]
pub struct Counts {
    /// Mornings with the fault before.
    pub faults_before: u32,
    /// All mornings before.
    pub mornings_before: u32,
    /// Mornings with the fault after.
    pub faults_after: u32,
    /// All mornings after.
    pub mornings_after: u32,
}

pub(super) const BEFORE_AND_AFTER: Function = Function {
    name: "before_and_after",
    summary: "how probable such a difference would be by luck alone, had nothing been fixed",
    parameters: &[
        count("faults_before", "mornings with the fault before the repair"),
        count("mornings_before", "all mornings tried before it").at_least("1"),
        count("faults_after", "mornings with the fault after the repair"),
        count("mornings_after", "all mornings tried after it").at_least("1"),
        Parameter::choice(
            "sides",
            &["fewer", "either way"],
            "only fewer faults count, or a difference either way",
        )
        .or("fewer"),
    ],
    result: Shape::Amount("%"),
    call: row,
    assumes: &[INDEPENDENT, ALIKE],
    source: "Fisher's exact test of a table of two by two",
    example: "before_and_after(faults_before = 5, mornings_before = 10, faults_after = 0, mornings_after = 10)",
};

/// The probability, from 0 to 1, of at most so few faults after, given how many there were in all, had nothing
/// changed. `None` when there are more faults than mornings.
///
/// ```
/// use bayhand::trade::evidence::{Counts, fewer_after};
///
/// let counts = Counts { faults_before: 5, mornings_before: 10, faults_after: 0, mornings_after: 10 };
/// assert!((fewer_after(counts).unwrap() - 0.016_253_87).abs() < 1e-8);
/// ```
pub fn fewer_after(counts: Counts) -> Option<f64> {
    let observed = u64::from(counts.faults_before);
    counts.sum(|before, _| before >= observed)
}

/// The probability, from 0 to 1, that all of `faults` fall on the `mornings` before and none on the `clean` ones after,
/// had nothing changed: [`fewer_after`] with none after. `None` when there are more faults than mornings.
///
/// ```
/// use bayhand::trade::evidence::all_before;
///
/// // The one fault is as likely on the second morning as on the first.
/// assert!((all_before(1, 1, 1).unwrap() - 0.5).abs() < 1e-12);
/// ```
pub fn all_before(faults: u32, mornings: u32, clean: u32) -> Option<f64> {
    let counts =
        Counts { faults_before: faults, mornings_before: mornings, faults_after: 0, mornings_after: clean };
    counts.is_possible().then(|| libm::exp(counts.ln_chance(faults.into())))
}

/// The probability of a division of the faults at most as likely as this one, either way.
pub fn unlike(counts: Counts) -> Option<f64> {
    let observed = counts.ln_chance(u64::from(counts.faults_before));
    // Divisions exactly as likely must count in spite of rounding.
    counts.sum(|_, ln_chance| ln_chance <= observed + 1e-7)
}

impl Counts {
    fn is_possible(self) -> bool {
        self.faults_before <= self.mornings_before && self.faults_after <= self.mornings_after
    }

    fn faults(self) -> u64 {
        u64::from(self.faults_before) + u64::from(self.faults_after)
    }

    /// The logarithm of the probability that so many of all faults fall before the repair.
    fn ln_chance(self, before: u64) -> f64 {
        let (first, second) = (u64::from(self.mornings_before), u64::from(self.mornings_after));
        let all = self.faults();
        ln_binomial(first, before) + ln_binomial(second, all - before) - ln_binomial(first + second, all)
    }

    /// The probabilities of all divisions that count, given how many fall before and the logarithm of its chance.
    fn sum(self, counts: impl Fn(u64, f64) -> bool) -> Option<f64> {
        let all = self.faults();
        let least = all.saturating_sub(self.mornings_after.into());
        let most = all.min(self.mornings_before.into());
        self.is_possible().then(|| {
            (least..=most)
                .map(|before| (before, self.ln_chance(before)))
                .filter(|(before, ln_chance)| counts(*before, *ln_chance))
                .map(|(_, ln_chance)| libm::exp(ln_chance))
                .sum::<f64>()
                .min(1.0)
        })
    }
}

fn row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let counts = Counts {
        faults_before: counted(given, "faults_before")?,
        mornings_before: counted(given, "mornings_before")?,
        faults_after: counted(given, "faults_after")?,
        mornings_after: counted(given, "mornings_after")?,
    };
    let chance = match given.text("sides")? {
        "either way" => unlike(counts),
        _ => fewer_after(counts),
    };
    let chance = chance.ok_or_else(|| Refusal::of_all("there cannot be more faults than mornings"))?;
    Answer::float(chance * 100.0)
}
