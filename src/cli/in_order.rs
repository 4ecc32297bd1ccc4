//! Work on many things on all cores at once, its results one after the other in the order of the things.

use std::sync::mpsc::{Receiver, sync_channel};
use std::thread;

/// How many results of one core may wait for those before them: memory stays what it is, however many things there are.
const AHEAD: usize = 16;

/// Does `work` with each thing, on so many cores, and hands the results to `take` in the order of the things.
pub(super) fn in_order<T: Sync, R: Send>(
    cores: usize,
    things: &[T],
    work: impl Fn(&T) -> R + Sync,
    mut take: impl FnMut(R),
) {
    let workers = cores.min(things.len());
    if workers < 2 {
        things.iter().map(work).for_each(take);
        return;
    }
    thread::scope(|scope| {
        let work = &work;
        let start = |first: usize| -> Receiver<R> {
            let (done, results) = sync_channel(AHEAD);
            scope.spawn(move || {
                // That nobody takes them any more ends the work.
                things.iter().skip(first).step_by(workers).try_for_each(|thing| done.send(work(thing)))
            });
            results
        };
        let results: Vec<Receiver<R>> = (0..workers).map(start).collect();
        let in_turn = results.iter().cycle().take(things.len());
        in_turn.filter_map(|result| result.recv().ok()).for_each(&mut take);
    });
}
