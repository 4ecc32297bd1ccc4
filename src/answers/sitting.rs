//! Answers from a file to what is asked before, between and after the work.

use crate::answers::line::{Line, given};
use crate::run::{Declared, InterruptionAnswer, InterruptionAsk};

impl Line {
    /// What belongs to questions before, between and after the work.
    pub(super) fn between(&self, ask: &InterruptionAsk) -> Result<Option<InterruptionAnswer>, String> {
        use InterruptionAnswer as Answer;
        let reason = || given("reason", self.reason.as_ref());
        let answer = match (self.act.as_deref(), self.enter.as_ref(), ask) {
            (Some("true"), _, _) => Answer::True,
            (Some("untrue"), _, _) => Answer::Untrue { state: given("state", self.state.as_ref())? },
            (Some("accept"), _, InterruptionAsk::Scope) => {
                Answer::OutOfScope { disposition: self.disposition()?, reason: reason()? }
            }
            (Some("keep"), _, _) => Answer::Keep,
            (Some("make safe"), _, _) => Answer::MakeSafe,
            (Some("not approved"), _, _) => Answer::Refuse { reason: reason()? },
            (None, Some(text), InterruptionAsk::Approval(_)) => Answer::Approve { said: text.clone() },
            (None, Some(text), InterruptionAsk::Standing) => Answer::Standing { state: text.clone() },
            _ => return Ok(None),
        };
        Ok(Some(answer))
    }

    pub(super) fn declared(&self) -> Result<Declared, String> {
        let words = given("enter", self.enter.as_ref())?;
        Declared::from_words(&words).ok_or_else(|| {
            let all = Declared::ALL.map(Declared::words).join(", ");
            format!("`{words}` is no sort of deviation: {all}")
        })
    }
}
