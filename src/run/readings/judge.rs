//! Judging a reading or a computed value by its acceptance criterion, as it stands at this moment.

use std::fmt;

use crate::formula::{EvalProblem, Trace, Typed, Value};
use crate::procedure::{Bound, CountsAs, Criterion, Name, Reading, ReadingKind};
use crate::quantity::{Entry, Limit, Limits, Quantity, Side, Verdict, judge};
use crate::run::answered::Answered;
use crate::run::readings::certainty::{Certainty, decision};
use crate::run::view::View;
use crate::run::work::opinion::Opinion;
use crate::run::world::Known;
use crate::trade::measurement::{Decision, Rule};

/// A result and what is to be thought of it.
#[derive(Clone, Debug)]
pub struct Judged {
    /// The judgement.
    pub judgement: Judgement,
    /// The limits in force, where there are any.
    pub limits: Option<Limits>,
    /// The result as a quantity, where it is one.
    pub quantity: Option<Quantity>,
    /// By which rule it was judged; simple acceptance unless the procedure says otherwise.
    pub rule: Rule,
    /// What the instrument's accuracy means for it, where that is known and there are limits.
    pub certainty: Option<Certainty>,
}

impl Judged {
    /// The result as a quantity, with so many digits, and with as many more as tell it from its limits.
    pub fn shown(&self, digits: i32) -> Option<String> {
        Some(self.quantity.as_ref()?.shown_beside(digits, self.limits.as_ref()))
    }

    /// The same with what a person said of the result, where that judges it.
    pub(in crate::run) fn with_opinion(self, opinion: Option<Opinion>) -> Self {
        match self.judgement {
            Judgement::Nominal(nominal, _) => {
                Self { judgement: Judgement::Nominal(nominal, opinion), ..self }
            }
            _ => self,
        }
    }
}

/// What is to be thought of a result.
#[derive(Clone, Debug)]
pub enum Judgement {
    /// No limit is given.
    InformationOnly,
    /// A nominal value is shown beside it, and a person says whether it is good; none where nobody has yet.
    Nominal(Quantity, Option<Opinion>),
    /// Judged by limits: how it stands to them, and what the decision rule makes of that.
    Limits(Verdict, Decision),
    /// Judged by a list or a calendar: whether it is among what is accepted, and what is.
    Listed(Standing, String),
    /// An outcome without a value, which the procedure itself calls good or not.
    Named(Standing),
    /// It cannot be judged, for this reason.
    Unknown(String),
    /// It rests on more passes of a repeat than there are so far, and the repeat goes on.
    NotYet(String),
    /// Read before an adjustment: a finding, which holds nothing up.
    Found(Box<Judgement>),
    /// It fails for another reason than its own limits, which would say this of it.
    Spoiled(String, Box<Judgement>),
    /// It passes what it must never pass: nothing is judged.
    Beyond(String),
}

/// Whether something is acceptable.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It is.
    Pass,
    /// It is not.
    Fail,
}

impl Judgement {
    /// Whether work can go on: anything but a failure, or a result that cannot be judged or has still to be.
    pub fn lets_go_on(&self) -> bool {
        match self {
            Self::InformationOnly | Self::Found(_) | Self::NotYet(_) => true,
            Self::Nominal(_, opinion) => opinion.as_ref().is_some_and(Opinion::is_good),
            Self::Limits(_, decision) => matches!(decision, Decision::Pass | Decision::ConditionalPass),
            Self::Listed(standing, _) | Self::Named(standing) => *standing == Standing::Pass,
            Self::Unknown(_) | Self::Spoiled(..) | Self::Beyond(_) => false,
        }
    }

    /// The judgement by its own limits, also of a finding.
    pub fn own(&self) -> &Self {
        match self {
            Self::Found(own) => own,
            other => other,
        }
    }

    /// Whether it says what is to be thought of the result: known, and not still to come.
    pub fn is_known(&self) -> bool {
        !matches!(self.own(), Self::Unknown(_) | Self::NotYet(_) | Self::Nominal(_, None))
    }

