//! What passes are called.

use crate::procedure::{Name, Passes};
use crate::run::passes::round::Round;
use crate::run::view::View;
use crate::run::work::part::Part;
use crate::run::work::tree::{OccurrenceId, PassEnd};

/// Which pass of its repeat one is.
#[derive(Clone, Debug)]
pub struct Pass {
    /// Its number among all that have ended; what was set aside is made anew under the same.
    pub number: usize,
    /// Which of those that count it is, or would be.
    pub place: usize,
    /// Its item, where the repeat goes through a list.
    pub item: Option<String>,
    /// Whether it has ended, and does not count.
    is_void: bool,
}

impl Pass {
    /// What it is called, which of those that count it is, out of how many, and its item: `pass 2 of 3 (left)`.
    pub fn words(&self, wanted: Option<usize>) -> String {
        let place = if self.is_void { self.number } else { self.place };
        let of = wanted.filter(|wanted| place <= *wanted).map(|wanted| format!("{place} of {wanted}"));
        let item = self.item.clone();
        let (number, more) = if self.number == place {
            (of.unwrap_or_else(|| self.number.to_string()), item)
        } else {
            let more: Vec<String> = item.into_iter().chain(of).collect();
            (self.number.to_string(), (!more.is_empty()).then(|| more.join(", ")))
        };
        let more = more.map(|more| format!(" ({more})")).unwrap_or_default();
        format!("pass {number}{more}")
    }
}

impl Round {
    /// Which pass an occurrence is; without one, the pass to come.
    pub(crate) fn pass(&self, view: View<'_>, at: Option<OccurrenceId>) -> Pass {
        let before =
            |passes: &[OccurrenceId]| at.map_or(passes.len(), |at| passes.partition_point(|pass| *pass < at));
        let ended = before(&self.ended);
        let has_ended = at.is_some() && self.ended.get(ended).copied() == at;
        // What was set aside was made anew for the same item.
        let item = self.ended.get(ended).and_then(|pass| view.item_of(*pass)).or(self.item.as_ref());
        Pass {
            number: ended + 1,
            place: before(&self.counting) + 1,
            item: item.cloned(),
            is_void: has_ended && !at.is_some_and(|at| self.counting.contains(&at)),
        }
    }
}

impl View<'_> {
    /// What a repeat goes on until, in words, with what it was after the last pass that counts: `the spread of the newest 3
    /// of room is at most 1 K (it is 2 K)`.
    pub fn goes_on_until(self, repeat: &Name) -> Option<String> {
        let procedure = &self.book.procedure;
        let Passes::Until(until) = &procedure.repeat(repeat)?.passes else { return None };
        let words = |name: &str| procedure.spoken(name);
        let round = self.round(repeat)?;
        let last = round.counting.last().map(|last| self.inside(*last));
        let explained = last.and_then(|seen| until.explained(&seen.known()).ok());
        Some(
            explained
                .map_or_else(|| until.in_words(&words), |outcome| outcome.trace.said(&words).to_string()),
        )
    }

    /// Which pass the work of a step is in, in words: `pass 2 of 3 (left)`; none outside repeats.
    pub fn pass_words(self, step: crate::procedure::StepId) -> Option<String> {
        let over = self.book.repeats_over(Part::Step(step));
        let words: Vec<String> = over.into_iter().filter_map(|repeat| self.pass_number(repeat)).collect();
        (!words.is_empty()).then(|| words.join(", "))
    }

    /// Which pass of a repeat it is, in words: `pass 2 of 3 (left)`; after a pass that does not count, `pass 3 (left, 2 of
    /// 3)`.
    pub fn pass_number(self, repeat: &Name) -> Option<String> {
        let part = self.book.part_of(repeat)?;
        // Of what does not apply no pass is made.
        let is_made = self.find(part).is_some() || !self.is_left_out_here(part);
        is_made.then(|| self.pass(repeat)).flatten().map(|pass| pass.words(self.wanted(repeat)))
    }

    /// Which pass of a repeat it is that is seen from here.
    pub(crate) fn pass(self, repeat: &Name) -> Option<Pass> {
        let round = self.round(repeat)?;
        let here = self.find(self.book.part_of(repeat)?);
        (here.is_some() || round.over.is_none()).then(|| round.pass(self, here))
    }

    /// The passes around a name as seen from here, the outermost first: the number of each, and its item.
    pub(crate) fn passes_around(self, name: &Name) -> Vec<(String, Option<String>)> {
        let step = self.book.procedure.home(name);
        let repeats = step.map(|step| self.book.repeats_over(Part::Step(step))).unwrap_or_default();
        let passes = repeats.into_iter().filter_map(|repeat| self.pass(repeat));
        passes.map(|pass| (pass.number.to_string(), pass.item)).collect()
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
