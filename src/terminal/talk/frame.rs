//! What stands around every question: where we are, what protects, what comes next. What the screen before told and has
//! not changed is not told again; what protects is told on every screen that hides the one before.

use super::words;
use crate::procedure::{SectionId, Step};
use crate::run::{Address, Ask, FlowAsk, Part, PeopleAsk, Prompt, View};
use crate::terminal::{Line, Role, Text};

/// What the screens of a conversation have told so far.
#[derive(Default)]
pub(super) struct Told {
    /// Whether what was said stays in sight.
    keeps: bool,
    has_begun: bool,
    section: Option<SectionId>,
    /// The linked procedure that the work is in, and where it goes on after it.
    within: Option<String>,
    /// The step that was shown in full, in which turn.
    step: Option<Address>,
    /// What protects, as it was told last; nothing where it has to be told again.
    in_force: Option<String>,
}

impl Told {
    /// Nothing yet.
    pub(super) fn new(keeps: bool) -> Self {
        Self { keeps, ..Self::default() }
    }

    /// The question comes back after something else: its step is shown in full again.
    pub(super) fn forget_step(&mut self) {
        self.step = None;
        self.in_force = None;
    }

    /// Whether a step was shown in full by the screen before.
    pub(super) fn has_shown(&self, view: View<'_>, step: &Step) -> bool {
        self.step.as_ref() == Some(&view.place_of(Part::Step(step.id)))
    }

    /// Whether what was said stays in sight.
    pub(super) const fn keeps(&self) -> bool {
        self.keeps
    }

    /// The frame of a question, and that it is told now.
    pub(super) fn frame(&mut self, view: View<'_>, prompt: &Prompt, step: Option<&Step>) -> Text {
        let is_warned = stands_alone(&prompt.ask);
        let is_new = !is_warned && step.is_some_and(|step| !self.has_shown(view, step));
        let place = self.place(view, prompt, step, is_new);
        let in_force = self.in_force(view);
        let is_led_up_to = matches!(prompt.ask, Ask::Confirm { .. });
        let next = if is_new && !is_led_up_to { next(view, prompt, step) } else { None };
        let standing = view.is_at_stopping_point() && !is_warned;
        let standing = standing.then(|| Line::plain("Safe to stop here."));
        // Neither a warning nor a choice among steps shows the step.
        let is_shown = !is_warned && !matches!(prompt.ask, Ask::Pick(_) | Ask::Interruption(_));
        let shown = step.filter(|_| is_shown);
        self.step = shown.map(|step| view.place_of(Part::Step(step.id)));
        self.has_begun = true;
        let clocks = super::clocks::clocks(view, &prompt.ask);
        let above = beside(place, in_force).into_iter().chain(standing).fold(Text::new(), Text::line);
        next.into_iter().fold(above.then(clocks), Text::line)
    }

    /// Where we are: the procedure once, the section and the linked procedure where they begin, the pass, the step of how
    /// many.
    fn place(
        &mut self,
        view: View<'_>,
        prompt: &Prompt,
        step: Option<&Step>,
        is_new: bool,
    ) -> Option<String> {
        let procedure = &view.book.procedure;
        let section = step.map(|step| step.section).or_else(|| match &prompt.ask {
            Ask::Flow(ask) => ask.section(view),
            _ => None,
        });
        let is_other = section.is_some() && section != self.section;
        let title = (!self.has_begun).then(|| procedure.title().to_owned());
        let called = section.filter(|_| is_other).and_then(|section| procedure.section(section));
        let called = called.map(|section| section.title.clone()).filter(|title| !title.is_empty());
        let step = step.filter(|_| is_new);
        let within = step.and_then(|step| self.within(view, step));
        let pass = step.and_then(|step| view.pass_words(step.id));
        let progress = step.filter(|_| !is_end_of_pass(prompt)).map(|step| words::progress(view, step.id));
        self.section = section.or(self.section);
        let parts: Vec<String> =
            title.into_iter().chain(called).chain(within).chain(pass).chain(progress).collect();
        (!parts.is_empty()).then(|| parts.join(" / "))
    }

