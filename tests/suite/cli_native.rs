//! The command as a shell knows it: pipes that close, narrow and wide terminals, no colours, completions, suggestions.

use std::io::Read;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use crate::imported::demo_workspace;
use crate::skipped::skipped;

fn command(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_sparewright"));
    command.args(arguments);
    command
}

fn run(arguments: &[&str]) -> Output {
    command(arguments).output().unwrap()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

fn demo() -> String {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/demo");
    demo.to_string_lossy().into_owned()
}

fn workspace() -> &'static str {
    demo_workspace().to_str().unwrap()
}

/// Commands that print much, each with its arguments.
fn printing() -> Vec<Vec<String>> {
    let (demo, shop) = (demo(), workspace());
    let out = Path::new(shop).parent().unwrap().join("out");
    [
        vec!["--help"],
        vec!["kit", "--help"],
        vec!["match", "30 x 62 x 16 deep groove", "--shop", &demo],
        vec!["kit", "Pellet press", "--shop", &demo],
        vec!["kit", "Pellet press", "--shop", &demo, "--table", "curve"],
        vec!["run", &demo, "--out", out.to_str().unwrap()],
        vec![
            "run",
            &demo,
            "--out",
            out.to_str().unwrap(),
            "--table",
            "orders",
        ],
        vec!["history", "--workspace", shop],
        vec!["explain", "BRG-0106", "--workspace", shop],
        vec![
            "check",
            "seat",
            "--diameter",
            "25",
            "--seat",
            "k6",
            "--clearance",
            "CN",
        ],
    ]
    .into_iter()
    .map(|words| words.into_iter().map(str::to_owned).collect())
    .collect()
}

#[test]
fn a_closed_pipe_ends_quietly_with_0() {
    for arguments in printing() {
        let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
        let mut child = command(&words)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        // As `head -0` does: nobody reads.
        drop(child.stdout.take());
        let mut said = String::new();
        child
            .stderr
            .take()
            .unwrap()
            .read_to_string(&mut said)
            .unwrap();
        assert_eq!(child.wait().unwrap().code(), Some(0), "{words:?}: {said}");
        assert_eq!(said, "", "{words:?}");
    }
}

#[test]
fn lines_fit_terminals_from_60_to_200_columns() {
    for width in [60, 80, 120, 200] {
        for arguments in printing() {
            // Help is clap's own, which looks at terminals only.
            if arguments.iter().any(|word| word == "--help") {
                continue;
            }
            let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
            let output = command(&words)
                .env("COLUMNS", width.to_string())
                .output()
                .unwrap();
            assert_eq!(
                output.status.code(),
                Some(0),
                "{words:?}: {}",
                text(&output.stderr)
            );
            for line in text(&output.stdout).lines() {
                // A word longer than the line, such as a path, is never broken.
                let is_one_word = line.split_whitespace().count() <= 2;
                let length = line.chars().count();
                assert!(
                    length <= width || is_one_word,
                    "{words:?} at {width}: {length}: {line}"
                );
            }
        }
    }
}

#[test]
fn nothing_is_coloured_with_or_without_no_color() {
    for arguments in printing() {
        let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
        for value in ["", "1"] {
            let output = command(&words).env("NO_COLOR", value).output().unwrap();
            for stream in [&output.stdout, &output.stderr] {
                assert!(!stream.contains(&0x1b), "{words:?} prints an escape");
            }
        }
    }
}

#[test]
fn a_terminal_that_asks_for_no_colour_gets_none() {
    // A terminal of its own by `script` (util-linux).
    if Command::new("script").arg("--version").output().is_err() {
        skipped("script (util-linux) is not installed");
        return;
    }
    let line = format!(
        "stty rows 40 cols 70; NO_COLOR=1 '{}' match '30 x 62 x 16 deep groove'",
        env!("CARGO_BIN_EXE_sparewright")
    );
    let output = Command::new("script")
        .args(["-qec", &line, "/dev/null"])
        .output()
        .unwrap();
    let said = text(&output.stdout);
    assert!(said.contains("6206"), "{said}");
    assert!(!said.contains('\u{1b}'), "{said}");
    for line in said.lines() {
        assert!(line.trim_end().chars().count() <= 70, "{line}");
    }
}

