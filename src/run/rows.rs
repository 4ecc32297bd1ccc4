//! A log: a repeat that makes a pass every so often. A pass is a row; the first one sets the schedule, and the schedule
//! does not drift.

use jiff::{SignedDuration, ZonedDateTime};

use super::event::Stamp;
use super::holds::later;
use super::prompt::Ask;
use super::repeats::Scope;
use super::rounds::{Pass, PassEnd};
use super::state::Taken;
use super::times::length;
use super::view::View;
use super::waits::RunningWait;
use crate::procedure::{Name, Step};
use crate::quantity::Quantity;

/// What is known of the present pass while it goes on.
pub(super) struct Present {
    /// Its item, where the repeat goes through a list.
    pub(super) item: Option<String>,
    /// When it is due, where passes are made every so often.
    pub(super) due: Option<ZonedDateTime>,
}

/// A row that came later than it may.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LateRow {
    /// By how much after it was due.
    pub by: SignedDuration,
    /// How many rows after it were due too before it came, and are left out.
    pub left_out: usize,
}

impl std::fmt::Display for LateRow {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(formatter, "late by {}", length(self.by))?;
        match self.left_out {
            0 => Ok(()),
            1 => formatter.write_str("; one row after it is left out"),
            rows => write!(formatter, "; {rows} rows after it are left out"),
        }
    }
}

impl<'run> View<'run> {
    /// When the present pass of a repeat is due; none where passes have no time, or for the first of them.
    ///
    /// Due are the first row's time and every so often after it. What was due while an earlier row was still to come is
    /// left out: two rows at once would look like a steady state.
    pub fn row_due(self, repeat: &Name) -> Option<ZonedDateTime> {
        let every = self.book.procedure.repeat(repeat)?.every.as_ref()?;
        let rows = self.rounds(repeat)?.live();
        let (first, last) = (&rows.first()?.ended.at, rows.last()?);
        let came = self.row_came(repeat, last).map_or_else(|| last.ended.at.clone(), |came| came.at);
        // What came a moment before it was due is not due a second time.
        let last = last.due.as_ref().map_or(&came, |due| due.max(&came));
        next_slot(first, every, last)
    }

    /// The readings of a pass that has ended, the last word on each, in the order of the steps.
    pub fn row_readings(self, repeat: &Name, pass: &Pass) -> Vec<(&'run Name, &'run Taken)> {
        let scope = self.book.scope(repeat);
        let steps = self.book.procedure.steps().iter();
        let steps = steps.filter(|step| scope.is_some_and(|scope| self.book.is_in(scope, step.id)));
        let in_pass = |place: u64| place > pass.began && place <= pass.ended.seq;
        let taken = |reading| Some((reading, self.state.newest(reading, in_pass)?));
        steps.flat_map(|step| &step.takes).filter_map(taken).collect()
    }

    /// When a pass that has ended came: when the first of its readings was taken, by a person's word where that was
    /// entered late. Where it has no reading, when it ended; none where it was given up before it came.
    pub fn row_came(self, repeat: &Name, pass: &Pass) -> Option<Stamp> {
        let readings = self.row_readings(repeat, pass);
        let first = readings.into_iter().min_by_key(|(_, taken)| taken.place);
        let Some((name, taken)) = first else {
            return (!matches!(pass.end, PassEnd::GivenUp(_))).then(|| pass.ended.clone());
        };
        let entered = self.state.readings.get(name)?.iter().find(|entry| entry.stamp.seq == taken.place);
        let stamp = entered.map_or(&taken.stamp, |entered| &entered.stamp);
        let stated = self.state.times.stated.get(&stamp.seq).map(|stated| stated.done.clone());
        Some(Stamp { at: stated.unwrap_or_else(|| stamp.at.clone()), ..stamp.clone() })
    }

    /// Whether, and how, a pass that has ended came too late: how long it took after its first reading does not count.
    pub fn late_row(self, repeat: &Name, pass: &Pass) -> Option<LateRow> {
        let declared = self.book.procedure.repeat(repeat)?;
        let (every, late, due) = (declared.every.as_ref()?, declared.late.as_ref()?, pass.due.as_ref()?);
        let came = self.row_came(repeat, pass)?;
        if came.at <= later(due, late) {
            return None;
        }
        let by = due.duration_until(&came.at);
        let left_out = by.as_secs_f64() / every.base().to_f64();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of rows")]
        Some(LateRow { by, left_out: left_out.floor() as usize })
    }

    /// The row that is still to come, as a clock that runs.
    pub(super) fn row_to_come(self, repeat: &Name) -> Option<RunningWait> {
        let declared = self.book.procedure.repeat(repeat)?;
        let rounds = self.rounds(repeat).filter(|rounds| rounds.over.is_none())?;
        let due = self.row_due(repeat)?;
        let latest = declared.late.as_ref().map(|late| later(&due, late));
        let began = rounds.live().last()?.ended.at.clone();
        let what = declared.what.clone();
        Some(RunningWait { name: repeat.clone(), what, began, until: Some(due), latest })
    }

    /// That the next row is not due yet, while nothing of it is there.
    pub(super) fn ask_row(self, repeat: &Name) -> Option<Ask> {
        let due = self.row_due(repeat).filter(|due| self.now < due)?;
        let over = self.rounds(repeat).is_some_and(|rounds| rounds.over.is_some());
        let scope = self.book.scope(repeat)?;
        (!over && !self.is_scope_begun(scope)).then(|| Ask::Wait { wait: repeat.clone(), until: due })
    }

    fn is_scope_begun(self, scope: Scope) -> bool {
        let mut steps = self.book.procedure.steps().iter().filter(|step| self.book.is_in(scope, step.id));
        let begun = |step: &Step| self.is_begun(step) || (step.needs_a_word() && self.is_said_done(step.id));
        steps.any(begun)
    }
}

/// A row that came at its very moment must not fall before it by the last digit of a division.
const HAIR: f64 = 1e-9;

/// The first moment after `last` that lies a whole number of steps after `first`.
fn next_slot(first: &ZonedDateTime, every: &Quantity, last: &ZonedDateTime) -> Option<ZonedDateTime> {
    let step = every.base().to_f64();
    if step <= 0.0 {
        return None;
    }
    let gone = first.duration_until(last).as_secs_f64().max(0.0);
    let slots = (gone / step + HAIR).floor() + 1.0;
    first.checked_add(SignedDuration::try_from_secs_f64(slots * step).ok()?).ok()
}
