//! The local page on a catalogue of 1,000,000 parts and fifty clients, in two ways of asking:
//!
//! - *typing*: each client asks every 150 ms, which is the oftenest that the page itself asks (`page.js` waits so long after a
//!   key), without a pause between questions: fifty people who all type all the time.
//! - *saturating*: each asks again as soon as it has its answer. What is measured then is mostly the queue before two cores.
//!
//! The server's time is that of its `Server-Timing` header: from the head of the request being read to the answer being made.
//! The clients' time is on top of that whatever waits before a core is free to read the head, the connection, and the clients
//! themselves, which share the machine with the server. The baseline is the same clients asking for the page's icon, which
//! takes no work.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use crate::lookup::{COMMAND, filled, percentiles};
use crate::shape::{SHAPES, questions};

/// Name on the command line.
pub const NAME: &str = "serve";
/// Clients at once.
const CLIENTS: usize = 50;
/// Questions of each client.
const QUESTIONS: usize = 100;
/// What a typing client waits from one question to the next.
const PAUSE: Duration = Duration::from_millis(150);
/// Time of the 99th percentile that is aimed at, milliseconds, within the server.
const AIM_MS: f64 = 20.0;

/// How the clients ask.
#[derive(Debug, Clone, Copy)]
enum Way {
    Typing,
    Saturating,
}

/// One answer: what the client waited, and what the server says it took.
#[derive(Debug, Clone, Copy)]
struct Answered {
    client: Duration,
    server: Duration,
}

/// Prints the times of answers; `count` parts.
pub fn report(count: usize) {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    println!("serve: {count} parts, {CLIENTS} clients");
    drop(filled(folder.path(), count));
    let mut server = Server::start(folder.path());
    let start = Instant::now();
    let (first, _) = ask(&mut server.connect(), "/answer?q=6308", "en");
    assert!(first.contains("6308"), "the first question is answered");
    println!(
        "  first answer, with the index made: {:.1} s",
        start.elapsed().as_secs_f64()
    );

    let nothing: Vec<Vec<String>> = vec![vec!["/asset/icon.svg".to_owned(); QUESTIONS]; CLIENTS];
    let dealt = dealt();
    for (what, way) in [("typing", Way::Typing), ("saturating", Way::Saturating)] {
        let icon = all_at_once(&server, &nothing, way, "en");
        print(&format!("icon (baseline), {what}"), &icon, None);
        for language in ["en", "de"] {
            // Once unmeasured: pages of the index and texts that were said before are at hand in a server that runs.
            all_at_once(&server, &dealt, Way::Saturating, language);
            let answers = all_at_once(&server, &dealt, way, language);
            print(
                &format!("every shape, {language}, {what}"),
                &answers,
                Some(AIM_MS),
            );
        }
    }
    server.stop();
}

/// Questions of every shape for every client.
fn dealt() -> Vec<Vec<String>> {
    let mixed: Vec<String> = SHAPES
        .iter()
        .flat_map(|shape| questions(shape, CLIENTS * QUESTIONS / SHAPES.len() + 1))
        .map(|question| format!("/answer?q={}", encoded(&question)))
        .collect();
    let of_client = |client| mixed.iter().skip(client).step_by(CLIENTS).take(QUESTIONS);
    (0..CLIENTS)
        .map(|client| of_client(client).cloned().collect())
        .collect()
}

fn print(what: &str, answers: &[Answered], aim_ms: Option<f64>) {
    let (server_p50, server_p99) = percentiles(answers.iter().map(|of| of.server).collect());
    let (client_p50, client_p99) = percentiles(answers.iter().map(|of| of.client).collect());
    let aim = aim_ms.map_or_else(String::new, |aim| {
        let is_met = server_p99 <= 1e3 * aim;
        format!("  aim {aim}  {}", if is_met { "met" } else { "MISSED" })
    });
    println!(
        "  {what:<30} server p50 {:6.2} ms  p99 {:6.2} ms{aim}   client p50 {:6.2} ms  p99 {:6.2} ms  ({} answers)",
        server_p50 / 1e3,
        server_p99 / 1e3,
        client_p50 / 1e3,
        client_p99 / 1e3,
        answers.len()
    );
}

