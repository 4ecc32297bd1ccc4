//! How SSH puts numbers and texts into bytes (RFC 4251 section 5).

use super::Unfit;

/// Bytes that are read from the front.
#[derive(Clone, Copy)]
pub(super) struct Reader<'a> {
    rest: &'a [u8],
}

impl<'a> Reader<'a> {
    pub(super) fn of(bytes: &'a [u8]) -> Self {
        Self { rest: bytes }
    }

    pub(super) fn take(&mut self, count: usize) -> Result<&'a [u8], Unfit> {
        let (taken, rest) = self.rest.split_at_checked(count).ok_or_else(too_short)?;
        self.rest = rest;
        Ok(taken)
    }

    pub(super) fn number(&mut self) -> Result<u32, Unfit> {
        let bytes = self.take(4)?.try_into().map_err(|_| too_short())?;
        Ok(u32::from_be_bytes(bytes))
    }

    /// A length and so many bytes.
    pub(super) fn string(&mut self) -> Result<&'a [u8], Unfit> {
        let length = self.number()?;
        self.take(usize::try_from(length).map_err(|_| too_short())?)
    }

    pub(super) fn text(&mut self) -> Result<&'a str, Unfit> {
        std::str::from_utf8(self.string()?).map_err(|_| Unfit::because("a name in it is not text"))
    }

    /// As many bytes as a key or a signature has.
    pub(super) fn exactly<const N: usize>(&mut self) -> Result<[u8; N], Unfit> {
        self.string()?.try_into().map_err(|_| Unfit::because("a key or signature in it has another length"))
    }

    pub(super) fn rest(self) -> &'a [u8] {
        self.rest
    }

    pub(super) fn end(self) -> Result<(), Unfit> {
        if self.rest.is_empty() { Ok(()) } else { Err(Unfit::because("something stands behind its end")) }
    }
}

fn too_short() -> Unfit {
    Unfit::because("it ends too early")
}

/// Adds a length and the bytes.
pub(super) fn put(out: &mut Vec<u8>, bytes: &[u8]) {
    out.extend(u32::try_from(bytes.len()).unwrap_or(u32::MAX).to_be_bytes());
    out.extend(bytes);
}
