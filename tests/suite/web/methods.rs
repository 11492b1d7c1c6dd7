//! Every address with every method: what may be looked at, what must be sent, and what there is not.

use super::client::{Reply, Server};
use crate::imported::demo_workspace;

/// Pages and files that may be looked at.
const LOOKED_AT: [&str; 18] = [
    "/",
    "/?q=6308",
    "/answer?q=6308",
    "/answer.html?q=6308",
    "/kits",
    "/kits/0",
    "/kits/0/sheet",
    "/levels",
    "/levels/part",
    "/levels?budget=5000",
    "/overview",
    "/table/files",
    "/download",
    "/download/files.csv",
    "/asset/page.css",
    "/asset/page.js",
    "/asset/icon.svg",
    "/import",
];

/// Addresses that change something.
const SENT_TO: [&str; 3] = ["/import/confirm", "/import/cancel", "/import/undo"];

const OTHERS: [&str; 5] = ["PUT", "DELETE", "PATCH", "TRACE", "BREW"];

fn ask(server: &Server, method: &str, path: &str) -> Reply {
    server.send(method, path, &[], b"")
}

#[test]
fn what_is_looked_at_answers_get_and_head_alike_and_nothing_else() {
    let server = Server::empty(demo_workspace());
    for path in LOOKED_AT {
        let get = ask(&server, "GET", path);
        assert_eq!(get.status, 200, "{path}: {}", get.head);
        assert!(!get.body.is_empty(), "{path}");
        let head = ask(&server, "HEAD", path);
        assert_eq!((head.status, head.body.len()), (200, 0), "{path}");
        for name in [
            "content-type",
            "content-length",
            "content-disposition",
            "content-security-policy",
        ] {
            assert_eq!(head.header(name), get.header(name), "{path}: {name}");
        }
        for method in OTHERS {
            let reply = ask(&server, method, path);
            assert_eq!(reply.status, 405, "{method} {path}");
            let allowed = reply.header("allow").unwrap();
            assert!(
                allowed.contains("GET") && allowed.contains("HEAD"),
                "{path}: {allowed}"
            );
        }
        if path != "/import" {
            let posted = server.post(path, "key=x");
            assert_eq!(posted.status, 405, "{path}");
        }
    }
}

#[test]
fn what_changes_something_is_sent_and_never_looked_at() {
    let server = Server::empty(demo_workspace());
    for path in SENT_TO {
        for method in ["GET", "HEAD", "PUT", "DELETE", "PATCH"] {
            let reply = ask(&server, method, path);
            assert_eq!(reply.status, 405, "{method} {path}");
            assert_eq!(reply.header("allow"), Some("POST"), "{path}");
        }
        // A page of another kind of content is no form.
        let kind = ("Content-Type", "application/json");
        let json = server.send("POST", path, &[kind], b"{\"key\":\"x\"}");
        assert_eq!(json.status, 415, "{path}");
    }
}

#[test]
fn an_address_that_is_none_gets_a_page_that_leads_back() {
    let server = Server::empty(demo_workspace());
    for path in [
        "/nothing",
        "/kits/",
        "/kits/999999",
        "/kits/0/other",
        "/kits/0/sheet/more",
        "/kits/999999/sheet",
        "/kits/none",
        "/kits/-1",
        "/kits/1.5",
        "/kits/18446744073709551616",
        "/kits/none/sheet",
        "/table/nothing",
        "/table/",
        "/table/FILES",
        "/table/files.csv",
        "/download/nothing.csv",
        "/download/files",
        "/download/files.pdf",
        "/download/files.xlsx",
        "/download/.csv",
        "/asset/nothing.css",
        "/asset/",
        "/Overview",
        "/index.html",
        "/favicon.ico",
        "/robots.txt",
    ] {
        let english = ask(&server, "GET", path);
        assert_eq!(english.status, 404, "{path}");
        let text = english.text();
        assert!(text.contains("<html lang=\"en\">"), "{path}: {text}");
        assert!(
            text.contains("there is no such page here") && text.contains("href=\"/\""),
            "{path}: {text}"
        );
        let german = server
            .send("GET", path, &[("Accept-Language", "de")], b"")
            .text();
        assert!(german.contains("<html lang=\"de\">"), "{path}: {german}");
        assert!(
            !german.contains("there is no such page"),
            "{path}: {german}"
        );
        assert_eq!(ask(&server, "HEAD", path).status, 404, "{path}");
    }
}

#[test]
fn kinds_of_content_are_named_and_files_are_kept_under_their_names() {
    let server = Server::empty(demo_workspace());
    for (path, kind, name) in [
        ("/", "text/html; charset=utf-8", None),
        ("/answer?q=6308", "text/html; charset=utf-8", None),
        (
            "/answer.html?q=6308",
            "text/html; charset=utf-8",
            Some("answer.html"),
        ),
        (
            "/download/files.csv",
            "text/csv; charset=utf-8",
            Some("files.csv"),
        ),
        (
            "/download/reorder.json",
            "application/json",
            Some("reorder.json"),
        ),
        (
            "/download/reorder.html",
            "text/html; charset=utf-8",
            Some("reorder.html"),
        ),
        (
            "/download/reorder.xlsx",
            "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
            Some("reorder.xlsx"),
        ),
        (
            "/download/rebuild_sheets.html",
            "text/html; charset=utf-8",
            Some("rebuild_sheets.html"),
        ),
        ("/asset/page.css", "text/css; charset=utf-8", None),
        ("/asset/page.js", "text/javascript; charset=utf-8", None),
        ("/asset/sorting.js", "text/javascript; charset=utf-8", None),
        ("/asset/icon.svg", "image/svg+xml", None),
    ] {
        let reply = ask(&server, "GET", path);
        assert_eq!(reply.header("content-type"), Some(kind), "{path}");
        let disposition = name.map(|name| format!("attachment; filename=\"{name}\""));
        assert_eq!(
            reply.header("content-disposition"),
            disposition.as_deref(),
            "{path}"
        );
        for (header, value) in [
            ("x-content-type-options", "nosniff"),
            ("referrer-policy", "same-origin"),
            ("cross-origin-resource-policy", "same-origin"),
            ("cross-origin-opener-policy", "same-origin"),
        ] {
            assert_eq!(reply.header(header), Some(value), "{path}: {header}");
        }
        let cached = if path.starts_with("/asset/") {
            "no-cache"
        } else {
            "no-store"
        };
        assert_eq!(reply.header("cache-control"), Some(cached), "{path}");
    }
}

#[test]
fn before_the_first_import_every_page_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::empty(folder.path());
    for path in [
        "/kits",
        "/levels",
        "/overview",
        "/download",
        "/table/orders",
    ] {
        let reply = ask(&server, "GET", path);
        assert_eq!(reply.status, 200, "{path}");
        assert!(
            reply.text().contains("Nothing was imported yet"),
            "{path}: {}",
            reply.text()
        );
        assert!(reply.text().contains("href=\"/import\""), "{path}");
    }
    for path in [
        "/kits/0",
        "/kits/0/sheet",
        "/levels/part",
        "/download/orders.csv",
        "/download/reorder.xlsx",
    ] {
        assert_eq!(ask(&server, "GET", path).status, 404, "{path}");
    }
    // The bench needs no shop.
    let answer = ask(&server, "GET", "/answer?q=6308").text();
    assert!(
        answer.contains("6308") && answer.contains("40 x 90 x 23"),
        "{answer}"
    );
}
