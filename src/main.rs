//! Arguments in, exit code out.

use std::process::ExitCode;

use bayhand::cli;
use bayhand::system::System;

fn main() -> ExitCode {
    cli::main(System::real(), std::env::args_os()).into()
}
