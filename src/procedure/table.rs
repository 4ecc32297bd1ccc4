//! Which table of the front matter a name stands in.

use std::fmt;

use super::rows::rows;

macro_rules! table {
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
        }
    };
}

rows!(table);

impl fmt::Display for Table {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.noun())
    }
}
