//! The pictures that a procedure refers to, read from beside it.

use std::path::Path;

use super::context::Context;
use crate::print::{Page, PictureData};
use crate::procedure::NotFound;

/// The largest picture that is put on a page: as large as a text that is read.
const MOST: u64 = 8 << 20;

/// A picture from a file; or why there is none.
fn picture(context: &Context, path: &Path) -> Result<PictureData, String> {
    let bytes = context.system.disk().read(path, MOST).map_err(|error| error.to_string())?;
    PictureData::of(bytes).ok_or_else(|| "this is no PNG, JPEG, GIF or WebP".to_owned())
}

/// Whether it is there and can be shown.
pub(super) fn is_there(context: &Context, path: &Path) -> Result<(), NotFound> {
    picture(context, path).map(drop).map_err(|why| NotFound { why })
}

/// Puts the pictures on a page that are there, seen from the folder of its procedure; `check` tells of the others.
pub(super) fn put_on(context: &Context, page: &mut Page, procedure: &Path) {
    let folder = procedure.parent().unwrap_or(Path::new(""));
    for one in page.pictures_mut() {
        one.data = picture(context, &folder.join(&one.address)).ok();
    }
}
