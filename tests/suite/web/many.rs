//! Slow clients, many clients, and the command line at work at the same time.

use std::io::{Read, Write};
use std::time::Duration;

use sparewright::store::Workspace;

use super::client::Server;
use crate::imported;

/// A parts list of `count` rows with a stock list beside it: part `B-n` lies `count` times in its bin.
fn lists(count: usize) -> (String, String) {
    let mut parts = "Part no;Designation;Description;Unit\n".to_owned();
    let mut stock = "Part no;Bin;On hand;Unit\n".to_owned();
    for number in 0..count {
        parts.push_str(&format!("B-{number};6308;Bearing {number};pcs\n"));
        stock.push_str(&format!("B-{number};R-{count};{count};pcs\n"));
    }
    (parts, stock)
}

#[test]
fn slow_clients_hold_up_nobody_and_are_shown_out() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let mut slow: Vec<_> = (0..100)
        .map(|_| {
            let mut stream = server.connect();
            stream.write_all(b"GET / HTTP/1.1\r\nHo").unwrap();
            stream
        })
        .collect();
    assert_eq!(server.get("/answer?q=6308").status, 200);
    // The server gives a head 10 s.
    let first = &mut slow[0];
    first
        .set_read_timeout(Some(Duration::from_secs(40)))
        .unwrap();
    let mut rest = Vec::new();
    let end = first.read_to_end(&mut rest);
    assert!(
        end.is_ok() || end.is_err_and(|error| error.kind() == std::io::ErrorKind::ConnectionReset)
    );
}

#[test]
fn an_upload_that_stops_on_its_way_is_ended_and_leaves_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let head = format!(
        "POST /import HTTP/1.1\r\nHost: {}\r\nContent-Type: multipart/form-data; boundary=x\r\nContent-Length: 100000\r\n\r\n",
        server.address
    );
    let begun =
        b"--x\r\nContent-Disposition: form-data; name=\"files\"; filename=\"a.csv\"\r\n\r\nPart no";
    let mut stopped: Vec<_> = (0..20)
        .map(|_| {
            let mut stream = server.connect();
            stream.write_all(head.as_bytes()).unwrap();
            stream.write_all(begun).unwrap();
            stream
        })
        .collect();
    // Others are served meanwhile, and may import.
    assert_eq!(server.get("/answer?q=6308").status, 200);
    let upload = server.upload(&[("parts.csv", b"Part no;Designation\nB-1;6205\n")]);
    let taken = server.post("/import/confirm", &format!("key={}", upload.key()));
    assert_eq!(taken.status, 303);
    // The server allows a pause of 15 s in an upload.
    for stream in &mut stopped {
        stream
            .set_read_timeout(Some(Duration::from_secs(60)))
            .unwrap();
        let mut said = Vec::new();
        let end = stream.read_to_end(&mut said);
        let is_shown_out = end.is_ok()
            || end.is_err_and(|error| error.kind() == std::io::ErrorKind::ConnectionReset);
        assert!(is_shown_out, "still waiting after a minute");
        let said = String::from_utf8_lossy(&said).into_owned();
        assert!(!said.starts_with("HTTP/1.1 2"), "{said}");
    }
    assert_eq!(Workspace::open(folder.path()).unwrap().number().unwrap(), 1);
}

#[test]
fn clients_that_do_not_read_what_they_asked_for_hold_up_nobody() {
    let server = Server::empty(imported::demo_workspace());
    // Made once, so that nobody waits for the making of it.
    assert_eq!(server.get("/download/reorder.json").status, 200);
    let deaf: Vec<_> = (0..50)
        .map(|_| {
            let mut stream = server.connect();
            let host = server.address;
            let head = format!("GET /download/reorder.json HTTP/1.1\r\nHost: {host}\r\n\r\n");
            stream.write_all(head.as_bytes()).unwrap();
            stream
        })
        .collect();
    for _ in 0..5 {
        assert_eq!(server.get("/answer?q=6308").status, 200);
        assert_eq!(server.get("/kits/0").status, 200);
    }
    drop(deaf);
}

#[test]
fn two_hundred_clients_see_whole_snapshots_while_imports_run() {
    const CLIENTS: usize = 200;
    let folder = tempfile::tempdir().unwrap();
    let space = folder.path().join("space");
    let import = |count: usize| {
        let (parts, stock) = lists(count);
        let files = [("parts.csv", parts.as_str()), ("stock.csv", &stock)];
        let done = imported::import(&imported::lists(folder.path(), &files), &space);
        assert!(done.status.success(), "{done:?}");
    };
    import(20);
    let server = Server::empty(&space);
    let replies = std::thread::scope(|scope| {
        let writer = scope.spawn(|| {
            for count in [30, 40, 50] {
                import(count);
            }
        });
        let clients: Vec<_> = (0..CLIENTS)
            .map(|number| {
                let server = &server;
                scope.spawn(move || {
                    std::thread::sleep(Duration::from_millis(number as u64 * 5));
                    server.get("/answer?q=6308")
                })
            })
            .collect();
        writer.join().unwrap();
        clients
            .into_iter()
            .map(|client| client.join().unwrap())
            .collect::<Vec<_>>()
    });
    assert_eq!(replies.len(), CLIENTS);
    for reply in &replies {
        assert_eq!(reply.status, 200);
        let text = reply.text();
        let seen: std::collections::BTreeSet<&str> = ["20", "30", "40", "50"]
            .into_iter()
            .filter(|count| text.contains(&format!(">R-{count}<")))
            .collect();
        assert_eq!(seen.len(), 1, "one snapshot at a time: {seen:?}");
    }
    assert!(server.get("/answer?q=6308").text().contains(">R-50<"));
    assert_eq!(Workspace::open(&space).unwrap().number().unwrap(), 4);
}
