//! What can be wrong with TOML, its keys, values and names, and what `bayhand explain` teaches about it.

use crate::source::Code;

/// All codes of this area, sorted by name.
pub static CODES: &[&Code] = &[
    &FORMAT_VERSION,
    &FORMULA_ESCAPED,
    &KEY_MISSING,
    &KEY_UNKNOWN,
    &NAME_SHAPE,
    &QUANTITY_UNREADABLE,
    &TEXT_CONTROL,
    &TEXT_EMPTY,
    &TOML_DUPLICATE,
    &TOML_SYNTAX,
    &VALUE_TYPE,
];

/// A formula with escapes in it.
pub static FORMULA_ESCAPED: Code = Code {
    name: "formula-escaped",
    summary: "a formula is written with backslash escapes",
    teaching: "\
A formula must stand in the file exactly as it is read, so that a message can point at the part of it that is
wrong. Write it between single quotes: nothing is an escape there.

Wrong: `if = \"look == \\\"clear\\\"\"`

Right: `if = 'look == \"clear\"'`
",
};

/// A key that must be there.
pub static KEY_MISSING: Code = Code {
    name: "key-missing",
    summary: "a key that must be there is missing",
    teaching: "\
Some keys have no default, because no default would be right for every job: what a reading is, what a hazard
does, who releases a hold point. The message names the key and shows a line that can be typed.

Wrong: `[readings.pan_temp]` with only `unit = \"°C\"` under it

Right: the same with `what = \"fluid temperature at the pan\"`
",
};

/// A key nobody knows.
pub static KEY_UNKNOWN: Code = Code {
    name: "key-unknown",
    summary: "a key has no meaning here",
    teaching: "\
A key that is not known is never skipped in silence: a limit under a misspelt key would not be a limit. Spell the
key as FORMAT.md does, or take it out.

Wrong: `maxi = \"93 °C\"`

Right: `max = \"93 °C\"`
",
};

/// Control characters in a text.
pub static TEXT_CONTROL: Code = Code {
    name: "text-control",
    summary: "a text holds characters that could disturb the screen",
    teaching: "\
Control characters and characters that turn the direction of writing can make a screen show something else than
the file says. They are made visible or replaced before the text is shown.

Wrong: `what = \"pan\\u001b[2Jtemperature\"`

Right: `what = \"pan temperature\"`
",
};

/// A text without words.
pub static TEXT_EMPTY: Code = Code {
    name: "text-empty",
    summary: "a text is empty",
    teaching: "\
An empty text tells the person at the vehicle nothing. Write the words, or take the key out where it is optional.

Wrong: `why = \"\"`

Right: `why = \"hot fluid stands higher\"`
",
};

/// The same key twice.
pub static TOML_DUPLICATE: Code = Code {
    name: "toml-duplicate",
    summary: "a key is written twice in the same table",
    teaching: "\
Only one of two values could count, and the file does not say which. Keep one, or give the second thing a name
of its own.

Wrong: `max = \"90 °C\"` and two lines further on `max = \"93 °C\"`

Right: one `max`
",
};

/// Not TOML.
pub static TOML_SYNTAX: Code = Code {
    name: "toml-syntax",
    summary: "the text is not TOML",
    teaching: "\
Front matter and vehicle sheets are TOML 1.0 or 1.1. The usual slips: a text without quotes, a quote that is not
closed, a table heading without its second bracket. A slip hides its own line or table; everything else is checked
all the same.

Wrong: `what = pan temperature`

Right: `what = \"pan temperature\"`
",
};

/// The wrong type of value.
pub static VALUE_TYPE: Code = Code {
    name: "value-type",
    summary: "a value is of the wrong type",
    teaching: "\
Each key expects one type of value: a text in quotes, a list in brackets, a date without quotes, a table.

Wrong: `choices = \"clear, cloudy\"`

Right: `choices = [\"clear\", \"cloudy\"]`
",
};

/// The format's version.
pub static FORMAT_VERSION: Code = Code {
    name: "format-version",
    summary: "the file is written in a format that is not known",
    teaching: "\
`format` is the version of the file format, not the revision of the procedure. A format that is not known is not
guessed at.

Wrong: `format = \"B\"`

Right: `format = 1` and `revision = \"B\"`
",
};

/// A badly formed name.
pub static NAME_SHAPE: Code = Code {
    name: "name-shape",
    summary: "something is not written as a name is written",
    teaching: "\
A name begins with a small letter and goes on with small letters, digits and underscores. It is written the same
way in the front matter, in formulas and in the text.

Wrong: `[readings.PanTemp]`, `[Pan_Temp]`

Right: `[readings.pan_temp]`, `[pan_temp]`
",
};

/// A quantity that cannot be read.
pub static QUANTITY_UNREADABLE: Code = Code {
    name: "quantity-unreadable",
    summary: "a text is not a number with a unit",
    teaching: "\
In a file a quantity is a number with a point as decimal mark, a space and a unit.

Wrong: `accuracy = \"about 1 psi\"`, `time = \"2\"`

Right: `accuracy = \"1 psi\"`, `time = \"2 h\"`
",
};
