//! What falls due after the job: it stands once its step is done, from that day and that odometer.

use std::fmt;

use jiff::Span;
use jiff::civil::Date;

use crate::formula::{Typed, Value};
use crate::procedure::{Due, Name};
use crate::quantity::{Num, Quantity, Unit};
use crate::run::stamp::Stamp;
use crate::run::view::View;
use crate::vehicle::Sheet;

/// The distance in a month, in a vehicle sheet.
const USE: &str = "use_per_month";

/// When something falls due.
#[derive(Clone, Debug, PartialEq)]
pub struct DueAt<'run> {
    /// Its name in the procedure.
    pub name: &'run Name,
    /// What is to be done then.
    pub what: &'run str,
    /// The entry with which its step was done; none while it is not: then it is reckoned from now.
    pub set: Option<Stamp>,
    /// The day from which it is reckoned.
    pub since: Date,
    /// The day by the calendar.
    pub by_calendar: Option<Date>,
    /// The odometer.
    pub at: Option<Quantity>,
    /// The day on which the odometer may show that, where the sheet says how far the vehicle goes in a month; only where
    /// it is the first.
    pub estimate: Option<(Date, Quantity)>,
    /// Whether something of it could not be worked out.
    pub is_unknown: bool,
}

/// `due 2027-12-20 or at 152340 km, whichever comes first`.
impl fmt::Display for DueAt<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (&self.by_calendar, &self.at) {
            (Some(day), Some(at)) => write!(out, "due {day} or at {at}, whichever comes first")?,
            (Some(day), None) => write!(out, "due {day}")?,
            (None, Some(at)) => write!(out, "due at {at}")?,
            (None, None) => out.write_str("due, but when is not known")?,
        }
        if self.is_unknown && (self.by_calendar.is_some() || self.at.is_some()) {
            out.write_str("; not all of it could be worked out")?;
        }
        match &self.estimate {
            Some((day, pace)) => write!(out, "; by distance about {day}, an estimate from {pace} a month"),
            None => Ok(()),
        }
    }
}

impl<'run> View<'run> {
    /// What falls due, in the order of the file, as far as the steps that set it are done.
    pub fn dues(self) -> Vec<DueAt<'run>> {
        let all = self.book.procedure.dues().names().filter_map(|name| self.due(name));
        all.filter(|due| due.set.is_some()).collect()
    }

    /// When something falls due; where its step is not done, as if it were done now.
    pub fn due(self, name: &Name) -> Option<DueAt<'run>> {
        let (name, due) = self.book.procedure.dues().iter().find(|(own, _)| *own == name)?;
        let step = self.book.procedure.step(self.home(name)?)?;
        let set = self.completed(step);
        let day = set.as_ref().map_or_else(
            || self.now.date(),
            |stamp| {
                let stated = self.state.times.stated.get(&stamp.seq);
                stated.map_or_else(|| stamp.at.date(), |stated| stated.done.date())
            },
        );
        Some(Reckoning { view: self.at_home(name), due }.at(name, set, day))
    }
}

/// A due with what is known where its step stands.
struct Reckoning<'run> {
    view: View<'run>,
    due: &'run Due,
}

impl<'run> Reckoning<'run> {
    fn at(&self, name: &'run Name, set: Option<Stamp>, day: Date) -> DueAt<'run> {
        let due = self.due;
        let gone = self.worth(due.gone.as_ref()).map(|gone| in_days(&gone));
        // Without the time that is gone nothing can be reckoned by time.
        let since = match gone {
            Some(gone) => gone.and_then(|gone| day.checked_sub(gone).ok()),
            None => Some(day).filter(|_| due.gone.is_none()),
        };
        let by_calendar = since.and_then(|since| self.by_calendar(since));
        let distance = self.worth(due.distance.as_ref());
        let at = distance.as_ref().and_then(|distance| self.odometer_after(distance));
        let sheet = self.view.book.sheet.as_ref();
        let estimate = distance.zip(sheet).and_then(|(distance, sheet)| estimate(since?, &distance, sheet));
        let is_first = |day: &Date| by_calendar.is_none_or(|by_calendar| *day < by_calendar);
        let has_calendar = due.months.is_some() || due.days.is_some();
        DueAt {
            name,
            what: &due.what,
            set,
            since: since.unwrap_or(day),
            is_unknown: (has_calendar && by_calendar.is_none()) || (due.distance.is_some() && at.is_none()),
            by_calendar,
            estimate: estimate.filter(|(day, _)| at.is_some() && is_first(day)),
            at,
        }
    }

    fn worth(&self, formula: Option<&Typed>) -> Option<Quantity> {
        match formula?.evaluate(&self.view.known()) {
            Ok(Value::Quantity(quantity)) => Some(quantity),
            _ => None,
        }
    }

    /// The earlier day, where months and days are given; where one of them is not known, none.
    fn by_calendar(&self, since: Date) -> Option<Date> {
        let count = |formula: Option<&Typed>| formula.map(|formula| whole(self.worth(Some(formula))?.base()));
        let months = count(self.due.months.as_ref());
        let months = months.map(|months| since.checked_add(Span::new().try_months(months?).ok()?).ok());
        let days = count(self.due.days.as_ref());
        let days = days.map(|days| since.checked_add(Span::new().try_days(days?).ok()?).ok());
        let both: Vec<Option<Date>> = months.into_iter().chain(days).collect();
        both.into_iter().collect::<Option<Vec<Date>>>()?.into_iter().min()
    }

    /// What the odometer shows then, in the unit that it counts in, whole: the last one that is not too late.
    fn odometer_after(&self, distance: &Quantity) -> Option<Quantity> {
        let unit = self.view.book.odometer_unit();
        let from = self.worth(self.due.odometer.as_ref())?.in_unit(&unit).ok()?;
        let number = from.number + distance.in_unit(&unit).ok()?.number;
        Some(Quantity::new(number.floor(), unit))
    }
}

/// A whole number of days: what has not gone whole has not gone.
fn in_days(time: &Quantity) -> Option<Span> {
    let days = whole(time.in_unit(&Unit::parse("d").ok()?).ok()?.number)?;
    Span::new().try_days(days).ok()
}

fn whole(number: Num) -> Option<i64> {
    number.floor().with_places(0).parse().ok()
}

/// The day on which a distance may be driven, and the pace that it is reckoned with. A month is a twelfth of 365.25 d.
fn estimate(day: Date, distance: &Quantity, sheet: &Sheet) -> Option<(Date, Quantity)> {
    let pace = sheet.value(USE)?.quantity.clone()?;
    let months = distance.in_unit(&pace.unit).ok()?.number.checked_div(pace.number)?;
    let days = months * Num::ratio(36_525, 1200)?;
    let span = Span::new().try_days(whole(days).filter(|days| *days >= 0)?).ok()?;
    Some((day.checked_add(span).ok()?, pace))
}
