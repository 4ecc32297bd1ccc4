//! A pass in which nothing failed and nothing was departed from counts by itself. While nothing was done since, it can
//! still be said that it does not count.

use std::fs;

use bayhand::journal::{Pinned, Runs};
use bayhand::run::{
    Answer, Ask, Declared, Disposition, Event, FlowAnswer, FlowAsk, FlowEvent, Input, InterruptionAnswer,
    PassEnd, Refusal,
};
use bayhand::session::{LiveRun, NotTaken, StoredRun};
use bayhand::system::System;
use jiff::ZonedDateTime;
use tempfile::TempDir;

use super::drive::{Drive, book, by_itself, name, reason, text, typed};

const GAPS: &str = "[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\nmax = \"1 mm\"\n\
[repeats.side]\nwhat = \"both sides\"\neach = [\"left\", \"right\"]\n";
const BODY: &str = "## Measure [side]\n\n1. Read [gap].\n\n## After\n\n1. Wipe.\n2. Tidy up.\n";

fn invalid() -> Answer {
    Answer::Flow(FlowAnswer::Invalid { reason: reason() })
}

fn accept() -> Answer {
    Answer::Accept { disposition: Disposition::UseAsIs, reason: reason() }
}

/// Whether the end of the pass is there, and answers itself.
fn counts_by_itself(drive: &Drive) -> bool {
    assert!(matches!(drive.ask(), Ask::Flow(FlowAsk::PassEnd(_))), "{:?}", drive.ask());
    let answer = drive.view().answers_itself();
    assert!(answer.is_none() || answer == Some(Answer::Flow(FlowAnswer::Counts)));
    answer.is_some()
}

#[test]
fn a_sound_pass_needs_no_word() {
    let mut drive = Drive::of(GAPS, BODY);
    assert_eq!(drive.view().answers_itself(), None, "before its end it does not");
    drive.enter("0.5 mm");
    assert!(counts_by_itself(&drive));
}

/// It was read again, and nothing is left that fails.
#[test]
fn a_pass_that_was_put_right_is_sound() {
    let mut drive = Drive::of(GAPS, BODY);
    drive.enter("2 mm");
    drive.take(Answer::Again { reason: reason() });
    drive.enter("0.5 mm");
    assert!(counts_by_itself(&drive));
}

/// Also where the procedure itself says how it goes on.
#[test]
fn a_pass_in_which_a_result_fails_is_asked_about() {
    let mut gone_on = Drive::of(GAPS, BODY);
    gone_on.enter("2 mm");
    gone_on.take(accept());
    assert!(!counts_by_itself(&gone_on), "a deviation");
    gone_on.take(Answer::Flow(FlowAnswer::Counts));
    gone_on.enter("0.5 mm");
    assert!(counts_by_itself(&gone_on), "of the other pass");

    let path = format!("{GAPS}[conditions.wide]\nfailed = \"gap\"\n");
    let mut own_way = Drive::of(&path, "## Measure [side]\n\n1. Read [gap].\n2. [wide] Put in a shim.\n");
    own_way.enter("2 mm");
    own_way.done();
    assert!(!counts_by_itself(&own_way), "the procedure's own way");

    let value = "[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\ninformation_only = true\n\
[values.half]\nwhat = \"half\"\nformula = 'gap / 2'\nunit = \"mm\"\nmax = \"1 mm\"\n\
[repeats.side]\nwhat = \"both sides\"\neach = [\"left\", \"right\"]\n[conditions.wide]\nfailed = \"half\"\n";
    let body = "## Measure [side]\n\n1. Read [gap]: [half].\n2. [wide] Put in a shim.\n";
    let mut computed = Drive::of(value, body);
    computed.enter("3 mm");
    computed.done();
    assert!(!counts_by_itself(&computed), "a computed value");
}

