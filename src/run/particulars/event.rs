//! What can happen, be asked and be answered about particulars.

use jiff::civil::Date;

use crate::procedure::{Name, StepId};
use crate::quantity::Entry;
use crate::run::answered::{Answered, Disposition, KeptFile};

/// What can happen.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum ParticularEvent {
    /// Which instrument stands for a tool, and when its calibration comes due.
    Instrument { tool: Name, identity: String, due: Date },
    /// An instrument is used although its calibration is overdue.
    OverdueAccepted { tool: Name, disposition: Disposition, reason: String },
    /// What a critical act asks for was typed.
    Typed { step: StepId, act: Name, text: String },
    /// The odometer was entered wrongly; this is what it was.
    OdometerCorrected { value: Entry, reason: String },
    /// A value of the vehicle is not what was entered, or what the sheet says.
    VehicleValueCorrected { name: Name, value: Answered, source: String, reason: String },
}

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub enum ParticularAsk {
    /// Which instrument is it, and when does its calibration come due?
    Instrument(Name),
    /// The calibration of this instrument is overdue: what now?
    Overdue(Name),
    /// What does this critical act ask for?
    Critical(Name),
}

/// What is answered.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum ParticularAnswer {
    /// This instrument, due on this day. Can be said at any time.
    Instrument { tool: Name, identity: String, due: String },
    /// What was typed before a critical act.
    Typed(String),
    /// This file, for a reading that asks for one.
    File(KeptFile),
    /// Another file than the one given before.
    CorrectFile { reading: Name, entry: Option<u64>, file: KeptFile, reason: String },
    /// What the odometer shows; told once, at any time, whether it is asked for or not.
    Odometer(String),
    /// The odometer was entered wrongly.
    CorrectOdometer { text: String, reason: String },
    /// A value of the vehicle is another.
    CorrectVehicleValue { name: Name, text: String, source: String, reason: String },
}
