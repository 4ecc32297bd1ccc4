//! The tables of the front matter whose entries have names: one row each. Everything that is done with all of
//! them is made from these rows; what is particular to one stands in its own file in `written/`.

use super::check::{Proved, Prover};
use super::declarable::{Declarable, Entry, Spoken, checked, entries, join, prove_all, spoken_in};
use super::document::StepNumbers;
use super::link::Renaming;
use super::written::{WrittenRuleOff, header, rules_off};
use super::{CheckedProcedure, Fasteners, Header, Hold, LevelOfUse, Name, Named, Reading, Repeat};
use crate::source::Spanned;
use crate::table::Fields;

pub use super::written::{
    Alternatives, Check, Condition, Critical, Ground, Hazard, NamedStep, Role, Signal, StoppingPoint, Supply,
    Tool, Typing, Value, VehicleValue, Wait, Watch, Witness,
};

macro_rules! tables {
    ($($field:ident $one:ident $table:ident $key:literal $noun:literal $thing:ident;)*) => {
        /// The tables whose entries have names.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub(super) enum Table {
            $(#[doc = concat!("`[", $key, "]`")] $table,)*
        }

        impl Table {
            /// The key it has in the front matter.
            pub const fn key(self) -> &'static str {
                match self { $(Self::$table => $key,)* }
            }

            /// What one of its entries is.
            pub const fn noun(self) -> &'static str {
                match self { $(Self::$table => $noun,)* }
            }

            /// Whether a step that begins with such a name says with it something of the whole step.
            pub const fn belongs_in_front(self) -> bool {
                match self { $(Self::$table => <$thing>::IN_FRONT,)* }
            }

            /// What becomes of an entry that nothing mentions.
            pub const fn unmentioned(self) -> &'static str {
                match self { $(Self::$table => <$thing>::UNMENTIONED,)* }
            }
        }

        /// Everything the front matter declares, as written.
        #[derive(Clone, Debug, Default)]
        pub struct Declarations {
            /// The keys above the first table.
            pub(super) header: Option<Header>,
            $(#[doc = concat!("`[", $key, "]`")] pub(super) $field: Vec<Entry<<$thing as Declarable>::Written>>,)*
            /// `[rules_off]`
            pub(super) rules_off: Vec<WrittenRuleOff>,
            /// Numbers of steps in its texts.
            pub(super) step_numbers: Vec<StepNumbers>,
        }

        impl Declarations {
            /// Reads all but the numbers of steps.
            pub(super) fn read(front: &mut Fields<'_, '_, '_>) -> Self {
                Self {
                    header: header(front),
                    $($field: entries::<$thing>(front, Table::$table),)*
                    rules_off: rules_off(front),
                    step_numbers: Vec::new(),
                }
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
                $(spoken.extend(spoken_in::<$thing>(&self.$field));)*
                spoken
            }

            /// Proves every formula.
            pub(super) fn prove(&self, prover: &mut Prover<'_>) {
                $(prove_all::<$thing>(&self.$field, prover);)*
            }
        }

        /// Everything the front matter declares, its names followed and its formulas proved.
        #[derive(Clone, Debug)]
        pub(super) struct Tables {
            $(pub(super) $field: Named<$thing>,)*
        }

        impl Tables {
            /// What was written, checked.
            pub(super) fn of(proved: &Proved<'_>) -> Self {
                Self { $($field: checked(&proved.declarations.$field, proved),)* }
            }

            /// Adds what a linked procedure declares, under its new names.
            pub(super) fn take_in(&mut self, linked: &Self, to: &Renaming) {
                $(join(&mut self.$field, &linked.$field, to);)*
            }
        }

        impl CheckedProcedure {
            $(
                #[doc = concat!("`[", $key, "]`")]
                pub fn $field(&self) -> &Named<$thing> {
                    &self.tables.$field
                }

                #[doc = concat!("The ", $noun, " of that name.")]
                pub fn $one(&self, name: &Name) -> Option<&$thing> {
                    self.tables.$field.get(name)
                }
            )*

            /// The words a name is shown as: what it is, for whatever it names.
            pub fn what(&self, name: &Name) -> Option<&str> {
                $(if let Some(thing) = self.$one(name) {
                    return thing.words(self);
                })*
                None
            }
        }
    };
}

tables! {
//  all of them      one of them     table           its key            an entry in words     its type
    roles            role            Roles           "roles"            "role"                Role;
    tools            tool            Tools           "tools"            "tool"                Tool;
    materials        material        Materials       "materials"        "material"            Supply;
    parts            part            Parts           "parts"            "part"                Supply;
    vehicle          vehicle_value   Vehicle         "vehicle"          "vehicle value"       VehicleValue;
    hazards          hazard          Hazards         "hazards"          "hazard"              Hazard;
    holds            hold            Holds           "holds"            "hold point"          Hold;
    readings         reading         Readings        "readings"         "reading"             Reading;
    values           value           Values          "values"           "computed value"      Value;
    conditions       condition       Conditions      "conditions"       "condition"           Condition;
    waits            wait            Waits           "waits"            "wait"                Wait;
    repeats          repeat          Repeats         "repeats"          "repeat"              Repeat;
    alternatives     ways            Alternatives    "alternatives"     "choice of ways"      Alternatives;
    levels           level           Levels          "levels"           "level of use"        LevelOfUse;
    fasteners        fastener_group  Fasteners       "fasteners"        "group of fasteners"  Fasteners;
    checks           check           Checks          "checks"           "check"               Check;
    witnesses        witness         Witnesses       "witnesses"        "witness point"       Witness;
    critical         critical_act    Critical        "critical"         "critical act"        Critical;
    watches          watch           Watches         "watches"          "limit in force"      Watch;
    stopping_points  stopping_point  StoppingPoints  "stopping_points"  "stopping point"      StoppingPoint;
    named_steps      named_step      Steps           "steps"            "step"                NamedStep;
}
