//! Help, examples, completions and manual pages of every command: each option is told, and what is shown as an example is
//! a line that the program takes.

use std::collections::BTreeSet;

use super::program::Bench;

/// Every command, `check` with its kinds.
pub const COMMANDS: [&[&str]; 21] = [
    &["run"],
    &["match"],
    &["import"],
    &["history"],
    &["compare"],
    &["restore"],
    &["prune"],
    &["explain"],
    &["kit"],
    &["levels"],
    &["what-if"],
    &["reorder"],
    &["serve"],
    &["check", "life"],
    &["check", "speed"],
    &["check", "static"],
    &["check", "seat"],
    &["check", "oring"],
    &["check", "lip"],
    &["check", "spacer"],
    &["completions"],
];

pub fn help(bench: &Bench, command: &[&str]) -> String {
    bench.said(&[command, &["--help"]].concat())
}

/// Options of a help text, each with its words.
pub fn options(help: &str) -> Vec<(String, String)> {
    let mut found: Vec<(String, String)> = Vec::new();
    let mut is_within = false;
    for line in help.lines() {
        if line.is_empty() {
            continue;
        }
        if !line.starts_with(' ') {
            is_within = line.starts_with("Options:") || line.starts_with("Arguments:");
            continue;
        }
        if !is_within {
            continue;
        }
        let words = line.trim();
        let is_new = words.starts_with('-')
            || words.starts_with('<')
            || words.starts_with('[') && found.is_empty();
        if is_new && line.len() - line.trim_start().len() <= 6 {
            let (name, rest) = words.split_once("  ").unwrap_or((words, ""));
            found.push((name.to_owned(), rest.trim().to_owned()));
        } else if let Some(last) = found.last_mut() {
            last.1 = format!("{} {words}", last.1).trim().to_owned();
        }
    }
    found
}

/// The words of a line as a shell takes them apart.
fn words(line: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut is_quoted = false;
    for sign in line.chars() {
        match sign {
            '"' => is_quoted = !is_quoted,
            ' ' if !is_quoted => words.push(String::new()),
            _ => words.last_mut().unwrap().push(sign),
        }
    }
    words.retain(|word| !word.is_empty());
    words
}

fn examples(help: &str) -> Vec<String> {
    let lines = help.lines().map(str::trim);
    lines
        .filter(|line| line.starts_with("sparewright "))
        .map(str::to_owned)
        .collect()
}

#[test]
fn every_option_is_told_in_a_line_without_a_full_stop() {
    let bench = Bench::new();
    for command in COMMANDS {
        let text = help(&bench, command);
        assert!(text.contains("Usage: sparewright "), "{command:?}: {text}");
        let options = options(&text);
        assert!(
            options.iter().any(|(name, _)| name.contains("--help")),
            "{command:?}: {options:?}"
        );
        for (name, told) in &options {
            assert!(!told.is_empty(), "{command:?} {name} is not told: {text}");
            assert!(!told.ends_with('.'), "{command:?} {name}: {told}");
            let first = told.chars().next().unwrap();
            assert!(
                first.is_uppercase()
                    || !first.is_alphabetic()
                    || told.split(' ').next().unwrap().contains('_'),
                "{command:?} {name}: {told}"
            );
        }
    }
}

#[test]
fn short_and_long_help_are_of_the_same_options() {
    let bench = Bench::new();
    for command in COMMANDS {
        let names = |flag: &str| -> BTreeSet<String> {
            let text = bench.said(&[command, &[flag]].concat());
            let names = options(&text).into_iter().filter_map(|(name, _)| {
                let mut words = name.split([' ', ',']);
                words.find(|word| word.starts_with("--")).map(str::to_owned)
            });
            names.collect()
        };
        assert_eq!(names("-h"), names("--help"), "{command:?}");
    }
    // A command without anything is told what there is, as wrong usage.
    let bare = bench.run(&[]);
    assert_eq!(bare.code, 2);
    assert!(
        bare.errors.contains("Commands:") || bare.errors.contains("Usage:"),
        "{}",
        bare.errors
    );
    assert_eq!(bench.run(&["check"]).code, 2);
    let version = bench.said(&["--version"]);
    assert_eq!(version, bench.said(&["-V"]));
    assert!(
        version.trim().ends_with(env!("CARGO_PKG_VERSION")),
        "{version}"
    );
}

