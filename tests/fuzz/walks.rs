//! Walks through random procedures: whatever is answered, nothing is lost, and there is always a way to the end.

use bayhand::journal::{Pinned, write_time};
use bayhand::record::{to_json, verified, verified_run};
use bayhand::run::{Event, replay};
use bayhand::session::{Books, carried, written_line};

use super::chain::chained;
use crate::run::drive::Drive;
use crate::run::invariants::acts::{Act, finish};
use crate::run::invariants::procedures::Part;
use crate::run::invariants::{driven, story, told::Told};

/// The first byte says how many sections, one byte each; then two bytes are one act.
pub fn walk(bytes: &[u8]) {
    let Some((count, rest)) = bytes.split_first() else { return };
    let (sections, acts) = rest.split_at(rest.len().min(usize::from(count % 4) + 1));
    let parts: Vec<Part> = sections.iter().map(|byte| Part::of(*byte)).collect();
    let acts: Vec<Act> = acts.chunks_exact(2).take(160).map(|two| Act::of(two[0], two[1])).collect();
    let drive = driven(&parts, &acts).expect("what must hold");
    nothing_is_lost(&drive);
    assert_eq!(written(&drive), drive.events, "{}", story(&drive));
    let ended = finish(drive).expect("a way to the end");
    nothing_is_lost(&ended);
    Told::of(&ended).is_ended_well().expect("a good end");
    assert!(ended.view().unsealed_items().is_empty() && ended.view().protections().is_empty());
    recorded(&ended);
}

/// Every entry of a reading stands in the state, in its order, and the state is what its events make.
fn nothing_is_lost(drive: &Drive) {
    let again = replay(&drive.book, drive.events.iter().map(|(event, stamp)| (event, stamp)));
    assert_eq!(again, drive.state, "{}", story(drive));
    for (name, _) in drive.book.procedure.readings().iter() {
        let entered = drive.events.iter().filter_map(|(event, stamp)| match event.itself() {
            Event::Read { reading, .. } | Event::Corrected { reading, .. } if reading == name => {
                Some(stamp.seq)
            }
            _ => None,
        });
        let entered: Vec<u64> = entered.collect();
        let mut kept: Vec<u64> = drive.readings(name).iter().map(|taken| taken.stamp.seq).collect();
        kept.sort_unstable();
        assert_eq!(kept, entered, "{name}: {}", story(drive));
    }
}

/// The lines of its journal.
fn lines(drive: &Drive) -> Vec<String> {
    let told = drive.events.iter().map(|(event, stamp)| {
        (write_time(&stamp.at), written_line(&drive.book, event, stamp.place.as_deref()))
    });
    let told: Vec<(String, String)> = told.collect();
    chained(told.iter().map(|(time, event)| (&**time, &**event)))
}

fn pinned(drive: &Drive) -> Pinned {
    Pinned { procedure: drive.book.procedure.text().text().to_owned(), linked: Vec::new(), vehicle: None }
}

/// The events as they come back from the disk.
fn written(drive: &Drive) -> Vec<(Event, bayhand::run::Stamp)> {
    carried(&lines(drive), &pinned(drive), &mut Books::default()).expect("it reads back").events
}

/// The record of a run that is closed shows itself to be right.
fn recorded(drive: &Drive) {
    let sound = verified_run(&lines(drive), &pinned(drive), &mut Books::default())
        .unwrap_or_else(|why| panic!("{why:?}\n{}", story(drive)));
    verified(&to_json(&sound.record)).expect("its own record");
}
