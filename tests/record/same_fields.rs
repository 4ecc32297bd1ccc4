//! Data, text, Markdown and HTML carry the same fields, compared field by field.

use bayhand::print::{Block, html, markdown};
use bayhand::record::model::Record;
use bayhand::record::report::page;
use bayhand::record::text::render;
use serde_json::Value;

use super::support::{eventful, smooth};

/// A form of the record as its words alone, without the blanks between them.
struct Form {
    name: &'static str,
    words: String,
}

fn packed(text: &str) -> String {
    text.chars().filter(|letter| !letter.is_whitespace() && *letter != '|').collect::<String>().to_uppercase()
}

/// What stands between the tags, and in the words of drawings.
fn without_tags(html: &str) -> String {
    let mut text = String::new();
    for piece in html.split('<') {
        let (tag, words) = piece.split_once('>').unwrap_or(("", piece));
        if let Some((_, label)) = tag.split_once("aria-label=\"") {
            text.push_str(label.split('"').next().unwrap());
        }
        text.push_str(words);
    }
    let text = text.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&#39;", "'");
    text.replace("&amp;", "&")
}

/// What stands in a table has a column.
fn assert_columns(blocks: &[Block]) {
    for block in blocks {
        match block {
            Block::Table(table) => {
                assert!(table.rows.iter().all(|row| row.cells.len() + 2 == table.columns.len()), "{table:?}");
            }
            Block::Grid(grid) => {
                assert!(grid.rows.iter().all(|(_, cells)| cells.len() == grid.columns.len()));
            }
            Block::Long { full, short } => {
                assert_columns(std::slice::from_ref(full));
                assert_columns(short);
            }
            _ => {}
        }
    }
}

fn forms(record: &Record) -> [Form; 3] {
    let page = page(record);
    page.sections.iter().for_each(|section| assert_columns(&section.blocks));
    let plain = markdown(&page).replace("<br>", " ").replace("**", "").replace('\\', "");
    [
        Form { name: "text", words: packed(&render(record, 80)) },
        Form { name: "Markdown", words: packed(&plain) },
        Form { name: "HTML", words: packed(&without_tags(&html(&page))) },
    ]
}

fn leaves(at: &str, value: &Value, found: &mut Vec<(String, String)>) {
    match value {
        // A moment: its entry is cited, its time stands in the trail; of another run's both stand there.
        Value::Object(map) if map.len() == 2 && map.contains_key("entry") => {
            found.push((format!("{at}/moment"), format!("{} {}", map["entry"], map["at"].as_str().unwrap())));
        }
        Value::Object(map) => {
            for (key, value) in map {
                leaves(&format!("{at}/{key}"), value, found);
            }
        }
        Value::Array(list) => {
            for (index, value) in list.iter().enumerate() {
                leaves(&format!("{at}/{index}"), value, found);
            }
        }
        Value::String(text) => found.push((at.to_owned(), text.clone())),
        Value::Number(number) => found.push((at.to_owned(), number.to_string())),
        Value::Null | Value::Bool(_) => {}
    }
}

/// A time is shown to the second, its parts apart.
fn shown_time(time: &str) -> String {
    let (day, rest) = time.split_once('T').unwrap();
    packed(&format!(
        "{day}{}{}",
        &rest[..8],
        rest[8..].trim_start_matches(|c: char| c == '.' || c.is_ascii_digit())
    ))
}

fn stands(form: &Form, at: &str, leaf: &str) -> bool {
    if at.ends_with("/moment") {
        let (entry, time) = leaf.split_once(' ').unwrap();
        let clock = &time.split_once('T').unwrap().1[..8];
        let in_trail =
            form.words.contains(&format!("#{entry}")) && form.words.contains(&format!("{entry}{clock}"));
        return in_trail || form.words.contains(&shown_time(time));
    }
    if ["/not_before", "/due", "/done", "/stated"].iter().any(|end| at.ends_with(end)) && leaf.contains('T') {
        return form.words.contains(&shown_time(leaf));
    }
    form.words.contains(&packed(leaf))
}

/// A distance from a limit stands in the text to three digits, and none at all as `exactly on` it.
fn is_told_otherwise(at: &str, leaf: &str) -> bool {
    // Above the minimum, below the limit: the verdict's words name the limit.
    at.ends_with("/distance/limit")
        || at.ends_with("/distance/amount/number")
        || (at.ends_with("/distance/amount/shown") && leaf.starts_with("0 "))
}

/// What the text leaves to the other forms, and says so: steps that a condition took out, readings not taken.
fn is_left_out(record: &Record, at: &str) -> bool {
    let place = |list: &str| -> Option<usize> { at.strip_prefix(list)?.split('/').next()?.parse().ok() };
    let step = place("/steps/").map(|index| &record.steps[index]);
    let reading = place("/readings/").map(|index| &record.readings[index]);
    step.is_some_and(|step| step.state == "not applicable" && step.who.is_empty() && at.ends_with("/text"))
        || reading.is_some_and(|reading| reading.attempts.is_empty())
}

pub fn compare(record: &Record) {
    let value = serde_json::to_value(record).unwrap();
    let mut found = Vec::new();
    leaves("", &value, &mut found);
    let carried = ["/journal/", "/procedure/text", "/procedure/sha256", "/vehicle/sheet/"];
    for form in forms(record) {
        let missing: Vec<_> = found
            .iter()
            .filter(|(at, _)| !carried.iter().any(|carried| at.starts_with(carried)))
            .filter(|(at, _)| !(at.starts_with("/procedure/linked") && at.ends_with("/text")))
            .filter(|(at, leaf)| !is_endless(leaf) && !is_told_otherwise(at, leaf))
            .filter(|(at, leaf)| !stands(&form, at, leaf))
            .filter(|(at, _)| form.name != "text" || !is_left_out(record, at))
            .collect();
        assert!(missing.is_empty(), "{}: {missing:#?}", form.name);
    }
}

#[test]
fn each_field_of_the_data_stands_in_the_text() {
    compare(&smooth());
    compare(&eventful());
}

#[test]
fn what_the_text_leaves_out_it_says() {
    let text = render(&smooth(), 80);
    assert!(text.contains("2.3 NOT APPLICABLE"), "{text}");
    assert!(!text.contains("Bleed the line"), "{text}");
    assert!(
        packed(&text).contains(&packed("What these say stands in the HTML, Markdown and JSON forms.")),
        "{text}"
    );
}

/// A fraction without an end, or a number that is only approximate: the text shows it rounded.
fn is_endless(leaf: &str) -> bool {
    leaf.contains(['/', '~']) && bayhand::quantity::Num::from_exact_text(leaf).is_some()
}

#[test]
fn what_is_carried_is_named_by_its_hash() {
    let record = eventful();
    for form in forms(&record) {
        assert!(form.words.contains(&packed(&record.procedure.sha256)), "{}", form.name);
        assert!(
            form.words.contains(&packed(&format!("Journal, entries: {}", record.journal.len())))
                || form.words.contains(&packed(&format!("Journal, entries{}", record.journal.len())))
        );
    }
}
