//! A limit divides good readings from bad ones: some likely reading meets it, and some does not.

use std::cmp::Ordering;

use crate::formula::{NoNames, Value};
use crate::procedure::check::Draft;
use crate::procedure::written::{WrittenKind, WrittenReading};
use crate::procedure::{Bound, Criterion, Name};
use crate::quantity::{Num, Quantity, Unit};
use crate::source::{Code, Diagnostic, Span};

/// A limit that decides nothing.
pub static LIMIT_IDLE: Code = Code {
    name: "limit-idle",
    summary: "a limit that every likely reading meets, or none",
    teaching: "\
A limit divides good from bad. One outside the plausible range never does: what lies beyond is taken for a slip of
the finger first. The same holds for a count that may be zero or more, and for a choice of which all are good.

Wrong: `plausible = [\"0 psi\", \"200 psi\"]` with `max = \"300 psi\"`

Right: the limit of the source, or `information_only = true`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let readings = draft.declarations.readings.iter();
    let finds = readings.filter_map(|entry| {
        let verdict = verdict(draft, &entry.name.value, entry.thing.as_deref()?)?;
        Some(report(&entry.name.value, entry.name.span, verdict))
    });
    finds.collect()
}

/// What a limit makes of all readings that are likely.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Always {
    Good,
    Bad,
}

fn verdict(draft: &Draft<'_>, name: &Name, reading: &WrittenReading) -> Option<Always> {
    let (low, high) = match &reading.kind {
        WrittenKind::Quantity { plausible, .. } => {
            let (low, high) = plausible.as_ref()?;
            (low.value.clone(), Some(high.value.clone()))
        }
        WrittenKind::Count(_) => (Quantity::new(Num::from(0), Unit::one()), None),
        WrittenKind::Choice { choices, accept } => {
            let accept = accept.as_ref()?;
            return choices.iter().all(|choice| accept.contains(choice)).then_some(Always::Good);
        }
        WrittenKind::Text | WrittenKind::List(_) | WrittenKind::File | WrittenKind::Date { .. } => {
            return None;
        }
    };
    let Criterion::Limits { lower, upper } = draft.formulas.criteria.get(name)? else {
        return None;
    };
    let lower = End::of(lower.as_ref(), Ordering::Less)?;
    let upper = End::of(upper.as_ref(), Ordering::Greater)?;
    let bad = high.as_ref().is_some_and(|high| lower.refuses(high)) || upper.refuses(&low);
    if bad {
        return Some(Always::Bad);
    }
    let is_count = high.is_none();
    let wide = lower.lies_beyond(&low, is_count)
        && high.map_or(upper.bound.is_none(), |high| upper.lies_beyond(&high, is_count));
    wide.then_some(Always::Good)
}

/// One end of a criterion whose bound is known before the job.
struct End {
    bound: Option<(Quantity, bool)>,
    /// On which side of the bound what it refuses lies.
    bad: Ordering,
}

impl End {
    /// None where the bound is only known during the job.
    fn of(bound: Option<&Bound>, bad: Ordering) -> Option<Self> {
        let Some(bound) = bound else {
            return Some(Self { bound: None, bad });
        };
        let Value::Quantity(quantity) = bound.formula.evaluate(&NoNames).ok()? else {
            return None;
        };
        Some(Self { bound: Some((quantity, bound.inclusive)), bad })
    }

    fn refuses(&self, value: &Quantity) -> bool {
        let Some((bound, inclusive)) = &self.bound else {
            return false;
        };
        let order = value.compare(bound).ok();
        order == Some(self.bad) || !inclusive && order == Some(Ordering::Equal)
    }

    /// Whether the bound lies outside a range that ends there; for a count, at its end too.
    fn lies_beyond(&self, end: &Quantity, is_count: bool) -> bool {
        let Some((bound, inclusive)) = &self.bound else {
            return true;
        };
        let order = bound.compare(end).ok();
        order == Some(self.bad) || is_count && *inclusive && order == Some(Ordering::Equal)
    }
}

fn report(name: &Name, span: Span, verdict: Always) -> Diagnostic {
    let (headline, help) = match verdict {
        Always::Good => (
            format!("the limit of `{name}` never decides"),
            "take the limit from the source, or write `information_only = true`",
        ),
        Always::Bad => (
            format!("nothing that is likely can be good for `{name}`"),
            "look at the units of the limit and of `plausible`",
        ),
    };
    let label =
        if verdict == Always::Good { "every likely reading is good" } else { "no likely reading is good" };
    Diagnostic::warning(&LIMIT_IDLE, headline).at(span, label).help(help)
}
