//! Drawings as inline SVG: lines and letters, each with its words for those who do not see them.

use super::super::{Figure, Gauge, Mark, Trend};
use super::plotted;
use super::strokes::{cross, label, line};
use super::writer::Writer;

/// The drawing of a figure on a page.
pub(super) fn write(out: &mut Writer, figure: &Figure) {
    let (width, height) = size(figure);
    out.raw(&format!("<svg role=\"img\" viewBox=\"0 0 {width} {height}\" width=\"{width}\" height=\"{height}\" aria-label=\""));
    out.text(figure.words());
    out.raw("\">");
    write_drawing(out, figure);
    out.raw("</svg>");
}

/// The drawing of a figure as a file, with a white ground.
pub(super) fn write_alone(out: &mut Writer, title: &str, figure: &Figure) {
    let (width, height) = size(figure);
    out.raw(&format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" aria-labelledby=\"title desc\" \
         viewBox=\"0 0 {width} {height}\" width=\"{width}\" height=\"{height}\" font-family=\"Georgia, serif\">\n"
    ));
    out.raw("<title id=\"title\">");
    out.text(title);
    out.raw("</title>\n<desc id=\"desc\">");
    out.text(figure.words());
    out.raw(&format!("</desc>\n<rect width=\"{width}\" height=\"{height}\" fill=\"#fff\"/>\n"));
    write_drawing(out, figure);
    out.raw("\n</svg>\n");
}

fn size(figure: &Figure) -> (u32, u32) {
    match figure {
        Figure::Gauge(_) => (WIDTH, GAUGE),
        Figure::Trend(_) => (WIDTH, TREND),
        Figure::Plot(_) => (plotted::WIDTH, plotted::HEIGHT),
    }
}

fn write_drawing(out: &mut Writer, figure: &Figure) {
    match figure {
        Figure::Gauge(gauge) => write_gauge(out, gauge),
        Figure::Trend(trend) => write_trend(out, trend),
        Figure::Plot(plot) => plotted::write(out, plot),
    }
}

/// A box, blank or ticked.
pub(super) fn write_box(out: &mut Writer, mark: Mark) {
    let label = match mark {
        Mark::None => return,
        Mark::Open => "to do",
        Mark::Done => "done",
    };
    out.raw(&format!(
        "<svg class=\"box\" role=\"img\" aria-label=\"{label}\" viewBox=\"0 0 14 14\" width=\"14\" height=\"14\">"
    ));
    out.raw("<rect x=\"1\" y=\"1\" width=\"12\" height=\"12\" fill=\"none\" stroke=\"#000\" stroke-width=\"1.5\"/>");
    if mark == Mark::Done {
        line(out, (3.0, 7.0), (6.0, 11.0));
        line(out, (6.0, 11.0), (12.0, 2.0));
    }
    out.raw("</svg>");
}

const WIDTH: u32 = 260;
const GAUGE: u32 = 34;
const TREND: u32 = 74;
/// From where to where lines go.
const LEFT: f64 = 22.0;
const RIGHT: f64 = 238.0;

/// A line from limit to limit and a mark on it: a disc within, a cross outside.
fn write_gauge(out: &mut Writer, gauge: &Gauge) {
    line(out, (LEFT, 10.0), (RIGHT, 10.0));
    for (limit, at, anchor) in [(&gauge.lower, LEFT, "start"), (&gauge.upper, RIGHT, "end")] {
        if let Some(words) = limit {
            line(out, (at, 3.0), (at, 17.0));
            label(out, (at, 30.0), anchor, words);
        } else {
            // Open on this side: the line goes on.
            let tip = if at < f64::from(WIDTH) / 2.0 { (at - 6.0, at) } else { (at + 6.0, at) };
            line(out, (tip.0, 10.0), (tip.1, 6.0));
            line(out, (tip.0, 10.0), (tip.1, 14.0));
        }
    }
    if gauge.within {
        let x = LEFT + gauge.at.clamp(0.0, 1.0) * (RIGHT - LEFT);
        out.raw(&format!("<circle cx=\"{x:.1}\" cy=\"10\" r=\"5\"/>"));
    } else {
        let x = if gauge.at < 0.5 { LEFT - 13.0 } else { RIGHT + 13.0 };
        cross(out, (x, 10.0));
    }
}

/// A line from pass to pass; below each its number, above the first and the last what they were.
fn write_trend(out: &mut Writer, trend: &Trend) {
    let (last, height) = (trend.points.len().saturating_sub(1), 30.0);
    #[expect(clippy::cast_precision_loss, reason = "places on a drawing")]
    let x = |index: usize| LEFT + 20.0 + (RIGHT - LEFT - 40.0) * index as f64 / last.max(1) as f64;
    let y = |at: f64| 22.0 + height * (1.0 - at.clamp(0.0, 1.0));
    for (index, pair) in trend.points.windows(2).enumerate() {
        line(out, (x(index), y(pair[0].at)), (x(index + 1), y(pair[1].at)));
    }
    let every = (trend.points.len() / 10).max(1);
    for (index, point) in trend.points.iter().enumerate() {
        let (x, y) = (x(index), y(point.at));
        out.raw(&format!("<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"3\"/>"));
        if index % every == 0 || index == last {
            label(out, (x, 72.0), "middle", &(index + 1).to_string());
        }
        if index == 0 || index == last {
            label(out, (x, y - 8.0), "middle", &point.shown);
        }
    }
}
