//! A question at the bench.

use std::path::PathBuf;

use clap::Args;

use super::Format;
use super::answer_form::language;
use crate::language::Language;

/// Arguments of `match`.
#[derive(Debug, Args)]
pub struct MatchArgs {
    /// Size, designation or measured values, as you would write them
    #[arg(required = true, num_args = 1.., value_name = "QUESTION", allow_negative_numbers = true)]
    pub question: Vec<String>,
    /// Folder with the shop's spreadsheets, to show own numbers, stock and offers
    #[arg(long, value_name = "DIR", conflicts_with = "workspace")]
    pub shop: Option<PathBuf>,
    /// Workspace to show own numbers, stock and offers from
    #[arg(long, value_name = "DIR")]
    pub workspace: Option<PathBuf>,
    /// Language of the answer for people, such as de [default: en]
    #[arg(long, value_name = "CODE", value_parser = language)]
    pub language: Option<Language>,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
}
