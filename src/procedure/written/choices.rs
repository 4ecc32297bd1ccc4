//! A reading that is one of several words, and which of them are good.

use std::collections::BTreeSet;

use super::codes::CHOICES_WRONG;
use super::criterion::{limits_missing, misplaced, unjudged};
use super::reading::WrittenKind;
use crate::source::{Diagnostic, Spanned, suggest};
use crate::table::Fields;

/// One of several words, some of them good.
pub(super) fn choice(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenKind> {
    misplaced(fields, "plausible", "a choice");
    unjudged(fields, "a choice");
    let choices = fields.texts("choices");
    let accept = fields.texts("accept");
    if accept.is_none() && fields.item("information_only").is_none() {
        limits_missing(fields, "add `accept = [...]` with the good choices, or `information_only = true`");
    }
    let choices = choices?;
    several(fields, &choices);
    let accept = accept.map(|accept| accepted(fields, &choices, accept.value));
    let choices = choices.value.into_iter().map(|choice| choice.value).collect();
    Some(WrittenKind::Choice { choices, accept })
}

/// There are at least two choices, and each is another; said where it is not so.
pub(super) fn several(fields: &mut Fields<'_, '_, '_>, choices: &Spanned<Vec<Spanned<String>>>) {
    if different(&choices.value) < 2 || different(&choices.value) < choices.value.len() {
        let headline = format!("{} needs at least two different choices", fields.owner());
        let diagnostic =
            Diagnostic::error(&CHOICES_WRONG, headline).at(choices.span, "too few, or one of them twice");
        fields.scribe.note(diagnostic.help("write `choices = [\"clear\", \"cloudy\"]`"));
    }
}

fn different(texts: &[Spanned<String>]) -> usize {
    let distinct: BTreeSet<_> = texts.iter().map(|text| text.value.trim()).collect();
    distinct.len()
}

fn accepted(
    fields: &mut Fields<'_, '_, '_>,
    choices: &Spanned<Vec<Spanned<String>>>,
    accept: Vec<Spanned<String>>,
) -> Vec<String> {
    let known: Vec<&str> = choices.value.iter().map(|choice| choice.value.as_str()).collect();
    for good in &accept {
        if !known.contains(&good.value.as_str()) {
            let headline = format!("`{}` is accepted, but is not a choice", good.value);
            let diagnostic =
                Diagnostic::error(&CHOICES_WRONG, headline).at(good.span, "not among the choices");
            let diagnostic = diagnostic.also(choices.span, "the choices");
            fields.scribe.note(match suggest::nearest(&good.value, known.iter().copied()) {
                Some(near) => diagnostic
                    .help(format!("did you mean \"{near}\"?"))
                    .replace(good.span, format!("\"{near}\"")),
                None => diagnostic.help("spell it as in `choices`, or add it there"),
            });
        }
    }
    accept.into_iter().map(|good| good.value).collect()
}
