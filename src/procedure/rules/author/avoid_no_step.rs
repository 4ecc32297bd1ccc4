//! What a hazard says to do is also a step or a statement of a hold point.

use std::borrow::Cow;
use std::slice;

use crate::procedure::check::Draft;
use crate::procedure::check::words::{Sentence, Speech, Word};
use crate::procedure::{Hazard, Name, PassageKind, Piece};
use crate::source::{Code, Diagnostic, Spanned};

/// An act that only the warning asks for.
pub static AVOID_NO_STEP: Code = Code {
    name: "avoid-no-step",
    summary: "a hazard asks for an act that no step and no hold point has",
    teaching: "\
A hazard is read, a step is done and ticked off. What makes the work safe (disconnect, chock, drain, lock) is also
a step, or a statement of a hold point, with the same verb and the same thing.

Wrong: `avoid = \"Disconnect the battery.\"` and no step about the battery

Right: the same, and a step `Disconnect the battery.`
",
};

/// Acts that make work safe, by their bare form.
const ACTS: [&str; 22] = [
    "block",
    "chock",
    "clamp",
    "depressurize",
    "disconnect",
    "discharge",
    "drain",
    "earth",
    "empty",
    "ground",
    "isolate",
    "lock",
    "plug",
    "prop",
    "relieve",
    "remove",
    "secure",
    "support",
    "tag",
    "unplug",
    "vent",
    "ventilate",
];

/// Words in front of the thing that is acted on.
const LEADING: [&str; 18] = [
    "the", "a", "an", "all", "each", "every", "both", "any", "its", "their", "your", "this", "that", "it",
    "them", "out", "off", "up",
];

/// Words that end the name of that thing.
const ENDING: [&str; 24] = [
    "and", "or", "before", "after", "with", "from", "on", "in", "at", "to", "by", "for", "until", "while",
    "when", "if", "so", "of", "into", "onto", "under", "over", "first", "against",
];

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let hazards = draft.declarations.hazards.iter();
    let hazards = hazards.filter_map(|entry| Some((&entry.name, entry.thing.as_deref()?)));
    if draft.declarations.hazards.is_empty() {
        return Vec::new();
    }
    let done = done(draft);
    let done: Vec<Vec<&str>> = done.iter().map(|text| words(text)).collect();
    hazards.flat_map(|(name, hazard)| of_hazard(&done, name, hazard)).collect()
}

/// Every text that a person acts on or confirms, in small letters.
fn done(draft: &Draft<'_>) -> Vec<String> {
    let steps = draft.steps.iter().map(|step| {
        let further = step.passages.iter().filter(|passage| passage.kind == PassageKind::Prose);
        let pieces = step.text.iter().chain(further.flat_map(|passage| &passage.text));
        pieces.map(|piece| shown(draft, piece)).collect::<String>()
    });
    let confirmed =
        draft.holds().flat_map(|(_, hold)| &hold.confirm).map(|statement| statement.value.clone());
    let required = draft.declarations.header.iter().flat_map(|header| header.required.clone());
    steps.chain(confirmed).chain(required).map(|text| text.to_lowercase()).collect()
}

/// The words of a piece; of a tool, a material or a part what it is.
fn shown<'d>(draft: &'d Draft<'_>, piece: &'d Piece) -> Cow<'d, str> {
    let name = match piece {
        Piece::Text(words) => return Cow::Borrowed(words),
        Piece::Mention(name) => name.value.as_str(),
    };
    let declared = draft.declarations;
    let tool = declared.tools.thing(name).map(|tool| tool.what.as_str());
    let supply = || declared.materials.thing(name).or_else(|| declared.parts.thing(name));
    match tool.or_else(|| supply().map(|supply| supply.what.as_str())) {
        Some(what) => Cow::Borrowed(what),
        None => Cow::Owned(name.replace('_', " ")),
    }
}

fn words(text: &str) -> Vec<&str> {
    let bare = text.split(|letter: char| !letter.is_alphanumeric() && letter != '\'');
    bare.filter(|word| !word.is_empty()).collect()
}

fn of_hazard(done: &[Vec<&str>], name: &Spanned<Name>, hazard: &Hazard) -> Vec<Diagnostic> {
    let said = Speech::of(&hazard.avoid);
    let sentences = said.sentences();
    let acts: Vec<Act> = sentences.iter().flat_map(acts).collect();
    let missing = acts.into_iter().filter(|act| !done.iter().any(|text| act.is_in(text)));
    missing.map(|act| report(name, &act)).collect()
}

/// Something that a hazard asks for.
struct Act {
    verb: String,
    things: Vec<String>,
}

impl Act {
    fn is_in(&self, text: &[&str]) -> bool {
        let verb = text.iter().any(|word| is_form_of(word, &self.verb));
        let thing = |thing: &String| text.iter().any(|word| is_form_of(word, singular(thing)));
        verb && (self.things.is_empty() || self.things.iter().any(thing))
    }
}

/// The acts that begin a clause of a sentence.
fn acts(sentence: &Sentence<'_>) -> Vec<Act> {
    let words = &sentence.words;
    let begins = |index: usize| match index.checked_sub(1).and_then(|before| words.get(before)) {
        None => true,
        Some(before) => before.mark.is_some() || before.is(&["and", "then"]),
    };
    let verbs = (0..words.len()).filter(|&index| begins(index));
    verbs.filter_map(|index| act(words.get(index..)?)).collect()
}

fn act(words: &[Word<'_>]) -> Option<Act> {
    let (verb, rest) = words.split_first()?;
    if !verb.is(&ACTS) || verb.mark.is_some() && !rest.is_empty() {
        return None;
    }
    let rest = rest.iter().skip_while(|word| word.is(&LEADING));
    let mut things = Vec::new();
    for word in rest {
        if word.is(&ENDING) {
            break;
        }
        things.push(word.low());
        if word.mark.is_some() {
            break;
        }
    }
    Some(Act { verb: verb.low(), things })
}

fn singular(word: &str) -> &str {
    word.strip_suffix('s').filter(|stem| stem.len() > 2).unwrap_or(word)
}

/// `drained`, `drains` and `draining` are forms of `drain`; `tagged` of `tag`; `isolated` of `isolate`.
fn is_form_of(word: &str, base: &str) -> bool {
    let stem = base.strip_suffix('e').unwrap_or(base);
    let Some(ending) = word.strip_prefix(stem) else {
        return false;
    };
    let doubled = stem.chars().last().and_then(|last| ending.strip_prefix(last)).unwrap_or(ending);
    word == base || ["e", "s", "es", "ed", "ing"].contains(&ending) || ["ed", "ing"].contains(&doubled)
}

fn report(name: &Spanned<Name>, act: &Act) -> Diagnostic {
    let words = [slice::from_ref(&act.verb), &act.things].concat().join(" ");
    let headline = format!("the hazard `{}` asks for an act that is no step", name.value);
    let diagnostic = Diagnostic::warning(&AVOID_NO_STEP, headline);
    let diagnostic = diagnostic.at(name.span, format!("`{words}` is in no step and no hold point"));
    diagnostic.help("add the step with the same verb and thing, or a statement of a hold point")
}
