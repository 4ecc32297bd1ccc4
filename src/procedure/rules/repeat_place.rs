//! Where repeats and ways stand, and that each of them comes to an end.

use std::collections::BTreeMap;

use crate::procedure::check::Draft;
use crate::procedure::written::{WrittenGround, WrittenKind, WrittenPasses, WrittenRepeat};
use crate::procedure::{Name, Step, StepId, Table};
use crate::source::{Code, Diagnostic, Span, Spanned};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[
    &LIST_NEEDED,
    &PATH_AT_HOLD,
    &PATH_EARLY,
    &REPEAT_ENDLESS,
    &REPEAT_PLACE,
    &REPEAT_UNFORESEEN,
    &WAYS_MISSING,
];

/// A repeat over something that is no list.
pub static LIST_NEEDED: Code = Code {
    name: "list-needed",
    summary: "a repeat goes over a reading that is no list",
    teaching: "\
`each = \"faults\"` makes one pass for each name that is entered for the reading `faults`; that reading has
`kind = \"list\"`.

Wrong: `each = \"faults\"` where `faults` has `kind = \"text\"`

Right: `faults = { what = \"fault codes found\", kind = \"list\" }`
",
};

/// A path past a hold point.
pub static PATH_AT_HOLD: Code = Code {
    name: "path-at-hold",
    summary: "a path is given for a failing reading of a hold point",
    teaching: "\
What a hold point reads must be good, or the hold point stays shut: there is no way past it.

Wrong: `[conditions.weak] failed = \"stand_rating\"` where the hold point `support` reads `stand_rating`

Right: `fails = \"Take stronger stands.\"` at the reading
",
};

/// A path for what has gone wrong that comes before it can go wrong.
pub static PATH_EARLY: Code = Code {
    name: "path-early",
    summary: "the steps for a repeat given up stand before or in the repeat",
    teaching: "\
A condition with `gave_up` is known once the repeat is over. Its steps stand after it.

Wrong: a section `## Call for help [no_vacuum]` before the section that repeats

Right: the same section after it
",
};

/// A repeat that nothing in it can end.
pub static REPEAT_ENDLESS: Code = Code {
    name: "repeat-endless",
    summary: "nothing that is read in a repeat can end it",
    teaching: "\
`until` is worked out after each pass. If it speaks of nothing that is read in the pass, one pass says as much as a
hundred.

Wrong: `until = 'drop < 100 rpm'` where `drop` is read before the repeat

Right: `[drop]` in a step of the repeat
",
};

/// A repeat that repeats nothing, or two things.
pub static REPEAT_PLACE: Code = Code {
    name: "repeat-place",
    summary: "a repeat is not named exactly once, in a heading or at the front of a step",
    teaching: "\
A repeat that a heading names repeats that section; one at the front of a step repeats the step with its parts. It
belongs to one of them. Further in the text its name shows the item or the number of the pass.

Wrong: `## Studs [each_stud]` and `## Nuts [each_stud]`

Right: one repeat for each section
",
};

/// A repeat of which nobody says what follows when it is given up.
pub static REPEAT_UNFORESEEN: Code = Code {
    name: "repeat-unforeseen",
    summary: "nothing is said for the case that a repeat is given up",
    teaching: "\
A repeat is given up when its passes are used up (`at_most`), or by a person's word. The steps after it must not
come as if it had come to its end. So either a condition with `gave_up` opens the steps for that case (and `not` of
it guards those that need the repeat), or the repeat says why what comes after does not need it. Else it cannot be
given up: the person makes one more pass, leaves single steps out, or stops the job. `fails` tells the person what
to do when the passes are used up; it says nothing of the steps after it.

Wrong: `until = 'drop < 100 rpm'`, `at_most = 3` and nothing else, with steps after it

Right: `[conditions.leaks]` with `gave_up = \"adjust\"` and a step `[leaks] Find the leak.`;
or `not_needed_after = \"what follows is done in any case\"`
",
};

/// Ways without a list of them.
pub static WAYS_MISSING: Code = Code {
    name: "ways-missing",
    summary: "a step names a choice of ways and has no list of them",
    teaching: "\
The ways are the parts of the step that names the choice: a bullet list with at least two items. Exactly one of
them is done.

Wrong: `1. [pull_seal] Pull the seal.`

Right: the same with `- With the hook.` and `- With two screws.` as its parts
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let given_up = given_up(draft);
    let repeats = draft.declarations.repeats.iter();
    let repeats = repeats.filter_map(|entry| Some((&entry.name, entry.thing.as_deref()?)));
    let mut found: Vec<Diagnostic> =
        repeats.flat_map(|(name, repeat)| of_repeat(draft, &given_up, name, repeat)).collect();
    found.extend(draft.steps.iter().filter_map(|step| ways(draft, step)));
    found.extend(paths(draft, &given_up));
    found.extend(
        draft
            .declarations
            .conditions
            .iter()
            .filter_map(|entry| at_hold(draft, &entry.thing.as_deref()?.ground)),
    );
    found
}