#[test]
fn misspelt_names_get_a_suggestion() {
    let (demo, shop) = (demo(), workspace());
    for (arguments, hint) in [
        (
            vec!["kit", "Pelet pres PP-3 press rols", "--shop", &demo],
            "did you mean `Pellet press PP-3 press rolls`?",
        ),
        (
            vec![
                "kit",
                "Pellet press",
                "--shop",
                &demo,
                "--without",
                "Vossenkamper Lagerkontro",
            ],
            "did you mean `Vossenkamper Lagerkontor`?",
        ),
        (
            vec![
                "kit",
                "Pellet press",
                "--shop",
                &demo,
                "--without",
                "Vossenkamper Lagerkontor/MSC-0163",
            ],
            "did you mean `Vossenkamper Lagerkontor/MSC-0136`?",
        ),
        (
            vec!["kit", "Pellet press", "--shop", &demo, "--table", "cruve"],
            "did you mean `curve`?",
        ),
        (
            vec!["explain", "BRG-01O6", "--workspace", shop],
            "did you mean `BRG-0106`?",
        ),
        (
            vec![
                "check",
                "life",
                "--family",
                "deep_grove_ball",
                "--rating",
                "9",
                "--load",
                "1",
            ],
            "did you mean `deep_groove_ball`?",
        ),
        (vec!["man", "mtach"], "did you mean `match`?"),
        (vec!["mtach", "6206"], "did you mean `match`?"),
    ] {
        let output = run(&arguments);
        let said = text(&output.stderr);
        assert!(
            matches!(output.status.code(), Some(2 | 3)),
            "{arguments:?}: {said}"
        );
        assert!(said.contains(hint), "{arguments:?}: {said}");
        assert!(output.stdout.is_empty(), "{arguments:?}");
    }
}

#[test]
fn completions_are_taken_by_their_shell_and_manual_pages_by_their_reader() {
    let folder = tempfile::tempdir().unwrap();
    let bash = run(&["completions", "bash"]);
    assert_eq!(bash.status.code(), Some(0));
    let path = folder.path().join("sparewright.bash");
    std::fs::write(&path, &bash.stdout).unwrap();
    // bash itself completes `sparewright k`.
    let line = format!(
        "source '{}'; COMP_WORDS=(sparewright k); COMP_CWORD=1; _sparewright sparewright k sparewright; echo \"${{COMPREPLY[@]}}\"",
        path.display()
    );
    match Command::new("bash").args(["-c", &line]).output() {
        Ok(output) => assert_eq!(
            text(&output.stdout).trim(),
            "kit",
            "{}",
            text(&output.stderr)
        ),
        Err(_) => skipped("no bash"),
    }
    let out = folder.path().join("man");
    let output = run(&["man", "--out", out.to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert!(
        out.join("sparewright-kit.1").is_file() && out.join("sparewright-check-life.1").is_file()
    );
    match Command::new("man")
        .arg("-l")
        .arg(out.join("sparewright.1"))
        .env("MANPAGER", "cat")
        .output()
    {
        Ok(output) if output.status.success() => {
            let page = text(&output.stdout);
            assert!(
                page.contains("Exit codes") && page.contains("sparewright run data/demo"),
                "{page}"
            );
        }
        _ => skipped("no man, or none that shows a page"),
    }
}

#[test]
fn forms_are_the_same_for_every_command_that_has_them() {
    let (demo, shop) = (demo(), workspace());
    let out = Path::new(shop).parent().unwrap().join("forms");
    let out = out.to_str().unwrap();
    for arguments in [
        vec!["run", &demo, "--out", out, "--format", "json"],
        vec![
            "run", &demo, "--out", out, "--table", "kits", "--format", "json",
        ],
        vec!["kit", "Pellet press", "--shop", &demo, "--format", "json"],
        vec!["match", "6206", "--format", "json"],
        vec!["history", "--workspace", shop, "--format", "json"],
        vec![
            "explain",
            "BRG-0106",
            "--workspace",
            shop,
            "--format",
            "json",
        ],
        vec![
            "check", "lip", "--shaft", "35", "--rpm", "1450", "--format", "json",
        ],
    ] {
        let output = run(&arguments);
        assert_eq!(
            output.status.code(),
            Some(0),
            "{arguments:?}: {}",
            text(&output.stderr)
        );
        let json: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
        assert!(json["schema"].is_number(), "{arguments:?}");
    }
    let csv = run(&[
        "run", &demo, "--out", out, "--table", "orders", "--format", "csv",
    ]);
    let file = std::fs::read(Path::new(out).join("orders.csv")).unwrap();
    assert_eq!(csv.stdout, file);
}
