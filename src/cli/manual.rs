//! `sparewright completions` and `sparewright man`: what a shell and a manual reader need, made from the arguments themselves.

use super::args::{self, CompletionsArgs, ManArgs};
use super::exit::ExitCode;
use super::refusal::Refusal;
use super::{meant, output};

/// Prints the completions of a shell.
pub fn completions(args: &CompletionsArgs) -> ExitCode {
    output::result(&args::completions(args.shell))
}

/// Prints a manual page, or writes all of them into a folder.
pub fn run(args: &ManArgs) -> ExitCode {
    let pages = args::manual_pages();
    if let Some(folder) = &args.out {
        let written = std::fs::create_dir_all(folder).and_then(|()| {
            let mut pages = pages.iter();
            pages
                .try_for_each(|(name, page)| std::fs::write(folder.join(format!("{name}.1")), page))
        });
        return match written {
            Ok(()) => output::result(&format!("{} pages in {}\n", pages.len(), folder.display())),
            Err(error) => {
                Refusal::not_written(folder, &error).tell();
                ExitCode::Output
            }
        };
    }
    let name = match &args.command {
        Some(command) => format!("{}-{command}", args::NAME),
        None => args::NAME.to_owned(),
    };
    match pages.iter().find(|(page, _)| *page == name) {
        Some((_, page)) => output::result(page),
        None => {
            let prefix = format!("{}-", args::NAME);
            let known = pages
                .iter()
                .filter_map(|(page, _)| page.strip_prefix(&prefix));
            let hint = meant::hint(args.command.as_deref().unwrap_or_default(), known);
            Refusal::new(format!("no manual page `{name}`"))
                .hinting(hint)
                .tell();
            ExitCode::Usage
        }
    }
}
