//! The rules of the operators that join two parts.

use super::Type;
use super::check::Checker;
use super::codes::{FORMULA_SYNTAX, TEMPERATURE_SCALE, TYPE_MISMATCH, UNIT_MISMATCH};
use super::proof::{Proved, Step};
use super::tree::{Binary, Operator};
use crate::quantity::{Dimension, Kind};
use crate::source::{Code, Diagnostic};

/// A dimension cannot be raised further than this.
const HIGHEST_POWER: i64 = 9;

impl Checker<'_> {
    pub(super) fn binary(&mut self, binary: &Binary) -> Option<(Step, Type)> {
        let (left, right) = (self.prove(&binary.left), self.prove(&binary.right));
        let (left, right) = (left?, right?);
        let operator = binary.operator.value;
        if let Some((of, text, unequal)) = self.asked_instead(operator, &left, &right) {
            return self.is_instead(of, text, unequal);
        }
        let gives = match operator {
            Operator::Add => self.sum(&left, &right),
            Operator::Subtract => self.difference(&left, &right),
            Operator::Multiply => self.product(&left, &right, Dimension::checked_mul),
            Operator::Divide => self.product(&left, &right, Dimension::checked_div),
            Operator::Power => self.power(&left, &right),
            Operator::Compare(comparison) => self.comparison(comparison, &left, &right),
            Operator::And | Operator::Or => self.both_truths(operator, &left, &right),
        }?;
        Some((Step::Binary { operator, sides: Box::new((left, right)) }, gives))
    }

    fn sum(&mut self, left: &Proved, right: &Proved) -> Option<Type> {
        let (kinds, dimension) = self.same_dimension("cannot add these", left, right)?;
        let kind = match kinds {
            (Kind::Point, Kind::Point) => return self.two_points(left, right),
            (Kind::Difference, Kind::Difference) => Kind::Difference,
            _ => Kind::Point,
        };
        Some(Type::Quantity { dimension, kind })
    }

    fn difference(&mut self, left: &Proved, right: &Proved) -> Option<Type> {
        let (kinds, dimension) = self.same_dimension("cannot subtract these", left, right)?;
        let kind = match kinds {
            (Kind::Difference, Kind::Point) => return self.point_from_difference(left, right),
            (Kind::Point, Kind::Difference) => Kind::Point,
            _ => Kind::Difference,
        };
        Some(Type::Quantity { dimension, kind })
    }

    fn two_points(&mut self, left: &Proved, right: &Proved) -> Option<Type> {
        let place = left.gives.place();
        let mistake = Diagnostic::error(code_of(left), format!("two {place}s cannot be added"))
            .at(right.span, format!("this is a {place} too"))
            .also(left.span, format!("this is a {place}"));
        let mistake =
            mistake.note(format!("a {place} plus a difference is a {place}; two {place}s have a mean"));
        let mistake = with_difference(mistake, right);
        self.wrong(mistake)
    }

    fn point_from_difference(&mut self, left: &Proved, right: &Proved) -> Option<Type> {
        let place = right.gives.place();
        let mistake =
            Diagnostic::error(code_of(right), format!("a {place} cannot be taken from a difference"))
                .at(right.span, format!("this is a {place}"))
                .also(left.span, format!("this is {}", left.gives));
        let mistake = with_difference(mistake, right);
        self.wrong(mistake)
    }

    /// The kinds and the one dimension of two quantities.
    pub(super) fn same_dimension(
        &mut self,
        message: &str,
        left: &Proved,
        right: &Proved,
    ) -> Option<((Kind, Kind), Dimension)> {
        let (Type::Quantity { dimension, kind }, Type::Quantity { dimension: other, kind: other_kind }) =
            (left.gives, right.gives)
        else {
            let mistake = self.different(message, left, right);
            return self.wrong(mistake);
        };
        if dimension != other {
            let mistake = self.different(message, left, right);
            return self.wrong(mistake);
        }
        Some(((kind, other_kind), dimension))
    }

    /// Two parts that do not go together, each with what it is.
    pub(super) fn different(&self, message: &str, left: &Proved, right: &Proved) -> Diagnostic {
        let both_quantities = [left, right].iter().all(|part| matches!(part.gives, Type::Quantity { .. }));
        let code = if both_quantities { &UNIT_MISMATCH } else { &TYPE_MISMATCH };
        let mistake = Diagnostic::error(code, message)
            .at(left.span, format!("this is {}", left.gives))
            .at(right.span, format!("this is {}", right.gives));
        let mistake = self.with_declaration(self.with_declaration(mistake, left), right);
        let plain = [left, right].into_iter().find(|part| is_plain_number(part));
        match plain {
            Some(_) if both_quantities => mistake.help("give the plain number a unit"),
            _ => mistake,
        }
    }

    fn product(
        &mut self,
        left: &Proved,
        right: &Proved,
        joined: fn(Dimension, Dimension) -> Option<Dimension>,
    ) -> Option<Type> {
        let message = "only amounts can be multiplied or divided";
        let (left_good, right_good) = (self.amount(left, message), self.amount(right, message));
        left_good?;
        right_good?;
        match (left.gives, right.gives) {
            (Type::Quantity { dimension, .. }, Type::Quantity { dimension: other, .. }) => {
                match joined(dimension, other) {
                    Some(dimension) => Some(Type::amount(dimension)),
                    None => self.too_high(right),
                }
            }
            _ => None,
        }
    }

    fn too_high(&mut self, part: &Proved) -> Option<Type> {
        let mistake = Diagnostic::error(&UNIT_MISMATCH, "this power of a unit has no meaning")
            .at(part.span, "with this the power becomes too high");
        self.wrong(mistake)
    }

    /// A plain number to any whole power; a quantity to a small one that is written out.
    fn power(&mut self, base: &Proved, exponent: &Proved) -> Option<Type> {
        let base_good = self.amount(base, "only amounts can be raised to a power");
        let exponent_good = self.quantity(exponent, "an exponent is a plain whole number");
        base_good?;
        exponent_good?;
        if exponent.gives != Type::NUMBER {
            let mistake = Diagnostic::error(&UNIT_MISMATCH, "an exponent is a plain whole number")
                .at(exponent.span, format!("this is {}", exponent.gives));
            return self.wrong(mistake);
        }
        match base.gives {
            Type::Quantity { dimension, .. } if dimension != Dimension::NONE => {
                self.power_of_unit(dimension, exponent)
            }
            gives => Some(gives),
        }
    }

    fn power_of_unit(&mut self, dimension: Dimension, exponent: &Proved) -> Option<Type> {
        let whole = (-HIGHEST_POWER..=HIGHEST_POWER).find(|whole| is_number(exponent, *whole));
        let powered = whole.and_then(|whole| dimension.checked_powi(whole));
        if let Some(dimension) = powered {
            return Some(Type::amount(dimension));
        }
        let mistake =
            Diagnostic::error(&FORMULA_SYNTAX, "the power of a quantity must be a small whole number")
                .at(exponent.span, format!("write a whole number from -{HIGHEST_POWER} to {HIGHEST_POWER}"))
                .note("otherwise the unit of the result would not be known");
        self.wrong(mistake.help("for a square root write `sqrt(...)`"))
    }

    fn both_truths(&mut self, operator: Operator, left: &Proved, right: &Proved) -> Option<Type> {
        let message = match operator {
            Operator::And => "`and` joins what is true or false",
            _ => "`or` joins what is true or false",
        };
        let (left_good, right_good) = (self.truth(left, message), self.truth(right, message));
        left_good?;
        right_good?;
        Some(Type::Truth)
    }
}

fn is_plain_number(part: &Proved) -> bool {
    matches!(part.step, Step::Number(_)) && part.gives == Type::NUMBER
}

fn is_number(part: &Proved, whole: i64) -> bool {
    matches!(&part.step, Step::Number(quantity) if quantity.base() == whole.into())
}

/// The code for what is wrong with a place on a scale.
pub(super) fn code_of(part: &Proved) -> &'static Code {
    if part.gives == Type::DATE { &UNIT_MISMATCH } else { &TEMPERATURE_SCALE }
}

/// The help for a literal temperature that was meant as a difference.
pub(super) fn with_difference(mistake: Diagnostic, part: &Proved) -> Diagnostic {
    if part.gives == Type::DATE {
        return mistake
            .help("a length of time is written in `d`, `wk` or `h`; two dates have a difference in days");
    }
    let Step::Number(quantity) = &part.step else {
        return mistake.help("a difference of temperatures is written in `K`, `Δ°C` or `Δ°F`");
    };
    let unit = quantity.unit.as_difference();
    let meant = format!("{} {}", quantity.number.shown(), unit.symbol());
    mistake.help(format!("if a difference is meant, write `{meant}`")).replace(part.span, meant)
}
