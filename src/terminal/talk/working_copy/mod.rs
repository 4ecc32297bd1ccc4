//! A working copy: the procedure on paper, with a box for everything that is done and a blank for everything that is
//! written down; of a run that goes on, with what is done already.
//!
//! What was done on paper comes into the run as late entries (`it was done before`).

mod blanks;
mod filled;

use filled::Filled;

use super::around;
use super::criteria::outcomes;
use super::fastening;
use super::hazard::hazard_line;
use super::overview::{needs, text_of};
use super::paper::Paper;
use crate::print::{Block, Mark, Page, Picture, Section as Printed, Tick};
use crate::procedure::{CheckedProcedure, Group, Hold, Name, Order, Passage, Section, Step};
use crate::record::model::Record;
use crate::vehicle::Sheet;

/// The working copy; with the figures of one vehicle where its sheet is given, and with what is done of a run.
pub fn working_copy(procedure: &CheckedProcedure, sheet: Option<&Sheet>, done: Option<&Record>) -> Page {
    let copy = Copy { paper: Paper::new(procedure, sheet), procedure, done: done.map(Filled::new) };
    let mut sections = vec![copy.opening(), copy.before()];
    sections.extend(procedure.sections().iter().map(|section| copy.section(section)));
    sections.push(Printed::rest("Must be so at the end", vec![statements(procedure.close_up())]));
    let run = done.map(|record| format!("What run {} has done so far is filled in.", record.run));
    Page {
        kind: "WORKING COPY".to_owned(),
        title: procedure.title().to_owned(),
        warnings: run.into_iter().collect(),
        sections,
    }
}

struct Copy<'a> {
    paper: Paper<'a>,
    procedure: &'a CheckedProcedure,
    done: Option<Filled<'a>>,
}

/// Statements that must be true, a box each.
fn statements(all: &[String]) -> Block {
    if all.is_empty() {
        return Block::Words("Nothing.".to_owned());
    }
    Block::Ticks(all.iter().map(|words| open(words.clone())).collect())
}

fn open(words: String) -> Tick {
    Tick { mark: Mark::Open, words, ..Tick::default() }
}

