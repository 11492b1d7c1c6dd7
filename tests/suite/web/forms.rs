//! Forms that change something: what they refuse, what waits, and that looking never changes anything.

use sparewright::store::Workspace;

use super::client::{Server, multipart};

const PARTS: &[u8] = b"Part no;Designation;Description;Unit\nB-1;6205-2RS;Bearing, fan;pcs\n";

#[test]
fn looking_changes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let key = server.upload(&[("parts.csv", PARTS)]).key();
    server.post("/import/confirm", &format!("key={key}"));
    let workspace = Workspace::open(folder.path()).unwrap();
    for path in [
        "/import/confirm?key=x",
        "/import/cancel?key=x",
        "/import/undo?snapshot=1",
    ] {
        let reply = server.get(path);
        assert_eq!(
            reply.status, 405,
            "{path}: a link or a picture must not import"
        );
    }
    for path in [
        "/",
        "/answer?q=6205",
        "/overview",
        "/kits",
        "/levels",
        "/download/reorder.xlsx",
        "/language/de",
    ] {
        server.get(path);
    }
    assert_eq!(workspace.number().unwrap(), 1);
}

#[test]
fn eight_proposals_wait_and_the_oldest_makes_room() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let keys: Vec<String> = (0..9)
        .map(|at| {
            let text = format!("Part no;Designation\nB-{at};6205\n");
            server.upload(&[("parts.csv", text.as_bytes())]).key()
        })
        .collect();
    let first = server.post("/import/confirm", &format!("key={}", keys[0]));
    assert_eq!(first.status, 410, "the oldest of nine is gone");
    for key in &keys[1..] {
        assert_eq!(
            server.post("/import/confirm", &format!("key={key}")).status,
            303
        );
    }
    let parts = Workspace::open(folder.path())
        .unwrap()
        .load(None)
        .unwrap()
        .records
        .parts;
    assert_eq!(parts.len(), 8);
}

#[test]
fn a_key_is_no_guess_and_holds_for_one_proposal() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let key = server.upload(&[("parts.csv", PARTS)]).key();
    for wrong in [
        String::new(),
        "0".repeat(32),
        key[..31].to_owned(),
        key.to_uppercase() + "0",
        format!("{key}%00"),
    ] {
        let reply = server.post("/import/confirm", &format!("key={wrong}"));
        assert_eq!(reply.status, 410, "{wrong}");
    }
    assert_eq!(
        server.post("/import/confirm", &format!("key={key}")).status,
        303
    );
    assert_eq!(
        server.post("/import/confirm", &format!("key={key}")).status,
        410
    );
}

#[test]
fn a_form_without_its_fields_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    for (path, fields) in [
        ("/import/confirm", ""),
        ("/import/confirm", "kez=1"),
        ("/import/undo", ""),
        ("/import/undo", "snapshot=last"),
        ("/import/undo", "snapshot=-1"),
        ("/import/undo", "snapshot=99999999999"),
    ] {
        let reply = server.post(path, fields);
        assert!(
            matches!(reply.status, 400 | 422),
            "{path} {fields}: {}",
            reply.head
        );
    }
    for snapshot in ["0", "1", "7"] {
        let reply = server.post("/import/undo", &format!("snapshot={snapshot}"));
        assert_eq!(
            reply.status, 409,
            "nothing was imported, so nothing is undone"
        );
    }
}

#[test]
fn uploads_that_are_none_are_told() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let (kind, body) = multipart(&[("", b"")]);
    let empty = server.send("POST", "/import", &[("Content-Type", &kind)], &body);
    assert_eq!(empty.status, 422);
    assert!(
        empty.text().contains("no file was chosen"),
        "{}",
        empty.text()
    );
    let plain = server.send("POST", "/import", &[("Content-Type", "text/csv")], PARTS);
    assert!(matches!(plain.status, 400 | 415), "{}", plain.head);
    let cut = &multipart(&[("parts.csv", PARTS)]);
    let reply = server.send(
        "POST",
        "/import",
        &[("Content-Type", &cut.0)],
        &cut.1[..cut.1.len() / 2],
    );
    assert!(matches!(reply.status, 400 | 422), "{}", reply.head);
    assert_eq!(Workspace::open(folder.path()).unwrap().number().unwrap(), 0);
}

#[test]
fn a_mapping_that_is_none_is_told_with_what_would_be_one() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let (kind, mut body) = multipart(&[("parts.csv", PARTS)]);
    let field = "------------edge-of-a-part\r\nContent-Disposition: form-data; name=\"maps\"\r\n\r\nnonsense\r\n";
    body.splice(0..0, field.bytes()).for_each(drop);
    let reply = server.send("POST", "/import", &[("Content-Type", &kind)], &body);
    assert_eq!(reply.status, 422, "{}", reply.text());
    assert!(reply.text().contains("nonsense"), "{}", reply.text());
}

#[test]
fn the_same_files_twice_are_nothing_new() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let key = server.upload(&[("parts.csv", PARTS)]).key();
    server.post("/import/confirm", &format!("key={key}"));
    let again = server.upload(&[("parts.csv", PARTS)]);
    assert!(
        again.text().contains("Nothing in these files is new."),
        "{}",
        again.text()
    );
    let key = again.key();
    assert_eq!(
        server.post("/import/confirm", &format!("key={key}")).status,
        303
    );
    assert_eq!(Workspace::open(folder.path()).unwrap().number().unwrap(), 1);
}

#[test]
fn what_was_undone_can_be_imported_again() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    for text in [PARTS, b"Part no;Designation\nB-9;6310\n"] {
        let key = server.upload(&[("list.csv", text)]).key();
        server.post("/import/confirm", &format!("key={key}"));
    }
    let has = |designation: &str| server.get("/answer?q=B-9").text().contains(designation);
    assert!(has("6310"));
    assert_eq!(server.post("/import/undo", "snapshot=2").status, 303);
    assert!(!has("6310"));
    // The undo is a snapshot of its own, so that it can be undone too.
    assert_eq!(server.post("/import/undo", "snapshot=3").status, 303);
    assert!(has("6310"));
}