#[test]
fn a_pass_in_which_a_fastener_fails_is_asked_about() {
    let tables = "[fasteners.lid]\nwhat = \"bolts of the lid\"\npositions = [\"1\"]\n\
stages = [{ what = \"full\", torque = '10 N·m', within = \"4 %\", read = true }]\n\
[conditions.stripped]\nfailed = \"lid\"\n[repeats.lids]\nwhat = \"both lids\"\ntimes = 2\n";
    let mut drive =
        Drive::of(tables, "## Lids [lids]\n\n1. Tighten [lid].\n2. [stripped] Mend the thread.\n");
    drive.enter("6 N·m");
    drive.done();
    assert!(!counts_by_itself(&drive));
    drive.take(invalid());
    drive.enter("10 N·m");
    assert!(counts_by_itself(&drive));
}

#[test]
fn a_pass_in_which_somebody_departed_from_the_procedure_is_asked_about() {
    let declared = InterruptionAnswer::Declare { declared: Declared::Other, reason: reason() };
    let left_out = Answer::NotApplicable { reason: reason() };
    for departs in [Answer::Interruption(declared), left_out] {
        let body = "## Measure [side]\n\n1. Wipe the [side] side.\n2. Dry it.\n3. Read [gap].\n";
        let mut drive = Drive::of(GAPS, body);
        drive.done();
        drive.take(departs.clone());
        while drive.ask() == Ask::Do {
            drive.done();
        }
        drive.enter("0.5 mm");
        assert!(!counts_by_itself(&drive), "{departs:?}");
        drive.take(Answer::Flow(FlowAnswer::Counts));
        drive.done();
        drive.done();
        drive.enter("0.5 mm");
        assert!(counts_by_itself(&drive), "the deviation is of the pass before: {departs:?}");
    }
}

/// The procedure has a path for it, and no word that such a pass does not count: a person says so.
#[test]
fn a_pass_in_which_a_time_was_missed_is_asked_about() {
    let tables = "[waits.glue]\nwhat = \"the glue stays soft\"\nat_most = \"10 min\"\n[conditions.set]\nmissed = \"glue\"\n\
[repeats.twice]\nwhat = \"two brackets\"\ntimes = 2\n";
    let body = "## Glue [twice]\n\n1. Spread it: [glue].\n2. Press within [glue].\n3. [set] Scrape it off.\n";
    let mut drive = Drive::of(tables, body);
    drive.done();
    drive.pass(11);
    drive.take(Answer::Flow(FlowAnswer::Missed));
    drive.done();
    assert!(!counts_by_itself(&drive));
    drive.take(invalid());
    drive.done();
    drive.done();
    assert!(counts_by_itself(&drive), "in time");
}

/// What was found before an adjustment may fail: the adjustment is what the pass is for.
#[test]
fn a_finding_that_fails_does_not_make_a_pass_unsound() {
    let tables = "[readings.before]\nwhat = \"gap\"\nunit = \"mm\"\nmax = \"1 mm\"\nas_found = true\n\
[readings.after]\nwhat = \"gap after\"\nunit = \"mm\"\nmax = \"1 mm\"\nas_left = \"before\"\n\
[repeats.side]\nwhat = \"both sides\"\neach = [\"left\", \"right\"]\n";
    let mut drive = Drive::of(tables, "## Set [side]\n\n1. Read [before].\n2. Set it, and read [after].\n");
    drive.enter("2 mm");
    drive.enter("0.5 mm");
    assert!(counts_by_itself(&drive));
}

