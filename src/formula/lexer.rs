//! From text to tokens. A unit stands only after a number or after `in`, so that names and units never collide.

use super::codes::{FORMULA_SYNTAX, UNIT_UNKNOWN};
use super::literal::{self, Literal};
use super::token::{Mark, Placed, Token, mark_at, mark_of};
use crate::quantity::Unit;
use crate::source::{Diagnostic, Span, Spanned};

/// All tokens of `text`, the end included, or everything that is no token. Spans count from `base`.
pub(super) fn tokens(text: &str, base: usize) -> Result<Vec<Placed>, Vec<Diagnostic>> {
    let mut lexer = Lexer { text, base, at: 0, tokens: Vec::new(), mistakes: Vec::new() };
    lexer.run();
    if lexer.mistakes.is_empty() { Ok(lexer.tokens) } else { Err(lexer.mistakes) }
}

struct Lexer<'a> {
    text: &'a str,
    base: usize,
    at: usize,
    tokens: Vec<Placed>,
    mistakes: Vec<Diagnostic>,
}

impl<'a> Lexer<'a> {
    fn run(&mut self) {
        while let Some(next) = self.rest().chars().next() {
            match next {
                _ if next.is_whitespace() => self.at += next.len_utf8(),
                '0'..='9' | '½' | '¼' | '¾' | '⅓' | '⅔' | '⅛' | '⅜' | '⅝' | '⅞' => {
                    self.number();
                }
                '"' | '\'' => self.text_in(next),
                _ if next.is_alphabetic() || next == '_' => self.word(),
                _ => self.mark(next),
            }
        }
        self.add(self.text.len(), Token::End);
    }

    fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    fn span(&self, length: usize) -> Span {
        Span::new(self.at, self.at + length).shifted(self.base)
    }

    /// Adds the token that reaches up to `end`.
    fn add(&mut self, end: usize, token: Token) {
        let span = Span::new(self.at.min(end), end).shifted(self.base);
        self.tokens.push(Spanned::new(token, span));
        self.at = end;
    }

    fn number(&mut self) {
        match literal::read(self.rest()) {
            Literal::Good { length, quantity } => self.add(self.at + length, Token::Number(quantity)),
            Literal::NoDay { length } => {
                let problem = Diagnostic::error(&FORMULA_SYNTAX, "there is no such day")
                    .at(self.span(length), "read as a date: year, month and day");
                self.fail(
                    length,
                    problem.help("a date is `2026-11-01`; to subtract, put blanks around the minus"),
                );
            }
            Literal::Unreadable { length } => {
                let problem = Diagnostic::error(&FORMULA_SYNTAX, "this number cannot be read")
                    .at(self.span(length), "no number that this program can hold");
                self.fail(
                    length,
                    problem.help("write it with fewer digits, or with a larger or smaller unit"),
                );
            }
            Literal::NoUnit { length, unit, meant } => {
                let start = self.at + length - unit.len();
                let span = Span::new(start, self.at + length).shifted(self.base);
                self.fail(length, no_unit(&unit, span, meant.as_deref()));
            }
        }
    }

    fn text_in(&mut self, quote: char) {
        let inner = self.rest().get(1..).unwrap_or_default();
        if let Some(length) = inner.find(quote) {
            let text = inner.get(..length).unwrap_or_default().to_owned();
            return self.add(self.at + length + 2, Token::Text(text));
        }
        let length = self.rest().len();
        let problem = Diagnostic::error(&FORMULA_SYNTAX, "this text is never closed")
            .at(self.span(1), format!("the text begins here and needs a {quote} at its end"));
        self.fail(length, problem);
    }

    fn word(&mut self) {
        let letters = |letter: char| letter.is_alphanumeric() || letter == '_';
        let length = self.rest().find(|letter| !letters(letter)).unwrap_or(self.rest().len());
        let word = self.rest().get(..length).unwrap_or_default();
        match mark_of(word) {
            Some(mark) => self.add(self.at + length, Token::Mark(mark)),
            None if word == "in" => self.unit_of_result(),
            None => self.add(self.at + length, Token::Name(word.to_owned())),
        }
    }

