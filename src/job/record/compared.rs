//! A record of a job that was kept, against what its runs give now.

use serde_json::Value;

use super::model::JobRecord;
use crate::record::seal_of;

/// What is not as it was kept, in words: the record itself, and each run whose own record has another seal.
pub fn differences(kept: &str, now: &JobRecord) -> Vec<String> {
    let Some((value, record)) = read(kept) else { return vec!["the kept record is none".to_owned()] };
    let is_whole = seal_of(&value).is_ok_and(|seal| seal == record.seal.sha256);
    let own =
        (!is_whole).then(|| "the kept record was changed: its seal is not that of its content".to_owned());
    let swapped =
        record.runs.iter().filter_map(|before| match now.runs.iter().find(|run| run.run == before.run) {
            None => Some(format!("run {} stood in the kept record and is not there", before.run)),
            Some(run) if run.seal != before.seal => Some(format!(
                "run {} is not the one that stood in the kept record: its seal is another",
                run.run
            )),
            Some(_) => None,
        });
    let added = now.runs.iter().filter(|run| record.runs.iter().all(|before| before.run != run.run));
    let added = added.map(|run| format!("run {} did not stand in the kept record", run.run));
    own.into_iter().chain(swapped).chain(added).collect()
}

fn read(kept: &str) -> Option<(Value, JobRecord)> {
    let value: Value = serde_json::from_str(kept).ok()?;
    let record = serde_json::from_value(value.clone()).ok()?;
    Some((value, record))
}
