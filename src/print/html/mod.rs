//! A page as one HTML file that needs nothing else: no script, and no picture or font from anywhere.
//!
//! Its policy forbids to load or run anything; the style that it carries is named there by its hash. Black on white, words
//! beside every drawing, headings in order, so that it can be read aloud, on a phone and on paper.

mod drawn;
mod plotted;
mod strokes;
mod style;
mod writer;

use writer::Writer;

use super::{Block, Figure, Grid, Mark, Page, Part, Picture, Row, Section, Table, Tick};
use crate::source::base64;

/// The page as HTML.
pub fn html(page: &Page) -> String {
    let mut out = Writer::default();
    out.raw("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    out.raw("<meta http-equiv=\"Content-Security-Policy\" content=\"");
    out.text(&style::policy(has_picture(&page.sections)));
    out.raw("\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    out.element("title", &format!("{} - {}", page.title, page.kind));
    out.raw("\n<style>");
    out.raw(style::CSS);
    out.raw("</style>\n</head>\n<body>\n<main>\n<header>\n");
    out.line("p", &page.kind);
    out.line("h1", &page.title);
    for warning in &page.warnings {
        out.raw("<p class=\"warned\">");
        out.text(warning);
        out.raw("</p>\n");
    }
    out.raw("</header>\n");
    for section in &page.sections {
        write_section(&mut out, section);
    }
    out.raw("</main>\n</body>\n</html>\n");
    out.finish()
}

fn has_picture(sections: &[Section]) -> bool {
    sections.iter().flat_map(|section| &section.blocks).any(Block::has_picture)
}

/// A drawing as a file of its own: SVG with its title and its words.
pub fn svg(title: &str, figure: &Figure) -> String {
    let mut out = Writer::default();
    drawn::write_alone(&mut out, title, figure);
    out.finish()
}

fn write_section(out: &mut Writer, section: &Section) {
    out.raw(if section.part == Part::First { "<section class=\"first\">\n" } else { "<section>\n" });
    if !section.heading.is_empty() {
        out.line("h2", &section.heading);
    }
    for block in &section.blocks {
        match block {
            Block::Table(table) if table.caption == section.heading => write_table(out, table, HEARD),
            block => write_block(out, block),
        }
    }
    out.raw("</section>\n");
}

fn write_block(out: &mut Writer, block: &Block) {
    match block {
        Block::Heading(words) => out.line("h3", words),
        Block::Words(words) => out.line("p", words),
        Block::Items(items) => out.list(items),
        Block::Facts(facts) => {
            out.raw("<dl>\n");
            for (name, words) in facts {
                out.element("dt", name);
                out.line("dd", words);
            }
            out.raw("</dl>\n");
        }
        Block::Table(table) => write_table(out, table, SEEN),
        Block::Hazard(signal, words) => {
            out.raw("<p class=\"hazard\">");
            out.element("strong", signal);
            out.text(&format!(" {words}"));
            out.raw("</p>\n");
        }
        Block::Ticks(ticks) => write_ticks(out, ticks),
        Block::Kept(blocks) => {
            out.raw("<div class=\"keep\">\n");
            for block in blocks {
                write_block(out, block);
            }
            out.raw("</div>\n");
        }
        Block::Long { full, .. } => write_block(out, full),
        Block::Grid(grid) => write_grid(out, grid),
        Block::Picture(picture) => write_picture(out, picture),
        Block::Figure(caption, figure) => {
            out.raw("<figure>\n");
            drawn::write(out, figure);
            out.raw("\n<figcaption>");
            out.text(&format!("{caption}: {}", figure.words()));
            out.raw("</figcaption>\n</figure>\n");
        }
    }
}

/// The picture itself is in the page; its words and where it comes from stand below it.
fn write_picture(out: &mut Writer, picture: &Picture) {
    let Some(data) = &picture.data else { return out.line("p", &picture.said()) };
    out.raw("<figure>\n<img alt=\"");
    out.text(&picture.words);
    out.raw("\" src=\"data:");
    out.raw(data.kind());
    out.raw(";base64,");
    out.raw(&base64::encode(data.bytes()));
    out.raw("\">\n<figcaption>");
    out.text(&picture.said());
    out.raw("</figcaption>\n</figure>\n");
}

fn write_ticks(out: &mut Writer, ticks: &[Tick]) {
    out.raw("<ul class=\"ticks\">\n");
    for tick in ticks {
        out.raw(if tick.within { "<li class=\"within\">" } else { "<li>" });
        drawn::write_box(out, tick.mark);
        out.text(&tick.words);
        for choice in &tick.choices {
            out.raw(" <span class=\"choice\">");
            drawn::write_box(out, Mark::Open);
            out.text(choice);
            out.raw("</span>");
        }
        for blank in &tick.blanks {
            out.raw(" <span class=\"blank\">");
            out.text(blank);
            out.raw("</span>");
        }
        out.raw("</li>\n");
    }
    out.raw("</ul>\n");
}

/// A caption, and one that is read aloud only, since it stands as the heading right above.
const SEEN: &str = "<caption>";
const HEARD: &str = "<caption class=\"heard\">";

fn write_table(out: &mut Writer, table: &Table, open: &str) {
    let (used, more) = (table.used(), table.has_more());
    let named = used.iter().filter_map(|column| table.columns.get(*column)).map(String::as_str);
    let columns: Vec<&str> = named.chain(more.then_some("Particulars")).collect();
    write_head(out, (open, &table.caption), &columns);
    for row in &table.rows {
        write_row(out, row, (&used, &columns), more);
    }
    out.raw("</tbody>\n</table>\n");
}

fn write_head(out: &mut Writer, (open, caption): (&str, &str), columns: &[&str]) {
    out.raw("<table>\n");
    out.raw(open);
    out.text(caption);
    out.raw("</caption>\n<thead>\n<tr>");
    for column in columns {
        out.raw("<th scope=\"col\">");
        out.text(column);
        out.raw("</th>");
    }
    out.raw("</tr>\n</thead>\n<tbody>\n");
}

/// On a phone each cell stands on a line of its own, and the head of its column goes before it.
fn open_cell(out: &mut Writer, column: &str) {
    out.raw("<td data-column=\"");
    out.text(column);
    out.raw("\">");
}

fn write_row(out: &mut Writer, row: &Row, (used, columns): (&[usize], &[&str]), more: bool) {
    out.raw("<tr>\n<th scope=\"row\">");
    out.text(used.first().map_or("", |column| row.cell(*column)));
    out.raw("</th>");
    for (column, head) in used.iter().zip(columns).skip(1) {
        open_cell(out, head);
        out.text(row.cell(*column));
        out.raw("</td>");
    }
    if more {
        open_cell(out, "");
        if let Some(figure) = &row.figure {
            drawn::write(out, figure);
        }
        out.list(&row.notes);
        out.raw("</td>");
    }
    out.raw("\n</tr>\n");
}

fn write_grid(out: &mut Writer, grid: &Grid) {
    let columns: Vec<&str> =
        std::iter::once(grid.corner.as_str()).chain(grid.columns.iter().map(String::as_str)).collect();
    write_head(out, (SEEN, &grid.caption), &columns);
    for (name, cells) in &grid.rows {
        out.raw("<tr><th scope=\"row\">");
        out.text(name);
        out.raw("</th>");
        for (cell, column) in cells.iter().zip(&grid.columns) {
            open_cell(out, column);
            out.text(cell);
            out.raw("</td>");
        }
        out.raw("</tr>\n");
    }
    out.raw("</tbody>\n</table>\n");
}
