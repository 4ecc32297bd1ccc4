//! What passes are called.

use crate::procedure::Name;
use crate::run::view::View;
use crate::run::work::{OccurrenceId, Part, PassEnd};

use super::Round;

/// What the pass of a number is called, which of those that count it is, out of how many, and its item: `2 of 3 (left)`.
pub(crate) fn pass_called(
    (number, place): (usize, usize),
    wanted: Option<usize>,
    item: Option<String>,
) -> String {
    let of = wanted.filter(|wanted| place <= *wanted).map(|wanted| format!("{place} of {wanted}"));
    let (number, more) = if number == place {
        (of.unwrap_or_else(|| number.to_string()), item)
    } else {
        let more: Vec<String> = item.into_iter().chain(of).collect();
        (number.to_string(), (!more.is_empty()).then(|| more.join(", ")))
    };
    let more = more.map(|more| format!(" ({more})")).unwrap_or_default();
    format!("pass {number}{more}")
}

impl View<'_> {
    /// Which pass the work of a step is in, in words: `pass 2 of 3 (left)`; none outside repeats.
    pub fn pass_words(self, step: crate::procedure::StepId) -> Option<String> {
        let over = self.book.repeats_over(Part::Step(step));
        let words: Vec<String> = over.into_iter().filter_map(|repeat| self.pass_number(repeat)).collect();
        (!words.is_empty()).then(|| words.join(", "))
    }

    /// Which pass of a repeat it is, in words: `pass 2 of 3 (left)`; after a pass that does not count, `pass 3 (left, 2 of
    /// 3)`.
    pub fn pass_number(self, repeat: &Name) -> Option<String> {
        let round = self.round(repeat)?;
        let here = self.find(self.book.part_of(repeat)?);
        let ended = here.and_then(|here| round.ended.binary_search(&here).ok());
        let (number, place, item) = if let Some(ended) =
            ended.filter(|ended| round.over.is_none() || ended + 1 < round.ended.len())
        {
            let pass = round.ended.get(ended).copied();
            let counted = here.and_then(|here| round.counting.binary_search(&here).ok());
            let place = counted.map_or(ended + 1, |counted| counted + 1);
            (ended + 1, place, pass.and_then(|pass| self.item_of(pass)).cloned())
        } else {
            let last = || round.ended.last().and_then(|last| self.item_of(*last)).cloned();
            let item = if round.over.is_some() { last() } else { round.item.clone() };
            (round.number(), round.place(), item)
        };
        Some(pass_called((number, place), self.wanted(repeat), item))
    }

    /// The passes around a name as seen from here, the outermost first: the number of each, and its item.
    pub(crate) fn passes_around(self, name: &Name) -> Vec<(String, Option<String>)> {
        let step = self.book.procedure.home(name);
        let repeats = step.map(|step| self.book.repeats_over(Part::Step(step))).unwrap_or_default();
        let passes = repeats.into_iter().filter_map(|repeat| {
            let round = self.round(repeat)?;
            let here = self.find(self.book.part_of(repeat)?)?;
            let ended = round.ended.binary_search(&here).ok();
            let item = self.item_of(here).cloned().or_else(|| round.item.clone());
            Some((ended.map_or(round.number(), |ended| ended + 1).to_string(), item))
        });
        passes.collect()
    }

    /// The passes of a repeat in each occurrence of what is around it, in order.
    pub fn rounds(self, repeat: &Name) -> Vec<Round> {
        let Some(part) = self.book.part_of(repeat) else { return Vec::new() };
        let mut within: Vec<OccurrenceId> = Vec::new();
        for (_, occurrence) in self.state.tree.all().filter(|(_, occurrence)| occurrence.part == part) {
            if within.last() != Some(&occurrence.within) {
                within.push(occurrence.within);
            }
        }
        within
            .into_iter()
            .filter_map(|within| Some(self.inside(within).round(repeat)?.into_owned()))
            .collect()
    }

    /// Whether what was done at an occurrence counts: neither it nor anything around it was set aside or is a pass that
    /// does not count.
    pub fn counts(self, at: OccurrenceId) -> bool {
        let tree = &self.state.tree;
        tree.outwards(at).all(|at| {
            let how = tree.get(at).end.as_ref().map(|ending| &ending.how);
            !matches!(how, Some(PassEnd::SetAside(_) | PassEnd::Invalid(_)))
        })
    }
}
