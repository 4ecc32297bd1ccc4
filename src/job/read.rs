//! A job read from its text.

use pulldown_cmark::{Event, Parser, Tag, TagEnd};
use std::cell::OnceCell;

use toml::de::DeValue;

use super::balance::{balances, unknown, unlisted};
use super::codes::{JOB_EMPTY, JOB_TWICE};
use super::model::{Job, Planned};
use super::order::circle;
use crate::procedure::document::split;
use crate::quantity::Quantity;
use crate::source::{Diagnostic, Found, Severity, SourceText, Span, Spanned};
use crate::table::{Fields, Scribe, duration, format, parse};

/// What the front matter says of a procedure.
#[derive(Default)]
struct Said {
    after: Option<Vec<Spanned<String>>>,
    alone: Option<Quantity>,
    two: Option<Quantity>,
    away: Option<Quantity>,
}

/// Whether a text is a job and no procedure: its front matter says `job`.
pub fn is_job(text: &str) -> bool {
    let front = split(text).value.front.and_then(|front| text.get(front.start..front.end));
    let top = front.unwrap_or_default().lines().take_while(|line| !line.trim_start().starts_with('['));
    top.filter_map(|line| line.split_once('=')).any(|(key, _)| key.trim() == "job")
}

/// Reads a job. It comes out only when nothing is wrong with it.
pub fn read(text: &SourceText, id: &str) -> Found<Option<Job>> {
    let found = split(text.text());
    let mut diagnostics = found.diagnostics;
    let front = found.value.front.unwrap_or(Span::new(0, 0));
    let toml = text.text().get(front.start..front.end).unwrap_or_default();
    let mut scribe = Scribe::new(toml, front.start);
    let (mut what, mut said, mut balanced) = (None, Vec::new(), Vec::new());
    let mended = OnceCell::new();
    if let Some(table) = parse(&mut scribe, &mended) {
        let mut fields = Fields::new(&table, "the front matter of the job", front, &mut scribe).whole();
        format(&mut fields);
        what = fields.need_text("job", "A cold-start stall on selecting reverse").map(|what| what.value);
        said = procedures(&mut fields);
        balanced = balances(&mut fields);
        fields.finish();
    }
    diagnostics.append(&mut scribe.diagnostics);
    let (title, mut listed) = list(text.text(), found.value.body);
    if listed.is_empty() {
        let diagnostic = Diagnostic::error(&JOB_EMPTY, "this job lists no procedure");
        let help = "write an ordered list of links: `1. [Raise and support](raise-and-support.md)`";
        diagnostics.push(
            diagnostic.at(Span::new(found.value.body.start, found.value.body.start), "here").help(help),
        );
    }
    diagnostics.extend(twice(&listed));
    for (name, said) in said {
        diagnostics.extend(put(&mut listed, &name, said));
    }
    diagnostics.extend(circle(&listed));
    diagnostics.extend(unknown(&balanced, &listed));
    diagnostics.sort_by_key(Diagnostic::place);
    let is_sound = diagnostics.iter().all(|diagnostic| diagnostic.severity != Severity::Error);
    let job = what.map(|what| Job { id: id.to_owned(), title, what, procedures: listed, balances: balanced });
    Found { value: job.filter(|_| is_sound), diagnostics }
}

fn procedures(fields: &mut Fields<'_, '_, '_>) -> Vec<(Spanned<String>, Said)> {
    let Some(item) = fields.item("procedures") else { return Vec::new() };
    let DeValue::Table(table) = item.value else {
        fields.wrong_type("procedures", item, "a table `[procedures.name]` for each procedure");
        return Vec::new();
    };
    let rest = Fields::new(table, "procedures", item.key, fields.scribe).rest();
    let said = rest.into_iter().filter_map(|(name, item)| {
        let DeValue::Table(table) = item.value else {
            fields.wrong_type(&name.value, item, "a table such as `{ after = [\"strip\"] }`");
            return None;
        };
        let mut own = Fields::new(table, format!("the procedure `{}`", name.value), name.span, fields.scribe);
        let after = own.texts("after").map(|after| after.value);
        let time = |own: &mut Fields<'_, '_, '_>, key| duration(own, key).map(|time| time.value);
        let (alone, two, away) = (time(&mut own, "alone"), time(&mut own, "two"), time(&mut own, "away"));
        own.finish();
        Some((name, Said { after, alone, two, away }))
    });
    said.collect()
}

/// The title, and the links of the ordered list, each after the one before it.
fn list(text: &str, body: Span) -> (String, Vec<Planned>) {
    let (mut title, mut listed, mut is_title, mut depth) =
        (String::new(), Vec::<Planned>::new(), false, 0_usize);
    let mut link: Option<Planned> = None;
    for (event, range) in Parser::new(text.get(body.start..body.end).unwrap_or_default()).into_offset_iter() {
        match event {
            Event::Start(Tag::Heading { .. }) => is_title = title.is_empty(),
            Event::End(TagEnd::Heading(_)) => is_title = false,
            Event::Start(Tag::List(Some(_))) => depth += 1,
            Event::End(TagEnd::List(true)) => depth = depth.saturating_sub(1),
            Event::Start(Tag::Link { dest_url, .. }) if depth > 0 => {
                let file = dest_url.rsplit('/').next().unwrap_or_default();
                let id = file.strip_suffix(".md").unwrap_or(file).to_owned();
                let after = listed.len().checked_sub(1).into_iter().collect();
                let span = Span::new(body.start + range.start, body.start + range.end);
                let (address, title) = (dest_url.into_string(), String::new());
                link = Some(Planned { id, address, title, after, alone: None, two: None, away: None, span });
            }
            Event::End(TagEnd::Link) => listed.extend(link.take()),
            Event::Text(words) | Event::Code(words) => match &mut link {
                Some(link) => link.title.push_str(&words),
                None if is_title => title.push_str(&words),
                None => {}
            },
            _ => {}
        }
    }
    (title, listed)
}

fn twice(listed: &[Planned]) -> Vec<Diagnostic> {
    let again = listed.iter().enumerate().filter_map(|(place, planned)| {
        let first = listed.iter().take(place).find(|other| other.id == planned.id)?;
        let headline = format!("`{}` stands in the list twice", planned.id);
        let diagnostic = Diagnostic::error(&JOB_TWICE, headline).at(planned.span, "the second");
        Some(diagnostic.also(first.span, "the first").help("take one of them out"))
    });
    again.collect()
}

/// Puts what was said of a procedure where it belongs.
fn put(listed: &mut [Planned], name: &Spanned<String>, said: Said) -> Vec<Diagnostic> {
    let ids: Vec<String> = listed.iter().map(|planned| planned.id.clone()).collect();
    let place = |name: &Spanned<String>| ids.iter().position(|id| *id == name.value);
    let Some(planned) = place(name).and_then(|own| listed.get_mut(own)) else {
        return vec![unlisted(name, listed)];
    };
    (planned.alone, planned.two, planned.away) = (said.alone, said.two, said.away);
    let Some(after) = said.after else { return Vec::new() };
    planned.after = after.iter().filter_map(place).collect();
    after.iter().filter(|name| place(name).is_none()).map(|name| unlisted(name, listed)).collect()
}
