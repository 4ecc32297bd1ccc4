//! The rules of comparisons.

use super::Type;
use super::check::Checker;
use super::check_binary::{code_of, with_difference};
use super::codes::{CHOICE_UNKNOWN, TYPE_MISMATCH};
use super::proof::{IsInstead, Proved, Step};
use super::tree::{Comparison, Operator};
use crate::quantity::Kind;
use crate::source::Diagnostic;
use crate::source::suggest::nearest;

impl Checker<'_> {
    /// A quantity that is compared with words, where words can stand in place of its number: the two, and whether they
    /// are to differ.
    pub(super) fn asked_instead<'p>(
        &self,
        operator: Operator,
        left: &'p Proved,
        right: &'p Proved,
    ) -> Option<(&'p Proved, &'p Proved, bool)> {
        let unequal = match operator {
            Operator::Compare(Comparison::Equal) => false,
            Operator::Compare(Comparison::Unequal) => true,
            _ => return None,
        };
        let (of, text) = if matches!(left.step, Step::Text(_)) { (right, left) } else { (left, right) };
        let is_one_value = !matches!(&of.step, Step::Passes(passes) if passes.over.takes_newest());
        let is_asked = matches!(text.step, Step::Text(_))
            && matches!(of.gives, Type::Quantity { .. })
            && is_one_value
            && !self.scope.instead(has_choices(of)?).is_empty();
        is_asked.then_some((of, text, unequal))
    }

    /// The question whether these words stand in place of a number, where they can.
    pub(super) fn is_instead(&mut self, of: &Proved, text: &Proved, unequal: bool) -> Option<(Step, Type)> {
        let Step::Text(words) = &text.step else { return None };
        let name = has_choices(of)?;
        let outcomes = self.scope.instead(name);
        if !outcomes.contains(words) {
            let mistake = self.never((name, words), text, ("outcomes", &outcomes));
            return self.wrong(mistake);
        }
        let asked = IsInstead { of: of.clone(), words: words.clone(), unequal };
        Some((Step::IsInstead(Box::new(asked)), Type::Truth))
    }

    pub(super) fn comparison(
        &mut self,
        comparison: Comparison,
        left: &Proved,
        right: &Proved,
    ) -> Option<Type> {
        let equality = matches!(comparison, Comparison::Equal | Comparison::Unequal);
        match (left.gives, right.gives) {
            (Type::Quantity { .. }, Type::Quantity { .. }) => self.compared_quantities(left, right),
            (Type::Text, Type::Text) if equality => self.compared_texts(left, right),
            (Type::Truth, Type::Truth) if equality => Some(Type::Truth),
            (first, second) if first == second => self.no_order(left, right),
            _ => {
                let mistake = self.different("cannot compare these", left, right);
                self.wrong(match (left.gives, right.gives) {
                    (Type::Quantity { .. }, Type::Text) | (Type::Text, Type::Quantity { .. }) => mistake
                        .help("one reading by itself can come out as words, where its `instead` names them"),
                    _ => mistake,
                })
            }
        }
    }

    fn no_order(&mut self, left: &Proved, right: &Proved) -> Option<Type> {
        let mistake = Diagnostic::error(&TYPE_MISMATCH, "these have no order")
            .at(left.span.to(right.span), format!("each is {}", left.gives))
            .help("compare them with `==` or `!=`");
        self.wrong(mistake)
    }

    fn compared_quantities(&mut self, left: &Proved, right: &Proved) -> Option<Type> {
        let (kinds, _) = self.same_dimension("cannot compare these", left, right)?;
        if kinds.0 == kinds.1 {
            return Some(Type::Truth);
        }
        let point = if kinds.0 == Kind::Point { left } else { right };
        let headline = format!("a {} is compared with a difference", point.gives.place());
        let mistake = Diagnostic::error(code_of(point), headline)
            .at(left.span, format!("this is {}", left.gives))
            .at(right.span, format!("this is {}", right.gives));
        let mistake = with_difference(mistake, point);
        self.wrong(mistake)
    }

    fn compared_texts(&mut self, left: &Proved, right: &Proved) -> Option<Type> {
        let mistake = self.never_equal(left, right).or_else(|| self.never_equal(right, left));
        match mistake {
            Some(mistake) => self.wrong(mistake),
            None => Some(Type::Truth),
        }
    }

    /// A name with choices against a text that is none of them.
    fn never_equal(&self, name: &Proved, text: &Proved) -> Option<Diagnostic> {
        let Step::Text(written) = &text.step else {
            return None;
        };
        let name = has_choices(name)?;
        let choices = self.scope.choices(name);
        if choices.is_empty() || choices.contains(written) {
            return None;
        }
        Some(self.never((name, written), text, ("choices", &choices)))
    }

    /// Said of a text that a name never has; of what it can have, its sort and all of them.
    fn never(
        &self,
        (name, written): (&str, &str),
        text: &Proved,
        (sort, all): (&str, &[String]),
    ) -> Diagnostic {
        let mistake = Diagnostic::error(&CHOICE_UNKNOWN, format!("`{name}` is never \"{written}\""))
            .at(text.span, format!("not among the {sort}"))
            .note(format!("the {sort} are {}", all.join(", ")));
        let mistake = match self.scope.declared_at(name) {
            Some(declared) => mistake.also(declared, format!("`{name}` is declared here")),
            None => mistake,
        };
        match nearest(written, all.iter().map(String::as_str)) {
            Some(meant) => {
                mistake.help(format!("did you mean \"{meant}\"?")).replace(text.span, format!("\"{meant}\""))
            }
            None => mistake,
        }
    }
}

/// The name whose choices a part has: itself, or its value in some pass.
fn has_choices(part: &Proved) -> Option<&str> {
    match &part.step {
        Step::Name(name) => Some(name),
        Step::Passes(passes) => Some(&passes.name),
        _ => None,
    }
}
