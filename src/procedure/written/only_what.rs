//! Things that are only named: choices of ways, stopping points, steps.

use crate::procedure::Name;
use crate::procedure::check::Proved;
use crate::procedure::declarable::{Called, Declarable};
use crate::procedure::link::all_fields;
use crate::table::Fields;

macro_rules! only_named {
    ($(#[$about:meta])* $thing:ident, $what:literal) => {
        $(#[$about])*
        #[derive(Clone, Debug)]
        pub struct $thing {
            #[doc = $what]
            pub what: String,
        }

        impl Declarable for $thing {
            type Written = String;
            const IN_FRONT: bool = true;

            fn read(fields: &mut Fields<'_, '_, '_>) -> Option<String> {
                only_what(fields)
            }

            fn checked(_name: &Name, written: &String, _proved: &Proved<'_>) -> Option<Self> {
                Some(Self { what: written.clone() })
            }

            fn called(&self) -> Called<'_> {
                Called::Words(&self.what)
            }
        }

        all_fields! { $thing { what } }
    };
}

only_named! {
    /// Ways of which exactly one is gone: the parts of the step that names it. `[alternatives]`.
    Alternatives, "What they are ways to do."
}

only_named! {
    /// A state of things in which the job can rest. `[stopping_points]`.
    StoppingPoint, "The state."
}

/// A step that texts speak of.
#[derive(Clone, Debug)]
pub struct NamedStep {
    /// What is done there.
    pub what: String,
    /// What a mention of it shows: `step 4.2 (fill the first part)`.
    pub shown: String,
}

/// `[steps]`.
impl Declarable for NamedStep {
    type Written = String;
    const IN_FRONT: bool = true;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<String> {
        only_what(fields)
    }

    fn checked(_name: &Name, written: &String, _proved: &Proved<'_>) -> Option<Self> {
        Some(Self { what: written.clone(), shown: String::new() })
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.shown)
    }
}

all_fields! { NamedStep { what, shown } }

/// Something that is only named.
fn only_what(fields: &mut Fields<'_, '_, '_>) -> Option<String> {
    fields.need_text("what", "the vehicle stands on its wheels").map(|what| what.value)
}
