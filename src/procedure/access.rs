//! What a checked procedure tells those who use it.

use super::{
    Alternatives, Check, CheckedProcedure, Condition, Criterion, Critical, Fasteners, Ground, Hazard, Header,
    Hold, Linked, Name, Named, NamedStep, Passage, Place, Reading, ReadingKind, Repeat, Role, RuleOff,
    Section, SectionId, Step, StepId, StoppingPoint, Supply, Tool, Value, VehicleValue, Wait, Watch, Witness,
};
use crate::source::SourceText;

impl CheckedProcedure {
    /// What the procedure is called by others: its file name without the ending.
    pub fn id(&self) -> &str {
        &self.id
    }

    /// The title.
    pub fn title(&self) -> &str {
        &self.title
    }

    /// The text it was read from.
    pub fn text(&self) -> &SourceText {
        &self.text
    }

    /// The procedures that its steps link to, however deep, each once, in the order in which they are first met.
    pub fn linked(&self) -> &[Linked] {
        &self.linked
    }

    /// One of its texts: 0 is its own, the others are those of [`Self::linked`]. The spans of a step, its passages and
    /// its formulas point into the text that its `source` names.
    pub fn source(&self, source: usize) -> Option<&SourceText> {
        match source.checked_sub(1) {
            None => Some(&self.text),
            Some(place) => self.linked.get(place).map(|linked| &linked.text),
        }
    }

    /// Where a name is declared; of a name that several texts share, where it is declared first.
    pub fn place(&self, name: &Name) -> Option<Place> {
        self.places.get(name).copied()
    }

    /// The linked procedure that a name, or a step of that source, came with.
    pub fn origin(&self, source: usize) -> Option<&Linked> {
        self.linked.get(source.checked_sub(1)?)
    }

    /// What the front matter says of the file as a whole.
    pub fn header(&self) -> &Header {
        &self.header
    }

    /// The parts people have in the job.
    pub fn roles(&self) -> &Named<Role> {
        &self.roles
    }

    /// The tools and instruments.
    pub fn tools(&self) -> &Named<Tool> {
        &self.tools
    }

    /// What is used up.
    pub fn materials(&self) -> &Named<Supply> {
        &self.materials
    }

    /// What stays on the vehicle.
    pub fn parts(&self) -> &Named<Supply> {
        &self.parts
    }

    /// What must be known of the vehicle.
    pub fn vehicle(&self) -> &Named<VehicleValue> {
        &self.vehicle
    }

    /// The hazards.
    pub fn hazards(&self) -> &Named<Hazard> {
        &self.hazards
    }

    /// The hold points.
    pub fn holds(&self) -> &Named<Hold> {
        &self.holds
    }

    /// The readings.
    pub fn readings(&self) -> &Named<Reading> {
        &self.readings
    }

    /// The computed values.
    pub fn values(&self) -> &Named<Value> {
        &self.values
    }

    /// The conditions.
    pub fn conditions(&self) -> &Named<Condition> {
        &self.conditions
    }

    /// The waits.
    pub fn waits(&self) -> &Named<Wait> {
        &self.waits
    }

    /// The repeats.
    pub fn repeats(&self) -> &Named<Repeat> {
        &self.repeats
    }

    /// The choices between ways.
    pub fn alternatives(&self) -> &Named<Alternatives> {
        &self.alternatives
    }

    /// The groups of fasteners.
    pub fn fasteners(&self) -> &Named<Fasteners> {
        &self.fasteners
    }

    /// The checks by another person.
    pub fn checks(&self) -> &Named<Check> {
        &self.checks
    }

    /// The witness points.
    pub fn witnesses(&self) -> &Named<Witness> {
        &self.witnesses
    }

    /// The critical acts.
    pub fn critical(&self) -> &Named<Critical> {
        &self.critical
    }

    /// The limits that stay in force.
    pub fn watches(&self) -> &Named<Watch> {
        &self.watches
    }

