//! A proved formula as others use it: what it gives, what it speaks of, what it comes to.

use std::sync::Arc;

use super::codes::{TEMPERATURE_SCALE, TYPE_MISMATCH, UNIT_MISMATCH};
use super::evaluate::{Evaluator, Seen, shown_in};
use super::known::Known;
use super::proof::Proved;
use super::said::Said;
use super::suggested::{LastShown, Suggested};
use super::telling::Teller;
use super::trace::{Trace, Wording};
use super::usual::shown_unit;
use super::{EvalProblem, Outcome, Type, Value, World};
use crate::quantity::{Dimension, Unit};
use crate::source::{Diagnostic, Span, Spanned};

/// A formula that is proved: whatever the values, it can only fail as [`EvalProblem`] says. Cheap to clone.
#[derive(Clone, Debug)]
pub struct Typed(Arc<Inner>);

#[derive(Debug)]
struct Inner {
    text: String,
    base: usize,
    body: Proved,
    unit: Option<Spanned<Unit>>,
    names: Vec<Spanned<String>>,
    last_shown: LastShown,
}

impl Typed {
    pub(super) fn new(
        text: String,
        base: usize,
        body: Proved,
        unit: Option<Spanned<Unit>>,
        names: Vec<Spanned<String>>,
    ) -> Result<Self, Vec<Diagnostic>> {
        let typed = Self(Arc::new(Inner { text, base, body, unit, names, last_shown: LastShown::default() }));
        match typed.wrong_unit() {
            Some(mistake) => Err(vec![mistake]),
            None => Ok(typed),
        }
    }

    /// The mistake, if the result cannot be shown in the unit that is asked for.
    fn wrong_unit(&self) -> Option<Diagnostic> {
        let Spanned { value: unit, span } = self.0.unit.as_ref()?;
        let (given, asked) = (self.result_type(), Type::of(unit));
        let mistake = Diagnostic::error(code_of(given, asked), "the result cannot be shown in this unit")
            .at(*span, format!("this is for {asked}"))
            .also(self.0.body.span, format!("this is {given}"));
        (given != asked).then_some(mistake)
    }

    /// What sort of thing it gives.
    pub fn result_type(&self) -> Type {
        self.0.body.gives
    }

    /// The names of things in it, in the order of the text; each time it is named.
    pub fn names(&self) -> &[Spanned<String>] {
        &self.0.names
    }

    /// As it was written.
    pub fn text(&self) -> &str {
        &self.0.text
    }

    /// Where it stands in its file.
    pub fn span(&self) -> Span {
        Span::new(self.0.base, self.0.base + self.0.text.len())
    }

    /// The unit that the author asked for with `in`.
    pub fn asked_unit(&self) -> Option<&Unit> {
        self.0.unit.as_ref().map(|unit| &unit.value)
    }

    /// A problem of this formula as something to show, with its place.
    pub fn explain(&self, problem: &EvalProblem) -> Diagnostic {
        let diagnostic = problem.diagnostic();
        match problem {
            EvalProblem::NotKnownYet(missing)
            | EvalProblem::TooFewPasses { name: missing, .. }
            | EvalProblem::NoNumber { name: missing, .. }
            | EvalProblem::WrongValue { name: missing } => {
                match self.names().iter().find(|name| name.value == *missing) {
                    Some(name) => diagnostic.at(name.span, "named here"),
                    None => diagnostic,
                }
            }
            EvalProblem::DivisionByZero(_) | EvalProblem::OutOfRange { .. } => diagnostic,
        }
    }

    /// Works it out from what is known. Exact, except where a function leaves exact numbers.
    pub fn evaluate(&self, world: &dyn World) -> Result<Value, EvalProblem> {
        let known = Evaluator::new(world).work_out(&self.0.body)?;
        Ok(self.value(known))
    }

    /// What is handed out, in the unit asked for or the one that suggests itself.
    fn value(&self, known: Known<'_>) -> Value {
        let gives = self.result_type();
        shown_in(known, |suggested| match (self.asked_unit(), suggested) {
            (Some(asked), _) => asked.clone(),
            (None, Some(Suggested::Unit(unit))) => shown_unit(Some(unit.clone()), gives),
            (None, Some(made)) => self.0.last_shown.of(made, |unit| shown_unit(Some(unit), gives)),
            (None, None) => shown_unit(None, gives),
        })
    }

    /// The same result as [`Self::evaluate`], and how it came about.
    pub fn explained(&self, world: &dyn World) -> Result<Outcome, EvalProblem> {
        let mut evaluator = Evaluator::telling(world);
        let known = evaluator.work_out(&self.0.body)?;
        let value = self.value(known);
        let Seen { substitutions, told } = evaluator.seen();
        let spoken = Teller { world: Some(world), wording: self.wording() }.told(&self.0.body);
        let trace = Trace::new(&self.wording(), substitutions, value.clone(), told, spoken);
        Ok(Outcome { value, trace })
    }

    /// The same formula with other names: each is what `to` makes of it, when the formula is worked out, in
    /// [`Self::names`] and in traces. Places in the file and [`Self::text`] stay what they are.
    ///
    /// A procedure that is done inside another keeps its own formulas this way.
    #[must_use]
    pub fn rename(&self, to: &dyn Fn(&str) -> String) -> Self {
        let renamed = |name: &Spanned<String>| Spanned::new(to(&name.value), name.span);
        Self(Arc::new(Inner {
            text: self.0.text.clone(),
            base: self.0.base,
            body: self.0.body.renamed(to),
            unit: self.0.unit.clone(),
            names: self.0.names.iter().map(renamed).collect(),
            last_shown: LastShown::default(),
        }))
    }

    /// What it asks or adds up, in the words for its names, before anything is known.
    pub fn in_words(&self, words: &dyn Fn(&str) -> String) -> String {
        let told = Teller { world: None, wording: self.wording() }.told(&self.0.body);
        Said::of(&told, None, words).line
    }

    /// The formula on one line, without `in`, with other words in place of its names.
    pub fn worded(&self, to: &dyn Fn(&str) -> String) -> String {
        let words = self.names().iter().map(|name| Spanned::new(to(&name.value), name.span)).collect();
        self.wording().said(words)
    }

    /// The text without `in` and its unit, which only says how the result is shown.
    fn wording(&self) -> Wording<'_> {
        let span = self.0.body.span;
        let start = span.start - self.0.base;
        let text = self.0.text.get(start..span.end - self.0.base).unwrap_or(&self.0.text);
        Wording { text, start: span.start, names: &self.0.names }
    }
}

/// Two formulas are the same when they are written alike, speak of the same names and give the same sort of thing.
impl PartialEq for Typed {
    fn eq(&self, other: &Self) -> bool {
        let names = |typed: &Self| typed.names().iter().map(|name| name.value.clone()).collect::<Vec<_>>();
        self.text() == other.text()
            && self.result_type() == other.result_type()
            && names(self) == names(other)
    }
}

fn code_of(given: Type, wanted: Type) -> &'static crate::source::Code {
    match (given, wanted) {
        (Type::Quantity { dimension, .. }, Type::Quantity { dimension: other, .. }) => {
            if dimension == other && dimension == Dimension::TEMPERATURE {
                &TEMPERATURE_SCALE
            } else {
                &UNIT_MISMATCH
            }
        }
        _ => &TYPE_MISMATCH,
    }
}
