//! Tests of `cli`: the program with its commands, without a terminal.

mod again;
mod calc;
mod check;
mod check_folder;
mod compare;
mod condemned;
mod explain;
mod files;
mod glance;
mod help;
mod history;
mod hostile;
mod identity;
mod impact_again;
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
mod schemas;
mod script;
mod sheet;
mod sign;
mod strict;
mod told;
mod two_runs;
mod unseen;
mod verify;