    /// `in` takes all that follows as a unit, so that units of several words work there.
    fn unit_of_result(&mut self) {
        let after = self.rest().get(2..).unwrap_or_default();
        let unit = after.trim();
        match Unit::parse(unit) {
            Ok(unit) if !after.trim().is_empty() => self.add(self.text.len(), Token::In(unit)),
            _ => self.no_unit_of_result(after),
        }
    }

    fn no_unit_of_result(&mut self, after: &str) {
        let unit = after.trim();
        let length = self.rest().len();
        if unit.is_empty() {
            let problem = Diagnostic::error(&FORMULA_SYNTAX, "`in` needs a unit after it")
                .at(self.span(2), "the unit to show the result in is missing");
            return self.fail(length, problem.help("for example `caught / took in L/min`"));
        }
        let lead = after.len() - after.trim_start().len();
        let start = self.at + 2 + lead;
        let span = Span::new(start, start + unit.len()).shifted(self.base);
        let meant = Unit::parse(unit).err().and_then(|unknown| unknown.did_you_mean);
        let problem = no_unit(unit, span, meant.as_deref());
        self.fail(
            length,
            problem.note("`in` and a unit stand at the very end, to show the whole result in that unit"),
        );
    }

    fn mark(&mut self, next: char) {
        if let Some((wrong, right)) = FOREIGN.iter().find(|(wrong, _)| self.rest().starts_with(wrong)) {
            let span = self.span(wrong.len());
            let problem = Diagnostic::error(&FORMULA_SYNTAX, format!("`{wrong}` means nothing in a formula"))
                .at(span, format!("write `{right}`"))
                .replace(span, *right);
            return self.fail(wrong.len(), problem);
        }
        match mark_at(self.rest()) {
            Some((spelling, mark)) => self.add(self.at + spelling.len(), Token::Mark(mark)),
            None => self.strange(next),
        }
    }

    fn strange(&mut self, next: char) {
        let problem = Diagnostic::error(&FORMULA_SYNTAX, format!("`{next}` has no meaning in a formula"))
            .at(self.span(next.len_utf8()), "this cannot stand here");
        let starts_number =
            next == '.' && self.rest().get(1..2).is_some_and(|digit| digit.as_bytes()[0].is_ascii_digit());
        let problem = if starts_number {
            problem.help("write a zero before the point").replace(self.span(0), "0")
        } else {
            problem
        };
        self.fail(next.len_utf8(), problem);
    }

    /// Remembers a mistake and goes on after it; a plain one stands in, so that what follows is still read.
    fn fail(&mut self, length: usize, problem: Diagnostic) {
        self.mistakes.push(problem);
        self.at += length;
    }
}

/// What other notations use, and what a formula uses instead.
const FOREIGN: &[(&str, &str)] =
    &[("**", "^"), ("&&", "and"), ("||", "or"), ("<>", "!="), ("=<", "<="), ("=>", ">=")];

const UNITS: &str = "`bayhand calc --units` lists the units there are";

fn no_unit(unit: &str, span: Span, meant: Option<&str>) -> Diagnostic {
    let problem = Diagnostic::error(&UNIT_UNKNOWN, format!("there is no unit `{unit}`"))
        .at(span, "what stands after a number is its unit");
    match meant {
        Some(meant) => problem.help(format!("did you mean `{meant}`?")).replace(span, meant),
        None if is_name(unit) => {
            problem.note(UNITS).help(format!("to multiply by `{unit}`, put `*` before it"))
        }
        None => problem.help(UNITS),
    }
}

fn is_name(word: &str) -> bool {
    word.starts_with(|first: char| first.is_ascii_lowercase())
        && word.chars().all(|letter| letter.is_ascii_alphanumeric() || letter == '_')
}

/// Whether a token is this mark.
pub(super) fn is(token: &Token, mark: Mark) -> bool {
    matches!(token, Token::Mark(found) if *found == mark)
}
