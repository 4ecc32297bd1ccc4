//! A linked procedure in a run: it is done as if it stood there, and the way back is known all the time.

use bayhand::procedure::{Name, Shelf, read_linked};
use bayhand::run::{Answer, Ask, Book};
use bayhand::source::SourceText;
use proptest::prelude::*;

use super::drive::{Drive, text};

fn book(texts: &[(&str, String)]) -> Book {
    let sources = texts
        .iter()
        .map(|(id, text)| (format!("{id}.md"), SourceText::new(format!("{id}.md"), text.as_str())));
    let shelf: Shelf = sources.collect();
    let (id, own) = &texts[0];
    let found = read_linked(&SourceText::new("own.md", own.as_str()), id, &shelf);
    let said = || format!("{:#?}\n{:#?}", found.diagnostics, found.linked);
    Book::new(found.value.clone().unwrap_or_else(|| panic!("{}", said())), None)
}

fn drive(texts: &[(&str, String)]) -> Drive {
    let mut drive = Drive::begin(book(texts));
    drive.take(Answer::Person("Robin Vale".to_owned()));
    drive.enter("187400 km");
    drive
}

fn answer(drive: &mut Drive) {
    let answer = match drive.ask() {
        Ask::Reading(_) => super::drive::typed("1"),
        Ask::Pick(steps) => Answer::Pick(*steps.last().unwrap()),
        Ask::Acknowledge(_) => Answer::Acknowledge,
        Ask::Close => Answer::Close,
        _ => Answer::Done,
    };
    drive.take(answer);
}

/// The return stack: each title with the numbers to come back to.
fn stack(drive: &Drive) -> Vec<(String, String)> {
    let step = drive.prompt().step.unwrap();
    let stack = drive.view().within(step);
    stack.iter().map(|within| (within.link.title.clone(), within.back.join(" or "))).collect()
}

fn titled(title: &str, body: &str) -> String {
    text("", body).replace("# Test", &format!("# {title}"))
}

#[test]
fn each_return_lands_on_the_right_step() {
    let texts = [
        ("job", titled("Job", "1. Begin.\n2. [A](a.md), then go on.\n3. End.\n")),
        ("a", titled("A", "1. [B](b.md)\n2. Close up.\n")),
        ("b", titled("B", "## Only\n\n1. [C](c.md)\n")),
        ("c", titled("C", "1. Turn.\n2. Turn back.\n")),
    ];
    let mut drive = drive(&texts);
    let mut seen = Vec::new();
    while !matches!(drive.ask(), Ask::Close) {
        seen.push((drive.number(), stack(&drive)));
        answer(&mut drive);
    }
    let pair = |title: &str, back: &str| (title.to_owned(), back.to_owned());
    let three = vec![pair("A", "1.3"), pair("B", "1.2.2"), pair("C", "1.2.2")];
    assert_eq!(
        seen,
        [
            ("1.1".to_owned(), vec![]),
            ("1.2.1.1.1.1".to_owned(), three.clone()),
            ("1.2.1.1.1.2".to_owned(), three),
            ("1.2.2".to_owned(), vec![pair("A", "1.3")]),
            ("1.3".to_owned(), vec![]),
        ]
    );
}

#[test]
fn the_way_back_knows_lists_in_any_order_parts_and_the_end() {
    let texts = [
        ("job", titled("Job", "- Wipe.\n- [A](a.md)\n  1. Shut.\n- Sweep.\n\n## End\n\n1. [A](a.md)\n")),
        ("a", titled("A", "1. Turn.\n")),
    ];
    let mut drive = drive(&texts);
    let link = drive.step("1.2");
    drive.take(Answer::Pick(link));
    assert_eq!(stack(&drive), [("A".to_owned(), "1.2.2".to_owned())]);
    drive.done();
    assert!(stack(&drive).is_empty(), "its own part is no part of what it links to");
    drive.done();
    drive.take(Answer::Pick(drive.step("1.3")));
    drive.done();
    drive.done();
    assert_eq!((drive.number(), stack(&drive)), ("2.1.1".to_owned(), vec![("A".to_owned(), String::new())]));
}

#[test]
fn a_list_left_in_any_order_is_what_one_comes_back_to() {
    let texts =
        [("job", titled("Job", "- Wipe.\n- [A](a.md)\n- Sweep.\n")), ("a", titled("A", "1. Turn.\n"))];
    let mut drive = drive(&texts);
    drive.take(Answer::Pick(drive.step("1.2")));
    assert_eq!(stack(&drive)[0].1, "1.1 or 1.3");
}

