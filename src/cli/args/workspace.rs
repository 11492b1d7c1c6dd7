//! A workspace: what goes in, its snapshots, and where its values came from.

use std::path::PathBuf;

use clap::Args;

use super::answer_form::language;
use super::{Format, LanguageArgs, MapArgs};
use crate::language::Language;

/// Arguments of `import`.
#[derive(Debug, Args)]
pub struct ImportArgs {
    /// Spreadsheets, text tables and settings, or folders with them
    #[arg(required = true, num_args = 1.., value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// Folder that keeps what is imported; made where it is not there
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
    /// What people say about columns
    #[command(flatten)]
    pub maps: MapArgs,
    /// Workbook to write rows to mend into; mended, it is imported like any file
    #[arg(long, value_name = "FILE", conflicts_with = "dry_run")]
    pub rejects: Option<PathBuf>,
    /// Language of what is printed and of the workbook of rows to mend, such as de [default: the settings' language, else en]
    #[arg(long, value_name = "CODE", value_parser = language)]
    pub language: Option<Language>,
    /// Show how each table is read and what would change, and write nothing
    #[arg(long)]
    pub dry_run: bool,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
}

/// Which workspace is asked and in which form it answers; all that `history` takes.
#[derive(Debug, Args)]
pub struct StoredArgs {
    /// The workspace
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
    /// Language
    #[command(flatten)]
    pub language: LanguageArgs,
}

/// Arguments of `compare`.
#[derive(Debug, Args)]
pub struct CompareArgs {
    /// Number of the earlier snapshot
    #[arg(value_name = "A")]
    pub before: u32,
    /// Number of the later snapshot
    #[arg(value_name = "B")]
    pub after: u32,
    /// The workspace and the form
    #[command(flatten)]
    pub stored: StoredArgs,
}

/// Arguments of `restore`.
#[derive(Debug, Args)]
pub struct RestoreArgs {
    /// Number of the snapshot
    #[arg(value_name = "N")]
    pub number: u32,
    /// The workspace and the form
    #[command(flatten)]
    pub stored: StoredArgs,
}

/// Arguments of `prune`.
#[derive(Debug, Args)]
pub struct PruneArgs {
    /// Keep the newest so many snapshots
    #[arg(long, value_name = "N")]
    pub keep_last: usize,
    /// Keep the last snapshot of each month besides
    #[arg(long)]
    pub keep_monthly: bool,
    /// The workspace and the form
    #[command(flatten)]
    pub stored: StoredArgs,
}

/// Arguments of `explain`.
#[derive(Debug, Args)]
pub struct ExplainArgs {
    /// Own number of the part
    #[arg(value_name = "PART", allow_hyphen_values = true)]
    pub part: String,
    /// The workspace and the form
    #[command(flatten)]
    pub stored: StoredArgs,
}
