//! `[rules_off]`: the author's rules that a file turns off, each with its reason.

use toml::de::DeValue;

use crate::source::Spanned;
use crate::table::Fields;

/// An author's rule that does not hold for a file, its code not followed yet.
#[derive(Clone, Debug)]
pub struct WrittenRuleOff {
    /// The code of the rule.
    pub code: Spanned<String>,
    /// Why it does not hold here; none where that could not be read.
    pub reason: Option<String>,
}

/// `[rules_off]`: the code of a rule and the reason, one a line.
pub(in crate::procedure) fn rules_off(front: &mut Fields<'_, '_, '_>) -> Vec<WrittenRuleOff> {
    let Some(item) = front.item("rules_off") else {
        return Vec::new();
    };
    let DeValue::Table(inner) = item.value else {
        front.wrong_type("rules_off", item, "a table with a line for each rule");
        return Vec::new();
    };
    let mut fields = Fields::new(inner, "`rules_off`", item.key, front.scribe);
    let rest = fields.rest();
    let mut rules: Vec<WrittenRuleOff> = Vec::new();
    for (code, item) in rest {
        let reason = fields.text_of(&code.value, item).map(|reason| reason.value);
        rules.push(WrittenRuleOff { code, reason });
    }
    rules
}
