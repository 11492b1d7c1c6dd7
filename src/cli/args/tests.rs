use clap::{CommandFactory, ValueEnum};
use clap_complete::Shell;

use super::*;

/// Words of an example as a shell splits them.
fn split(line: &str) -> Vec<OsString> {
    let mut words = vec![String::new()];
    let mut is_quoted = false;
    for letter in line.chars() {
        match letter {
            '"' => is_quoted = !is_quoted,
            ' ' if !is_quoted => words.push(String::new()),
            _ => words.last_mut().unwrap().push(letter),
        }
    }
    words.into_iter().map(OsString::from).collect()
}

fn check_examples(command: &clap::Command) -> usize {
    let help = command
        .get_after_help()
        .map(ToString::to_string)
        .unwrap_or_default();
    let examples: Vec<&str> = help
        .lines()
        .filter_map(|line| line.strip_prefix("  sparewright "))
        .collect();
    assert!(
        !examples.is_empty(),
        "`{}` has no example",
        command.get_name()
    );
    for example in &examples {
        let typed = example.split(['>', '|']).next().unwrap().trim();
        let words = split(&format!("sparewright {typed}"));
        let parsed = Line::try_parse_from(words);
        assert!(parsed.is_ok(), "{example}: {}", parsed.unwrap_err());
    }
    let inner = command
        .get_subcommands()
        .filter(|of| of.get_name() != "help");
    examples.len() + inner.map(check_examples).sum::<usize>()
}

#[test]
fn every_command_shows_examples_that_parse() {
    assert!(check_examples(&Line::command()) > 30);
}

#[test]
fn exit_codes_stand_in_help_and_readme_as_they_are() {
    let help = Line::command().get_after_help().unwrap().to_string();
    let readme = include_str!("../../../README.md");
    for code in [
        ExitCode::Done,
        ExitCode::Findings,
        ExitCode::Usage,
        ExitCode::Input,
        ExitCode::Output,
        ExitCode::Defect,
    ] {
        let number = code.number();
        assert!(
            help.contains(&format!("{number:>5}  ")),
            "{number} in {help}"
        );
        assert!(
            readme.contains(&format!("| {number} | ")),
            "{number} in the README"
        );
    }
}

#[test]
fn completions_and_manual_pages_know_every_command() {
    let pages = manual_pages();
    for command in Line::command().get_subcommands() {
        let name = format!("{NAME}-{}", command.get_name());
        let page = pages.iter().find(|(page, _)| *page == name);
        let (_, page) = page.unwrap_or_else(|| panic!("no page {name}"));
        assert!(
            page.contains(".SH SYNOPSIS") && page.contains("Example"),
            "{page}"
        );
        for shell in Shell::value_variants() {
            let text = completions(*shell);
            assert!(
                text.contains(command.get_name()),
                "{shell}: {}",
                command.get_name()
            );
        }
    }
    assert!(pages[0].1.contains("Exit codes"));
}

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
    assert_eq!(args.question.join(" ").trim(), "-318");
}

#[test]
fn language_and_form_are_found_on_a_line_that_does_not_parse() {
    let found = |line: &str, name: &str| {
        let words = split(line);
        option_of(&words, name).map(str::to_owned)
    };
    for (line, language) in [
        ("sparewright run x --language de", Some("de")),
        ("sparewright run --language=de --nonsense", Some("de")),
        ("sparewright run --language en --language de", Some("de")),
        ("sparewright run --language", None),
        ("sparewright run --languages de", None),
        ("sparewright match -- --language de", None),
        ("sparewright", None),
    ] {
        assert_eq!(found(line, "--language").as_deref(), language, "{line}");
    }
}

#[test]
fn a_question_may_begin_with_a_hyphen_and_a_figure() {
    let parsed = |words: &[&str]| {
        let words = words.iter().map(OsString::from).collect();
        let line = Line::try_parse_from(with_figures_apart(words));
        line.map(|line| match line.command {
            Command::Match(args) => args.question.join(" ").trim().to_owned(),
            _ => String::new(),
        })
    };
    for (words, question) in [
        (&["sparewright", "match", "-214 o-ring"][..], "-214 o-ring"),
        (&["sparewright", "match", "-214"], "-214"),
        (
            &["sparewright", "match", "-214", "--format", "json"],
            "-214",
        ),
        (&["sparewright", "match", "6206", "-30", "C"], "6206  -30 C"),
    ] {
        let read = parsed(words).unwrap_or_else(|error| panic!("{words:?}: {error}"));
        assert_eq!(read, question, "{words:?}");
    }
    // Letters behind a hyphen are an option, known or not; other commands take no questions.
    assert!(parsed(&["sparewright", "match", "-x o-ring"]).is_err());
    assert!(parsed(&["sparewright", "run", "-214 o-ring"]).is_err());
}
