//! The commands: arguments in, results on stdout, everything else on stderr, an exit code out.
//!
//! One file per command; what a command computes lives in the library.

mod args;
mod check;
mod compare;
mod counted;
mod dry_run;
mod exit;
mod explain;
mod history;
mod import;
mod interrupt;
mod kit;
mod levels;
mod manual;
mod maps;
mod match_part;
mod meant;
mod output;
mod planning;
mod printed;
mod progress;
mod prune;
mod refusal;
mod reorder;
mod requests;
mod restore;
mod run;
mod serve;
mod stored_words;
mod what_if;

pub use exit::ExitCode;

/// Runs the command line given (program name first) and says how it ended.
pub fn main(arguments: impl IntoIterator<Item = std::ffi::OsString>) -> ExitCode {
    let command = match args::parse(arguments) {
        Ok(command) => command,
        Err(code) => return code,
    };
    match command {
        args::Command::Run(args) => run::run(&args),
        args::Command::Match(args) => match_part::run(&args),
        args::Command::Check(args) => check::run(&args),
        args::Command::Import(args) => import::run(&args),
        args::Command::History(args) => history::run(&args),
        args::Command::Compare(args) => compare::run(&args),
        args::Command::Restore(args) => restore::run(&args),
        args::Command::Prune(args) => prune::run(&args),
        args::Command::Kit(args) => kit::run(&args),
        args::Command::Levels(args) => levels::run(&args),
        args::Command::WhatIf(args) => what_if::run(&args),
        args::Command::Reorder(args) => reorder::run(&args),
        args::Command::Explain(args) => explain::run(&args),
        args::Command::Serve(args) => serve::run(&args),
        args::Command::Completions(args) => manual::completions(&args),
        args::Command::Man(args) => manual::run(&args),
    }
}
