//! What is shown of a group of fasteners: what to do now, and how far all of them are.

use crate::procedure::{Fasteners, Name, Stage};
use crate::run::{Aim, Ask, FasteningAsk, FasteningEvent, OccurrenceId, Place, Spot, Tightening, View};
use crate::terminal::talk::result::{WHY_NOMINAL, is_it_good, judged_line, last};
use crate::terminal::{Cell, Grid, Line, Role, Text, grid};

/// What is shown with the question.
pub(in crate::terminal::talk) fn asked(view: View<'_>, ask: &FasteningAsk) -> Text {
    let text = match ask {
        FasteningAsk::SetStage { .. } => stage_text(view, ask),
        FasteningAsk::Tighten(at) | FasteningAsk::Reach(at) => place_text(view, at),
        FasteningAsk::Nominal(at) => {
            judged_text(view, at).line(is_it_good(view, view.book.step_of_fasteners(&at.group)))
        }
        FasteningAsk::Failed(at) => judged_text(view, at),
        FasteningAsk::NoPlaces { why, .. } => Text::plain(&sentence(why)),
    };
    grid_of(view, ask.group(), ask.spot()).into_iter().fold(text, Text::grid)
}

fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first: String = letters.next().into_iter().flat_map(char::to_uppercase).collect();
    format!("{first}{}.", letters.as_str())
}

fn group_and_stage<'run>(
    view: View<'run>,
    group: &Name,
    stage: usize,
) -> Option<(&'run Fasteners, &'run Stage)> {
    let group = view.book.procedure.fastener_group(group)?;
    Some((group, group.stages.get(stage)?))
}

/// What a stage tightens to, in words; nothing for one that is done by feel.
fn aim_words(view: View<'_>, stage: &Stage) -> Option<String> {
    Some(match view.aim(stage)? {
        Ok(aim) => format!("{}{}", if aim.is_angle() { "turn by" } else { "tighten to" }, aim_said(&aim)),
        Err(why) => format!("the target is not known: {why}"),
    })
}

/// Limits alone follow a colon: between two values there is none to go to.
fn aim_said(aim: &Aim) -> String {
    if aim.target.is_some() { format!(" {}", aim.words()) } else { format!(": {}", aim.words()) }
}

/// Which stage comes next, with the new setting.
pub(super) fn stage_line(view: View<'_>, ask: &FasteningAsk) -> String {
    let FasteningAsk::SetStage { group, stage } = ask else {
        return String::new();
    };
    let Some((_, stage)) = group_and_stage(view, group, *stage) else {
        return String::new();
    };
    let aim = aim_words(view, stage).map(|aim| format!(", {aim}")).unwrap_or_default();
    format!("next is stage {}{aim}", stage.what)
}

fn stage_text(view: View<'_>, ask: &FasteningAsk) -> Text {
    let FasteningAsk::SetStage { group, stage } = ask else {
        return Text::new();
    };
    let Some((group, stage)) = group_and_stage(view, group, *stage) else {
        return Text::new();
    };
    let head = Line::new()
        .with(Role::Plain, format!("{}. ", sentence_part(&group.what)))
        .with(Role::Strong, format!("Next stage: {}.", stage.what))
        .hang(2);
    let text = Text::from(head);
    let set =
        tool_setting(view, group, stage).or_else(|| aim_words(view, stage).map(|words| sentence(&words)));
    let text = set.into_iter().fold(text, |text, set| text.line(Line::new().with(Role::Strong, set).hang(2)));
    text.then(origin(view, stage))
}

/// What the group's tool is set to for a stage; nothing where there is none to set.
fn tool_setting(view: View<'_>, group: &Fasteners, stage: &Stage) -> Option<String> {
    let tool = instrument(view, group)?;
    let aim = view.aim(stage)?.ok().filter(|aim| !aim.is_angle())?;
    let to = if aim.target.is_some() { " to" } else { "" };
    Some(format!("Set the {tool}{to}{}.", aim_said(&aim)))
}

