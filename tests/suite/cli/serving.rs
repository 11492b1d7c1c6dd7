//! `serve` as a process: what it prints, how it ends, and what it says where it cannot begin.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::process::{Child, Command, Stdio};

use super::program::Bench;

/// Starts a server on a free port of the loopback address; the line it prints.
fn started(bench: &Bench, workspace: &str) -> (Child, String) {
    started_with(bench, &["--workspace", workspace])
}

/// As [`started`], with all but the address.
fn started_with(bench: &Bench, arguments: &[&str]) -> (Child, String) {
    let mut child = Command::new(env!("CARGO_BIN_EXE_sparewright"))
        .args(["serve", "--listen", "127.0.0.1:0"])
        .args(arguments)
        .current_dir(bench.path())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut line = String::new();
    BufReader::new(child.stdout.as_mut().unwrap())
        .read_line(&mut line)
        .unwrap();
    (child, line)
}

fn address(line: &str) -> String {
    let rest = line.split("http://").nth(1).unwrap();
    rest.split('/').next().unwrap().to_owned()
}

/// What the server of a line answers.
fn answer(line: &str, path: &str) -> String {
    let host = address(line);
    let mut stream = TcpStream::connect(&host).unwrap();
    let ask = format!("GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n");
    stream.write_all(ask.as_bytes()).unwrap();
    let mut answer = String::new();
    stream.read_to_string(&mut answer).unwrap();
    answer
}

#[test]
fn it_says_where_to_go_and_makes_the_workspace() {
    let bench = Bench::new();
    let (mut child, line) = started(&bench, "new");
    assert!(
        line.starts_with("Open http://127.0.0.1:") && line.contains("Ctrl-C stops"),
        "{line}"
    );
    let answer = answer(&line, "/");
    assert!(answer.starts_with("HTTP/1.1 200"), "{answer:.200}");
    assert!(bench.path().join("new").is_dir());
    child.kill().unwrap();
    child.wait().unwrap();
}

#[test]
fn a_language_that_is_asked_for_holds_for_the_line_and_the_pages() {
    let bench = Bench::new();
    let asked = ["--workspace", "new", "--language", "de"];
    let (mut child, line) = started_with(&bench, &asked);
    assert!(
        line.starts_with("http://127.0.0.1:") && line.contains("Strg-C beendet"),
        "{line}"
    );
    // This client names no language at all.
    let answer = answer(&line, "/");
    assert!(answer.contains("<html lang=\"de\">"), "{answer:.900}");
    child.kill().unwrap();
    child.wait().unwrap();
    let errors = bench.run(&["serve", "--workspace", "new", "--language", "xx"]);
    assert_eq!(errors.code, 2, "{}", errors.errors);
}

#[cfg(unix)]
#[test]
fn a_signal_ends_it_with_0_and_nothing_left_to_say() {
    for signal in ["-INT", "-TERM"] {
        let bench = Bench::new();
        let (mut child, line) = started(&bench, "new");
        assert!(line.contains("http://"), "{line}");
        // Once it answers it listens to signals too.
        assert!(answer(&line, "/").starts_with("HTTP/1.1 200"));
        // An open connection that asks nothing does not hold it up.
        let _idle = TcpStream::connect(address(&line)).unwrap();
        Command::new("kill")
            .args([signal, &child.id().to_string()])
            .status()
            .unwrap();
        let status = child.wait().unwrap();
        let mut said = String::new();
        child
            .stderr
            .take()
            .unwrap()
            .read_to_string(&mut said)
            .unwrap();
        assert_eq!((status.code(), said.as_str()), (Some(0), ""), "{signal}");
        assert!(
            TcpStream::connect(address(&line)).is_err(),
            "the port is free again"
        );
    }
}

#[test]
fn a_port_that_is_taken_is_told_with_another_one() {
    let bench = Bench::new();
    let taken = TcpListener::bind("127.0.0.1:0").unwrap();
    let at = taken.local_addr().unwrap().to_string();
    let errors = bench.refused(&["serve", "--workspace", "new", "--listen", &at], 3);
    assert!(
        errors.contains(&format!("`{at}` cannot be listened to")),
        "{errors}"
    );
    assert!(
        errors.contains("hint: give a free port with --listen"),
        "{errors}"
    );
}

#[test]
fn an_address_of_another_machine_or_of_all_is_refused() {
    let bench = Bench::new();
    // 192.0.2.0/24 is for documentation (RFC 5737): no interface of this machine has it.
    let errors = bench.refused(
        &["serve", "--workspace", "new", "--listen", "192.0.2.7:8090"],
        3,
    );
    assert!(errors.contains("cannot be listened to"), "{errors}");
    for all in ["0.0.0.0:0", "[::]:0"] {
        let errors = bench.refused(&["serve", "--workspace", "new", "--listen", all], 3);
        assert!(errors.contains("stands for every address"), "{errors}");
        assert!(
            errors.contains("hint: such as --listen 192.168.1.20:8090"),
            "{errors}"
        );
    }
}

#[test]
fn a_folder_that_holds_something_else_is_no_workspace() {
    let bench = Bench::new();
    let errors = bench.refused(
        &["serve", "--workspace", "shop", "--listen", "127.0.0.1:0"],
        3,
    );
    assert!(errors.contains("is not a workspace"), "{errors}");
    assert!(bench.path().join("shop/parts.csv").is_file());
    assert!(
        !bench.path().join("shop/current").exists(),
        "nothing was put there"
    );
}

#[test]
fn two_servers_over_one_workspace_both_answer() {
    let bench = Bench::new();
    bench.said(&["import", "shop", "--workspace", "kept"]);
    let (mut one, first) = started(&bench, "kept");
    let (mut other, second) = started(&bench, "kept");
    assert_ne!(address(&first), address(&second));
    for line in [&first, &second] {
        let answer = answer(line, "/answer?q=A-1");
        assert!(answer.contains("6205-2RS"), "{answer:.500}");
    }
    // An import beside them is seen by both.
    bench.write("more.csv", "part no,designation\nZ-9,6310\n");
    bench.said(&["import", "more.csv", "--workspace", "kept"]);
    for line in [&first, &second] {
        assert!(answer(line, "/answer?q=Z-9").contains("6310"));
    }
    for child in [&mut one, &mut other] {
        child.kill().unwrap();
        child.wait().unwrap();
    }
}
