//! All tables of the front matter together: as written, and checked.

use super::check::{Names, Proved, Prover};
use super::declarable::{Declarable, Spoken, checked, declared, entries, join, prove_all, spoken_in};
use super::document::StepNumbers;
use super::link::Renaming;
use super::rows::rows;
use super::written::{Entries, WrittenRuleOff, header, rules_off};
use super::{Header, Name, Named, Table};
use crate::source::Spanned;
use crate::table::Fields;

/// What slips in the TOML took away of the front matter.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Loss {
    /// Nothing.
    #[default]
    Nothing,
    /// What stands under keys and names that can be told.
    Things,
    /// Also names that cannot be told.
    Names,
}

macro_rules! tables {
    ($($field:ident $one:ident $table:ident $key:literal $noun:literal $thing:ident;)*) => {
        impl Table {
            /// Whether a step that begins with such a name says with it something of the whole step.
            pub const fn belongs_in_front(self) -> bool {
                match self { $(Self::$table => <super::$thing>::IN_FRONT,)* }
            }

            /// What becomes of an entry that nothing mentions.
            pub const fn unmentioned(self) -> &'static str {
                match self { $(Self::$table => <super::$thing>::UNMENTIONED,)* }
            }
        }

        /// Everything the front matter declares, as written.
        #[derive(Clone, Debug, Default)]
        pub struct Declarations {
            /// The keys above the first table.
            pub(super) header: Option<Header>,
            $(#[doc = concat!("`[", $key, "]`")] pub(super) $field: Entries<<super::$thing as Declarable>::Written>,)*
            /// `[rules_off]`
            pub(super) rules_off: Vec<WrittenRuleOff>,
            /// What slips took away.
            pub(super) loss: Loss,
            /// Numbers of steps in its texts.
            pub(super) step_numbers: Vec<StepNumbers>,
        }

        impl Declarations {
            /// Reads all but the numbers of steps.
            pub(super) fn read(front: &mut Fields<'_, '_, '_>) -> Self {
                Self {
                    header: header(front),
                    $($field: entries::<super::$thing>(front, Table::$table),)*
                    rules_off: rules_off(front),
                    loss: Loss::Nothing,
                    step_numbers: Vec::new(),
                }
            }

            /// Every name with what a formula may take it for. Of a name that is declared twice the first counts.
            pub(super) fn declared(&self) -> Names {
                let mut all = Vec::new();
                $(all.extend(self.$field.iter().map(|entry| declared::<super::$thing>(entry, Table::$table)));)*
                all.sort_by_key(|(_, declared)| declared.span);
                all.into_iter().collect()
            }

            /// Every name, the table it stands in and where, in the order of the file.
            pub(super) fn names(&self) -> Vec<(&Spanned<Name>, Table)> {
                let mut names = Vec::new();
                $(names.extend(self.$field.iter().map(|entry| (&entry.name, Table::$table)));)*
                names.sort_by_key(|(name, _)| name.span);
                names
            }

            /// Whether every entry could be read: one that could not may speak of any name.
            pub(super) fn all_read(&self) -> bool {
                true $(&& self.$field.iter().all(|entry| entry.thing.is_some()))*
            }

            /// Every name that an entry speaks of, beside those in formulas.
            pub(super) fn spoken(&self) -> Vec<Spoken<'_>> {
                let mut spoken = Vec::new();
                $(spoken.extend(spoken_in::<super::$thing>(&self.$field));)*
                spoken
            }

            /// Proves every formula.
            pub(super) fn prove(&self, prover: &mut Prover<'_>) {
                $(prove_all::<super::$thing>(&self.$field, prover);)*
            }
        }

        /// Everything the front matter declares, its names followed and its formulas proved.
        #[derive(Clone, Debug)]
        pub(super) struct Tables {
            $(pub(super) $field: Named<super::$thing>,)*
        }

        impl Tables {
            /// What was written, checked.
            pub(super) fn of(declarations: &Declarations, proved: &Proved<'_>) -> Self {
                Self { $($field: checked(&declarations.$field, proved),)* }
            }

            /// Adds what a linked procedure declares, under its new names.
            pub(super) fn take_in(&mut self, linked: &Self, to: &Renaming) {
                $(join(&mut self.$field, &linked.$field, to);)*
            }
        }
    };
}

rows!(tables);
