//! Calibrated instruments: which one it is, and whether its calibration is still good on the day.

use std::cmp::Ordering;

use jiff::civil::Date;

use crate::procedure::{Name, Reading, Tool};
use crate::quantity::Quantity;
use crate::run::answered::Disposition;
use crate::run::apply::Next;
use crate::run::book::Book;
use crate::run::particulars::event::{ParticularAsk, ParticularEvent};
use crate::run::particulars::facts::Instrument;
use crate::run::prompt::Ask;
use crate::run::refusal::Refusal;
use crate::run::typed::filled;
use crate::run::view::View;
use crate::run::work::deviation::Departure;

/// The instrument that the person names, at any time.
pub(in crate::run) fn name(
    view: View<'_>,
    tool: Name,
    identity: String,
    due: &str,
) -> Result<ParticularEvent, Refusal> {
    if !view.book.procedure.tool(&tool).is_some_and(|tool| tool.calibrated) {
        return Err(Refusal::NotCalibrated { tool: tool.to_string() });
    }
    let due = due.trim().parse().map_err(|_| Refusal::NotADate(due.trim().to_owned()))?;
    Ok(ParticularEvent::Instrument {
        tool,
        identity: filled("the identity of the instrument", identity)?,
        due,
    })
}

pub(in crate::run) fn accept_overdue(
    tool: &Name,
    disposition: Disposition,
    reason: String,
) -> Result<ParticularEvent, Refusal> {
    let reason = filled("the reason", reason)?;
    Ok(ParticularEvent::OverdueAccepted { tool: tool.clone(), disposition, reason })
}

impl<'run> View<'run> {
    /// The instrument that stands for a tool now.
    pub fn instrument(self, tool: &Name) -> Option<&'run Instrument> {
        self.state.particulars.instruments.get(tool)?.last()
    }

    /// What has to be known of the instrument of a reading before it is taken.
    pub(in crate::run) fn ask_instrument_of(self, reading: &Name) -> Option<Ask> {
        self.ask_instrument(self.book.procedure.reading(reading)?.instrument.as_ref()?)
    }

    /// What has to be known of a tool before it is used: each day anew where it is calibrated.
    pub(in crate::run) fn ask_instrument(self, tool: &Name) -> Option<Ask> {
        if !self.book.procedure.tool(tool)?.calibrated {
            return None;
        }
        let today = self.now.date();
        let ask = match self.instrument(tool) {
            Some(named) if named.stamp.at.date() == today => {
                let is_good = named.due >= today || named.accepted.is_some();
                (!is_good).then(|| ParticularAsk::Overdue(tool.clone()))?
            }
            _ => ParticularAsk::Instrument(tool.clone()),
        };
        Some(Ask::Particular(ask))
    }
}

impl Next<'_> {
    pub(in crate::run) fn name_instrument(&mut self, tool: &Name, identity: &str, due: Date) {
        let identity = identity.to_owned();
        let instrument = Instrument { identity, due, stamp: self.stamp.clone(), accepted: None };
        self.state.particulars.instruments.entry(tool.clone()).or_default().push(instrument);
    }

    pub(in crate::run) fn use_overdue(&mut self, tool: &Name, disposition: Disposition, reason: &str) {
        let deviation = self.depart(Departure::Overdue(tool.clone()), reason, Some(disposition));
        let instruments = self.state.particulars.instruments.get_mut(tool);
        if let Some(instrument) = instruments.and_then(|instruments| instruments.last_mut()) {
            instrument.accepted = Some(deviation);
        }
    }
}

impl Book {
    /// Why a result lies where its instrument does not read; none where it does.
    pub(in crate::run) fn out_of_range(&self, reading: &Reading, result: &Quantity) -> Option<String> {
        let tool = self.procedure.tool(reading.instrument.as_ref()?)?;
        let (low, high) = tool.range.as_ref()?;
        let under = result.compare(low) == Ok(Ordering::Less);
        let over = result.compare(high) == Ok(Ordering::Greater);
        (under || over).then(|| outside(tool, low, high))
    }
}

fn outside(tool: &Tool, low: &Quantity, high: &Quantity) -> String {
    format!("outside the range of the {} ({low} to {high})", tool.what)
}
