//! One key has one meaning, whatever is asked.

use std::collections::BTreeMap;

use crate::tidy::files::below;

/// What each key means, and the words with which it is offered; a new label is put under the meaning that it has.
const MEANINGS: &[(char, &str, &[&str])] = &[
    ('a', "it is read and understood", &["acknowledge"]),
    ('b', "begin", &["begin this section anew"]),
    ('c', "correct", &["correct a wrong entry", "correct an earlier reading or entry"]),
    (
        'd',
        "done",
        &["done", "all of it is done", "it was done before: enter it late (from paper)", "settled"],
    ),
    ('e', "end", &["end: close and seal the run", "end it now"]),
    ('f', "a fastener was loosened", &["a fastener was loosened again"]),
    ('g', "go on all the same", &["go on with a deviation", "give up what is repeated here"]),
    ('h', "hand over", &["hand over: somebody else takes a role"]),
    ('i', "another instrument", &["another instrument", "another instrument is used"]),
    ('j', "a fastener is left out", &["this fastener cannot be done"]),
    (
        'k',
        "keep",
        &[
            "keep it",
            "keep it, it is so",
            "keep it in force",
            "leave it as it was done, as a deviation",
            "carry it out of the job",
        ],
    ),
    ('l', "later", &["this step later"]),
    ('m', "something moved", &["something was moved or used"]),
    ('n', "no", &["no", "not good", "is absent", "not so any more", "somebody else", "it is done after all"]),
    ('p', "the path for it", &["take the path for a missed time"]),
    ('q', "look again alone", &["re-inspection, nobody else is here"]),
    ('r', "remark", &["remark"]),
    ('s', "suspend", &["suspend until another time"]),
    (
        't',
        "take it again",
        &["take it again", "type it again", "do it once more", "both read it again", "try one more pass"],
    ),
    ('u', "left out", &["this step is not applicable", "it cannot be done"]),
    ('v', "a departure", &["declare a deviation"]),
    ('w', "write, where", &["write a time", "where we are: look around at all steps"]),
    (
        'x',
        "it does not count",
        &["it does not count", "discard it, time it again", "the pass that ended last does not count"],
    ),
    (
        'y',
        "yes",
        &[
            "yes",
            "good",
            "still so",
            "it counts",
            "section complete",
            "is here and sees it",
            "the lead approves",
        ],
    ),
    ('z', "can it stop here", &["can I stop here?"]),
];

/// Every key with words in the conversation: `('d', "done")` in its sources.
fn offered() -> Vec<(char, String)> {
    let mut offered = Vec::new();
    for (_, text) in below("src/terminal/talk") {
        for (_, rest) in text.match_indices("('").map(|(at, mark)| (at, &text[at + mark.len()..])) {
            let mut letters = rest.chars();
            let (Some(key), Some('\'')) = (letters.next(), letters.next()) else { continue };
            let Some(label) = letters.as_str().strip_prefix(", \"") else { continue };
            let Some((label, _)) = label.split_once('"') else { continue };
            offered.extend(key.is_ascii_lowercase().then(|| (key, label.to_owned())));
        }
    }
    offered
}

#[test]
fn the_same_key_means_the_same_everywhere() {
    let meanings: BTreeMap<char, &[&str]> = MEANINGS.iter().map(|(key, _, labels)| (*key, *labels)).collect();
    let offered = offered();
    assert!(offered.len() > 40, "the sources are read: {offered:?}");
    for (key, label) in offered {
        let known = meanings.get(&key).is_some_and(|labels| labels.contains(&label.as_str()));
        assert!(known, "`{key}` is offered for `{label}`, which is none of what it means");
    }
}
