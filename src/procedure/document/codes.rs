//! What can be wrong with the shape of a procedure file.

use crate::source::{Code, Diagnostic, Span};

/// All codes of this stage, sorted by name.
pub static CODES: &[&Code] = &[
    &BYTE_ORDER_MARK,
    &FRONT_MATTER_EMPTY,
    &FRONT_MATTER_FENCE,
    &FRONT_MATTER_MISSING,
    &FRONT_MATTER_NOT_FIRST,
    &FRONT_MATTER_TWICE,
    &FRONT_MATTER_UNCLOSED,
    &FRONT_MATTER_YAML,
    &NESTING_TOO_DEEP,
    &TABLE_TOO_WIDE,
    &TITLE_STRAY,
];

/// A byte-order mark.
pub static BYTE_ORDER_MARK: Code = Code {
    name: "byte-order-mark",
    summary: "the file begins with a byte-order mark",
    teaching: "\
Some editors put three invisible bytes in front of a file. bayhand reads past them, but other programs take the
first `+++` for prose because of them.

Wrong: saved as \"UTF-8 with BOM\"

Right: saved as \"UTF-8\"
",
};

/// Nothing between the fences.
pub static FRONT_MATTER_EMPTY: Code = Code {
    name: "front-matter-empty",
    summary: "nothing stands between the two `+++` lines",
    teaching: "\
The front matter says which revision this is and names every reading, hazard and hold point. Without it there is
nothing to check and nothing to run.

Wrong: a `+++` line and another one right after it

Right: `format = 1`, `revision = \"A\"` and the rest between them
",
};

/// Company on a fence's line.
pub static FRONT_MATTER_FENCE: Code = Code {
    name: "front-matter-fence",
    summary: "a `+++` line holds more than the three signs",
    teaching: "\
The lines around the front matter hold three plus signs and nothing else.

Wrong: `+++ toml`, `++++`

Right: `+++`
",
};

/// No front matter.
pub static FRONT_MATTER_MISSING: Code = Code {
    name: "front-matter-missing",
    summary: "the file has no front matter",
    teaching: "\
A procedure begins with TOML between two `+++` lines. An ordinary Markdown file has none, and nothing in it could
be measured, judged or held.

Wrong: a file whose first line is `# Cooler flow`

Right: a file whose first line is `+++`
",
};

/// Something in front of the front matter.
pub static FRONT_MATTER_NOT_FIRST: Code = Code {
    name: "front-matter-not-first",
    summary: "something stands before the front matter",
    teaching: "\
The very first line is `+++`. An empty line or a title in front of it turns the front matter into prose for every
other program that reads the file.

Wrong: an empty line, then `+++`

Right: `+++` on line 1
",
};

/// A second front matter.
pub static FRONT_MATTER_TWICE: Code = Code {
    name: "front-matter-twice",
    summary: "a second front matter stands in the body",
    teaching: "\
There is one front matter, at the beginning. A later `+++` block would be read as prose and its limits would never
be judged.

Wrong: a `[readings]` table between `+++` lines in the middle of the text

Right: the same table moved up to the others
",
};

/// No end of the front matter.
pub static FRONT_MATTER_UNCLOSED: Code = Code {
    name: "front-matter-unclosed",
    summary: "the front matter has no second `+++` line",
    teaching: "\
Everything down to the second `+++` line is TOML. Without that line the steps would be taken for TOML too.

Wrong: `+++`, the tables, `# Title`

Right: `+++`, the tables, `+++`, `# Title`
",
};

/// Another language's fences.
pub static FRONT_MATTER_YAML: Code = Code {
    name: "front-matter-yaml",
    summary: "the front matter stands between `---` lines",
    teaching: "\
`---` marks front matter in another language in which `no` and `1:30` are not what they look like. Here it is TOML
between `+++` lines: texts in quotes, one meaning for each value.

Wrong: `---`, `revision: B`, `---`

Right: `+++`, `revision = \"B\"`, `+++`
",
};

/// Too deep.
pub static NESTING_TOO_DEEP: Code = Code {
    name: "nesting-too-deep",
    summary: "lists or quotes are nested deeper than 64",
    teaching: "\
Nobody keeps the place in parts of parts of parts. Sixty-four levels are read; a person needs two or three.

Wrong: a list in a list in a list ... sixty-five times

Right: a `##` section of its own
",
};

/// Too wide.
pub static TABLE_TOO_WIDE: Code = Code {
    name: "table-too-wide",
    summary: "a table has more than 64 columns",
    teaching: "\
A data sheet is read at the vehicle. Put what belongs together into rows.

Wrong: one column for each of a hundred bolts

Right: one row for each bolt
",
};

/// A title that is not the first heading, or not the only one.
pub static TITLE_STRAY: Code = Code {
    name: "title-stray",
    summary: "a `#` heading stands where none belongs",
    teaching: "\
A file is one procedure with one title: the `#` heading right after the front matter. Sections have `##`.

Wrong: `# Fill` and `# Level check` in one file

Right: `# Filling`, then `## Fill` and `## Level check`
",
};

/// A `+++` line in the body.
pub(super) fn second_front_matter(here: Span) -> Diagnostic {
    Diagnostic::error(&FRONT_MATTER_TWICE, "a second front matter stands in the body")
        .at(here, "read as prose, not as TOML")
        .help("move its tables up into the front matter at the beginning")
}
