//! How a run stands that is not closed: how it was left, what is open, what protects.

use super::work::{Work, moment};
use crate::journal::write_time;
use crate::record::model::{FoundInForce, LooseEnd, Moment, NotFinished, Standing};
use crate::run::{Leave, Left, OpenItem, Sitting, Stamp, Start};

pub(in crate::record) fn not_finished(work: &Work<'_>, last: &Stamp) -> NotFinished {
    let state = work.view.state;
    let left: Option<&Left> = state.left.as_ref().filter(|_| state.sitting != Sitting::Working);
    let open = work.view.open_items();
    let is_step = |item: &&OpenItem| matches!(item, OpenItem::Step { .. } | OpenItem::Hold { .. });
    let is_protection = |item: &&OpenItem| matches!(item, OpenItem::Protection { .. });
    NotFinished {
        how: match left.map(|left| left.how) {
            Some(Leave::Stop) => "stopped",
            Some(Leave::Suspend) => "suspended",
            None => "not closed, last entry",
        }
        .to_owned(),
        when: moment(left.map_or(last, |left| &left.stamp)),
        reason: left.map(|left| left.reason.clone()),
        left: left.map(|left| left.state.clone()),
        first: left.and_then(|left| left.first.clone()),
        steps_open: open.iter().filter(is_step).count(),
        open: open.iter().filter(|item| !is_protection(item)).map(ToString::to_string).collect(),
        protections: standing(work),
    }
}

/// The protections in force.
pub(in crate::record) fn standing(work: &Work<'_>) -> Vec<Standing> {
    let protections = work.view.protections().into_iter().map(|protection| Standing {
        what: protection.what.to_owned(),
        hold: work.book().procedure.called(protection.hold).to_owned(),
        since: moment(&protection.since),
        by: work.view.releaser_of(protection.hold),
        lapsed: protection.lapsed,
    });
    protections.collect()
}

/// What is left to be done, and what became of it.
pub(in crate::record) fn loose_ends(work: &Work<'_>) -> Vec<LooseEnd> {
    let ends = work.view.loose_ends().into_iter().map(|end| LooseEnd {
        what: end.what,
        left_at: end.left_at,
        when: end.stamp.as_ref().map(moment),
        became: end.became.map(|(became, _)| became.words()),
        became_when: end.became.map(|(_, stamp)| moment(stamp)),
    });
    ends.collect()
}

/// What the job handed on in force.
pub(in crate::record) fn found_in_force(start: &Start) -> Vec<FoundInForce> {
    let found = start.inherited.protections.iter().map(|protection| FoundInForce {
        what: protection.what.clone(),
        run: protection.run.clone(),
        when: Moment { entry: protection.entry, at: write_time(&protection.at) },
        by: protection.by.clone(),
    });
    found.collect()
}
