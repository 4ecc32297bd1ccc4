//! Where the texts of a procedure differ: the lines that stand in one of two only.

use std::collections::BTreeMap;

use super::model::TextChange;
use crate::record::model::Record;

/// The procedure and those that it links to; those that are the same are left out.
pub(super) fn changes(before: &Record, after: &Record) -> Vec<TextChange> {
    let (befores, afters) = (texts(before), texts(after));
    let names = befores.keys().chain(afters.keys().filter(|name| !befores.contains_key(*name)));
    let changes = names.filter_map(|name| {
        let text = |texts: &BTreeMap<&str, &'_ str>| texts.get(name).copied().unwrap_or_default().to_owned();
        let (before, after) = (text(&befores), text(&afters));
        (before != after).then(|| TextChange {
            text: if name.is_empty() { "the procedure".to_owned() } else { (*name).to_owned() },
            only_before: only(&before, &after),
            only_after: only(&after, &before),
        })
    });
    changes.collect()
}

/// By their addresses, that of the procedure itself being empty: it stands first.
fn texts(record: &Record) -> BTreeMap<&str, &str> {
    let linked = record.procedure.linked.iter();
    let linked = linked.map(|linked| (linked.address.as_str(), linked.text.as_str()));
    std::iter::once(("", record.procedure.text.as_str())).chain(linked).collect()
}

/// The lines of one text that the other lacks, in their order; a line that stands there more often counts as often.
fn only(one: &str, other: &str) -> Vec<String> {
    let mut there: BTreeMap<&str, usize> = BTreeMap::new();
    for line in other.lines() {
        *there.entry(line.trim()).or_default() += 1;
    }
    let lacks = |line: &&str| match there.get_mut::<str>(line) {
        Some(left) if *left > 0 => {
            *left -= 1;
            false
        }
        _ => !line.is_empty(),
    };
    one.lines().map(str::trim).filter(lacks).map(str::to_owned).collect()
}
