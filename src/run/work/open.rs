//! What is not finished: everything that stands between a run and its record.

use crate::procedure::{Name, Step, StepId};
use crate::run::holds::verification::releasers;
use crate::run::prompt::Ask;
use crate::run::step::status::Status;
use crate::run::view::View;
use crate::run::work::deviation::Departure;

/// One thing that is not finished.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum OpenItem {
    /// A step, by its number and state.
    Step { number: String, status: &'static str },
    /// A hold point that is not released.
    Hold { what: String },
    /// A protection that nobody has ended, who put it in force, and the entry that did.
    Protection { what: String, by: String, entry: u64 },
    /// A deviation without a disposition, counted from 1.
    Deviation { number: usize, reason: String },
    /// A loose end that nothing has become of.
    LooseEnd { what: String },
    /// A statement about the whole job that nobody has confirmed.
    Statement { words: String },
    /// The run was never closed.
    NotClosed,
}

impl OpenItem {
    /// Whether it is more than a step whose turn has not come.
    pub fn stands_out(&self) -> bool {
        match self {
            Self::Step { status, .. } => {
                *status != Status::NotStarted.word() && *status != Status::Current.word()
            }
            Self::Hold { .. } | Self::Statement { .. } | Self::NotClosed => false,
            Self::Protection { .. } | Self::Deviation { .. } | Self::LooseEnd { .. } => true,
        }
    }
}

impl std::fmt::Display for OpenItem {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Step { number, status } => write!(formatter, "step {number} is {status}"),
            Self::Hold { what } => write!(formatter, "hold point not released: {what}"),
            Self::Protection { what, by, entry } => {
                write!(formatter, "protection in force: {what} (released by {by}, entry {entry})")
            }
            Self::Deviation { number, reason } => {
                write!(formatter, "deviation {number} has no disposition: {reason}")
            }
            Self::LooseEnd { what } => write!(formatter, "loose end: {what}"),
            Self::Statement { words } => write!(formatter, "not confirmed: {words}"),
            Self::NotClosed => formatter.write_str("the run is not closed"),
        }
    }
}

impl View<'_> {
    /// Everything that must be finished before the run can be closed, in the order of the text.
    pub fn open_items(self) -> Vec<OpenItem> {
        let current = self.ahead().step;
        let steps = self.book.procedure.steps().iter().filter(|step| !self.is_settled(step));
        let steps = steps.map(|step| self.open_step(step, current));
        let unsettled = self.state.derived.unsettled.iter().filter_map(|one| {
            let step = self.book.procedure.step(one.step)?;
            let pass = self.inside(one.within).pass_words(step.id).map(|pass| format!(", {pass}"));
            let number = format!("{}{}", step.number, pass.unwrap_or_default());
            Some(OpenItem::Step { number, status: "not as it was done any more" })
        });
        let held = self
            .protections()
            .into_iter()
            .filter(|protection| !self.book.procedure.hold(protection.hold).is_some_and(|hold| hold.stays));
        let protections = held.map(|protection| OpenItem::Protection {
            what: protection.what.to_owned(),
            by: self.releaser_of(protection.hold),
            entry: protection.since.seq,
        });
        let deviations = self.state.undisposed().map(|(index, deviation)| OpenItem::Deviation {
            number: index + 1,
            reason: deviation.reason.clone(),
        });
        let statements = self.unstated().into_iter();
        let statements =
            statements.map(|statement| OpenItem::Statement { words: statement.words(self).to_owned() });
        let ends = if self.leaves_nothing_loose() { self.open_ends() } else { Vec::new() };
        let ends = ends.into_iter().map(|end| OpenItem::LooseEnd { what: end.what });
        steps.chain(unsettled).chain(protections).chain(deviations).chain(ends).chain(statements).collect()
    }

    /// Everything that stands between the run and its record.
    pub fn unsealed_items(self) -> Vec<OpenItem> {
        let mut items = self.open_items();
        if self.next().ask != Ask::Finished {
            items.push(OpenItem::NotClosed);
        }
        items
    }

    /// What a deviation departs from, in words.
    pub fn departure(self, departure: &Departure) -> String {
        let number = |step: &StepId| {
            self.book.procedure.step(*step).map(|step| step.number.as_str()).unwrap_or_default()
        };
        let what = |name: &Name| self.book.procedure.what(name).unwrap_or_default().to_owned();
        match departure {
            Departure::Result(name) => format!("{} is not as required", what(name)),
            Departure::NotApplicable(step) => format!("step {} left out", number(step)),
            Departure::Scope => "used on a vehicle that the procedure is not for".to_owned(),
            Departure::Declared(None, declared) => declared.words().to_owned(),
            Departure::Declared(Some(step), declared) => {
                format!("step {}: {}", number(step), declared.words())
            }
            Departure::GivenUp(repeat) => format!("given up: {}", what(repeat)),
            Departure::OneMore(repeat) => format!("one more pass than is allowed: {}", what(repeat)),
            Departure::Reinspected(step, check) => {
                format!("step {}, re-inspection (one person): {}", number(step), what(check))
            }
            Departure::Differs(name) => format!("two readings of {} differ", what(name)),
            Departure::Overdue(tool) => format!("calibration overdue: {}", what(tool)),
            Departure::FastenerLeftOut(at) => format!("left out: {}", at.words(self)),
            Departure::Disagrees(step) => {
                format!("step {} was done under what no longer holds", number(step))
            }
            Departure::FastenerOff(at) => format!("not as required: {}", at.words(self)),
            Departure::Late(step, wait) => {
                format!("step {} came too late after: {}", number(step), what(wait))
            }
        }
    }

    fn open_step(self, step: &Step, current: Option<StepId>) -> OpenItem {
        if let Some(hold) = step.hold.as_ref().and_then(|hold| self.book.procedure.hold(hold)) {
            return OpenItem::Hold { what: hold.what.clone() };
        }
        let awaits = self.awaits(step).map(|_| "awaiting check");
        let status = awaits.unwrap_or_else(|| self.status(step, current).word());
        OpenItem::Step { number: step.number.clone(), status }
    }

    /// Who released a hold point, one or two, when they last did.
    pub fn releaser_of(self, hold: &Name) -> String {
        let roles = self.book.procedure.hold(hold).into_iter().flat_map(releasers);
        let released = self.released_seq(hold);
        let person = |role| self.state.people.at(role, released?);
        let people: Vec<&str> = roles.filter_map(person).collect();
        people.join(" and ")
    }
}
