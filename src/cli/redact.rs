//! `bayhand record --redact`: a copy for strangers.

use std::path::Path;

use super::Exit;
use super::context::Context;
use crate::record::model::Record;
use crate::record::{self, Hidden};

/// Writes the copy as data; what was there is not written over.
pub(super) fn write(context: &Context, record: &Record, hidden: &[Hidden], file: &Path) -> Exit {
    let copy = match record::redacted(record, hidden) {
        Ok(copy) => copy,
        Err(error) => return context.found(&error),
    };
    match context.system.disk().write_new(file, record::to_json(&copy).as_bytes()) {
        Ok(()) => context.write(&format!(
            "{}: a copy with {} hidden, of the record with the seal {}. Read it before you hand it on: what people wrote in \
             their own words may tell more than names.\n",
            file.display(),
            hidden.iter().map(|hidden| hidden.word()).collect::<Vec<_>>().join(" and "),
            record.seal.sha256
        )),
        Err(error) => context.trouble(&error),
    }
}
