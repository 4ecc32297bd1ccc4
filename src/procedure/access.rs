//! What a checked procedure tells those who use it.

use super::declarable::{Called, Declarable};
use super::rows::rows;
use super::{
    CheckedProcedure, Condition, Criterion, Ground, Header, Linked, Name, Named, Passage, Place, Reading,
    ReadingKind, RuleOff, Section, SectionId, Step, StepId,
};
use crate::formula::Typed;
use crate::quantity::Unit;
use crate::source::SourceText;

impl CheckedProcedure {
    /// What the procedure is called by others: its file name without the ending.
    pub fn id(&self) -> &str {
        &self.id
    }

    /// The title.
    pub fn title(&self) -> &str {
        &self.title
    }

    /// The text it was read from.
    pub fn text(&self) -> &SourceText {
        &self.text
    }

    /// The procedures that its steps link to, however deep, each once, in the order in which they are first met.
    pub fn linked(&self) -> &[Linked] {
        &self.linked
    }

    /// One of its texts: 0 is its own, the others are those of [`Self::linked`]. The spans of a step, its passages and
    /// its formulas point into the text that its `source` names.
    pub fn source(&self, source: usize) -> Option<&SourceText> {
        match source.checked_sub(1) {
            None => Some(&self.text),
            Some(place) => self.linked.get(place).map(|linked| &linked.text),
        }
    }

    /// Where a name is declared; of a name that several texts share, where it is declared first.
    pub fn place(&self, name: &Name) -> Option<Place> {
        self.places.get(name).copied()
    }

    /// The linked procedure that a name, or a step of that source, came with.
    pub fn origin(&self, source: usize) -> Option<&Linked> {
        self.linked.get(source.checked_sub(1)?)
    }

    /// What the front matter says of the file as a whole.
    pub fn header(&self) -> &Header {
        &self.header
    }

    /// What must be true before the first step.
    pub fn required(&self) -> &[String] {
        &self.header.required
    }

    /// What must be true before the run is closed.
    pub fn close_up(&self) -> &[String] {
        &self.header.close_up
    }

    /// The author's rules that do not hold for it, with the reasons.
    pub fn rules_off(&self) -> &[RuleOff] {
        &self.rules_off
    }

    /// What is said between the title and the first section.
    pub fn introduction(&self) -> &[Passage] {
        &self.introduction
    }

    /// The sections, in order.
    pub fn sections(&self) -> &[Section] {
        &self.sections
    }

    /// The steps and their parts, in reading order; a step's place here is its [`StepId`].
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// The steps of a section and their parts, in reading order.
    pub fn steps_in(&self, section: SectionId) -> impl Iterator<Item = &Step> {
        self.steps.iter().filter(move |step| step.section == section)
    }

    /// The section of that place.
    pub fn section(&self, id: SectionId) -> Option<&Section> {
        self.sections.get(id.0)
    }

    /// The step of that place.
    pub fn step(&self, id: StepId) -> Option<&Step> {
        self.steps.get(id.0)
    }

    /// The groups of fasteners that are tightened at a step, also those of its hold point.
    pub fn fasteners_at<'s>(&'s self, step: &'s Step) -> impl Iterator<Item = &'s Name> {
        let hold = step.hold.as_ref().and_then(|hold| self.hold(hold));
        step.fasteners.iter().chain(hold.into_iter().flat_map(|hold| &hold.fasteners))
    }

    /// The unit that a bare number is taken in: that on the scale of the instrument, else that of the reading.
    pub fn asked_unit<'p>(&'p self, reading: &'p Reading) -> Option<&'p Unit> {
        let ReadingKind::Quantity { unit, .. } = &reading.kind else { return None };
        let instrument = reading.instrument.as_ref().and_then(|name| self.tool(name));
        Some(instrument.and_then(|tool| tool.unit.as_ref()).unwrap_or(unit))
    }

    /// The acceptance criterion of a reading or a value; a choice, a text and a date have none.
    pub fn criterion(&self, name: &Name) -> Option<&Criterion> {
        if let Some(value) = self.value(name) {
            return Some(&value.criterion);
        }
        match &self.reading(name)?.kind {
            ReadingKind::Quantity { criterion, .. } | ReadingKind::Count { criterion } => Some(criterion),
            ReadingKind::Choice { .. }
            | ReadingKind::Text
            | ReadingKind::List { .. }
            | ReadingKind::File
            | ReadingKind::Date { .. } => None,
        }
    }

    /// The step at which a reading is taken.
    pub fn taken_at(&self, reading: &Name) -> Option<StepId> {
        self.home(reading).filter(|_| self.reading(reading).is_some())
    }

    /// What a condition rests on, in words: its formula, or what went wrong: `soak time missed`.
    pub fn condition_words(&self, condition: &Condition) -> String {
        match &condition.ground {
            Ground::If(formula) => formula.text().to_owned(),
            Ground::Missed(wait) => format!("{} missed", self.called(wait)),
            Ground::GaveUp(repeat) => format!("{} given up", self.called(repeat)),
            Ground::Failed(result) => format!("{} fails", self.called(result)),
        }
    }

    /// A formula with what each name stands for in its place.
    pub fn worded(&self, formula: &Typed) -> String {
        match formula.names() {
            // A name alone is said as it is; among signs its words need marks to be told from them.
            [one] if one.value == formula.text() => self.spoken(&one.value),
            _ => formula.worded(&|name| format!("[{}]", self.spoken(name))),
        }
    }

    /// What a name in a formula is called where the formula is said: a condition by what went wrong, or by its name.
    pub fn spoken(&self, name: &str) -> String {
        let name = Name::from(name);
        match self.condition(&name) {
            Some(condition) if condition.formula().is_none() => self.condition_words(condition),
            Some(_) => name.as_str().replace('_', " "),
            None => self.called(&name).to_owned(),
        }
    }

    /// The words a name is shown as; of one that names nothing here, the name.
    pub fn called<'name>(&'name self, name: &'name Name) -> &'name str {
        self.what(name).unwrap_or(name.as_str())
    }
}

macro_rules! access {
    ($($field:ident $one:ident $table:ident $key:literal $noun:literal $thing:ident;)*) => {
        impl CheckedProcedure {
            $(
                #[doc = concat!("`[", $key, "]`")]
                pub fn $field(&self) -> &Named<super::$thing> {
                    &self.tables.$field
                }

                #[doc = concat!("The ", $noun, " of that name.")]
                pub fn $one(&self, name: &Name) -> Option<&super::$thing> {
                    self.tables.$field.get(name)
                }
            )*

            /// The words a name is shown as: what it is, for whatever it names.
            pub fn what(&self, name: &Name) -> Option<&str> {
                $(if let Some(thing) = self.$one(name) {
                    return match thing.called() {
                        Called::Words(words) => Some(words),
                        Called::As(other) => self.what(other),
                        Called::Nothing => None,
                    };
                })*
                None
            }
        }
    };
}

rows!(access);
