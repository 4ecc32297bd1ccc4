//! Where the whole lines end and a torn one begins.

/// Zeros in a row that a change of single bytes does not make, but a file system that grows a file before its data does.
const ZEROS: [u8; 4] = [0; 4];

/// Splits off what follows the last newline; else a last line that the file system has filled with zeros.
pub(super) fn split_torn(bytes: &[u8]) -> (&[u8], &[u8]) {
    let ends = end_of_lines(bytes);
    if ends < bytes.len() {
        return bytes.split_at(ends);
    }
    let last = end_of_lines(&bytes[..ends.saturating_sub(1)]);
    let zeros = bytes[last..].windows(ZEROS.len()).any(|window| window == ZEROS);
    bytes.split_at(if zeros { last } else { ends })
}

fn end_of_lines(bytes: &[u8]) -> usize {
    bytes.iter().rposition(|&byte| byte == b'\n').map_or(0, |newline| newline + 1)
}
