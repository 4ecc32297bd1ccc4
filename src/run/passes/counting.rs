//! Which passes of a repeat belong together, which count, and whether there is a further one.

use std::borrow::Cow;

use crate::formula::{Typed, Value};
use crate::procedure::{Name, Passes, Repeat, Repeated};
use crate::run::answered::Answered;
use crate::run::book::Book;
use crate::run::flow::event::FlowAsk;
use crate::run::passes::round::{Over, Round};
use crate::run::prompt::{Ask, Prompt};
use crate::run::view::View;
use crate::run::work::facts::Said;
use crate::run::work::part::Part;
use crate::run::work::tree::{Ending, OccurrenceId, PassEnd};
use crate::run::world::Known;

impl Round {
    /// The passes of a repeat within an occurrence. What is known of those that ended before is gone on from.
    pub(crate) fn of(view: View<'_>, name: &Name, within: Option<OccurrenceId>, known: Option<Self>) -> Self {
        let known = known.filter(|known| known.within == within);
        let mut round = known.unwrap_or_else(|| Self { within, ..Self::default() });
        let Some(repeat) = view.book.procedure.repeat(name) else { return round };
        round.see_ended(view, name, repeat);
        round.over = round.worked_out(view, name, repeat);
        round.item = round.present_item(view, name);
        round
    }

    fn see_ended(&mut self, view: View<'_>, name: &Name, repeat: &Repeat) {
        let turns = self.turns(view, name);
        for turn in turns.get(self.seen..).unwrap_or_default() {
            let Some(ending) = &view.state.tree.get(*turn).end else { break };
            self.seen += 1;
            if matches!(ending.how, PassEnd::SetAside(_)) {
                continue;
            }
            self.ended.push(*turn);
            if ending.how == PassEnd::Counts {
                self.counting.push(*turn);
            }
            if let Some(every) = &repeat.every {
                let slot = match (self.ended.first(), self.slots.last()) {
                    (Some(first), Some(before)) => view.slot_of(every, *first, *turn, *before),
                    _ => 0,
                };
                self.slots.push(slot);
            }
            let resets = |formula: &Typed| self.seen_by(view, name, *turn, formula);
            if repeat.resets.as_ref().is_some_and(resets) {
                self.counting.clear();
            }
        }
    }

    /// Whether a formula of the repeat itself holds after a pass, in view of the passes known so far.
    fn seen_by(&self, view: View<'_>, name: &Name, pass: OccurrenceId, formula: &Typed) -> bool {
        let view = View { counted: Some((name, self)), ..view.inside(pass) };
        holds(formula, &view.known())
    }

    fn turns<'run>(&self, view: View<'run>, name: &Name) -> &'run [OccurrenceId] {
        let part = view.book.part_of(name);
        self.within.zip(part).map(|(within, part)| view.state.tree.turns(within, part)).unwrap_or_default()
    }

    fn worked_out(&self, view: View<'_>, name: &Name, repeat: &Repeat) -> Option<Over> {
        let last = self.ended.last().and_then(|last| view.state.tree.get(*last).end.as_ref());
        if matches!(last, Some(Ending { how: PassEnd::GivenUp(_), .. })) {
            return Some(Over::GivenUp);
        }
        let met = match &repeat.passes {
            Passes::Until(until) => {
                self.counting.last().is_some_and(|last| self.seen_by(view, name, *last, until))
            }
            Passes::Times(_) => view.wanted(name).is_some_and(|wanted| self.counting.len() >= wanted),
            Passes::Each(_) | Passes::EachOf(_) => {
                view.items(name).is_some_and(|items| self.left(view, items).is_empty())
            }
        };
        if met {
            return Some(Over::Met);
        }
        let more = view.said_at(self.within).extended.as_slice();
        let more = Said::last(more, name).copied().unwrap_or_default();
        let most = whole(repeat.at_most.as_ref()?, &view.known())? + more;
        let made = match repeat.passes {
            Passes::Until(_) => self.counting.len(),
            _ => self.ended.len(),
        };
        (made >= most).then_some(Over::Exhausted)
    }

    /// The items that no pass that counts was made for: also after the list was corrected.
    fn left(&self, view: View<'_>, items: Vec<String>) -> Vec<String> {
        let mut left = items;
        let made = self.counting.iter().filter_map(|pass| view.item_of(*pass));
        for item in made {
            if let Some(place) = left.iter().position(|left| left == item) {
                left.remove(place);
            }
        }
        left
    }

    /// The first item left as the list stood when the pass began; where a correction has taken that off the list, the
    /// first one left now.
    fn present_item(&self, view: View<'_>, name: &Name) -> Option<String> {
        let left = self.left(view, view.items(name)?);
        let present =
            self.turns(view, name).get(self.seen).and_then(|turn| view.state.tree.get(*turn).began.as_ref());
        let then = present.and_then(|began| view.items_before(name, began.seq));
        let then = then.and_then(|then| self.left(view, then).into_iter().next());
        then.filter(|item| left.contains(item)).or_else(|| left.into_iter().next())
    }
}

