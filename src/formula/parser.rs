//! From tokens to a tree, by precedence climbing. From loosest to tightest:
//! `or`, `and`, `not`, comparisons, `+ -`, `* /`, a minus sign, `^` (from the right).

use super::MAX_DEPTH;
use super::codes::FORMULA_TOO_LARGE;
use super::lexer::is;
use super::syntax;
use super::token::{Mark, Placed, Token};
use super::tree::{Binary, Choose, Comparison, Node, Operator, Written};
use crate::quantity::{Quantity, Unit};
use crate::source::{Diagnostic, Span, Spanned};

pub(super) type Parsed<T> = Result<T, Box<Diagnostic>>;

/// A whole formula: the tree, and the unit to show the result in.
pub(super) fn parse(tokens: &[Placed]) -> Parsed<(Written, Option<Spanned<Unit>>)> {
    let mut parser = Parser { tokens, at: 0, depth: 0 };
    if matches!(parser.peek().value, Token::End) {
        return Err(Box::new(syntax::nothing(parser.peek().span)));
    }
    let whole = parser.expression(Level::Or)?;
    let unit = match &parser.peek().value {
        Token::In(unit) => Some(Spanned::new(unit.clone(), parser.peek().span)),
        _ => None,
    };
    if unit.is_some() {
        parser.at += 1;
    }
    match &parser.peek().value {
        Token::End => Ok((whole, unit)),
        _ => Err(Box::new(syntax::left_over(whole.span, parser.peek()))),
    }
}

pub(super) struct Parser<'a> {
    pub(super) tokens: &'a [Placed],
    pub(super) at: usize,
    depth: usize,
}

/// How tightly an operator binds.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Level {
    Or,
    And,
    Not,
    Compare,
    Add,
    Multiply,
    Sign,
    Power,
}

/// What stands in for the end in an empty list of tokens, which the lexer never makes.
static END: Placed = Spanned::new(Token::End, Span::new(0, 0));

impl Parser<'_> {
    pub(super) fn peek(&self) -> &Placed {
        self.tokens.get(self.at).or(self.tokens.last()).unwrap_or(&END)
    }

    fn next_is(&self, mark: Mark) -> bool {
        is(&self.peek().value, mark)
    }

    /// Goes past `mark` if it is next.
    pub(super) fn take(&mut self, mark: Mark) -> Option<Span> {
        let span = self.next_is(mark).then(|| self.peek().span)?;
        self.at += 1;
        Some(span)
    }

    /// An expression whose operators bind at least as tightly as `level`.
    pub(super) fn expression(&mut self, level: Level) -> Parsed<Written> {
        self.depth += 1;
        if self.depth > MAX_DEPTH {
            return Err(Box::new(too_deep(self.peek().span)));
        }
        let mut left = self.front()?;
        while let Some((operator, binds)) = self.operator().filter(|(_, binds)| *binds >= level) {
            left = self.joined(left, operator, binds)?;
        }
        self.depth -= 1;
        Ok(left)
    }

    fn operator(&self) -> Option<(Spanned<Operator>, Level)> {
        let Token::Mark(mark) = self.peek().value else {
            return None;
        };
        let (operator, level) = operator_of(mark)?;
        Some((Spanned::new(operator, self.peek().span), level))
    }

    fn joined(&mut self, left: Written, operator: Spanned<Operator>, binds: Level) -> Parsed<Written> {
        self.at += 1;
        let right = self.expression(right_side(binds))?;
        if binds == Level::Compare
            && let Some((second, Level::Compare)) = self.operator()
        {
            return Err(Box::new(syntax::chain(operator.span, second.span)));
        }
        let span = left.span.to(right.span);
        Self::written(Node::Binary(Box::new(Binary { operator, left, right })), span)
    }

    pub(super) fn written(node: Node, span: Span) -> Parsed<Written> {
        let depth = node.depth();
        if depth > MAX_DEPTH {
            return Err(Box::new(too_deep(span)));
        }
        Ok(Written { node, span, depth })
    }

    /// What stands before the first operator.
    fn front(&mut self) -> Parsed<Written> {
        let Spanned { value: token, span } = self.peek().clone();
        match token {
            Token::Mark(Mark::Minus) => self.minus(span),
            Token::Mark(Mark::Plus) => self.plus(span),
            Token::Mark(Mark::Not) => self.not(span),
            Token::Mark(Mark::If) => self.choose(span),
            Token::Mark(Mark::Open) => self.bracket(span),
            Token::Name(name) => self.name(Spanned::new(name, span)),
            Token::Number(quantity) => self.leaf(Node::Number(quantity), span),
            Token::Text(text) => self.leaf(Node::Text(text), span),
            Token::Mark(Mark::True) => self.leaf(Node::Truth(true), span),
            Token::Mark(Mark::False) => self.leaf(Node::Truth(false), span),
            Token::Mark(_) | Token::In(_) | Token::End => Err(Box::new(self.no_value())),
        }
    }

    fn no_value(&self) -> Diagnostic {
        let before = self.at.checked_sub(1).and_then(|before| self.tokens.get(before));
        syntax::no_value(self.peek(), before)
    }

    fn leaf(&mut self, node: Node, span: Span) -> Parsed<Written> {
        self.at += 1;
        Self::written(node, span)
    }

    /// A minus sign; directly before a number it is part of it, so that `-40 °C` is a temperature.
    fn minus(&mut self, sign: Span) -> Parsed<Written> {
        self.at += 1;
        let raised = self.tokens.get(self.at + 1).is_some_and(|after| is(&after.value, Mark::Power));
        if let (Token::Number(quantity), false) = (&self.peek().value, raised)
            && !quantity.unit.is_date()
        {
            let negative = Quantity::new(-quantity.number, quantity.unit.clone());
            let span = sign.to(self.peek().span);
            return self.leaf(Node::Number(negative), span);
        }
        let inner = self.expression(Level::Sign)?;
        let span = sign.to(inner.span);
        Self::written(Node::Negate(Box::new(inner)), span)
    }

    fn plus(&mut self, sign: Span) -> Parsed<Written> {
        self.at += 1;
        let inner = self.expression(Level::Sign)?;
        Ok(Written { span: sign.to(inner.span), ..inner })
    }

    fn not(&mut self, word: Span) -> Parsed<Written> {
        self.at += 1;
        let inner = self.expression(Level::Not)?;
        let span = word.to(inner.span);
        Self::written(Node::Not(Box::new(inner)), span)
    }

    fn bracket(&mut self, open: Span) -> Parsed<Written> {
        self.at += 1;
        let inner = self.expression(Level::Or)?;
        let Some(close) = self.take(Mark::Close) else {
            return Err(Box::new(syntax::not_closed(open, self.peek())));
        };
        Ok(Written { span: open.to(close), ..inner })
    }

    fn choose(&mut self, word: Span) -> Parsed<Written> {
        self.at += 1;
        let condition = self.expression(Level::Or)?;
        self.expect(Mark::Then, word)?;
        let yes = self.expression(Level::Or)?;
        self.expect(Mark::Else, word)?;
        let no = self.expression(Level::Or)?;
        let span = word.to(no.span);
        Self::written(Node::Choose(Box::new(Choose { condition, yes, no })), span)
    }

    fn expect(&mut self, mark: Mark, word: Span) -> Parsed<()> {
        match self.take(mark) {
            Some(_) => Ok(()),
            None => Err(Box::new(syntax::half_a_choice(mark, word, self.peek()))),
        }
    }
}

