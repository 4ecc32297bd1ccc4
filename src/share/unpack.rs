//! An archive read into files: all of it is sound, or nothing of it is taken.

use miniz_oxide::inflate::decompress_to_vec_with_limit;
use rawzip::{
    CompressionMethod, ZipArchive, ZipFileHeaderRecord, ZipSliceArchive, ZipSliceEntry, ZipVerification,
    crc32,
};

use super::bundle::{Bundle, BundleProblem, MOST_BYTES, MOST_FILES};
use super::path::SharedPath;
use super::refused::Refused;

/// The file types of Unix, and those of them that are taken: none said, an ordinary file, a folder.
const TYPES: u32 = 0o170_000;
const FILE: u32 = 0o100_000;
const FOLDER: u32 = 0o040_000;

/// The files of an archive.
pub fn unpack(archive: &[u8]) -> Result<Bundle, Refused> {
    let archive = ZipArchive::from_slice(archive).map_err(Refused::NotAnArchive)?;
    let mut bundle = Bundle::default();
    let mut taken: Vec<(u64, u64)> = Vec::new();
    for (count, header) in archive.entries().enumerate() {
        if count >= MOST_FILES {
            return Err(Refused::Bundle(BundleProblem::TooMany));
        }
        let header = header.map_err(Refused::NotAnArchive)?;
        let Some(path) = path(&header)? else { continue };
        let room = MOST_BYTES.saturating_sub(bundle.bytes());
        let entry = entry(&archive, &header, &path)?;
        taken.push(entry.compressed_data_range());
        let bytes = content(&header, &entry, &path, room)?;
        bundle.add(path, bytes).map_err(Refused::Bundle)?;
    }
    if bundle.is_empty() {
        return Err(Refused::Empty);
    }
    taken.sort_unstable();
    let overlap = taken.windows(2).any(|two| matches!(two, [one, next] if one.1 > next.0));
    if overlap { Err(Refused::Overlapping) } else { Ok(bundle) }
}

/// The path of an ordinary file; none for a folder, which comes with the files in it.
fn path(header: &ZipFileHeaderRecord<'_>) -> Result<Option<SharedPath>, Refused> {
    let raw = header.file_path();
    let words = String::from_utf8_lossy(raw.as_bytes()).into_owned();
    // First of all, so that no refusal names a path that was made to be misread.
    let name = words.strip_suffix('/').unwrap_or(&words);
    let path = SharedPath::parse(name).map_err(|why| Refused::Path { path: words.clone(), why })?;
    // Whatever system is said to have made it: a program that unpacks may believe it or not.
    let kind = (header.external_attributes() >> 16) & TYPES;
    if !matches!(kind, 0 | FILE | FOLDER) {
        return Err(Refused::NotAFile { path: path.to_string() });
    }
    let is_folder = raw.is_dir() || kind == FOLDER;
    Ok((!is_folder).then_some(path))
}

/// Where a file lies in the archive. There it has the same name as in the list of files, which is not read by every
/// program.
fn entry<'a>(
    archive: &'a ZipSliceArchive<&'a [u8]>,
    header: &ZipFileHeaderRecord<'_>,
    path: &SharedPath,
) -> Result<ZipSliceEntry<'a>, Refused> {
    if header.flags().is_encrypted() || header.flags().has_strong_encryption() {
        return Err(Refused::Encrypted { path: path.to_string() });
    }
    let entry = archive.get_entry(header.wayfinder()).map_err(Refused::NotAnArchive)?;
    if entry.local_header().file_path().as_bytes() != header.file_path().as_bytes() {
        return Err(Refused::TwoNames { path: path.to_string() });
    }
    Ok(entry)
}

/// What is in a file: no more than there is room for, and what its size and checksum say.
fn content(
    header: &ZipFileHeaderRecord<'_>,
    entry: &ZipSliceEntry<'_>,
    path: &SharedPath,
    room: usize,
) -> Result<Vec<u8>, Refused> {
    let damaged = || Refused::Damaged { path: path.to_string() };
    let said = entry.claim_verifier();
    let size = usize::try_from(said.uncompressed_size).ok().filter(|size| *size <= room);
    let Some(size) = size else { return Err(Refused::Bundle(BundleProblem::TooLarge)) };
    let bytes = match header.compression_method() {
        CompressionMethod::STORE if entry.data().len() == size => entry.data().to_vec(),
        CompressionMethod::STORE => return Err(damaged()),
        CompressionMethod::DEFLATE => {
            decompress_to_vec_with_limit(entry.data(), size.max(1)).map_err(|_| damaged())?
        }
        _ => return Err(Refused::Packed { path: path.to_string() }),
    };
    let found = ZipVerification {
        crc: crc32(&bytes),
        uncompressed_size: u64::try_from(bytes.len()).unwrap_or(u64::MAX),
    };
    said.valid(found).map_err(|_| damaged())?;
    Ok(bytes)
}
