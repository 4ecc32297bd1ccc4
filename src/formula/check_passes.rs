//! The rules of a call that goes over the passes of a repeat.

use super::Type;
use super::call_mistakes::{given_again, out_of_order};
use super::check::Checker;
use super::evaluate::whole;
use super::passes::{LAST, Over, is_value};
use super::passes_mistakes as mistakes;
use super::proof::Passes;
use super::proof::{Proved, Step};
use super::tree::{Argument, Call, Node};
use crate::quantity::Kind;
use crate::trade::{Function, Sort};

impl Checker<'_> {
    pub(super) fn over_passes(&mut self, over: Over, call: &Call) -> Option<(Step, Type)> {
        let mistakes = self.mistakes.len();
        self.in_order(call);
        let named = self.named(over, call);
        let newest = self.newest(over, call);
        let (of, name) = named.filter(|_| self.mistakes.len() == mistakes)?;
        let gives = self.made_of(over, &of, call)?;
        Some((Step::Passes(Box::new(Passes { over, of, name, newest })), gives))
    }

    fn in_order(&mut self, call: &Call) {
        let mut named = call.arguments.iter().skip_while(|argument| argument.name.is_none());
        if let Some(argument) = named.find(|argument| argument.name.is_none()) {
            self.mistakes.push(out_of_order(argument.value.span));
        }
    }

    /// The name whose passes are meant.
    fn named(&mut self, over: Over, call: &Call) -> Option<(Proved, String)> {
        let values: Vec<&Argument> = call.arguments.iter().filter(|argument| is_value(argument)).collect();
        let [first, more @ ..] = values.as_slice() else {
            return self.wrong(mistakes::no_name(over, call));
        };
        let proved = self.prove(&first.value);
        for argument in more {
            self.prove(&argument.value);
        }
        if let Some(second) = more.first() {
            return self.wrong(mistakes::several(over, second.value.span));
        }
        let Node::Name(name) = &first.value.node else {
            let mistake = mistakes::not_a_name(over, first.value.span);
            let is_nowhere = self.scope.names().is_empty();
            return self.wrong(if is_nowhere { mistakes::nowhere(mistake) } else { mistake });
        };
        let proved = proved?;
        if !self.scope.has_passes(name) {
            let mistake = self.with_declaration(mistakes::no_passes(over, name, proved.span), &proved);
            return self.wrong(mistake);
        }
        Some((proved, name.clone()))
    }

    /// How many of the newest passes are meant; `None` when all are, or when a mistake is noted.
    fn newest(&mut self, over: Over, call: &Call) -> Option<Proved> {
        let mut newest: Vec<&Argument> = Vec::new();
        for argument in call.arguments.iter().filter(|argument| !is_value(argument)) {
            match &argument.name {
                Some(name) if name.value != LAST || !over.takes_newest() => {
                    self.mistakes.push(mistakes::no_such_argument(over, &name.value, name.span));
                }
                _ => newest.push(argument),
            }
        }
        if let [first, second, ..] = newest.as_slice() {
            self.mistakes.push(given_again(LAST, first.value.span, second.value.span));
        }
        self.how_many(newest.first()?)
    }

    fn how_many(&mut self, argument: &Argument) -> Option<Proved> {
        let proved = self.prove(&argument.value)?;
        if proved.gives != Type::NUMBER {
            let mistake = self.with_declaration(mistakes::no_number(&proved), &proved);
            return self.wrong(mistake);
        }
        match &proved.step {
            Step::Number(number) if whole(number.base()).is_none_or(|number| number < 1) => {
                self.wrong(mistakes::no_count(proved.span))
            }
            _ => Some(proved),
        }
    }

    fn made_of(&mut self, over: Over, of: &Proved, call: &Call) -> Option<Type> {
        match over {
            Over::Count => Some(Type::NUMBER),
            Over::Before | Over::First | Over::Last => Some(of.gives),
            Over::Fold(function) => {
                self.put_together(function, of)?;
                self.result(function, &[vec![of.clone()]], call)
            }
        }
    }

    /// Whether a function can put values of this sort together.
    fn put_together(&mut self, function: &Function, of: &Proved) -> Option<()> {
        let only_amounts =
            function.parameters.iter().any(|parameter| matches!(parameter.sort, Sort::SameAmount));
        let mistake = match of.gives {
            Type::Quantity { kind: Kind::Point, .. } if only_amounts => mistakes::on_a_scale(function, of),
            Type::Quantity { .. } => return Some(()),
            Type::Truth | Type::Text => mistakes::no_quantity(function, of),
        };
        let mistake = self.with_declaration(mistake, of);
        self.wrong(mistake)
    }
}
