//! What the shells are given to complete: every command with every option of it, held to its help and, where they are
//! installed, to the shells themselves.

use std::path::Path;
use std::process::Command;

use super::help::{COMMANDS, help, options};
use super::program::Bench;
use crate::skipped::skipped;

/// Long options of a command, as its help tells them.
fn long_options(bench: &Bench, command: &[&str]) -> Vec<String> {
    let told = options(&help(bench, command)).into_iter();
    let long = told.filter_map(|(name, _)| {
        let mut words = name.split([' ', ',']);
        words.find(|word| word.starts_with("--")).map(str::to_owned)
    });
    long.collect()
}

/// Every command, those of the shells among them.
fn commands() -> impl Iterator<Item = &'static [&'static str]> {
    let man: &[&str] = &["man"];
    COMMANDS.into_iter().chain([man])
}

/// The lines that zsh completes a command by: those under its name, up to the end of its case.
fn zsh_section(script: &str, command: &[&str]) -> String {
    let name = format!("({})", command[command.len() - 1]);
    let mut section = String::new();
    let mut is_within = false;
    for line in script.lines().map(str::trim) {
        is_within = is_within && line != ";;" || line == name;
        if is_within {
            section.push_str(line);
            section.push('\n');
        }
    }
    section
}

/// The lines that fish completes a command by.
fn fish_section<'t>(script: &'t str, command: &[&str]) -> Vec<&'t str> {
    let condition = match command {
        [one] => format!("-n \"__fish_sparewright_using_subcommand {one}\""),
        [one, two, ..] => format!(
            "-n \"__fish_sparewright_using_subcommand {one}; and __fish_seen_subcommand_from {two}\""
        ),
        [] => String::new(),
    };
    let lines = script.lines();
    lines.filter(|line| line.contains(&condition)).collect()
}

#[test]
fn the_commands_that_are_looked_at_are_those_that_there_are() {
    let told = Bench::new().said(&["--help"]);
    let listed = told.lines().skip_while(|line| *line != "Commands:").skip(1);
    let listed = listed.take_while(|line| !line.is_empty());
    // A name stands two blanks in, what it is about further on.
    let names = listed.filter(|line| line.starts_with("  ") && !line.starts_with("   "));
    let mut names: Vec<&str> = names
        .filter_map(|line| line.split_whitespace().next())
        .collect();
    names.retain(|name| *name != "help");
    names.sort_unstable();
    let mut known: Vec<&str> = commands().map(|command| command[0]).collect();
    known.sort_unstable();
    known.dedup();
    assert_eq!(names, known);
}

#[test]
fn zsh_and_fish_are_given_every_option_of_every_command() {
    let bench = Bench::new();
    let (zsh, fish) = (
        bench.said(&["completions", "zsh"]),
        bench.said(&["completions", "fish"]),
    );
    let mut compared = 0;
    for command in commands() {
        let of_zsh = zsh_section(&zsh, command);
        let of_fish = fish_section(&fish, command);
        for option in long_options(&bench, command) {
            let forms = ["=[", "["].map(|behind| format!("{option}{behind}"));
            assert!(
                forms.iter().any(|form| of_zsh.contains(form.as_str())),
                "zsh: {command:?} {option} not in {of_zsh}"
            );
            let bare = option.trim_start_matches('-');
            let is_of_fish = of_fish.iter().any(|line| {
                let words: Vec<&str> = line.split_whitespace().collect();
                words.windows(2).any(|pair| pair == ["-l", bare])
            });
            assert!(is_of_fish, "fish: {command:?} {option} not in {of_fish:#?}");
            compared += 1;
        }
    }
    // Each has `--help`, and most have several more.
    assert!(compared > 3 * COMMANDS.len(), "{compared} options");
}

#[test]
fn every_shell_is_given_every_option() {
    let bench = Bench::new();
    for shell in ["bash", "elvish", "powershell"] {
        let script = bench.said(&["completions", shell]);
        for command in commands() {
            for option in long_options(&bench, command) {
                assert!(script.contains(&option), "{shell}: {command:?} {option}");
            }
        }
    }
}

/// What a shell says to a line; `None`, told, where it is not installed.
fn shell(name: &str, arguments: &[&str]) -> Option<String> {
    let Ok(output) = Command::new(name).args(arguments).output() else {
        skipped(&format!("no {name}"));
        return None;
    };
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{name}: {errors}");
    assert!(errors.is_empty(), "{name}: {errors}");
    Some(String::from_utf8_lossy(&output.stdout).into_owned())
}

fn written(bench: &Bench, shell: &str) -> String {
    let script = bench.said(&["completions", shell]);
    let path = bench.write(&format!("sparewright.{shell}"), &script);
    AsRef::<Path>::as_ref(&path).display().to_string()
}

#[test]
fn zsh_takes_its_script_where_it_is_installed() {
    let bench = Bench::new();
    let path = written(&bench, "zsh");
    let line = format!(
        "autoload -Uz compinit; compinit -u -D; source '{path}'; print -r -- ${{_comps[sparewright]}}"
    );
    if let Some(said) = shell("zsh", &["-f", "-c", &line]) {
        assert_eq!(said.trim(), "_sparewright");
    }
}

#[test]
fn fish_takes_its_script_where_it_is_installed() {
    let bench = Bench::new();
    let path = written(&bench, "fish");
    for (typed, completed) in [
        ("sparewright k", "kit"),
        ("sparewright kit --bud", "--budget"),
    ] {
        let line = format!("source '{path}'; complete -C '{typed}'");
        if let Some(said) = shell("fish", &["--no-config", "-c", &line]) {
            assert!(said.starts_with(completed), "{typed}: {said}");
        }
    }
}