impl Book {
    /// What a repeat makes be done more than once.
    pub fn part_of(&self, repeat: &Name) -> Option<Part> {
        self.procedure.repeated(repeat).map(|repeated| match repeated {
            Repeated::Section(section) => Part::Section(section),
            Repeated::Step(step) => Part::Step(step),
        })
    }

    /// The repeats that a part stands in, the outermost first; a repeated part stands in its own.
    pub fn repeats_over(&self, part: Part) -> Vec<&Name> {
        let chain = part.chain(&self.procedure);
        chain.into_iter().filter_map(|part| part.repeat(&self.procedure)).collect()
    }
}

impl<'run> View<'run> {
    /// The passes of a repeat, those that belong with the nearest of them.
    pub fn round(self, repeat: &Name) -> Option<Cow<'run, Round>> {
        let within = self.find(self.book.part_of(repeat)?.around(&self.book.procedure)?);
        if let Some((_, round)) =
            self.counted.filter(|(name, round)| *name == repeat && round.within == within)
        {
            return Some(Cow::Borrowed(round));
        }
        let present = self.state.derived.round(repeat).filter(|round| round.within == within);
        Some(present.map_or_else(|| Cow::Owned(Round::of(self, repeat, within, None)), Cow::Borrowed))
    }

    /// The list that a repeat goes through.
    pub(crate) fn items(self, repeat: &Name) -> Option<Vec<String>> {
        self.items_where(repeat, |_| true)
    }

    /// The list as it stood before an entry.
    fn items_before(self, repeat: &Name, entry: u64) -> Option<Vec<String>> {
        self.items_where(repeat, |seq| seq < entry)
    }

    fn items_where(self, repeat: &Name, is_seen: impl Fn(u64) -> bool) -> Option<Vec<String>> {
        match &self.book.procedure.repeat(repeat)?.passes {
            Passes::Each(items) => Some(items.clone()),
            Passes::EachOf(reading) => {
                let attempts = self.entered(reading)?;
                match &attempts.taken.iter().rev().find(|taken| is_seen(taken.stamp.seq))?.value {
                    Answered::List(items) => Some(items.clone()),
                    _ => None,
                }
            }
            Passes::Times(_) | Passes::Until(_) => None,
        }
    }

    /// How many passes must count, where that is known.
    pub fn wanted(self, repeat: &Name) -> Option<usize> {
        match &self.book.procedure.repeat(repeat)?.passes {
            Passes::Times(times) => whole(times, &self.known()),
            _ => self.items(repeat).map(|items| items.len()),
        }
    }

    /// Whether a repeat may be given up: it is said what follows, or nobody knows any more how many passes it needs, so
    /// that none would be its last.
    pub fn can_be_given_up(self, repeat: &Name) -> bool {
        let is_counted = self.book.procedure.repeat(repeat).is_some_and(|declared| match declared.passes {
            Passes::Until(_) => false,
            Passes::Times(_) | Passes::Each(_) | Passes::EachOf(_) => true,
        });
        self.book.is_giving_up_foreseen(repeat) || (is_counted && self.wanted(repeat).is_none())
    }

    /// The repeat whose passes have to come to their end where that is asked about: leaving its step out then would be
    /// giving it up.
    pub(crate) fn kept_in(self, prompt: &Prompt) -> Option<&Name> {
        let Ask::Flow(FlowAsk::PassEnd(repeat) | FlowAsk::Exhausted(repeat)) = &prompt.ask else {
            return None;
        };
        (!self.can_be_given_up(repeat)).then_some(repeat)
    }

    /// The item of a pass that has ended.
    pub(crate) fn item_of(self, pass: OccurrenceId) -> Option<&'run String> {
        self.state.tree.get(pass).end.as_ref()?.item.as_ref()
    }

    /// Whether a repeat makes no further pass, and nobody has to decide about it.
    pub fn is_over(self, repeat: &Name) -> bool {
        self.round(repeat).is_some_and(|round| match round.over {
            Some(Over::Met | Over::GivenUp) => true,
            Some(Over::Exhausted) => {
                let gone_on = self.said_at(round.within).gone_on.contains(repeat);
                gone_on || self.book.has_path_for_given_up(repeat)
            }
            None => false,
        })
    }
}

/// Whether a formula holds; not, where it cannot be worked out.
fn holds(formula: &Typed, known: &Known<'_>) -> bool {
    matches!(formula.evaluate(known), Ok(Value::Truth(true)))
}

/// A count that a formula comes to; none where it cannot be worked out or is not whole.
fn whole(formula: &Typed, known: &Known<'_>) -> Option<usize> {
    match formula.evaluate(known).ok()? {
        Value::Quantity(quantity) => {
            let number = quantity.base();
            let whole = number.is_whole() && !number.is_negative();
            whole.then(|| number.to_exact_text().parse().ok()).flatten()
        }
        _ => None,
    }
}
