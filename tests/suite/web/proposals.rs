//! Files that are dropped: how they are read and what would change, in any name, letters and number of files.

use sparewright::store::Workspace;

use super::client::Server;

const PARTS: &str = "Part no;Designation;Description;Unit\nB-1;6205-2RS;Bearing, fan;pcs\nB-2;6308;Bearing, crusher;pcs\n";
const OFFERS: &str =
    "Supplier;Part no;Price;Currency;Lead time;Unit\nMarlow;B-2;14.20;EUR;3 weeks;pcs\n";

fn served() -> (tempfile::TempDir, Server) {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    (folder, server)
}

/// Imports files by their yes; the address that follows.
fn take(server: &Server, files: &[(&str, &str)]) -> String {
    let files: Vec<(&str, &[u8])> = files
        .iter()
        .map(|(name, text)| (*name, text.as_bytes()))
        .collect();
    let shown = server.upload(&files);
    assert_eq!(shown.status, 200, "{}", shown.text());
    let confirmed = server.post("/import/confirm", &format!("key={}", shown.key()));
    assert_eq!(confirmed.status, 303, "{}", confirmed.text());
    confirmed.header("location").unwrap().to_owned()
}

#[test]
fn a_proposal_names_every_column_its_meaning_and_its_values() {
    let (_folder, server) = served();
    let shown = server.upload(&[("parts.csv", PARTS.as_bytes())]).text();
    assert!(shown.contains("Is this right?"));
    assert!(shown.contains("2 rows read, 0 rejected"), "{shown}");
    for words in [
        "parts.csv",
        "Part no",
        "Designation",
        "Description",
        "6205-2RS | 6308",
        "Yes, import",
        "No, forget them",
    ] {
        assert!(shown.contains(words), "no `{words}` in {shown}");
    }
    // A column that nothing is known of is marked and still shown.
    let odd = "Part no;Designation;Xyzzy\nB-1;6205;plugh\n";
    let shown = server.upload(&[("parts.csv", odd.as_bytes())]).text();
    assert!(
        shown.contains("Xyzzy") && shown.contains("plugh") && shown.contains("not read"),
        "{shown}"
    );
}

#[test]
fn what_would_change_is_what_then_changed() {
    let (folder, server) = served();
    assert_eq!(
        take(
            &server,
            &[("parts.csv", PARTS), ("marlow_2026-03-02.csv", OFFERS)]
        ),
        "/overview"
    );
    let dearer = OFFERS
        .replace("14.20", "15.60")
        .replace("3 weeks", "5 weeks");
    let shown = server.upload(&[("marlow_2026-04-02.csv", dearer.as_bytes())]);
    let text = shown.text();
    assert!(text.contains("What would change"), "{text}");
    for words in ["14.20 EUR", "15.60 EUR", "Marlow", "B-2"] {
        assert!(text.contains(words), "no `{words}` in {text}");
    }
    let workspace = Workspace::open(folder.path()).unwrap();
    assert_eq!(
        workspace.number().unwrap(),
        1,
        "looking at it changed nothing"
    );
    server.post("/import/confirm", &format!("key={}", shown.key()));
    assert_eq!(workspace.number().unwrap(), 2);
    let changes = workspace.compare(1, 2).unwrap();
    assert_eq!(changes.len(), 2, "{changes:?}");
    for change in &changes {
        assert!(
            text.contains(change.after.as_deref().unwrap()),
            "{change:?}"
        );
    }
}

#[test]
fn names_of_files_are_names_and_never_paths() {
    for name in [
        "../../parts.csv",
        "..\\..\\parts.csv",
        "/etc/parts.csv",
        "C:\\shop\\parts.csv",
        "Teile & Größen <1>.csv",
        "部品.csv",
        "parts.csv.csv",
        ".csv",
        " parts .csv",
        "CON.csv",
    ] {
        let (folder, server) = served();
        let shown = server.upload(&[(name, PARTS.as_bytes())]);
        assert!(matches!(shown.status, 200 | 422), "{name}: {}", shown.head);
        if shown.status == 200 {
            assert!(!shown.text().contains("<1>"), "{name}");
            let done = server.post("/import/confirm", &format!("key={}", shown.key()));
            assert_eq!(done.status, 303, "{name}");
            let parts = Workspace::open(folder.path())
                .unwrap()
                .load(None)
                .unwrap()
                .records
                .parts;
            assert_eq!(parts.len(), 2, "{name}");
        }
        let beside = folder.path().parent().unwrap().join("parts.csv");
        assert!(!beside.exists(), "{name}");
    }
}

