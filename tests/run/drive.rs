//! A run in memory: answers in, prompts out, every event kept.

use bayhand::journal::Digest;
use bayhand::procedure::{self, Name, StepId};
use bayhand::run::{
    Answer, Ask, Book, Decided, Event, FlowAnswer, FlowAsk, Inherited, Input, InterruptionAnswer,
    InterruptionAsk, Leave, PeopleAnswer, PeopleAsk, Pin, Prompt, Refusal, SlipCheck, Stamp, Start, State,
    Taken, View, apply, decide,
};
use bayhand::source::SourceText;
use jiff::{SignedDuration, ZonedDateTime};

/// A run in memory.
#[derive(Clone)]
pub struct Drive {
    pub book: Book,
    pub state: State,
    pub events: Vec<(Event, Stamp)>,
    pub now: ZonedDateTime,
    /// What came in and was taken, and when: one for each event.
    pub heard: Vec<(Input, ZonedDateTime)>,
    /// Whether sections, briefs and the names of another day are answered by the test itself.
    pub by_hand: bool,
}

/// The front matter that every test procedure needs, before its own tables.
const HEAD: &str = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-01\nauthor = \"test\"\nscope = \"any\"\n\
level_of_use = \"continuous\"\nodometer = true\nmaterials = \"none\"\nparts = \"none\"\n\
required = \"none\"\nclose_up = \"none\"\n";

/// A procedure from its own tables and its body; `lead` is always there.
pub fn text(tables: &str, body: &str) -> String {
    titled("Test", tables, body)
}

/// The same with a title of its own.
pub fn titled(title: &str, tables: &str, body: &str) -> String {
    let roles = if tables.contains("[roles]") { "" } else { "[roles]\nlead = \"does the work\"\n" };
    let hazards = if tables.contains("[hazards") { "" } else { "hazards = \"none\"\n" };
    let tools = if tables.contains("[tools") { "" } else { "tools = \"none\"\n" };
    format!("{HEAD}{tools}{hazards}{roles}{tables}\n+++\n\n# {title}\n\n{body}")
}

/// The book of a text, or every mistake in it.
pub fn book(text: &str) -> Book {
    let found = procedure::read(&SourceText::new("test.md", text), "test");
    let mistakes: Vec<String> =
        found.diagnostics.iter().map(|found| format!("{}: {}", found.code.name, found.message)).collect();
    let procedure = found.value.unwrap_or_else(|| panic!("{mistakes:#?}\n{text}"));
    Book::new(procedure, None)
}

impl Drive {
    /// A run that has just begun: nobody named yet.
    pub fn begin(book: Book) -> Self {
        let now = "2026-11-21T18:30:00+01:00[+01:00]".parse().unwrap();
        let mut drive = Self {
            book,
            state: State::default(),
            events: Vec::new(),
            now,
            heard: Vec::new(),
            by_hand: false,
        };
        let sha256 = Digest::of(drive.book.procedure.text().text().as_bytes()).to_string();
        let pin = Pin { name: "test".to_owned(), what: drive.book.procedure.title().to_owned(), sha256 };
        let start = Start {
            job: None,
            inherited: Inherited::default(),
            run: "2026-11-21-test".to_owned(),
            engine: "test".to_owned(),
            procedure: pin,
            linked: Vec::new(),
            sheet: None,
            answered_from: None,
        };
        drive.input(Input::Start(start)).unwrap();
        drive
    }

    /// A run of a test procedure, with a lead, a helper where there is one, and an odometer.
    pub fn of(tables: &str, body: &str) -> Self {
        let mut drive = Self::begin(book(&text(tables, body)));
        while let Ask::Person(role) = drive.ask() {
            let person = if role.as_str() == "lead" { "Robin Vale" } else { "Sam Hollis" };
            drive.take(Answer::Person(person.to_owned()));
        }
        drive.enter("187400 km");
        drive
    }

