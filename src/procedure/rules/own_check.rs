//! Nobody checks, witnesses or reads a second time what they did themselves.

use crate::procedure::check::Draft;
use crate::procedure::written::Entry;
use crate::procedure::written::WrittenRole;
use crate::procedure::{Name, Step};
use crate::source::{Code, Diagnostic, Span, Spanned};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&CHECKED_BY_ITSELF, &OWN_CHECK];

/// A role that signs off its own work.
pub static CHECKED_BY_ITSELF: Code = Code {
    name: "checked-by-itself",
    summary: "a role checks its own work",
    teaching: "\
`checked_by` names the role whose person looks at the work of this one and signs it off. Whoever did it is not that
person.

Wrong: `[roles.helper]` with `checked_by = \"helper\"`

Right: `checked_by = \"lead\"`
",
};

/// A second person who is the first.
pub static OWN_CHECK: Code = Code {
    name: "own-check",
    summary: "a check, a witness point or a second reading falls to somebody who does the step",
    teaching: "\
A check is another person's, and so is a second reading; a witness sees what somebody else does. The step is done
by the roles at its front, and by the lead where there are none.

Wrong: `Torque the bolts. [torqued]` with `by = \"lead\"` under `[checks.torqued]`

Right: `by = \"helper\"`, or `[helper] Torque the bolts. [torqued]`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let steps = draft.steps.iter().flat_map(|step| of_step(draft, step));
    itself(draft).into_iter().chain(steps).collect()
}

fn itself(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let own = |entry: &Entry<WrittenRole>| {
        let by = entry.thing.as_deref()?.checked_by.as_ref()?;
        (by.value == entry.name.value.as_str()).then(|| {
            Diagnostic::error(&CHECKED_BY_ITSELF, format!("the role `{}` checks its own work", by.value))
                .at(by.span, "the same role")
                .help("name the role that looks at it: `checked_by = \"lead\"`")
        })
    };
    draft.declarations.roles.iter().filter_map(own).collect()
}

fn of_step(draft: &Draft<'_>, step: &Step) -> Vec<Diagnostic> {
    let lead = Name::from("lead");
    // Of two who do it together neither is the other person: their run could not go on.
    let doers = if step.who.is_empty() { std::slice::from_ref(&lead) } else { step.who.as_slice() };
    let is_doer = |by: &Spanned<String>| doers.iter().any(|doer| by.value == doer.as_str());
    let others = others(draft, step).into_iter().filter(|(_, by)| is_doer(by));
    others.map(|(name, by)| own(draft, step, name, by)).collect()
}

/// Who looks at a step beside those who do it: the name that brings them in, and their role.
fn others<'d>(draft: &'d Draft<'_>, step: &'d Step) -> Vec<(&'d Name, &'d Spanned<String>)> {
    let declared = draft.declarations;
    let mut others = Vec::new();
    for name in &step.checks {
        let check = declared.checks.thing(name.as_str());
        others.extend(check.map(|check| (name, &check.by)));
    }
    for name in &step.witnesses {
        let witness = declared.witnesses.thing(name.as_str());
        others.extend(witness.map(|witness| (name, &witness.by)));
    }
    for name in draft.hold_readings(step).into_iter().chain(&step.takes) {
        let reading = declared.readings.thing(name.as_str());
        let second = reading.and_then(|reading| reading.second.as_ref());
        others.extend(second.map(|second| (name, &second.by)));
    }
    others
}

fn own(draft: &Draft<'_>, step: &Step, name: &Name, by: &Spanned<String>) -> Diagnostic {
    let headline = format!("the {} does step {} and would also be the other person", by.value, step.number);
    let place: Span = draft.mention_in(step.id, name).unwrap_or(step.span);
    Diagnostic::error(&OWN_CHECK, headline)
        .at(by.span, "the role that does the step")
        .also(place, "named in its step here")
        .help("name another role here, or at the front of the step")
}
