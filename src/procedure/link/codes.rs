//! What can be wrong with a link to another procedure.

use crate::source::Code;

/// All codes of this folder, sorted by name.
pub static CODES: &[&Code] =
    &[&IMAGE_MISSING, &LINK_BROKEN, &LINK_CIRCLE, &LINK_MISSING, &LINK_NAME, &LINK_PART, &LINK_TOO_DEEP];

/// A picture that is not there.
pub static IMAGE_MISSING: Code = Code {
    name: "image-missing",
    summary: "a picture is not there, or is none that can be put on a page",
    teaching: "\
The address of a picture is a path, seen from the folder of the file that it stands in, with `/` between the
folders. On the working copy it stands itself: PNG, JPEG, GIF or WebP, of 8 MiB at most. In the terminal, and where
it cannot be had, its description stands with its address.

Wrong: `![bolt order on the flange](flnge.png)` beside a file `flange.png`; a drawing as SVG

Right: `![bolt order on the flange](flange.png)`
",
};

/// The other procedure has errors.
pub static LINK_BROKEN: Code = Code {
    name: "link-broken",
    summary: "the procedure that a step links to cannot be run",
    teaching: "\
A step that links to another procedure runs it there and comes back. So the other procedure must be as sound as
this one: what is wrong with it is shown beside its own text. A page that is no procedure may be linked to from a
paragraph outside the steps or from a note, where a link is only words.

Wrong: `2. [Flush the lines](flush.md).` while `flush.md` has an error, or is a page without front matter

Right: mend `flush.md`; or write `> See [the notes](notes.md).` as a note of the step
",
};

/// Procedures that run each other.
pub static LINK_CIRCLE: Code = Code {
    name: "link-circle",
    summary: "procedures link to each other in a circle",
    teaching: "\
A linked procedure is run and then the work comes back to the step after the link. In a circle it would never
come back.

Wrong: `flush.md` links to `cooler.md`, and `cooler.md` links to `flush.md`

Right: put what both need into a third procedure; or name the other one in a note
",
};

/// Nothing at the address.
pub static LINK_MISSING: Code = Code {
    name: "link-missing",
    summary: "the procedure that a step links to is not there",
    teaching: "\
The address of a link is a path, seen from the folder of the file that holds the link, with `/` between folders.

Wrong: `[Flush the lines](flsh.md)` beside a file `flush.md`

Right: `[Flush the lines](flush.md)`
",
};

/// A shared name that means two things.
pub static LINK_NAME: Code = Code {
    name: "link-name",
    summary: "a role or a vehicle value of a linked procedure has a name that means something else here",
    teaching: "\
Roles and vehicle values are shared by name between a procedure and those that it links to: `lead` is one person,
and `flow_min` is looked up once. Everything else stays apart. So a shared name must mean the same in each file: a
role a role, a vehicle value a vehicle value of the same kind.

Wrong: `[vehicle.supply]` in `L/min` here and in `psi` in the linked file; `[tools.helper]` here and
`[roles.helper]` there

Right: two names for two things
",
};

/// A part of another procedure.
pub static LINK_PART: Code = Code {
    name: "link-part",
    summary: "a step links to a part of another procedure",
    teaching: "\
A linked procedure is run whole: its hold points, hazards and readings belong together.

Wrong: `[Flush the lines](cooler.md#flush)`

Right: `[Flush the lines](cooler-flush.md)`, a procedure of its own
",
};

/// Links without end.
pub static LINK_TOO_DEEP: Code = Code {
    name: "link-too-deep",
    summary: "links lead too deep, or to too many steps",
    teaching: "\
Nobody finds the way back through many procedures inside each other. Links are followed 16 deep, and all
procedures together have at most 10000 steps.

Wrong: seventeen files of which each links to the next

Right: one file that links to each of them in a step of its own
",
};
