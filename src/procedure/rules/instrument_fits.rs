//! The accuracy, the range and the scale of an instrument are of the kind of what is read with it.

use crate::procedure::Tool;
use crate::procedure::check::Draft;
use crate::procedure::written::{WrittenKind, WrittenReading};
use crate::quantity::{Dimension, Quantity, Unit};
use crate::source::{Code, Diagnostic, Spanned};
use crate::trade::measurement::Rule;

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&ACCURACY_UNIT, &RANGE_UNIT, &RULE_WITHOUT_ACCURACY];

/// The accuracy of an instrument in another sort of unit than it reads.
pub static ACCURACY_UNIT: Code = Code {
    name: "accuracy-unit",
    summary: "the accuracy of an instrument is of another kind than what is read with it",
    teaching: "\
An accuracy is an amount of what the instrument reads (`1 psi`), or a share of the reading (`4 %`). Anything else
says nothing about the reading.

Wrong: `accuracy = \"1 °C\"` of the gauge that a reading in psi is taken with

Right: `accuracy = \"1 psi\"`, or `accuracy = \"2 %\"`
",
};

/// The range of an instrument in another sort of unit than it reads.
pub static RANGE_UNIT: Code = Code {
    name: "range-unit",
    summary: "the range or the scale of an instrument is of another kind than what is read with it",
    teaching: "\
The range says from where to where the instrument reads, its `unit` what stands on its scale. Both are of the kind
of what is read with it, in any unit.

Wrong: `range = [\"0 °C\", \"100 °C\"]` of the gauge that a reading in psi is taken with

Right: `range = [\"0 psi\", \"100 psi\"]`
",
};

/// A guard band of unknown width.
pub static RULE_WITHOUT_ACCURACY: Code = Code {
    name: "rule-without-accuracy",
    summary: "a decision rule needs an accuracy that is not given",
    teaching: "\
With a guard band a result passes only when it keeps clear of the limit by as much as the instrument may be wrong.
So the reading names its instrument, and the instrument its accuracy.

Wrong: `decision_rule = \"guard band\"` in a reading without `instrument`

Right: `instrument = \"gauge\"`, and `accuracy = \"1 psi\"` under `[tools.gauge]`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let readings = draft.declarations.readings.iter().filter_map(|entry| entry.thing.as_deref());
    readings.flat_map(|reading| judge(draft, reading)).collect()
}

fn judge(draft: &Draft<'_>, reading: &WrittenReading) -> Vec<Diagnostic> {
    let WrittenKind::Quantity { unit, rule, .. } = &reading.kind else { return Vec::new() };
    let Some(instrument) = &reading.instrument else {
        return (rule.value != Rule::Simple).then(|| baseless(rule)).into_iter().collect();
    };
    let tool = tool(draft, instrument);
    let accuracy = match tool.and_then(|tool| tool.accuracy.as_ref()) {
        Some(accuracy) => misfit(accuracy, unit, instrument),
        None => (rule.value != Rule::Simple).then(|| baseless(rule)),
    };
    let range = tool.and_then(|tool| tool.range.as_ref());
    let range = range.and_then(|(low, _)| out_of_kind(low, unit, instrument));
    let scale =
        tool.and_then(|tool| tool.unit.as_ref()).and_then(|scale| other_scale(scale, unit, instrument));
    accuracy.into_iter().chain(range).chain(scale).collect()
}

fn tool<'d>(draft: &'d Draft<'_>, instrument: &Spanned<String>) -> Option<&'d Tool> {
    draft.declarations.tools.thing(&instrument.value)
}

fn out_of_kind(low: &Quantity, unit: &Spanned<Unit>, instrument: &Spanned<String>) -> Option<Diagnostic> {
    if low.unit.is_of_the_kind_of(&unit.value) {
        return None;
    }
    let headline = format!("the range of `{}` is not of the reading's kind", instrument.value);
    let diagnostic = Diagnostic::error(&RANGE_UNIT, headline)
        .at(instrument.span, format!("it reads from {low}, {}", low.unit.measures()))
        .also(unit.span, format!("this is {}", unit.value.measures()));
    Some(diagnostic.help(format!("give the range in {}, or name another instrument", unit.value.symbol())))
}

fn other_scale(scale: &Unit, unit: &Spanned<Unit>, instrument: &Spanned<String>) -> Option<Diagnostic> {
    if scale.is_of_the_kind_of(&unit.value) {
        return None;
    }
    let headline = format!("the scale of `{}` is not of the reading's kind", instrument.value);
    let diagnostic = Diagnostic::error(&RANGE_UNIT, headline)
        .at(instrument.span, format!("its scale is in {}, {}", scale.symbol(), scale.measures()))
        .also(unit.span, format!("this is {}", unit.value.measures()));
    Some(diagnostic.help("name another instrument, or the unit that is on the scale of this one"))
}

fn misfit(accuracy: &Quantity, unit: &Spanned<Unit>, instrument: &Spanned<String>) -> Option<Diagnostic> {
    let dimension = accuracy.unit.dimension();
    if dimension == unit.value.dimension() || dimension == Dimension::NONE {
        return None;
    }
    let headline = format!("the accuracy of `{}` is not of the reading's kind", instrument.value);
    let diagnostic = Diagnostic::error(&ACCURACY_UNIT, headline)
        .at(instrument.span, format!("it is good to {accuracy}, {}", accuracy.unit.measures()))
        .also(unit.span, format!("this is {}", unit.value.measures()));
    Some(diagnostic.help(format!(
        "give the accuracy in {}, or as a share of the reading such as \"2 %\"",
        unit.value.symbol()
    )))
}

fn baseless(rule: &Spanned<Rule>) -> Diagnostic {
    Diagnostic::error(&RULE_WITHOUT_ACCURACY, "this decision rule needs the accuracy of an instrument")
        .at(rule.span, "a guard band of which width?")
        .help("name the `instrument`, and its `accuracy` under `[tools]`")
}
