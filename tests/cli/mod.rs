//! Tests of `cli`: the program with its commands, without a terminal.

mod again;
mod calc;
mod check;
mod check_folder;
mod condemned;
mod explain;
mod files;
mod glance;
mod help;
mod hostile;
mod instead;
mod kit;
mod literature;
mod occurrences;
mod part;
mod particulars;
mod rehearse;
mod runs;
mod script;
mod sheet;
mod sign;
mod strict;
mod told;
mod verify;
