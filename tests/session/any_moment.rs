//! Killed at any moment, at every sort of question: nothing that was kept is lost, nothing is there twice.
//!
//! Each typed answer has words of its own, and each answer by a key is counted, so that both are looked for by themselves in
//! what is left in the end. More kills: `BAYHAND_TEST_KILLS=10000`, at other moments with
//! another `PROPTEST_RNG_SEED`.

use std::collections::BTreeMap;
use std::time::Duration;

use serde_json::Value;

use super::every_question::{Makes, Row, SORTS, row_of};
use super::seat::{Seat, Speech, Waits};
use super::stage::{Stage, kind};

/// Numbers by chance, the same ones every time.
struct Chance(u64);

impl Chance {
    fn below(&mut self, end: u64) -> u64 {
        // Marsaglia's xorshift64: any spread will do.
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % end
    }
}

/// A run, and all that was answered in it.
struct Sitter {
    stage: Stage,
    /// The journal as it was when the last question came.
    kept: Vec<String>,
    /// The words that were typed in entries which must be there.
    words: Vec<String>,
    /// How many entries there must be, by the question that was answered.
    keys: BTreeMap<&'static str, u64>,
    /// What was typed since the last entry.
    typed: Vec<String>,
    /// How many entries there must be that nobody is asked for: a pass in which nothing failed.
    followed: u64,
    number: u64,
}

/// What was done at a question before the program was killed.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Moment {
    Before,
    HalfTyped,
    After(Duration),
}

/// How many kills there were at each sort of question, and how many answers of those were kept.
#[derive(Default)]
struct Count {
    kills: BTreeMap<&'static str, (u64, u64)>,
    runs: u64,
    torn: u64,
    answers: u64,
}

impl Sitter {
    fn new(number: u64) -> Self {
        let stage = Stage::bare();
        stage.file("every.md", include_str!("../cases/session/every-question.md"));
        let (kept, words, typed) = (Vec::new(), Vec::new(), Vec::new());
        Self { stage, kept, words, keys: BTreeMap::new(), typed, followed: 0, number }
    }

    /// The whole lines of the journal, and whether a piece of one follows them.
    fn journal(&self) -> (Vec<String>, bool) {
        let Some(run) = self.stage.runs().pop() else { return (Vec::new(), false) };
        let text = std::fs::read_to_string(run.join("journal.jsonl")).unwrap_or_default();
        let whole = text.rfind('\n').map_or("", |end| &text[..=end]);
        (whole.lines().map(str::to_owned).collect(), whole.len() < text.len())
    }

    /// The keys of an answer; a number that was never used stands in it.
    fn keys_of(&mut self, row: &Row) -> String {
        if !row.keys.contains('#') {
            return row.keys.to_owned();
        }
        self.number += 1;
        let number = format!("{}", 10_000_000 + self.number);
        self.typed.push(number.clone());
        if row.keys.contains(".jpg") {
            let photo = self.stage.file(&format!("photo-{number}.jpg"), &number);
            return format!("{}\r", photo.display());
        }
        row.keys.replace('#', &number)
    }

    /// Whether the last thing that was kept is the end.
    fn is_closed(&self) -> bool {
        self.kept.last().is_some_and(|line| kind_of(line) == "closed")
    }

    /// What was kept before stands unchanged at the beginning; the lines after it.
    fn since(&self) -> Vec<String> {
        let (lines, _) = self.journal();
        assert!(lines.len() >= self.kept.len(), "entries are lost: {} of {}", lines.len(), self.kept.len());
        assert_eq!(lines[..self.kept.len()], *self.kept, "an entry has changed");
        lines[self.kept.len()..].to_vec()
    }

