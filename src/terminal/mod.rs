//! The conversation at a terminal.
