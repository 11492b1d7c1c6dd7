//! Every page as a document: balanced, with names for whatever is filled in or touched, nothing inline, every link within
//! the server, in both languages.

use std::collections::{BTreeMap, BTreeSet};

use super::client::Server;
use crate::imported::demo_workspace;

/// Pages of the demo, a kit and its sheet among them.
const PAGES: [&str; 16] = [
    "/",
    "/?q=6308",
    "/?q=BRG-0106",
    "/?q=44.96+84.9+19+worn",
    "/?q=nothing",
    "/?bore=40&od=90&width=23&unit=mm",
    "/kits",
    "/kits/0",
    "/kits/0?budget=3000&by=2026-04-20T14%3A00",
    "/levels",
    "/levels?budget=5000",
    "/overview",
    "/table/order_now",
    "/table/kits",
    "/download",
    "/import",
];

/// Elements that have no end tag (HTML Living Standard, 13.1.2).
const VOID: [&str; 13] = [
    "area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track",
    "wbr",
];

/// A start tag.
#[derive(Debug, Clone)]
struct Tag {
    name: String,
    attributes: BTreeMap<String, String>,
    /// Names of the elements it stands in, outermost first.
    within: Vec<String>,
}

impl Tag {
    fn get(&self, name: &str) -> Option<&str> {
        self.attributes.get(name).map(String::as_str)
    }
}

/// Takes a page apart; a fault where an end tag does not fit.
fn tags(page: &str) -> Result<Vec<Tag>, String> {
    let (mut all, mut open): (Vec<Tag>, Vec<String>) = (Vec::new(), Vec::new());
    let mut rest = page;
    while let Some(at) = rest.find('<') {
        rest = &rest[at + 1..];
        let end = rest.find('>').ok_or("a tag without an end")?;
        let (inner, after) = (&rest[..end], &rest[end + 1..]);
        rest = after;
        if inner.starts_with('!') {
            continue;
        }
        if let Some(name) = inner.strip_prefix('/') {
            let last = open.pop().unwrap_or_default();
            if last != name {
                return Err(format!("</{name}> closes <{last}>"));
            }
            continue;
        }
        let is_closed = inner.ends_with('/');
        let inner = inner.trim_end_matches('/');
        let (name, attributes) = inner.split_once([' ', '\n']).unwrap_or((inner, ""));
        let tag = Tag {
            name: name.to_owned(),
            attributes: attributes_of(attributes),
            within: open.clone(),
        };
        if matches!(name, "style" | "script") {
            let close = format!("</{name}>");
            let at = rest.find(&close).ok_or("no end of a script")?;
            if !rest[..at].trim().is_empty() {
                return Err(format!("<{name}> within the page"));
            }
            rest = &rest[at + close.len()..];
        } else if !VOID.contains(&name) && !is_closed {
            open.push(name.to_owned());
        }
        all.push(tag);
    }
    match open.pop() {
        Some(name) => Err(format!("<{name}> is never closed")),
        None => Ok(all),
    }
}

fn attributes_of(text: &str) -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    let mut rest = text.trim();
    while !rest.is_empty() {
        let end = rest.find([' ', '=', '\n']).unwrap_or(rest.len());
        let name = rest[..end].to_owned();
        rest = &rest[end..];
        if let Some(value) = rest.strip_prefix("=\"") {
            let close = value.find('"').unwrap_or(value.len());
            found.insert(name, value[..close].to_owned());
            rest = value.get(close + 1..).unwrap_or("");
        } else {
            found.insert(name, String::new());
        }
        rest = rest.trim_start();
    }
    found
}

#[test]
fn the_reader_of_tags_finds_faults() {
    assert!(tags("<p>a<br>b</p>").is_ok());
    let tag = &tags("<a href=\"/x?y=1&amp;z\" hidden>x</a>").unwrap()[0];
    assert_eq!(
        (tag.get("href"), tag.get("hidden")),
        (Some("/x?y=1&amp;z"), Some(""))
    );
    for fault in [
        "<p><b></p></b>",
        "<p>",
        "</p>",
        "<script>alert(1)</script>",
        "<style>p{}</style>",
    ] {
        assert!(tags(fault).is_err(), "{fault}");
    }
}

/// Every page of the server in a language.
fn pages(server: &Server, language: &str) -> Vec<(&'static str, String, Vec<Tag>)> {
    let read = |path: &&'static str| {
        let reply = server.send("GET", path, &[("Accept-Language", language)], b"");
        assert_eq!(reply.status, 200, "{path}");
        let text = reply.text();
        let tags = tags(&text).unwrap_or_else(|fault| panic!("{path}: {fault}"));
        (*path, text, tags)
    };
    PAGES.iter().map(read).collect()
}

#[test]
fn every_page_is_a_balanced_document_with_one_main_heading() {
    let server = Server::empty(demo_workspace());
    for language in ["en", "de"] {
        for (path, text, tags) in pages(&server, language) {
            assert!(text.starts_with("<!DOCTYPE html>"), "{path}");
            // A drawing has a title of its own.
            let is_here = |tag: &&Tag| !tag.within.iter().any(|of| of == "svg");
            let count = |name: &str| {
                tags.iter()
                    .filter(is_here)
                    .filter(|tag| tag.name == name)
                    .count()
            };
            for name in ["html", "head", "title", "body", "main", "h1", "nav"] {
                assert_eq!(count(name), 1, "{path}: {name}");
            }
            let html = tags.iter().find(|tag| tag.name == "html").unwrap();
            assert_eq!(html.get("lang"), Some(language), "{path}");
            // Headings go down one step at a time.
            let levels: Vec<u32> = tags
                .iter()
                .filter_map(|tag| {
                    tag.name
                        .strip_prefix('h')
                        .and_then(|level| level.parse().ok())
                })
                .collect();
            for pair in levels.windows(2) {
                assert!(pair[1] <= pair[0] + 1, "{path}: {levels:?}");
            }
        }
    }
}