    /// Whether a person has still to say if it is good.
    pub fn awaits_opinion(&self) -> bool {
        matches!(self.own(), Self::Nominal(_, None))
    }

    /// On which side it fails by its own limits, where it does.
    pub fn side(&self) -> Option<Side> {
        match self.own() {
            Self::Limits(verdict, _) if !self.own().lets_go_on() => {
                verdict.distance.as_ref().map(|distance| distance.side)
            }
            _ => None,
        }
    }
}

/// The verdict in a word, then how it came about: `conditional pass, 0.1 psi below the maximum`.
impl fmt::Display for Judgement {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::InformationOnly => out.write_str("information only"),
            Self::Nominal(nominal, None) => write!(out, "nominal {nominal}, not judged yet"),
            Self::Nominal(nominal, Some(opinion)) => write!(out, "nominal {nominal}, {}", opinion.words()),
            Self::Limits(verdict, decision) => {
                let why = verdict.why().unwrap_or_else(|| "no limit to judge by".to_owned());
                write!(out, "{decision}, {why}")
            }
            Self::Listed(Standing::Pass, accepted) => write!(out, "pass, {accepted}"),
            Self::Listed(Standing::Fail, accepted) => write!(out, "fail, {accepted}"),
            Self::Named(Standing::Pass) => out.write_str("pass, as the procedure says"),
            Self::Named(Standing::Fail) => out.write_str("fail, as the procedure says"),
            Self::Unknown(why) => write!(out, "cannot be judged: {why}"),
            Self::NotYet(why) => write!(out, "not judged yet: {why}"),
            Self::Found(own) => write!(out, "as found: {own}"),
            Self::Spoiled(why, own) => write!(out, "fail, {why}; by its own limits: {own}"),
            Self::Beyond(why) => write!(out, "not judged, {why}"),
        }
    }
}

impl View<'_> {
    /// Judges the newest attempt at a reading, or a value as it is now, at its nearest occurrence. `None` where the
    /// reading was not taken.
    pub fn judge(self, name: &Name) -> Option<Judged> {
        let here = self.at_home(name);
        if self.book.procedure.value(name).is_some() {
            return here.judge_value(name).map(|judged| judged.with_opinion(here.opinion(name)));
        }
        let taken = here.latest(name)?;
        let own = here.judge_answer(name, &taken.value)?;
        let own = own.with_opinion(here.opinion(name));
        Some(here.weighed(name, taken, own))
    }

    /// Judges an answer to a reading by the reading's own limits.
    pub(crate) fn judge_answer(self, name: &Name, answer: &Answered) -> Option<Judged> {
        let known = &self.known();
        let reading = self.book.procedure.reading(name)?;
        Some(match (&reading.kind, answer) {
            (_, Answered::Instead(words)) => unjudged(by_table(reading, words)),
            (ReadingKind::Quantity { criterion, rule, .. }, Answered::Quantity(entry)) => {
                let accuracy = reading.instrument.as_ref().and_then(|name| self.book.procedure.tool(name));
                let accuracy = accuracy.and_then(|tool| tool.accuracy.as_ref());
                by_criterion(Measured { result: &entry.asked, accuracy, rule: *rule }, criterion, known)
            }
            (ReadingKind::Count { criterion }, Answered::Quantity(entry)) => {
                by_criterion(Measured::exact(&entry.asked), criterion, known)
            }
            (ReadingKind::Choice { accept: Some(accept), .. }, Answered::Choice(choice)) => {
                listed(accept.contains(choice), format!("accepted: {}", accept.join(", ")))
            }
            (ReadingKind::Date { earliest, latest }, Answered::Date(date)) => {
                by_calendar(*date, *earliest, *latest)
            }
            _ => unjudged(Judgement::InformationOnly),
        })
    }

    /// The limits of a result as they stand; `None` where there are none, or where they are not known yet.
    pub fn limits(self, name: &Name) -> Option<Limits> {
        let criterion = self.book.procedure.criterion(name)?;
        match limits_of(criterion, &self.at_home(name).known()) {
            Ok(InForce::Limits(limits)) => Some(limits),
            _ => None,
        }
    }

    fn judge_value(self, name: &Name) -> Option<Judged> {
        let known = &self.known();
        let value = self.book.procedure.value(name)?;
        let result = match value.formula.evaluate(known) {
            Ok(result) => result,
            Err(problem) => return Some(unjudged(known.why_not(&problem, ""))),
        };
        let Value::Quantity(quantity) = result else {
            return None;
        };
        let shown = quantity.in_unit(&value.unit).unwrap_or(quantity);
        Some(by_criterion(Measured::exact(&shown), &value.criterion, known))
    }

    /// How a value came about, as it is now at its nearest occurrence; nothing where it cannot be worked out.
    pub fn trace(self, name: &Name) -> Option<Trace> {
        let value = self.book.procedure.value(name)?;
        Some(value.formula.explained(&self.at_home(name).known()).ok()?.trace)
    }
}

