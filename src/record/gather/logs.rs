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
    Row {
        due: pass.due.as_ref().map(write_time),
        when: moment(&pass.ended),
        late: view.late_row(name, pass).map(|late| late.to_string()),
        end: match &pass.end {
            PassEnd::Counts => "counts".to_owned(),
            PassEnd::Invalid(reason) => format!("does not count: {reason}"),
            PassEnd::GivenUp(reason) => format!("given up: {reason}"),
        },
        counts: pass.counts,
        readings: readings(view, name, pass),
    }
}

fn readings(view: View<'_>, name: &Name, pass: &Pass) -> Vec<RowReading> {
    let scope = view.book.scope(name);
    let steps = view.book.procedure.steps().iter();
    let steps = steps.filter(|step| scope.is_some_and(|scope| view.book.is_in(scope, step.id)));
    let in_pass = |place: u64| place > pass.began && place <= pass.ended.seq;
    let taken = |reading: &Name| {
        let taken = view.state.newest(reading, in_pass)?;
        Some(RowReading { name: reading.to_string(), answer: answer(&taken.value) })
    };
    steps.flat_map(|step| &step.takes).filter_map(taken).collect()
}
