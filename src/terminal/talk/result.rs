//! A result: what it is, where it fell, how far from its limits.

use super::words;
use crate::procedure::{Name, StepId};
use crate::quantity::{Entry, Limit, Outcome, Quantity};
use crate::run::{Answered, Certainty, Judged, Judgement, Standing, StepResult, View};
use crate::terminal::{Fell, Gauge, Line, Mark, Role, Text};
use crate::trade::measurement::Decision;

/// Significant digits of a computed result that has no short decimal form.
const FEW_DIGITS: i32 = 3;

pub(super) fn last(words: &str) -> Text {
    Line::new().with(Role::Strong, "Last: ").with(Role::Plain, words).hang(2).into()
}

pub(super) fn number(view: View<'_>, step: StepId) -> String {
    view.book.procedure.step(step).map(|step| format!("step {}", step.number)).unwrap_or_default()
}

/// A reading or a value with its verdict and its gauge.
pub(super) fn result(view: View<'_>, name: &Name) -> Text {
    if view.is_blind(name) {
        return Text::new();
    }
    let judged = view.judge(name);
    judged.map_or_else(Text::new, |judged| {
        let verdict = in_short(&judged);
        line(view, &StepResult { name, shown: words::known(view, name), judged }, verdict)
    })
}

/// The same of a result of a step at one of its occurrences.
pub(super) fn told(view: View<'_>, came: &StepResult<'_>) -> Text {
    line(view, came, verdict(&came.judged))
}

fn line(view: View<'_>, came: &StepResult<'_>, (role, verdict): (Role, String)) -> Text {
    let StepResult { name, judged, .. } = came;
    let said = view.trace(name).zip(judged.shown(FEW_DIGITS));
    let said = said.map(|(trace, shown)| trace.said_as(&shown, &|name| view.book.procedure.spoken(name)));
    let names = said.iter().flat_map(|said| said.names.clone());
    let names: Vec<Line> = names.map(|name| Line::new().with(Role::Faint, name).indent(4).hang(2)).collect();
    let shown = said.map(|said| said.line).or_else(|| came.shown.clone());
    let shown = shown.map(|shown| before(&shown, &verdict)).unwrap_or_default();
    let line = Line::new()
        .with(Role::Strong, format!("{}: ", view.book.procedure.called(name)))
        .with(Role::Plain, shown)
        .with(role, verdict.as_str())
        .hang(2);
    let text = names.into_iter().fold(Text::new().line(line), Text::line);
    gauge_beside(judged, &verdict).into_iter().fold(text, Text::gauge)
}

/// What was reached, with its verdict and its gauge.
pub(super) fn judged_line(what: &str, entry: &Entry, judged: &Judged) -> Text {
    let (role, verdict) = in_short(judged);
    let shown = Answered::Quantity(entry.clone()).shown_beside(judged.limits.as_ref());
    let line = Line::new()
        .with(Role::Strong, format!("{what}: "))
        .with(Role::Plain, before(&shown, &verdict))
        .with(role, verdict.as_str())
        .hang(2);
    gauge_beside(judged, &verdict).into_iter().fold(Text::new().line(line), Text::gauge)
}

/// A value and what stands between it and its verdict.
fn before(shown: &str, verdict: &str) -> String {
    if verdict.is_empty() { shown.to_owned() } else { format!("{shown}: ") }
}

/// The verdict right after its question: that there is no limit, or what is accepted, was said there.
fn in_short(judged: &Judged) -> (Role, String) {
    let (role, said) = verdict(judged);
    let said = match &judged.judgement {
        _ if is_clear_pass(judged).is_some() => PASS.to_owned(),
        Judgement::InformationOnly => String::new(),
        Judgement::Listed(Standing::Pass, _) => "pass".to_owned(),
        _ => said,
    };
    (role, said)
}

/// The whole verdict of a clear pass.
const PASS: &str = "pass";

/// Whether it passes without a doubt, and by how much: drawn, or said in a line of its own.
fn is_clear_pass(judged: &Judged) -> Option<String> {
    let is_clear = judged.certainty.as_ref().is_none_or(Certainty::is_beyond_doubt);
    match &judged.judgement {
        Judgement::Limits(verdict, Decision::Pass) if is_clear => verdict.why(),
        _ => None,
    }
}

fn verdict(judged: &Judged) -> (Role, String) {
    let said = judged.judgement.to_string();
    let passes = judged.judgement.lets_go_on() && judged.judgement.own().lets_go_on();
    let role = match (judged.judgement.own(), passes) {
        (Judgement::InformationOnly | Judgement::Nominal(_, None) | Judgement::NotYet(_), _) => Role::Plain,
        (_, true) => Role::Good,
        (_, false) => Role::Bad,
    };
    let certainty = judged.certainty.as_ref().map(|certainty| format!("; {certainty}")).unwrap_or_default();
    (role, format!("{said}{certainty}"))
}

/// The gauge of a result; where the verdict leaves it to the gauge how far the limit is, that is told where it cannot be
/// drawn.
fn gauge_beside(judged: &Judged, verdict: &str) -> Option<Gauge> {
    let distance = is_clear_pass(judged).filter(|_| verdict == PASS);
    Some(distance.into_iter().fold(gauge(judged)?, Gauge::distance))
}

fn gauge(judged: &Judged) -> Option<Gauge> {
    let (limits, quantity) = (judged.limits.as_ref()?, judged.quantity.as_ref()?);
    let Judgement::Limits(verdict, _) = judged.judgement.own() else {
        return None;
    };
    let fell = match (verdict.outcome == Outcome::Pass, &limits.lower) {
        (true, _) => Fell::Inside,
        (false, Some(lower)) if is_under(quantity, lower) => Fell::Below,
        (false, _) => Fell::Above,
    };
    let shown = quantity.shown_beside(Quantity::DIGITS, Some(limits));
    let gauge = Gauge::new(Mark::new(quantity.base().to_f64(), shown), fell);
    let gauge = limits.lower.iter().fold(gauge, |gauge, limit| gauge.lower(mark(&limit.quantity, quantity)));
    Some(limits.upper.iter().fold(gauge, |gauge, limit| gauge.upper(mark(&limit.quantity, quantity))))
}

fn is_under(quantity: &Quantity, lower: &Limit) -> bool {
    quantity.compare(&lower.quantity).is_ok_and(std::cmp::Ordering::is_le)
}

fn mark(quantity: &Quantity, beside: &Quantity) -> Mark {
    let shown = quantity.in_unit(&beside.unit).unwrap_or_else(|_| quantity.clone());
    Mark::new(quantity.base().to_f64(), shown.to_string())
}

/// Why a person is asked whether something is good.
pub(super) const WHY_NOMINAL: &str = "The source gives a nominal value and no limits: a person has to judge.";

/// Whose word it is.
pub(super) fn is_it_good(view: View<'_>, step: Option<StepId>) -> Line {
    Line::new().with(Role::Strong, format!("{}: is it good?", view.judges(step))).hang(2)
}
