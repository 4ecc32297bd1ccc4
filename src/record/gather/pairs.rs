//! Readings before an adjustment beside the same after it.

use std::collections::BTreeMap;

use crate::procedure::{Name, Occasion, Reading};
use crate::record::judging::judged;
use crate::record::model::{Pair, PairEnd};
use crate::record::turn::{Turn, step_of};
use crate::run::{Book, Event};

/// By the reading as found and the pass; in the order of the procedure when it is finished.
#[derive(Default)]
pub(in crate::record) struct Pairs(BTreeMap<(Name, Option<String>), Pair>);

impl Pairs {
    pub(in crate::record) fn see(&mut self, turn: Turn<'_>) {
        let (Event::Read { reading, .. } | Event::Corrected { reading, .. }) = turn.event else {
            return;
        };
        match turn.book.procedure.reading(reading).map(|reading| &reading.occasion) {
            Some(Occasion::AsFound) => self.found(turn, reading),
            Some(Occasion::AsLeft(found)) => self.left(turn, found, reading),
            Some(Occasion::Plain) | None => {}
        }
    }

    fn found(&mut self, turn: Turn<'_>, name: &Name) {
        let (Some(end), Some(reading)) = (end(turn, name), turn.book.procedure.reading(name)) else {
            return;
        };
        let pass = pass(turn, name);
        let new = Pair { what: what(reading), pass: pass.clone(), as_found: end.clone(), as_left: None };
        self.0.entry((name.clone(), pass)).and_modify(|pair| pair.as_found = end).or_insert(new);
    }

    /// What is left stands beside what was found in the same pass; where that was found before all passes, beside that.
    fn left(&mut self, turn: Turn<'_>, found: &Name, name: &Name) {
        let pass = pass(turn, name);
        let key = (found.clone(), pass.clone());
        let once = self.0.get(&(found.clone(), None)).cloned();
        let beside = once.map(|pair| Pair { pass, ..pair });
        if let Some(beside) = beside.filter(|_| !self.0.contains_key(&key)) {
            self.0.insert(key.clone(), beside);
        }
        if let Some(pair) = self.0.get_mut(&key) {
            pair.as_left = end(turn, name);
        }
    }

    pub(in crate::record) fn finish(self, book: &Book) -> Vec<Pair> {
        let mut pairs: Vec<_> = self.0.into_iter().collect();
        pairs.sort_by_key(|((found, _), _)| step_of(book, found).map(|step| step.id));
        pairs.into_iter().map(|(_, pair)| pair).collect()
    }
}

fn what(reading: &Reading) -> String {
    reading.what.clone()
}

fn pass(turn: Turn<'_>, name: &Name) -> Option<String> {
    step_of(turn.book, name).and_then(|step| turn.view_before().pass_words(step.id))
}

fn end(turn: Turn<'_>, name: &Name) -> Option<PairEnd> {
    let taken = turn.after.latest(name)?;
    let now = turn.book.judge(turn.after, name)?;
    Some(PairEnd {
        name: name.to_string(),
        shown: taken.value.shown(),
        verdict: judged(turn.book, name, &now, turn.moment()).verdict,
    })
}
