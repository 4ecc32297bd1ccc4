use toml::de::{DeTable, DeValue};

use super::checks::{WrittenCheck, WrittenWitness, check, witness};
use super::conditions::{WrittenCondition, condition};
use super::critical::{WrittenCritical, critical, only_what};
use super::entries::{Entry, Table, entries, entries_or_none};
use super::fasteners::{WrittenFasteners, fasteners};
use super::hazards::hazard;
use super::header::header;
use super::holds::{WrittenHold, hold};
use super::people::{WrittenRole, role};
use super::readings::{WrittenReading, reading};
use super::repeats::{WrittenRepeat, level, repeat};
use super::rules_off::{WrittenRuleOff, rules_off};
use super::supplies::{WrittenSupply, supply};
use super::tools::tool;
use super::values::{WrittenValue, value};
use super::vehicle::vehicle_value;
use super::waits::wait;
use super::watches::{WrittenWatch, watch};
use crate::procedure::document::{StepNumbers, step_numbers};
use crate::procedure::{Hazard, Header, LevelOfUse, Name, Tool, VehicleValue, Wait};
use crate::source::{Found, Span, Spanned};
use crate::table::{Fields, Scribe, parse};

/// Everything the front matter declares.
#[derive(Clone, Debug, Default)]
pub struct Declarations {
    /// The keys above the first table.
    pub header: Option<Header>,
    /// `[roles]`
    pub roles: Vec<Entry<WrittenRole>>,
    /// `[tools]`
    pub tools: Vec<Entry<Tool>>,
    /// `[materials]`
    pub materials: Vec<Entry<WrittenSupply>>,
    /// `[parts]`
    pub parts: Vec<Entry<WrittenSupply>>,
    /// `[vehicle]`
    pub vehicle: Vec<Entry<VehicleValue>>,
    /// `[hazards]`
    pub hazards: Vec<Entry<Hazard>>,
    /// `[holds]`
    pub holds: Vec<Entry<WrittenHold>>,
    /// `[readings]`
    pub readings: Vec<Entry<WrittenReading>>,
    /// `[values]`
    pub values: Vec<Entry<WrittenValue>>,
    /// `[conditions]`
    pub conditions: Vec<Entry<WrittenCondition>>,
    /// `[waits]`
    pub waits: Vec<Entry<Wait>>,
    /// `[repeats]`
    pub repeats: Vec<Entry<WrittenRepeat>>,
    /// `[alternatives]`
    pub alternatives: Vec<Entry<String>>,
    /// `[levels]`
    pub levels: Vec<Entry<LevelOfUse>>,
    /// `[fasteners]`
    pub fasteners: Vec<Entry<WrittenFasteners>>,
    /// `[checks]`
    pub checks: Vec<Entry<WrittenCheck>>,
    /// `[witnesses]`
    pub witnesses: Vec<Entry<WrittenWitness>>,
    /// `[critical]`
    pub critical: Vec<Entry<WrittenCritical>>,
    /// `[watches]`
    pub watches: Vec<Entry<WrittenWatch>>,
    /// `[stopping_points]`
    pub stopping_points: Vec<Entry<String>>,
    /// `[steps]`
    pub steps: Vec<Entry<String>>,
    /// `[rules_off]`
    pub rules_off: Vec<WrittenRuleOff>,
    /// Numbers of steps in its texts.
    pub step_numbers: Vec<StepNumbers>,
}

impl Declarations {
    /// Every name, the table it stands in and where, in the order of the file.
    pub fn names(&self) -> Vec<(&Spanned<Name>, Table)> {
        let mut names = Vec::new();
        collect(&mut names, &self.roles, Table::Roles);
        collect(&mut names, &self.tools, Table::Tools);
        collect(&mut names, &self.materials, Table::Materials);
        collect(&mut names, &self.parts, Table::Parts);
        collect(&mut names, &self.vehicle, Table::Vehicle);
        collect(&mut names, &self.hazards, Table::Hazards);
        collect(&mut names, &self.holds, Table::Holds);
        collect(&mut names, &self.readings, Table::Readings);
        collect(&mut names, &self.values, Table::Values);
        collect(&mut names, &self.conditions, Table::Conditions);
        collect(&mut names, &self.waits, Table::Waits);
        collect(&mut names, &self.repeats, Table::Repeats);
        collect(&mut names, &self.alternatives, Table::Alternatives);
        collect(&mut names, &self.levels, Table::Levels);
        collect(&mut names, &self.fasteners, Table::Fasteners);
        collect(&mut names, &self.checks, Table::Checks);
        collect(&mut names, &self.witnesses, Table::Witnesses);
        collect(&mut names, &self.critical, Table::Critical);
        collect(&mut names, &self.watches, Table::Watches);
        collect(&mut names, &self.stopping_points, Table::StoppingPoints);
        collect(&mut names, &self.steps, Table::Steps);
        names.sort_by_key(|(name, _)| name.span);
        names
    }

