//! Tables of the page sorted in a browser, by clicks on their headers.

use std::process::Command;

use sparewright::report::html_of;

use super::outside::browser;
use super::sample::report;

/// What the page says after the clicks: the cells of the column, joined, and how the header tells its order.
fn after_clicks(sheet: &str, column: usize, clicks: usize) -> Option<(String, String)> {
    let browser = browser()?;
    // The page lets no script run but its own, so that the clicks need one without the policy.
    let page = html_of(&report());
    let (head, rest) = page
        .split_once("<meta http-equiv=\"Content-Security-Policy\"")
        .unwrap();
    let rest = rest.split_once('>').unwrap().1;
    let script = format!(
        "var t=document.querySelector('#{sheet} table'),h=t.tHead.rows[0].cells[{column}];\
         for(var i=0;i<{clicks};i++)h.querySelector('button').click();\
         document.title=Array.from(t.tBodies[0].rows).map(function(r){{return r.cells[{column}].lastChild.textContent}})\
         .join(';')+'|'+h.getAttribute('aria-sort');"
    );
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("page.html");
    let text =
        format!("{head}{rest}").replace("</body>", &format!("<script>{script}</script></body>"));
    std::fs::write(&path, text).unwrap();
    let output = Command::new(browser)
        .args(["--headless", "--no-sandbox", "--disable-gpu", "--dump-dom"])
        .arg(format!(
            "--user-data-dir={}",
            folder.path().join("profile").display()
        ))
        .arg(format!("file://{}", path.display()))
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    let title = said
        .split("<title>")
        .nth(1)?
        .split("</title>")
        .next()?
        .to_owned();
    let (cells, order) = title.rsplit_once('|')?;
    Some((cells.to_owned(), order.to_owned()))
}

#[test]
fn a_header_sorts_up_then_down_then_back_and_keeps_the_unknown_last() {
    // Column of hours: 212.5, unknown, 88, 14.25, 6.
    for (clicks, cells, order) in [
        (1, "6.0;14.3;88.0;212.5;unknown", "ascending"),
        (2, "212.5;88.0;14.3;6.0;unknown", "descending"),
        (3, "212.5;unknown;88.0;14.3;6.0", "null"),
    ] {
        let Some(found) = after_clicks("kits", 2, clicks) else {
            return;
        };
        assert_eq!(
            found,
            (cells.to_owned(), order.to_owned()),
            "{clicks} clicks"
        );
    }
}

#[test]
fn words_sort_as_people_count() {
    // Regal 2 comes before Regal 14.
    let Some((cells, _)) = after_clicks("stock_levels", 1, 1) else {
        return;
    };
    let first: Vec<&str> = cells.split(';').take(3).collect();
    assert_eq!(
        first,
        ["Regal 0, Fach 0", "Regal 0, Fach 1", "Regal 0, Fach 2"]
    );
    assert!(cells.ends_with("Regal 14, Fach 19"), "{cells}");
}
