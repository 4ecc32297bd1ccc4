//! `bayhand calc --units`: every unit there is, by what it measures.

use serde::Serialize;

use crate::quantity::{Dimension, Kind, Row, Unit, units};

#[derive(Serialize)]
struct Measured {
    measures: String,
    units: Vec<Listed>,
}

#[derive(Serialize)]
struct Listed {
    symbol: &'static str,
    name: &'static str,
    also: &'static [&'static str],
}

/// One line a unit, however long: a list is searched by line.
pub(super) fn list() -> String {
    let unit = |unit: &Listed| {
        let also =
            if unit.also.is_empty() { String::new() } else { format!(" (also {})", unit.also.join(", ")) };
        format!("  {}: {}{also}\n", unit.symbol, unit.name)
    };
    let all = by_dimension();
    let table = all.iter().map(|measured| {
        format!("{}\n{}", measured.measures, measured.units.iter().map(unit).collect::<String>())
    });
    table.collect::<String>() + COMPOSED
}

/// How units are put together, which no table can list.
const COMPOSED: &str = "\
Put together
  L/min, N·m, kg/m³, in²: any of these with `/`, `·` (or `*`, `-`) and powers, without spaces
  1: a plain number, where a file asks for a unit
";

/// The same as data.
pub(super) fn data() -> String {
    serde_json::to_string_pretty(&by_dimension()).map(|json| json + "\n").unwrap_or_default()
}

/// The units of each dimension together, in the order of the table.
fn by_dimension() -> Vec<Measured> {
    let mut order: Vec<(Dimension, Kind)> = Vec::new();
    for (_, unit) in units() {
        let measures = (unit.dimension(), unit.kind());
        if !order.contains(&measures) {
            order.push(measures);
        }
    }
    order.into_iter().map(measured).collect()
}

fn measured((dimension, kind): (Dimension, Kind)) -> Measured {
    let listed = |(row, _): &(Row, Unit)| Listed { symbol: row.symbol, name: row.name, also: row.aliases };
    let alike = units().iter().filter(|(_, unit)| (unit.dimension(), unit.kind()) == (dimension, kind));
    let measures = match (dimension == Dimension::TEMPERATURE, kind) {
        (true, Kind::Difference) => "temperature difference".to_owned(),
        _ => dimension.name(),
    };
    Measured { measures, units: alike.map(listed).collect() }
}
