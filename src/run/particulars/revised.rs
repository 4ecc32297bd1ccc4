//! The odometer and values of the vehicle that were entered wrongly. What was said before is kept.

use crate::procedure::Name;
use crate::quantity::Entry;
use crate::run::answered::Answered;
use crate::run::apply::Next;
use crate::run::book::Book;
use crate::run::event::Event;
use crate::run::particulars::event::ParticularEvent;
use crate::run::particulars::facts::Replaced;
use crate::run::readings::entry;
use crate::run::refusal::Refusal;
use crate::run::state::State;
use crate::run::typed::filled;
use crate::run::view::View;
use crate::run::work::taken::Given;

/// Where a value was found, and why the one before was wrong.
pub(in crate::run) struct Why {
    pub(in crate::run) source: String,
    pub(in crate::run) reason: String,
}

pub(in crate::run) fn odometer(
    view: View<'_>,
    text: &str,
    reason: String,
) -> Result<ParticularEvent, Refusal> {
    if view.state.odometer.is_none() {
        return Err(Refusal::NeverTaken { reading: "the odometer".to_owned() });
    }
    match entry::odometer(view, text)? {
        Event::OdometerRead(value) => {
            Ok(ParticularEvent::OdometerCorrected { value, reason: filled("the reason", reason)? })
        }
        _ => Err(Refusal::NotOffered),
    }
}

pub(in crate::run) fn vehicle_value(
    view: View<'_>,
    name: Name,
    text: &str,
    why: Why,
) -> Result<ParticularEvent, Refusal> {
    if view.vehicle_value(&name).is_none() {
        let what = view.book.procedure.called(&name);
        return Err(Refusal::NeverTaken { reading: what.to_owned() });
    }
    match entry::vehicle_value(view, name, text, why.source)? {
        Event::VehicleValueGiven { name, value, source } => {
            let reason = filled("the reason", why.reason)?;
            Ok(ParticularEvent::VehicleValueCorrected { name, value, source, reason })
        }
        _ => Err(Refusal::NotOffered),
    }
}

impl View<'_> {
    /// A value of the vehicle as it stands, and where it was found: entered, else from the sheet.
    pub fn vehicle_value(self, name: &Name) -> Option<(Answered, String)> {
        vehicle_value_of(self.book, self.state, name)
    }
}

fn vehicle_value_of(book: &Book, state: &State, name: &Name) -> Option<(Answered, String)> {
    book.procedure.vehicle().get(name)?;
    if let Some(given) = state.vehicle.get(name) {
        return Some((given.value.clone(), given.source.clone()));
    }
    let entry = book.sheet.as_ref()?.value(name.as_str())?;
    Some((Answered::Text(entry.text.clone()), entry.source.clone()))
}

impl Next<'_> {
    pub(in crate::run) fn correct_odometer(&mut self, value: &Entry, reason: &str) {
        if let Some(before) = self.state.odometer.replace(value.clone()) {
            let replaced = self.replaced(Answered::Quantity(before), None, reason);
            self.state.particulars.odometer.push(replaced);
        }
    }

    pub(in crate::run) fn correct_vehicle_value(&mut self, name: &Name, value: &Answered, why: &Why) {
        if let Some((before, source)) = vehicle_value_of(self.book, self.state, name) {
            let replaced = self.replaced(before, Some(source), &why.reason);
            self.state.particulars.vehicle.entry(name.clone()).or_default().push(replaced);
        }
        let (value, source) = (value.clone(), why.source.clone());
        self.state.vehicle.insert(name.clone(), Given { value, source, stamp: self.stamp.clone() });
        self.revise(&why.reason);
    }

    fn replaced(&self, value: Answered, source: Option<String>, reason: &str) -> Replaced {
        Replaced { value, source, reason: reason.to_owned(), stamp: self.stamp.clone() }
    }
}
