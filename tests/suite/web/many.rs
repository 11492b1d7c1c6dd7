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
            .filter(|count| text.contains(&format!("in R-{count}<")))
            .collect();
        assert_eq!(seen.len(), 1, "one snapshot at a time: {seen:?}");
    }
    assert!(server.get("/answer?q=6308").text().contains("in R-50<"));
    assert_eq!(Workspace::open(&space).unwrap().number().unwrap(), 4);
}
