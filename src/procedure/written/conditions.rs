use super::codes::CONDITION_UNCLEAR;
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, Wording};

/// A condition whose formula is still a text.
#[derive(Clone, Debug)]
pub struct WrittenCondition {
    /// What it rests on.
    pub ground: WrittenGround,
    /// Why it matters.
    pub why: Option<String>,
}

/// What a condition rests on.
#[derive(Clone, Debug)]
pub enum WrittenGround {
    /// This holds.
    If(Wording),
    /// This wait lasted too long.
    Missed(Spanned<String>),
    /// This repeat was given up.
    GaveUp(Spanned<String>),
    /// This result fails.
    Failed(Spanned<String>),
}

/// `[conditions]`: IF.
pub(super) fn condition(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenCondition> {
    let given = ["if", "missed", "gave_up", "failed"].map(|key| fields.item(key).is_some());
    let ground = match given {
        [true, false, false, false] => fields.formula("if").map(WrittenGround::If),
        [false, true, false, false] => fields.text("missed").map(WrittenGround::Missed),
        [false, false, true, false] => fields.text("gave_up").map(WrittenGround::GaveUp),
        [false, false, false, true] => fields.text("failed").map(WrittenGround::Failed),
        [false, false, false, false] => {
            fields.missing("if", "'pan_temp < 30 °C'");
            None
        }
        _ => {
            let headline =
                format!("{} has more than one of `if`, `missed`, `gave_up` and `failed`", fields.owner());
            let diagnostic = Diagnostic::error(&CONDITION_UNCLEAR, headline).at(fields.place(), "which one?");
            fields.scribe.note(diagnostic.help("keep one; two conditions can be named in one step"));
            None
        }
    };
    let why = fields.text("why");
    Some(WrittenCondition { ground: ground?, why: why.map(|why| why.value) })
}
