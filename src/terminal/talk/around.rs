//! What stands around a step when a procedure is shown: how often, on which condition, with whom.

use super::criteria;
use super::paper::Paper;
use crate::procedure::{Name, Passes, Step, Typing};
use crate::terminal::{Line, Text};

/// How often a step or a section is done: ` (repeated until spread(room) <= 1 K, at most 12 passes)`.
pub(super) fn repeated(paper: Paper<'_>, repeat: Option<&Name>) -> String {
    let procedure = paper.procedure;
    let Some(repeat) = repeat.and_then(|repeat| procedure.repeat(repeat)) else {
        return String::new();
    };
    let how_often = match &repeat.passes {
        Passes::Each(items) => format!("for each of: {}", items.join(", ")),
        Passes::EachOf(list) => format!("for each of: {}", procedure.called(list)),
        Passes::Times(times) => format!("{} times", paper.formula(times)),
        Passes::Until(until) => format!("until {}", paper.formula(until)),
    };
    let most = repeat.at_most.as_ref().map(|most| format!(", at most {} passes", paper.formula(most)));
    let every = repeat.every.as_ref().map(|every| format!(", every {every}"));
    let late = repeat.late.as_ref().map(|late| format!(", late after {late}"));
    let resets =
        repeat.resets.as_ref().map(|resets| format!(", counted anew after: {}", paper.formula(resets)));
    let more: String = [most, every, late, resets].into_iter().flatten().collect();
    format!(" (repeated {how_often}{more})")
}

/// The conditions that a step or a section depends on: ` (only if look == "milky")`.
pub(super) fn only_if(paper: Paper<'_>, names: &[Name]) -> String {
    let conditions = names.iter().filter_map(|name| paper.procedure.condition(name));
    let formulas: Vec<String> = conditions.map(|condition| paper.condition(condition)).collect();
    if formulas.is_empty() { String::new() } else { format!(" (only if {})", formulas.join(" and ")) }
}

/// What a step carries besides its text: what cannot be undone, who else looks at it, what holds from it on, whether the
/// job can be left after it.
pub(super) fn beside(paper: Paper<'_>, step: &Step) -> Text {
    let procedure = paper.procedure;
    let witness = |name: &Name| {
        let witness = procedure.witness(name)?;
        Some(format!("Witness point, the {} is called: {}", witness.by, witness.what))
    };
    let check = |name: &Name| {
        let check = procedure.check(name)?;
        Some(format!("Then verified by the {}: {}", check.by, check.what))
    };
    let act = |name: &Name| {
        let act = procedure.critical_act(name)?;
        let typed = match &act.typing {
            Typing::Words(words) => format!("\"{words}\""),
            Typing::Value(formula) => paper.formula(formula),
        };
        Some(format!("Cannot be undone: {}; typed before it: {typed}", act.what))
    };
    let watch = |name: &Name| criteria::watch(paper, name);
    let safe = |name: &Name| Some(format!("Safe stopping point: {}", procedure.stopping_point(name)?.what));
    let acts = step.critical.iter().filter_map(act);
    let witnesses = step.witnesses.iter().filter_map(witness);
    let checks = step.checks.iter().filter_map(check);
    let watches = step.watch_begins.iter().filter_map(watch);
    let lines = acts.chain(witnesses).chain(checks).chain(watches);
    let lines = lines.chain(step.stopping_point.iter().filter_map(safe));
    lines.fold(Text::new(), |text, words| text.line(Line::plain(words).hang(2)))
}
