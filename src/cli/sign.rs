//! `bayhand sign`

use std::path::Path;

use super::Exit;
use super::arguments;
use super::beside::Fault;
use super::context::Context;
use super::proved::proved;
use super::signatures::{self, MANIFEST, SIGNATURE};
use super::verify::place_of;
use crate::journal::write_time;
use crate::signature::{
    Locked, Manifest, NAMESPACE, PublicKey, Signed, SshSig, Unfit, agent_request, agent_signature,
};
use crate::terminal::{Guard, Text, secret};

/// No key file is longer.
const MOST: u64 = 64 << 10;

/// Signs a record that was verified, or writes what is to be signed.
pub(super) fn sign(context: &Context, command: &arguments::Sign) -> Exit {
    match signed(context, command) {
        Ok(exit) | Err(exit) => exit,
    }
}

fn signed(context: &Context, command: &arguments::Sign) -> Result<Exit, Exit> {
    let path = place_of(context, &command.record);
    let proved = proved(&context.system, &path, None).map_err(|faults| unsound(context, &faults))?;
    let record = &proved.verified.record;
    let time = write_time(&context.system.now());
    let manifest = Manifest::of(record, &command.name, command.meaning, time);
    let manifest = manifest.map_err(|error| context.found(&error))?;
    let line = manifest.line().map_err(|error| context.found(&error))?;
    let file = |ending: &str| signatures::file_of(&proved.path, &manifest, ending);
    let Some(key) = &command.key else {
        let file = file(MANIFEST);
        context.system.disk().write_new(&file, line.as_bytes()).map_err(|error| context.trouble(&error))?;
        return Ok(context.write(&format!(
            "{}: this is what is signed. Sign it with\n  ssh-keygen -Y sign -n {NAMESPACE} -f KEY {}\nand leave both files beside \
             the record.\n",
            file.display(),
            file.display()
        )));
    };
    let signature = signature(context, key, line.as_bytes())?;
    let signed = Signed::of(&line, &signature.armoured()).and_then(|signed| signed.text());
    let text = signed.map_err(|error| context.found(&format!("{}: {error}", key.display())))?;
    let file = file(SIGNATURE);
    context.system.disk().write_new(&file, text.as_bytes()).map_err(|error| context.trouble(&error))?;
    Ok(context.write(&format!(
        "{}: {} by {}, key {}.\n",
        file.display(),
        manifest.meaning,
        manifest.name,
        signature.key
    )))
}

fn unsound(context: &Context, faults: &[Fault]) -> Exit {
    let first = faults.first().map(ToString::to_string).unwrap_or_default();
    context.found(&format!("what is not verified is not signed: {first}"))
}

/// Signed with a key file; or by the agent, where the public key is named.
fn signature(context: &Context, path: &Path, message: &[u8]) -> Result<SshSig, Exit> {
    let text = context.system.disk().read_text(path, MOST).map_err(|error| context.trouble(&error))?;
    let unfit = |error: Unfit| context.found(&format!("{}: {error}", path.display()));
    if let Ok(key) = PublicKey::parse(&text) {
        return by_agent(context, key, message).map_err(unfit);
    }
    let locked = Locked::parse(&text).map_err(unfit)?;
    let passphrase = if locked.is_locked() { passphrase(context, path)? } else { String::new() };
    Ok(locked.open(&passphrase).map_err(unfit)?.sign(NAMESPACE, message))
}

fn by_agent(context: &Context, key: PublicKey, message: &[u8]) -> Result<SshSig, Unfit> {
    match context.system.ask_agent(&agent_request(&key, NAMESPACE, message)) {
        Some(Ok(answer)) => agent_signature(key, NAMESPACE, &answer),
        Some(Err(error)) => Err(Unfit::because(format!("the agent does not answer: {error}"))),
        None => Err(Unfit::because(
            "this is a public key, and no agent runs that has the other half; name the key file itself, or start an agent",
        )),
    }
}

fn passphrase(context: &Context, path: &Path) -> Result<String, Exit> {
    let _guard = Guard::start(context.manner(), Text::new()).map_err(|error| context.trouble(&error))?;
    let prompt = format!("Passphrase of {}: ", crate::source::clean(&path.display().to_string()));
    match secret(&prompt) {
        Ok(Some(passphrase)) => Ok(passphrase),
        Ok(None) => Err(context.found(&format!(
            "{}: the key is locked, and nobody can be asked for its passphrase here; put it into the agent with `ssh-add`, \
             and name its `.pub` file",
            path.display()
        ))),
        Err(error) => Err(context.trouble(&error)),
    }
}