    /// What must be true before the first step.
    pub fn required(&self) -> &[String] {
        &self.header.required
    }

    /// What must be true before the run is closed.
    pub fn close_up(&self) -> &[String] {
        &self.header.close_up
    }

    /// The stopping points.
    pub fn stopping_points(&self) -> &Named<StoppingPoint> {
        &self.stopping_points
    }

    /// The steps that texts speak of by name.
    pub fn named_steps(&self) -> &Named<NamedStep> {
        &self.named_steps
    }

    /// The author's rules that do not hold for it, with the reasons.
    pub fn rules_off(&self) -> &[RuleOff] {
        &self.rules_off
    }

    /// What is said between the title and the first section.
    pub fn introduction(&self) -> &[Passage] {
        &self.introduction
    }

    /// The sections, in order.
    pub fn sections(&self) -> &[Section] {
        &self.sections
    }

    /// The steps and their parts, in reading order; a step's place here is its [`StepId`].
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// The steps of a section and their parts, in reading order.
    pub fn steps_in(&self, section: SectionId) -> impl Iterator<Item = &Step> {
        self.steps.iter().filter(move |step| step.section == section)
    }

    /// The section of that place.
    pub fn section(&self, id: SectionId) -> Option<&Section> {
        self.sections.get(id.0)
    }

    /// The step of that place.
    pub fn step(&self, id: StepId) -> Option<&Step> {
        self.steps.get(id.0)
    }

    /// The reading of that name.
    pub fn reading(&self, name: &Name) -> Option<&Reading> {
        self.readings.get(name)
    }

    /// The computed value of that name.
    pub fn value(&self, name: &Name) -> Option<&Value> {
        self.values.get(name)
    }

    /// The hold point of that name.
    pub fn hold(&self, name: &Name) -> Option<&Hold> {
        self.holds.get(name)
    }

    /// The hazard of that name.
    pub fn hazard(&self, name: &Name) -> Option<&Hazard> {
        self.hazards.get(name)
    }

    /// The condition of that name.
    pub fn condition(&self, name: &Name) -> Option<&Condition> {
        self.conditions.get(name)
    }

    /// The wait of that name.
    pub fn wait(&self, name: &Name) -> Option<&Wait> {
        self.waits.get(name)
    }

    /// The role of that name.
    pub fn role(&self, name: &Name) -> Option<&Role> {
        self.roles.get(name)
    }

    /// The tool of that name.
    pub fn tool(&self, name: &Name) -> Option<&Tool> {
        self.tools.get(name)
    }

    /// The one of the repeats of that name.
    pub fn repeat(&self, name: &Name) -> Option<&Repeat> {
        self.repeats.get(name)
    }

    /// The one of the choices between ways of that name.
    pub fn ways(&self, name: &Name) -> Option<&Alternatives> {
        self.alternatives.get(name)
    }

    /// The groups of fasteners that are tightened at a step, also those of its hold point.
    pub fn fasteners_at<'s>(&'s self, step: &'s Step) -> impl Iterator<Item = &'s Name> {
        let hold = step.hold.as_ref().and_then(|hold| self.hold(hold));
        step.fasteners.iter().chain(hold.into_iter().flat_map(|hold| &hold.fasteners))
    }

    /// The one of the groups of fasteners of that name.
    pub fn fastener_group(&self, name: &Name) -> Option<&Fasteners> {
        self.fasteners.get(name)
    }

    /// The one of the checks by another person of that name.
    pub fn check(&self, name: &Name) -> Option<&Check> {
        self.checks.get(name)
    }

    /// The one of the witness points of that name.
    pub fn witness(&self, name: &Name) -> Option<&Witness> {
        self.witnesses.get(name)
    }

    /// The one of the critical acts of that name.
    pub fn critical_act(&self, name: &Name) -> Option<&Critical> {
        self.critical.get(name)
    }