fn of_repeat(
    draft: &Draft<'_>,
    given_up: &GivenUp<'_>,
    name: &Spanned<Name>,
    repeat: &WrittenRepeat,
) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    found.extend(place(draft, name));
    found.extend(list(draft, repeat));
    found.extend(endless(draft, name, repeat));
    found.extend(unforeseen(draft, given_up, name, repeat));
    found
}

/// The places where a repeat is named so that it repeats something.
fn places(draft: &Draft<'_>, name: &Name) -> Vec<Span> {
    let sections = draft.repeated(name).iter().filter_map(|id| draft.sections.get(id.0));
    let steps = draft.steps_with(name).filter(|step| step.repeat.as_ref() == Some(name));
    sections.map(|section| section.span).chain(steps.map(|step| step.span)).collect()
}

fn place(draft: &Draft<'_>, name: &Spanned<Name>) -> Option<Diagnostic> {
    match places(draft, &name.value)[..] {
        [_] => None,
        [first, second, ..] => {
            let headline = format!("two places are repeated by `{}`", name.value);
            let diagnostic = Diagnostic::error(&REPEAT_PLACE, headline).at(second, "the second");
            Some(diagnostic.also(first, "the first").help("declare a repeat of its own for each"))
        }
        [] => {
            let headline = format!("nothing is repeated by `{}`", name.value);
            let diagnostic = Diagnostic::error(&REPEAT_PLACE, headline).at(name.span, "declared here");
            Some(diagnostic.help(format!("write `[{}]` in a heading, or in front of a step", name.value)))
        }
    }
}

fn list(draft: &Draft<'_>, repeat: &WrittenRepeat) -> Option<Diagnostic> {
    let WrittenPasses::EachOf(reading) = &repeat.passes else {
        return None;
    };
    let declared = draft.declarations.readings.named(&reading.value)?;
    let kind = &declared.thing.as_deref()?.kind;
    if matches!(kind, WrittenKind::List(_)) {
        return None;
    }
    let headline = format!("`{}` is no list that could be gone through", reading.value);
    let diagnostic = Diagnostic::error(&LIST_NEEDED, headline).at(reading.span, "a list is needed here");
    Some(diagnostic.also(declared.name.span, "declared here").help("give it `kind = \"list\"`"))
}

fn endless(draft: &Draft<'_>, name: &Spanned<Name>, repeat: &WrittenRepeat) -> Option<Diagnostic> {
    let WrittenPasses::Until(until) = &repeat.passes else {
        return None;
    };
    let inputs = draft.formulas.end_inputs.get(&name.value)?;
    let mut behind = inputs.iter().flat_map(|input| readings_behind(draft, &input.value));
    if behind.any(|step| is_in(draft, &name.value, step)) || places(draft, &name.value).len() != 1 {
        return None;
    }
    let headline = format!("nothing that is read in `{}` can end it", name.value);
    let diagnostic = Diagnostic::error(&REPEAT_ENDLESS, headline).at(until.spanned().span, "stays as it is");
    Some(diagnostic.help("let it speak of something that a step of the repeat reads"))
}

/// The steps at which everything is taken or computed that a name rests on.
fn readings_behind(draft: &Draft<'_>, name: &Name) -> Vec<StepId> {
    let mut seen = std::collections::BTreeSet::new();
    let mut open = vec![name.clone()];
    while let Some(name) = open.pop() {
        if seen.insert(name.clone()) {
            open.extend(draft.inputs().get(&name).into_iter().flatten().map(|input| input.value.clone()));
        }
    }
    let is_repeat = |name: &Name| draft.is(name, Table::Repeats);
    let own = seen.iter().filter(|name| is_repeat(name)).flat_map(|name| steps_of(draft, name));
    seen.iter().filter_map(|name| draft.source_of(name)).map(|step| step.id).chain(own).collect()
}

fn steps_of(draft: &Draft<'_>, repeat: &Name) -> Vec<StepId> {
    let of_sections = draft.repeated(repeat).iter().flat_map(|section| draft.steps_in(*section));
    let repeated = draft.steps_with(repeat).filter(|step| step.repeat.as_ref() == Some(repeat));
    let with_parts = repeated
        .flat_map(|step| draft.steps.iter().skip(step.id.0).take_while(|part| is_in(draft, repeat, part.id)));
    let mut steps: Vec<StepId> = of_sections.chain(with_parts).map(|step| step.id).collect();
    steps.sort_unstable();
    steps.dedup();
    steps
}

