//! The local page on a catalogue of 1,000,000 parts: fifty clients ask at once, each again as soon as it has its answer.
//!
//! The baseline is the same clients asking the same server for its icon, which takes no work: what is left is connection,
//! scheduling and the clients themselves, which share the machine with the server. Times are those the clients see, so
//! that the time within the server is below them.

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
/// Time of the 99th percentile that is aimed at, milliseconds.
const AIM_MS: f64 = 20.0;

/// Prints the times of answers; `count` parts.
pub fn report(count: usize) {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    println!("serve: {count} parts, {CLIENTS} clients");
    drop(filled(folder.path(), count));
    let mut server = Server::start(folder.path());
    let start = Instant::now();
    let first = ask(&mut server.connect(), "/answer?q=6308");
    assert!(first.contains("6308"), "the first question is answered");
    println!(
        "  first answer, with the index made: {:.1} s",
        start.elapsed().as_secs_f64()
    );

    let nothing: Vec<Vec<String>> = vec![vec!["/asset/icon.svg".to_owned(); QUESTIONS]; CLIENTS];
    print("icon (baseline)", &all_at_once(&server, &nothing), None);
    let mixed: Vec<String> = SHAPES
        .iter()
        .flat_map(|shape| questions(shape, CLIENTS * QUESTIONS / SHAPES.len() + 1))
        .map(|question| format!("/answer?q={}", encoded(&question)))
        .collect();
    // Every client asks every shape.
    let dealt: Vec<Vec<String>> = (0..CLIENTS)
        .map(|client| {
            mixed
                .iter()
                .skip(client)
                .step_by(CLIENTS)
                .take(QUESTIONS)
                .cloned()
                .collect()
        })
        .collect();
    all_at_once(&server, &dealt);
    print(
        "questions of every shape",
        &all_at_once(&server, &dealt),
        Some(AIM_MS),
    );
    server.stop();
}

fn print(what: &str, times: &[Duration], aim_ms: Option<f64>) {
    let (middle_us, late_us) = percentiles(times.to_vec());
    let aim = aim_ms.map_or_else(String::new, |aim| {
        format!(
            "  aim {aim}  {}",
            if late_us <= 1e3 * aim {
                "met"
            } else {
                "MISSED"
            }
        )
    });
    println!(
        "  {what:<26} p50 {:7.2} ms  p99 {:7.2} ms{aim}  ({} answers)",
        middle_us / 1e3,
        late_us / 1e3,
        times.len()
    );
}

/// Times of all answers of all clients.
fn all_at_once(server: &Server, asked: &[Vec<String>]) -> Vec<Duration> {
    std::thread::scope(|scope| {
        let clients: Vec<_> = asked
            .iter()
            .map(|paths| {
                scope.spawn(|| {
                    let mut stream = server.connect();
                    let times = paths.iter().map(|path| {
                        let start = Instant::now();
                        let _ = ask(&mut stream, path);
                        start.elapsed()
                    });
                    times.collect::<Vec<_>>()
                })
            })
            .collect();
        let times = clients
            .into_iter()
            .map(|client| client.join().expect("no client fails"));
        times.flatten().collect()
    })
}

/// Sends one request on a connection that stays open, and reads its answer.
fn ask(stream: &mut BufReader<TcpStream>, path: &str) -> String {
    let host = stream
        .get_ref()
        .peer_addr()
        .expect("the server is connected");
    let request = format!("GET {path} HTTP/1.1\r\nHost: {host}\r\n\r\n");
    stream
        .get_mut()
        .write_all(request.as_bytes())
        .expect("the server listens");
    let (mut length, mut line) = (0, String::new());
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
        if line.trim().is_empty() {
            break;
        }
    }
    let mut body = vec![0; length];
    stream
        .read_exact(&mut body)
        .expect("the server answers in full");
    String::from_utf8_lossy(&body).into_owned()
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
