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
        after_help = "Examples:\n  sparewright run data/demo\n  sparewright run shop --as-of 2026-03-09T07:30 --out reports/monday"
    )]
    Run(RunArgs),
    /// Find the standard part and its equivalents for a size, a designation or measured values
    #[command(
        after_help = "Examples:\n  sparewright match \"30 x 62 x 16 deep groove\"\n  sparewright match \"6308 2RS C3\" --shop data/demo --format json"
    )]
    Match(MatchArgs),
}

/// Arguments of `run`.
#[derive(Debug, Args)]
pub struct RunArgs {
    /// Folder with the spreadsheets
    pub folder: PathBuf,
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
