//! What is thought of a result, in words.

use super::said::amount;
use crate::print::Block;
use crate::record::model::{Certainty, Judged, Limit};

/// The decision rule that is not said again at each result.
const USUAL_RULE: &str = "simple acceptance";

/// By what results are judged.
pub(super) fn rule() -> Block {
    Block::Words(format!("Judged by {USUAL_RULE} unless another rule is named; uncertainty at k = 2."))
}

/// The verdict first, in a word, whatever the sentence after it begins with.
pub(super) fn words(judged: &Judged) -> String {
    let said = judged.words.starts_with(&judged.verdict) || judged.words.starts_with("as found: ");
    let words = if said { judged.words.clone() } else { format!("{}: {}", judged.verdict, judged.words) };
    match &judged.accepted {
        Some(accepted) if !words.contains(accepted) => format!("{words}; {accepted}"),
        _ => words,
    }
}

/// Whether it is no good, also where that is only likely.
pub(super) fn fails(judged: &Judged) -> bool {
    judged.verdict.ends_with("fail")
}

/// `at least 19 psi (target less 1 psi)`, `below 2 bar`.
pub(super) fn limits(judged: &Judged) -> Vec<String> {
    let lower = judged.lower.as_ref().map(|limit| bound(limit, "at least", "above"));
    let upper = judged.upper.as_ref().map(|limit| bound(limit, "at most", "below"));
    lower.into_iter().chain(upper).collect()
}

/// A limit, with the formula that gave it where that says more.
pub(super) fn bound(limit: &Limit, inclusive: &str, exclusive: &str) -> String {
    let word = if limit.inclusive { inclusive } else { exclusive };
    let shown = amount(&limit.amount);
    if limit.formula == shown {
        format!("{word} {shown}")
    } else {
        format!("{word} {shown} ({})", limit.formula)
    }
}

/// What else there is to say of a verdict: limits, nominal value, rule, what the accuracy means.
pub(super) fn notes(judged: &Judged) -> Vec<String> {
    let nominal = judged.nominal.as_ref().map(|nominal| format!("nominal {}", amount(nominal)));
    let rule = judged.decision_rule.as_ref().filter(|rule| *rule != USUAL_RULE);
    let rule = rule.map(|rule| format!("decision rule: {rule}"));
    let certainty = judged.certainty.as_ref().map(certainty);
    limits(judged).into_iter().chain(nominal).chain(rule).chain(certainty).collect()
}

fn certainty(certainty: &Certainty) -> String {
    // The sentence says the accuracy already, unless it is rounded there.
    let accuracy = amount(&certainty.accuracy).replace('\u{394}', "");
    let accuracy = if certainty.words.contains(&accuracy) {
        String::new()
    } else {
        format!("plus or minus {accuracy}, ")
    };
    let expanded = amount(&certainty.expanded);
    format!(
        "{} ({accuracy}expanded uncertainty {expanded}, probability {})",
        certainty.words, certainty.conformity
    )
}
