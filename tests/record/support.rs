//! A run of a small procedure, driven answer by answer with a clock that is told what time it is.

use std::sync::Arc;

use bayhand::journal::{Pinned, Runs};
use bayhand::procedure::{self, Name};
use bayhand::record::model::Record;
use bayhand::record::{Kept, build};
use bayhand::run::{Answer, Ask, Book, Disposition, Input, Leave, OpenItem, PeopleAnswer, SlipCheck};
use bayhand::session::LiveRun;
use bayhand::source::SourceText;
use bayhand::system::scripted::{FaultyDisk, ScriptedClock};
use bayhand::system::{Environment, System};
use bayhand::vehicle;
use jiff::{SignedDuration, ZonedDateTime};
use tempfile::TempDir;

use crate::run::drive::by_itself;

pub const PROCEDURE: &str = include_str!("../cases/record/pressure-line.md");
pub const SHEET: &str = include_str!("../cases/record/vehicle.toml");

pub const TWICE: &str = include_str!("../cases/record/twice.md");

pub struct Bench {
    _folder: TempDir,
    runs: Runs,
    pinned: Pinned,
    live: LiveRun,
    now: ZonedDateTime,
}

impl Bench {
    pub fn new() -> Self {
        Self::answered_from(None)
    }

    pub fn answered_from(file: Option<&str>) -> Self {
        let pinned =
            Pinned { procedure: PROCEDURE.to_owned(), linked: Vec::new(), vehicle: Some(SHEET.to_owned()) };
        Self::start(book(), pinned, file)
    }

    /// The same with another vehicle sheet, just begun.
    pub fn with_sheet(sheet: &str) -> Self {
        let read = vehicle::read(&SourceText::new("vehicle.toml", sheet)).value.unwrap();
        let pinned =
            Pinned { procedure: PROCEDURE.to_owned(), linked: Vec::new(), vehicle: Some(sheet.to_owned()) };
        Self::start(Book::new(book().procedure, Some(read)), pinned, None)
    }

    /// A run of another procedure, without a vehicle sheet.
    pub fn of(id: &str, text: &str) -> Self {
        let found = procedure::read(&SourceText::new(format!("{id}.md"), text), id);
        let book = Book::new(found.value.unwrap(), None);
        Self::start(book, Pinned { procedure: text.to_owned(), linked: Vec::new(), vehicle: None }, None)
    }

    /// A run of the procedure in which two people work, check and take over.
    pub fn of_people() -> Self {
        Self::of("twice", TWICE)
    }

    fn start(book: Book, pinned: Pinned, file: Option<&str>) -> Self {
        let folder = TempDir::new().unwrap();
        let now: ZonedDateTime = "2026-11-21T18:30:00+01:00[+01:00]".parse().unwrap();
        let clock = Arc::new(ScriptedClock::ticking(now.clone(), SignedDuration::ZERO));
        let system = System::new(clock, Arc::new(FaultyDisk::default()), Environment::default());
        let runs = Runs::new(&system, folder.path());
        let live = LiveRun::start(&runs, book, pinned.clone(), file.map(str::to_owned), &now).unwrap();
        Self { _folder: folder, runs, pinned, live, now }
    }

    pub fn pass(&mut self, minutes: i64) -> &mut Self {
        self.now = self.now.checked_add(SignedDuration::from_mins(minutes)).unwrap();
        self
    }

    pub fn give(&mut self, answer: Answer) -> &mut Self {
        self.take(Input::Answer(answer))
    }

    pub fn take(&mut self, input: Input) -> &mut Self {
        self.now = self.now.checked_add(SignedDuration::from_secs(20)).unwrap();
        if input == Input::Answer(Answer::AcceptBrief) {
            self.besides();
        }
        let asked = self.ask();
        let shown = format!("{input:?}");
        if let Err(error) = self.live.take(input, &self.now) {
            panic!("{shown} at {asked:?}: {error}");
        }
        self.besides();
        self
    }

    fn besides(&mut self) {
        // Who is there is said by the tests themselves.
        let besides = |run: &LiveRun, now| {
            by_itself(run.run.view(now)).filter(|answer| !matches!(answer, Answer::People(_)))
        };
        while let Some(answer) = besides(&self.live, &self.now) {
            self.live.take(Input::Answer(answer), &self.now).unwrap();
        }
    }

    pub fn ask(&self) -> Ask {
        self.live.run.view(&self.now).next().ask
    }

    pub fn typed(&mut self, text: &str) -> &mut Self {
        self.give(Answer::Typed { text: text.to_owned(), slip: SlipCheck::Ask })
    }

    pub fn dispose(&mut self, reason: &str) -> &mut Self {
        self.give(Answer::Dispose { disposition: Disposition::UseAsIs, reason: reason.to_owned() })
    }

    pub fn correct(&mut self, reading: &str, text: &str, reason: &str) -> &mut Self {
        self.give(Answer::Correct {
            entry: None,
            reading: Name::from(reading),
            text: text.to_owned(),
            reason: reason.to_owned(),
        })
    }

    pub fn leave(&mut self, how: Leave, reason: &str, state: &str) -> &mut Self {
        self.give(Answer::Leave { how, reason: reason.to_owned(), state: state.to_owned(), first: None })
    }

