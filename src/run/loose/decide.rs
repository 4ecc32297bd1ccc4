//! From an answer to what is recorded of a loose end, and to the state after it.

use crate::run::apply::Next;
use crate::run::loose::event::{EndId, LooseAnswer, LooseEvent};
use crate::run::loose::facts::Became;
use crate::run::refusal::Refusal;
use crate::run::typed::filled;
use crate::run::view::View;

/// What an answer makes, at whatever question.
pub(in crate::run) fn decide(view: View<'_>, answer: LooseAnswer) -> Result<LooseEvent, Refusal> {
    match answer {
        LooseAnswer::Note { what } => {
            Ok(LooseEvent::Noted { what: filled("what is left to be done", what)? })
        }
        LooseAnswer::Settle { end, how } => {
            let how = filled("how it was settled", how)?;
            open(view, &end).map(|()| LooseEvent::Settled { end, how })
        }
        LooseAnswer::CarryOut { end, by, why } => {
            let (by, why) = (filled("who sees to it", by)?, filled("the reason", why)?);
            open(view, &end).map(|()| LooseEvent::CarriedOut { end, by, why })
        }
    }
}

fn open(view: View<'_>, end: &EndId) -> Result<(), Refusal> {
    let open = view.open_ends();
    if open.iter().any(|one| one.id == *end) {
        return Ok(());
    }
    Err(Refusal::NoSuchEnd { open: open.into_iter().map(|one| one.what).collect() })
}

impl Next<'_> {
    pub(in crate::run) fn loose(&mut self, event: &LooseEvent) {
        let stamp = self.stamp.clone();
        let loose = &mut self.state.loose;
        match event.clone() {
            LooseEvent::Noted { what } => loose.noted.push((stamp, what)),
            LooseEvent::Settled { end, how } => loose.became.push((end, Became::Settled { how }, stamp)),
            LooseEvent::CarriedOut { end, by, why } => {
                loose.became.push((end, Became::CarriedOut { by, why }, stamp));
            }
        }
    }
}
