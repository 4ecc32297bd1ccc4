//! The author's rules that a file turns off: they must exist, and there must be something to turn off.

use super::author;
use crate::procedure::check::Draft;
use crate::procedure::written::WrittenRuleOff;
use crate::source::{Code, Diagnostic, suggest};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&RULE_OFF_IDLE, &RULE_OFF_UNKNOWN];

/// A rule is turned off that would say nothing.
pub static RULE_OFF_IDLE: Code = Code {
    name: "rule-off-idle",
    summary: "a rule is turned off that finds nothing in this file",
    teaching: "\
A rule that is turned off is silent for the whole file, also about what is written later. So it is turned off only
as long as it has something to say.

Wrong: `[rules_off]` with `section-long = \"...\"` where no section has more than nine steps

Right: the line taken out
",
};

/// No such rule.
pub static RULE_OFF_UNKNOWN: Code = Code {
    name: "rule-off-unknown",
    summary: "a rule is turned off that does not exist or always holds",
    teaching: "\
The author's rules are advice: each can be turned off for a file, with the reason. What makes a procedure sound
cannot be turned off. `bayhand explain` lists all codes; the message lists those that can be turned off.

Wrong: `name-unused = \"kept for later\"` under `[rules_off]`

Right: `section-long = \"one lift, nine wheels: a pause in between is not safe\"`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let unknown = |rule: &&WrittenRuleOff| author::codes().all(|code| code.name != rule.code.value);
    draft.declarations.rules_off.iter().filter(unknown).map(report).collect()
}

fn report(rule: &WrittenRuleOff) -> Diagnostic {
    let code = &rule.code;
    let exists = crate::procedure::codes().iter().any(|known| known.name == code.value);
    let headline = if exists {
        format!("the rule `{}` always holds", code.value)
    } else {
        format!("there is no rule `{}`", code.value)
    };
    let diagnostic = Diagnostic::error(&RULE_OFF_UNKNOWN, headline).at(code.span, "cannot be turned off");
    match suggest::nearest(&code.value, author::codes().map(|code| code.name)) {
        Some(near) if !exists => diagnostic.help(format!("did you mean `{near}`?")).replace(code.span, near),
        _ => diagnostic.help(format!("can be turned off: {}", list())),
    }
}

fn list() -> String {
    let mut codes: Vec<_> = author::codes().map(|code| format!("`{}`", code.name)).collect();
    codes.sort();
    codes.join(", ")
}

/// What the author's rules find, without what the file turns off; and each rule turned off in vain.
pub(in crate::procedure) fn advice(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let found: Vec<Diagnostic> = author::judge(draft).collect();
    let rules = &draft.declarations.rules_off;
    let finds = |code: &str| found.iter().any(|diagnostic| diagnostic.code.name == code);
    let in_vain = rules.iter().filter(|rule| !finds(&rule.code.value)).map(idle).collect::<Vec<_>>();
    let is_off = |name: &str| rules.iter().any(|rule| rule.code.value == name);
    let kept = found.into_iter().filter(|diagnostic| !is_off(diagnostic.code.name));
    kept.chain(in_vain).collect()
}

fn idle(rule: &WrittenRuleOff) -> Diagnostic {
    let headline = format!("the rule `{}` has nothing to say here", rule.code.value);
    let diagnostic = Diagnostic::warning(&RULE_OFF_IDLE, headline).at(rule.code.span, "turned off in vain");
    diagnostic.help("take the line out")
}

/// Whether a finding is advice: worth hearing once nothing is wrong with the file.
pub(in crate::procedure) fn is_advice(diagnostic: &Diagnostic) -> bool {
    let code = diagnostic.code.name;
    code == RULE_OFF_IDLE.name || author::codes().any(|advice| advice.name == code)
}
