//! The sections of a linked procedure as parts of the step that links to it.

use crate::procedure::{Group, Order, Passage, Piece, Rare, Section, SectionId, Step, StepId};
use crate::source::Span;

/// The body of a linked procedure.
pub(super) struct Body {
    pub(super) introduction: Vec<Passage>,
    pub(super) sections: Vec<Section>,
    pub(super) steps: Vec<Step>,
    /// What must be true before it, statement by statement.
    pub(super) required: Vec<String>,
    /// What must be true after it.
    pub(super) close_up: Vec<String>,
    /// The text it stands in.
    pub(super) source: usize,
}

/// Its steps, their places counted from 0, and the lists that become lists of the linking step.
#[derive(Default)]
pub(super) struct Parts {
    pub(super) steps: Vec<Step>,
    pub(super) groups: Vec<Group>,
}

/// A section becomes a part with its heading as text; steps before the first heading become parts themselves. What must
/// be true before and after becomes a part in front and one at the end, so that each statement is confirmed.
pub(super) fn parts(mut body: Body) -> Parts {
    let mut parts = Parts::default();
    parts.statements("Preliminary requirements", std::mem::take(&mut body.required), body.source);
    let places = places(&body, parts.steps.len());
    let Body { mut introduction, sections, steps, required: _, close_up, source } = body;
    let mut steps = steps.into_iter().peekable();
    for (place, section) in sections.into_iter().enumerate() {
        let first = parts.steps.len();
        let groups: Rare<Group> =
            section.groups.iter().map(|group| moved_group(group, &|id| place_in(&places, id))).collect();
        let after = section.after.clone();
        let head = has_head(&section).then_some(StepId(first));
        match head {
            Some(head) => {
                parts.groups.push(Group { order: Order::InOrder, steps: vec![head] });
                parts.steps.push(part(section, groups, head, source));
            }
            None => parts.groups.extend(groups),
        }
        while let Some(step) = steps.next_if(|step| step.section == SectionId(place)) {
            let mut step = moved(step, &|id| place_in(&places, id));
            step.parent = step.parent.or(head);
            step.before.put_before(std::mem::take(&mut introduction));
            parts.steps.push(step);
        }
        introduction.extend(after);
    }
    if let Some(last) = parts.steps.last_mut() {
        last.passages.extend(introduction);
    }
    parts.statements("Close-up requirements", close_up, source);
    parts
}

impl Parts {
    fn statements(&mut self, title: &str, statements: Vec<String>, source: usize) {
        if statements.is_empty() {
            return;
        }
        let head = StepId(self.steps.len());
        let bare = |place: usize, text| said(StepId(head.0 + place), text, source, Span::default());
        let group = (1..=statements.len()).map(|place| StepId(head.0 + place)).collect();
        self.groups.push(Group { order: Order::InOrder, steps: vec![head] });
        let groups = Rare::from(vec![Group { order: Order::InOrder, steps: group }]);
        self.steps.push(Step { groups, ..bare(0, title.to_owned()) });
        let confirmed = statements.into_iter().zip(1..);
        self.steps.extend(confirmed.map(|(text, place)| Step { parent: Some(head), ..bare(place, text) }));
    }
}

/// Where each step comes to stand, `first` being the first place: each heading before it takes a place of its own.
fn places(body: &Body, first: usize) -> Vec<StepId> {
    let heads: Vec<usize> = body
        .sections
        .iter()
        .scan(first, |heads, section| {
            *heads += usize::from(has_head(section));
            Some(*heads)
        })
        .collect();
    let place = |step: &Step| StepId(step.id.0 + heads.get(step.section.0).copied().unwrap_or_default());
    body.steps.iter().map(place).collect()
}

fn place_in(places: &[StepId], id: StepId) -> StepId {
    places.get(id.0).copied().unwrap_or(id)
}

/// Nothing is done in a section without steps, and what stands before the first heading has none.
fn has_head(section: &Section) -> bool {
    let says = !section.title.is_empty()
        || !section.conditions.is_empty()
        || !section.hazards.is_empty()
        || section.repeat.is_some();
    says && section.groups.iter().any(|group| !group.steps.is_empty())
}

fn part(section: Section, groups: Rare<Group>, id: StepId, source: usize) -> Step {
    let Section { title, conditions, hazards, repeat, level: _, groups: _, after: _, span } = section;
    Step { conditions, hazards, repeat, groups, ..said(id, title, source, span) }
}

/// A step that only says something.
fn said(id: StepId, text: String, source: usize, span: Span) -> Step {
    Step { text: vec![Piece::Text(text)], source, ..Step::bare(id, span) }
}

/// A step at another place, with all that it says of places.
pub(super) fn moved(step: Step, to: &dyn Fn(StepId) -> StepId) -> Step {
    Step {
        id: to(step.id),
        parent: step.parent.map(to),
        groups: step.groups.iter().map(|group| moved_group(group, to)).collect(),
        ..step
    }
}

/// A list whose steps stand at other places.
pub(super) fn moved_group(group: &Group, to: &dyn Fn(StepId) -> StepId) -> Group {
    Group { order: group.order, steps: group.steps.iter().map(|&id| to(id)).collect() }
}