impl Known<'_> {
    /// What is to be thought of a result that rests on what is not known.
    fn why_not(&self, problem: &EvalProblem, before: &str) -> Judgement {
        let words = format!("{before}{}", self.in_words(problem));
        if self.comes_with_more_passes(problem) {
            Judgement::NotYet(words)
        } else {
            Judgement::Unknown(words)
        }
    }

    /// Whether a further pass of a repeat that goes on can make it known.
    fn comes_with_more_passes(&self, problem: &EvalProblem) -> bool {
        match problem {
            EvalProblem::TooFewPasses { name, .. } => {
                self.view.is_in_a_repeat_that_goes_on(&Name::from(name))
            }
            EvalProblem::NotKnownYet(name) => {
                let value = self.view.book.procedure.value(&Name::from(name));
                let beneath = value.and_then(|value| value.formula.evaluate(self).err());
                beneath.is_some_and(|beneath| self.comes_with_more_passes(&beneath))
            }
            _ => false,
        }
    }

    pub(crate) fn in_words(&self, problem: &EvalProblem) -> String {
        match problem {
            EvalProblem::NotKnownYet(name) => {
                let what = self.view.book.procedure.what(&Name::from(name)).unwrap_or(name);
                format!("{what} is not known")
            }
            EvalProblem::NoNumber { name, words } => {
                let what = self.view.book.procedure.what(&Name::from(name)).unwrap_or(name);
                format!("{what} is \"{words}\", no number")
            }
            other => other.to_string(),
        }
    }
}

/// A result with what is known of its making.
#[derive(Clone, Copy)]
struct Measured<'run> {
    result: &'run Quantity,
    accuracy: Option<&'run Quantity>,
    rule: Rule,
}

impl<'run> Measured<'run> {
    /// Counted or computed: no instrument's accuracy is taken into account.
    fn exact(result: &'run Quantity) -> Self {
        Self { result, accuracy: None, rule: Rule::Simple }
    }
}

/// Judges an entry that is no reading of its own, such as a torque that was reached.
pub(crate) fn judge_entry(
    entry: &Entry,
    accuracy: Option<&Quantity>,
    criterion: &Criterion,
    known: &Known<'_>,
) -> Judged {
    by_criterion(Measured { result: &entry.asked, accuracy, rule: Rule::Simple }, criterion, known)
}

fn by_criterion(measured: Measured<'_>, criterion: &Criterion, known: &Known<'_>) -> Judged {
    let judged = match limits_of(criterion, known) {
        Ok(InForce::None) => unjudged(Judgement::InformationOnly),
        Ok(InForce::Nominal(nominal)) => unjudged(Judgement::Nominal(nominal, None)),
        Ok(InForce::Limits(limits)) => within(measured, limits),
        Err(problem) => unjudged(known.why_not(&problem, "no limit: ")),
    };
    Judged { quantity: Some(measured.result.clone()), rule: measured.rule, ..judged }
}

