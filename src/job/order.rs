//! Whether the order of a job is one.

use super::codes::JOB_CIRCLE;
use super::model::Planned;
use crate::source::Diagnostic;

/// A circle among the procedures, shown whole; none where they can be done one after the other.
pub(super) fn circle(listed: &[Planned]) -> Option<Diagnostic> {
    let mut is_clear = vec![false; listed.len()];
    for start in 0..listed.len() {
        let mut way = Vec::new();
        if let Some(round) = walk(listed, start, &mut way, &mut is_clear) {
            return Some(shown(listed, &round));
        }
    }
    None
}

/// Follows what a procedure waits for, until nothing is left or it comes back to itself.
fn walk(listed: &[Planned], start: usize, way: &mut Vec<usize>, is_clear: &mut [bool]) -> Option<Vec<usize>> {
    // Each entry: a procedure, and how many of those that it waits for were followed.
    let mut open = vec![(start, 0)];
    while let Some((place, followed)) = open.pop() {
        if is_clear.get(place).copied().unwrap_or(true) {
            continue;
        }
        if followed == 0 {
            if let Some(first) = way.iter().position(|passed| *passed == place) {
                return Some(way.split_off(first));
            }
            way.push(place);
        }
        if let Some(before) = listed.get(place).and_then(|planned| planned.after.get(followed)) {
            open.push((place, followed + 1));
            open.push((*before, 0));
            continue;
        }
        way.pop();
        if let Some(clear) = is_clear.get_mut(place) {
            *clear = true;
        }
    }
    None
}

fn shown(listed: &[Planned], round: &[usize]) -> Diagnostic {
    let of = |place: &usize| listed.get(*place);
    let names: Vec<&str> =
        round.iter().chain(round.first()).filter_map(of).map(|one| one.id.as_str()).collect();
    let headline = format!("procedures wait for each other: {}", names.join(" after "));
    let spans = round.iter().filter_map(of).map(|planned| planned.span);
    let diagnostic = Diagnostic::error(&JOB_CIRCLE, headline);
    let diagnostic = spans.enumerate().fold(diagnostic, |diagnostic, (place, span)| {
        if place == 0 {
            diagnostic.at(span, "waits for the next of the circle")
        } else {
            diagnostic.also(span, "in the circle")
        }
    });
    diagnostic.help("take one of them out of an `after`")
}