    pub fn view(&self) -> View<'_> {
        View::new(&self.book, &self.state, &self.now)
    }

    pub fn prompt(&self) -> Prompt {
        self.view().next()
    }

    pub fn ask(&self) -> Ask {
        self.prompt().ask
    }

    /// What is asked, in a word.
    pub fn label(&self) -> String {
        self.prompt().label(self.view())
    }

    /// The number of the step that is asked about.
    pub fn number(&self) -> String {
        let step = self.prompt().step.and_then(|step| self.book.procedure.step(step));
        step.map(|step| step.number.clone()).unwrap_or_default()
    }

    pub fn input(&mut self, input: Input) -> Result<(), Refusal> {
        let Decided { event, place } = decide(&self.book, &self.state, input.clone(), &self.now)?;
        let stamp = Stamp {
            seq: self.events.len() as u64 + 1,
            at: self.now.clone(),
            place: place.map(std::sync::Arc::new),
        };
        self.state = apply(&self.book, std::mem::take(&mut self.state), &event, &stamp);
        self.events.push((event, stamp));
        self.heard.push((input, self.now.clone()));
        Ok(())
    }

    /// An answer; what is asked besides the work is answered by itself: see [`by_itself`].
    pub fn answer(&mut self, answer: Answer) -> Result<(), Refusal> {
        if answer == Answer::AcceptBrief {
            self.besides()?;
        }
        self.say(answer)?;
        self.besides()
    }

    fn besides(&mut self) -> Result<(), Refusal> {
        while let Some(answer) = by_itself(self.view()).filter(|answer| !self.by_hand || is_between(answer)) {
            self.say(answer)?;
        }
        Ok(())
    }

    /// An answer, and nothing by itself.
    pub fn say(&mut self, answer: Answer) -> Result<(), Refusal> {
        self.input(Input::Answer(answer))
    }

    /// Whether an answer would be taken.
    pub fn takes(&self, answer: &Answer) -> bool {
        decide(&self.book, &self.state, Input::Answer(answer.clone()), &self.now).is_ok()
    }

    /// An answer between the steps that must be taken, and nothing by itself.
    pub fn between(&mut self, answer: InterruptionAnswer) {
        let (asked, said) = (self.ask(), format!("{answer:?}"));
        let taken = self.say(Answer::Interruption(answer));
        taken.unwrap_or_else(|refusal| panic!("{said} to {asked:?}: {refusal}"));
    }

    /// An answer that must be taken.
    pub fn take(&mut self, answer: Answer) {
        let (asked, said) = (self.ask(), format!("{answer:?}"));
        self.answer(answer).unwrap_or_else(|refusal| panic!("{said} to {asked:?}: {refusal}"));
    }

    pub fn enter(&mut self, text: &str) {
        self.take(typed(text));
    }

    pub fn done(&mut self) {
        self.take(Answer::Done);
    }

    /// Verifies and releases the hold point that is asked about.
    pub fn release(&mut self) {
        while matches!(self.ask(), Ask::Confirm { .. }) {
            self.take(Answer::True);
        }
        while let Ask::Release { role, .. } = self.ask() {
            let said = self.state.people.get(&role).unwrap().clone();
            self.take(Answer::Release { said });
        }
    }

    pub fn pass(&mut self, minutes: i64) {
        self.now = self.now.checked_add(SignedDuration::from_mins(minutes)).unwrap();
    }

    /// Suspends, comes back, reads the brief.
    pub fn overnight(&mut self) {
        self.take(leave(Leave::Suspend));
        self.pass(12 * 60);
        self.input(Input::Resume).unwrap();
        self.take(Answer::AcceptBrief);
    }

    pub fn step(&self, number: &str) -> StepId {
        self.book.procedure.steps().iter().find(|step| step.number == number).unwrap().id
    }

    /// Everybody who has a role now.
    pub fn people(&self) -> Vec<String> {
        let roles = self.book.procedure.roles().names();
        roles.filter_map(|role| self.state.people.get(role).cloned()).collect()
    }

    /// Every entry of a reading, in whatever pass.
    pub fn readings(&self, name: &Name) -> Vec<Taken> {
        self.state.attempts_at(name).flat_map(|(_, attempts)| attempts.taken.clone()).collect()
    }

    /// The entry with which nothing was left to do of a step.
    pub fn completed(&self, number: &str) -> u64 {
        let step = self.book.procedure.step(self.step(number)).unwrap();
        self.view().completed(step).unwrap().seq
    }

    /// Whether a step is shown as opened again.
    pub fn is_reopened(&self, number: &str) -> bool {
        let step = self.book.procedure.step(self.step(number)).unwrap();
        self.view().status(step, None) == bayhand::run::Status::Reopened
    }

    /// The word for the state of a step.
    pub fn status(&self, number: &str) -> &'static str {
        let step = self.book.procedure.step(self.step(number)).unwrap();
        self.view().status(step, self.prompt().step).word()
    }
}

/// The answer to what is asked besides the work: the procedure is for the vehicle, the pre-job brief is held and everybody
/// is still there, a section whose steps are all settled is complete, the lead agrees, protections stay in force while the
/// run rests, the last steps are still as they were.
pub fn by_itself(view: View<'_>) -> Option<Answer> {
    match view.next().ask {
        Ask::Flow(FlowAsk::SectionComplete(_)) => Some(Answer::Flow(FlowAnswer::Complete)),
        Ask::People(PeopleAsk::PreJobBrief) => {
            let everybody = view.everybody().into_iter().map(str::to_owned);
            Some(Answer::People(PeopleAnswer::Present(everybody.collect())))
        }
        Ask::People(PeopleAsk::Still(_)) => Some(Answer::People(PeopleAnswer::Keep)),
        Ask::Interruption(ask) => between_by_itself(&ask).map(Answer::Interruption),
        _ => None,
    }
}

/// Whether an answer is none of the work and none of people.
fn is_between(answer: &Answer) -> bool {
    matches!(answer, Answer::Interruption(_))
}

fn between_by_itself(ask: &InterruptionAsk) -> Option<InterruptionAnswer> {
    Some(match ask {
        InterruptionAsk::Scope | InterruptionAsk::StillSo(_) => InterruptionAnswer::True,
        InterruptionAsk::Standing => InterruptionAnswer::Standing { state: "as it was".to_owned() },
        InterruptionAsk::Protection(_) => InterruptionAnswer::Keep,
        InterruptionAsk::Approval(_) => InterruptionAnswer::Approve { said: "RV".to_owned() },
        InterruptionAsk::Statement(_) => return None,
    })
}

pub fn typed(text: &str) -> Answer {
    Answer::Typed { text: text.to_owned(), slip: SlipCheck::Ask }
}

pub fn leave(how: Leave) -> Answer {
    let (reason, state) = ("supper".to_owned(), "pan loose, two bolts in".to_owned());
    Answer::Leave { how, reason, state, first: None }
}

pub fn name(name: &str) -> Name {
    Name::from(name)
}

/// Some reason.
pub fn reason() -> String {
    "a reason".to_owned()
}
