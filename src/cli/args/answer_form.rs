//! What an answer looks like: table, CSV or JSON, in which language.

use clap::{Args, ValueEnum};

use crate::language::Language;

/// Form of an answer that is made of tables.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Printed {
    /// Tables for people
    Table,
    /// One table as CSV
    Csv,
    /// JSON with a schema number
    Json,
}

/// Form of an answer on stdout.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// A table for people
    Table,
    /// JSON with a schema number
    Json,
}

/// Language of what is printed for people; the JSON form is the same in every language.
#[derive(Debug, Clone, Copy, Args)]
pub struct LanguageArgs {
    /// Language of what is printed for people, such as de [default: en]
    #[arg(long, value_name = "CODE", value_parser = language, global = true)]
    pub language: Option<Language>,
}

impl LanguageArgs {
    /// The language asked for, else English.
    pub fn chosen(self) -> Language {
        self.language.unwrap_or_default()
    }
}

/// Which tables are printed, and how.
#[derive(Debug, Args)]
pub struct TableArgs {
    /// One table only, by its key in the JSON form [default: all; the first as CSV]
    #[arg(long, value_name = "KEY")]
    pub table: Option<String>,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Printed::Table)]
    pub format: Printed,
}

/// A language by its code.
pub(super) fn language(code: &str) -> Result<Language, String> {
    Language::of_code(code).ok_or_else(|| {
        let known: Vec<&str> = Language::all().map(Language::code).collect();
        format!("expected one of {}", known.join(", "))
    })
}
