//! The page: balanced, escaped, self-contained, and complete.

use sparewright::report::{PAGE_SCRIPT, PAGE_SCRIPT_SOURCE, html_of};

use super::sample::{HOSTILE, report};

/// Elements that have no end tag (HTML Living Standard, section 13.1.2, void elements).
const VOID: [&str; 14] = [
    "area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track",
    "wbr", "param",
];

/// The first element that is not closed as it was opened.
fn first_unbalanced(page: &str) -> Option<String> {
    let mut open: Vec<&str> = Vec::new();
    let mut rest = page;
    while let Some(start) = rest.find('<') {
        rest = &rest[start + 1..];
        let end = rest.find('>')?;
        let tag = &rest[..end];
        rest = &rest[end + 1..];
        if tag.starts_with('!') {
            continue;
        }
        // Elements of pictures may close themselves.
        if tag.ends_with('/') {
            continue;
        }
        if let Some(name) = tag.strip_prefix('/') {
            if open.pop() != Some(name) {
                return Some(name.to_owned());
            }
        } else {
            let name = tag.split_whitespace().next().unwrap_or_default();
            if !VOID.contains(&name) {
                open.push(name);
            }
        }
    }
    open.pop().map(str::to_owned)
}

#[test]
fn the_check_of_balance_can_fail() {
    assert_eq!(first_unbalanced("<p><b>a</b><br></p>"), None);
    assert_eq!(first_unbalanced("<p><b>a</p>").as_deref(), Some("p"));
    assert_eq!(first_unbalanced("<p>a").as_deref(), Some("p"));
}

#[test]
fn the_page_is_balanced_and_nothing_of_a_cell_runs() {
    let page = html_of(&report());
    assert_eq!(first_unbalanced(&page), None);
    let scripts: Vec<&str> = page.split("<script>").skip(1).collect();
    assert_eq!(scripts.len(), 1, "a cell became a script");
    assert_eq!(page.matches("<script").count(), 1);
    assert_eq!(scripts[0].split("</script>").next(), Some(PAGE_SCRIPT));
    assert!(page.contains(&format!("script-src {PAGE_SCRIPT_SOURCE};")));
    let escaped =
        "&lt;/td&gt;&lt;script&gt;alert('x')&lt;/script&gt; &amp; &quot;quoted&quot; &lt;b&gt;";
    assert!(page.contains(escaped), "{HOSTILE}");
    assert!(!page.contains('\u{7}'));
}

#[test]
fn the_page_needs_nothing_from_outside() {
    let page = html_of(&report());
    for outside in ["http://", "https://", "src=", "@import", "url("] {
        assert!(!page.contains(outside), "{outside}");
    }
}

#[test]
fn every_link_within_the_page_has_its_target_once() {
    let page = html_of(&report());
    let links: Vec<&str> = page
        .split("href=\"#")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .collect();
    assert!(links.len() >= 10, "{links:?}");
    for link in links {
        assert_eq!(
            page.matches(&format!(" id=\"{link}\"")).count(),
            1,
            "{link}"
        );
    }
}

#[test]
fn every_table_can_be_reached_and_read_out() {
    let page = html_of(&report());
    // Five sheets with rows and the table of data ages.
    assert_eq!(page.matches("<table").count(), 6);
    assert_eq!(page.matches("<caption>").count(), 6);
    // A table within a section of its name is a group, so that no two regions have one name.
    let named = ["role=\"region\"", "role=\"group\""].map(|role| page.matches(role).count());
    assert_eq!(named.iter().sum::<usize>(), 6, "{named:?}");
    // One more: the cell of 40,000 characters scrolls in its own window.
    assert_eq!(page.matches("tabindex=\"0\"").count(), 7);
    let rows = page.matches("<th scope=\"row\">").count();
    // 5 + 5 + 3 + 300 + 9 rows, 3 ages, totals rows of orders, kits and stock levels.
    assert_eq!(rows, 328);
    assert!(page.contains("No part in stock carries a date of expiry"));
}

#[test]
fn unknown_is_a_word_with_its_reason_and_marks_have_words() {
    let page = html_of(&report());
    assert!(page.contains("title=\"no offer names a lead time\">unknown<"));
    assert!(page.contains("Lead time is unknown in 1 row: no offer names a lead time."));
    for mark in ["■ STOP", "▲ check", "● good"] {
        assert!(page.contains(mark), "{mark}");
    }
}

#[test]
fn a_bar_of_unknown_length_is_named_but_not_drawn() {
    let page = html_of(&report());
    // The room for a bar, and the bar.
    assert_eq!(page.matches(" class=\"rail\"").count(), 4);
    assert_eq!(page.matches(" class=\"bar\"").count(), 4);
    assert!(page.contains("Unknown, so not drawn: Shaft and seals."));
    // 88 of 212.5 h.
    assert!(page.contains("width=\"41.41%\""));
}
