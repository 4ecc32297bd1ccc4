//! Departures from the procedure, in full.

use super::listed;
use super::said::{address, aside};
use super::trail::Trail;
use crate::print::{Row, Section};
use crate::record::model::{Deviation, Record};

pub(super) fn section(record: &Record, trail: &mut Trail) -> Option<Section> {
    let rows = record.deviations.all.iter().map(|deviation| row(deviation, trail)).collect();
    listed("Deviations", &["Deviation", "From what", "Why", "Disposition", "Entered", "Decided"], rows)
}

fn row(deviation: &Deviation, trail: &mut Trail) -> Row {
    let label = format!("deviation {}", deviation.number);
    let entered = trail.by(&deviation.when, &label, &deviation.who);
    let decided = deviation.decided.as_ref().map(|decided| trail.cite(decided, format!("{label} decided")));
    Row {
        at: name(deviation),
        what: deviation.departs.clone(),
        cells: vec![
            format!("why: {}", deviation.reason),
            format!("disposition: {}", disposition(deviation)),
            format!("entered: {entered}"),
            decided.map(|decided| format!("decided: {decided}")).unwrap_or_default(),
        ],
        notes: aside(&deviation.place).into_iter().collect(),
        ..Row::default()
    }
}

/// `Deviation 2, step 3.1, pass 2`; a departure of the whole job stands at no step.
pub(super) fn name(deviation: &Deviation) -> String {
    let step = if deviation.step.is_empty() { String::new() } else { format!(", step {}", deviation.step) };
    format!("Deviation {}{}", deviation.number, address(&step, &deviation.place))
}

/// A reason that serves for both the departure and its disposition is said once.
pub(super) fn disposition(deviation: &Deviation) -> String {
    match (&deviation.disposition, &deviation.justification) {
        (Some(disposition), Some(why)) if *why != deviation.reason => format!("{disposition}: {why}"),
        (Some(disposition), _) => disposition.clone(),
        (None, _) => "not decided yet".to_owned(),
    }
}
