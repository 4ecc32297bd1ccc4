//! How a proved formula is told: which parts decided, the sign between them in words, brackets where they are needed.

use super::evaluate::{Evaluator, value};
use super::known::{Known, holds, order};
use super::passes::Over;
use super::proof::{IsInstead, Passed, Passes, Proved, Step};
use super::said::{Piece, bracketed_if};
use super::telling_words::{Join, listed_as, made_of, mirrored, relation, turned};
use super::trace::Wording;
use super::tree::{Comparison, Operator};
use super::{EvalProblem, Type, Value, World};
use crate::quantity::Quantity;

/// Significant digits of a value that has no short decimal form.
const DIGITS: i32 = 3;

/// Tells a formula; with its values, where a world knows them.
pub(super) struct Teller<'a> {
    pub(super) world: Option<&'a dyn World>,
    pub(super) wording: Wording<'a>,
}

/// How tightly a part holds together: a looser one inside a tighter one needs brackets.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Hold {
    List,
    Sum,
    Product,
    Power,
    Alone,
}

impl Teller<'_> {
    /// The whole formula.
    pub(super) fn told(&self, part: &Proved) -> Vec<Piece> {
        let mut out = Vec::new();
        if part.gives == Type::Truth {
            self.truth(part, &mut out);
        } else {
            self.number(part, Hold::List, &mut out);
        }
        out
    }

    fn known<'p>(&self, part: &'p Proved) -> Option<Known<'p>> {
        Evaluator::new(self.world?).work_out(part).ok()
    }

    fn quantity(&self, part: &Proved) -> Option<Quantity> {
        match value(self.known(part)?, part) {
            Value::Quantity(quantity) => Some(quantity),
            _ => None,
        }
    }

    fn is_so(&self, part: &Proved) -> Option<bool> {
        match self.known(part)? {
            Known::Truth(truth) => Some(truth),
            _ => None,
        }
    }

    /// The part itself, or what an `if` chose.
    fn chosen<'p>(&self, part: &'p Proved) -> &'p Proved {
        let mut part = part;
        while let Step::Choose(parts) = &part.step {
            let (condition, yes, no) = &**parts;
            match self.is_so(condition) {
                Some(true) => part = yes,
                Some(false) => part = no,
                None => break,
            }
        }
        part
    }

    /// Whether an `if` chose a bare zero, which adds nothing to a sum.
    fn is_nothing(&self, part: &Proved) -> bool {
        let chosen = self.chosen(part);
        matches!(&chosen.step, Step::Number(number) if number.number.is_zero())
            && matches!(part.step, Step::Choose(_))
    }

    fn number(&self, part: &Proved, within: Hold, out: &mut Vec<Piece>) {
        let part = self.chosen(part);
        if let Step::Binary { operator: operator @ (Operator::Add | Operator::Subtract), sides } = &part.step
        {
            let (left, right) = &**sides;
            if self.is_nothing(right) {
                return self.number(left, within, out);
            }
            if *operator == Operator::Add && self.is_nothing(left) {
                return self.number(right, within, out);
            }
        }
        let mut inner = Vec::new();
        let hold = self.inside(part, &mut inner);
        bracketed_if(hold < within, inner, out);
    }

    /// A part without brackets around it, and how tightly it holds together.
    fn inside(&self, part: &Proved, out: &mut Vec<Piece>) -> Hold {
        match &part.step {
            Step::Name(name) => out.push(self.named(name, part)),
            Step::Passes(passes) => out.push(self.passes(passes, part)),
            Step::Negate(inner) => {
                out.push(Piece::words("-"));
                self.number(inner, Hold::Power, out);
                return Hold::Sum;
            }
            Step::Binary { operator, sides } => return self.binary(*operator, &sides.0, &sides.1, out),
            Step::Call { function, arguments } => return self.call(function.name, arguments, out),
            Step::Choose(parts) => {
                let (condition, yes, no) = &**parts;
                self.number(yes, Hold::Sum, out);
                out.push(Piece::words(" if "));
                self.truth(condition, out);
                out.push(Piece::words(", else "));
                self.number(no, Hold::Sum, out);
                return Hold::List;
            }
            _ => out.push(Piece::Words(self.wording.part(part.span))),
        }
        Hold::Alone
    }

    fn binary(&self, operator: Operator, left: &Proved, right: &Proved, out: &mut Vec<Piece>) -> Hold {
        let (sign, hold, after) = match operator {
            Operator::Add => (" + ", Hold::Sum, Hold::Sum),
            Operator::Subtract => (" - ", Hold::Sum, Hold::Product),
            Operator::Multiply => (" × ", Hold::Product, Hold::Product),
            Operator::Divide => (" / ", Hold::Product, Hold::Power),
            _ => ("^", Hold::Power, Hold::Alone),
        };
        self.number(left, if hold == Hold::Power { Hold::Alone } else { hold }, out);
        out.push(Piece::words(sign));
        self.number(right, after, out);
        hold
    }

    fn call(&self, function: &str, arguments: &[Passed], out: &mut Vec<Piece>) -> Hold {
        let given = arguments.iter().flat_map(|passed| match passed {
            Passed::One(part) => std::slice::from_ref(part),
            Passed::Many(parts) => parts,
            Passed::Default => &[],
        });
        let given: Vec<&Proved> = given.collect();
        out.push(Piece::Words(made_of(function)));
        if let [only] = given[..] {
            self.number(only, Hold::Alone, out);
            return Hold::Power;
        }
        for (place, part) in given.iter().enumerate() {
            out.push(Piece::words(listed_as(place, given.len())));
            self.number(part, Hold::Sum, out);
        }
        Hold::List
    }

    fn named(&self, name: &str, part: &Proved) -> Piece {
        Piece::Named { made: String::new(), name: name.to_owned(), value: self.shown(part) }
    }

    fn passes(&self, passes: &Passes, part: &Proved) -> Piece {
        self.over(passes, self.shown(part))
    }

    /// What is made of the values in several passes, and what it came to where that is told with it.
    fn over(&self, passes: &Passes, value: Option<String>) -> Piece {
        let newest = passes.newest.as_ref();
        let newest = newest.map(|part| self.shown(part).unwrap_or_else(|| self.wording.part(part.span)));
        let newest = newest.map(|newest| format!("the newest {newest} of ")).unwrap_or_default();
        let made = match passes.over {
            Over::Before => "in the pass before: ".to_owned(),
            Over::First => "in the first pass: ".to_owned(),
            Over::Last => String::new(),
            Over::Count => format!("the number of passes of {newest}"),
            Over::Fold(function) => format!("{}{newest}", made_of(function.name)),
        };
        Piece::Named { made, name: passes.name.clone(), value }
    }

    fn typed(&self, part: &Proved) -> Option<String> {
        match &part.step {
            Step::Name(name) => self.world?.typed(name),
            _ => None,
        }
    }

    /// The value of a part as a person reads it: as it was typed, where somebody typed it.
    fn shown(&self, part: &Proved) -> Option<String> {
        self.typed(part).or_else(|| Some(value(self.known(part)?, part).to_string()))
    }
}