/// Whether a step is done in the passes of a repeat.
fn is_in(draft: &Draft<'_>, repeat: &Name, step: StepId) -> bool {
    let mut at = draft.step(step);
    let section = at.and_then(|step| draft.sections.get(step.section.0));
    let in_section = section.is_some_and(|section| section.repeat.as_ref() == Some(repeat));
    while let Some(step) = at {
        if step.repeat.as_ref() == Some(repeat) {
            return true;
        }
        at = step.parent.and_then(|parent| draft.step(parent));
    }
    in_section
}

fn unforeseen(
    draft: &Draft<'_>,
    given_up: &GivenUp<'_>,
    name: &Spanned<Name>,
    repeat: &WrittenRepeat,
) -> Option<Diagnostic> {
    let last = steps_of(draft, &name.value).into_iter().max()?;
    let comes_after = draft.steps.get(last.0 + 1);
    let is_said = repeat.not_needed_after.is_some() || given_up.contains_key(name.value.as_str());
    let is_told = comes_after.is_none() && (repeat.fails.is_some() || repeat.at_most.is_none());
    if is_said || is_told {
        return None;
    }
    let here = repeat.at_most.as_ref().map_or(name.span, |most| most.spanned().span);
    let headline = format!("nothing is said for the case that `{}` is given up", name.value);
    let diagnostic = Diagnostic::warning(&REPEAT_UNFORESEEN, headline).at(here, "and then?");
    let path = format!("add a condition with `gave_up = \"{}\"` for the steps of that case", name.value);
    Some(match comes_after {
        Some(step) => diagnostic
            .also(step.span, "comes after it, so that it cannot be given up")
            .help(format!("{path}, or `not_needed_after = \"why what follows does not need it\"`")),
        None => diagnostic.help(format!("add `fails = \"...\"`, or {}", path.trim_start_matches("add "))),
    })
}

/// Of each repeat the conditions that hold when it was given up.
type GivenUp<'d> = BTreeMap<&'d str, Vec<&'d Name>>;

fn given_up<'d>(draft: &'d Draft<'_>) -> GivenUp<'d> {
    let mut given_up = GivenUp::new();
    for entry in draft.declarations.conditions.iter() {
        if let Some(WrittenGround::GaveUp(repeat)) = entry.thing.as_deref().map(|condition| &condition.ground)
        {
            given_up.entry(&repeat.value).or_default().push(&entry.name.value);
        }
    }
    given_up
}

fn ways(draft: &Draft<'_>, step: &Step) -> Option<Diagnostic> {
    let name = step.alternatives.as_ref()?;
    if step.groups.len() == 1 && step.groups.iter().all(|group| group.steps.len() > 1) {
        return None;
    }
    let headline = format!("step {} has no list of ways to choose from", step.number);
    let place = draft.mention_in(step.id, name).unwrap_or(step.span);
    let diagnostic = Diagnostic::error(&WAYS_MISSING, headline).at(place, "one of what?");
    Some(diagnostic.help("give the step one bullet list with at least two items"))
}

fn paths(draft: &Draft<'_>, given_up: &GivenUp<'_>) -> Vec<Diagnostic> {
    let repeats = draft.declarations.repeats.iter().map(|entry| &entry.name.value);
    let mut found = Vec::new();
    for repeat in repeats {
        let Some(conditions) = given_up.get(repeat.as_str()) else { continue };
        let Some(last) = steps_of(draft, repeat).into_iter().max() else { continue };
        for condition in conditions {
            let until = draft.steps.iter().take(last.0 + 1);
            let mut until = until.filter(|step| draft.conditions_over(step).contains(condition));
            let early = until.next();
            found.extend(early.map(|step| {
                let headline =
                    format!("step {} comes before it is known whether `{repeat}` was given up", step.number);
                let diagnostic = Diagnostic::error(&PATH_EARLY, headline).at(step.span, "not known here");
                diagnostic.help("put it after the repeat")
            }));
        }
    }
    found
}

fn at_hold(draft: &Draft<'_>, ground: &WrittenGround) -> Option<Diagnostic> {
    let WrittenGround::Failed(result) = ground else {
        return None;
    };
    let hold = draft.hold_of(&Name::from(&result.value))?;
    let headline = format!("there is no path past the hold point `{}`", hold.value);
    let diagnostic = Diagnostic::error(&PATH_AT_HOLD, headline).at(result.span, "read at the hold point");
    Some(diagnostic.also(hold.span, "declared here").help("say under `fails` what to do, and take this out"))
}
