//! Dropping files: shown first, then taken or forgotten, then undone.

use sparewright::store::Workspace;

use super::client::Server;

const PARTS: &[u8] =
    b"Part no;Designation;Description;Unit\nB-1;6205-2RS;Bearing, fan;pcs\nB-2;6308;Bearing, crusher;pcs\n";
const STOCK: &[u8] = b"Part no;Bin;On hand;Unit\nB-2;R-04;3;pcs\n";

#[test]
fn a_file_is_shown_confirmed_looked_up_and_undone() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let workspace = Workspace::open(folder.path()).unwrap();

    let shown = server.upload(&[("parts.csv", PARTS), ("stock.csv", STOCK)]);
    assert_eq!(shown.status, 200, "{}", shown.text());
    let text = shown.text();
    for words in [
        "parts.csv",
        "Designation",
        "6205-2RS",
        "Yes, import",
        "No, forget them",
    ] {
        assert!(text.contains(words), "{words}");
    }
    assert_eq!(workspace.number().unwrap(), 0, "showing stores nothing");

    let key = shown.key();
    assert_eq!(
        server.post("/import/confirm", &format!("key={key}")).status,
        303
    );
    assert_eq!(workspace.number().unwrap(), 1);
    let twice = server.post("/import/confirm", &format!("key={key}"));
    assert_eq!((twice.status, workspace.number().unwrap()), (410, 1));

    let answer = server.get("/answer?q=6308").text();
    assert!(
        answer.contains("B-2") && answer.contains("R-04"),
        "{answer}"
    );

    let more = server.upload(&[("more.csv", b"Part no;Designation\nB-3;6310\n")]);
    server.post("/import/confirm", &format!("key={}", more.key()));
    assert_eq!(workspace.number().unwrap(), 2);
    assert_eq!(
        server.post("/import/undo", "snapshot=1").status,
        409,
        "not the last one"
    );
    assert_eq!(server.post("/import/undo", "snapshot=2").status, 303);
    let parts = workspace.load(None).unwrap().records.parts;
    assert_eq!(parts.len(), 2);
}

#[test]
fn forgotten_files_leave_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let key = server.upload(&[("parts.csv", PARTS)]).key();
    assert_eq!(
        server.post("/import/cancel", &format!("key={key}")).status,
        303
    );
    assert_eq!(
        server.post("/import/confirm", &format!("key={key}")).status,
        410
    );
    assert_eq!(Workspace::open(folder.path()).unwrap().number().unwrap(), 0);
}

#[test]
fn a_meaning_given_with_the_file_is_used() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let (kind, mut body) = super::client::multipart(&[("parts.csv", b"Part no;Xyzzy\nB-1;6205\n")]);
    let edge = "------------edge-of-a-part";
    let field = format!(
        "{edge}\r\nContent-Disposition: form-data; name=\"maps\"\r\n\r\nXyzzy=designation\r\n"
    );
    body.splice(0..0, field.into_bytes()).for_each(drop);
    let reply = server.send("POST", "/import", &[("Content-Type", &kind)], &body);
    assert_eq!(reply.status, 200, "{}", reply.text());
    server.post("/import/confirm", &format!("key={}", reply.key()));
    assert!(server.get("/answer?q=6205").text().contains("B-1"));
}

#[test]
fn a_wrong_file_is_told_and_nothing_changes() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let wrong = server.upload(&[("holiday.jpg", b"\xff\xd8\xff\xe0 no table")]);
    assert_eq!(wrong.status, 422, "{}", wrong.text());
    assert!(wrong.text().contains("holiday.jpg"), "{}", wrong.text());
    assert_eq!(server.upload(&[]).status, 422);
}
