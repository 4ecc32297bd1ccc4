//! Entering late what was done before: when it was done, why it is entered late, and the answer itself.

use super::question::Question;
use super::{Turn, keys, refused};
use crate::run::{Answer, Ask, LateAnswer, ParticularAnswer};

/// Asks for both times and the answer.
pub(super) fn ask(question: &mut Question<'_>) -> Result<Answer, Turn> {
    let done = keys::inner_line(question.ui, "When was it really done (time of today, or date and time)? ")?;
    let at = question.view.done_at(&done).map_err(|refusal| Turn::Show(refused(&refusal)))?;
    let reason = keys::inner_line(question.ui, "Why is it entered late (\"from paper\")? ")?;
    let prompt = question.view.prompt_of_late(question.prompt, &at);
    let answer = if prompt.ask == Ask::Do {
        Answer::Done
    } else {
        let (view, clock, ticks) = (question.view, question.clock, question.ticks);
        Question { ui: &mut *question.ui, view, prompt: &prompt, clock, ticks }.ask()?
    };
    match answer {
        answer @ (Answer::Done
        | Answer::Typed { .. }
        | Answer::Fastening(_)
        | Answer::Particular(ParticularAnswer::File(_))) => {
            Ok(Answer::from(LateAnswer { answer: Box::new(answer), done, reason }))
        }
        other => Ok(other),
    }
}
