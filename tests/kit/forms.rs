//! Text, Markdown, CSV and JSON of a kit tell the same.

use serde_json::Value;

use super::read::{rows_of_csv, rows_of_markdown};
use super::stage::{HOSTILE, kit, stage};
use crate::session::stage::words_of;

/// Every text and number in the data that a person is told: not how the file calls a thing, and of a formula what it comes
/// to.
fn facts(value: &Value, found: &mut Vec<String>) {
    match value {
        Value::String(text) => found.push(text.clone()),
        Value::Number(number) => found.push(number.to_string()),
        Value::Array(items) => items.iter().for_each(|item| facts(item, found)),
        Value::Object(fields) => {
            let is_known = fields.get("amount").is_some_and(|amount| !amount.is_null());
            for (key, value) in fields {
                let is_told = match key.as_str() {
                    "name" | "procedure" | "job" | "revision" | "times" => false,
                    "formula" => !is_known,
                    // Of an evening the list's own title is told.
                    "kit" => value["title"] != "",
                    _ => true,
                };
                if is_told {
                    facts(value, found);
                }
            }
        }
        Value::Null | Value::Bool(_) => {}
    }
}

#[test]
fn every_form_tells_every_fact() {
    let stage = stage();
    for sheet in [&[][..], &["--vehicle", "sheet.toml"]] {
        let form = |form: &str| kit(&stage, &[sheet, &[form]].concat());
        let data: Value = serde_json::from_str(&form("--json")).expect("JSON");
        let mut told = Vec::new();
        facts(&data, &mut told);
        told.retain(|fact| fact != "Drain" && fact != "Fill");
        assert!(told.len() > 60, "{told:?}");
        let text = words_of(&kit(&stage, &[&["--evenings"], sheet].concat()));
        let (markdown, headings) = rows_of_markdown(&form("--markdown"));
        let csv = rows_of_csv(&form("--csv"));
        let in_a_cell = |rows: &[Vec<String>], fact: &str| {
            rows.iter().flatten().any(|cell| words_of(cell).contains(&words_of(fact)))
        };
        for fact in &told {
            assert!(text.contains(&words_of(fact)), "the text does not tell `{fact}`:\n{text}");
            let in_markdown = in_a_cell(&markdown, fact) || headings.iter().any(|title| title.contains(fact));
            assert!(in_markdown || fact == "it leaks", "the Markdown does not tell `{fact}`: {markdown:?}");
            assert!(
                in_a_cell(&csv, fact) || fact == "it leaks" || fact == "Leak",
                "the CSV does not tell `{fact}`: {csv:?}"
            );
        }
        assert_eq!(markdown.len(), csv.len() - 1, "as many rows in both");
        let width = csv[0].len();
        assert!(csv.iter().all(|row| row.len() == width), "each row has all columns");
    }
}

#[test]
fn hostile_names_come_out_as_they_are() {
    let stage = stage();
    let data: Value = serde_json::from_str(&kit(&stage, &["--json"])).expect("JSON");
    let tools = data["procedures"][0]["kit"]["tools"].as_array().expect("a list").clone();
    let markdown = rows_of_markdown(&kit(&stage, &["--markdown"])).0;
    let csv = rows_of_csv(&kit(&stage, &["--csv"]));
    for name in HOSTILE {
        assert!(tools.iter().any(|tool| tool["what"] == name), "JSON: {name}");
        assert!(markdown.iter().flatten().any(|cell| cell == name), "Markdown: {name}\n{markdown:?}");
        let is_formula = name.starts_with(['=', '@']);
        let wanted = if is_formula { format!("'{name}") } else { name.to_owned() };
        assert!(csv.iter().flatten().any(|cell| *cell == wanted), "CSV: {wanted}\n{csv:?}");
        assert!(words_of(&kit(&stage, &[])).contains(&words_of(name)), "text: {name}");
    }
}

/// RFC 4180, section 2, rules 1, 5, 6 and 7: CRLF ends each row; commas, quotes and line breaks stand between quotes, a
/// quote in them is doubled.
#[test]
fn the_csv_is_that_of_the_standard() {
    let stage = stage();
    let csv = kit(&stage, &["--csv"]);
    assert!(
        csv.starts_with("list,procedure,step,what,amount,pack,to buy,price,cost,order ahead,who,remark\r\n")
    );
    assert!(csv.contains(",\"rule, 6\"\" long, \"\"steel\"\"\","), "{csv}");
    assert_eq!(csv.matches('\n').count(), csv.matches("\r\n").count());
}

/// The kit of one procedure goes through the same forms.
#[test]
fn one_procedure_has_the_same_forms() {
    let stage = stage();
    let kit = |form: &str| stage.bayhand(&["kit", "drain.md", form]).out;
    let data: Value = serde_json::from_str(&kit("--json")).expect("JSON");
    let csv = rows_of_csv(&kit("--csv"));
    let (markdown, headings) = rows_of_markdown(&kit("--markdown"));
    assert_eq!(headings[0], "Drain");
    for tool in data["tools"].as_array().expect("a list") {
        let what = tool["what"].as_str().expect("words");
        let is_there =
            |rows: &[Vec<String>]| rows.iter().flatten().any(|cell| cell.trim_start_matches('\'') == what);
        assert!(is_there(&csv) && is_there(&markdown), "{what}");
    }
    let page = words_of(&stage.bayhand(&["kit", "drain.md"]).out);
    assert!(page.contains("fresh oil, 1 L, 2 packs of 1 qt, each 14.5 money: 29 money, ordered 3 d ahead (first at 1.2, lead)"), "{page}");
}

#[test]
fn only_one_form_at_a_time() {
    let ended = stage().bayhand(&["kit", "two.md", "--csv", "--json"]);
    assert_eq!((ended.code, ended.out.as_str()), (Some(2), ""), "{}", ended.err);
}

/// A job is known by its name alone, as a procedure is.
#[test]
fn a_job_inside_the_program_is_known_by_its_name() {
    let stage = stage();
    let ended = stage.bayhand(&["kit", "cold-reverse-stall", "--csv"]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    assert!(rows_of_csv(&ended.out).len() > 500);
}
