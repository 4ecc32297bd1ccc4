//! Bytes as text: base64 of RFC 4648, section 4.

/// Its letters, each in the place of what it stands for.
pub(crate) const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/// The bytes in these letters, filled up with `=`.
pub(crate) fn encode(bytes: &[u8]) -> String {
    let letters = bytes.chunks(3).flat_map(|group| {
        let bits = (0..3).fold(0_u32, |bits, at| bits << 8 | u32::from(group.get(at).copied().unwrap_or(0)));
        let letter = move |at: usize| {
            if at > group.len() {
                return '=';
            }
            char::from(LETTERS[(bits >> (18 - 6 * at) & 63) as usize])
        };
        (0..4).map(letter)
    });
    letters.collect()
}
