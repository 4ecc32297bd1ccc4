//! The exit codes: what each one tells another program.

use std::process::ExitCode;

/// How a command ended, as other programs see it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exit {
    /// 0: done. Also for a run that was suspended or stopped by a person's word.
    Done,
    /// 1: something was found: mistakes in a file, answers that do not fit, a record refused while something is open.
    Found,
    /// 2: the command line is not right.
    Usage,
    /// 3: something could not be read or kept. Everything acknowledged before is safe.
    Trouble,
    /// 4: another process goes on with this run.
    Busy,
    /// 5: nobody answers any more (end of input); the run can be gone on with.
    Gone,
    /// 130: Ctrl-C; the run can be gone on with.
    Interrupted,
}

impl Exit {
    /// All of them with their meaning, for the help.
    pub const MEANINGS: &'static str = "Exit codes:
  0    done; also a run that was suspended or stopped
  1    found: mistakes in a file, answers that do not fit, a record refused
  2    the command line is not right
  3    something could not be read or kept; everything acknowledged is safe
  4    another process goes on with this run
  5    nobody answers any more; the run can be gone on with
  129, 130, 143  ended by hang-up, Ctrl-C, SIGTERM; the run can be gone on with
  134  ended by a fault of bayhand itself; everything acknowledged is safe";

    /// The number.
    pub const fn code(self) -> u8 {
        match self {
            Self::Done => 0,
            Self::Found => 1,
            Self::Usage => 2,
            Self::Trouble => 3,
            Self::Busy => 4,
            Self::Gone => 5,
            Self::Interrupted => 130,
        }
    }
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        Self::from(exit.code())
    }
}
