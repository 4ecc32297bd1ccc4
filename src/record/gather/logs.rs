//! Logs: repeats that make a row every so often.

use crate::journal::write_time;
use crate::procedure::{self, Name};
use crate::record::amounts::answer;
use crate::record::model::{Log, Row, RowReading};
use crate::record::turn::moment;
use crate::run::{Pass, PassEnd, View};

pub(in crate::record) fn logs(view: View<'_>) -> Vec<Log> {
    let repeats = view.book.procedure.repeats().iter();
    repeats.filter_map(|(name, repeat)| log(view, name, repeat)).collect()
}

fn log(view: View<'_>, name: &Name, repeat: &procedure::Repeat) -> Option<Log> {
    let every = repeat.every.as_ref()?.to_string();
    let passes = view.rounds(name).map(|rounds| rounds.ended.as_slice()).unwrap_or_default();
    Some(Log {
        name: name.to_string(),
        what: repeat.what.clone(),
        every,
        late: repeat.late.as_ref().map(ToString::to_string),
        rows: passes.iter().map(|pass| row(view, name, pass)).collect(),
    })
}

fn row(view: View<'_>, name: &Name, pass: &Pass) -> Row {
    let readings = readings(view, name, pass);
    let came = view.row_came(name, pass).filter(|_| !readings.is_empty());
    Row {
        due: pass.due.as_ref().map(write_time),
        came: came.as_ref().map(moment),
        when: moment(&pass.ended),
        late: view.late_row(name, pass).map(|late| late.to_string()),
        end: match &pass.end {
            PassEnd::Counts => "counts".to_owned(),
            PassEnd::Invalid(reason) => format!("does not count: {reason}"),
            PassEnd::GivenUp(reason) => format!("given up: {reason}"),
        },
        counts: pass.counts,
        readings,
    }
}

fn readings(view: View<'_>, name: &Name, pass: &Pass) -> Vec<RowReading> {
    let readings = view.row_readings(name, pass).into_iter();
    readings
        .map(|(name, taken)| RowReading { name: name.to_string(), answer: answer(&taken.value) })
        .collect()
}
