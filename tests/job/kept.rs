//! What is kept of steps from entry to entry is what is found out of them anew, in each run of the shipped job.

use bayhand::journal::{RunId, Runs};
use bayhand::run::{State, View, apply, replay};
use bayhand::session::StoredRun;
use bayhand::system::System;

use crate::session::stage::Stage;

/// Holds the state that grew entry by entry, with all that was asked of it, against one put together in one go.
pub fn is_found_anew(stage: &Stage) {
    let runs = Runs::new(&System::real(), &stage.path("data"));
    for name in runs.folders().expect("a folder of runs") {
        let run = StoredRun::read(&runs, &RunId::parse(&name).expect("a name")).expect("a run");
        let mut grown = State::default();
        for (place, (event, stamp)) in run.events.iter().enumerate() {
            grown = apply(&run.book, grown, event, stamp);
            let before = &run.events[..=place];
            let fresh = replay(&run.book, before.iter().map(|(event, stamp)| (event, stamp)));
            let view = |state| View::new(&run.book, state, &stamp.at);
            assert_eq!(view(&grown).next(), view(&fresh).next(), "{name}, entry {}", stamp.seq);
            for step in run.book.procedure.steps() {
                let [grown, fresh] = [&grown, &fresh].map(|state| view(state).status(step, None));
                assert_eq!(grown, fresh, "{name}, entry {}, step {}", stamp.seq, step.number);
            }
        }
    }
}
