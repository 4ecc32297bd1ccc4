//! Texts that try to be something else stay text, in every form, whichever field of a record they stand in.

use bayhand::print::{html, markdown};
use bayhand::record::model::Record;
use bayhand::record::report::page;
use bayhand::record::text::render;
use bayhand::record::to_csv;
use pulldown_cmark::{Event, Options, Parser, Tag};
use serde_json::Value;

use super::support::eventful;

/// Markup, script, entities, quotes, Markdown, links, a formula, line ends, bidirectional, C0 and C1 controls.
const HOSTILE: &str = "=1+1,\"'`<script>alert(1)</script><img src=x onerror=y>&lt;--> \u{202e}\u{2066}\u{1b}[31m\u{7}\u{85}\u{9b}\
    |*b*_i_[a](http://e.example)![p](q) ~~s~~ http://e.example www.e.example a@e.example $x$ \\ {{y}}\r\n# head\n- item\n<b>";

/// A record with the hostile text in each of its texts; numbers, units and times stay what they are.
fn hostile() -> Record {
    let mut data = serde_json::to_value(eventful()).unwrap();
    spoil("", &mut data);
    serde_json::from_value(data).unwrap()
}

fn spoil(key: &str, value: &mut Value) {
    match value {
        Value::Object(map) => map.iter_mut().for_each(|(key, value)| spoil(key, value)),
        Value::Array(items) => items.iter_mut().for_each(|item| spoil(key, item)),
        Value::String(text) => {
            let is_exact =
                ["at", "number", "unit", "factor", "offset", "due", "not_before", "done", "stated"];
            if !is_exact.contains(&key) {
                *text = format!("{HOSTILE}{text}");
            }
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

/// What changes the meaning of what stands beside it, or is not seen.
fn is_control(letter: char) -> bool {
    (letter.is_control() && letter != '\n')
        || matches!(letter, '\u{200e}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}')
}

fn assert_no_control(form: &str, text: &str) {
    let found = text.chars().find(|letter| is_control(*letter));
    assert_eq!(found, None, "{form}");
}

#[test]
fn in_text() {
    let text = render(&hostile(), 80);
    assert_no_control("text", &text);
    assert!(text.contains("<script>alert(1)</script>"), "it is not lost");
}

/// All the tags that we write, and all their attributes.
const TAGS: [&str; 31] = [
    "!DOCTYPE",
    "html",
    "head",
    "meta",
    "title",
    "style",
    "body",
    "main",
    "header",
    "section",
    "h1",
    "h2",
    "h3",
    "p",
    "ul",
    "li",
    "dl",
    "dt",
    "dd",
    "table",
    "caption",
    "thead",
    "tbody",
    "tr",
    "th",
    "td",
    "figure",
    "figcaption",
    "svg",
    "g",
    "line",
];
const DRAWN: [&str; 3] = ["circle", "text", "rect"];

/// Every tag as name and attribute names, the text between them decoded.
fn taken_apart(html: &str) -> (Vec<(String, Vec<String>)>, String) {
    let (mut tags, mut words) = (Vec::new(), String::new());
    for piece in html.split('<').skip(1) {
        let (tag, text) = piece.split_once('>').unwrap();
        words.push_str(text);
        let name = tag.trim_start_matches('/').split([' ', '\n']).next().unwrap().to_owned();
        let quoted: Vec<&str> = tag.split('"').collect();
        assert!(quoted.len() % 2 == 1, "quotes are in pairs: {tag}");
        let names = quoted.iter().step_by(2).flat_map(|outside| outside.split([' ', '/', '=']));
        let names = names.filter(|name| !name.is_empty()).map(str::to_owned);
        tags.push((name.clone(), names.filter(|attribute| *attribute != name).collect()));
    }
    let words = words.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&#39;", "'");
    (tags, words.replace("&amp;", "&"))
}

#[test]
fn in_html() {
    let written = html(&page(&hostile()));
    assert_no_control("HTML", &written);
    let (tags, words) = taken_apart(&written);
    let attributes = "lang charset http-equiv content name class scope data-column role aria-label viewBox width height x y \
        x1 y1 x2 y2 cx cy r fill stroke stroke-width font-size text-anchor html";
    let attributes: Vec<&str> = attributes.split_whitespace().collect();
    for (name, found) in &tags {
        assert!(TAGS.contains(&name.as_str()) || DRAWN.contains(&name.as_str()), "<{name}>");
        for attribute in found {
            assert!(attributes.contains(&attribute.as_str()), "<{name} {attribute}>");
        }
    }
    assert!(
        words.contains("<script>alert(1)</script><img src=x onerror=y>&lt;-->"),
        "it stands there as text"
    );
    let plain = taken_apart(&html(&page(&eventful()))).0;
    assert_eq!(
        tags.iter().filter(|tag| tag.0 == "h2").count(),
        plain.iter().filter(|tag| tag.0 == "h2").count()
    );
}

#[test]
fn the_page_forbids_to_load_or_run_anything() {
    let written = html(&page(&eventful()));
    assert!(written.contains("content=\"default-src &#39;none&#39;; style-src &#39;sha256-"), "{written}");
    for forbidden in ["<script", " src=", " href=", "url(", "@import", " style=", " onload", "javascript:"] {
        assert!(!written.contains(forbidden), "{forbidden}");
    }
}

#[test]
fn in_markdown() {
    let written = markdown(&page(&hostile()));
    assert_no_control("Markdown", &written);
    let mut words = String::new();
    let options = Options::ENABLE_TABLES
        | Options::ENABLE_STRIKETHROUGH
        | Options::ENABLE_MATH
        | Options::ENABLE_FOOTNOTES;
    let mut headings = 0;
    for event in Parser::new_ext(&written, options) {
        match event {
            Event::Text(text) => words.push_str(&text),
            Event::InlineHtml(html) => assert_eq!(&*html, "<br>"),
            Event::Html(html) => panic!("{html}"),
            Event::Start(Tag::Link { dest_url, .. } | Tag::Image { dest_url, .. }) => panic!("{dest_url}"),
            Event::Start(Tag::Emphasis | Tag::Strikethrough)
            | Event::InlineMath(_)
            | Event::DisplayMath(_) => {
                panic!("something is set otherwise")
            }
            Event::Start(Tag::Heading { .. }) => headings += 1,
            _ => {}
        }
    }
    assert!(
        words.contains("<script>alert(1)</script><img src=x onerror=y>&lt;-->"),
        "it stands there as text"
    );
    let plain = markdown(&page(&eventful()));
    let count = |text: &str| text.lines().filter(|line| line.starts_with('#')).count();
    assert_eq!((headings, count(&written)), (count(&plain), count(&plain)));
    let links = ["http://", "www.e", " a@e"];
    assert!(links.iter().all(|link| !written.contains(link)), "nothing that a viewer makes a link of");
}

/// The rows and fields of a text as RFC 4180, section 2, has them.
fn rows(csv: &str) -> Vec<Vec<String>> {
    let (mut rows, mut row, mut field) = (Vec::new(), Vec::new(), String::new());
    let (mut quoted, mut letters) = (false, csv.chars().peekable());
    while let Some(letter) = letters.next() {
        match (quoted, letter) {
            (true, '"') if letters.peek() == Some(&'"') => field.push(letters.next().unwrap()),
            (_, '"') => quoted = !quoted,
            (false, ',') => row.push(std::mem::take(&mut field)),
            (false, '\r') => {
                assert_eq!(letters.next(), Some('\n'), "a line ends in CR and LF");
                row.push(std::mem::take(&mut field));
                rows.push(std::mem::take(&mut row));
            }
            (false, '\n') => panic!("a bare LF"),
            (_, letter) => field.push(letter),
        }
    }
    assert!(row.is_empty() && field.is_empty(), "the last line ends too");
    rows
}

#[test]
fn in_csv() {
    let record = hostile();
    let rows = rows(&to_csv(&record));
    let attempts: usize = record.readings.iter().map(|reading| reading.attempts.len().max(1)).sum();
    assert_eq!(rows.len(), attempts + 1);
    let columns = rows[0].len();
    for row in &rows {
        assert_eq!(row.len(), columns);
        for field in row {
            assert_no_control("CSV", field);
            assert!(!field.starts_with(['=', '+', '-', '@', '\t']), "{field}");
        }
    }
    assert!(rows[1][7].contains("<script>alert(1)</script>"), "{:?}", rows[1]);
}

/// Worked out by hand from the readings of the run.
#[test]
fn the_readings_stand_in_csv_as_they_are() {
    let rows = rows(&to_csv(&eventful()));
    let column = |name: &str| rows[0].iter().position(|head| head == name).unwrap();
    let taken: Vec<&Vec<String>> = rows.iter().filter(|row| row[column("reading")] == "far_end").collect();
    let field = |row: usize, name: &str| taken[row][column(name)].as_str();
    assert_eq!((field(0, "attempt"), field(0, "typed"), field(0, "verdict")), ("1", "100 kPa", "fail"));
    assert_eq!(
        (field(0, "lower"), field(0, "lower_good"), field(0, "upper"), field(0, "limit_unit")),
        ("18.3", "true", "", "psi")
    );
    assert_eq!((field(0, "remark"), field(0, "deviation")), ("taken again: straightened a kink", ""));
    assert_eq!((field(1, "typed"), field(1, "who"), field(1, "entry")), ("19 psi", "Sam Hollis", "20"));
    let bled = rows.iter().find(|row| row[column("reading")] == "bleed").unwrap();
    assert_eq!(bled[column("answer")], "not taken");
}
