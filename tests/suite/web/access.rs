//! Foreign names, foreign sites, and the two keys. The attacks are those of OWASP's cheat sheets on cross-site request
//! forgery (standard headers to verify origin) and of the published descriptions of DNS rebinding.

use std::net::UdpSocket;

use super::client::Server;
use crate::skipped::skipped;

#[test]
fn only_the_named_host_is_answered() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let port = server.address.port();
    let own = format!("127.0.0.1:{port}");
    let local = format!("localhost:{port}");
    for host in [&own, &local] {
        assert_eq!(
            server.send_raw("GET", "/", &[("Host", host)], b"").status,
            200
        );
    }
    let rebound = format!("rebound.example:{port}");
    for host in ["127.0.0.1", "localhost", "rebound.example", &rebound, ""] {
        let reply = server.send_raw("GET", "/", &[("Host", host)], b"");
        assert_eq!(reply.status, 421, "{host}");
    }
    let twice = server.send_raw("GET", "/", &[("Host", &own), ("Host", &rebound)], b"");
    assert!(twice.status == 421 || twice.status == 400, "{}", twice.head);
}

#[test]
fn a_form_of_another_site_changes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    for origin in ["http://shop.example", "null", "https://127.0.0.1"] {
        let reply = server.send("POST", "/import/cancel", &[("Origin", origin)], b"key=x");
        assert_eq!(reply.status, 403, "{origin}");
    }
    let own = format!("http://{}", server.address);
    let kind = ("Content-Type", "application/x-www-form-urlencoded");
    let headers = [("Origin", own.as_str()), kind];
    let reply = server.send("POST", "/import/cancel", &headers, b"key=x");
    assert_eq!(reply.status, 303);
}

#[test]
fn files_that_wait_for_a_yes_are_not_taken_by_a_form_of_another_site() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let workspace = sparewright::store::Workspace::open(folder.path()).unwrap();
    let list: &[u8] = b"Part no;Designation\nB-1;6205\n";
    let upload = super::client::multipart(&[("parts.csv", list)]);
    let kind = ("Content-Type", upload.0.as_str());
    let foreign = ("Origin", "http://shop.example");
    let refused = server.send("POST", "/import", &[foreign, kind], &upload.1);
    assert_eq!(refused.status, 403);

    // Even with the key of the proposal, which no other site can read.
    let own = server.upload(&[("parts.csv", list)]);
    let fields = format!("key={}", own.key());
    let form = ("Content-Type", "application/x-www-form-urlencoded");
    for from in [
        foreign,
        ("Origin", "null"),
        ("Referer", "http://shop.example/page"),
        ("Sec-Fetch-Site", "cross-site"),
        ("Sec-Fetch-Site", "same-site"),
    ] {
        for address in ["/import/confirm", "/import/cancel", "/import/undo"] {
            let reply = server.send("POST", address, &[from, form], fields.as_bytes());
            assert_eq!(reply.status, 403, "{address} {from:?}");
        }
    }
    assert_eq!(workspace.number().unwrap(), 0);
    let taken = server.post("/import/confirm", &fields);
    assert_eq!((taken.status, workspace.number().unwrap()), (303, 1));
}

#[test]
fn every_answer_forbids_foreign_content_and_guessing() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let refused = server.send_raw("GET", "/", &[("Host", "rebound.example")], b"");
    for reply in [server.get("/"), server.get("/nowhere"), refused] {
        let policy = reply.header("content-security-policy").unwrap();
        assert!(policy.contains("default-src 'none'") && policy.contains("frame-ancestors 'none'"));
        assert!(!policy.contains("unsafe"), "{policy}");
        assert_eq!(reply.header("x-content-type-options"), Some("nosniff"));
        assert_eq!(reply.header("cache-control"), Some("no-store"));
    }
}

/// An address of this machine that is not the loopback one. Nothing is sent.
fn outside_address() -> Option<String> {
    let socket = UdpSocket::bind("0.0.0.0:0").ok()?;
    // A documentation address (RFC 5737): only the way to it is looked up.
    socket.connect("192.0.2.1:9").ok()?;
    let ip = socket.local_addr().ok()?.ip();
    (!ip.is_loopback() && !ip.is_unspecified()).then(|| ip.to_string())
}

#[test]
fn a_phone_needs_a_key_and_the_key_for_looking_imports_nothing() {
    let Some(ip) = outside_address() else {
        skipped("this machine has no address but its loopback one");
        return;
    };
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(folder.path(), &ip);
    let keys: Vec<&str> = server
        .printed
        .iter()
        .filter_map(|url| url.split_once("?key=").map(|(_, key)| key))
        .collect();
    let [look, import] = keys[..] else {
        panic!("two addresses with keys: {:?}", server.printed);
    };
    assert_ne!(look, import);

    assert_eq!(server.get("/").status, 401);
    assert_eq!(server.get("/answer?q=6308").status, 401);
    assert_eq!(server.get("/?key=0123").status, 403);

    let welcome = server.get(&format!("/overview?key={look}"));
    assert_eq!(
        (welcome.status, welcome.header("location")),
        (303, Some("/overview"))
    );
    let cookie = welcome.header("set-cookie").unwrap();
    assert!(
        cookie.contains("HttpOnly") && cookie.contains("SameSite"),
        "{cookie}"
    );

    let with = |key: &str, path: &str| {
        let cookie = format!("other=1; sparewright_key={key}");
        server.send("GET", path, &[("Cookie", &cookie)], b"").status
    };
    assert_eq!((with(look, "/"), with(look, "/import")), (200, 403));
    assert_eq!((with(import, "/"), with(import, "/import")), (200, 200));
    assert_eq!(with("", "/"), 401);

    let cookie = format!("sparewright_key={look}");
    let upload = super::client::multipart(&[("parts.csv", b"Part no;Designation\nB-1;6205\n")]);
    let headers = [("Cookie", cookie.as_str()), ("Content-Type", &upload.0)];
    assert_eq!(
        server.send("POST", "/import", &headers, &upload.1).status,
        403
    );
}

#[test]
fn an_address_that_stands_for_all_is_not_listened_to() {
    let folder = tempfile::tempdir().unwrap();
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_sparewright"))
        .args(["serve", "--listen", "0.0.0.0:0", "--workspace"])
        .arg(folder.path())
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(3));
    let words = String::from_utf8(output.stderr).unwrap();
    assert!(words.contains("stands for every address"), "{words}");
}
