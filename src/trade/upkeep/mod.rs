//! Money and time: what the job costs, what is used up, and when the next service is due. Money is exact.

mod bill;
mod calendar;
mod consumption;
mod service;

use crate::trade::Subject;

pub use bill::{Job, total};
pub use calendar::date_plus_months;
pub use consumption::consumption;
pub use service::{first_due, service_left, time_to_service};

/// The functions about money and time.
pub const MONEY_AND_TIME: Subject = Subject {
    name: "money and time",
    functions: &[
        bill::JOB_COST,
        bill::TOTAL,
        consumption::CONSUMPTION,
        calendar::DATE_PLUS_MONTHS,
        service::SERVICE_LEFT,
        service::TIME_TO_SERVICE,
        service::FIRST_DUE,
    ],
};
