//! Critical acts: what is typed before what cannot be undone.

use crate::formula::Value;
use crate::procedure::{Name, Step, StepId, Typing};
use crate::quantity::{Quantity, parse_entry, parse_literal};
use crate::run::particulars::event::{ParticularAsk, ParticularEvent};
use crate::run::prompt::Ask;
use crate::run::refusal::Refusal;
use crate::run::view::View;
use crate::run::work::facts::Said;

/// What was typed, where it is what is asked for.
pub(in crate::run) fn typed(
    view: View<'_>,
    step: StepId,
    act: &Name,
    text: &str,
) -> Result<ParticularEvent, Refusal> {
    let matches = match &view.book.procedure.critical_act(act).ok_or(Refusal::NotOffered)?.typing {
        Typing::Words(words) => plainly(words) == plainly(text),
        Typing::Value(_) => {
            let wanted = view.critical_amount(act)?;
            let entry = parse_entry(text, &wanted.unit).map_err(Refusal::Unreadable)?;
            is_amount(&entry.typed, &wanted)
        }
    };
    if !matches {
        return Err(Refusal::NotWhatIsTyped { typed: text.trim().to_owned() });
    }
    Ok(ParticularEvent::Typed { step, act: act.clone(), text: text.trim().to_owned() })
}

/// Exactly the amount; or, of a number whose digits do not end, what is shown of it: by itself, or where it is worked out.
fn is_amount(typed: &Quantity, wanted: &Quantity) -> bool {
    let is = |other: &Quantity| typed.compare(other) == Ok(std::cmp::Ordering::Equal);
    let shown = [wanted.to_string(), Value::Quantity(wanted.clone()).to_string()];
    is(wanted) || shown.iter().any(|shown| parse_literal(shown).is_ok_and(|shown| is(&shown)))
}

/// Without capitals, with one space between words.
fn plainly(text: &str) -> String {
    text.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ")
}

impl View<'_> {
    /// The amount that a critical act asks for; refused where it cannot be worked out.
    pub(in crate::run) fn critical_amount(self, act: &Name) -> Result<Quantity, Refusal> {
        let typing = self.book.procedure.critical_act(act).map(|critical| &critical.typing);
        let Some(Typing::Value(formula)) = typing else { return Err(Refusal::NotOffered) };
        match formula.evaluate(&self.known()) {
            Ok(Value::Quantity(quantity)) => Ok(quantity),
            Ok(_) => Err(Refusal::NotOffered),
            Err(problem) => Err(Refusal::NoAmount { why: problem.to_string() }),
        }
    }

    /// The first critical act of a step that is not confirmed in this sitting.
    pub(in crate::run) fn ask_critical(self, step: &Step) -> Option<Ask> {
        let fresh = |act: &&Name| {
            let resumed = self.state.particulars.resumed.as_ref().map_or(0, |resumed| resumed.seq);
            Said::last(&self.said(step.id).typed, act).is_some_and(|typed| typed.seq > resumed)
        };
        let act = step.critical.iter().find(|act| !fresh(act))?;
        Some(Ask::Particular(ParticularAsk::Critical(act.clone())))
    }

    /// Whether every critical act of a step was confirmed before it.
    pub(in crate::run) fn critical_was_typed(self, step: &Step) -> bool {
        step.critical.iter().all(|act| Said::last(&self.said(step.id).typed, act).is_some())
    }
}
