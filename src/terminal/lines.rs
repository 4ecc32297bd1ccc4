//! Where linear input comes from: one line at a time.

use std::io::{self, BufRead, Read};
use std::time::Duration;

/// The longest line that is read. Nobody types more; a file without line ends must not fill the memory.
const LONGEST: u64 = 64 * 1024;
/// As much of a line that is too long is passed over; what goes on after it has no ends of lines at all.
const PASSED_OVER: u64 = 16 << 20;

/// A source of lines.
pub trait Lines {
    /// The next line without its end; nothing at the end of the input. Blocks until one is there.
    ///
    /// # Errors
    /// [`io::ErrorKind::InvalidData`] for a line that is no text or too long: it is passed over, and the next call gives
    /// the one after it. Any other error is one of the input itself.
    fn next_line(&mut self) -> io::Result<Option<String>>;

    /// Waits until a line (or the end of the input) can be read, but not longer than this.
    fn is_ready(&mut self, within: Duration) -> io::Result<bool>;
}

/// Anything with a buffer. It counts as ready at all times: what is in a file or a pipe is already there.
impl<R: BufRead> Lines for R {
    fn next_line(&mut self) -> io::Result<Option<String>> {
        read_line(self)
    }

    fn is_ready(&mut self, _within: Duration) -> io::Result<bool> {
        Ok(true)
    }
}

fn read_line(input: &mut impl BufRead) -> io::Result<Option<String>> {
    let mut bytes = Vec::new();
    input.by_ref().take(LONGEST).read_until(b'\n', &mut bytes)?;
    if bytes.is_empty() {
        return Ok(None);
    }
    let ended = bytes.ends_with(b"\n");
    if !ended && bytes.len() as u64 == LONGEST {
        pass_over(input)?;
        return Err(no_answer(format!("the line is longer than {LONGEST} bytes")));
    }
    let line = String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to() + 1;
        no_answer(format!("the line is not UTF-8 text from its byte {at} on"))
    })?;
    Ok(Some(line.trim_end_matches(['\r', '\n']).to_owned()))
}

/// The rest of a line.
fn pass_over(input: &mut impl BufRead) -> io::Result<()> {
    let passed = input.by_ref().take(PASSED_OVER).skip_until(b'\n')?;
    if passed as u64 == PASSED_OVER {
        let message = format!("the input has no end of a line within {PASSED_OVER} bytes");
        return Err(io::Error::new(io::ErrorKind::FileTooLarge, message));
    }
    Ok(())
}

fn no_answer(why: String) -> io::Error {
    io::Error::new(io::ErrorKind::InvalidData, why)
}

/// The standard input of the process.
#[cfg(unix)]
pub struct StandardInput(io::BufReader<std::fs::File>);

/// The standard input of the process. It cannot be asked whether something is there, so that a wait in linear
/// output lasts until a line comes.
#[cfg(not(unix))]
pub struct StandardInput(io::BufReader<io::Stdin>);

#[cfg(unix)]
impl StandardInput {
    /// Takes the standard input. Nothing else in the process may read it.
    pub fn open() -> io::Result<Self> {
        use std::os::fd::AsFd;
        // The reader of the standard library hides what it holds back; this one can be asked.
        let own = io::stdin().as_fd().try_clone_to_owned()?;
        Ok(Self(io::BufReader::new(own.into())))
    }
}

#[cfg(not(unix))]
impl StandardInput {
    /// Takes the standard input. Nothing else in the process may read it.
    pub fn open() -> io::Result<Self> {
        Ok(Self(io::BufReader::new(io::stdin())))
    }
}

impl Lines for StandardInput {
    fn next_line(&mut self) -> io::Result<Option<String>> {
        read_line(&mut self.0)
    }

    #[cfg(unix)]
    fn is_ready(&mut self, within: Duration) -> io::Result<bool> {
        if !self.0.buffer().is_empty() {
            return Ok(true);
        }
        super::input::is_ready(self.0.get_ref(), within)
    }

    #[cfg(not(unix))]
    fn is_ready(&mut self, _within: Duration) -> io::Result<bool> {
        Ok(true)
    }
}
