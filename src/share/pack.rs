//! Files as a ZIP archive: the same files give the same bytes, on every machine and at any time.

use std::io::Write;

use miniz_oxide::deflate::compress_to_vec;
use rawzip::time::UtcDateTime;
use rawzip::{CompressionMethod, ZipArchiveWriter};

use super::bundle::Bundle;

/// The strongest compression: files are packed once and sent often.
const LEVEL: u8 = 9;
/// Files that their owner may write and everybody may read.
const USUAL: u32 = 0o644;
/// 1980-01-01, the first day that an archive can name: every file has it.
const FIRST_DAY: i64 = 315_532_800;

/// The archive. No file has a time of its own, so that it depends on nothing but what is in them.
pub fn pack(bundle: &Bundle) -> Result<Vec<u8>, rawzip::Error> {
    let mut archive = ZipArchiveWriter::new(Vec::new());
    for (path, bytes) in bundle.files() {
        let packed = compress_to_vec(bytes, LEVEL);
        let (method, stored) = if packed.len() < bytes.len() {
            (CompressionMethod::DEFLATE, packed.as_slice())
        } else {
            (CompressionMethod::STORE, bytes)
        };
        let file = archive.new_file(path.as_str()).compression_method(method);
        let file = file.unix_permissions(USUAL).last_modified(UtcDateTime::from_unix(FIRST_DAY));
        let (mut entry, config) = file.start()?;
        let mut whole = config.wrap(std::io::sink());
        whole.write_all(bytes)?;
        let (_, descriptor) = whole.finish()?;
        entry.write_all(stored)?;
        entry.finish(descriptor)?;
    }
    archive.finish()
}
