//! What a person prefers, remembered in the folder of the runs.

use std::path::PathBuf;

use super::Exit;
use super::context::Context;
use crate::quantity::Preferred;

/// What is remembered is short.
const MOST: u64 = 4096;

/// The word that forgets what was preferred.
const NONE: &str = "none";

/// The units that stand beside those that are asked for: those given now, which are remembered, else those of last time.
pub(super) fn units(context: &Context, given: Option<&str>) -> Result<Preferred, Exit> {
    let file = file(context)?;
    let disk = context.system.disk();
    let Some(given) = given else {
        let remembered = disk.read_text(&file, MOST).unwrap_or_default();
        return Ok(Preferred::parse(remembered.trim()).unwrap_or_default());
    };
    let wanted = if given.trim() == NONE { "" } else { given };
    let units = Preferred::parse(wanted).map_err(|unknown| {
        context.found(&format!(
            "{unknown}; write units with commas between, `--units \"psi, °F, qt\"`, or `--units none`"
        ))
    })?;
    let folder = file.parent().unwrap_or(&file);
    let kept = disk.make_folder(folder).and_then(|()| disk.replace(&file, format!("{units}\n").as_bytes()));
    kept.map_err(|error| context.trouble(&error))?;
    Ok(units)
}

fn file(context: &Context) -> Result<PathBuf, Exit> {
    Ok(context.data_folder()?.join("units.txt"))
}