    /// The answer to the question was taken: its entry is there, with the words in it.
    fn taken(&mut self, row: &'static Row, new: &[String]) {
        let (Makes::Entry(what) | Makes::Rest(what)) = row.makes else {
            assert!(new.is_empty(), "nothing is kept before {:?} is answered: {new:?}", row.said);
            return;
        };
        let first = new.first().unwrap_or_else(|| panic!("{:?} was answered and is not there", row.said));
        assert!(first.contains(&format!("\"{what}\"")), "{:?}: {first}", row.said);
        for word in self.typed.drain(..) {
            assert!(first.contains(&word), "{word} of {:?}: {first}", row.said);
            self.words.push(word);
        }
        *self.keys.entry(row.said).or_default() += 1;
        // What nobody is asked about follows by itself.
        let by_itself = new[1..].iter().all(|line| kind_of(line) == "flow");
        assert!(by_itself, "more than one entry for {:?}: {new:?}", row.said);
        self.followed += new.len() as u64 - 1;
        self.kept.extend_from_slice(new);
    }

    /// Sits at the run for so many questions, and is killed at the last one; true once the run is closed.
    fn sit(&mut self, mut questions: u64, moment: Moment, count: &mut Count, chance: &mut Chance) -> bool {
        let mut seat = Seat::take_at(
            &self.stage,
            Speech::NoColour,
            (100, 60),
            &["run", &self.stage.path("every.md").to_string_lossy()],
        );
        self.typed.clear();
        let mut rests = false;
        let mut asked: Option<(String, Waits)> = Some(seat.question());
        let begins = self.since();
        let begun = begins.iter().all(|line| ["started", "resumed"].contains(&kind_of(line).as_str()));
        assert!(begun && begins.len() <= 1, "{begins:?}");
        self.kept.extend(begins);
        while let Some((said, waits)) = asked {
            if waits == Waits::Time {
                if questions > 1 {
                    seat.sits_it_out();
                    asked = Some(seat.question());
                    continue;
                }
                self.killed(&mut seat, &WAIT, Moment::Before, "", count);
                return false;
            }
            let row = row_of(&said, waits);
            questions = questions.saturating_sub(1);
            let may_stop = row.said == "[d] done" || row.said == "in mm: >";
            if may_stop && questions > 0 && chance.below(16) == 0 {
                seat.press("!");
                asked = Some(seat.question());
                continue;
            }
            let keys = self.keys_of(row);
            if questions == 0 {
                self.killed(&mut seat, row, moment, &keys, count);
                return self.is_closed();
            }
            if waits == Waits::Key {
                seat.press(&keys);
            } else {
                seat.types(&keys);
            }
            count.answers += 1;
            rests |= matches!(row.makes, Makes::Rest(_));
            if row.said.starts_with("[e] end") {
                assert_eq!(seat.leaves(), 0);
                let new = self.since();
                self.taken(row, &new);
                return true;
            }
            asked = if rests { seat.question_or("STOPPED") } else { Some(seat.question()) };
            let new = self.since();
            self.taken(row, &new);
        }
        assert_eq!(seat.leaves(), 0);
        false
    }

    fn killed(&mut self, seat: &mut Seat, row: &'static Row, moment: Moment, keys: &str, count: &mut Count) {
        match moment {
            Moment::Before => {}
            Moment::HalfTyped => {
                let half = keys.trim_end_matches('\r');
                let half = if half.len() > 1 { &half[..1] } else { "" };
                seat.types(half);
            }
            Moment::After(pause) => {
                if keys.chars().count() == 1 {
                    // What weighs something is an answer only after a moment.
                    std::thread::sleep(Duration::from_millis(450));
                }
                seat.types(keys);
                std::thread::sleep(pause);
            }
        }
        seat.pty.kill();
        let new = self.since();
        if matches!(moment, Moment::After(_)) && !new.is_empty() {
            self.taken(row, &new);
        } else {
            assert!(new.is_empty(), "nothing half-typed is kept: {new:?}");
        }
        count.torn += u64::from(self.journal().1);
        let (kills, kept) = count.kills.entry(row.said).or_default();
        *kills += 1;
        *kept += u64::from(!new.is_empty());
        self.typed.clear();
    }

