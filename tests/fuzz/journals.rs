//! Journals whose chain was made anew: refused with a reason, or a run that can have happened.

use bayhand::journal::Pinned;
use bayhand::record::{Finding, to_json, verified, verified_run};
use bayhand::session::{Books, Carried, carried, written_line};

use super::chain::{chained, told};
use super::text;

/// The runs that journals are made from: the texts that each goes by, and its times and events, a line each.
const RUNS: [(&str, Option<&str>, &str); 3] = [
    (
        include_str!("../cases/record/pressure-line.md"),
        Some(include_str!("../cases/record/vehicle.toml")),
        include_str!("../cases/fuzz/journal/0-smooth.txt"),
    ),
    (
        include_str!("../cases/record/pressure-line.md"),
        Some(include_str!("../cases/record/vehicle.toml")),
        include_str!("../cases/fuzz/journal/1-eventful.txt"),
    ),
    (include_str!("../cases/record/twice.md"), None, include_str!("../cases/fuzz/journal/2-people.txt")),
];

/// The first letter says which run; each line is a time and an event.
pub fn journal(bytes: &[u8]) {
    let text = text(bytes);
    let mut lines = text.lines();
    let which = lines.next().map_or(0, str::len) % RUNS.len();
    let told: Vec<(&str, &str)> = lines.filter_map(|line| line.split_once(' ')).collect();
    holds(which, &chained(told));
}

/// A run is taken apart and put together otherwise: three bytes say what happens to its entries.
pub fn forgery(bytes: &[u8]) {
    let Some((which, deeds)) = bytes.split_first() else { return };
    let which = usize::from(*which) % RUNS.len();
    let mut entries = entries(which);
    for deed in deeds.chunks_exact(3).take(40) {
        forge(&mut entries, deed[0], usize::from(deed[1]), usize::from(deed[2]));
    }
    let told = entries.iter().map(|(time, event)| (&**time, &**event));
    holds(which, &chained(told));
}

fn entries(which: usize) -> Vec<(String, String)> {
    let lines = RUNS[which].2.lines().skip(1);
    let told = lines.map(|line| line.split_once(' ').expect("a time and an event"));
    told.map(|(time, event)| (time.to_owned(), event.to_owned())).collect()
}

fn forge(entries: &mut Vec<(String, String)>, deed: u8, one: usize, other: usize) {
    let (many, whole) = (entries.len().max(1), entries.len());
    let (one, other_at) = (one % many, other % many);
    match deed % 8 {
        _ if whole == 0 => {}
        0 => drop(entries.remove(one)),
        1 => entries.swap(one, other_at),
        2 => entries.insert(other_at, entries[one].clone()),
        3 => entries.truncate(one + 1),
        4 => entries[one].1 = entries[other_at].1.clone(),
        5 => entries[one].0 = entries[other_at].0.clone(),
        // The event at another occurrence of the work.
        6 => {
            let at = |event: &str| {
                event.split_once("\"what\":").map(|(at, what)| (at.to_owned(), what.to_owned()))
            };
            if let (Some((_, what)), Some((place, _))) = (at(&entries[one].1), at(&entries[other_at].1)) {
                entries[one].1 = format!("{place}\"what\":{what}");
            }
        }
        // One digit becomes another one.
        _ => {
            let digits: Vec<usize> =
                entries[one].1.match_indices(|c: char| c.is_ascii_digit()).map(|(at, _)| at).collect();
            if let Some(at) = digits.get(other % digits.len().max(1)) {
                entries[one].1.replace_range(at..&(at + 1), ["1", "0", "9", "5"][other % 4]);
            }
        }
    }
}

/// Refused with a reason; or read, and then it is the run that its lines say, and its record is verified.
fn holds(which: usize, lines: &[String]) {
    let (procedure, vehicle, _) = RUNS[which];
    let pinned =
        Pinned { procedure: procedure.to_owned(), linked: Vec::new(), vehicle: vehicle.map(str::to_owned) };
    match carried(lines, &pinned, &mut Books::default()) {
        Ok(run) => written_again_is_the_same(&run, lines, &pinned),
        Err(why) => assert!(!why.to_string().is_empty()),
    }
    match verified_run(lines, &pinned, &mut Books::default()) {
        Ok(sound) => {
            assert_eq!(sound.record.journal, lines);
            let json = to_json(&sound.record);
            assert_eq!(verified(&json).expect("its own record").record, sound.record);
        }
        Err(findings) => named(&findings, lines.len()),
    }
}

/// What is found is said, and an entry that is named is one.
pub fn named(findings: &[Finding], entries: usize) {
    assert!(!findings.is_empty());
    for finding in findings {
        assert!(!finding.to_string().is_empty());
        if let Finding::NotPermitted { entry, .. } = finding {
            assert!((1..=entries as u64).contains(entry), "{finding}");
        }
    }
}

/// The events as this program writes them read back as the same events.
fn written_again_is_the_same(run: &Carried, lines: &[String], pinned: &Pinned) {
    let events =
        run.events.iter().map(|(event, stamp)| written_line(&run.book, event, stamp.place.as_deref()));
    let events: Vec<String> = events.collect();
    let times = lines.iter().map(|line| told(line).expect("a line").0);
    let again = chained(times.zip(events.iter().map(String::as_str)));
    let again = carried(&again, pinned, &mut Books::default()).expect("what was written reads back");
    assert_eq!(again.events, run.events);
}