    /// Who, odometer, and the one value that the sheet does not give.
    pub fn begin(&mut self) -> &mut Self {
        for name in ["Robin Vale", "Sam Hollis"] {
            self.give(Answer::Person(name.to_owned()));
        }
        self.typed("152 300 mi");
        let (text, source) = ("upper port, right".to_owned(), "workshop manual, page 7-31".to_owned());
        self.give(Answer::Sourced { text, source }).brief()
    }

    /// Before the first hold point, everybody hears the brief.
    pub fn brief(&mut self) -> &mut Self {
        self.give(Answer::People(PeopleAnswer::Present(vec!["RV".to_owned(), "SH".to_owned()])))
    }

    /// On another day both are still there.
    pub fn same_people(&mut self) -> &mut Self {
        let keep = || Answer::People(PeopleAnswer::Keep);
        self.give(keep()).give(keep())
    }

    pub fn support(&mut self) -> &mut Self {
        self.give(Answer::True).give(Answer::True).typed("stood still");
        self.give(Answer::Release { said: "RV".to_owned() });
        self.give(Answer::Release { said: "sam hollis".to_owned() })
    }

    pub fn open_line(&mut self) -> &mut Self {
        self.give(Answer::Acknowledge).give(Answer::Done)
    }

    /// From the supply to the wiped joint.
    pub fn pressure(&mut self) -> &mut Self {
        self.typed("30 psi")
            .typed("140")
            .typed("4")
            .give(Answer::Good)
            .typed("clear, amber")
            .typed("2024-05-01");
        self.give(Answer::Done).pass(6).give(Answer::Done)
    }

    pub fn flow(&mut self) -> &mut Self {
        let first = match self.ask() {
            Ask::Pick(steps) => steps[0],
            other => panic!("{other:?}"),
        };
        self.give(Answer::Pick(first)).give(Answer::Done).typed("1 L").typed("20 s")
    }

    pub fn clear(&mut self) -> &mut Self {
        self.give(Answer::True).give(Answer::Release { said: "Robin Vale".to_owned() })
    }

    pub fn close(&mut self) -> &mut Self {
        self.give(Answer::Close)
    }

    pub fn build(&self) -> Result<Record, Vec<OpenItem>> {
        let run = bayhand::session::StoredRun::read(&self.runs, &self.live.run.id).unwrap();
        let lines = run.lines();
        let kept = Kept { book: &run.book, events: &run.events, lines: &lines, pinned: &self.pinned };
        build(&kept)
    }

    pub fn record(&self) -> Record {
        self.build().unwrap()
    }
}

pub fn book() -> Book {
    let found = procedure::read(&SourceText::new("pressure-line.md", PROCEDURE), "pressure-line");
    let messages: Vec<String> = found.diagnostics.iter().map(|found| found.message.clone()).collect();
    assert_eq!(messages, Vec::<String>::new());
    let sheet = vehicle::read(&SourceText::new("vehicle.toml", SHEET));
    let messages: Vec<String> = sheet.diagnostics.iter().map(|found| found.message.clone()).collect();
    assert_eq!(messages, Vec::<String>::new());
    Book::new(found.value.unwrap(), Some(sheet.value.unwrap()))
}

/// A run without a hitch.
pub fn smooth() -> Record {
    let mut bench = Bench::new();
    bench.begin().support().open_line().pressure().flow().clear().close();
    bench.record()
}

/// A run in which about everything happens that can.
pub fn eventful() -> Record {
    let mut bench = Bench::answered_from(Some("answers.toml"));
    bench.begin();
    bench.give(Answer::True).give(Answer::Untrue { state: "gravel under one stand".to_owned() });
    bench.give(Answer::Note("moved the vehicle by a metre".to_owned()));
    bench.give(Answer::True).typed("stood still");
    bench.give(Answer::Release { said: "RV".to_owned() });
    bench.give(Answer::Release { said: "SH".to_owned() });
    bench.open_line().typed("30 psi").typed("100 kPa");
    bench.give(Answer::Again { reason: "straightened a kink".to_owned() }).typed("19 psi");
    bench.correct("supply", "31 psi", "read the wrong scale");
    bench.correct("supply", "30.5 psi", "the helper read it again");
    bench.give(Answer::NotApplicable { reason: "the valve has no stem".to_owned() });
    bench.leave(Leave::Suspend, "late in the evening", "line open, port capped");
    bench.pass(14 * 60).take(Input::Resume).give(Answer::AcceptBrief).same_people().support();
    bench.give(Answer::Done).pass(40);
    bench.give(Answer::Accept { disposition: Disposition::UseAsIs, reason: "the gauge held".to_owned() });
    bench.give(Answer::Done);
    bench.give(Answer::Disturbed { what: "a jack was used beside it".to_owned(), hold: None }).support();
    bench.flow_too_small();
    bench.clear();
    bench.dispose("nothing to count").close();
    bench.record()
}

impl Bench {
    fn flow_too_small(&mut self) -> &mut Self {
        let second = match self.ask() {
            Ask::Pick(steps) => steps[1],
            other => panic!("{other:?}"),
        };
        self.give(Answer::Pick(second)).typed("0,5 L").typed("20 s");
        self.give(Answer::Accept {
            disposition: Disposition::Repair,
            reason: "new hose is ordered".to_owned(),
        });
        self.give(Answer::Done)
    }
}
