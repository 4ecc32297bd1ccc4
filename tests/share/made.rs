//! Archives made for the tests.

use std::io::Write;

use bayhand::share::{Bundle, SharedPath};
use miniz_oxide::deflate::compress_to_vec;
use rawzip::path::EntryPath;
use rawzip::{CompressionMethod, ZipArchiveWriter};

/// A file of an archive, whatever its name is.
pub struct Made<'m> {
    pub name: &'m [u8],
    pub bytes: &'m [u8],
    /// The mode of Unix, with the type of file.
    pub mode: u32,
    pub method: CompressionMethod,
}

pub fn ordinary<'m>(name: &'m str, bytes: &'m [u8]) -> Made<'m> {
    Made { name: name.as_bytes(), bytes, mode: 0o100_644, method: CompressionMethod::DEFLATE }
}

/// An archive of these files, as somebody may write one who wants to do harm.
pub fn archive(files: &[Made<'_>]) -> Vec<u8> {
    let mut archive = ZipArchiveWriter::new(Vec::new());
    for file in files {
        let entry = archive.new_file(EntryPath::verbatim(file.name)).compression_method(file.method);
        let (mut entry, config) = entry.unix_permissions(file.mode).start().unwrap();
        let mut whole = config.wrap(std::io::sink());
        whole.write_all(file.bytes).unwrap();
        let (_, descriptor) = whole.finish().unwrap();
        if file.method == CompressionMethod::DEFLATE {
            entry.write_all(&compress_to_vec(file.bytes, 6)).unwrap();
        } else {
            entry.write_all(file.bytes).unwrap();
        }
        entry.finish(descriptor).unwrap();
    }
    archive.finish().unwrap()
}

/// Files by their paths.
pub fn bundle(files: &[(&str, &[u8])]) -> Bundle {
    let mut bundle = Bundle::default();
    for (path, bytes) in files {
        bundle.add(SharedPath::parse(path).unwrap(), bytes.to_vec()).unwrap();
    }
    bundle
}
