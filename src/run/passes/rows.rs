//! A log: a repeat that makes a pass every so often. A pass is a row; the beginning of the first one sets the schedule,
//! and the schedule does not drift.

use jiff::{SignedDuration, ZonedDateTime};

use crate::procedure::{Name, Step};
use crate::quantity::Quantity;
use crate::run::holds::verification::later;
use crate::run::prompt::Ask;
use crate::run::stamp::Stamp;
use crate::run::step::waits::RunningWait;
use crate::run::view::View;
use crate::run::work::part::Part;
use crate::run::work::taken::{Origin, Taken};
use crate::run::work::times::length;
use crate::run::work::tree::{Ending, OccurrenceId, PassEnd};

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
    /// Due are the beginning of the first row and every so often after it. What was due while an earlier row was still to
    /// come is left out: two rows at once would look like a steady state. A row that came early stands for its time.
    pub fn row_due(self, repeat: &Name) -> Option<ZonedDateTime> {
        let round = self.round(repeat)?;
        self.due_after(repeat, *round.ended.first()?, *round.slots.last()?)
    }

    /// When a pass that has ended was due.
    pub fn row_was_due(self, repeat: &Name, pass: OccurrenceId) -> Option<ZonedDateTime> {
        let round = self.inside(self.state.tree.get(pass).within).round(repeat)?;
        let before = round.ended.binary_search(&pass).ok()?.checked_sub(1)?;
        self.due_after(repeat, *round.ended.first()?, *round.slots.get(before)?)
    }

    /// When the row after the one that stands for a slot is due.
    fn due_after(self, repeat: &Name, first: OccurrenceId, slot: i64) -> Option<ZonedDateTime> {
        let every = self.book.procedure.repeat(repeat)?.every.as_ref()?;
        moment_of(&self.row_came(first)?.at, every, slot + 1)
    }

    /// Which slot a row stands for, after the one before it.
    pub(super) fn slot_of(
        self,
        every: &Quantity,
        first: OccurrenceId,
        row: OccurrenceId,
        before: i64,
    ) -> i64 {
        let came = |row| self.row_came(row).map(|came| came.at);
        let gone = came(first).zip(came(row)).map(|(first, row)| slots_gone(&first, every, &row));
        gone.unwrap_or_default().max(before + 1)
    }

    /// The readings of a pass, the last word on each, in the order of the steps.
    pub fn row_readings(self, repeat: &Name, pass: OccurrenceId) -> Vec<(&'run Name, &'run Taken)> {
        let part = self.book.part_of(repeat).unwrap_or_default();
        let steps = part.steps(&self.book.procedure);
        let steps = self.book.procedure.steps().get(steps).unwrap_or_default().iter();
        let here = self.inside(pass);
        steps.flat_map(|step| &step.takes).filter_map(|name| Some((name, here.latest(name)?))).collect()
    }

    /// When a pass came: when its first reading was taken, by a person's word where that was entered late. Where it has
    /// none, when it was begun; nothing where it was given up before it came.
    pub fn row_came(self, pass: OccurrenceId) -> Option<Stamp> {
        let occurrence = self.state.tree.get(pass);
        let repeat = occurrence.part.repeat(&self.book.procedure)?;
        let readings = self.row_readings(repeat, pass).into_iter().map(|(_, taken)| taken.place);
        let first = readings.min().and_then(|place| self.made_at(repeat, pass, place));
        let is_given_up = matches!(&occurrence.end, Some(Ending { how: PassEnd::GivenUp(_), .. }));
        let stamp = first.or(occurrence.began.as_ref().filter(|_| !is_given_up))?;
        let stated = self.state.times.stated.get(&stamp.seq).map(|stated| stated.done.clone());
        Some(Stamp { at: stated.unwrap_or_else(|| stamp.at.clone()), ..stamp.clone() })
    }

    /// The entry with which an attempt in a pass was made.
    fn made_at(self, repeat: &Name, pass: OccurrenceId, place: u64) -> Option<&'run Stamp> {
        let here = self.inside(pass);
        let readings = self.row_readings(repeat, pass).into_iter();
        let mut attempts =
            readings.filter_map(|(name, _)| here.entered(name)).flat_map(|attempts| &attempts.taken);
        let made = attempts.find(|taken| taken.place == place && taken.origin == Origin::Measured);
        made.map(|taken| &taken.stamp)
    }

    /// Whether, and how, a pass that has ended came too late: how long it took after its first reading does not count.
    pub fn late_row(self, repeat: &Name, pass: OccurrenceId) -> Option<LateRow> {
        let declared = self.book.procedure.repeat(repeat)?;
        let (every, late) = (declared.every.as_ref()?, declared.late.as_ref()?);
        let due = self.row_was_due(repeat, pass)?;
        let came = self.row_came(pass)?;
        if came.at <= later(&due, late) {
            return None;
        }
        let by = due.duration_until(&came.at);
        let left_out = by.as_secs_f64() / every.base().to_f64();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of rows")]
        Some(LateRow { by, left_out: left_out.floor() as usize })
    }

    /// The row that is still to come, as a clock that runs.
    pub(crate) fn row_to_come(self, repeat: &Name) -> Option<RunningWait> {
        let declared = self.book.procedure.repeat(repeat)?;
        let round = self.round(repeat)?;
        let last = round.ended.last().filter(|_| round.over.is_none())?;
        let due = self.row_due(repeat)?;
        let latest = declared.late.as_ref().map(|late| later(&due, late));
        let began = self.state.tree.get(*last).end.as_ref()?.stamp.at.clone();
        let what = declared.what.clone();
        Some(RunningWait { name: repeat.clone(), what, began, until: Some(due), latest })
    }

    /// That the next row is not due yet, while nothing of it is there.
    pub(crate) fn ask_row(self, repeat: &Name) -> Option<Ask> {
        let due = self.row_due(repeat).filter(|due| self.now < due)?;
        let over = self.round(repeat).is_some_and(|round| round.over.is_some());
        let part = self.book.part_of(repeat)?;
        (!over && !self.is_part_begun(part)).then(|| Ask::Wait { wait: repeat.clone(), until: due })
    }

    fn is_part_begun(self, part: Part) -> bool {
        let Some(here) = self.find(part) else { return false };
        let steps = self.book.procedure.steps().get(part.steps(&self.book.procedure)).unwrap_or_default();
        let begun = |step: &Step| self.is_begun(step) || (step.needs_a_word() && self.is_said_done(step.id));
        self.state.tree.get(here).said.early || steps.iter().any(begun)
    }
}

/// A row that came at its very moment must not fall before it by the last digit of a division.
const HAIR: f64 = 1e-9;

/// How many whole steps lie between the first row and this moment.
#[expect(clippy::cast_possible_truncation, reason = "a count of rows")]
fn slots_gone(first: &ZonedDateTime, every: &Quantity, moment: &ZonedDateTime) -> i64 {
    let step = every.base().to_f64();
    if step <= 0.0 {
        return 0;
    }
    (first.duration_until(moment).as_secs_f64().max(0.0) / step + HAIR).floor() as i64
}

/// The moment so many steps after the first row.
#[expect(clippy::cast_precision_loss, reason = "a count of rows")]
fn moment_of(first: &ZonedDateTime, every: &Quantity, slots: i64) -> Option<ZonedDateTime> {
    let step = every.base().to_f64();
    let later = SignedDuration::try_from_secs_f64(slots as f64 * step).ok().filter(|_| step > 0.0)?;
    first.checked_add(later).ok()
}
