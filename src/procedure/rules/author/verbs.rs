//! The verbs of the trade, so that a second one in a sentence is seen.

use crate::procedure::check::words::{Form, Word};

/// How surely a word is a verb where it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sure {
    /// Nothing else.
    Verb,
    /// A noun as well: `clamp`. What it acts on decides.
    Noun,
    /// An adjective as well: `lower`. Only an article or a pronoun decides.
    Adjective,
}

/// What surely are verbs.
const VERBS: [&str; 46] = [
    "adjust",
    "align",
    "apply",
    "assemble",
    "attach",
    "bleed",
    "bring",
    "connect",
    "cut",
    "detach",
    "disassemble",
    "disconnect",
    "dismantle",
    "fasten",
    "fill",
    "inspect",
    "insert",
    "install",
    "lift",
    "loosen",
    "lubricate",
    "pour",
    "put",
    "reassemble",
    "reconnect",
    "refit",
    "refill",
    "reinstall",
    "remove",
    "replace",
    "retighten",
    "rinse",
    "rotate",
    "scrape",
    "tighten",
    "undo",
    "unbolt",
    "unclip",
    "unfasten",
    "unhook",
    "unlock",
    "unplug",
    "unscrew",
    "untie",
    "wipe",
    "withdraw",
];

/// Verbs that are things as well.
const NOUNS: [&str; 57] = [
    "block", "bolt", "brush", "cap", "charge", "check", "chock", "clamp", "coat", "cover", "drain", "drill",
    "drive", "drop", "feed", "file", "fit", "flush", "grease", "grind", "hammer", "hang", "heat", "hook",
    "jack", "lay", "lever", "lock", "mark", "oil", "paint", "place", "plug", "press", "pry", "pull", "push",
    "raise", "release", "screw", "seal", "set", "slide", "spray", "start", "stop", "strip", "support",
    "switch", "tag", "take", "tap", "test", "tie", "torque", "turn", "wash",
];

/// Verbs that describe things as well.
const ADJECTIVES: [&str; 9] = ["clean", "close", "cool", "dry", "empty", "level", "lower", "open", "shut"];

/// Words that show that the word before them acts on something.
const OBJECTS: [&str; 19] = [
    "the", "a", "an", "it", "them", "each", "every", "all", "both", "its", "their", "this", "these", "those",
    "any", "one", "another", "up", "off",
];

/// Words that begin what the sentence only tells: a purpose, a state, a time.
pub(super) const SUBORDINATE: [&str; 21] = [
    "after", "although", "as", "because", "before", "can", "how", "if", "may", "must", "so", "that", "until",
    "what", "when", "where", "whether", "which", "while", "who", "will",
];

/// Whether a word is among the verbs of the trade, whatever else it may be.
pub(super) fn is_known(word: &Word<'_>) -> bool {
    sure(word).is_some()
}

fn sure(word: &Word<'_>) -> Option<Sure> {
    [(&VERBS[..], Sure::Verb), (&NOUNS[..], Sure::Noun), (&ADJECTIVES[..], Sure::Adjective)]
        .into_iter()
        .find_map(|(list, sure)| word.is(list).then_some(sure))
}

/// Whether the first of these words is surely a verb, seen what follows it.
pub(super) fn acts(words: &[Word<'_>]) -> bool {
    let Some(sure) = words.first().and_then(sure) else {
        return false;
    };
    let object = words.get(1).is_some_and(|next| next.is(&OBJECTS));
    let named = words.get(1).is_some_and(|next| next.form != Form::Small);
    let alone = words.first().is_some_and(|word| word.mark.is_some());
    match sure {
        Sure::Verb => true,
        _ if alone => false,
        Sure::Noun => object || named,
        Sure::Adjective => object,
    }
}