#[test]
fn a_condition_on_the_link_is_a_condition_on_all_of_it() {
    let tables = "[readings.look]\nwhat = \"look\"\nchoices = [\"good\", \"bad\"]\ninformation_only = true\n\
                  [conditions.is_bad]\nif = 'look == \"bad\"'\n";
    let job = text(tables, "1. See [look].\n2. [is_bad] [A](a.md)\n3. End.\n");
    let texts = [("job", job), ("a", titled("A", "## One\n\n1. Turn.\n"))];
    let mut good = drive(&texts);
    good.enter("good");
    assert_eq!((good.number(), good.status("1.2.1.1")), ("1.3".to_owned(), "not applicable"));
    let mut bad = drive(&texts);
    bad.enter("bad");
    assert_eq!(bad.number(), "1.2.1.1");
}

/// A step of a random procedure.
#[derive(Clone, Debug)]
enum Wrote {
    Do,
    Read,
    Hot,
    Parts { numbered: bool, parts: Vec<Wrote> },
}

fn step() -> impl Strategy<Value = Wrote> {
    let leaf = prop_oneof![Just(Wrote::Do), Just(Wrote::Read), Just(Wrote::Hot)];
    leaf.prop_recursive(3, 12, 3, |inner| {
        (any::<bool>(), prop::collection::vec(inner, 1..4))
            .prop_map(|(numbered, parts)| Wrote::Parts { numbered, parts })
    })
}

/// Writes lists, and gives each reading a name.
#[derive(Default)]
struct Writer {
    text: String,
    readings: usize,
}

impl Writer {
    fn list(&mut self, numbered: bool, steps: &[Wrote], indent: usize) {
        for step in steps {
            let mark = if numbered { "1. " } else { "-  " };
            self.text.push_str(&" ".repeat(indent));
            self.text.push_str(mark);
            match step {
                Wrote::Do => self.text.push_str("Do it.\n"),
                Wrote::Hot => self.text.push_str("[hot] Do it.\n"),
                Wrote::Read => {
                    self.text.extend(["Read [r", &self.readings.to_string(), "].\n"]);
                    self.readings += 1;
                }
                Wrote::Parts { numbered, parts } => {
                    self.text.push_str("All of it:\n");
                    self.list(*numbered, parts, indent + 3);
                }
            }
        }
    }

    fn tables(&self) -> String {
        let reading = |at| {
            format!("[readings.r{at}]\nwhat = \"reading {at}\"\nkind = \"count\"\ninformation_only = true\n")
        };
        let hot = "[hazards.hot]\nsignal = \"WARNING\"\nhazard = \"hot\"\nconsequence = \"burns\"\navoid = \"wait\"\n";
        (0..self.readings).map(reading).chain([hot.to_owned()]).collect()
    }
}

/// Everything that is asked until the run is closed, and what was read; without what the linked names begin with.
fn walked(mut drive: Drive) -> (Vec<String>, Vec<String>) {
    let bare = |name: &str| name.replace("child/", "");
    let mut asked = Vec::new();
    while drive.ask() != Ask::Finished {
        assert!(asked.len() < 500);
        asked.push(format!("{} {} {}", drive.number(), drive.ask().word(), bare(&drive.label())));
        answer(&mut drive);
    }
    let readings = drive.state.read_at.keys().map(|name: &Name| bare(name.as_str())).collect();
    (asked, readings)
}

proptest! {
    #![proptest_config(crate::campaign::cases(40))]

    #[test]
    fn a_linked_procedure_is_run_like_one_that_is_pasted_in(
        sections in prop::collection::vec((any::<bool>(), prop::collection::vec(step(), 1..4)), 1..4)
    ) {
        let (mut child, mut pasted) = (Writer::default(), Writer::default());
        pasted.text.push_str("1. Begin.\n2. Child\n");
        for (place, (numbered, steps)) in sections.iter().enumerate() {
            child.text.extend(["## Section ", &place.to_string(), "\n\n"]);
            child.list(*numbered, steps, 0);
            child.text.push('\n');
            pasted.text.extend(["   1. Section ", &place.to_string(), "\n"]);
            pasted.list(*numbered, steps, 6);
        }
        pasted.text.push_str("3. End.\n");
        let tables = child.tables();
        // A hazard that nobody names is a doubt, not an error.
        let linked = [
            ("job", text("", "1. Begin.\n2. [Child](child.md)\n3. End.\n")),
            ("child", text(&tables, &child.text)),
        ];
        let whole = [("job", text(&tables, &pasted.text))];
        prop_assert_eq!(walked(drive(&linked)), walked(drive(&whole)));
    }
}
