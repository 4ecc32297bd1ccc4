//! `bayhand verify`

use std::path::{Path, PathBuf};

use super::Exit;
use super::arguments;
use super::beside::Fault;
use super::context::Context;
use super::proved::{Proved, proved_with};
use super::signatures::Standing;
use crate::journal::RunId;
use crate::record::Verified;
use crate::session::Books;
use crate::signature::{Allowed, Signed};
use crate::terminal::{Line, Role, Text};

/// So many things that are wrong with a file are said; the rest follows from them.
pub(super) const MOST_SAID: usize = 5;

/// Verifies records and the folders of runs.
pub(super) fn verify(context: &Context, command: &arguments::Verify) -> Exit {
    let allowed = match command.allowed_signers.as_deref().map(|path| allowed(context, path)).transpose() {
        Ok(allowed) => allowed,
        Err(exit) => return exit,
    };
    let (mut exit, mut books) = (Exit::Done, Books::default());
    for named in &command.what {
        let path = place_of(context, named);
        let said = match proved_with(&context.system, &path, allowed.as_ref(), &mut books) {
            Ok(proved) => context.show(&sound(&path, &proved)),
            Err(faults) => unsound(context, &faults),
        };
        if said != Exit::Done && exit != Exit::Trouble {
            exit = said;
        }
    }
    exit
}

/// The file of allowed signers that a person named.
fn allowed(context: &Context, path: &Path) -> Result<Allowed, Exit> {
    let text = context.read(path)?;
    let zone = context.system.now().time_zone().clone();
    Allowed::parse(text.text(), &zone).map_err(|error| context.found(&format!("{}: {error}", path.display())))
}

/// The folder of the run of this name, where there is one; else it is a path.
pub(super) fn place_of(context: &Context, named: &Path) -> PathBuf {
    let is_folder = |path: &Path| context.system.disk().list(path).is_ok();
    let id = named.to_str().and_then(|name| RunId::parse(name).ok()).filter(|_| !is_folder(named));
    let folder = id.and_then(|id| Some(context.runs().ok()?.folder(&id)));
    folder.filter(|folder| is_folder(folder)).unwrap_or_else(|| named.to_path_buf())
}

fn unsound(context: &Context, faults: &[Fault]) -> Exit {
    let said = faults.iter().take(MOST_SAID).fold(Text::new(), |text, fault| {
        let words = fault.to_string();
        text.line(Line::new().with(Role::Bad, "NOT VERIFIED: ").with(Role::Plain, words).hang(4))
    });
    let said = match faults.len().saturating_sub(MOST_SAID) {
        0 => said,
        rest => said.line(Line::plain(format!("and {rest} more that are wrong with it"))),
    };
    match context.show(&said) {
        Exit::Done => Exit::Found,
        exit => exit,
    }
}

fn sound(path: &Path, proved: &Proved) -> Text {
    let record = &proved.verified.record;
    let closed =
        record.closed.as_ref().map_or("not closed".to_owned(), |closed| format!("closed {}", closed.at));
    let words = format!(
        "{}: run {}, {closed}: {} entries in their chain, {}; each entry was allowed where it stands, and every value and \
         verdict was worked out again. Result: {}",
        path.display(),
        record.run,
        record.journal.len(),
        texts(proved),
        record.result,
    );
    let text = Text::new().line(Line::new().with(Role::Good, "verified: ").with(Role::Plain, words).hang(4));
    let text = match &record.redacted {
        None => text,
        Some(redacted) => text.line(
            Line::plain(format!(
                "REDACTED COPY ({} hidden) of the record with the seal {}: that it is one, only who has that record can \
                 show, by hiding the same in it again.",
                redacted.hidden.join(" and "),
                redacted.of
            ))
            .indent(4),
        ),
    };
    if proved.signatures.is_empty() {
        return text.line(Line::plain(unsigned(record.closed.is_some())).indent(4));
    }
    proved
        .signatures
        .iter()
        .fold(text, |text, standing| text.line(Line::plain(signed(standing)).indent(4).hang(4)))
}

/// `signed: performed by Robin Vale, 2026-11-21T20:10:00+01:00, with the key of robin@bay (SHA256:...)`
fn signed(Standing { signed, principals }: &Standing) -> String {
    let Signed { manifest, signature } = signed;
    let with = match principals {
        Some(principals) => format!("with the key of {principals} ({})", signature.key),
        None => format!("with the key {}; whose that is, only `--allowed-signers` can say", signature.key),
    };
    format!("signed: {} by {}, {}, {with}", manifest.meaning, manifest.name, manifest.time)
}

/// What was looked at besides the entries: `2 pinned texts, 1 kept file`.
fn texts(proved: &Proved) -> String {
    let Verified { record, attachments } = &proved.verified;
    let texts = 1 + record.procedure.linked.len() + usize::from(record.vehicle.sheet.is_some());
    let count = |count: usize, what: &str| format!("{count} {what}{}", if count == 1 { "" } else { "s" });
    let texts = count(texts, "pinned text");
    match (attachments.len(), proved.not_there) {
        (0, _) => texts,
        (all, 0) => format!("{texts}, {}", count(all, "kept file")),
        (all, _) => format!("{texts}; not looked at, since not beside it: {}", count(all, "kept file")),
    }
}

/// What nobody can see in a record that is not signed.
fn unsigned(closed: bool) -> &'static str {
    if closed {
        "Not signed: the seal shows accidents and edits, not who made it. Somebody who makes up a whole run can seal it too."
    } else {
        "Not closed and not signed: nothing shows whether entries at the end are missing, or who made it."
    }
}
