//! Lines, crosses and letters of a drawing.

use super::writer::Writer;

pub(super) fn line(out: &mut Writer, from: (f64, f64), to: (f64, f64)) {
    let ((x1, y1), (x2, y2)) = (from, to);
    out.raw(&format!(
        "<line x1=\"{x1:.1}\" y1=\"{y1:.1}\" x2=\"{x2:.1}\" y2=\"{y2:.1}\" stroke=\"#000\" stroke-width=\"1.5\"/>"
    ));
}

/// Words at a place: `start`, `middle` or `end` of them.
pub(super) fn label(out: &mut Writer, at: (f64, f64), anchor: &str, words: &str) {
    out.raw(&format!("<text x=\"{:.1}\" y=\"{:.1}\" font-size=\"12\" text-anchor=\"{anchor}\">", at.0, at.1));
    out.text(words);
    out.raw("</text>");
}

/// What marks a failure: another shape than the disc, not only another colour.
pub(super) fn cross(out: &mut Writer, (x, y): (f64, f64)) {
    line(out, (x - 5.0, y - 5.0), (x + 5.0, y + 5.0));
    line(out, (x - 5.0, y + 5.0), (x + 5.0, y - 5.0));
}
