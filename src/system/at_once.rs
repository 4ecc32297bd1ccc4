//! Opening a file without waiting, whatever stands under its name.

use std::fs::OpenOptions;

/// Where a pipe stands, nobody is waited for at its other end.
#[cfg(unix)]
pub(super) fn at_once(options: &mut OpenOptions) -> &mut OpenOptions {
    use std::os::unix::fs::OpenOptionsExt;
    options.custom_flags(nix::libc::O_NONBLOCK | nix::libc::O_NOCTTY)
}

/// Elsewhere no file makes one wait.
#[cfg(not(unix))]
pub(super) fn at_once(options: &mut OpenOptions) -> &mut OpenOptions {
    options
}
