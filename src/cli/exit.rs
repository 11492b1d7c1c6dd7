//! Exit codes, as listed in the README; 130 there is the code of a program that Ctrl-C ended (`interrupt`).

use crate::store::{ParquetError, StoreError};

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
            StoreError::Write { .. }
            | StoreError::Locked { .. }
            | StoreError::Parquet {
                cause: ParquetError::Unwritten(_),
                ..
            } => Self::Output,
            StoreError::Parquet {
                cause: ParquetError::Polars(_) | ParquetError::OtherType { .. },
                ..
            }
            | StoreError::NotAWorkspace { .. }
            | StoreError::Read { .. }
            | StoreError::Damaged { .. }
            | StoreError::LaterSchema { .. }
            | StoreError::NoSuchSnapshot { .. }
            | StoreError::Empty
            | StoreError::NoSuchPart { .. }
            | StoreError::Table { .. }
            | StoreError::Settings(_) => Self::Input,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::store::{Cells, Table, from_bytes, to_bytes};

    #[test]
    fn a_table_that_cannot_be_written_is_not_taken_for_one_that_cannot_be_read() {
        let of = |cause| {
            ExitCode::from(&StoreError::Parquet {
                table: "parts".to_owned(),
                cause,
            })
        };
        let flags = |count| Cells::Flag(vec![Some(true); count]);
        let uneven = Table {
            columns: vec![("two".to_owned(), flags(2)), ("three".to_owned(), flags(3))],
            height: 2,
        };
        assert_eq!(of(to_bytes(&uneven).unwrap_err()), ExitCode::Output);
        assert_eq!(of(from_bytes(b"no table").unwrap_err()), ExitCode::Input);
    }
}
