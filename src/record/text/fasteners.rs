//! Groups of fasteners: a line for each place of each stage.

use super::page::Page;
use super::results::{used_words, words, write_limit};
use super::said::{address, amount, converted, moment, people, typed, write_aside};
use crate::record::model::{
    FastenerAct, FastenerGroup, FastenerPlace, FastenerStage, Judged, Limit, Record, UsedInstrument,
};

pub(super) fn write(page: &mut Page, record: &Record) {
    if record.fasteners.is_empty() {
        return;
    }
    page.heading("Fasteners");
    for group in &record.fasteners {
        page.blank();
        write_group(page, group);
    }
}

fn write_group(page: &mut Page, group: &FastenerGroup) {
    page.put(0, &format!("{} {} [{}]", address(&group.step, &group.place), group.what, group.name));
    write_aside(page, 2, &group.place);
    if let Some(instrument) = &group.instrument {
        let accuracy =
            instrument.accuracy.as_ref().map(|accuracy| format!(", plus or minus {}", amount(accuracy)));
        page.field(2, "instrument", &format!("{}{}", instrument.what, accuracy.unwrap_or_default()));
    }
    page.put(2, &group.state);
    if !group.order.is_empty() {
        page.field(2, "order", &group.order.join(", "));
    }
    for stage in &group.stages {
        write_stage(page, stage);
    }
    for loosened in &group.loosened {
        let which = loosened.position.as_deref().unwrap_or("all");
        page.put(2, &format!("loosened again: {which}: {} ({})", loosened.reason, moment(&loosened.when)));
    }
}

fn write_stage(page: &mut Page, stage: &FastenerStage) {
    page.field(2, "stage", &stage.what);
    if let Some(target) = &stage.target {
        page.maybe(4, "target", target.amount.as_ref().map(amount).as_deref());
        page.maybe(4, "worked out", target.trace.as_deref());
        write_limit(page, 4, "lower limit", target.lower.as_ref());
        write_limit(page, 4, "upper limit", target.upper.as_ref());
    }
    // Where a stage has nothing to bring it to, no tool was set.
    let begun = if stage.target.is_some() { "begun, tool set" } else { "begun" };
    for moment_of in &stage.begun {
        page.field(4, begun, &moment(moment_of));
    }
    let acts = stage.places.iter().flat_map(|place| &place.acts);
    let mut used: Vec<&UsedInstrument> = acts.filter_map(|act| act.instrument.as_ref()).collect();
    used.dedup();
    for used in used {
        page.field(4, "with", &used_words(used));
    }
    let target = stage.target.as_ref();
    let mut limits = Told {
        lower: target.and_then(|target| target.lower.as_ref()),
        upper: target.and_then(|target| target.upper.as_ref()),
    };
    for place in &stage.places {
        write_place(page, place, &mut limits);
    }
}

/// The limits that were told last: they are told again when they have moved.
struct Told<'record> {
    lower: Option<&'record Limit>,
    upper: Option<&'record Limit>,
}

/// One line where there is no more to say than who and when.
fn write_place<'record>(page: &mut Page, place: &'record FastenerPlace, told: &mut Told<'record>) {
    let head = format!("{}: {}", place.position, place.state.to_uppercase());
    match &place.acts[..] {
        [only] if only.what == place.state && only.reached.is_none() => {
            page.put(4, &format!("{head} ({}; {})", people(&only.who), moment(&only.when)));
        }
        acts => {
            page.put(4, &head);
            for act in acts {
                write_act(page, act, told);
            }
        }
    }
}

fn write_act<'record>(page: &mut Page, act: &'record FastenerAct, told: &mut Told<'record>) {
    let reached = act.reached.as_ref().map(|reached| format!(", reached {}", typed(reached)));
    let deviation = act.deviation.map(|number| format!(", deviation {number}"));
    let reason = act.reason.as_ref().map(|reason| format!(": {reason}"));
    let words = [Some(act.what.clone()), reached, deviation, reason].into_iter().flatten();
    let words: String = words.collect();
    page.put(6, &format!("{words} ({}; {})", people(&act.who), moment(&act.when)));
    page.maybe(8, "converted", act.reached.as_ref().and_then(converted).as_deref());
    if let Some(judged) = &act.judged {
        write_verdict(page, judged, told);
    }
}

fn write_verdict<'record>(page: &mut Page, judged: &'record Judged, told: &mut Told<'record>) {
    let rule = judged.decision_rule.as_ref().map(|rule| format!(" ({rule})")).unwrap_or_default();
    page.put(8, &format!("{}{rule}", words(judged)));
    let now = Told { lower: judged.lower.as_ref(), upper: judged.upper.as_ref() };
    if (now.lower, now.upper) != (told.lower, told.upper) {
        write_limit(page, 8, "lower limit", now.lower);
        write_limit(page, 8, "upper limit", now.upper);
        *told = now;
    }
    if let Some(certainty) = &judged.certainty {
        let expanded = amount(&certainty.expanded);
        let accuracy = amount(&certainty.accuracy);
        page.field(
            8,
            "instrument",
            &format!(
                "{}; plus or minus {accuracy}, expanded uncertainty {expanded} (k = 2), probability {}",
                certainty.words, certainty.conformity
            ),
        );
    }
}
