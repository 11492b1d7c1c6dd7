//! Exit codes, as listed in the README.

use crate::store::StoreError;

/// How a command ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ExitCode {
    /// Done.
    Done,
    /// Done, with findings that `--check` asks to be told by the exit code.
    Findings,
    /// The command line is wrong.
    Usage,
    /// Nothing usable in the input.
    Input,
    /// The output could not be written.
    Output,
    /// A defect of ours.
    Defect,
}

impl ExitCode {
    /// The number the shell sees.
    pub const fn number(self) -> u8 {
        match self {
            Self::Done => 0,
            Self::Findings => 1,
            Self::Usage => 2,
            Self::Input => 3,
            Self::Output => 4,
            Self::Defect => 70,
        }
    }
}

impl From<&StoreError> for ExitCode {
    fn from(error: &StoreError) -> Self {
        match error {
            StoreError::Write { .. } | StoreError::Locked { .. } => Self::Output,
            _ => Self::Input,
        }
    }
}
