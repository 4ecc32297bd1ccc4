//! A CAUTION is for people; what can only damage things is a NOTICE.

use crate::procedure::check::Draft;
use crate::procedure::check::words::Speech;
use crate::procedure::{Hazard, Name, Signal};
use crate::source::{Code, Diagnostic, Spanned};

/// A CAUTION for a thing.
pub static CAUTION_NO_INJURY: Code = Code {
    name: "caution-no-injury",
    summary: "a CAUTION names damage to things and no injury",
    teaching: "\
CAUTION means that somebody can be hurt lightly; what can only damage things is a NOTICE (ANSI Z535.6). Signal
words that are used for everything are no longer read.

Wrong: `signal = \"CAUTION\"` with `consequence = \"The thread strips.\"`

Right: `signal = \"NOTICE\"` with the same consequence
",
};

/// How words for what hurts people begin.
const INJURY: [&str; 56] = [
    "ache", "allerg", "anybody", "anyone", "arm", "bleed", "blind", "blood", "bod", "breath", "bruis",
    "burn", "crush", "cut", "deaf", "death", "die", "dizz", "ear", "eye", "face", "faint", "fall", "finger",
    "foot", "feet", "hair", "hand", "harm", "head", "hear", "hurt", "ill", "injur", "irritat", "itch",
    "kill", "leg", "lung", "muscle", "pain", "people", "person", "pinch", "poison", "rash", "scald", "shock",
    "sick", "skin", "slip", "someb", "someone", "sprain", "strain", "wound",
];

/// How words for what spoils things begin.
const DAMAGE: [&str; 30] = [
    "bend", "bent", "break", "clog", "corro", "crack", "damag", "dent", "destroy", "foul", "jam", "leak",
    "loose", "overheat", "ruin", "rust", "score", "scratch", "seiz", "spoil", "stain", "strip", "swell",
    "tear", "torn", "warp", "wear", "worn", "fail", "stick",
];

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let hazards = draft.declarations.hazards.iter();
    hazards.filter_map(|entry| of_hazard(&entry.name, entry.thing.as_deref()?)).collect()
}

fn of_hazard(name: &Spanned<Name>, hazard: &Hazard) -> Option<Diagnostic> {
    let hurts = says(&hazard.consequence, &INJURY);
    if hazard.signal != Signal::Caution || hurts || !says(&hazard.consequence, &DAMAGE) {
        return None;
    }
    let headline = format!("the CAUTION `{}` hurts nobody", name.value);
    let diagnostic = Diagnostic::warning(&CAUTION_NO_INJURY, headline);
    let diagnostic = diagnostic.at(name.span, format!("`{}`", hazard.consequence.trim_end_matches('.')));
    Some(diagnostic.help("write `signal = \"NOTICE\"`, or say in `consequence` how it hurts somebody"))
}

fn says(text: &str, beginnings: &[&str]) -> bool {
    let said = Speech::of(text);
    let sentences = said.sentences();
    let mut words = sentences.iter().flat_map(|sentence| &sentence.words);
    words.any(|word| beginnings.iter().any(|beginning| word.begins(beginning)))
}