    /// The linked procedure, where it begins, and where the one around it goes on.
    fn within(&mut self, view: View<'_>, step: &Step) -> Option<String> {
        let within = view.within(step.id).pop().map(|within| words::within(&within));
        let before = std::mem::replace(&mut self.within, within.clone());
        within.filter(|within| before.as_ref() != Some(within))
    }

    /// What protects: in full words where it has changed, by its names alone where it is as it was; nothing where that
    /// stands in sight.
    fn in_force(&mut self, view: View<'_>) -> Option<String> {
        let words = in_force_in_short(view);
        let is_told = self.in_force.replace(words.clone()).is_some_and(|before| before == words);
        match (is_told, words.is_empty()) {
            (true, true) => None,
            (false, true) => Some("In force: no protection".to_owned()),
            (false, false) => Some(format!("In force: {words}")),
            (true, false) => (!self.keeps).then_some(words),
        }
    }
}

/// The place and what protects in one line.
fn beside(place: Option<String>, in_force: Option<String>) -> Option<Line> {
    let line = match (place, in_force) {
        (None, None) => return None,
        (Some(place), None) => Line::new().with(Role::Strong, place),
        (None, Some(in_force)) => Line::new().with(Role::Protection, in_force),
        (Some(place), Some(in_force)) => {
            Line::new().with(Role::Strong, place).with(Role::Faint, " | ").with(Role::Protection, in_force)
        }
    };
    Some(line.hang(2))
}

/// What protects, by its short names; what has lapsed stands out by a word.
fn in_force_in_short(view: View<'_>) -> String {
    let protections = view.protections().into_iter().map(|protection| match protection.lapsed {
        None => protection.short.to_owned(),
        Some(_) => format!("{} LAPSED, verify again", protection.short),
    });
    let inherited = view.inherited_protections().map(|protection| protection.short.clone());
    let limits = view.limits_in_force().into_iter().map(|limit| limit.what.to_owned());
    protections.chain(inherited).chain(limits).collect::<Vec<_>>().join(", ")
}

/// The protections and the limits in force, each with its time, or that there are none.
pub(super) fn in_force(view: View<'_>) -> Line {
    let (protections, limits) = (view.protections(), view.limits_in_force());
    let inherited: Vec<String> = view.inherited_protections().map(words::inherited(view.now)).collect();
    if protections.is_empty() && limits.is_empty() && inherited.is_empty() {
        return Line::new().with(Role::Faint, "In force: no protection");
    }
    let limits = limits.iter().map(|limit| limit.what.to_owned());
    let listed: Vec<String> = protections
        .iter()
        .map(|protection| match &protection.lapsed {
            None => format!("{} (since {})", protection.what, words::clock(&protection.since.at, view.now)),
            Some(_) => format!("{} (LAPSED: verify again)", protection.what),
        })
        .chain(inherited)
        .chain(limits)
        .collect();
    Line::new().with(Role::Strong, "In force: ").with(Role::Protection, listed.join("; ")).hang(2)
}

/// Whether a question is no part of the step before which it is asked.
pub(super) const fn stands_alone(ask: &Ask) -> bool {
    matches!(ask, Ask::Acknowledge(_) | Ask::People(PeopleAsk::PreJobBrief))
}

fn is_end_of_pass(prompt: &Prompt) -> bool {
    matches!(prompt.ask, Ask::Flow(FlowAsk::PassEnd(_) | FlowAsk::Exhausted(_)))
}

/// What comes after the step; nothing where the person says what comes.
fn next(view: View<'_>, prompt: &Prompt, step: Option<&Step>) -> Option<Line> {
    let is_chosen = matches!(prompt.ask, Ask::Pick(_) | Ask::Flow(FlowAsk::Choose { .. }));
    let step = step.filter(|_| !is_chosen && !is_end_of_pass(prompt))?;
    let later = view.after(step.id)?;
    let words = format!("{} {}", later.number, words::glance(view, later));
    Some(Line::new().with(Role::Faint, format!("Next: {words}")).hang(2))
}
