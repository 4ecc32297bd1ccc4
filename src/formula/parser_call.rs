//! The part of the parser that reads names and calls.

use super::lexer::is;
use super::parser::{Level, Parsed, Parser};
use super::syntax;
use super::token::{Mark, Token};
use super::tree::{Argument, Call, Node, Written};
use crate::source::{Span, Spanned};

impl Parser<'_> {
    pub(super) fn name(&mut self, name: Spanned<String>) -> Parsed<Written> {
        self.at += 1;
        if let Some(open) = self.take(Mark::Open) {
            return self.call(name, open);
        }
        let span = name.span;
        Self::written(Node::Name(name.value), span)
    }

    fn call(&mut self, function: Spanned<String>, open: Span) -> Parsed<Written> {
        let mut arguments = Vec::new();
        if let Some(close) = self.take(Mark::Close) {
            return Self::called(function, arguments, close);
        }
        loop {
            arguments.push(self.argument()?);
            if let Some(close) = self.take(Mark::Close) {
                return Self::called(function, arguments, close);
            }
            if self.take(Mark::Comma).is_none() {
                return Err(Box::new(syntax::not_closed(open, self.peek())));
            }
        }
    }

    fn called(function: Spanned<String>, arguments: Vec<Argument>, close: Span) -> Parsed<Written> {
        let span = function.span.to(close);
        Self::written(Node::Call(Box::new(Call { function, arguments, close })), span)
    }

    fn argument(&mut self) -> Parsed<Argument> {
        let name = match (&self.peek().value, self.tokens.get(self.at + 1)) {
            (Token::Name(name), Some(after)) if is(&after.value, Mark::Assign) => {
                Some(Spanned::new(name.clone(), self.peek().span))
            }
            _ => None,
        };
        if name.is_some() {
            self.at += 2;
        }
        let value = self.expression(Level::Or)?;
        Ok(Argument { name, value })
    }
}