    /// The one of the limits that stay in force of that name.
    pub fn watch(&self, name: &Name) -> Option<&Watch> {
        self.watches.get(name)
    }

    /// The one of the stopping points of that name.
    pub fn stopping_point(&self, name: &Name) -> Option<&StoppingPoint> {
        self.stopping_points.get(name)
    }

    /// The acceptance criterion of a reading or a value; a choice, a text and a date have none.
    pub fn criterion(&self, name: &Name) -> Option<&Criterion> {
        if let Some(value) = self.values.get(name) {
            return Some(&value.criterion);
        }
        match &self.readings.get(name)?.kind {
            ReadingKind::Quantity { criterion, .. } | ReadingKind::Count { criterion } => Some(criterion),
            ReadingKind::Choice { .. }
            | ReadingKind::Text
            | ReadingKind::List { .. }
            | ReadingKind::File
            | ReadingKind::Date { .. } => None,
        }
    }

    /// The step at which a reading is taken.
    pub fn taken_at(&self, reading: &Name) -> Option<StepId> {
        self.home(reading).filter(|_| self.readings.contains(reading))
    }

    /// What a condition rests on, in words: its formula, or what went wrong: `soak time missed`.
    pub fn condition_words(&self, condition: &Condition) -> String {
        match &condition.ground {
            Ground::If(formula) => formula.text().to_owned(),
            Ground::Missed(wait) => format!("{} missed", self.called(wait)),
            Ground::GaveUp(repeat) => format!("{} given up", self.called(repeat)),
            Ground::Failed(result) => format!("{} fails", self.called(result)),
        }
    }

    fn what_decides(&self, condition: &Name) -> Option<&str> {
        match &self.conditions.get(condition)?.ground {
            Ground::If(formula) => Some(formula.text()),
            Ground::Missed(name) | Ground::GaveUp(name) | Ground::Failed(name) => self.what(name),
        }
    }

    /// The words a name is shown as; of one that names nothing here, the name.
    pub fn called<'name>(&'name self, name: &'name Name) -> &'name str {
        self.what(name).unwrap_or(name.as_str())
    }

    /// The words a name is shown as: what it is, for whatever it names.
    pub fn what(&self, name: &Name) -> Option<&str> {
        let reading = self.readings.get(name).map(|reading| reading.what.as_str());
        reading
            .or_else(|| self.values.get(name).map(|value| value.what.as_str()))
            .or_else(|| self.tools.get(name).map(|tool| tool.what.as_str()))
            .or_else(|| self.materials.get(name).map(|supply| supply.what.as_str()))
            .or_else(|| self.parts.get(name).map(|supply| supply.what.as_str()))
            .or_else(|| self.vehicle.get(name).map(|value| value.what.as_str()))
            .or_else(|| self.roles.get(name).map(|role| role.what.as_str()))
            .or_else(|| self.holds.get(name).map(|hold| hold.what.as_str()))
            .or_else(|| self.waits.get(name).map(|wait| wait.what.as_str()))
            .or_else(|| self.hazards.get(name).map(|hazard| hazard.hazard.as_str()))
            .or_else(|| self.what_decides(name))
            .or_else(|| self.repeats.get(name).map(|thing| thing.what.as_str()))
            .or_else(|| self.alternatives.get(name).map(|thing| thing.what.as_str()))
            .or_else(|| self.fasteners.get(name).map(|thing| thing.what.as_str()))
            .or_else(|| self.checks.get(name).map(|thing| thing.what.as_str()))
            .or_else(|| self.witnesses.get(name).map(|thing| thing.what.as_str()))
            .or_else(|| self.critical.get(name).map(|thing| thing.what.as_str()))
            .or_else(|| self.watches.get(name).map(|thing| thing.what.as_str()))
            .or_else(|| self.stopping_points.get(name).map(|thing| thing.what.as_str()))
            .or_else(|| self.named_steps.get(name).map(|step| step.shown.as_str()))
    }
}
