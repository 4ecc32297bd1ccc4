//! Answers from a file to what is asked of people.

use crate::answers::line::{Line, given};
use crate::procedure::Name;
use crate::run::Answer;
use crate::run::{PeopleAnswer, PeopleAsk};

/// What is typed; none where it is a reading.
pub(super) fn entered(ask: &PeopleAsk, text: &str) -> Option<Answer> {
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
pub(super) fn acted(line: &Line, word: &str) -> Result<Answer, String> {
    let reason = || given("reason", line.reason.as_ref());
    let name = || given("enter", line.enter.as_ref());
    Ok(Answer::People(match word {
        "keep" => PeopleAnswer::Keep,
        "take over" => {
            let role = Name(given("role", line.role.as_ref())?);
            PeopleAnswer::TakeOver { role, person: name()?, note: reason()? }
        }
        "absent" => PeopleAnswer::Absent { reason: reason()? },
        _ => PeopleAnswer::Reinspect { said: name()?, reason: reason()? },
    }))
}
