//! Answers from a file, given to a run whatever it asks.

use bayhand::answers::Script;
use bayhand::run::Input;

use super::text;
use crate::run::invariants::acts::checked;
use crate::run::invariants::procedures::{Part, run};

/// The first two letters choose what the run is of; the rest is the file.
pub fn answers(bytes: &[u8]) {
    let (of, file) = bytes.split_at(bytes.len().min(2));
    let file = text(file);
    let script = match Script::read(&file) {
        Ok(script) => script,
        Err(said) => {
            let mut spans = said.iter().flat_map(|one| &one.labels).map(|label| label.span);
            assert!(spans.all(|span| file.get(span.start..span.end).is_some()), "{said:#?}");
            return;
        }
    };
    let parts: Vec<Part> = of.iter().map(|letter| Part::of(*letter)).collect();
    let mut drive = run(&parts);
    for (line, span) in script.lines.iter().take(60) {
        assert!(file.get(span.start..span.end).is_some());
        let prompt = drive.prompt();
        line.tells_odometer(&prompt.label(drive.view()));
        match line.answer(drive.view(), &prompt) {
            Ok(answer) => {
                let _ = checked(&mut drive, &Input::Answer(answer)).expect("what must hold");
            }
            Err(why) => assert!(!why.is_empty()),
        }
    }
}
