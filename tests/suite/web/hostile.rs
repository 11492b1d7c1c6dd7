//! Texts from spreadsheets that want to be more than text, and addresses that want to lead elsewhere.

use std::io::Write;

use super::client::Server;

/// Texts of OWASP's cheat sheet on filter evasion, and formulas.
const HOSTILE: [&str; 7] = [
    "<script>alert(1)</script>",
    "\"><img src=x onerror=alert(1)>",
    "' onmouseover='alert(1)",
    "</title><svg/onload=alert(1)>",
    "javascript:alert(1)",
    "=HYPERLINK(\"http://shop.example\",\"6205\")",
    "@SUM(1+1)*cmd|' /C calc'!A0",
];

/// Pieces that stand in a page only where a text was not escaped; the report has a script of its own.
/// Attributes are always in double quotes, so that a single one is text.
const LIVE: [&str; 3] = ["<script>alert", "<img src=x", "<svg/onload"];

#[test]
fn hostile_texts_come_out_as_text_in_every_page_and_file() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let quoted = |text: &str| format!("\"{}\"", text.replace('"', "\"\""));
    let mut parts = "Part no;Designation;Description;Unit\n".to_owned();
    let mut stock = "Part no;Bin;On hand;Unit\n".to_owned();
    let mut kits = "Kit;Line;Part no;Quantity;Unit;Task\n".to_owned();
    let mut offers = "Supplier;Part no;Price;Currency;Lead time\n".to_owned();
    for (number, text) in HOSTILE.iter().enumerate() {
        let text = quoted(text);
        parts.push_str(&format!(
            "B-{number};6205;{text};pcs\n{text};6206;{text};pcs\n"
        ));
        stock.push_str(&format!("B-{number};{text};2;pcs\n"));
        kits.push_str(&format!("{text};{text};B-{number};3;pcs;{text}\n"));
        offers.push_str(&format!("{text};B-{number};4,50;EUR;2 weeks\n"));
    }
    let name = "<img src=x onerror=alert(1)>.csv";
    let shown = server.upload(&[
        (name, parts.as_bytes()),
        ("stock.csv", stock.as_bytes()),
        ("offers.csv", offers.as_bytes()),
        ("kits.csv", kits.as_bytes()),
    ]);
    assert_eq!(shown.status, 200, "{}", shown.text());
    let harmless = |path: &str, text: &str| {
        for live in LIVE {
            assert!(!text.contains(live), "{path} holds {live}");
        }
    };
    harmless("/import", &shown.text());
    let confirmed = server.post("/import/confirm", &format!("key={}", shown.key()));
    assert_eq!(confirmed.status, 303, "{}", confirmed.text());

    let mut paths = vec![
        "/".to_owned(),
        "/?q=6205".to_owned(),
        "/answer?q=6205".to_owned(),
    ];
    let others = ["/overview", "/download", "/import", "/kits", "/levels"];
    paths.extend(others.map(str::to_owned));
    for kit in 0..HOSTILE.len() {
        paths.push(format!("/kits/{kit}"));
        paths.push(format!("/kits/{kit}/sheet"));
    }
    let overview = server.get("/overview").text();
    let tables: Vec<String> = overview
        .split("href=\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .filter(|address| address.starts_with("/table/"))
        .map(str::to_owned)
        .collect();
    assert!(tables.len() > 10, "{tables:?}");
    paths.extend(tables.iter().cloned());
    for text in HOSTILE {
        let asked: String = text.bytes().map(|byte| format!("%{byte:02X}")).collect();
        paths.push(format!("/?q={asked}&bore={asked}&kind={asked}"));
        paths.push(format!("/answer.html?q={asked}"));
        paths.push(format!("/kits/0?budget={asked}&by={asked}&without={asked}"));
        paths.push(format!("/table/{asked}"));
    }
    for path in &paths {
        let reply = server.get(path);
        assert!(
            [200, 404].contains(&reply.status),
            "{path}: {}",
            reply.status
        );
        harmless(path, &reply.text());
    }
    for path in ["/kits", "/kits/0", "/kits/0/sheet"] {
        let text = server.get(path).text();
        assert!(text.contains("&lt;script&gt;"), "{path} shows the name");
    }
    let page = server.get("/download/reorder.html");
    assert_eq!(page.status, 200);
    harmless("/download/reorder.html", &page.text());
    let seen = server.get("/answer?q=6205").text();
    assert!(
        seen.contains("&lt;script&gt;"),
        "the text itself is shown: {seen}"
    );
}

#[test]
fn formulas_in_downloads_are_text() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let parts = format!(
        "Part no;Designation;Description;Unit\nB-1;6205;\"{}\";pcs\n",
        HOSTILE[5].replace('"', "\"\"")
    );
    let key = server
        .upload(&[
            ("parts.csv", parts.as_bytes()),
            ("stock.csv", b"Part no;Bin;On hand;Unit\nB-1;=1+1;2;pcs\n"),
        ])
        .key();
    server.post("/import/confirm", &format!("key={key}"));
    let overview = server.get("/download").text();
    let files = overview
        .split("href=\"/download/")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .filter(|name| name.ends_with(".csv"));
    for name in files {
        let reply = server.get(&format!("/download/{name}"));
        let mut reader = csv::ReaderBuilder::new()
            .delimiter(b';')
            .has_headers(false)
            .flexible(true)
            .from_reader(&reply.body[..]);
        for record in reader.records() {
            for cell in &record.unwrap() {
                assert!(!cell.starts_with(['=', '@']), "{name}: {cell}");
            }
        }
    }
}

#[test]
fn no_address_leads_out_of_the_program() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    // Before the first import every table's address says that nothing was imported.
    let shown = server.upload(&[("parts.csv", b"Part no;Designation\nB-1;6205\n")]);
    server.post("/import/confirm", &format!("key={}", shown.key()));
    for path in [
        "/asset/../../Cargo.toml",
        "/asset/..%2f..%2fCargo.toml",
        "/asset/%2e%2e/%2e%2e/etc/passwd",
        "/download/../current",
        "/download/..%2fcurrent",
        "/download/%2fetc%2fpasswd",
        "/table/..%2f..%2fcurrent",
        "//shop.example/",
        "/import/../../current",
    ] {
        let reply = server.get(path);
        assert_eq!(reply.status, 404, "{path}: {}", reply.head);
    }
    let welcome = server.get("//shop.example/%2f..?key=1");
    assert_ne!(welcome.status, 303, "{}", welcome.head);
}

#[test]
fn an_upload_beyond_the_limit_is_refused_before_it_is_read() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    let mut stream = server.connect();
    let head = format!(
        "POST /import HTTP/1.1\r\nHost: {}\r\nContent-Type: multipart/form-data; boundary=x\r\nContent-Length: {}\r\n\r\n",
        server.address,
        400_u64 * 1024 * 1024
    );
    stream.write_all(head.as_bytes()).unwrap();
    stream.write_all(b"--x\r\n").unwrap();
    // A server that is quick may have refused and closed by now.
    let _ = stream.shutdown(std::net::Shutdown::Write);
    let reply = super::client::Reply::read(&mut stream);
    assert_eq!(reply.status, 413, "{}", reply.head);
}
