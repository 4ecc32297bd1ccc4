//! Logs: repeats that make a row every so often.

use std::collections::BTreeSet;

use super::work::{Work, moment};
use crate::journal::write_time;
use crate::procedure::{self, Name};
use crate::record::amounts::answer;
use crate::record::model::{Log, Row, RowReading};
use crate::run::{OccurrenceId, PassEnd};

pub(in crate::record) fn logs(work: &Work<'_>) -> Vec<Log> {
    let repeats = work.book().procedure.repeats().iter();
    repeats.filter_map(|(name, repeat)| log(work, name, repeat)).collect()
}

fn log(work: &Work<'_>, name: &Name, repeat: &procedure::Repeat) -> Option<Log> {
    let every = repeat.every.as_ref()?.to_string();
    let rounds = work.view.rounds(name);
    let counting: BTreeSet<OccurrenceId> =
        rounds.iter().flat_map(|round| round.counting.iter().copied()).collect();
    let passes = rounds.iter().flat_map(|round| &round.ended);
    Some(Log {
        name: name.to_string(),
        what: repeat.what.clone(),
        every,
        late: repeat.late.as_ref().map(ToString::to_string),
        rows: passes.filter_map(|pass| row(work, name, *pass, counting.contains(pass))).collect(),
    })
}

fn row(work: &Work<'_>, name: &Name, pass: OccurrenceId, counts: bool) -> Option<Row> {
    let readings = work.view.row_readings(name, pass).into_iter();
    let readings: Vec<RowReading> = readings
        .map(|(name, taken)| RowReading { name: name.to_string(), answer: answer(&taken.value) })
        .collect();
    let came = work.view.row_came(pass).filter(|_| !readings.is_empty());
    let ending = work.view.state.tree.get(pass).end.as_ref()?;
    Some(Row {
        due: work.view.row_was_due(name, pass).as_ref().map(write_time),
        came: came.as_ref().map(moment),
        when: moment(&ending.stamp),
        late: work.view.late_row(name, pass).map(|late| late.to_string()),
        end: match &ending.how {
            PassEnd::Counts => "counts".to_owned(),
            PassEnd::Invalid(reason) => format!("does not count: {reason}"),
            PassEnd::GivenUp(reason) => format!("given up: {reason}"),
            PassEnd::SetAside(reason) => format!("set aside: {reason}"),
        },
        counts,
        readings,
    })
}
