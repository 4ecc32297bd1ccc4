//! A question about to be asked, and the ways to ask: by key, by line, from a list.

use std::rc::Rc;
use std::time::Duration;

use jiff::ZonedDateTime;

use super::Turn;
use super::keys::{self, OTHER, STOP, WHY};
use crate::procedure::StepId;
use crate::quantity::Preferred;
use crate::run::{Answer, Ask, Prompt, View};
use crate::terminal::{Entry, KeyHint, KeyKind, Ui};

/// A question about to be asked.
pub(super) struct Question<'talk> {
    pub(super) ui: &'talk mut dyn Ui,
    /// The run from where it is asked: a name means the nearest.
    pub(super) view: View<'talk>,
    pub(super) prompt: &'talk Prompt,
    /// Whether the text of the step stands above and names the one reading that it takes.
    pub(super) is_named: bool,
    pub(super) clock: &'talk dyn Fn() -> ZonedDateTime,
    pub(super) ticks: &'talk Rc<dyn Fn() -> Duration>,
    /// The units that stand beside those that are asked for.
    pub(super) units: &'talk Preferred,
}

impl Question<'_> {
    /// Up to nine choices have a key each, so that one press answers and the other keys stay at hand.
    pub(super) fn choice(&mut self, prompt: &str, choices: &[String]) -> Result<String, Turn> {
        let digits: Vec<(char, &str)> = ('1'..='9').zip(choices.iter().map(String::as_str)).collect();
        if choices.len() > digits.len() {
            let prompt = if prompt.is_empty() { "Choose" } else { prompt };
            let place = keys::inner_choice(self.ui, prompt, choices)?;
            return Ok(choices[place.min(choices.len() - 1)].clone());
        }
        let key = self.key(prompt, &keys::with_common(&digits))?;
        Ok(digits
            .iter()
            .find(|(digit, _)| *digit == key)
            .map(|(_, choice)| (*choice).to_owned())
            .unwrap_or_default())
    }

    /// A key; those that deviate are not offered at a hold point, where nothing is gone on with or left out.
    pub(super) fn key_or_deviate(
        &mut self,
        own: &[(char, &str)],
        deviate: &[(char, &str)],
    ) -> Result<char, Turn> {
        let step = self.prompt.step.and_then(|step| self.view.book.procedure.step(step));
        let is_at_hold = step.is_some_and(|step| step.hold.is_some());
        let deviate = deviate.iter().filter(|_| !is_at_hold);
        let keys: Vec<_> = own.iter().chain(deviate).copied().collect();
        self.key("", &keys::with_common(&keys))
    }

    pub(super) fn accept(&mut self) -> Result<Answer, Turn> {
        let (disposition, reason) = keys::disposition(self.ui)?;
        Ok(Answer::Accept { disposition, reason })
    }

    /// The key of a step is the last digit of its number, so that no other key stands for it once some are done.
    pub(super) fn pick(
        &mut self,
        steps: &[StepId],
        answer: impl Fn(StepId) -> Answer,
    ) -> Result<Answer, Turn> {
        let procedure = &self.view.book.procedure;
        let numbers: Vec<&str> =
            steps.iter().filter_map(|step| procedure.step(*step)).map(|step| step.number.as_str()).collect();
        let Some(keyed) = by_last_digit(&numbers) else {
            let numbers: Vec<String> = numbers.iter().map(|number| (*number).to_owned()).collect();
            return Ok(answer(steps[keys::inner_choice(self.ui, "Choose", &numbers)?]));
        };
        let key = self.key("", &keys::with_common(&keyed))?;
        let place = keyed.iter().position(|(digit, _)| *digit == key).unwrap_or_default();
        Ok(answer(steps[place]))
    }

    pub(super) fn one_key(
        &mut self,
        prompt: &str,
        own: (char, &str),
        answer: Answer,
    ) -> Result<Answer, Turn> {
        self.key(prompt, &keys::with_common(&[own]))?;
        Ok(answer)
    }

    /// A key of this question; the keys that are good everywhere are followed up here.
    pub(super) fn key(&mut self, prompt: &str, keys: &[KeyHint]) -> Result<char, Turn> {
        let is_own = |hint: &KeyHint| hint.kind == KeyKind::Own && self.is_weighed();
        let weighed = keys.iter().cloned();
        let weighed = weighed.map(|hint| if is_own(&hint) { hint.being(KeyKind::Weighed) } else { hint });
        let keys: Vec<KeyHint> = weighed.collect();
        match keys::key(self.ui, prompt, &keys)? {
            STOP => Err(Turn::Stop),
            WHY => Err(Turn::Why),
            OTHER => Err(Turn::Other),
            key => Ok(key),
        }
    }

    /// Whether the answer lets work go on that can hurt somebody or cannot be undone: at a hazard, a hold point, a critical
    /// act.
    fn is_weighed(&self) -> bool {
        let step = self.prompt.step.and_then(|step| self.view.book.procedure.step(step));
        let is_guarded = step.is_some_and(|step| step.hold.is_some() || !step.critical.is_empty());
        is_guarded || matches!(self.prompt.ask, Ask::Acknowledge(_))
    }

    /// A typed line. The keys that are good everywhere are good here too, each alone on the line; so is an empty one for
    /// what else can be done.
    pub(super) fn typed(&mut self, prompt: &str) -> Result<String, Turn> {
        let entry = if self.is_weighed() { Entry::Weighed } else { Entry::Main };
        let text = keys::line(self.ui, prompt, entry)?;
        match text.trim() {
            "?" => Err(Turn::Why),
            "!" => Err(Turn::Stop),
            "" | "o" => Err(Turn::Other),
            _ => Ok(text),
        }
    }
}

/// Each number with its last digit as its key; `None` where two would have the same, or one goes beyond nine.
fn by_last_digit<'n>(numbers: &[&'n str]) -> Option<Vec<(char, &'n str)>> {
    let key = |number: &&'n str| {
        let last = number.rsplit('.').next()?;
        let digit = last.chars().next().filter(|_| last.len() == 1)?;
        Some((digit, *number))
    };
    let keyed: Vec<_> = numbers.iter().map(key).collect::<Option<_>>()?;
    let different: std::collections::BTreeSet<char> = keyed.iter().map(|(digit, _)| *digit).collect();
    (different.len() == keyed.len()).then_some(keyed)
}
