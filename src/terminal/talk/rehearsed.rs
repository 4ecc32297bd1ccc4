//! What a rehearsal ends in, as it is read the evening before.

use super::kit;
use crate::kit::procedure_kit;
use crate::run::View;
use crate::terminal::{Line, Role, Text};

/// The kit, the moments for two, the waits, the longest stretch.
pub fn rehearsed(view: View<'_>) -> Text {
    Text::new()
        .line(Line::new().with(Role::Strong, "Rehearsed. Nothing was recorded."))
        .then(kit::lists(&procedure_kit(view)))
        .then(stretch(view))
}

fn stretch(view: View<'_>) -> Text {
    let Some(longest) = view.longest_stretch() else {
        return Text::new();
    };
    let rests =
        longest.rests.map_or_else(|| "the job is over".to_owned(), |rests| format!("it can rest: {rests}"));
    let words = format!("{} steps, from {} to {}; then {rests}.", longest.steps, longest.from, longest.to);
    Text::new().line(
        Line::new()
            .with(Role::Strong, "Longest stretch without a stopping point: ")
            .with(Role::Plain, words)
            .hang(2),
    )
}
