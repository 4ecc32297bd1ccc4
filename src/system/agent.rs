//! The agent that holds a person's keys: one question, one answer.

use std::io::{self, Error, ErrorKind};
use std::path::Path;

/// An agent answers with a signature; whatever is longer is not that.
const MOST: u32 = 256 << 10;

/// Asks the agent behind this socket.
#[cfg(unix)]
pub(super) fn ask(socket: &Path, request: &[u8]) -> io::Result<Vec<u8>> {
    use std::io::{Read, Write};
    use std::os::unix::net::UnixStream;
    use std::time::Duration;
    /// A key in hardware waits to be touched.
    const PATIENCE: Duration = Duration::from_secs(120);
    let mut stream = UnixStream::connect(socket)?;
    stream.set_read_timeout(Some(PATIENCE))?;
    let length = u32::try_from(request.len()).map_err(|_| Error::from(ErrorKind::InvalidInput))?;
    stream.write_all(&length.to_be_bytes())?;
    stream.write_all(request)?;
    let mut length = [0; 4];
    stream.read_exact(&mut length)?;
    let length = u32::from_be_bytes(length);
    if length > MOST {
        return Err(Error::new(ErrorKind::InvalidData, "the answer is too long"));
    }
    let mut answer = vec![0; usize::try_from(length).unwrap_or(0)];
    stream.read_exact(&mut answer)?;
    Ok(answer)
}

/// On this system an agent is not reached by a socket.
#[cfg(not(unix))]
pub(super) fn ask(_socket: &Path, _request: &[u8]) -> io::Result<Vec<u8>> {
    let _ = MOST;
    Err(Error::from(ErrorKind::Unsupported))
}