impl Copy<'_> {
    fn opening(&self) -> Printed {
        let header = self.procedure.header();
        let mut facts = vec![
            (
                "Procedure".to_owned(),
                format!("{}, revision {}, {}", self.procedure.id(), header.revision, header.date),
            ),
            ("Author".to_owned(), header.author.clone()),
            ("For".to_owned(), header.scope.clone()),
        ];
        facts.extend(header.time.as_ref().map(|time| ("Time".to_owned(), format!("about {time}"))));
        let mut blanks: Vec<Tick> = Vec::new();
        let blank = |words: &str, blanks: &[&str]| Tick {
            words: words.to_owned(),
            blanks: blanks.iter().map(|&blank| blank.to_owned()).collect(),
            ..Tick::default()
        };
        blanks.push(blank("Vehicle", &["which", "number", "odometer"]));
        let roles = self.procedure.roles().iter();
        blanks.extend(roles.map(|(name, role)| blank(&format!("{name}: {}", role.what), &["name", "date"])));
        let mut blocks = vec![Block::Facts(facts)];
        if self.done.is_none() {
            blocks.push(Block::Ticks(blanks));
        } else {
            blocks.extend(self.done.as_ref().map(Filled::head));
        }
        blocks.extend(self.passages(self.procedure.introduction()));
        Printed::first("", blocks)
    }

    fn before(&self) -> Printed {
        let lists = needs(self.paper).into_iter().filter(|(_, items)| !items.is_empty());
        let lists = lists.flat_map(|(title, items)| [Block::Heading(title.to_owned()), statements(&items)]);
        let vehicle = blanks::vehicle(self.paper);
        let must =
            [Block::Heading("Must be so before the job".to_owned()), statements(self.procedure.required())];
        Printed::first("What it takes", lists.chain(vehicle).chain(must).collect())
    }

    fn section(&self, section: &Section) -> Printed {
        let only = around::only_if(self.paper, &section.conditions);
        let repeated = around::repeated(self.paper, section.repeat.as_ref());
        let mut blocks = Vec::new();
        if !(repeated.is_empty() && only.is_empty()) {
            blocks.push(Block::Words(format!("{repeated}{only}").trim().to_owned()));
        }
        // The hazards of a section stay with its first step.
        let mut first = self.hazards(&section.hazards);
        for group in &section.groups {
            blocks.extend(self.group(group, &mut first));
        }
        blocks.append(&mut first);
        blocks.extend(self.passages(&section.after));
        Printed::rest(section.title.clone(), blocks)
    }

    fn group(&self, group: &Group, first: &mut Vec<Block>) -> Vec<Block> {
        let mut blocks = Vec::new();
        if group.order == Order::AnyOrder && group.steps.len() > 1 {
            blocks.push(Block::Words("In any order:".to_owned()));
        }
        for step in group.steps.iter().filter_map(|step| self.procedure.step(*step)) {
            let mut kept = std::mem::take(first);
            kept.extend(self.step(step));
            blocks.push(Block::Kept(kept));
            for within in &step.groups {
                blocks.extend(self.group(within, &mut Vec::new()));
            }
        }
        blocks
    }

    /// A step with everything that must not be parted from it.
    fn step(&self, step: &Step) -> Vec<Block> {
        let mut blocks = self.passages(&step.before);
        blocks.extend(self.hazards(&step.hazards));
        let done = self.done.as_ref().map(|done| done.step(step)).unwrap_or_default();
        let is_settled = self.done.as_ref().is_some_and(|done| done.is_settled(step));
        blocks.extend((!done.is_empty()).then_some(Block::Ticks(done)));
        if is_settled {
            return blocks;
        }
        let mut ticks = vec![Tick { blanks: vec!["time".to_owned()], ..open(self.words(step)) }];
        ticks.extend(
            step.hold.as_ref().and_then(|hold| self.procedure.hold(hold)).into_iter().flat_map(hold_ticks),
        );
        ticks.extend(outcomes(self.paper, step).into_iter().flat_map(blanks::outcome));
        ticks.extend(around::beside(self.paper, step).lines().map(|words| written(words, &[])));
        ticks.extend(fastening::overview(self.paper, step).lines().map(|words| written(words, &[])));
        blocks.push(Block::Ticks(ticks));
        blocks.extend(self.fasteners(step));
        blocks.extend(self.passages(&step.passages));
        blocks
    }

    fn words(&self, step: &Step) -> String {
        let who: Vec<&str> = step.who.iter().map(Name::as_str).collect();
        let who = if who.is_empty() { String::new() } else { format!("[{}] ", who.join(" and ")) };
        let only = around::only_if(self.paper, &step.conditions);
        let repeated = around::repeated(self.paper, step.repeat.as_ref());
        format!("{} {who}{}{repeated}{only}", step.number, text_of(self.procedure, &step.text))
    }

    fn hazards(&self, names: &[Name]) -> Vec<Block> {
        let hazards = names.iter().filter_map(|name| self.procedure.hazard(name));
        let told = hazards.map(|hazard| {
            let signal = hazard.signal.word();
            let words = hazard_line(hazard).words();
            Block::Hazard(signal.to_owned(), words.strip_prefix(signal).unwrap_or(&words).trim().to_owned())
        });
        told.collect()
    }

    fn passages(&self, passages: &[Passage]) -> Vec<Block> {
        let shown = |passage: &Passage| {
            let words = text_of(self.procedure, &passage.text);
            match &passage.address {
                Some(address) => Block::Picture(Picture { words, address: address.clone(), data: None }),
                None => Block::Words(words),
            }
        };
        passages.iter().map(shown).collect()
    }

    fn fasteners(&self, step: &Step) -> Vec<Block> {
        let groups = self.procedure.fasteners_at(step).filter_map(|name| self.procedure.fastener_group(name));
        groups.map(|group| blanks::places(self.paper, group)).collect()
    }
}

/// Something below a step, with what is written behind it.
fn written(words: String, blanks: &[&str]) -> Tick {
    let blanks = blanks.iter().map(|&blank| blank.to_owned()).collect();
    let mark = if words.is_empty() { Mark::None } else { Mark::Open };
    Tick { mark, words, blanks, within: true, ..Tick::default() }
}

/// The statements of a hold point and its release.
fn hold_ticks(hold: &Hold) -> Vec<Tick> {
    let head = Tick { words: format!("Hold point: {}", hold.what), within: true, ..Tick::default() };
    let statements = hold.confirm.iter().map(|words| written(words.clone(), &[]));
    let release = std::iter::once(&hold.release).chain(&hold.second);
    let release = release.map(|role| written(format!("released by the {role}"), &["name", "time"]));
    std::iter::once(head).chain(statements).chain(release).collect()
}
