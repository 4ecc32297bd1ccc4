//! What a procedure says of a group of fasteners, before it is tightened.

use crate::procedure::{Criterion, Fasteners, Pattern, Positions, Stage, Step};
use crate::terminal::talk::paper::Paper;
use crate::terminal::{Line, Role, Text};

/// The groups of a step: places, order, stages.
pub(in crate::terminal::talk) fn overview(paper: Paper<'_>, step: &Step) -> Text {
    let groups = paper.procedure.fasteners_at(step).filter_map(|name| paper.procedure.fastener_group(name));
    groups.fold(Text::new(), |text, group| text.line(line(paper, group)))
}

fn line(paper: Paper<'_>, group: &Fasteners) -> Line {
    let places = match &group.positions {
        Positions::Named(names) => names.join(", "),
        Positions::Count(formula) => format!("how many: {}", paper.formula(formula)),
    };
    let order = match &group.order {
        Pattern::AsListed => String::new(),
        Pattern::Cross => ", crosswise".to_owned(),
        Pattern::Given(order) => format!(", in this order: {}", order.join(", ")),
    };
    let stages: Vec<String> = group.stages.iter().map(|stage| said(paper, stage)).collect();
    Line::new()
        .with(Role::Strong, "Fasteners: ")
        .with(Role::Plain, format!("{} ({places}){order}. Stages: {}", group.what, stages.join("; ")))
        .hang(2)
}

fn said(paper: Paper<'_>, stage: &Stage) -> String {
    let criterion = match &stage.criterion {
        // A nominal value is judged only where what was reached is read.
        Some(Criterion::Nominal(setting)) => Some(paper.formula(setting)),
        Some(criterion) => paper.criterion(criterion),
        None => None,
    };
    let criterion = criterion.map(|criterion| format!(": {criterion}")).unwrap_or_default();
    let read = match (&stage.criterion, stage.read) {
        (Some(Criterion::InformationOnly), _) => ", what was reached is read for information only",
        (Some(Criterion::Nominal(_)), true) => {
            ", what was reached is read and the person says whether it is good"
        }
        (_, true) => ", what was reached is read and judged",
        (_, false) => "",
    };
    format!("{}{criterion}{read}", stage.what)
}
