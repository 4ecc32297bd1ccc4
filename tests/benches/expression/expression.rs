//! What a formula costs to work out once it is proved, as a ratio to general expression crates that parse the same once
//! and work it out as often: one that knows texts and truths as ours do, and one that knows `f64` alone.
//!
//! `cargo bench --manifest-path tests/benches/expression/Cargo.toml --target-dir target/expression`; the ratios, not the
//! times, can be compared between machines.

#[path = "../table.rs"]
#[allow(dead_code, reason = "it has no two times to compare")]
mod table;

use std::collections::BTreeMap;
use std::error::Error;
use std::hint::black_box;
use std::time::{Duration, Instant};

use bayhand::formula::{Formula, Scope, Type, Typed, Value, World};
use bayhand::quantity::parse_literal;
use evalexpr::{ContextWithMutableVariables, HashMapContext, Node};
use exmex::{Express, FlatEx};

const ROUNDS: usize = 200;
const TIMES: u32 = 1_000;

/// A formula: as ours has it, as the general crate has it, and as numbers alone have it, where they can.
struct Row {
    what: &'static str,
    ours: &'static str,
    general: &'static str,
    numbers: Option<&'static str>,
}

const ROWS: [Row; 8] = [
    Row {
        what: "plain numbers",
        ours: "(a + b) * c / 2 - d",
        general: "(a + b) * c / 2.0 - d",
        numbers: Some("(a + b) * c / 2 - d"),
    },
    Row {
        what: "a longer one",
        ours: "(a - b) / (c + d) * 100 + a * b - c / d + (a + b + c + d) / 4",
        general: "(a - b) / (c + d) * 100.0 + a * b - c / d + (a + b + c + d) / 4.0",
        numbers: Some("(a - b) / (c + d) * 100 + a * b - c / d + (a + b + c + d) / 4"),
    },
    Row { what: "twice a voltage", ours: "2 * v", general: "2.0 * v", numbers: Some("2 * v") },
    Row {
        what: "a sum of volumes in two units",
        ours: "caught + spilled - poured",
        general: "caught + spilled - poured",
        numbers: Some("caught + spilled - poured"),
    },
    Row {
        what: "a flow, volume through time",
        ours: "(caught + spilled) / took",
        general: "(caught + spilled) / took",
        numbers: Some("(caught + spilled) / took"),
    },
    Row {
        what: "a share of two volumes",
        ours: "(caught - poured) / poured in %",
        general: "(caught - poured) / poured",
        numbers: Some("(caught - poured) / poured"),
    },
    Row {
        what: "a condition with words",
        ours: "look == \"milky\" or (look == \"clear\" and v > 26 V)",
        general: "look == \"milky\" || (look == \"clear\" && v > 26.0)",
        numbers: None,
    },
    Row {
        what: "the larger of two, chosen",
        ours: "max(v, w) > 26 V and min(v, w) >= 11.5 V",
        general: "max(v, w) > 26.0 && min(v, w) >= 11.5",
        numbers: None,
    },
];

/// The names: what each is, and the same as a plain number in coherent base units.
const NAMES: [(&str, &str, f64); 10] = [
    ("a", "12.5", 12.5),
    ("b", "7.25", 7.25),
    ("c", "3", 3.0),
    ("d", "0.4", 0.4),
    ("v", "26.4 V", 26.4),
    ("w", "11.9 V", 11.9),
    ("caught", "1.75 qt", 1.656_117_655_5e-3),
    ("spilled", "120 mL", 1.2e-4),
    ("poured", "1.5 L", 1.5e-3),
    ("took", "20 s", 20.0),
];

struct Names(BTreeMap<String, Value>);

impl Names {
    fn new() -> Self {
        let known = NAMES.iter().filter_map(|(name, value, _)| {
            Some(((*name).to_owned(), Value::Quantity(parse_literal(value).ok()?)))
        });
        let look = ("look".to_owned(), Value::Text("clear".to_owned()));
        Self(known.chain([look]).collect())
    }
}

impl Scope for Names {
    fn type_of(&self, name: &str) -> Option<Type> {
        self.0.get(name).map(|value| match value {
            Value::Quantity(quantity) => Type::of(&quantity.unit),
            Value::Truth(_) => Type::Truth,
            Value::Text(_) | Value::Instead(_) => Type::Text,
        })
    }

    fn names(&self) -> Vec<String> {
        self.0.keys().cloned().collect()
    }
}