/// The state, and what is asked, as if the pass had been said not to count at its end.
#[test]
fn a_pass_that_is_taken_back_is_one_that_does_not_count() {
    let mut said = Drive::of(GAPS, BODY);
    said.enter("0.5 mm");
    let mut taken_back = said.clone();
    said.take(invalid());
    taken_back.take(Answer::Flow(FlowAnswer::Counts));
    assert_eq!(taken_back.view().pass_number(&name("side")).unwrap(), "pass 2 of 2 (right)");
    taken_back.take(invalid());
    for drive in [&said, &taken_back] {
        assert_eq!(drive.view().pass_number(&name("side")).unwrap(), "pass 2 (left, 1 of 2)");
        assert_eq!(drive.view().pass_words(drive.step("1.1")).as_deref(), Some("pass 2 (left, 1 of 2)"));
        let round = drive.view().round(&name("side")).unwrap();
        assert_eq!((round.ended.len(), round.counting.len()), (1, 0));
        let end = drive.state.at(round.ended[0]).end.as_ref().unwrap();
        assert_eq!((&end.how, end.item.as_deref()), (&PassEnd::Invalid(reason()), Some("left")));
        assert_eq!(drive.readings(&name("gap")).len(), 1, "it is kept");
    }
}

#[test]
fn the_last_pass_of_all_is_taken_back_too() {
    let mut drive = Drive::of(GAPS, BODY);
    for _ in 0..2 {
        drive.enter("0.5 mm");
        drive.take(Answer::Flow(FlowAnswer::Counts));
    }
    assert_eq!(drive.number(), "2.1");
    drive.take(invalid());
    assert_eq!(drive.ask(), Ask::Reading(name("gap")));
    assert_eq!(drive.view().pass_words(drive.step("1.1")).as_deref(), Some("pass 3 (right, 2 of 2)"));
}

#[test]
fn once_something_else_was_done_no_pass_is_taken_back() {
    let mut drive = Drive::of(GAPS, BODY);
    assert_eq!(drive.answer(invalid()), Err(Refusal::NoPassEnded), "nothing has ended yet");
    drive.enter("0.5 mm");
    drive.take(Answer::Flow(FlowAnswer::Counts));
    drive.take(Answer::Note("windy".to_owned()));
    assert!(drive.takes(&invalid()), "a remark is no work");
    let silent = Answer::Flow(FlowAnswer::Invalid { reason: " ".to_owned() });
    assert!(matches!(drive.answer(silent), Err(Refusal::Empty(_))), "the reason is asked for");
    let mut again = drive.clone();
    again.take(invalid());
    assert_eq!(again.answer(invalid()), Err(Refusal::NoPassEnded), "and not twice");
    drive.enter("0.6 mm");
    drive.take(Answer::Flow(FlowAnswer::Counts));
    drive.done();
    let refused = drive.answer(invalid()).unwrap_err();
    assert_eq!(refused, Refusal::NoPassEnded);
    let words = refused.to_string();
    assert!(words.contains("correct what was entered in it, or begin the section anew"), "{words}");
    drive.done();
    drive.take(Answer::Close);
    assert!(drive.answer(invalid()).is_err(), "a closed run is closed");
}

/// What was set aside is no pass that could count.
#[test]
fn a_pass_in_a_section_begun_anew_is_not_taken_back() {
    let tables = "[repeats.twice]\nwhat = \"two brackets\"\ntimes = 2\n";
    let mut drive = Drive::of(tables, "1. [twice] Glue it.\n2. Wipe.\n");
    drive.done();
    drive.take(Answer::Flow(FlowAnswer::Counts));
    drive.take(Answer::Flow(FlowAnswer::Restart { reason: reason() }));
    assert_eq!(drive.answer(invalid()), Err(Refusal::NoPassEnded));
}

/// Of passes within passes that end with one answer, the last to end is the one around.
#[test]
fn of_passes_within_passes_the_one_around_is_taken_back() {
    let tables = "[repeats.side]\nwhat = \"both sides\"\neach = [\"left\", \"right\"]\n\
[repeats.place]\nwhat = \"two places\"\neach = [\"top\", \"bottom\"]\n";
    let body = "## Wipe [side]\n\n1. [place] Wipe it.\n\n## After\n\n1. Tidy up.\n";
    let mut drive = Drive::of(tables, body);
    for _ in 0..2 {
        drive.done();
        drive.take(Answer::Flow(FlowAnswer::Counts));
    }
    drive.take(Answer::Flow(FlowAnswer::Counts));
    assert_eq!(drive.view().pass_number(&name("side")).unwrap(), "pass 2 of 2 (right)");
    drive.take(invalid());
    assert_eq!(drive.view().pass_number(&name("side")).unwrap(), "pass 2 (left, 1 of 2)");
    assert_eq!(
        drive.view().pass_number(&name("place")).unwrap(),
        "pass 1 of 2 (top)",
        "all of it is made again"
    );
    assert_eq!(drive.answer(invalid()), Err(Refusal::NoPassEnded), "within it nothing counts any more");
}

