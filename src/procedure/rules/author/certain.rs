//! Which steps are done on a way without a hitch: all, but for those under conditions and the other ways of several.

use crate::procedure::Name;
use crate::procedure::Step;
use crate::procedure::check::Draft;
use crate::procedure::written::{Entries, WrittenGround};

/// The entry of that name, where it could be read.
pub(super) fn thing<'d, T>(entries: &'d Entries<T>, name: &Name) -> Option<&'d T> {
    entries.thing(name.as_str())
}

/// Whether a step is done on a way without a hitch.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Standing {
    /// Whatever is found.
    Always,
    /// By what is found.
    Perhaps,
    /// Only where something went wrong.
    Amiss,
}

/// Whether a step is done, by the conditions that it stands under.
pub(super) fn standing(draft: &Draft<'_>, step: &Step) -> Standing {
    let over = draft.conditions_over(step);
    let ground =
        |name: &&Name| thing(&draft.declarations.conditions, name).map(|condition| &condition.ground);
    let is_amiss = |name: &&Name| ground(name).is_some_and(|ground| !matches!(ground, WrittenGround::If(_)));
    if over.is_empty() {
        return if is_other_way(draft, step) { Standing::Amiss } else { Standing::Always };
    }
    if over.iter().any(is_amiss) { Standing::Amiss } else { Standing::Perhaps }
}

/// Whether a step stands in a way that is not the first of several: one alone is gone.
fn is_other_way(draft: &Draft<'_>, step: &Step) -> bool {
    let mut at = Some(step);
    while let Some(step) = at {
        let parent = step.parent.and_then(|parent| draft.step(parent));
        let ways = parent.filter(|parent| parent.alternatives.is_some());
        let first = ways.and_then(|ways| ways.groups.first()?.steps.first());
        if first.is_some_and(|first| *first != step.id) {
            return true;
        }
        at = parent;
    }
    false
}
