//! Completions and manual pages, made of what can be typed.

use std::path::PathBuf;

use clap::{Args, CommandFactory};
use clap_complete::Shell;

use super::{Line, NAME};

/// Arguments of `completions`.
#[derive(Debug, Args)]
pub struct CompletionsArgs {
    /// The shell
    #[arg(value_enum)]
    pub shell: Shell,
}

/// Arguments of `man`.
#[derive(Debug, Args)]
pub struct ManArgs {
    /// Command to tell about [default: the program as a whole]
    #[arg(value_name = "COMMAND", conflicts_with = "out")]
    pub command: Option<String>,
    /// Folder to write every page into
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
}

/// What a shell needs to complete commands and options.
pub fn completions(shell: Shell) -> String {
    let mut text = Vec::new();
    clap_complete::generate(shell, &mut Line::command(), NAME, &mut text);
    String::from_utf8_lossy(&text).into_owned()
}

/// The manual pages by name: that of the program, and one for each command below it.
pub fn manual_pages() -> Vec<(String, String)> {
    let mut pages = Vec::new();
    let mut whole = Line::command().disable_help_subcommand(true);
    whole.build();
    pages_of(&whole, NAME, &mut pages);
    pages
}

fn pages_of(command: &clap::Command, name: &str, pages: &mut Vec<(String, String)>) {
    // Without a date of its own, so that the same version gives the same page.
    let titled = command.clone().display_name(name.to_owned());
    let mut page = Vec::new();
    clap_mangen::Man::new(titled)
        .title(name.to_owned())
        .render(&mut page)
        .expect("a page in memory has no device that could fail");
    pages.push((name.to_owned(), String::from_utf8_lossy(&page).into_owned()));
    for inner in command.get_subcommands() {
        pages_of(inner, &format!("{name}-{}", inner.get_name()), pages);
    }
}
