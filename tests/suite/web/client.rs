//! A server of the built program on a port of its own, and a client that can say what no browser would.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

/// Longest wait for an answer.
const PATIENCE: Duration = Duration::from_secs(60);

/// A text as it stands in an address: letters and digits as they are, every other byte in percent.
pub fn encoded(text: &str) -> String {
    let bytes = text.bytes().map(|byte| match byte {
        b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' => char::from(byte).to_string(),
        _ => format!("%{byte:02X}"),
    });
    bytes.collect()
}

/// A running server; stopped when dropped.
pub struct Server {
    child: Child,
    pub address: SocketAddr,
    /// Addresses that were printed.
    pub printed: Vec<String>,
}

impl Server {
    /// Starts a server over a workspace at `ip`, on a free port.
    pub fn start(workspace: &Path, ip: &str) -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_sparewright"))
            .args(["serve", "--listen", &format!("{ip}:0"), "--workspace"])
            .arg(workspace)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
        let mut printed = Vec::new();
        for line in lines.by_ref().map(Result::unwrap) {
            printed.extend(
                line.split_whitespace()
                    .filter(|word| word.starts_with("http://"))
                    .map(str::to_owned),
            );
            if line.contains("Ctrl-C stops") {
                break;
            }
        }
        let host = printed.first().expect("an address is printed");
        let host = host.trim_start_matches("http://");
        let address = host[..host.find('/').unwrap()].parse().unwrap();
        Self {
            child,
            address,
            printed,
        }
    }

    /// A server at this machine's own address, over an empty workspace.
    pub fn empty(workspace: &Path) -> Self {
        Self::start(workspace, "127.0.0.1")
    }

    /// Asks for an address.
    pub fn get(&self, path: &str) -> Reply {
        self.send("GET", path, &[], b"")
    }

    /// Sends a form.
    pub fn post(&self, path: &str, fields: &str) -> Reply {
        let kind = ("Content-Type", "application/x-www-form-urlencoded");
        self.send("POST", path, &[kind], fields.as_bytes())
    }

    /// Drops files on the page.
    pub fn upload(&self, files: &[(&str, &[u8])]) -> Reply {
        let (kind, body) = multipart(files);
        self.send("POST", "/import", &[("Content-Type", &kind)], &body)
    }

    /// Sends a request with its own `Host`.
    pub fn send(&self, method: &str, path: &str, headers: &[(&str, &str)], body: &[u8]) -> Reply {
        let host = self.address.to_string();
        let mut all = vec![("Host", host.as_str())];
        all.extend_from_slice(headers);
        self.send_raw(method, path, &all, body)
    }

    /// Sends a request with just these headers besides the length.
    pub fn send_raw(
        &self,
        method: &str,
        path: &str,
        headers: &[(&str, &str)],
        body: &[u8],
    ) -> Reply {
        let mut stream = self.connect();
        let mut head = format!("{method} {path} HTTP/1.1\r\nConnection: close\r\n");
        for (name, value) in headers {
            head.push_str(&format!("{name}: {value}\r\n"));
        }
        head.push_str(&format!("Content-Length: {}\r\n\r\n", body.len()));
        stream.write_all(head.as_bytes()).unwrap();
        // The server may refuse before it has read everything.
        let _ = stream.write_all(body);
        Reply::read(&mut stream)
    }

    /// A bare connection.
    pub fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(self.address).unwrap();
        stream.set_read_timeout(Some(PATIENCE)).unwrap();
        stream
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// An answer.
#[derive(Debug)]
pub struct Reply {
    pub status: u16,
    pub head: String,
    pub body: Vec<u8>,
}

impl Reply {
    /// Reads an answer to the end of its connection; status 0 where none came.
    pub fn read(stream: &mut TcpStream) -> Self {
        let mut bytes = Vec::new();
        let _ = stream.read_to_end(&mut bytes);
        let end = bytes.windows(4).position(|four| four == b"\r\n\r\n");
        let (head, body) = match end {
            Some(end) => (bytes[..end].to_vec(), bytes[end + 4..].to_vec()),
            None => (bytes, Vec::new()),
        };
        let head = String::from_utf8(head).unwrap();
        let status = head.split(' ').nth(1).and_then(|word| word.parse().ok());
        Self {
            status: status.unwrap_or(0),
            head,
            body,
        }
    }

    pub fn text(&self) -> String {
        String::from_utf8_lossy(&self.body).into_owned()
    }

    /// A header, by its name in small letters.
    pub fn header(&self, name: &str) -> Option<&str> {
        let lines = self.head.lines().filter_map(|line| line.split_once(": "));
        lines
            .filter(|(own, _)| own.eq_ignore_ascii_case(name))
            .map(|(_, value)| value)
            .next()
    }

    /// The key that the proposal asks to be confirmed with.
    pub fn key(&self) -> String {
        let text = self.text();
        let at = text.find("name=\"key\" value=\"").expect("a key") + 18;
        text[at..at + 32].to_owned()
    }
}

/// Content type and body of an upload.
pub fn multipart(files: &[(&str, &[u8])]) -> (String, Vec<u8>) {
    const EDGE: &str = "----------edge-of-a-part";
    let mut body = Vec::new();
    for (name, bytes) in files {
        let head = format!(
            "--{EDGE}\r\nContent-Disposition: form-data; name=\"files\"; filename=\"{}\"\r\n\r\n",
            name.replace('"', "%22")
        );
        body.extend_from_slice(head.as_bytes());
        body.extend_from_slice(bytes);
        body.extend_from_slice(b"\r\n");
    }
    body.extend_from_slice(format!("--{EDGE}--\r\n").as_bytes());
    (format!("multipart/form-data; boundary={EDGE}"), body)
}

#[test]
fn the_client_can_tell_an_answer_from_none() {
    let listener = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
    let address = listener.local_addr().unwrap();
    std::thread::spawn(move || {
        let (mut stream, _) = listener.accept().unwrap();
        stream
            .write_all(b"HTTP/1.1 418 no\r\nA-B: c\r\n\r\nbody")
            .unwrap();
        drop(stream);
        let _ = listener.accept();
    });
    let reply = Reply::read(&mut TcpStream::connect(address).unwrap());
    assert_eq!((reply.status, reply.header("a-b")), (418, Some("c")));
    assert_eq!(reply.text(), "body");
    assert_eq!(
        Reply::read(&mut TcpStream::connect(address).unwrap()).status,
        0
    );
}
