//! Answers from a file: the same machine without a person at a terminal.

pub(in crate::run) mod answer;
pub(in crate::run) mod codes;
pub(in crate::run) mod line;
pub(in crate::run) mod people;
pub(in crate::run) mod script;
pub(in crate::run) mod sitting;
pub(in crate::run) mod times;
