//! A page as Markdown: CommonMark with the tables of GitHub's.

use super::{Block, Grid, Mark, Page, Row, Section, Table, Tick};
use crate::source::clean;

/// The page as Markdown.
pub fn markdown(page: &Page) -> String {
    let mut lines = vec![format!("# {}", escaped(&page.title)), String::new(), escaped(&page.kind)];
    for warning in &page.warnings {
        lines.extend([String::new(), format!("**{}**", escaped(warning))]);
    }
    page.sections.iter().for_each(|section| write_section(&mut lines, section));
    lines.push(String::new());
    lines.join("\n")
}

fn write_section(lines: &mut Vec<String>, section: &Section) {
    if !section.heading.is_empty() {
        lines.extend([String::new(), format!("## {}", escaped(&section.heading))]);
    }
    for block in &section.blocks {
        lines.push(String::new());
        write_block(lines, block);
    }
}

fn write_block(lines: &mut Vec<String>, block: &Block) {
    match block {
        Block::Heading(words) => lines.push(format!("### {}", escaped(words))),
        Block::Words(words) => lines.push(escaped(words)),
        Block::Items(items) => lines.extend(items.iter().map(|item| format!("- {}", escaped(item)))),
        Block::Facts(facts) => lines
            .extend(facts.iter().map(|(name, words)| format!("- **{}:** {}", escaped(name), escaped(words)))),
        Block::Table(table) => write_table(lines, table),
        Block::Hazard(signal, words) => lines.push(format!("> **{}** {}", escaped(signal), escaped(words))),
        Block::Ticks(ticks) => lines.extend(ticks.iter().map(tick)),
        Block::Kept(blocks) => {
            for block in blocks {
                write_block(lines, block);
                lines.push(String::new());
            }
        }
        Block::Long { full, .. } => write_block(lines, full),
        Block::Grid(grid) => write_grid(lines, grid),
        Block::Picture(picture) => lines.push(escaped(&picture.said())),
        Block::Figure(caption, figure) => {
            lines.extend([escaped(&format!("{caption}: {}", figure.words())), String::new()]);
            lines.extend(figure.drawn(DRAWN).iter().map(|line| format!("    {}", clean(line))));
        }
    }
}

/// An item of a list, with its box and its blanks.
fn tick(tick: &Tick) -> String {
    let mark = match tick.mark {
        Mark::None => "",
        Mark::Open => "☐ ",
        Mark::Done => "☑ ",
    };
    let choices: Vec<String> = tick.choices.iter().map(|choice| format!(" ☐ {}", escaped(choice))).collect();
    let choices = choices.concat();
    let blanks: Vec<String> =
        tick.blanks.iter().map(|blank| format!(" {} \\_\\_\\_\\_", escaped(blank))).collect();
    let blanks = blanks.concat();
    let indent = if tick.within { "  " } else { "" };
    format!("{indent}- {mark}{}{choices}{blanks}", escaped(&tick.words))
}

/// The room for a drawing.
const DRAWN: usize = 76;

fn write_table(lines: &mut Vec<String>, table: &Table) {
    let (used, more) = (table.used(), table.has_more());
    let named = used.iter().filter_map(|column| table.columns.get(*column)).map(String::as_str);
    write_head(lines, &named.chain(more.then_some("Particulars")).collect::<Vec<_>>());
    lines.extend(table.rows.iter().map(|row| table_row(row, &used, more)));
}

fn write_head(lines: &mut Vec<String>, columns: &[&str]) {
    let heads: Vec<String> = columns.iter().map(|column| escaped(column)).collect();
    lines.push(format!("| {} |", heads.join(" | ")));
    lines.push(format!("|{}", "---|".repeat(columns.len())));
}

fn table_row(row: &Row, used: &[usize], has_more: bool) -> String {
    let mut cells: Vec<String> = used.iter().map(|column| escaped(row.cell(*column))).collect();
    let notes: Vec<String> = row.notes.iter().map(|note| escaped(note)).collect();
    // A drawing keeps its bars: in a table they would begin a column.
    let drawn = row.figure.iter().flat_map(|figure| figure.drawn(DRAWN));
    let drawn = drawn.map(|line| format!("`{}`", clean(&line).replace('`', "'").replace('|', "\\|")));
    let more: Vec<String> = drawn.chain(notes).collect();
    cells.extend(has_more.then(|| more.join("<br>")));
    format!("| {} |", cells.join(" | "))
}

fn write_grid(lines: &mut Vec<String>, grid: &Grid) {
    let columns: Vec<&str> =
        std::iter::once(grid.corner.as_str()).chain(grid.columns.iter().map(String::as_str)).collect();
    write_head(lines, &columns);
    for (name, cells) in &grid.rows {
        let cells = std::iter::once(name).chain(cells).map(|cell| escaped(cell));
        lines.push(format!("| {} |", cells.collect::<Vec<_>>().join(" | ")));
    }
}

/// Text that stays text: on one line, nothing in it that begins something else.
fn escaped(text: &str) -> String {
    let line = clean(text).split_whitespace().collect::<Vec<_>>().join(" ");
    let mut out = String::with_capacity(line.len());
    // `1.`, `-`, `+` and `=` mean something at the beginning only.
    let numbered = line.find(|letter: char| !letter.is_ascii_digit()).filter(|place| *place > 0);
    for (place, letter) in line.char_indices() {
        let begins = match letter {
            '-' | '+' | '=' => place == 0,
            '.' | ')' => numbered == Some(place),
            _ => false,
        };
        // What a viewer would make a link of without being asked.
        let rest = &line[place..];
        let linked = rest.starts_with("://")
            || letter == '@'
            || (letter == '.' && line[..place].to_lowercase().ends_with("www"));
        if begins || linked || r"\`*_[]<>|~&#!$".contains(letter) {
            out.push('\\');
        }
        out.push(letter);
    }
    out
}