    /// Whether everything that can speak of other names could be read: what could not may speak of any.
    pub fn all_read(&self) -> bool {
        are_read(&self.roles)
            && are_read(&self.materials)
            && are_read(&self.parts)
            && are_read(&self.holds)
            && are_read(&self.readings)
            && are_read(&self.values)
            && are_read(&self.conditions)
            && are_read(&self.repeats)
            && are_read(&self.fasteners)
            && are_read(&self.checks)
            && are_read(&self.witnesses)
            && are_read(&self.critical)
            && are_read(&self.watches)
    }
}

fn are_read<T>(entries: &[Entry<T>]) -> bool {
    entries.iter().all(|entry| entry.thing.is_some())
}

fn collect<'d, T>(names: &mut Vec<(&'d Spanned<Name>, Table)>, entries: &'d [Entry<T>], table: Table) {
    names.extend(entries.iter().map(|entry| (&entry.name, table)));
}

/// Reads the front matter at `front` of `text`; nothing when it is not TOML.
pub fn read(text: &str, front: Span) -> Found<Option<Declarations>> {
    let toml = text.get(front.start..front.end).unwrap_or_default();
    let mut scribe = Scribe::new(toml, front.start);
    let Some(table) = parse(&mut scribe) else {
        return Found { value: None, diagnostics: scribe.diagnostics };
    };
    let place = fence(text, front);
    let mut fields = Fields::new(&table, "the front matter", place, &mut scribe);
    let mut declarations = declarations(&mut fields);
    fields.finish();
    declarations.step_numbers = in_texts(&table, &scribe);
    Found { value: Some(declarations), diagnostics: scribe.diagnostics }
}

fn declarations(front: &mut Fields<'_, '_, '_>) -> Declarations {
    Declarations {
        header: header(front),
        roles: entries(front, Table::Roles, role),
        tools: entries_or_none(front, Table::Tools, tool),
        materials: entries_or_none(front, Table::Materials, supply),
        parts: entries_or_none(front, Table::Parts, supply),
        vehicle: entries(front, Table::Vehicle, vehicle_value),
        hazards: entries_or_none(front, Table::Hazards, hazard),
        holds: entries(front, Table::Holds, hold),
        readings: entries(front, Table::Readings, reading),
        values: entries(front, Table::Values, value),
        conditions: entries(front, Table::Conditions, condition),
        waits: entries(front, Table::Waits, wait),
        repeats: entries(front, Table::Repeats, repeat),
        alternatives: entries(front, Table::Alternatives, only_what),
        levels: entries(front, Table::Levels, level),
        fasteners: entries(front, Table::Fasteners, fasteners),
        checks: entries(front, Table::Checks, check),
        witnesses: entries(front, Table::Witnesses, witness),
        critical: entries(front, Table::Critical, critical),
        watches: entries(front, Table::Watches, watch),
        stopping_points: entries(front, Table::StoppingPoints, only_what),
        steps: entries(front, Table::Steps, only_what),
        rules_off: rules_off(front),
        step_numbers: Vec::new(),
    }
}

/// The numbers of steps that the texts of a table speak of, however deep.
fn in_texts(table: &DeTable<'_>, scribe: &Scribe<'_>) -> Vec<StepNumbers> {
    let mut waiting: Vec<&toml::Spanned<DeValue<'_>>> = table.values().collect();
    let mut found = Vec::new();
    while let Some(value) = waiting.pop() {
        match value.get_ref() {
            DeValue::String(_) => {
                let span = scribe.span(&value.span());
                found.extend(
                    step_numbers(scribe.raw(span)).into_iter().map(|number| number.shifted(span.start)),
                );
            }
            DeValue::Array(items) => waiting.extend(items.iter()),
            DeValue::Table(inner) => waiting.extend(inner.values()),
            _ => {}
        }
    }
    found
}

/// The `+++` line above the front matter: where messages about all of it point.
fn fence(text: &str, front: Span) -> Span {
    let start = text.get(..front.start).and_then(|before| before.rfind("+++"));
    start.map_or(Span::new(front.start, front.start), |start| Span::new(start, start + 3))
}
