//! Keys one by one: the terminal does not wait for Enter, does not echo and turns Ctrl-C into a key.

#[cfg(unix)]
mod unix {
    use std::io;

    use nix::sys::termios::{LocalFlags, SetArg, Termios, tcgetattr, tcsetattr};

    /// As long as it lives, keys come one by one.
    pub(in crate::terminal::tty) struct OneByOne(Termios);

    impl OneByOne {
        /// Begins. What was typed before is thrown away: it cannot have been an answer to what is asked now.
        pub(in crate::terminal::tty) fn begin() -> io::Result<Self> {
            let found = tcgetattr(io::stdin())?;
            let mut wanted = found.clone();
            wanted.local_flags &=
                !(LocalFlags::ICANON | LocalFlags::ECHO | LocalFlags::ISIG | LocalFlags::IEXTEN);
            tcsetattr(io::stdin(), SetArg::TCSAFLUSH, &wanted)?;
            Ok(Self(found))
        }
    }

    impl Drop for OneByOne {
        fn drop(&mut self) {
            // A failure means that the terminal is gone, which the next read or write will tell.
            let _ = tcsetattr(io::stdin(), SetArg::TCSADRAIN, &self.0);
        }
    }
}

#[cfg(unix)]
pub(super) use unix::OneByOne;

/// Elsewhere each read of a key looks after this itself.
#[cfg(not(unix))]
pub(super) struct OneByOne;

#[cfg(not(unix))]
impl OneByOne {
    pub(super) fn begin() -> std::io::Result<Self> {
        Ok(Self)
    }
}
