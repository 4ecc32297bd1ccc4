//! Where a run stands, as data: what `bayhand status --json` says.

use serde::Serialize;

use super::runs;
use crate::journal::write_time;
use crate::procedure::StepId;
use crate::run::{CanStop, DueAt, RunningWait, StepAt, View, Within};

#[derive(Serialize)]
struct Data {
    run: String,
    standing: &'static str,
    step: Option<String>,
    within: Vec<WithinData>,
    asks: String,
    question: &'static str,
    protections: Vec<ProtectionData>,
    waits: Vec<WaitData>,
    clock: Vec<String>,
    open: Vec<String>,
    loose_ends: Vec<String>,
    can_stop: bool,
    dues: Vec<DueData>,
    /// What lies beside the journal and is not what it was.
    faults: Vec<String>,
    steps: Vec<StepData>,
}

/// A linked procedure that is being run, the outermost first.
#[derive(Serialize)]
struct WithinData {
    procedure: String,
    title: String,
    at: String,
    back_to: Vec<String>,
}

#[derive(Serialize)]
struct ProtectionData {
    hold: String,
    protection: String,
    by: String,
    since: String,
    lapsed: Option<String>,
}

#[derive(Serialize)]
struct WaitData {
    name: String,
    what: String,
    /// runs, due or overdue.
    stands: &'static str,
    began: String,
    elapsed_seconds: i64,
    over: Option<String>,
    latest: Option<String>,
}

/// What falls due after the job.
#[derive(Serialize)]
struct DueData {
    name: String,
    what: String,
    words: String,
    by_calendar: Option<String>,
    odometer: Option<String>,
    estimate: Option<String>,
}

/// One occurrence of a step.
#[derive(Serialize)]
struct StepData {
    number: String,
    /// In which pass, in words, where it is done more than once.
    pass: Option<String>,
    /// The turns of what is around it and of itself, as in the journal.
    turns: Vec<u32>,
    status: &'static str,
    results: Vec<ResultData>,
}

/// A result of a step.
#[derive(Serialize)]
struct ResultData {
    name: String,
    shown: Option<String>,
    verdict: String,
}

/// Where a run stands, as JSON.
pub fn status_json(run: &str, view: View<'_>, faults: &[String]) -> serde_json::Result<String> {
    serde_json::to_string_pretty(&as_data(run, view, faults))
}

fn as_data(run: &str, view: View<'_>, faults: &[String]) -> Data {
    let prompt = view.next();
    let steps = view.unrolled();
    Data {
        run: run.to_owned(),
        standing: runs::standing(view),
        step: view.step_stood_at().map(|step| step.number.clone()),
        within: view.step_stood_at().map(|step| within(view, step.id)).unwrap_or_default(),
        asks: prompt.label(view),
        question: prompt.ask.word(),
        protections: protections(view),
        waits: waits(view),
        clock: view.state.times.jumps.iter().map(ToString::to_string).collect(),
        open: view.open_items().iter().map(ToString::to_string).collect(),
        loose_ends: view.open_ends().into_iter().map(|end| end.what).collect(),
        dues: view.dues().iter().map(due).collect(),
        faults: faults.to_vec(),
        can_stop: matches!(view.can_stop(), CanStop::Yes(_)),
        steps: steps.into_iter().map(|at| step(view, at, prompt.step)).collect(),
    }
}

fn due(due: &DueAt<'_>) -> DueData {
    DueData {
        name: due.name.to_string(),
        what: due.what.to_owned(),
        words: due.to_string(),
        by_calendar: due.by_calendar.map(|day| day.to_string()),
        odometer: due.at.as_ref().map(ToString::to_string),
        estimate: due.estimate.as_ref().map(|(day, _)| day.to_string()),
    }
}

fn step(view: View<'_>, at: StepAt<'_>, current: Option<StepId>) -> StepData {
    let results = view.results_at(at).into_iter().map(|result| ResultData {
        name: result.name.to_string(),
        shown: result.shown,
        verdict: result.judged.judgement.to_string(),
    });
    StepData {
        number: at.step.number.clone(),
        pass: view.inside(at.from()).pass_words(at.step.id),
        turns: view.address(at).turns.written().to_vec(),
        status: view.state_of(at, current).word(),
        results: results.collect(),
    }
}

fn within(view: View<'_>, step: StepId) -> Vec<WithinData> {
    let data = |within: Within<'_>| WithinData {
        procedure: within.link.id.clone(),
        title: within.link.title.clone(),
        at: within.step.number.clone(),
        back_to: within.back,
    };
    view.within(step).into_iter().map(data).collect()
}

fn waits(view: View<'_>) -> Vec<WaitData> {
    let data = |wait: RunningWait| WaitData {
        stands: wait.word(view.now),
        elapsed_seconds: wait.began.duration_until(view.now).as_secs(),
        began: write_time(&wait.began),
        over: wait.until.as_ref().map(write_time),
        latest: wait.latest.as_ref().map(write_time),
        name: wait.name.to_string(),
        what: wait.what,
    };
    view.running_waits().into_iter().map(data).collect()
}

fn protections(view: View<'_>) -> Vec<ProtectionData> {
    let data = |protection: crate::run::Protection<'_>| ProtectionData {
        hold: protection.hold.to_string(),
        protection: protection.what.to_owned(),
        by: view.releaser_of(protection.hold),
        since: write_time(&protection.since.at),
        lapsed: protection.lapsed,
    };
    view.protections().into_iter().map(data).collect()
}
