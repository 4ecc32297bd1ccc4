//! Words replaced by others in the entries of a journal and in texts.

use serde_json::Value;

use crate::run::initials;

/// Words and what stands in their place.
#[derive(Clone, Debug)]
pub(super) struct Replacement {
    /// The words.
    pub(super) from: String,
    to: String,
    /// Whether this is all of a name: a part of one may be a word that has another meaning elsewhere.
    pub(super) is_whole: bool,
    /// Initials are only what is written large.
    is_exact: bool,
}

impl Replacement {
    pub(super) fn whole(from: &str, to: &str) -> Self {
        Self { from: from.trim().to_owned(), to: to.to_owned(), is_whole: true, is_exact: false }
    }

    /// The name, its parts and its initials.
    pub(super) fn of_person(name: &str, to: &str) -> Vec<Self> {
        let part = |from: &str, is_exact| Self {
            from: from.to_owned(),
            to: to.to_owned(),
            is_whole: false,
            is_exact,
        };
        let parts = name.split_whitespace().filter(|part| part.chars().count() > 1 && *part != name.trim());
        let short = Some(initials(name)).filter(|short| short.chars().count() > 1);
        let mut all = vec![Self::whole(name, to)];
        all.extend(parts.map(|one| part(one, false)));
        all.extend(short.map(|short| part(&short, true)));
        all
    }

    /// The text with these words replaced wherever they stand as words of their own, however they are capitalised.
    pub(super) fn within(&self, text: &str) -> String {
        let from: Vec<char> = self.from.chars().collect();
        let letters: Vec<char> = text.chars().collect();
        let mut out = String::with_capacity(text.len());
        let mut at = 0;
        while at < letters.len() {
            if self.stands_at(&letters, at, &from) {
                out.push_str(&self.to);
                at += from.len();
            } else {
                out.push(letters[at]);
                at += 1;
            }
        }
        out
    }

    fn stands_at(&self, letters: &[char], at: usize, from: &[char]) -> bool {
        let same = |(one, other): (&char, &char)| {
            one == other || (!self.is_exact && one.to_lowercase().eq(other.to_lowercase()))
        };
        let ends = at + from.len();
        let is_end = |place: Option<&char>| place.is_none_or(|letter| !letter.is_alphanumeric());
        let before = at.checked_sub(1).and_then(|before| letters.get(before));
        let is_here = letters.get(at..ends).is_some_and(|here| here.iter().zip(from).all(same));
        !from.is_empty() && is_here && is_end(before) && is_end(letters.get(ends))
    }
}

/// Everybody who is named in the entries, in the order in which they come.
pub(super) fn people_in(lines: &[Value]) -> Vec<String> {
    let mut found = Vec::new();
    for line in lines {
        collect(line, false, &mut found);
    }
    let mut people: Vec<String> = Vec::new();
    for name in found {
        let is_new = !people.iter().any(|known| known.to_lowercase() == name.to_lowercase());
        if is_new && !name.is_empty() {
            people.push(name);
        }
    }
    people
}

fn collect(value: &Value, among_people: bool, found: &mut Vec<String>) {
    match value {
        Value::Object(map) => {
            for (key, value) in map {
                let is_name = ["by", "person", "present"].contains(&key.as_str());
                match value {
                    Value::String(names) if is_name || (key == "name" && among_people) => add(names, found),
                    Value::Array(names) if is_name => {
                        names.iter().filter_map(Value::as_str).for_each(|name| add(name, found));
                    }
                    value => collect(value, among_people || key == "person" || key == "people", found),
                }
            }
        }
        Value::Array(items) => items.iter().for_each(|item| collect(item, among_people, found)),
        _ => {}
    }
}

/// Two who released together stand as `Robin Vale and Sam Hollis`.
fn add(names: &str, found: &mut Vec<String>) {
    let names = names.split(", ").flat_map(|part| part.split(" and "));
    found.extend(names.map(|name| name.trim().to_owned()));
}

/// What stands under these holds on to the procedure, or is worked out.
const STRUCTURE: [&str; 24] = [
    "act",
    "asked",
    "at",
    "check",
    "choice",
    "disposition",
    "done",
    "due",
    "engine",
    "group",
    "hazard",
    "hold",
    "job",
    "number",
    "position",
    "prev",
    "reading",
    "repeat",
    "result",
    "role",
    "run",
    "sha256",
    "time",
    "unit",
];

/// Replaces in people's words and names, not in what holds an entry to its procedure.
pub(super) fn in_entry(replacements: &[Replacement], line: &mut Value) {
    if let Some(event) = line.get_mut("event") {
        replace(replacements, event, false);
    }
}

fn replace(replacements: &[Replacement], value: &mut Value, is_name: bool) {
    match value {
        Value::Object(map) => {
            for (key, value) in map {
                let key = key.as_str();
                let is_structure = STRUCTURE.contains(&key) || (key == "name" && !is_name);
                if !(is_structure && value.is_string()) {
                    replace(replacements, value, is_name || ["person", "people", "file"].contains(&key));
                }
            }
        }
        Value::Array(items) => items.iter_mut().for_each(|item| replace(replacements, item, is_name)),
        Value::String(text) => {
            *text = replacements.iter().fold(text.clone(), |text, one| one.within(&text));
        }
        _ => {}
    }
}

/// A vehicle sheet without its remarks: they may say anything, and nothing rests on them.
pub(super) fn without_remarks(sheet: &str) -> Result<String, String> {
    if ["\"\"\"", "'''"].iter().any(|quotes| sheet.contains(quotes)) {
        return Err(
            "the vehicle sheet has a text over several lines, where remarks cannot be told apart".to_owned()
        );
    }
    let lines = sheet.split_inclusive('\n').map(|line| match remark_at(line) {
        Some(at) if line[..at].trim().is_empty() => String::new(),
        Some(at) => format!("{}\n", line[..at].trim_end()),
        None => line.to_owned(),
    });
    Ok(lines.collect())
}

/// Where the remark of a line begins: at a `#` outside quotes.
fn remark_at(line: &str) -> Option<usize> {
    let (mut quote, mut escaped) = (None, false);
    for (at, letter) in line.char_indices() {
        match (quote, letter) {
            _ if escaped => escaped = false,
            (None, '#') => return Some(at),
            (None, '"' | '\'') => quote = Some(letter),
            (Some('"'), '\\') => escaped = true,
            (Some(open), letter) if letter == open => quote = None,
            _ => {}
        }
    }
    None
}
