//! `[repeats]`.

use toml::de::DeValue;

use super::codes::{LOG_UNCLEAR, PASSES_UNCLEAR};
use crate::formula::Type;
use crate::procedure::check::{Proved, Prover, Valued};
use crate::procedure::declarable::{Called, Declarable, Spoken};
use crate::procedure::rules::formula_codes::COUNT_WRONG;
use crate::procedure::{MOST_PASSES, Name, Passes, Repeat, Table};
use crate::quantity::{Num, Quantity};
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, Wording, duration};

/// A repeat whose names are not followed and whose formulas are not read yet.
#[derive(Clone, Debug)]
pub struct WrittenRepeat {
    /// What is done again.
    pub what: String,
    /// What makes the passes.
    pub passes: WrittenPasses,
    /// The most passes, where there is a limit.
    pub at_most: Option<Wording>,
    /// The time from the beginning of one pass to that of the next.
    pub every: Option<Quantity>,
    /// How much later than that is still in time.
    pub late: Option<Quantity>,
    /// A pass in which this holds does not count, nor do those before it.
    pub resets: Option<Wording>,
    /// What to do when the most passes are made in vain.
    pub fails: Option<String>,
    /// Why the steps after it do not need that it came to its end.
    pub not_needed_after: Option<String>,
}

/// What makes the passes of a repeat.
#[derive(Clone, Debug)]
pub enum WrittenPasses {
    /// One for each of these.
    Each(Vec<Spanned<String>>),
    /// One for each item of a list that is read.
    EachOf(Spanned<String>),
    /// So many.
    Times(Wording),
    /// Until this holds after a pass.
    Until(Wording),
}

impl Declarable for Repeat {
    type Written = WrittenRepeat;
    const IN_FRONT: bool = true;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenRepeat> {
        repeat(fields)
    }

