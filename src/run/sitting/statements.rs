//! What must be true of the whole job: that the procedure is for this vehicle, what is required before the first step,
//! what closes the job up after the last.

use crate::run::sitting::event::InterruptionAsk;
use crate::run::sitting::facts::Statement;
use crate::run::view::View;

impl Statement {
    /// Where the run stands, in a word: `required 1`.
    pub(in crate::run) fn label(self) -> String {
        match self {
            Self::Required(place) => format!("required {}", place + 1),
            Self::CloseUp(place) => format!("close-up {}", place + 1),
        }
    }

    /// What it says.
    pub fn words(self, view: View<'_>) -> &str {
        let procedure = &view.book.procedure;
        let (list, place) = match self {
            Self::Required(place) => (procedure.required(), place),
            Self::CloseUp(place) => (procedure.close_up(), place),
        };
        list.get(place).map_or("", String::as_str)
    }
}

impl View<'_> {
    /// Before the first step: the scope, then what is required.
    pub(in crate::run) fn ask_required(self) -> Option<InterruptionAsk> {
        if self.state.interruption.covered.is_none() {
            return Some(InterruptionAsk::Scope);
        }
        let required = (0..self.book.procedure.required().len()).map(Statement::Required);
        self.first_unstated(required)
    }

    /// After the last step. What was said before it was done says nothing of now.
    pub(in crate::run) fn ask_close_up(self) -> Option<InterruptionAsk> {
        self.first_unstated(self.close_up())
    }

    fn first_unstated(self, mut statements: impl Iterator<Item = Statement>) -> Option<InterruptionAsk> {
        statements.find(|statement| !self.is_stated(*statement)).map(InterruptionAsk::Statement)
    }

    fn close_up(self) -> impl Iterator<Item = Statement> {
        (0..self.book.procedure.close_up().len()).map(Statement::CloseUp)
    }

    fn is_stated(self, statement: Statement) -> bool {
        let last_done = match statement {
            Statement::Required(_) => 0,
            Statement::CloseUp(_) => self.state.last_work.as_ref().map_or(0, |(_, stamp)| stamp.seq),
        };
        let stated = self.state.interruption.stated.get(&statement);
        stated.is_some_and(|stamp| stamp.seq > last_done)
            && !self.state.interruption.unmet.contains_key(&statement)
    }

    /// The statements about the whole job that are still to be confirmed before the run can be closed.
    pub(in crate::run) fn unstated(self) -> Vec<Statement> {
        let required = (0..self.book.procedure.required().len()).map(Statement::Required);
        required.chain(self.close_up()).filter(|statement| !self.is_stated(*statement)).collect()
    }
}
