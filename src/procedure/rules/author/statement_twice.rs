//! What was confirmed is not asked again in the same words.

use super::condition_constant::never;
use crate::procedure::Name;
use std::collections::HashMap;

use crate::procedure::check::Draft;
use crate::source::{Code, Diagnostic, Span, Spanned};

/// A statement that is confirmed twice.
pub static STATEMENT_TWICE: Code = Code {
    name: "statement-twice",
    summary: "the same statement is confirmed twice",
    teaching: "\
Whoever is asked the same words a second time answers without a look, there and elsewhere. A statement stands
once, where it protects first; a hold point that lapses asks its own again. What may have changed since is said as
what it must be now, so that it is looked at anew.

Wrong: `confirm = [\"All four pins are locked\"]` in two hold points, or in one and in `required`

Right: the statement in the first; in the second `\"Nothing has moved since the lift\"`
",
};

/// A statement and where it is confirmed.
struct Statement<'d> {
    words: String,
    /// Where it stands, in words: the hold point `support`.
    of: String,
    /// The hold point; none for what must be so before or after the job.
    hold: Option<&'d Name>,
    span: Option<Span>,
}

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let statements = statements(draft);
    let mut found = Vec::new();
    let mut said: HashMap<&str, Vec<&Statement<'_>>> = HashMap::new();
    for statement in &statements {
        let earlier = said.entry(&statement.words).or_default();
        if let Some(span) = statement.span
            && let Some(first) = earlier.iter().find(|other| !exclude(draft, other, statement))
        {
            found.push(report(first, statement, span));
        }
        earlier.push(statement);
    }
    found
}

/// Those of the whole job, which have no place of their own, then those of the hold points in the order of the file.
fn statements<'d>(draft: &'d Draft<'_>) -> Vec<Statement<'d>> {
    let of_job = draft.declarations.header.iter().flat_map(|header| {
        let required = header.required.iter().map(|words| (words, "`required`"));
        required.chain(header.close_up.iter().map(|words| (words, "`close_up`")))
    });
    let of_job = of_job.map(|(words, of)| Statement {
        words: plain(words),
        of: of.to_owned(),
        hold: None,
        span: None,
    });
    let of_holds = draft.holds().flat_map(|(name, hold)| {
        let one = move |statement: &Spanned<String>| Statement {
            words: plain(&statement.value),
            of: format!("the hold point `{}`", name.value),
            hold: Some(&name.value),
            span: Some(statement.span),
        };
        hold.confirm.iter().map(one)
    });
    of_job.chain(of_holds).collect()
}

/// The words in small letters, one blank apart, without a full stop.
fn plain(words: &str) -> String {
    let words = words.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ");
    words.trim_end_matches('.').to_owned()
}

/// Whether two hold points are never both verified, by their conditions.
fn exclude(draft: &Draft<'_>, one: &Statement<'_>, other: &Statement<'_>) -> bool {
    let (Some(one), Some(other)) = (one.hold, other.hold) else { return false };
    let over = |hold| draft.step_of_hold(hold).map(|step| draft.conditions_over(step)).unwrap_or_default();
    let both: Vec<&Name> = over(one).into_iter().chain(over(other)).collect();
    one != other && never(draft, &both)
}

fn report(first: &Statement<'_>, again: &Statement<'_>, span: Span) -> Diagnostic {
    let headline = format!("{} confirms what {} confirms", again.of, first.of);
    let diagnostic = Diagnostic::warning(&STATEMENT_TWICE, headline).at(span, "the same words again");
    let diagnostic = match first.span {
        Some(place) => diagnostic.also(place, "confirmed here"),
        None => diagnostic,
    };
    diagnostic.help("leave it where it protects first; here say what may have changed since, or nothing")
}
