//! The proof that a formula makes sense, before anything is known of the values. All mistakes are found, not
//! only the first; a part that is wrong is not held against what it stands in.

use super::codes::{FUNCTION_UNKNOWN, NAME_UNKNOWN, TEMPERATURE_SCALE, TYPE_MISMATCH, UNIT_MISMATCH};
use super::functions;
use super::passes::Over;
use super::proof::{Proved, Step};
use super::tree::{Choose, Node, Written};
use super::{Scope, Type};
use crate::quantity::Kind;
use crate::source::suggest::nearest;
use crate::source::{Diagnostic, Span};

/// What is needed to check a formula, and what was found.
pub(super) struct Checker<'a> {
    pub(super) scope: &'a dyn Scope,
    pub(super) mistakes: Vec<Diagnostic>,
}

impl Checker<'_> {
    /// The proof of one part; `None` when it or something in it is wrong, which is then among the mistakes.
    pub(super) fn prove(&mut self, written: &Written) -> Option<Proved> {
        let span = written.span;
        let (step, gives) = match &written.node {
            Node::Number(quantity) => (Step::Number(quantity.clone()), Type::of(&quantity.unit)),
            Node::Text(text) => (Step::Text(text.clone()), Type::Text),
            Node::Truth(truth) => (Step::Truth(*truth), Type::Truth),
            Node::Name(name) => (Step::Name(name.clone()), self.name(name, span)?),
            Node::Negate(inner) => self.negate(inner)?,
            Node::Not(inner) => self.not(inner)?,
            Node::Binary(binary) => self.binary(binary)?,
            Node::Choose(choose) => self.choose(choose)?,
            Node::Call(call) => self.call(call)?,
        };
        Some(Proved { step, gives, span })
    }

    /// Remembers a mistake.
    pub(super) fn wrong<T>(&mut self, mistake: Diagnostic) -> Option<T> {
        self.mistakes.push(mistake);
        None
    }

    fn name(&mut self, name: &str, span: Span) -> Option<Type> {
        let found = self.scope.type_of(name);
        if found.is_none() {
            let mistake = self.no_such_name(name, span);
            self.mistakes.push(mistake);
        }
        found
    }

    fn no_such_name(&self, name: &str, span: Span) -> Diagnostic {
        let example = functions::find(name).map(|function| function.example.to_owned());
        if let Some(example) = example.or_else(|| Over::only(name).map(Over::signature)) {
            return Diagnostic::error(&NAME_UNKNOWN, format!("`{name}` is a function"))
                .at(span, "its arguments are missing")
                .help(format!("call it: `{example}`"));
        }
        let mistake = Diagnostic::error(&NAME_UNKNOWN, format!("there is no `{name}` here"));
        if !self.scope.has_names() {
            return mistake.at(span, "nothing has a name here").help("write the value itself, with its unit");
        }
        let mistake = mistake.at(span, "not declared");
        let Some(meant) = self.scope.nearest(name) else {
            return mistake.help("declare it among the readings, the values or what is known of the vehicle");
        };
        let mistake = mistake.help(format!("did you mean `{meant}`?")).replace(span, meant.as_str());
        match self.scope.declared_at(&meant) {
            Some(declared) => mistake.also(declared, format!("`{meant}` is declared here")),
            None => mistake,
        }
    }

    /// Said of a call of something that is no function.
    pub(super) fn no_such_function(&self, name: &str, span: Span) -> Diagnostic {
        let mistake = Diagnostic::error(&FUNCTION_UNKNOWN, format!("there is no function `{name}`"));
        if self.scope.type_of(name).is_some() {
            return mistake
                .at(span, "this is a name, and a bracket follows it")
                .help(format!("to multiply, write `{name} * (...)`"));
        }
        let mistake = mistake.at(span, "a name before a bracket is a function");
        match nearest(name, functions::names().chain(Over::names())) {
            Some(meant) => mistake.help(format!("did you mean `{meant}`?")).replace(span, meant),
            None => mistake.help("`bayhand calc --list` names the functions there are"),
        }
    }

    fn negate(&mut self, inner: &Written) -> Option<(Step, Type)> {
        let inner = self.prove(inner)?;
        self.amount(&inner, "a minus sign needs an amount")?;
        let gives = inner.gives;
        Some((Step::Negate(Box::new(inner)), gives))
    }

    fn not(&mut self, inner: &Written) -> Option<(Step, Type)> {
        let inner = self.prove(inner)?;
        self.truth(&inner, "`not` needs true or false")?;
        Some((Step::Not(Box::new(inner)), Type::Truth))
    }

    fn choose(&mut self, choose: &Choose) -> Option<(Step, Type)> {
        let condition = self.prove(&choose.condition);
        if let Some(condition) = &condition {
            self.truth(condition, "`if` needs true or false");
        }
        let (yes, no) = (self.prove(&choose.yes), self.prove(&choose.no));
        let (yes, no) = (yes?, no?);
        if yes.gives != no.gives {
            let mistake = self.different("both outcomes of an `if` must be of one sort", &yes, &no);
            return self.wrong(mistake);
        }
        let gives = yes.gives;
        Some((Step::Choose(Box::new((condition?, yes, no))), gives))
    }

    /// Whether a part is true or false; else a mistake is noted.
    pub(super) fn truth(&mut self, part: &Proved, message: &str) -> Option<()> {
        if part.gives == Type::Truth {
            return Some(());
        }
        let mistake =
            Diagnostic::error(&TYPE_MISMATCH, message).at(part.span, format!("this is {}", part.gives));
        let mistake = self.with_declaration(mistake, part);
        self.wrong(mistake.help("compare it with something, for example `supply > 30 psi`"))
    }

    /// Whether a part is a quantity; else a mistake is noted.
    pub(super) fn quantity(&mut self, part: &Proved, message: &str) -> Option<()> {
        if matches!(part.gives, Type::Quantity { .. }) {
            return Some(());
        }
        let mistake =
            Diagnostic::error(&TYPE_MISMATCH, message).at(part.span, format!("this is {}", part.gives));
        let mistake = self.with_declaration(mistake, part);
        self.wrong(mistake)
    }

    /// Whether a part is a quantity and no temperature on a scale; else a mistake is noted.
    pub(super) fn amount(&mut self, part: &Proved, message: &str) -> Option<()> {
        self.quantity(part, message)?;
        if !matches!(part.gives, Type::Quantity { kind: Kind::Point, .. }) {
            return Some(());
        }
        if part.gives == Type::DATE {
            let mistake = Diagnostic::error(&UNIT_MISMATCH, message).at(part.span, "this is a date");
            let mistake = self.with_declaration(mistake, part);
            return self
                .wrong(mistake.help("take the days from another date first: `2026-11-29 - 2026-11-01`"));
        }
        let mistake =
            Diagnostic::error(&TEMPERATURE_SCALE, message).at(part.span, "this is a temperature on a scale");
        let mistake = self.with_declaration(mistake, part);
        self.wrong(mistake.help("take its difference from another temperature first: `pan_temp - room_temp`"))
    }

    /// A label at the declaration of a part that is a name.
    pub(super) fn with_declaration(&self, mistake: Diagnostic, part: &Proved) -> Diagnostic {
        let Step::Name(name) = &part.step else {
            return mistake;
        };
        match self.scope.declared_at(name) {
            Some(declared) => mistake.also(declared, format!("`{name}` is declared here")),
            None => mistake,
        }
    }
}