#[test]
fn names_within_a_page_are_there_once_and_what_points_to_them_finds_them() {
    let server = Server::empty(demo_workspace());
    for (path, _, tags) in pages(&server, "en") {
        let ids: Vec<&str> = tags.iter().filter_map(|tag| tag.get("id")).collect();
        let known: BTreeSet<&str> = ids.iter().copied().collect();
        assert_eq!(ids.len(), known.len(), "{path}: {ids:?}");
        for tag in &tags {
            for pointer in [
                "for",
                "aria-labelledby",
                "aria-describedby",
                "aria-controls",
            ] {
                for id in tag.get(pointer).unwrap_or("").split_whitespace() {
                    assert!(known.contains(id), "{path}: {pointer} {id}");
                }
            }
            if let Some(id) = tag.get("href").and_then(|href| href.strip_prefix('#')) {
                assert!(known.contains(id), "{path}: #{id}");
            }
        }
    }
}

#[test]
fn whatever_is_filled_in_or_pressed_has_a_name() {
    let server = Server::empty(demo_workspace());
    for (path, _, tags) in pages(&server, "en") {
        let labelled: BTreeSet<&str> = tags
            .iter()
            .filter(|tag| tag.name == "label")
            .filter_map(|tag| tag.get("for"))
            .collect();
        for tag in &tags {
            let is_field = matches!(tag.name.as_str(), "input" | "select" | "textarea")
                && tag.get("type") != Some("hidden");
            if is_field {
                let has_name = tag.within.iter().any(|name| name == "label")
                    || tag.get("id").is_some_and(|id| labelled.contains(id))
                    || tag.get("aria-label").is_some();
                assert!(has_name, "{path}: {tag:?}");
                assert!(
                    tag.get("name").is_some() || tag.get("type") == Some("file"),
                    "{path}: {tag:?}"
                );
            }
            // What scrolls can be reached by the keyboard and is named.
            if tag.get("tabindex") == Some("0") {
                let is_named = tag
                    .get("aria-label")
                    .or(tag.get("aria-labelledby"))
                    .is_some();
                assert!(is_named && tag.get("role").is_some(), "{path}: {tag:?}");
            }
            if tag.name == "th" {
                assert!(
                    matches!(tag.get("scope"), Some("col" | "row")),
                    "{path}: {tag:?}"
                );
            }
            if tag.name == "img" {
                assert!(tag.get("alt").is_some(), "{path}: {tag:?}");
            }
        }
    }
}

#[test]
fn nothing_is_inline_and_nothing_comes_from_elsewhere() {
    let server = Server::empty(demo_workspace());
    for (path, _, tags) in pages(&server, "en") {
        for tag in &tags {
            for (name, value) in &tag.attributes {
                assert!(!name.starts_with("on"), "{path}: {tag:?}");
                assert!(
                    name != "style" || tag.within.iter().any(|of| of == "svg"),
                    "{path}: {tag:?}"
                );
                if matches!(name.as_str(), "href" | "src" | "action") {
                    let is_ours = value.starts_with('/') && !value.starts_with("//")
                        || value.starts_with('#');
                    assert!(is_ours, "{path}: {name}={value}");
                }
            }
        }
    }
}

#[test]
fn every_link_of_every_page_leads_to_an_answer() {
    let server = Server::empty(demo_workspace());
    let mut links = BTreeSet::new();
    for (_, _, tags) in pages(&server, "en") {
        for tag in tags {
            if let Some(href) = tag.get("href").filter(|href| href.starts_with('/')) {
                links.insert(href.replace("&amp;", "&"));
            }
        }
    }
    assert!(links.len() > 60, "{} links", links.len());
    for link in links {
        // Whole workbooks are asked for elsewhere.
        if link.ends_with(".xlsx") {
            continue;
        }
        let status = server.send("HEAD", &link, &[], b"").status;
        let wanted = if link.starts_with("/language/") {
            303
        } else {
            200
        };
        assert_eq!(status, wanted, "{link}");
    }
}

#[test]
fn the_page_one_is_on_is_marked_among_the_ways() {
    let server = Server::empty(demo_workspace());
    for (path, _, tags) in pages(&server, "en") {
        let current: Vec<&str> = tags
            .iter()
            .filter(|tag| tag.get("aria-current") == Some("page"))
            .filter_map(|tag| tag.get("href"))
            .collect();
        let root = path.split('?').next().unwrap();
        let wanted = match root {
            "/kits/0" => "/kits",
            "/table/order_now" | "/table/kits" => "/overview",
            other => other,
        };
        assert_eq!(current, [wanted], "{path}");
    }
}

#[test]
fn forms_send_by_get_what_only_asks_and_by_post_what_changes() {
    let server = Server::empty(demo_workspace());
    for (path, _, tags) in pages(&server, "en") {
        for form in tags.iter().filter(|tag| tag.name == "form") {
            let action = form.get("action").unwrap();
            let method = form.get("method").unwrap();
            assert_eq!(
                method == "post",
                action.starts_with("/import"),
                "{path}: {form:?}"
            );
            if action == "/import" {
                assert_eq!(form.get("enctype"), Some("multipart/form-data"), "{path}");
            }
        }
    }
}
