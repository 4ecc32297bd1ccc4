//! The forms, read back.

use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};

/// The rows of a CSV text, as RFC 4180 says: each row ends in CRLF, a cell in quotes may hold anything, a quote in it is
/// doubled.
pub fn rows_of_csv(text: &str) -> Vec<Vec<String>> {
    let (mut rows, mut row, mut cell, mut is_quoted) = (Vec::new(), Vec::new(), String::new(), false);
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        match letter {
            '"' if is_quoted && letters.peek() == Some(&'"') => {
                letters.next();
                cell.push('"');
            }
            '"' if is_quoted => is_quoted = false,
            '"' if cell.is_empty() => is_quoted = true,
            '"' => panic!("a quote in a bare cell: {cell}"),
            ',' if !is_quoted => row.push(std::mem::take(&mut cell)),
            '\r' if !is_quoted => {
                assert_eq!(letters.next(), Some('\n'), "CR alone");
                row.push(std::mem::take(&mut cell));
                rows.push(std::mem::take(&mut row));
            }
            '\n' if !is_quoted => panic!("LF alone after {row:?}"),
            other => cell.push(other),
        }
    }
    assert!(row.is_empty() && cell.is_empty() && !is_quoted, "the last row does not end");
    rows
}

/// The texts of the cells of every table, row by row without the heads; the headings.
pub fn rows_of_markdown(text: &str) -> (Vec<Vec<String>>, Vec<String>) {
    let (mut rows, mut headings, mut cell) = (Vec::new(), Vec::new(), String::new());
    let mut row = Vec::new();
    for event in Parser::new_ext(text, Options::ENABLE_TABLES | Options::ENABLE_STRIKETHROUGH) {
        match event {
            Event::Text(words) => cell.push_str(&words),
            Event::Start(Tag::TableCell | Tag::Heading { .. }) => cell.clear(),
            Event::End(TagEnd::TableCell) => row.push(cell.clone()),
            Event::End(TagEnd::Heading(_)) => headings.push(cell.clone()),
            Event::End(TagEnd::TableHead) => row.clear(),
            Event::End(TagEnd::TableRow) => rows.push(std::mem::take(&mut row)),
            Event::Code(_)
            | Event::Html(_)
            | Event::InlineHtml(_)
            | Event::Start(Tag::Link { .. } | Tag::Image { .. } | Tag::Emphasis | Tag::Strikethrough) => {
                panic!("markup came through: {event:?}")
            }
            _ => {}
        }
    }
    (rows, headings)
}