impl World for Names {
    fn value_of(&self, name: &str) -> Option<Value> {
        self.0.get(name).cloned()
    }
}

fn main() -> Result<(), Box<dyn Error>> {
    let (names, context) = (Names::new(), context()?);
    let (mut product, mut rows) = (1.0, 0);
    for row in ROWS {
        let (ours, general) = (proved(row.ours, &names)?, evalexpr::build_operator_tree(row.general)?);
        let numbers = row.numbers.map(FlatEx::<f64>::parse).transpose()?;
        agree(&row, &ours, &general, numbers.as_ref(), (&names, &context))?;
        let times = by_turns(&ours, &general, numbers.as_ref(), (&names, &context));
        let ratio = |of: Duration| times.ours.as_secs_f64() / of.as_secs_f64();
        let bare = times.numbers.map_or("-".to_owned(), |numbers| format!("{:.1}", ratio(numbers)));
        table::row(
            &format!("formula: {} / general crate (/ `f64` alone)", row.what),
            &format!("{:.2} ({bare})", ratio(times.general)),
            "",
        );
        (product, rows) = (product * ratio(times.general), rows + 1);
    }
    let mean = product.powf(1.0 / f64::from(rows));
    table::row("formula / a general expression crate, geometric mean of these", &format!("{mean:.2}"), "2");
    Ok(())
}

fn context() -> Result<HashMapContext, Box<dyn Error>> {
    let mut context = HashMapContext::new();
    for (name, _, number) in NAMES {
        context.set_value(name.to_owned(), evalexpr::Value::Float(number))?;
    }
    context.set_value("look".to_owned(), evalexpr::Value::String("clear".to_owned()))?;
    Ok(context)
}

fn proved(text: &str, names: &Names) -> Result<Typed, Box<dyn Error>> {
    let formula = Formula::parse(text, 0).map_err(|_| format!("`{text}` is no formula"))?;
    formula.check(names).map_err(|mistakes| format!("`{text}`: {}", mistakes[0].message).into())
}

/// All mean the same: else a ratio would say nothing.
fn agree(
    row: &Row,
    ours: &Typed,
    general: &Node,
    numbers: Option<&FlatEx<f64>>,
    (names, context): (&Names, &HashMapContext),
) -> Result<(), Box<dyn Error>> {
    let same = |one: f64, other: f64| (one - other).abs() <= other.abs() * 1e-9;
    let agrees = match (ours.evaluate(names), general.eval_with_context(context)?) {
        (Ok(Value::Quantity(quantity)), evalexpr::Value::Float(number)) => {
            let numbers = numbers.map(|numbers| numbers.eval(&slots(numbers))).transpose()?;
            same(quantity.base().to_f64(), number) && numbers.is_none_or(|numbers| same(numbers, number))
        }
        (Ok(Value::Truth(truth)), evalexpr::Value::Boolean(other)) => truth == other,
        _ => false,
    };
    if agrees { Ok(()) } else { Err(format!("{}: they do not agree", row.what).into()) }
}

fn slots(numbers: &FlatEx<f64>) -> Vec<f64> {
    let number = |wanted: &String| NAMES.iter().find(|(name, ..)| name == wanted).map_or(0.0, |name| name.2);
    numbers.var_names().iter().map(number).collect()
}

/// The fastest of each, for one working out.
struct Times {
    ours: Duration,
    general: Duration,
    numbers: Option<Duration>,
}

/// By turns, so that whatever else the machine does meets all alike.
fn by_turns(
    ours: &Typed,
    general: &Node,
    numbers: Option<&FlatEx<f64>>,
    (names, context): (&Names, &HashMapContext),
) -> Times {
    let slots = numbers.map(slots).unwrap_or_default();
    let mut times = Times { ours: Duration::MAX, general: Duration::MAX, numbers: None };
    for _ in 0..ROUNDS {
        times.ours = times.ours.min(each(|| drop(black_box(ours.evaluate(names)))));
        times.general = times.general.min(each(|| drop(black_box(general.eval_with_context(context)))));
        if let Some(numbers) = numbers {
            let took = each(|| drop(black_box(numbers.eval(black_box(&slots)))));
            times.numbers = Some(times.numbers.map_or(took, |before| before.min(took)));
        }
    }
    times
}

fn each(work: impl Fn()) -> Duration {
    let started = Instant::now();
    (0..TIMES).for_each(|_| work());
    started.elapsed() / TIMES
}
