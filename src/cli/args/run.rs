//! The main job, and what people say about columns.

use std::path::PathBuf;

use clap::Args;

use super::Printed;
use super::answer_form::language;
use crate::language::Language;

/// Arguments of `run`.
#[derive(Debug, Args)]
pub struct RunArgs {
    /// Folder with the spreadsheets
    // That one of both is needed is said by the command: the parser would name this one alone.
    #[arg(conflicts_with = "workspace")]
    pub folder: Option<PathBuf>,
    /// Plan from the current snapshot of a workspace instead of a folder
    #[arg(long, value_name = "DIR")]
    pub workspace: Option<PathBuf>,
    /// What people say about columns; a workspace has its own, which `import` was given
    #[command(flatten)]
    pub maps: MapArgs,
    /// Folder for the reports [default: reports/<folder name>]
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Moment of planning, such as 2026-03-09T07:30 [default: the settings' as_of, else now]
    #[arg(long, value_name = "DATE-TIME")]
    pub as_of: Option<String>,
    /// Language of the reports, such as de [default: the settings' language, else en]
    #[arg(long, value_name = "CODE", value_parser = language)]
    pub language: Option<Language>,
    /// Exit with 1 if rows were rejected or something must be ordered now
    #[arg(long)]
    pub check: bool,
    /// Print this table of the report instead of the summary, such as order_now or kits [default as CSV: order_now]
    #[arg(long, value_name = "KEY")]
    pub table: Option<String>,
    /// Form of what is printed: the summary, one table as CSV, the whole report or one table as JSON
    #[arg(long, value_enum, default_value_t = Printed::Table)]
    pub format: Printed,
    /// Print errors only
    #[arg(long, short)]
    pub quiet: bool,
}

/// What people say about columns.
#[derive(Debug, Args)]
pub struct MapArgs {
    /// Meaning of a column, such as "prices*.xlsx!Netto EK=price", "prices.xlsx!Sheet2!$C=price", "$C#2=price" for column C of
    /// a sheet's second table, or "Basis=-" for one that is not to be read; `import` remembers it for tables of the same shape
    #[arg(long = "map", value_name = "FILE!SHEET!COLUMN=FIELD")]
    pub maps: Vec<String>,
}
