//! The record made once more from the texts that it carries.

use super::build::{Kept, build};
use super::model::Record;
use super::permitted::first_not_permitted;
use super::verify::Finding;
use crate::journal::Pinned;
use crate::session::{NotCarried, NotOpened, carried};

/// The record that the carried journal, procedure and sheet give.
pub(super) fn again(record: &Record) -> Result<Record, Vec<Finding>> {
    let pinned = Pinned {
        procedure: record.procedure.text.clone(),
        linked: record.procedure.linked.iter().map(|linked| linked.text.clone()).collect(),
        vehicle: record.vehicle.sheet.as_ref().map(|sheet| sheet.text.clone()),
    };
    let run = carried(&record.journal, &pinned).map_err(|why| vec![finding(why)])?;
    if let Some(finding) = first_not_permitted(&run.book, &run.events) {
        return Err(vec![finding]);
    }
    let kept = Kept { book: &run.book, events: &run.events, lines: &record.journal, pinned: &pinned };
    build(&kept).map_err(|open| open.into_iter().map(Finding::Open).collect())
}

fn finding(why: NotCarried) -> Finding {
    match why {
        NotCarried::Damaged { line, damage } => Finding::Journal { line, damage },
        NotCarried::NotOpened(NotOpened::PinChanged { file }) => Finding::NotPinned { file },
        other => Finding::NotReadable { why: other.to_string() },
    }
}
