//! Asking a file descriptor whether something can be read.

#[cfg(unix)]
use std::{io, os::fd::AsFd, time::Duration};

/// Waits until something (or the end) can be read, but not longer than this.
#[cfg(unix)]
pub(super) fn is_ready(input: &impl AsFd, within: Duration) -> io::Result<bool> {
    use nix::errno::Errno;
    use nix::poll::{PollFd, PollFlags, PollTimeout, poll};
    let mut asked = [PollFd::new(input.as_fd(), PollFlags::POLLIN)];
    match poll(&mut asked, PollTimeout::try_from(within).unwrap_or(PollTimeout::MAX)) {
        Ok(ready) => Ok(ready > 0),
        // A signal woke us, a changed window size for instance: nothing to read yet.
        Err(Errno::EINTR) => Ok(false),
        Err(error) => Err(error.into()),
    }
}

/// Nobody can be asked on this system: the time passes and nothing is ready.
#[cfg(not(unix))]
pub(super) fn is_ready(_input: &std::io::Stdin, within: std::time::Duration) -> std::io::Result<bool> {
    std::thread::sleep(within);
    Ok(false)
}
