//! A picture on a page: what it shows, where it comes from, and itself where it could be had.

/// A picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// What it shows, in words.
    pub words: String,
    /// Where it comes from, as its text has it.
    pub address: String,
    /// Itself; nothing where it could not be had.
    pub data: Option<PictureData>,
}

/// The bytes of a picture that every browser shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PictureData {
    /// Its media type.
    kind: &'static str,
    bytes: Vec<u8>,
}

impl PictureData {
    /// By its first bytes, whatever its name says: PNG (ISO/IEC 15948), JPEG (ISO/IEC 10918), GIF, WebP. Nothing where it is
    /// none of these; SVG is none, since it is no picture but a text that can do more than show one.
    pub fn of(bytes: Vec<u8>) -> Option<Self> {
        let is_webp = bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"WEBP");
        let kind = match bytes.as_slice() {
            [0x89, b'P', b'N', b'G', b'\r', b'\n', 0x1a, b'\n', ..] => "image/png",
            [0xff, 0xd8, 0xff, ..] => "image/jpeg",
            [b'G', b'I', b'F', b'8', b'7' | b'9', b'a', ..] => "image/gif",
            _ if is_webp => "image/webp",
            _ => return None,
        };
        Some(Self { kind, bytes })
    }

    /// Its media type.
    pub const fn kind(&self) -> &'static str {
        self.kind
    }

    /// Its bytes.
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }
}

impl Picture {
    /// `Picture: bolt order on the flange (flange.png)`.
    pub fn said(&self) -> String {
        let space = if self.words.is_empty() { "" } else { " " };
        format!("Picture: {}{space}({})", self.words, self.address)
    }
}
