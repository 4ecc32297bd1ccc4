//! What was read over time as SVG: a disc for what passes or has no limit, a cross for what fails, dashes for limits.

use super::super::{Dot, Plot};
use super::strokes::{cross, label, line};
use super::writer::Writer;

pub(super) const WIDTH: u32 = 400;
pub(super) const HEIGHT: u32 = 260;
/// The field that is drawn in.
const LEFT: f64 = 78.0;
const RIGHT: f64 = 388.0;
const TOP: f64 = 26.0;
const BOTTOM: f64 = 206.0;
/// With more than these, the values are left to the table.
const MOST_LABELS: usize = 8;
/// Two values nearer than this to each other would be written over each other.
const NEAR: f64 = 60.0;
const LETTER: f64 = 13.0;

pub(super) fn write(out: &mut Writer, plot: &Plot) {
    let (low, high) = plot.range();
    let x_of = |at: f64| LEFT + 14.0 + at.clamp(0.0, 1.0) * (RIGHT - LEFT - 28.0);
    let y_of = |value: f64| BOTTOM - 12.0 - (value - low) / (high - low) * (BOTTOM - TOP - 24.0);
    line(out, (LEFT, TOP), (LEFT, BOTTOM));
    line(out, (LEFT, BOTTOM), (RIGHT, BOTTOM));
    for (value, shown) in plot.ends() {
        line(out, (LEFT - 5.0, y_of(value)), (LEFT, y_of(value)));
        label(out, (LEFT - 8.0, y_of(value) + 4.0), "end", shown);
    }
    for limit in &plot.limits {
        let (from, to, y) = (x_of(limit.from) - 12.0, x_of(limit.to) + 12.0, y_of(limit.value));
        dashes(out, (from, y), (to, y));
        // In the middle: the first and the last reading stand at the ends.
        label(out, (f64::midpoint(from, to), y - 4.0), "middle", &format!("{} {}", limit.name, limit.shown));
    }
    for (index, dot) in plot.dots.iter().enumerate() {
        if let Some(before) = plot.dots[..index].iter().rev().find(|before| before.of == dot.of) {
            thin(out, (x_of(before.at), y_of(before.value)), (x_of(dot.at), y_of(dot.value)));
        }
    }
    let mut named: Option<(f64, f64)> = None;
    for dot in &plot.dots {
        let (x, y) = (x_of(dot.at), y_of(dot.value));
        line(out, (x, BOTTOM), (x, BOTTOM + 5.0));
        if dot.fails {
            cross(out, (x, y));
        } else {
            out.raw(&format!("<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"4\"/>"));
        }
        let is_free = named.is_none_or(|(at, high)| (x - at).abs() > NEAR || (y - high).abs() > LETTER);
        if plot.dots.len() <= MOST_LABELS && is_free {
            let anchor = match dot.at {
                at if at < 0.1 => "start",
                at if at > 0.9 => "end",
                _ => "middle",
            };
            label(
                out,
                (x, if is_under(plot, dot, (&x_of, &y_of)) { y + 17.0 } else { y - 9.0 }),
                anchor,
                &dot.shown,
            );
            named = Some((x, y));
        }
    }
    label(out, (LEFT, BOTTOM + 20.0), "start", &plot.from);
    label(out, (RIGHT, BOTTOM + 20.0), "end", &plot.to);
    legend(out, plot);
}

/// Whether another one stands where its value would be written.
fn is_under(plot: &Plot, dot: &Dot, (x, y): (&dyn Fn(f64) -> f64, &dyn Fn(f64) -> f64)) -> bool {
    plot.dots.iter().any(|other| {
        let above = y(dot.value) - y(other.value);
        (x(other.at) - x(dot.at)).abs() < LETTER && above > 0.0 && above < 2.0 * LETTER
    })
}

fn legend(out: &mut Writer, plot: &Plot) {
    let y = BOTTOM + 38.0;
    out.raw(&format!("<circle cx=\"{:.1}\" cy=\"{y:.1}\" r=\"4\"/>", LEFT + 4.0));
    label(out, (LEFT + 13.0, y + 4.0), "start", "passes, or has no limit");
    if plot.dots.iter().any(|dot| dot.fails) {
        cross(out, (LEFT + 162.0, y));
        label(out, (LEFT + 171.0, y + 4.0), "start", "fails");
    }
    if !plot.limits.is_empty() {
        dashes(out, (LEFT + 220.0, y), (LEFT + 248.0, y));
        label(out, (LEFT + 254.0, y + 4.0), "start", "limit");
    }
}

fn dashes(out: &mut Writer, (x1, y1): (f64, f64), (x2, y2): (f64, f64)) {
    out.raw(&format!(
        "<line x1=\"{x1:.1}\" y1=\"{y1:.1}\" x2=\"{x2:.1}\" y2=\"{y2:.1}\" stroke=\"#000\" stroke-width=\"1.5\" \
         stroke-dasharray=\"7 4\"/>"
    ));
}

fn thin(out: &mut Writer, (x1, y1): (f64, f64), (x2, y2): (f64, f64)) {
    out.raw(&format!(
        "<line x1=\"{x1:.1}\" y1=\"{y1:.1}\" x2=\"{x2:.1}\" y2=\"{y2:.1}\" stroke=\"#777\" stroke-width=\"1\"/>"
    ));
}
