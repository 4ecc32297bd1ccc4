//! `bayhand share`

use std::path::{Path, PathBuf};

use super::Exit;
use super::arguments::Share;
use super::context::Context;
use super::library_files;
use crate::share::{Bundle, NotGathered, SharedPath, Start, gather, pack};
use crate::system::{DiskError, Why};
use crate::terminal::{Line, Text};

/// How the files are written, for those who read them without the program.
const FORMAT: &str = "FORMAT.md";
/// Far beyond any file that belongs to a procedure.
const MOST: u64 = 32 << 20;

/// Puts a procedure or a job and all that it links to into one archive.
pub(super) fn share(context: &Context, command: &Share) -> Exit {
    match written(context, command) {
        Ok(exit) | Err(exit) => exit,
    }
}

fn written(context: &Context, command: &Share) -> Result<Exit, Exit> {
    let bundle = bundle(context, command)?;
    let archive = pack(&bundle).map_err(|error| context.trouble(&error))?;
    match context.system.disk().write_new(&command.to, &archive) {
        Ok(()) => {}
        Err(error) if matches!(error.why, Why::AlreadyThere) && is_same(context, &command.to, &archive) => {}
        Err(error) => return Err(context.trouble(&format!("{error}; {}", error.way_out()))),
    }
    Ok(context.show(&told(command, &bundle, archive.len())))
}

fn told(command: &Share, bundle: &Bundle, bytes: usize) -> Text {
    let head = format!("{} holds {} files, {bytes} bytes:", command.to.display(), bundle.len());
    let files = bundle.files().map(|(path, _)| Line::plain(path.as_str()).indent(2));
    let name = command.to.file_name().unwrap_or_default().to_string_lossy();
    let how = format!("A friend opens it with any unzip program, or with `bayhand receive {name} FOLDER`.");
    files.fold(Text::plain(&head), Text::line).line(Line::plain(how))
}

fn bundle(context: &Context, command: &Share) -> Result<Bundle, Exit> {
    let (name, folder) = named(context, &command.file)?;
    let folders = context.system.folders_of(&command.file);
    let find = |address: &str| bytes(context, &folder.join(address)).map_err(|error| error.to_string());
    let gathered = gather(&Start { name: &name, folders: &folders }, &find);
    let (_, mut bundle) = gathered.map_err(|error| match error {
        NotGathered::Unreadable { from: None, .. } => context.trouble(&error),
        _ => context.found(&error),
    })?;
    if let Some(sheet) = &command.vehicle {
        let (name, _) = named(context, sheet)?;
        let sheet = bytes(context, sheet).map_err(|error| context.trouble(&error))?;
        put(context, &mut bundle, &name, sheet)?;
    }
    if let Some(format) = library_files::find(Path::new(FORMAT)) {
        put(context, &mut bundle, FORMAT, format.text().as_bytes().to_vec())?;
    }
    Ok(bundle)
}

/// The name of a file and the folder it lies in; of one inside the program the name that it has there.
fn named(context: &Context, path: &Path) -> Result<(String, PathBuf), Exit> {
    let text = context.read(path)?;
    let path = Path::new(text.name());
    let folder = path.parent().unwrap_or(Path::new("")).to_owned();
    let name = path.file_name().and_then(|name| name.to_str()).map(str::to_owned);
    name.map(|name| (name, folder)).ok_or_else(|| context.found(&format!("`{}` has no name", path.display())))
}

/// What is in a file, whatever it is; where there is none, in that of this name inside the program.
fn bytes(context: &Context, path: &Path) -> Result<Vec<u8>, DiskError> {
    match context.system.disk().read(path, MOST) {
        Err(error) if matches!(error.why, Why::NotThere) => {
            library_files::find(path).map(|text| text.text().as_bytes().to_vec()).ok_or(error)
        }
        other => other,
    }
}

/// Puts a file beside the others, at the top; that the same one is there already is fine.
fn put(context: &Context, bundle: &mut Bundle, name: &str, bytes: Vec<u8>) -> Result<(), Exit> {
    let path = SharedPath::parse(name).map_err(|why| {
        context.found(&format!("`{name}` cannot be passed on: {why}; give the file another name"))
    })?;
    if bundle.files().any(|(other, there)| *other == path && (there == bytes || name == FORMAT)) {
        return Ok(());
    }
    bundle.add(path, bytes).map_err(|problem| context.found(&problem))
}

fn is_same(context: &Context, path: &Path, archive: &[u8]) -> bool {
    let most = u64::try_from(archive.len()).unwrap_or(u64::MAX);
    context.system.disk().read(path, most).is_ok_and(|there| there == archive)
}