/// Times of all answers of all clients.
fn all_at_once(server: &Server, asked: &[Vec<String>], way: Way, language: &str) -> Vec<Answered> {
    std::thread::scope(|scope| {
        let clients: Vec<_> = asked
            .iter()
            .enumerate()
            .map(|(client, paths)| {
                // People do not type in step.
                let first = PAUSE * client as u32 / CLIENTS as u32;
                scope.spawn(move || one_client(server, paths, way, first, language))
            })
            .collect();
        let times = clients
            .into_iter()
            .map(|client| client.join().expect("no client fails"));
        times.flatten().collect()
    })
}

fn one_client(
    server: &Server,
    paths: &[String],
    way: Way,
    first: Duration,
    language: &str,
) -> Vec<Answered> {
    let mut stream = server.connect();
    let mut next = Instant::now() + first;
    let answers = paths.iter().map(|path| {
        if matches!(way, Way::Typing) {
            std::thread::sleep(next.saturating_duration_since(Instant::now()));
            next += PAUSE;
        }
        let start = Instant::now();
        let (_, server) = ask(&mut stream, path, language);
        Answered {
            client: start.elapsed(),
            server,
        }
    });
    answers.collect()
}

/// Sends one request on a connection that stays open; its answer, and what the server says it took.
fn ask(stream: &mut BufReader<TcpStream>, path: &str, language: &str) -> (String, Duration) {
    let host = stream
        .get_ref()
        .peer_addr()
        .expect("the server is connected");
    let request =
        format!("GET {path} HTTP/1.1\r\nHost: {host}\r\nAccept-Language: {language}\r\n\r\n");
    stream
        .get_mut()
        .write_all(request.as_bytes())
        .expect("the server listens");
    let (mut length, mut took_ms, mut line) = (0, None, String::new());
    let mut is_first = true;
    loop {
        line.clear();
        stream.read_line(&mut line).expect("the server answers");
        if is_first {
            assert!(line.starts_with("HTTP/1.1 200"), "{path}: {line}");
            is_first = false;
        }
        let name = line.to_ascii_lowercase();
        if let Some(bytes) = name.strip_prefix("content-length:") {
            length = bytes.trim().parse().expect("a length");
        }
        if let Some(took) = name.strip_prefix("server-timing: answer;dur=") {
            took_ms = took.trim().parse::<f64>().ok();
        }
        if line.trim().is_empty() {
            break;
        }
    }
    let mut body = vec![0; length];
    stream
        .read_exact(&mut body)
        .expect("the server answers in full");
    let took = took_ms.expect("the server says what it took");
    (
        String::from_utf8_lossy(&body).into_owned(),
        Duration::from_secs_f64(took / 1e3),
    )
}

fn encoded(text: &str) -> String {
    text.bytes().map(|byte| format!("%{byte:02X}")).collect()
}

/// This program's own copy of `sparewright serve`.
struct Server {
    child: Child,
    address: String,
}

impl Server {
    fn start(workspace: &std::path::Path) -> Self {
        let program = std::env::current_exe().expect("this program has a path");
        let mut child = Command::new(program)
            .args([COMMAND, "serve", "--listen", "127.0.0.1:0", "--workspace"])
            .arg(workspace)
            .stdout(Stdio::piped())
            .spawn()
            .expect("this program can run itself");
        let mut line = String::new();
        let out = child.stdout.take().expect("it is piped");
        BufReader::new(out)
            .read_line(&mut line)
            .expect("the address is printed");
        let address = line
            .split("http://")
            .nth(1)
            .and_then(|rest| rest.split('/').next());
        let address = address.expect("the address is printed").to_owned();
        Self { child, address }
    }

    fn connect(&self) -> BufReader<TcpStream> {
        let stream = TcpStream::connect(&self.address).expect("the server listens");
        stream.set_nodelay(true).expect("a plain connection");
        BufReader::new(stream)
    }

    fn stop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.stop();
    }
}
