//! Verdicts on their way to the disk, with the limits as they stand.

use std::cmp::Ordering;

use super::amounts::amount;
use super::model::{self, Distance, Judged, Limit};
use crate::procedure::{Bound, Criterion, Name};
use crate::quantity::{self, Side};
use crate::run::{self, Book, Certainty, Judgement};
use crate::trade::measurement::Decision;

pub(super) fn judged(book: &Book, name: &Name, judged: &run::Judged) -> Judged {
    judged_by(book.procedure.criterion(name), judged)
}

/// The same by a criterion that has no name of its own.
pub(super) fn judged_by(criterion: Option<&Criterion>, judged: &run::Judged) -> Judged {
    let (lower, upper) = limits_by(criterion, judged.limits.as_ref());
    Judged {
        verdict: verdict(&judged.judgement).to_owned(),
        words: judged.judgement.to_string(),
        distance: distance(judged.judgement.own()),
        lower,
        upper,
        nominal: match judged.judgement.own() {
            Judgement::Nominal(nominal, _) => Some(amount(nominal)),
            _ => None,
        },
        accepted: match judged.judgement.own() {
            Judgement::Listed(_, accepted) => Some(accepted.clone()),
            _ => None,
        },
        decision_rule: is_a_verdict(&judged.judgement).then(|| judged.rule.words().to_owned()),
        certainty: judged.certainty.as_ref().map(certainty),
    }
}

/// Limits as they stand, each with the formula that gave it.
pub(super) fn limits_by(
    criterion: Option<&Criterion>,
    limits: Option<&quantity::Limits>,
) -> (Option<Limit>, Option<Limit>) {
    let formulas = criterion.map(formulas).unwrap_or_default();
    let limit = |limit: Option<&quantity::Limit>, formula: Option<String>| {
        limit.map(|limit| Limit {
            amount: amount(&limit.quantity),
            inclusive: limit.inclusive,
            formula: formula.unwrap_or_default(),
        })
    };
    (
        limit(limits.and_then(|limits| limits.lower.as_ref()), formulas.lower),
        limit(limits.and_then(|limits| limits.upper.as_ref()), formulas.upper),
    )
}

fn distance(judgement: &Judgement) -> Option<Distance> {
    let Judgement::Limits(verdict, _) = judgement else { return None };
    let distance = verdict.distance.as_ref()?;
    Some(Distance {
        limit: match distance.side {
            Side::Lower => "lower limit",
            Side::Upper => "upper limit",
        }
        .to_owned(),
        side: match distance.place {
            Ordering::Less => "below",
            Ordering::Equal => "on",
            Ordering::Greater => "above",
        }
        .to_owned(),
        amount: model::Amount { shown: distance.shown(), ..amount(&distance.amount) },
    })
}

/// Whether a result fails by what is to be thought of it.
pub(super) fn fails(judgement: &Judgement) -> bool {
    match judgement {
        Judgement::Limits(..)
        | Judgement::Listed(..)
        | Judgement::Named(_)
        | Judgement::Nominal(_, Some(_)) => !judgement.lets_go_on(),
        Judgement::Spoiled(..) => true,
        Judgement::Found(own) => fails(own),
        Judgement::InformationOnly
        | Judgement::Nominal(_, None)
        | Judgement::Unknown(_)
        | Judgement::NotYet(_)
        | Judgement::Beyond(_) => false,
    }
}

/// Whether a verdict in a word says that something is no good, also where that is only likely, or a person said so.
pub(super) fn is_no_good(verdict: &str) -> bool {
    verdict.ends_with("fail") || verdict == "not good"
}

fn is_a_verdict(judgement: &Judgement) -> bool {
    matches!(judgement.own(), Judgement::Limits(..) | Judgement::Listed(..))
}

/// What is to be thought of a result, in a word.
pub(super) fn verdict(judgement: &Judgement) -> &'static str {
    match judgement {
        Judgement::Found(own) => verdict(own),
        Judgement::InformationOnly => "information only",
        Judgement::Nominal(_, Some(opinion)) if opinion.is_good() => "good",
        Judgement::Nominal(_, Some(_)) => "not good",
        Judgement::Nominal(_, None) | Judgement::Unknown(_) | Judgement::NotYet(_) | Judgement::Beyond(_) => {
            "not judged"
        }
        Judgement::Limits(_, Decision::ConditionalPass) => "conditional pass",
        Judgement::Limits(_, Decision::ConditionalFail) => "conditional fail",
        Judgement::Limits(..) | Judgement::Listed(..) | Judgement::Named(_) if judgement.lets_go_on() => {
            "pass"
        }
        Judgement::Limits(..) | Judgement::Listed(..) | Judgement::Named(_) | Judgement::Spoiled(..) => {
            "fail"
        }
    }
}

fn certainty(certainty: &Certainty) -> model::Certainty {
    model::Certainty {
        accuracy: amount(&certainty.accuracy),
        expanded: amount(&certainty.expanded),
        conformity: format!("{:.4}", certainty.conformity),
        words: certainty.to_string(),
    }
}

#[derive(Default)]
struct Formulas {
    lower: Option<String>,
    upper: Option<String>,
}

fn formulas(criterion: &Criterion) -> Formulas {
    let text = |bound: &Option<Bound>| bound.as_ref().map(|bound| bound.formula.text().to_owned());
    match criterion {
        Criterion::Limits { lower, upper } => Formulas { lower: text(lower), upper: text(upper) },
        Criterion::Target { target, within } => Formulas {
            lower: Some(format!("target {} less {}", target.text(), within.text())),
            upper: Some(format!("target {} plus {}", target.text(), within.text())),
        },
        Criterion::Nominal(_) | Criterion::InformationOnly => Formulas::default(),
    }
}