fn within(measured: Measured<'_>, limits: Limits) -> Judged {
    let certainty = measured.accuracy.and_then(|accuracy| Certainty::of(measured.result, accuracy, &limits));
    let judgement = match judge(measured.result, &limits) {
        Ok(verdict) => {
            let decision = decision(&verdict, measured.rule, certainty.as_ref());
            Judgement::Limits(verdict, decision)
        }
        Err(mismatch) => Judgement::Unknown(mismatch.to_string()),
    };
    Judged { limits: Some(limits), certainty, ..unjudged(judgement) }
}

fn unjudged(judgement: Judgement) -> Judged {
    Judged { judgement, limits: None, quantity: None, rule: Rule::Simple, certainty: None }
}

/// What the procedure itself says of an outcome without a value.
fn by_table(reading: &Reading, words: &str) -> Judgement {
    match reading.outcome(words).map(|outcome| outcome.counts) {
        Some(CountsAs::Pass) => Judgement::Named(Standing::Pass),
        Some(CountsAs::Fail) => Judgement::Named(Standing::Fail),
        Some(CountsAs::InformationOnly) => Judgement::InformationOnly,
        None => Judgement::Unknown(format!("the procedure has no outcome \"{words}\"")),
    }
}

fn listed(accepted: bool, what: String) -> Judged {
    let standing = if accepted { Standing::Pass } else { Standing::Fail };
    unjudged(Judgement::Listed(standing, what))
}

fn by_calendar(
    date: jiff::civil::Date,
    earliest: Option<jiff::civil::Date>,
    latest: Option<jiff::civil::Date>,
) -> Judged {
    let bounds = match (earliest, latest) {
        (None, None) => return unjudged(Judgement::InformationOnly),
        (Some(earliest), None) => format!("not before {earliest}"),
        (None, Some(latest)) => format!("not after {latest}"),
        (Some(earliest), Some(latest)) => format!("from {earliest} to {latest}"),
    };
    listed(earliest.is_none_or(|first| date >= first) && latest.is_none_or(|last| date <= last), bounds)
}

pub(crate) enum InForce {
    None,
    Nominal(Quantity),
    Limits(Limits),
}

pub(crate) fn limits_of(criterion: &Criterion, known: &Known<'_>) -> Result<InForce, EvalProblem> {
    match criterion {
        Criterion::InformationOnly => Ok(InForce::None),
        Criterion::Nominal(formula) => Ok(InForce::Nominal(number(formula, known)?)),
        Criterion::Limits { lower, upper } => Ok(InForce::Limits(Limits {
            lower: bound(lower.as_ref(), known)?,
            upper: bound(upper.as_ref(), known)?,
        })),
        Criterion::Target { target, within } => {
            let target = number(target, known)?;
            let limits = Limits::around(&target, &number(within, known)?);
            limits.map(InForce::Limits).map_err(|_| EvalProblem::WrongValue { name: "target".to_owned() })
        }
    }
}

fn bound(bound: Option<&Bound>, known: &Known<'_>) -> Result<Option<Limit>, EvalProblem> {
    let limit =
        |bound: &Bound| Ok(Limit { quantity: number(&bound.formula, known)?, inclusive: bound.inclusive });
    bound.map(limit).transpose()
}

pub(crate) fn number(formula: &Typed, known: &Known<'_>) -> Result<Quantity, EvalProblem> {
    quantity(formula.evaluate(known)?, formula)
}

/// What a formula came to, as a quantity.
pub(crate) fn quantity(value: Value, formula: &Typed) -> Result<Quantity, EvalProblem> {
    match value {
        Value::Quantity(quantity) => Ok(quantity),
        Value::Truth(_) | Value::Text(_) | Value::Instead(_) => {
            Err(EvalProblem::WrongValue { name: formula.text().to_owned() })
        }
    }
}
