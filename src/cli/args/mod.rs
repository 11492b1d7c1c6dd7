//! What can be typed. The only home of clap.
//!
//! Belongs here: commands, options, their help, and what is made of them for shells and manual readers. What a command does
//! with them stands in its own file.

mod answer_form;
mod check;
mod planning;
mod run;
mod serve;
mod shell;
mod size_question;
mod workspace;
mod wrong_line;

use std::ffi::OsString;

use clap::error::ErrorKind;
use clap::{Parser, Subcommand};

use super::exit::ExitCode;
use super::{meant, refusal};
use crate::language::Language;

pub use answer_form::{Format, LanguageArgs, Printed, TableArgs};
pub use check::{CheckArgs, CheckKind};
pub use planning::{KitArgs, LevelsArgs, ReorderArgs, Rule, ShopArgs, WhatIfArgs};
pub use run::{MapArgs, RunArgs};
pub use serve::ServeArgs;
pub use shell::{CompletionsArgs, ManArgs, completions, manual_pages};
pub use size_question::MatchArgs;
pub use workspace::{CompareArgs, ExplainArgs, ImportArgs, PruneArgs, RestoreArgs, StoredArgs};

/// Name of the program.
pub const NAME: &str = "sparewright";

/// Finds the standard part, the cheapest way back to running and the stock to keep, from a shop's spreadsheets.
#[derive(Debug, Parser)]
#[command(
    name = NAME,
    version,
    max_term_width = 100,
    arg_required_else_help = true,
    after_help = "Exit codes:\n    0  done\n    1  done, with findings (run --check)\n    2  wrong usage\n    3  nothing usable in the input\n    4  output could not be written\n   70  a defect of ours\n  130  ended by Ctrl-C\n\nNothing is coloured, so NO_COLOR changes nothing; COLUMNS is the width where there is no terminal.\n\nExamples:\n  sparewright run data/demo\n  sparewright match \"6206-2RS C3\""
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
        after_help = "Examples:\n  sparewright run data/demo\n  sparewright run shop --as-of 2026-03-09T07:30 --out reports/monday\n  sparewright run shop --map \"prices*.xlsx!Netto EK=price\"\n  sparewright run --workspace shop-data\n  sparewright run data/demo --table order_now --format csv"
    )]
    Run(RunArgs),
    /// Find the standard part and its equivalents for a size, a designation or measured values
    #[command(
        after_help = "Examples:\n  sparewright match \"30 x 62 x 16 deep groove\"\n  sparewright match \"6308 2RS C3\" --shop data/demo --format json\n  sparewright match \"44.96 84.9 19 worn\" --workspace shop-data"
    )]
    Match(MatchArgs),
    /// Take spreadsheets into a workspace, which keeps what was there before
    #[command(
        after_help = "Examples:\n  sparewright import data/demo --workspace shop-data\n  sparewright import stock_2026-03-13.xlsx --workspace shop-data --dry-run"
    )]
    Import(ImportArgs),
    /// List the snapshots of a workspace
    #[command(
        after_help = "Examples:\n  sparewright history --workspace shop-data\n  sparewright history --workspace shop-data --format json"
    )]
    History(StoredArgs),
    /// Say what changed from one snapshot to another, by part and supplier
    #[command(
        after_help = "Examples:\n  sparewright compare 3 4 --workspace shop-data\n  sparewright compare 1 4 --workspace shop-data --format json"
    )]
    Compare(CompareArgs),
    /// Make a snapshot that holds what an earlier one held
    #[command(
        after_help = "Examples:\n  sparewright restore 3 --workspace shop-data\n  sparewright restore 3 --workspace shop-data --format json"
    )]
    Restore(RestoreArgs),
    /// Forget old snapshots; the current one always stays
    #[command(
        after_help = "Examples:\n  sparewright prune --workspace shop-data --keep-last 10\n  sparewright prune --workspace shop-data --keep-last 10 --keep-monthly"
    )]
    Prune(PruneArgs),
    /// Say where every value about a part came from, and what it replaced
    #[command(
        after_help = "Examples:\n  sparewright explain B-0001 --workspace shop-data\n  sparewright explain B-0001 --workspace shop-data --format json"
    )]
    Explain(ExplainArgs),
    /// Plan one kit: what holds the machine, what to buy, what being sooner costs, whom to ring first
    #[command(
        after_help = "Examples:\n  sparewright kit \"Fan FN-6 shaft\" --shop data/demo\n  sparewright kit \"Fan FN-6\" --shop data/demo --budget 400 --by 2026-03-16T14:00\n  sparewright kit \"Fan FN-6 shaft\" --shop data/demo --table curve --format csv"
    )]
    Kit(KitArgs),
    /// Show each stock level with why not one less, old against new, and what service costs
    #[command(
        after_help = "Examples:\n  sparewright levels --shop data/demo --part BRG-0106\n  sparewright levels --shop data/demo --budget 12000 --table levels_old_new\n  sparewright levels --shop data/demo --table service_curve --format csv"
    )]
    Levels(LevelsArgs),
    /// Think a change through: a slower supplier, one gone, a smaller budget, a machine more or less
    #[command(
        name = "what-if",
        after_help = "Examples:\n  sparewright what-if --shop data/demo --slower Courroux=2 --budget-cut 20\n  sparewright what-if --shop data/demo --gone Vossenkamper --table what_if_kits\n  sparewright what-if --shop data/demo --one-more PP-3 --retired VP-1"
    )]
    WhatIf(WhatIfArgs),
    /// List what to order, what can wait, whom to chase, what is on the shelf for nothing, what to set first
    #[command(
        after_help = "Examples:\n  sparewright reorder --shop data/demo\n  sparewright reorder --shop data/demo --table surplus --format csv\n  sparewright reorder --workspace shop-data --format json"
    )]
    Reorder(ReorderArgs),
    /// Serve a page over a workspace: look-up, shop, import, downloads
    #[command(
        after_help = "Examples:\n  sparewright serve --workspace shop-data\n  sparewright serve --workspace shop-data --listen 192.168.1.20:8090"
    )]
    Serve(ServeArgs),
    /// Work out a check behind a verdict: life, speed, static safety, seat fit, O-ring groove, lip speed, preload spacer
    #[command(
        after_help = "Examples:\n  sparewright check life --family deep_groove_ball --rating 19.5 --load 3 --rpm 1450\n  sparewright check seat --diameter 25 --seat k6 --clearance CN\n  sparewright check oring --inside 37.69 --section 3.53 --floor 38.1 --depth 2.87 --width 4.6"
    )]
    Check(CheckArgs),
    /// Print what a shell needs to complete commands and options
    #[command(
        after_help = "Examples:\n  sparewright completions bash > ~/.local/share/bash-completion/completions/sparewright\n  sparewright completions zsh > ~/.zfunc/_sparewright"
    )]
    Completions(CompletionsArgs),
    /// Print a manual page, or write all of them
    #[command(
        after_help = "Examples:\n  sparewright man kit | man -l -\n  sparewright man --out ~/.local/share/man/man1"
    )]
    Man(ManArgs),
}

