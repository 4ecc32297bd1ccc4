//! Answers from a file to what is asked of people, and before, between and after the work.

use crate::answers::line::{Line, given};
use crate::procedure::Name;
use crate::run::{
    Answer, Declared, InterruptionAnswer, InterruptionAsk, LooseAnswer, LooseEnd, PeopleAnswer, PeopleAsk,
    View,
};

/// What is typed; none where it is a reading.
pub(super) fn entered_by_people(ask: &PeopleAsk, text: &str) -> Option<Answer> {
    match ask {
        PeopleAsk::Still(_) => Some(Answer::People(PeopleAnswer::Named(text.to_owned()))),
        PeopleAsk::PreJobBrief => {
            let said = text.split(',').map(|said| said.trim().to_owned()).collect();
            Some(Answer::People(PeopleAnswer::Present(said)))
        }
        PeopleAsk::Turnover(_) | PeopleAsk::Witness(_) | PeopleAsk::SignOff(_) | PeopleAsk::Check(_) => {
            Some(Answer::Release { said: text.to_owned() })
        }
        PeopleAsk::Second(_) | PeopleAsk::Differs(_) | PeopleAsk::Nominal(_) => None,
    }
}

/// What is done, in the words of `do`.
pub(super) fn acted_by_people(line: &Line, word: &str) -> Result<Answer, String> {
    let reason = || given("reason", line.reason.as_ref());
    let name = || given("enter", line.enter.as_ref());
    Ok(Answer::People(match word {
        "keep" => PeopleAnswer::Keep,
        "take over" => {
            let role = Name::from(given("role", line.role.as_ref())?);
            PeopleAnswer::TakeOver { role, person: name()?, note: reason()? }
        }
        "absent" => PeopleAnswer::Absent { reason: reason()? },
        _ => PeopleAnswer::Reinspect { said: name()?, reason: reason()? },
    }))
}

/// A loose end: noted, settled, carried out of the job.
pub(super) fn of_loose_end(line: &Line, view: View<'_>, word: &str) -> Result<Answer, String> {
    let reason = given("reason", line.reason.as_ref())?;
    if word == "loose end" {
        return Ok(Answer::Loose(LooseAnswer::Note { what: reason }));
    }
    let open = view.open_ends();
    let is_meant = |end: &&LooseEnd<'_>| line.end.as_ref().is_none_or(|words| end.what == *words);
    let end = open.iter().find(is_meant).map(|end| end.id.clone()).ok_or_else(|| {
        let open: Vec<&str> = open.iter().map(|end| end.what.as_str()).collect();
        format!("there is no such loose end; open are: {}", open.join("; "))
    })?;
    Ok(Answer::Loose(match word {
        "settle" => LooseAnswer::Settle { end, how: reason },
        _ => LooseAnswer::CarryOut { end, by: given("by", line.by.as_ref())?, why: reason },
    }))
}

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
