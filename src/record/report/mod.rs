//! The record as a page: what is said, in which order. How it looks is for the printers.

mod deviations;
mod dues;
mod fasteners;
mod first_page;
mod gauge;
mod holds;
mod left;
mod logs;
mod measured;
mod not_perfect;
mod people;
mod readings;
mod said;
mod seal;
mod steps;
mod times;
mod trail;
mod values;
mod vehicle;
mod verdict;
mod watches;

pub(crate) use said::{address, amount, answer, time};
use trail::Trail;

use super::model::Record;
use crate::print::{Block, Page, Row, Section, Style, Table};

/// The record as a page: the first page in plain words, then each thing by itself, the trail of entries last.
pub fn page(record: &Record) -> Page {
    let mut trail = Trail::new(record);
    let mut sections = first_page::sections(record, &mut trail);
    let rest = [
        readings::section,
        readings::pairs,
        values::section,
        fasteners::section,
        watches::section,
        holds::section,
        deviations::section,
        people::section,
        vehicle::section,
        steps::repeats,
        steps::section,
        steps::hazards,
        times::waits,
        logs::section,
        times::notes,
        times::sittings,
    ];
    sections.extend(rest.into_iter().filter_map(|section| section(record, &mut trail)));
    sections.push(trail.section());
    sections.push(seal::section(record));
    let kind = if record.not_finished.is_some() { "RECORD, NOT FINISHED" } else { "RECORD" };
    let answered = record.answered_from.iter().map(|file| {
        format!("ANSWERED FROM A FILE, NOT BY A PERSON: {file}. The times are the file's, not a clock's.")
    });
    Page {
        kind: kind.to_owned(),
        title: record.procedure.title.clone(),
        warnings: redacted(record).into_iter().chain(answered).collect(),
        sections,
    }
}

/// A table with its rows one below the other.
fn table(caption: &str, columns: &[&str], rows: Vec<Row>) -> Block {
    let columns = columns.iter().map(|&column| column.to_owned()).collect();
    Block::Table(Table { caption: caption.to_owned(), columns, rows, style: Style::Rows })
}

/// A section with one table; nothing where it has no row.
fn listed(heading: &str, columns: &[&str], rows: Vec<Row>) -> Option<Section> {
    (!rows.is_empty()).then(|| Section::rest(heading, vec![table(heading, columns, rows)]))
}

/// That it is a copy in which something is hidden, and of which record.
fn redacted(record: &Record) -> Vec<String> {
    let Some(redacted) = &record.redacted else { return Vec::new() };
    let hidden = redacted.hidden.join(" and ");
    vec![
        format!("REDACTED COPY of the record with the seal {}: {hidden} hidden.", redacted.of),
        "That it is a copy, only who has that record can show: the same hidden in it gives the same copy."
            .to_owned(),
    ]
}
