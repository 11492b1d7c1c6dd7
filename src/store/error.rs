//! Why a workspace cannot do what was asked; in every case the last good state is untouched.

use std::path::{Path, PathBuf};

use super::parquet::ParquetError;
use super::table::TableError;

/// Why a workspace cannot do what was asked.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum StoreError {
    /// No pointer to a snapshot.
    #[error("`{}` is not a workspace; `sparewright import` makes one in an empty or new folder", path.display())]
    NotAWorkspace {
        /// The folder.
        path: PathBuf,
    },
    /// Another process writes.
    #[error("another import, restore or prune holds `{}`; try again when it has ended", path.display())]
    Locked {
        /// The lock.
        path: PathBuf,
    },
    /// A file could not be read.
    #[error("`{}` cannot be read", path.display())]
    Read {
        /// The file.
        path: PathBuf,
        /// The cause.
        #[source]
        cause: std::io::Error,
    },
    /// A file could not be written.
    #[error("`{}` cannot be written; the workspace is as it was", path.display())]
    Write {
        /// The file.
        path: PathBuf,
        /// The cause.
        #[source]
        cause: std::io::Error,
    },
    /// A file is not what was written.
    #[error("`{}` is not what was written; restore an earlier snapshot or the file from a copy", path.display())]
    Damaged {
        /// The file.
        path: PathBuf,
    },
    /// Written by a later version.
    #[error("`{}` has schema {found}; this version reads up to {known}", path.display())]
    LaterSchema {
        /// The file.
        path: PathBuf,
        /// Its schema.
        found: u32,
        /// The last one known.
        known: u32,
    },
    /// No such snapshot.
    #[error("there is no snapshot {number}; `sparewright history` lists those that are kept")]
    NoSuchSnapshot {
        /// The number asked for.
        number: u32,
    },
    /// Nothing imported yet.
    #[error("nothing was imported into the workspace yet")]
    Empty,
    /// No part of that number.
    #[error(
        "no row of the current snapshot is about `{part}`; expected an own number as in the parts table"
    )]
    NoSuchPart {
        /// The number asked for.
        part: String,
    },
    /// Parquet.
    #[error("table `{table}`")]
    Parquet {
        /// The table.
        table: String,
        /// The cause.
        #[source]
        cause: ParquetError,
    },
    /// Columns.
    #[error("table `{table}`")]
    Table {
        /// The table.
        table: String,
        /// The cause.
        #[source]
        cause: TableError,
    },
    /// The settings of a snapshot.
    #[error("the settings of the snapshot cannot be used")]
    Settings(#[from] crate::record::SettingsError),
}

impl StoreError {
    /// The file or folder that it is about, where it is about one.
    pub fn path(&self) -> Option<&Path> {
        match self {
            Self::NotAWorkspace { path }
            | Self::Locked { path }
            | Self::Read { path, .. }
            | Self::Write { path, .. }
            | Self::Damaged { path }
            | Self::LaterSchema { path, .. } => Some(path),
            _ => None,
        }
    }
}
