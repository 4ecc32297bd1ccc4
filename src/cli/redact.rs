//! `bayhand record --redact`: a copy for strangers.

use std::path::Path;

use super::Exit;
use super::arguments;
use super::context::Context;
use crate::record;
use crate::record::model::Record;

/// Writes the copy as data; what was there is not written over.
pub(super) fn write(context: &Context, record: &Record, command: &arguments::Record, file: &Path) -> Exit {
    let copy = match record::redacted(record, &command.redact, &command.hide) {
        Ok(copy) => copy,
        Err(error) => return context.found(&error),
    };
    match context.system.disk().write_new(file, record::to_json(&copy).as_bytes()) {
        Ok(()) => context.write(&format!(
            "{}: a copy with {} hidden, of the record with the seal {}. Read it before you hand it on: what people wrote in \
             their own words may tell more, and who takes no part in the run is hidden only by `--hide NAME`.\n",
            file.display(),
            copy.redacted.map(|redacted| redacted.hidden.join(" and ")).unwrap_or_default(),
            record.seal.sha256
        )),
        Err(error) => context.trouble(&error),
    }
}