/// Parses a command line; help, version and mistakes are printed here.
pub fn parse(arguments: impl IntoIterator<Item = OsString>) -> Result<Command, ExitCode> {
    let arguments: Vec<OsString> = arguments.into_iter().collect();
    // Looked for before anything is parsed: a line that is wrong is told in them too.
    let language = option_of(&arguments, "--language").and_then(Language::of_code);
    let is_json = option_of(&arguments, "--format") == Some("json");
    refusal::asked(language, is_json);
    match Line::try_parse_from(with_figures_apart(arguments)) {
        Ok(line) => Ok(line.command),
        Err(error) if !error.use_stderr() => {
            // A closed pipe while printing help is no failure.
            let _ = error.print();
            Err(ExitCode::Done)
        }
        Err(error) => {
            let is_help = error.kind() == ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand;
            let is_english = language.unwrap_or_default() == Language::ENGLISH;
            let is_command = error.kind() == ErrorKind::InvalidSubcommand;
            if is_help || (is_english && !is_json && !is_command) {
                // The parser's own words, with the usage of the command.
                let _ = error.print();
            } else {
                wrong_line::refusal(&error).tell();
            }
            Err(ExitCode::Usage)
        }
    }
}

/// `match "-214 o-ring"`: no option of ours begins with a figure, so a question may; a blank in front keeps it from being taken
/// for one.
fn with_figures_apart(arguments: Vec<OsString>) -> Vec<OsString> {
    const COMMAND: usize = 1;
    if arguments.get(COMMAND).is_none_or(|name| name != "match") {
        return arguments;
    }
    let begins_with_figure = |word: &OsString| {
        let text = word.to_str().and_then(|word| word.strip_prefix('-'));
        text.is_some_and(|text| text.starts_with(|c: char| c.is_ascii_digit()))
    };
    let apart = |word: OsString| match begins_with_figure(&word) {
        true => {
            let mut with_blank = OsString::from(" ");
            with_blank.push(word);
            with_blank
        }
        false => word,
    };
    arguments.into_iter().map(apart).collect()
}

/// The value of an option wherever it stands on the line, as `--name value` or `--name=value`; the last one counts.
fn option_of<'a>(arguments: &'a [OsString], name: &str) -> Option<&'a str> {
    let mut found = None;
    let mut words = arguments
        .iter()
        .map(|word| word.to_str().unwrap_or_default());
    while let Some(word) = words.next() {
        match word.strip_prefix(name) {
            // What follows is the question's, not ours.
            _ if word == "--" => break,
            Some("") => found = words.next().or(found),
            Some(rest) => found = rest.strip_prefix('=').or(found),
            None => {}
        }
    }
    found
}

#[cfg(test)]
mod tests;