/// The words of the key that begins a stage: a tool is set first, where the stage has a setting.
pub(super) fn begin_words(view: View<'_>, group: &Name, stage: usize) -> &'static str {
    let found = group_and_stage(view, group, stage);
    let is_set = found.is_some_and(|(group, stage)| tool_setting(view, group, stage).is_some());
    if is_set { "it is set, begin this stage" } else { "begin this stage" }
}

fn sentence_part(words: &str) -> String {
    sentence(words).trim_end_matches('.').to_owned()
}

fn instrument(view: View<'_>, group: &Fasteners) -> Option<String> {
    let tool = group.instrument.as_ref().and_then(|name| view.book.procedure.tool(name))?;
    Some(tool.what.clone())
}

/// How a target came about that is worked out.
fn origin(view: View<'_>, stage: &Stage) -> Text {
    match view.aim(stage) {
        Some(Ok(Aim { target: Some(target), trace: Some(trace), .. })) if trace.is_worked_out() => {
            let said = trace.said_as(&target.to_string(), &|name| view.book.procedure.spoken(name));
            Line::new().with(Role::Faint, format!("Target: {said}")).hang(2).into()
        }
        _ => Text::new(),
    }
}

fn place_text(view: View<'_>, at: &Spot) -> Text {
    let Some((group, stage)) = group_and_stage(view, &at.group, at.stage) else {
        return Text::new();
    };
    let head = Line::new()
        .with(Role::Plain, format!("{}, stage ", sentence_part(&group.what)))
        .with(Role::Strong, stage.what.as_str())
        .with(Role::Plain, ". Now: ")
        .with(Role::Strong, at.position.as_str())
        .hang(2);
    let aim = aim_words(view, stage).map(|aim| Line::new().with(Role::Strong, sentence(&aim)).hang(2));
    let text = aim.into_iter().fold(Text::from(head), Text::line).then(origin(view, stage));
    // A stage without a target is done by feel.
    let tool = instrument(view, group).filter(|_| stage.criterion.is_some());
    let text =
        tool.into_iter().fold(text, |text, tool| text.line(Line::plain(format!("With: {tool}")).hang(2)));
    text.then(earlier(view, at))
}

fn earlier(view: View<'_>, at: &Spot) -> Text {
    let Some(Ok(tightening)) = view.tightening(&at.group) else {
        return Text::new();
    };
    let values = tightening.reached(at.stage, &at.position).iter();
    let values: Vec<String> = values.map(|value| value.typed.to_string()).collect();
    if values.is_empty() {
        return Text::new();
    }
    Line::plain(format!("Earlier: {}", values.join("; "))).hang(2).into()
}

/// What was reached and is not good, where that is asked about.
pub(in crate::terminal::talk) fn failed(view: View<'_>, ask: &FasteningAsk) -> Text {
    match ask {
        FasteningAsk::Failed(at) => judged_text(view, at),
        _ => Text::new(),
    }
}

/// What was reached, with its verdict: how far it is from what is wanted.
fn judged_text(view: View<'_>, at: &Spot) -> Text {
    let Some(Ok(tightening)) = view.tightening(&at.group) else {
        return Text::new();
    };
    let judged = tightening.judged(at.stage, &at.position);
    judged.map(|(reached, judged)| judged_line(&at.words(view), reached, &judged)).unwrap_or_default()
}

/// How far a group is, with the place that is asked about.
fn grid_of(view: View<'_>, group: &Name, now: Option<&Spot>) -> Option<Grid> {
    let tightening = view.tightening(group)?.ok()?;
    let stages = tightening.group.stages.iter().enumerate();
    let stages = stages.map(|(at, stage)| grid::Stage {
        what: stage.what.clone(),
        cells: tightening.places.iter().map(|place| cell(&tightening, (at, place), now)).collect(),
    });
    let stages = stages.collect();
    Some(Grid { places: tightening.places, stages })
}

fn cell(tightening: &Tightening<'_>, (stage, place): (usize, &str), now: Option<&Spot>) -> Cell {
    match tightening.place(stage, place) {
        Place::Deviation(deviation) => Cell::Deviation(deviation + 1),
        Place::Failed => Cell::Fail,
        Place::Done => Cell::Done,
        // Nobody has said yet that what was reached is not good.
        Place::ToDo | Place::Unjudged => {
            let is_now = now.is_some_and(|now| now.stage == stage && now.position == place);
            if is_now { Cell::Now } else { Cell::ToDo }
        }
    }
}

/// What is said after an event.
pub(in crate::terminal::talk) fn after(view: View<'_>, event: &FasteningEvent) -> Text {
    match event {
        FasteningEvent::Tightened { reached: Some(_), .. }
        | FasteningEvent::Judged { .. }
        | FasteningEvent::Corrected { .. } => results(view, event),
        _ => last(&event.words(view)),
    }
}

/// What was reached, with its verdict. What the question that follows tells anyway is not told twice; a procedure with a
/// way of its own for what is not good asks nothing.
pub(in crate::terminal::talk) fn results(view: View<'_>, event: &FasteningEvent) -> Text {
    let (FasteningEvent::Tightened { at, reached: Some(_) }
    | FasteningEvent::Judged { at, .. }
    | FasteningEvent::Corrected { at, .. }) = event
    else {
        return Text::new();
    };
    match view.inside(OccurrenceId::RUN).next().ask {
        Ask::Fastening(FasteningAsk::Failed(asked) | FasteningAsk::Nominal(asked)) if asked == *at => {
            Text::new()
        }
        _ => judged_text(view, at),
    }
}

/// For somebody who takes the run up again: which place is next, which were left out.
pub(in crate::terminal::talk) fn brief(view: View<'_>) -> Text {
    let groups = super::other::begun(view).into_iter().filter(|group| is_open(view, group));
    groups.fold(Text::new(), |text, group| text.line(brief_line(view, &group)))
}

fn is_open(view: View<'_>, group: &Name) -> bool {
    let step = view.book.step_of_fasteners(group).and_then(|step| view.book.procedure.step(step));
    step.is_some_and(|step| !view.is_settled(step))
}

fn brief_line(view: View<'_>, group: &Name) -> Line {
    let what = view.book.procedure.called(group);
    let next = view.next_at(group);
    let next = match &next {
        Some(ask @ FasteningAsk::SetStage { .. }) => Some(stage_line(view, ask)),
        Some(FasteningAsk::Nominal(at)) => {
            Some(format!("say whether {}, stage {}, is good", at.position, at.stage_words(view)))
        }
        Some(FasteningAsk::Failed(at)) => {
            Some(format!("{}, stage {}, is not as wanted", at.position, at.stage_words(view)))
        }
        Some(ask) => ask.spot().map(|at| format!("next is {}, stage {}", at.position, at.stage_words(view))),
        None => None,
    };
    let words = format!("{what}: {}", next.unwrap_or_default());
    Line::new().with(Role::Strong, "Fasteners: ").with(Role::Plain, words).hang(2)
}

/// How far each group is that was begun.
pub(in crate::terminal::talk) fn standing(view: View<'_>) -> Text {
    super::other::begun(view).into_iter().fold(Text::new(), |text, group| {
        let what = view.book.procedure.called(&group);
        let next = view.next_at(&group);
        let grid = grid_of(view, &group, next.as_ref().and_then(FasteningAsk::spot));
        let head = Line::new().with(Role::Strong, format!("{}:", sentence_part(what)));
        grid.into_iter().fold(text.line(head), Text::grid)
    })
}

/// Why this is asked.
pub(in crate::terminal::talk) const fn why(ask: &FasteningAsk) -> &'static str {
    match ask {
        FasteningAsk::SetStage { .. } => {
            "A new stage asks for something else: whoever goes on by habit does the old one again."
        }
        FasteningAsk::Tighten(_) | FasteningAsk::Reach(_) => {
            "Each place is confirmed by itself, so that none is forgotten and an interruption loses none."
        }
        FasteningAsk::Nominal(_) => WHY_NOMINAL,
        FasteningAsk::Failed(_) => "What was reached stays in the record, whatever is done about it.",
        FasteningAsk::NoPlaces { .. } => "Without the number of places nobody can say which are done.",
    }
}

/// The question in a few words.
pub(in crate::terminal::talk) fn question(view: View<'_>, ask: &FasteningAsk) -> String {
    match ask {
        FasteningAsk::SetStage { group, .. } => {
            let what = view.book.procedure.called(group);
            format!("{what}, {}:", stage_line(view, ask))
        }
        FasteningAsk::Tighten(at) | FasteningAsk::Reach(at) | FasteningAsk::Failed(at) => {
            format!("{}, stage {}:", at.position, at.stage_words(view))
        }
        FasteningAsk::Nominal(at) => {
            format!("good or not good, {}, stage {}:", at.position, at.stage_words(view))
        }
        FasteningAsk::NoPlaces { why, .. } => format!("{why}:"),
    }
}
