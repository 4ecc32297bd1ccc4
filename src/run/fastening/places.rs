//! The places of a group, and the order in which they are done.

use crate::formula::{Typed, Value};
use crate::procedure::{Fasteners, MOST_PLACES, Name, Pattern, Positions, StepId};
use crate::run::book::Book;
use crate::run::view::View;
use crate::run::world::Known;
use crate::trade::fasteners::cross_order;

impl Book {
    /// The hold point that lists a group of fasteners: it is released only with each place done and good.
    pub fn hold_of_fasteners(&self, group: &Name) -> Option<&Name> {
        let mut holds = self.procedure.holds().iter();
        holds.find(|(_, hold)| hold.fasteners.contains(group)).map(|(name, _)| name)
    }

    /// The step at which a group of fasteners is tightened.
    pub fn step_of_fasteners(&self, group: &Name) -> Option<StepId> {
        self.procedure.home(group).filter(|_| self.procedure.fasteners().contains(group))
    }
}

impl View<'_> {
    /// The places of a group as they are listed, or why they are not known.
    pub(super) fn places(self, group: &Fasteners) -> Result<Vec<String>, String> {
        match &group.positions {
            Positions::Named(names) => Ok(names.clone()),
            Positions::Count(formula) => {
                let count = counted(formula, &self.known())?;
                Ok((1..=count).map(|number| number.to_string()).collect())
            }
        }
    }
}

fn counted(formula: &Typed, known: &Known<'_>) -> Result<usize, String> {
    let value = match formula.evaluate(known) {
        Ok(value) => value,
        Err(problem) => {
            let why = known.in_words(&problem);
            return Err(format!("how many there are cannot be worked out: {why}"));
        }
    };
    place_count(&value).ok_or_else(|| {
        let text = formula.text();
        let shown = value.to_string();
        let is = if text == shown { text.to_owned() } else { format!("{text} = {shown}") };
        format!("how many there are: {is}; that must be a whole number from 1 to {MOST_PLACES}")
    })
}

/// How many places a value stands for; none where it is not a whole number from 1 to [`MOST_PLACES`].
pub fn place_count(value: &Value) -> Option<usize> {
    let Value::Quantity(quantity) = value else {
        return None;
    };
    let number = quantity.base();
    let count: usize = number.is_whole().then(|| number.to_exact_text().parse().ok()).flatten()?;
    (1..=MOST_PLACES).contains(&count).then_some(count)
}

/// The order in which listed places are done, as their places in the list.
pub(super) fn order_of(pattern: &Pattern, places: &[String]) -> Vec<usize> {
    match pattern {
        Pattern::AsListed => (0..places.len()).collect(),
        Pattern::Cross => cross_order(places.len()).into_iter().map(|place| place - 1).collect(),
        Pattern::Given(order) => {
            order.iter().filter_map(|name| places.iter().position(|place| place == name)).collect()
        }
    }
}