/// The right side of an operator binds more tightly, so that `9 - 5 - 1` is 3; a power binds from the right.
fn right_side(level: Level) -> Level {
    match level {
        Level::Or => Level::And,
        Level::And => Level::Not,
        Level::Not | Level::Compare => Level::Add,
        Level::Add => Level::Multiply,
        Level::Multiply | Level::Sign => Level::Sign,
        Level::Power => Level::Power,
    }
}

fn operator_of(mark: Mark) -> Option<(Operator, Level)> {
    let compare = |comparison| Some((Operator::Compare(comparison), Level::Compare));
    match mark {
        Mark::Or => Some((Operator::Or, Level::Or)),
        Mark::And => Some((Operator::And, Level::And)),
        Mark::Less => compare(Comparison::Less),
        Mark::AtMost => compare(Comparison::AtMost),
        Mark::More => compare(Comparison::More),
        Mark::AtLeast => compare(Comparison::AtLeast),
        Mark::Equal => compare(Comparison::Equal),
        Mark::Unequal => compare(Comparison::Unequal),
        Mark::Plus => Some((Operator::Add, Level::Add)),
        Mark::Minus => Some((Operator::Subtract, Level::Add)),
        Mark::Times => Some((Operator::Multiply, Level::Multiply)),
        Mark::Over => Some((Operator::Divide, Level::Multiply)),
        Mark::Power => Some((Operator::Power, Level::Power)),
        _ => None,
    }
}

fn too_deep(span: Span) -> Diagnostic {
    Diagnostic::error(&FORMULA_TOO_LARGE, "this formula has too many levels")
        .at(span, format!("more than {MAX_DEPTH} levels of brackets or operators"))
        .help("split it into several values")
}

/// Said where a formula should be.
pub(super) fn too_long(span: Span, longest: usize) -> Diagnostic {
    Diagnostic::error(&FORMULA_TOO_LARGE, "this formula is too long")
        .at(span, format!("more than {longest} bytes"))
        .help("split it into several values")
}