/// A run with a journal.
struct Live {
    folder: TempDir,
    run: LiveRun,
    now: ZonedDateTime,
}

impl Live {
    fn of(tables: &str, body: &str) -> Self {
        let folder = TempDir::new().unwrap();
        let text = text(tables, body);
        let now: ZonedDateTime = "2026-11-21T18:30:00+01:00[+01:00]".parse().unwrap();
        let pinned = Pinned { procedure: text.clone(), linked: Vec::new(), vehicle: None };
        let runs = Runs::new(&System::real(), folder.path());
        let run = LiveRun::start(&runs, book(&text), pinned, None, &now).unwrap();
        let mut live = Self { folder, run, now };
        live.take(Answer::Person("Robin Vale".to_owned()));
        live.take(typed("187400 km"));
        live
    }

    fn runs(&self) -> Runs {
        Runs::new(&System::real(), self.folder.path())
    }

    /// The events that an answer makes, and those that answer what is asked besides the work.
    fn take(&mut self, answer: Answer) -> Vec<Event> {
        let events = self.run.take(Input::Answer(answer), &self.now).unwrap();
        let events = events.iter().map(|(event, _)| event.clone()).collect();
        while let Some(answer) = by_itself(self.run.run.view(&self.now)) {
            self.run.take(Input::Answer(answer), &self.now).unwrap();
        }
        events
    }

    fn ask(&self) -> Ask {
        self.run.run.view(&self.now).next().ask
    }

    /// Which passes have ended, and how.
    fn ended(&self) -> Vec<PassEnd> {
        let view = self.run.run.view(&self.now);
        let round = view.round(&name("side")).unwrap();
        round.ended.iter().map(|pass| view.state.at(*pass).end.as_ref().unwrap().how.clone()).collect()
    }

    /// What stands on the disk is what stands here.
    fn is_kept(&self) {
        let stored = StoredRun::read(&self.runs(), &self.run.run.id).unwrap();
        assert_eq!(stored.events, self.run.run.events);
        assert_eq!(stored.state, self.run.run.state);
    }
}

fn counts(of: &str, item: &str) -> Event {
    let item = Some(item.to_owned());
    Event::Flow(FlowEvent::PassEnded { repeat: name(of), end: PassEnd::Counts, item })
}

#[test]
fn an_answer_takes_the_end_of_its_pass_with_it() {
    let mut live = Live::of(GAPS, BODY);
    let events = live.take(typed("0.5 mm"));
    assert!(matches!(events[0], Event::Read { .. }));
    assert_eq!(events[1..], [counts("side", "left")]);
    assert_eq!(live.ask(), Ask::Reading(name("gap")));
    let events = live.take(invalid());
    assert_eq!(events, [Event::Flow(FlowEvent::PassTakenBack { repeat: name("side"), reason: reason() })]);
    live.take(typed("2 mm"));
    assert_eq!(live.take(accept()).len(), 1, "a deviation: it is asked");
    assert_eq!(live.ask(), Ask::Flow(FlowAsk::PassEnd(name("side"))));
    live.take(Answer::Flow(FlowAnswer::Counts));
    live.take(typed("0.5 mm"));
    assert_eq!(live.ended(), [PassEnd::Invalid(reason()), PassEnd::Counts, PassEnd::Counts]);
    live.is_kept();
    live.take(Answer::Done);
    let refused = live.run.take(Input::Answer(invalid()), &live.now);
    assert!(matches!(refused, Err(NotTaken::Refused(Refusal::NoPassEnded))));
    live.is_kept();
}

