//! A hazard as it is told: its signal word, what it is, what comes of it, how it is kept off.

use crate::procedure::{Hazard, Signal};
use crate::terminal::{Line, Role};

pub(super) fn hazard_name(hazard: &Hazard) -> Line {
    Line::new()
        .with(signal_role(hazard), hazard.signal.word())
        .with(Role::Plain, format!(" {}", sentence(&hazard.hazard)))
        .hang(2)
}

pub(super) fn hazard_line(hazard: &Hazard) -> Line {
    let role = signal_role(hazard);
    let words = format!(
        " {} {} {}",
        sentence(&hazard.hazard),
        sentence(&hazard.consequence),
        sentence(&hazard.avoid)
    );
    Line::new().with(role, hazard.signal.word()).with(Role::Plain, words).hang(2)
}

fn signal_role(hazard: &Hazard) -> Role {
    match hazard.signal {
        Signal::Danger => Role::Danger,
        Signal::Warning => Role::Warning,
        Signal::Caution => Role::Caution,
        Signal::Notice => Role::Notice,
    }
}

/// A sentence ends with a full stop.
fn sentence(words: &str) -> String {
    let words = words.trim();
    if words.ends_with(['.', '!', '?']) { words.to_owned() } else { format!("{words}.") }
}