    fn spoken(written: &WrittenRepeat) -> Vec<Spoken<'_>> {
        match &written.passes {
            WrittenPasses::EachOf(name) => {
                vec![Spoken::of(name, &[Table::Readings], "a list to repeat over")]
            }
            _ => Vec::new(),
        }
    }

    fn valued(written: Option<&WrittenRepeat>) -> Option<Valued> {
        let written = written?;
        Some(Valued { choices: items_of_repeat(written), ..Valued::any(kind_of_repeat(written)) })
    }

    fn prove(name: &Spanned<Name>, written: &WrittenRepeat, prover: &mut Prover<'_>) {
        prove_passes(prover, name, written);
    }

    fn checked(name: &Name, written: &WrittenRepeat, proved: &Proved<'_>) -> Option<Self> {
        let passes = match &written.passes {
            WrittenPasses::Each(items) => Passes::Each(texts(items)),
            WrittenPasses::EachOf(reading) => Passes::EachOf(Name::from(&reading.value)),
            WrittenPasses::Times(_) => Passes::Times(proved.typed(name, "times")?),
            WrittenPasses::Until(_) => Passes::Until(proved.typed(name, "until")?),
        };
        Some(Self {
            what: written.what.clone(),
            passes,
            at_most: proved.typed(name, "at_most"),
            every: written.every.clone(),
            late: written.late.clone(),
            resets: proved.typed(name, "resets"),
            fails: written.fails.clone(),
            not_needed_after: written.not_needed_after.clone(),
        })
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

/// The texts without their places.
pub(in crate::procedure) fn texts(words: &[Spanned<String>]) -> Vec<String> {
    words.iter().map(|word| word.value.clone()).collect()
}

fn repeat(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenRepeat> {
    let what = fields.need_text("what", "one stud after the other");
    let passes = passes(fields);
    let at_most = fields.formula("at_most");
    let every = duration(fields, "every");
    let late = duration(fields, "late");
    schedule(fields, every.as_ref(), late.as_ref());
    let resets = fields.formula("resets");
    let fails = fields.text("fails");
    let not_needed_after = fields.text("not_needed_after");
    Some(WrittenRepeat {
        what: what?.value,
        passes: passes?,
        at_most,
        every: every.map(|time| time.value),
        late: late.map(|time| time.value),
        resets,
        fails: fails.map(|fails| fails.value),
        not_needed_after: not_needed_after.map(|reason| reason.value),
    })
}

/// The times of a log: `late` needs `every` and is less than it.
fn schedule(
    fields: &mut Fields<'_, '_, '_>,
    every: Option<&Spanned<Quantity>>,
    late: Option<&Spanned<Quantity>>,
) {
    const LONGEST: f64 = 366.0 * 86_400.0;
    let seconds = |time: &Spanned<Quantity>| time.value.base().to_f64();
    let (here, label) = match (every, late) {
        (None, Some(late)) if fields.item("every").is_none() => (late.span, "later than what?"),
        (Some(every), _) if seconds(every) <= 0.0 => (every.span, "rows without a pause"),
        (Some(every), _) if seconds(every) > LONGEST => (every.span, "more than a year between two rows"),
        (Some(every), Some(late)) if seconds(late) >= seconds(every) => {
            (late.span, "not less than the time between two rows")
        }
        _ => return,
    };
    let headline = format!("the rows of {} have no sensible schedule", fields.owner());
    let diagnostic = Diagnostic::error(&LOG_UNCLEAR, headline).at(here, label);
    fields.scribe.note(diagnostic.help("write `every = \"5 min\"` and a smaller `late = \"1 min\"`"));
}

fn passes(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenPasses> {
    let each = fields.item("each");
    let times = fields.item("times");
    let until = fields.item("until");
    match (each, times, until) {
        (Some(item), None, None) if matches!(item.value, DeValue::String(_)) => {
            fields.text("each").map(WrittenPasses::EachOf)
        }
        (Some(_), None, None) => each_of_these(fields),
        (None, Some(_), None) => fields.formula("times").map(WrittenPasses::Times),
        (None, None, Some(_)) => fields.formula("until").map(WrittenPasses::Until),
        _ => {
            let headline = format!("{} needs exactly one of `each`, `times` and `until`", fields.owner());
            let diagnostic = Diagnostic::error(&PASSES_UNCLEAR, headline).at(fields.place(), "how often?");
            let help =
                "write `each = [\"left\", \"right\"]`, `times = 3`, or `until = 'idle_drop < 100 rpm'`";
            fields.scribe.note(diagnostic.help(help));
            None
        }
    }
}

fn each_of_these(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenPasses> {
    let items = fields.texts("each")?;
    if items.value.is_empty() {
        let headline = format!("{} repeats over nothing", fields.owner());
        let diagnostic = Diagnostic::error(&PASSES_UNCLEAR, headline).at(items.span, "an empty list");
        fields.scribe.note(diagnostic.help("name at least one item"));
        return None;
    }
    twice(fields, &items.value).is_none().then_some(WrittenPasses::Each(items.value))
}

/// An item that stands in a list a second time, which is reported.
pub(super) fn twice(fields: &mut Fields<'_, '_, '_>, items: &[Spanned<String>]) -> Option<()> {
    let again = items.iter().enumerate().find(|(index, item)| {
        let earlier = items.get(..*index).unwrap_or_default();
        earlier.iter().any(|other| other.value == item.value)
    });
    let (_, item) = again?;
    let headline = format!("{} names `{}` twice", fields.owner(), item.value);
    let diagnostic = Diagnostic::error(&PASSES_UNCLEAR, headline).at(item.span, "named before");
    fields.scribe.note(diagnostic.help("give each item a name of its own"));
    Some(())
}

fn prove_passes(prover: &mut Prover<'_>, name: &Spanned<Name>, repeat: &WrittenRepeat) {
    match &repeat.passes {
        WrittenPasses::Times(wording) => prover.keep_count(name, "times", wording, MOST_PASSES),
        WrittenPasses::Until(wording) => prover.keep_at_end(name, "until", wording),
        WrittenPasses::Each(_) | WrittenPasses::EachOf(_) => {}
    }
    if let Some(wording) = &repeat.at_most {
        prover.keep_count(name, "at_most", wording, MOST_PASSES);
        more_than_at_most(prover, name, wording);
    }
    if let Some(wording) = &repeat.resets {
        prover.keep_at_end(name, "resets", wording);
    }
}

/// The kind of value that a repeat's name has: its item, or its number.
fn kind_of_repeat(repeat: &WrittenRepeat) -> Type {
    match repeat.passes {
        WrittenPasses::Each(_) | WrittenPasses::EachOf(_) => Type::Text,
        WrittenPasses::Times(_) | WrittenPasses::Until(_) => Type::NUMBER,
    }
}

/// The items that a repeat goes through, where they are known.
fn items_of_repeat(repeat: &WrittenRepeat) -> Vec<String> {
    match &repeat.passes {
        WrittenPasses::Each(items) => texts(items),
        _ => Vec::new(),
    }
}

/// So many passes cannot be made when the repeat ends before.
fn more_than_at_most(prover: &mut Prover<'_>, name: &Spanned<Name>, at_most: &Wording) {
    let (times, most) = (prover.constant_count(name, "times"), prover.constant_count(name, "at_most"));
    let can_be_done = |(times, most): (Num, Num)| times <= most || most < Num::from(1);
    if times.zip(most).is_none_or(can_be_done) {
        return;
    }
    let headline = format!("`{}` can never make as many passes as it wants", name.value);
    let diagnostic =
        Diagnostic::error(&COUNT_WRONG, headline).at(at_most.spanned().span, "less than `times`");
    prover
        .diagnostics
        .push(diagnostic.help("passes that do not count are made too: give it more than `times`"));
}