#[test]
fn two_files_of_one_name_are_both_read() {
    let (folder, server) = served();
    let more = "Part no;Designation\nB-3;6310\n";
    take(&server, &[("list.csv", PARTS), ("list.csv", more)]);
    let parts = Workspace::open(folder.path())
        .unwrap()
        .load(None)
        .unwrap()
        .records
        .parts;
    let mut numbers: Vec<String> = parts.iter().map(|part| part.own_number.clone()).collect();
    numbers.sort();
    assert_eq!(numbers, ["B-1", "B-2", "B-3"]);
}

#[test]
fn a_file_that_cannot_be_read_is_named_beside_one_that_can() {
    let (_folder, server) = served();
    let files: [(&str, &[u8]); 5] = [
        ("parts.csv", PARTS.as_bytes()),
        ("broken.xlsx", b"PK\x03\x04 no workbook"),
        ("empty.csv", b""),
        ("photo.csv", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR"),
        ("words.csv", b"call the shop\n"),
    ];
    let shown = server.upload(&files);
    assert_eq!(shown.status, 200, "{}", shown.text());
    let text = shown.text();
    for name in ["broken.xlsx", "empty.csv", "photo.csv"] {
        assert!(text.contains(name), "no `{name}` in {text}");
    }
    assert!(text.contains("Not read"), "{text}");
    assert!(text.contains("2 rows read"), "{text}");
    // None that can be read is refused, and the reason said.
    let none = server.upload(&files[1..4]);
    assert_eq!(none.status, 422, "{}", none.text());
    assert!(none.text().contains("stop-line"), "{}", none.text());
}

#[test]
fn problems_of_rows_stand_with_their_cells_and_long_lists_are_counted() {
    let (_folder, server) = served();
    let mut usages = "Date;Part no;Quantity;Machine\n".to_owned();
    for row in 0..60 {
        usages.push_str(&format!("2026-01-05;B-1;much{row};Fan\n"));
    }
    usages.push_str("2026-01-06;B-1;1;Fan\n");
    let text = server.upload(&[("usages.csv", usages.as_bytes())]).text();
    assert!(text.contains("61 rows read, 60 rejected"), "{text}");
    assert!(
        text.contains("Problems</h2>") || text.contains("Problems (60)"),
        "{text}"
    );
    assert!(
        text.contains("usages.csv") && text.contains("C2") && text.contains("much0"),
        "{text}"
    );
    assert!(
        text.contains("much49") && !text.contains("much50"),
        "fifty are listed"
    );
    assert!(text.contains("10 more"), "the rest is counted: {text}");
}

#[test]
fn a_no_forgets_and_a_yes_after_it_is_gone() {
    let (folder, server) = served();
    let key = server.upload(&[("parts.csv", PARTS.as_bytes())]).key();
    let no = server.post("/import/cancel", &format!("key={key}"));
    assert_eq!((no.status, no.header("location")), (303, Some("/import")));
    let late = server.post("/import/confirm", &format!("key={key}"));
    assert_eq!(late.status, 410);
    assert!(
        late.text().contains("</html>"),
        "a page says so: {}",
        late.text()
    );
    assert_eq!(Workspace::open(folder.path()).unwrap().number().unwrap(), 0);
    // No twice is no once.
    assert_eq!(
        server.post("/import/cancel", &format!("key={key}")).status,
        303
    );
}

#[test]
fn undo_leads_back_and_forth_one_step_at_a_time() {
    let (folder, server) = served();
    take(&server, &[("parts.csv", PARTS)]);
    let form = server.get("/import").text();
    assert!(
        !form.contains("Undo snapshot"),
        "there is nothing before the first: {form}"
    );
    take(&server, &[("marlow_2026-03-02.csv", OFFERS)]);
    let form = server.get("/import").text();
    assert!(
        form.contains("Undo snapshot 2: back to what 1 held"),
        "{form}"
    );
    assert_eq!(
        server.post("/import/undo", "snapshot=1").status,
        409,
        "not the last one"
    );
    let undone = server.post("/import/undo", "snapshot=2");
    assert_eq!(
        (undone.status, undone.header("location")),
        (303, Some("/import"))
    );
    let workspace = Workspace::open(folder.path()).unwrap();
    assert_eq!(workspace.number().unwrap(), 3);
    assert!(workspace.load(None).unwrap().records.offers.is_empty());
    assert_eq!(
        server.post("/import/undo", "snapshot=2").status,
        409,
        "sent a second time"
    );
    // Undoing the undo brings it back.
    assert_eq!(server.post("/import/undo", "snapshot=3").status, 303);
    assert_eq!(workspace.load(None).unwrap().records.offers.len(), 1);
    assert_eq!(workspace.compare(2, 4).unwrap().len(), 0);
}