/// What is true or false.
impl Teller<'_> {
    /// The parts that decided it; all of them where it is not known.
    fn truth(&self, part: &Proved, out: &mut Vec<Piece>) -> Join {
        let part = self.chosen(part);
        match &part.step {
            Step::Binary { operator: operator @ (Operator::And | Operator::Or), sides } => {
                self.both(*operator, &sides.0, &sides.1, out)
            }
            Step::Not(inner) => self.not(self.chosen(inner), out),
            Step::Binary { operator: Operator::Compare(comparison), sides } => {
                self.compared(*comparison, &sides.0, &sides.1, out);
                Join::None
            }
            Step::IsInstead(asked) => {
                self.instead(asked, asked.unequal, out);
                Join::None
            }
            Step::Name(name) => {
                self.so(name, part, out);
                Join::None
            }
            _ => {
                out.push(Piece::Words(self.wording.part(part.span)));
                Join::None
            }
        }
    }

    fn both(&self, operator: Operator, left: &Proved, right: &Proved, out: &mut Vec<Piece>) -> Join {
        let (decides, join) = if operator == Operator::And { (false, Join::And) } else { (true, Join::Or) };
        if self.is_so(left) == Some(decides) {
            return self.truth(left, out);
        }
        if self.is_so(right) == Some(decides) {
            return self.truth(right, out);
        }
        for (side, sign) in [(left, ""), (right, join.sign())] {
            out.push(Piece::words(sign));
            let mut inner = Vec::new();
            let joined = self.truth(side, &mut inner);
            bracketed_if(joined != Join::None && joined != join, inner, out);
        }
        join
    }

    fn not(&self, inner: &Proved, out: &mut Vec<Piece>) -> Join {
        match &inner.step {
            Step::Binary { operator: Operator::Compare(comparison), sides } => {
                self.compared(turned(*comparison), &sides.0, &sides.1, out);
            }
            Step::IsInstead(asked) => self.instead(asked, !asked.unequal, out),
            Step::Name(name) => {
                out.push(Piece::words("not "));
                self.so(name, inner, out);
            }
            _ => {
                out.push(Piece::words("not "));
                let mut told = Vec::new();
                let joined = self.truth(inner, &mut told);
                bracketed_if(joined != Join::None, told, out);
            }
        }
        Join::None
    }

    /// A name that stands for something true or false.
    fn so(&self, name: &str, part: &Proved, out: &mut Vec<Piece>) {
        out.push(Piece::Named { made: String::new(), name: name.to_owned(), value: None });
        let so = self.is_so(part).map(|so| if so { " (it is so)" } else { " (it is not so)" });
        out.extend(so.map(Piece::words));
    }

    /// `look of the oil is "milky" (it is "clear")`.
    fn compared(&self, comparison: Comparison, left: &Proved, right: &Proved, out: &mut Vec<Piece>) {
        let is_bare = |part: &Proved| matches!(part.step, Step::Number(_) | Step::Text(_));
        let (subject, other, comparison) = if is_bare(left) && !is_bare(right) {
            (self.chosen(right), self.chosen(left), mirrored(comparison))
        } else {
            (self.chosen(left), self.chosen(right), comparison)
        };
        self.subject(subject, out);
        out.push(Piece::words(relation(comparison)));
        self.number(other, Hold::List, out);
        let (value, limit) = (self.quantity(subject), self.quantity(other));
        let is_worked_out = !is_bare(other) && !matches!(other.step, Step::Name(_) | Step::Passes(_));
        if is_worked_out && let Some(limit) = &limit {
            out.push(Piece::Words(format!(
                " = {}",
                limit.shown_apart(DIGITS, &value.iter().collect::<Vec<_>>())
            )));
        }
        let so = self.known(subject).zip(self.known(other));
        let so = so.map(|(subject, other)| holds(comparison, order(&subject, &other)));
        let it_is = self.shown_like(subject, limit.as_ref());
        out.extend(it_is_words(comparison, so, it_is).map(Piece::Words));
    }

    /// The value of what is compared: as it was typed, else in the unit that it is compared in.
    fn shown_like(&self, subject: &Proved, limit: Option<&Quantity>) -> Option<String> {
        let alike = limit.and_then(|limit| Some((self.quantity(subject)?.in_unit(&limit.unit).ok()?, limit)));
        match (self.typed(subject), alike) {
            (None, Some((value, limit))) => Some(value.shown_apart(DIGITS, &[limit])),
            _ => self.shown(subject),
        }
    }

    /// What is compared: a name without its value, which follows.
    fn subject(&self, part: &Proved, out: &mut Vec<Piece>) {
        match &part.step {
            Step::Name(name) => {
                out.push(Piece::Named { made: String::new(), name: name.clone(), value: None });
            }
            Step::Passes(passes) => out.push(self.over(passes, None)),
            _ => self.number(part, Hold::List, out),
        }
    }

    /// Whether some words stand in place of a number.
    fn instead(&self, asked: &IsInstead, unequal: bool, out: &mut Vec<Piece>) {
        let comparison = if unequal { Comparison::Unequal } else { Comparison::Equal };
        self.subject(&asked.of, out);
        out.push(Piece::Words(format!("{}\"{}\"", relation(comparison), asked.words)));
        let Some(world) = self.world else { return };
        let (so, it_is) = match Evaluator::new(world).work_out(&asked.of) {
            Ok(_) => (Some(unequal), self.shown(&asked.of)),
            Err(EvalProblem::NoNumber { words, .. }) => {
                (Some((words == asked.words) != unequal), Some(format!("\"{words}\"")))
            }
            Err(_) => (None, None),
        };
        out.extend(it_is_words(comparison, so, it_is).map(Piece::Words));
    }
}

/// What it is in fact, where the statement does not say it.
fn it_is_words(comparison: Comparison, so: Option<bool>, it_is: Option<String>) -> Option<String> {
    match (comparison, so?) {
        (Comparison::Equal, true) => None,
        (Comparison::Unequal, false) => Some(" (it is)".to_owned()),
        _ => it_is.map(|it_is| format!(" (it is {it_is})")),
    }
}
