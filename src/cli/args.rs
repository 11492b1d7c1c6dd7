//! What can be typed. The only home of clap.

use std::ffi::OsString;
use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

use super::exit::ExitCode;

/// Finds the standard part, the cheapest way back to running and the stock to keep, from a shop's spreadsheets.
#[derive(Debug, Parser)]
#[command(
    name = "sparewright",
    version,
    max_term_width = 100,
    arg_required_else_help = true
)]
struct Line {
    #[command(subcommand)]
    command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Read a folder of spreadsheets and write the reorder workbook, page, CSV and JSON
    #[command(
        after_help = "Examples:\n  sparewright run data/demo\n  sparewright run shop --as-of 2026-03-09T07:30 --out reports/monday\n  sparewright run --workspace shop-data"
    )]
    Run(RunArgs),
    /// Find the standard part and its equivalents for a size, a designation or measured values
    #[command(
        after_help = "Examples:\n  sparewright match \"30 x 62 x 16 deep groove\"\n  sparewright match \"6308 2RS C3\" --shop data/demo --format json"
    )]
    Match(MatchArgs),
    /// Take spreadsheets into a workspace, which keeps what was there before
    #[command(
        after_help = "Examples:\n  sparewright import data/demo --workspace shop-data\n  sparewright import stock_2026-03-13.xlsx --workspace shop-data --dry-run"
    )]
    Import(ImportArgs),
    /// List the snapshots of a workspace
    #[command(after_help = "Example:\n  sparewright history --workspace shop-data")]
    History(HistoryArgs),
    /// Say what changed from one snapshot to another, by part and supplier
    #[command(after_help = "Example:\n  sparewright compare 3 4 --workspace shop-data")]
    Compare(CompareArgs),
    /// Make a snapshot that holds what an earlier one held
    #[command(after_help = "Example:\n  sparewright restore 3 --workspace shop-data")]
    Restore(RestoreArgs),
    /// Forget old snapshots; the current one always stays
    #[command(
        after_help = "Example:\n  sparewright prune --workspace shop-data --keep-last 10 --keep-monthly"
    )]
    Prune(PruneArgs),
    /// Say where every value about a part came from, and what it replaced
    #[command(after_help = "Example:\n  sparewright explain B-0001 --workspace shop-data")]
    Explain(ExplainArgs),
}

/// Arguments of `run`.
#[derive(Debug, Args)]
pub struct RunArgs {
    /// Folder with the spreadsheets
    #[arg(required_unless_present = "workspace", conflicts_with = "workspace")]
    pub folder: Option<PathBuf>,
    /// Plan from the current snapshot of a workspace instead of a folder
    #[arg(long, value_name = "DIR")]
    pub workspace: Option<PathBuf>,
    /// Folder for the reports [default: reports/<folder name>]
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Moment of planning, such as 2026-03-09T07:30 [default: the settings' as_of, else now]
    #[arg(long, value_name = "DATE-TIME")]
    pub as_of: Option<String>,
    /// Exit with 1 if rows were rejected or something must be ordered now
    #[arg(long)]
    pub check: bool,
    /// Print errors only
    #[arg(long, short)]
    pub quiet: bool,
}

/// Arguments of `match`.
#[derive(Debug, Args)]
pub struct MatchArgs {
    /// Size, designation or measured values, as you would write them
    #[arg(required = true, num_args = 1.., value_name = "QUESTION", allow_negative_numbers = true)]
    pub question: Vec<String>,
    /// Folder with the shop's spreadsheets, to show own numbers, stock and offers
    #[arg(long, value_name = "DIR")]
    pub shop: Option<PathBuf>,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
}

/// Arguments of `import`.
#[derive(Debug, Args)]
pub struct ImportArgs {
    /// Spreadsheets, text tables and settings, or folders with them
    #[arg(required = true, num_args = 1.., value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// Folder that keeps what is imported; made where it is not there
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
    /// Meaning of a column, such as "prices*.xlsx!Netto EK=price" or "$C=price"; remembered for files of the same shape
    #[arg(long = "map", value_name = "FILE!COLUMN=FIELD")]
    pub maps: Vec<String>,
    /// Show how each table is read and what would change, and write nothing
    #[arg(long)]
    pub dry_run: bool,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
}

/// Arguments of `history`.
#[derive(Debug, Args)]
pub struct HistoryArgs {
    /// The workspace
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
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
    /// The workspace
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
}

/// Arguments of `restore`.
#[derive(Debug, Args)]
pub struct RestoreArgs {
    /// Number of the snapshot
    #[arg(value_name = "N")]
    pub number: u32,
    /// The workspace
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
}

/// Arguments of `prune`.
#[derive(Debug, Args)]
pub struct PruneArgs {
    /// The workspace
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
    /// Keep the newest so many snapshots
    #[arg(long, value_name = "N")]
    pub keep_last: usize,
    /// Keep the last snapshot of each month besides
    #[arg(long)]
    pub keep_monthly: bool,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
}

/// Arguments of `explain`.
#[derive(Debug, Args)]
pub struct ExplainArgs {
    /// Own number of the part
    #[arg(value_name = "PART", allow_hyphen_values = true)]
    pub part: String,
    /// The workspace
    #[arg(long, value_name = "DIR")]
    pub workspace: PathBuf,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
}

/// Form of an answer on stdout.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// A table for people
    Table,
    /// JSON with a schema number
    Json,
}

/// Parses a command line; help, version and mistakes are printed here.
pub fn parse(arguments: impl IntoIterator<Item = OsString>) -> Result<Command, ExitCode> {
    match Line::try_parse_from(arguments) {
        Ok(line) => Ok(line.command),
        Err(error) => {
            let code = if error.use_stderr() {
                ExitCode::Usage
            } else {
                ExitCode::Done
            };
            // A closed pipe while printing help is no failure.
            let _ = error.print();
            Err(code)
        }
    }
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::*;

    #[test]
    fn the_arguments_are_well_defined() {
        Line::command().debug_assert();
    }

    #[test]
    fn a_negative_looking_question_is_a_question() {
        let Ok(Command::Match(args)) = parse(["sparewright", "match", "-318"].map(OsString::from))
        else {
            panic!("`match -318` must parse");
        };
        assert_eq!(args.question, ["-318"]);
    }
}
