//! Tests of `cli`: the program with its commands, without a terminal.

mod again;
mod calc;
mod check;
mod condemned;
mod explain;
mod files;
mod glance;
mod help;
mod hostile;
mod identity;
mod instead;
mod kit;
mod literature;
mod occurrences;
#[cfg(target_os = "linux")]
mod outside;
mod part;
mod particulars;
#[cfg(unix)]
mod read_only;
mod rehearse;
mod runs;
mod script;
mod sheet;
mod sign;
mod strict;
mod told;
mod unseen;
mod verify;