/// One answer can end passes within passes.
#[test]
fn passes_within_passes_end_with_one_answer() {
    let tables = "[repeats.side]\nwhat = \"both sides\"\neach = [\"left\", \"right\"]\n\
[repeats.place]\nwhat = \"two places\"\neach = [\"top\", \"bottom\"]\n";
    let mut live = Live::of(tables, "## Wipe [side]\n\n1. [place] Wipe it.\n\n## After\n\n1. Tidy up.\n");
    assert_eq!(live.take(Answer::Done)[1..], [counts("place", "top")]);
    assert_eq!(live.take(Answer::Done)[1..], [counts("place", "bottom"), counts("side", "left")]);
    live.is_kept();
}

/// Killed between the answer and the word that nobody has to give, the pass counts once the run is taken up again.
#[test]
fn killed_before_the_pass_counts_by_itself_it_counts_at_the_resume() {
    let mut live = Live::of(GAPS, BODY);
    live.take(typed("0.5 mm"));
    let (id, runs) = (live.run.run.id.clone(), live.runs());
    let path = runs.folder(&id).join("journal.jsonl");
    let Live { folder, run, now } = live;
    drop(run);
    let journal = fs::read_to_string(&path).unwrap();
    let whole: Vec<&str> = journal.lines().collect();
    fs::write(&path, whole[..whole.len() - 1].join("\n") + "\n").unwrap();
    let mut live = Live { folder, run: LiveRun::open(&runs, &id).unwrap(), now };
    assert_eq!(live.ended(), [], "its last line was never written");
    live.run.take(Input::Resume, &live.now).unwrap();
    while let Some(answer) = by_itself(live.run.run.view(&live.now)) {
        live.run.take(Input::Answer(answer), &live.now).unwrap();
    }
    live.take(Answer::AcceptBrief);
    assert_eq!((live.ended(), live.ask()), (vec![PassEnd::Counts], Ask::Reading(name("gap"))));
    live.is_kept();
    live.take(invalid());
    assert_eq!(live.ended(), [PassEnd::Invalid(reason())], "nothing was done since");
    live.is_kept();
}

/// From outside, the passes of a repeat within a repeat belong together; from within a pass around it, its own do.
#[test]
fn a_sum_over_a_repeat_within_a_repeat_is_over_all_its_passes() {
    let tables = "[readings.v]\nwhat = \"value\"\nunit = \"V\"\ninformation_only = true\n\
[values.here]\nwhat = \"of this row\"\nunit = \"V\"\nformula = 'sum(v)'\ninformation_only = true\n\
[values.all]\nwhat = \"of all\"\nunit = \"V\"\nformula = 'sum(v)'\ninformation_only = true\n\
[repeats.outer]\nwhat = \"rows\"\neach = [\"a\", \"b\"]\n[repeats.inner]\nwhat = \"columns\"\neach = [\"x\", \"y\"]\n";
    let body = "## Log [outer]\n\n1. [inner] Read [v].\n2. Add up [here].\n\n## End\n\n1. Add up [all].\n";
    let mut drive = Drive::of(tables, body);
    let shown =
        |drive: &Drive, value: &str| drive.view().judge(&name(value)).and_then(|judged| judged.shown(5));
    for (row, sum) in [(["1 V", "2 V"], "3 V"), (["10 V", "20 V"], "30 V")] {
        for value in row {
            drive.enter(value);
            drive.take(Answer::Flow(FlowAnswer::Counts));
        }
        assert_eq!(drive.label(), "1.2");
        assert_eq!(shown(&drive, "here").as_deref(), Some(sum), "this row alone");
        drive.done();
        drive.take(Answer::Flow(FlowAnswer::Counts));
    }
    assert_eq!(drive.label(), "2.1");
    assert_eq!(shown(&drive, "all").as_deref(), Some("33 V"));
}
