//! Downloads and tables of the page: byte for byte what the library writes, in the language of who asks.

use std::collections::BTreeSet;
use std::io::Cursor;

use calamine::{Reader, Xlsx};
use sparewright::job::Job;
use sparewright::language::Language;
use sparewright::report::{Report, csv_of, html_of, json_of, translated};

use super::client::{Reply, Server};
use crate::imported::demo_workspace;

/// The report of the demo workspace in a language.
fn report(code: &str) -> Report {
    let job = Job::open(demo_workspace(), None).unwrap();
    let planned = job.plan().unwrap();
    translated(job.report(&planned), Language::of_code(code).unwrap())
}

fn ask(server: &Server, path: &str, code: &str) -> Reply {
    server.send("GET", path, &[("Accept-Language", code)], b"")
}

#[test]
fn every_file_is_the_librarys_in_both_languages() {
    let server = Server::empty(demo_workspace());
    for code in ["en", "de"] {
        let report = report(code);
        for sheet in &report.sheets {
            let path = format!("/download/{}.csv", sheet.key);
            let reply = ask(&server, &path, code);
            assert_eq!(reply.status, 200, "{path}");
            assert!(reply.body == csv_of(sheet), "{path}, {code}");
            assert_eq!(
                reply.header("content-type"),
                Some("text/csv; charset=utf-8")
            );
            let name = reply.header("content-disposition").unwrap();
            assert_eq!(name, format!("attachment; filename=\"{}.csv\"", sheet.key));
        }
        let json = ask(&server, "/download/reorder.json", code);
        assert!(json.body == json_of(&report), "{code}");
        let page = ask(&server, "/download/reorder.html", code);
        assert_eq!(page.text(), html_of(&report), "{code}");
    }
}

#[test]
fn the_workbook_has_a_sheet_for_each_table_behind_the_cover() {
    let server = Server::empty(demo_workspace());
    for code in ["en", "de"] {
        let report = report(code);
        let bytes = ask(&server, "/download/reorder.xlsx", code).body;
        let book: Xlsx<_> = calamine::open_workbook_from_rs(Cursor::new(bytes)).unwrap();
        let mut titles = vec![report.language.text("Cover")];
        titles.extend(report.sheets.iter().map(|sheet| sheet.title.clone()));
        assert_eq!(book.sheet_names(), titles, "{code}");
    }
}

#[test]
fn the_list_of_downloads_names_every_table_and_every_link_leads_somewhere() {
    let server = Server::empty(demo_workspace());
    let page = server.get("/download").text();
    let links: BTreeSet<String> = page
        .split("href=\"/download/")
        .skip(1)
        .map(|rest| rest.split('"').next().unwrap().to_owned())
        .collect();
    let mut expected: BTreeSet<String> = report("en")
        .sheets
        .iter()
        .map(|sheet| format!("{}.csv", sheet.key))
        .collect();
    for whole in [
        "reorder.xlsx",
        "reorder.html",
        "reorder.json",
        "rebuild_sheets.html",
    ] {
        expected.insert(whole.to_owned());
    }
    assert_eq!(links, expected);
    for link in links {
        assert_eq!(
            server.get(&format!("/download/{link}")).status,
            200,
            "{link}"
        );
    }
}

#[test]
fn every_table_has_a_page_with_all_its_rows() {
    let server = Server::empty(demo_workspace());
    let overview = server.get("/overview").text();
    for sheet in &report("en").sheets {
        let path = format!("/table/{}", sheet.key);
        assert!(overview.contains(&format!("href=\"{path}\"")), "{path}");
        let page = server.get(&path).text();
        let body = page.split("<tbody>").nth(1).unwrap_or_default();
        let body = body.split("</tbody>").next().unwrap_or_default();
        assert_eq!(body.matches("<tr").count(), sheet.rows.len(), "{path}");
        assert!(
            page.contains(&format!("href=\"/download/{}.csv\"", sheet.key)),
            "{path}"
        );
        // Tables with several rows sort by their headers, by the script that is served.
        assert_eq!(page.contains("data-sort="), sheet.rows.len() > 1, "{path}");
    }
    let script = server.get("/asset/sorting.js");
    assert_eq!(script.text(), sparewright::report::PAGE_SCRIPT);
    assert_eq!(
        script.header("content-type"),
        Some("text/javascript; charset=utf-8")
    );
}

#[test]
fn a_page_loads_only_what_the_server_has() {
    let server = Server::empty(demo_workspace());
    for path in [
        "/",
        "/kits",
        "/kits/0",
        "/levels",
        "/overview",
        "/download",
        "/import",
    ] {
        let page = server.get(path).text();
        for attribute in ["src=\"", "href=\""] {
            for rest in page.split(attribute).skip(1) {
                let link = rest.split('"').next().unwrap();
                assert!(
                    link.starts_with('/') || link.starts_with('#'),
                    "{path}: {link}"
                );
                assert!(!link.starts_with("//"), "{path}: {link}");
                if attribute == "src=\"" || link.starts_with("/asset/") {
                    assert_eq!(server.get(link).status, 200, "{path}: {link}");
                }
            }
        }
        // The policy forbids both: nothing may need them.
        assert!(
            !page.contains(" style=\"") && !page.contains(" onclick="),
            "{path}"
        );
    }
}

#[test]
fn twenty_who_want_the_workbook_get_the_same_one() {
    let server = Server::empty(demo_workspace());
    let books = std::thread::scope(|scope| {
        let clients: Vec<_> = (0..20)
            .map(|_| scope.spawn(|| server.get("/download/reorder.xlsx").body))
            .collect();
        let bodies = clients.into_iter().map(|client| client.join().unwrap());
        bodies.collect::<BTreeSet<_>>()
    });
    assert_eq!(books.len(), 1);
}
