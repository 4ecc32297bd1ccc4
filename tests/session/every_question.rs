//! Somebody who answers whatever the procedure with every sort of question asks, each time with words never used before.

use super::seat::Waits;

/// What an answer comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Makes {
    /// One entry with these words in it, and with what was typed since the last one.
    Entry(&'static str),
    /// Another question: nothing is kept before that is answered.
    Question,
    /// The run asks on, or rests and the program ends.
    Rest(&'static str),
}

use Makes::{Entry, Question, Rest};

/// A question by the words in it, what is answered (`#` is a number never used before), and what that makes.
pub struct Row {
    pub said: &'static str,
    pub keys: &'static str,
    pub makes: Makes,
}

const fn row(said: &'static str, keys: &'static str, makes: Makes) -> Row {
    Row { said, keys, makes }
}

/// All of them; the first that fits counts.
static ROWS: [Row; 62] = [
    // Before the work, and after a sitting that broke off.
    row("Name of the lead", "Robin Vale\r", Entry("person")),
    row("Name of the helper", "Sam Hollis\r", Entry("person")),
    row("Odometer, in", "18#\r", Entry("odometer")),
    row("(find it in: service manual", "#\r", Question),
    row("Where was it found", "page #\r", Entry("vehicle_value")),
    row("Is it for this vehicle?", "y", Entry("interruption")),
    row("Present, by name or initials", "RV, SH\r", Entry("people")),
    row("How do things stand", "as it was, #\r", Entry("interruption")),
    row("Read it? [y] yes", "y", Entry("brief_read")),
    row("Are these steps still", "y", Entry("interruption")),
    // The stopping menu.
    row("Why is the job stopped?", "telephone #\r", Question),
    row("What state are things left in", "tap shut, #\r", Rest("stopped")),
    row("Before the run rests", "k", Rest("interruption")),
    // Hazards, hold points, two people.
    row("Read and understood? [a]", "a", Entry("acknowledged")),
    row("1 of 2: The vehicle stands", "y", Entry("confirmed")),
    row("2 of 2: Each pin", "y", Entry("confirmed")),
    row("1 of 1: Nobody is under", "y", Entry("confirmed")),
    row("Released by Robin Vale", "RV\r", Entry("released")),
    row("Released by Sam Hollis", "SH\r", Entry("released")),
    row("Witness point: the thread", "y", Question),
    row("Independent verification: the paint mark", "y", Question),
    row("Sam Hollis (helper), name or initials", "SH\r", Entry("people")),
    // Results that fail: taken again, corrected, gone on with, approved.
    row("kPa below the minimum", "t", Question),
    row("What was done about it?", "tightened #\r", Entry("again")),
    row("above the maximum of 5 mL", "c", Question),
    row("Which entry was wrong", "\r", Question),
    row("What was it really?", "0.#\r", Question),
    row("What was wrong with the entry?", "digits #\r", Entry("correction")),
    row("look of the fluid: milky: fail", "g", Question),
    row("[y] the lead approves", "y", Question),
    row("Approved by Robin Vale", "RV\r", Entry("interruption")),
    row("What to do with deviation", "\u{1b}[B\r", Question),
    row("Disposition", "\u{1b}[B\u{1b}[B\r", Question),
    row("Reason: >", "because #\r", Entry("accepted")),
    // Readings of each kind.
    row("what is written on it: >", "G-#\r", Question),
    row("calibration is good until", "2199-03-31\r", Entry("particular")),
    row("what was reached, in N·m: >", "#\r", Entry("fastening")),
    row("Earlier: 0", "1#\r", Entry("reading")),
    row("in kPa: >", "0.#\r", Entry("reading")),
    row("in mL: >", "9#\r", Entry("reading")),
    row("blind to the first", "1#\r", Entry("people")),
    row("in N·m: >", "1#\r", Entry("reading")),
    row("in mm: >", "#\r", Entry("reading")),
    row("a whole number: >", "#\r", Entry("reading")),
    row("as year-month-day: >", "2026-01-02\r", Entry("reading")),
    row("names with commas between them: >", "C#\r", Entry("reading")),
    row("the path of the photo or file: >", "photo-#.jpg\r", Entry("reading")),
    row("in words: >", "words #\r", Entry("reading")),
    row("Type it to go on: >", "cut it\r", Entry("particular")),
    row("[1] clear [2] dark [3] milky", "3", Entry("reading")),
    row("[1] yes [2] no", "1", Entry("reading")),
    // Steps, ways, fasteners, loose ends, the end.
    row("[1] 1.4.1 [2] 1.4.2", "2", Entry("flow")),
    row("[1] 1.5.1", "1", Entry("picked")),
    row("[2] 1.5.2", "2", Entry("picked")),
    row("[1] 1 is done", "1", Entry("fastening")),
    row("[2] 2 is done", "2", Entry("fastening")),
    row("[3] 3 is done", "3", Entry("fastening")),
    row("[4] 4 is done", "4", Entry("fastening")),
    row("[b] begin this stage", "b", Entry("fastening")),
    row("[d] settled", "d", Question),
    row("How was it settled?", "closed #\r", Entry("loose")),
    row("[y] section complete", "y", Entry("flow")),
];

/// The last ones: what every step can ask.
static LAST: [Row; 2] = [row("[e] end: close", "e", Entry("closed")), row("[d] done", "d", Entry("done"))];

/// The row of a question.
pub fn row_of(said: &str, kind: Waits) -> &'static Row {
    let near = end_of(said);
    let fits = |row: &&Row| near.contains(row.said);
    let found = ROWS.iter().chain(&LAST).find(fits);
    found.unwrap_or_else(|| panic!("nobody knows what to say to {kind:?}: {said}"))
}

/// How many sorts there are.
pub const SORTS: usize = ROWS.len() + LAST.len();

/// The end of what was said: what was asked before is out of mind.
fn end_of(said: &str) -> &str {
    let from = said.len().saturating_sub(700);
    let from = (from..said.len()).find(|at| said.is_char_boundary(*at)).unwrap_or(0);
    &said[from..]
}