    /// Each answer that was kept is there once: by its words, and by how many there are; no question was answered twice.
    fn is_whole(&self) {
        let (lines, is_torn) = self.journal();
        assert_eq!((&lines, is_torn), (&self.kept, false));
        // Digests are left out: a number can stand in one by chance.
        let events: Vec<String> = lines.iter().map(|line| value(line).to_string()).collect();
        for word in &self.words {
            let at = events.iter().filter(|event| event.contains(word.as_str())).count();
            assert_eq!(at, 1, "{word} stands in {at} entries");
        }
        let by_itself = ["started", "resumed"];
        let answered = lines.iter().filter(|line| !by_itself.contains(&kind_of(line).as_str())).count();
        let counted = self.keys.values().sum::<u64>() + self.followed;
        assert_eq!(counted, answered as u64, "answers and entries: {:?}", self.keys);
        for once in
            ["Name of the lead", "Odometer, in", "[1] 1.4.1 [2] 1.4.2", "[1] 1 is done", "[e] end: close"]
        {
            assert_eq!(self.keys.get(once), Some(&1), "{once}: {:?}", self.keys);
        }
        let mut seen = BTreeMap::new();
        for line in &lines {
            if let Some(name) = only_once(line) {
                let before = seen.insert(name.clone(), line.clone());
                assert!(before.is_none(), "twice, {name}:\n{before:?}\n{line}");
            }
        }
        assert_eq!(self.stage.bayhand(&["verify", &self.stage.run().to_string_lossy()]).code, Some(0));
    }
}

static WAIT: Row = Row { said: "(a wait)", keys: "", makes: Makes::Question };

fn value(line: &str) -> Value {
    serde_json::from_str::<Value>(line).expect("a line")["event"].clone()
}

fn kind_of(line: &str) -> String {
    kind(&value(line)["what"])
}

/// What can be in a run only once, wherever it was killed: a step done, a reading taken at its place, a fastener in its
/// stage. The pressure is taken twice, once more after it was too low.
fn only_once(line: &str) -> Option<String> {
    let event = value(line);
    let (what, of) = (&event["what"], kind(&event["what"]));
    let place = format!("{} {}", event["at"], event["turns"]);
    match of.as_str() {
        "done" | "picked" | "correction" | "again" | "accepted" | "disposed" | "closed" | "person" => {
            Some(format!("{place} {}", what.to_string().replace(|c: char| c.is_ascii_digit(), "")))
                .filter(|_| of != "picked")
        }
        "reading" if what["reading"]["name"] != "pressure" => {
            Some(format!("{place} {}", what["reading"]["name"]))
        }
        "fastening" => what["fastening"].get("tightened").map(|done| format!("{place} {}", done["at"])),
        _ => None,
    }
}

#[test]
fn killed_at_any_moment_nothing_is_lost_and_nothing_is_there_twice() {
    let asked = |name: &str| std::env::var(name).ok().and_then(|number| number.parse::<u64>().ok());
    let kills = asked("BAYHAND_TEST_KILLS").unwrap_or(12);
    let mut chance = Chance(asked("PROPTEST_RNG_SEED").unwrap_or_default().max(1));
    let mut count = Count::default();
    let mut sitter = Sitter::new(0);
    for kill in 1..=kills {
        let questions = 1 + chance.below(if kill % 2 == 0 { 5 } else { 30 });
        let moment = match chance.below(6) {
            0 => Moment::Before,
            1 => Moment::HalfTyped,
            _ => Moment::After(Duration::from_micros(chance.below(12_000))),
        };
        if sitter.sit(questions, moment, &mut count, &mut chance) {
            sitter = closed(&sitter, &mut count);
        }
        if kill % 100 == 0 {
            println!("{}", told(kill, &count));
        }
    }
    while !sitter.sit(u64::MAX, Moment::Before, &mut count, &mut chance) {}
    closed(&sitter, &mut count);
    println!("{}", told(kills, &count));
    assert!(count.runs > 0);
    assert!(kills < 5000 || count.kills.len() + 4 >= SORTS, "{:?}", count.kills);
}

fn closed(sitter: &Sitter, count: &mut Count) -> Sitter {
    sitter.is_whole();
    count.runs += 1;
    Sitter::new(sitter.number)
}

fn told(kills: u64, count: &Count) -> String {
    let landed: u64 = count.kills.values().map(|(_, kept)| kept).sum();
    format!(
        "{kills} kills at {} sorts of questions in {} closed runs, {} answers: 0 lost, 0 doubled; {landed} answers were kept \
         before the kill, {} lines torn",
        count.kills.len(),
        count.runs,
        count.answers,
        count.torn
    )
}
