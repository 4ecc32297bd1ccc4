//! A formula from its text to the proof: read whole, with where it stands in its file.

use super::check::Checker;
use super::lexer::tokens;
use super::parser::{parse, too_long};
use super::tree::{Node, Written};
use super::typed::Typed;
use super::{MAX_LENGTH, Scope};
use crate::quantity::{Quantity, Unit};
use crate::source::{Diagnostic, Span, Spanned};

/// A formula that was read; what its names mean is not known yet.
///
/// ```
/// use bayhand::formula::{Formula, NoNames};
///
/// let formula = Formula::parse("1.00 qt / 22 s in L/min", 0).unwrap();
/// let outcome = formula.check(&NoNames).unwrap().explained(&NoNames).unwrap();
/// assert_eq!(outcome.trace.show(), "1.00 qt / 22 s = 2.58 L/min");
/// ```
#[derive(Clone, Debug)]
pub struct Formula {
    text: String,
    base: usize,
    pub(super) body: Written,
    unit: Option<Spanned<Unit>>,
}

impl Formula {
    /// Reads a formula. Spans count from `base`: the place of its first byte in the file that holds it.
    ///
    /// Never panics and always ends, whatever the text: it has at most [`MAX_LENGTH`] bytes and
    /// [`super::MAX_DEPTH`] levels.
    pub fn parse(text: &str, base: usize) -> Result<Self, Vec<Diagnostic>> {
        if text.len() > MAX_LENGTH {
            return Err(vec![too_long(Span::new(0, text.len()).shifted(base), MAX_LENGTH)]);
        }
        let tokens = tokens(text, base)?;
        let (body, unit) = parse(&tokens).map_err(|mistake| vec![*mistake])?;
        Ok(Self { text: text.to_owned(), base, body, unit })
    }

    /// The names of things in it, function names left out, in the order of the text; each time it is named.
    pub fn names(&self) -> Vec<Spanned<String>> {
        let mut names = Vec::new();
        collect(&self.body, &mut names);
        names
    }

    /// The numbers in it as they were understood, in the order of the text.
    pub fn numbers(&self) -> Vec<Spanned<Quantity>> {
        let mut waiting = vec![&self.body];
        let mut numbers = Vec::new();
        while let Some(part) = waiting.pop() {
            if let Node::Number(quantity) = &part.node {
                numbers.push(Spanned::new(quantity.clone(), part.span));
            }
            waiting.extend(part.node.parts());
        }
        numbers.sort_by_key(|number| number.span);
        numbers
    }

    /// As it was written.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Where it stands in its file.
    pub fn span(&self) -> Span {
        Span::new(self.base, self.base + self.text.len())
    }

    /// Proves that it makes sense: every name known, every unit and function argument right; or tells all that
    /// is wrong.
    pub fn check(self, scope: &dyn Scope) -> Result<Typed, Vec<Diagnostic>> {
        let mut checker = Checker { scope, mistakes: Vec::new() };
        let proved = checker.prove(&self.body);
        let mut mistakes = checker.mistakes;
        match proved {
            Some(proved) if mistakes.is_empty() => {
                let names = self.names();
                Typed::new(self.text, self.base, proved, self.unit, names)
            }
            _ => {
                mistakes.sort_by_key(Diagnostic::place);
                Err(mistakes)
            }
        }
    }
}

fn collect(written: &Written, names: &mut Vec<Spanned<String>>) {
    if let Node::Name(name) = &written.node {
        names.push(Spanned::new(name.clone(), written.span));
    }
    for part in written.node.parts() {
        collect(part, names);
    }
}