#[test]
fn every_example_is_a_line_that_the_program_takes() {
    let bench = Bench::new();
    let mut taken = 0;
    for command in COMMANDS {
        let text = help(&bench, command);
        let examples = examples(&text);
        assert!(!examples.is_empty(), "{command:?}: no example in {text}");
        for example in examples {
            // What serves does not end by itself; what a shell would do with a pipe is the shell's.
            let line = example.split(['|', '>']).next().unwrap();
            if line.contains(" serve ") {
                continue;
            }
            let words = words(line);
            let arguments: Vec<&str> = words[1..].iter().map(String::as_str).collect();
            assert_eq!(&arguments[..command.len()], command, "{example}");
            let said = bench.run(&arguments);
            // The demo is not in this folder: an input that is not there, but never a wrong line.
            assert!(
                matches!(said.code, 0 | 3),
                "{example}: {} {}",
                said.code,
                said.errors
            );
            assert!(
                !said.errors.contains("Usage:"),
                "{example}: {}",
                said.errors
            );
            taken += 1;
        }
    }
    assert!(taken > 30, "{taken} examples");
}

#[test]
fn completions_of_every_shell_know_every_command() {
    let bench = Bench::new();
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let text = bench.said(&["completions", shell]);
        for command in COMMANDS {
            assert!(text.contains(command[0]), "{shell}: {command:?}");
        }
        assert!(
            text.contains("workspace") && text.contains("dry-run"),
            "{shell}"
        );
    }
}

#[test]
fn a_manual_page_for_every_command_says_what_its_help_says() {
    let bench = Bench::new();
    let written = bench.run(&["man", "--out", "man1"]);
    assert_eq!(written.code, 0, "{}", written.errors);
    for command in COMMANDS {
        let name = format!("sparewright-{}.1", command.join("-"));
        let page = std::fs::read_to_string(bench.path().join("man1").join(&name))
            .unwrap_or_else(|error| panic!("{name}: {error}"));
        assert!(page.contains(".TH") && page.contains(".SH NAME"), "{name}");
        let plain = page.replace("\\-", "-");
        for (option, _) in options(&help(&bench, command)) {
            let long = option.split([' ', ',']).find(|word| word.starts_with("--"));
            if let Some(long) = long {
                assert!(plain.contains(long), "{name}: {long}");
            }
        }
    }
    // One page alone is what the folder holds of it.
    let alone = bench.said(&["man", "kit"]);
    let kept = std::fs::read_to_string(bench.path().join("man1/sparewright-kit.1")).unwrap();
    assert_eq!(alone, kept);
    assert!(bench.said(&["man"]).contains("sparewright"));
}

#[test]
fn misspelt_options_and_values_are_told_with_the_right_one() {
    let bench = Bench::new();
    for (arguments, words) in [
        (
            &["levels", "--shop", "shop", "--tabel", "levels"][..],
            "--table",
        ),
        (&["levels", "--shop", "shop", "--form", "csv"], "--format"),
        (&["levels", "--shop", "shop", "--format", "jsn"], "json"),
        (&["import", "shop", "--workspce", "kept"], "--workspace"),
        (&["levles", "--shop", "shop"], "levels"),
        (&["levels", "--shop", "shop", "--language", "ed"], "en, de"),
    ] {
        let errors = bench.refused(arguments, 2);
        assert!(errors.contains(words), "{arguments:?}: {errors}");
    }
}
