//! Tables of the page sorted in a browser, by clicks on their headers.

use std::process::Command;

use chrono::{NaiveDate, NaiveDateTime};
use sparewright::language::Language;
use sparewright::report::model::{Column, ColumnKind, Cover, MadeBy, Row, Value};
use sparewright::report::{Report, Sheet, html_of, translated};
use sparewright::units::Currency;

use super::outside::browser;
use super::sample::report;

/// What the page says after the clicks: the cells of the column, joined, and how the header tells its order.
fn after_clicks(
    report: &Report,
    sheet: &str,
    column: usize,
    clicks: usize,
) -> Option<(String, String)> {
    let browser = browser()?;
    // The page lets no script run but its own, so that the clicks need one without the policy.
    let page = html_of(report);
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
        let Some(found) = after_clicks(&report(), "kits", 2, clicks) else {
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
    let Some((cells, _)) = after_clicks(&report(), "stock_levels", 1, 1) else {
        return;
    };
    let first: Vec<&str> = cells.split(';').take(3).collect();
    assert_eq!(
        first,
        ["Regal 0, Fach 0", "Regal 0, Fach 1", "Regal 0, Fach 2"]
    );
    assert!(cells.ends_with("Regal 14, Fach 19"), "{cells}");
}

/// Figures, days and moments whose texts sort otherwise than what they stand for.
fn telling() -> Report {
    let day = |year, month, day| NaiveDate::from_ymd_opt(year, month, day).unwrap();
    let mut sheet = Sheet::new(
        "telling",
        "Order now",
        "What has to be ordered today, from whom, and why?",
    );
    sheet.columns = vec![
        Column::text("part", "Our number"),
        Column::new(ColumnKind::Money(Currency::EUR), "cost_eur", "Cost"),
        Column::new(ColumnKind::Date, "needed_by", "Needed by"),
        Column::new(ColumnKind::Moment, "order_by", "Order by"),
    ];
    let rows = [
        (
            "A",
            Value::Number(1_234_567.5),
            day(2026, 2, 10),
            (day(2026, 3, 9), 14),
        ),
        (
            "B",
            Value::Number(980.25),
            day(2026, 3, 9),
            (day(2026, 3, 9), 7),
        ),
        (
            "C",
            Value::Unknown("no price".into()),
            day(2025, 12, 31),
            (day(2025, 11, 30), 9),
        ),
        (
            "D",
            Value::Number(-3.5),
            day(2026, 11, 1),
            (day(2026, 10, 2), 9),
        ),
    ];
    sheet.rows = rows
        .into_iter()
        .map(|(part, cost, needed, (order, hour))| {
            Row::new(vec![
                Value::text(part),
                cost,
                Value::Date(needed),
                Value::Moment(order.and_hms_opt(hour, 5, 0).unwrap()),
            ])
        })
        .collect();
    Report {
        language: Language::ENGLISH,
        title: "Reorder report".to_owned(),
        shop: "Shop".to_owned(),
        as_of: NaiveDateTime::default(),
        made_by: MadeBy::this_program(),
        cover: Cover::default(),
        sheets: vec![sheet],
    }
}

#[test]
fn figures_and_days_sort_by_what_they_stand_for_in_every_language() {
    let english = [
        (1, "-3.5;980.25;1,234,567.5;unknown"),
        (2, "2025-12-31;2026-02-10;2026-03-09;2026-11-01"),
        (
            3,
            "2025-11-30 09:05;2026-03-09 07:05;2026-03-09 14:05;2026-10-02 09:05",
        ),
    ];
    let german = [
        (1, "-3,5;980,25;1.234.567,5;unbekannt"),
        (2, "31.12.2025;10.02.2026;09.03.2026;01.11.2026"),
        (
            3,
            "30.11.2025 09:05;09.03.2026 07:05;09.03.2026 14:05;02.10.2026 09:05",
        ),
    ];
    for (code, expected) in [("en", english), ("de", german)] {
        let report = translated(telling(), Language::of_code(code).unwrap());
        for (column, up) in expected {
            let Some((found, _)) = after_clicks(&report, "telling", column, 1) else {
                return;
            };
            assert_eq!(found, up, "{code}, column {column}");
            // Down is up the other way round, but what is unknown stays last.
            let mut down: Vec<&str> = up.split(';').collect();
            let unknown = down.iter().position(|cell| cell.starts_with("un"));
            let last = unknown.map(|at| down.remove(at));
            down.reverse();
            down.extend(last);
            let (found, _) = after_clicks(&report, "telling", column, 2).unwrap();
            assert_eq!(found, down.join(";"), "{code}, column {column}, down");
        }
    }
}

#[test]
fn the_script_says_nothing_of_its_own() {
    // Whatever a person may read comes from the table, in its language.
    let page = html_of(&translated(telling(), Language::of_code("de").unwrap()));
    assert!(page.contains("data-sort=\"Nach dieser Spalte ordnen\""));
    assert!(page.contains("data-day=\"%d.%m.%Y\" data-decimal=\",\" data-group=\".\""));
    let script = sparewright::report::PAGE_SCRIPT;
    for words in ["Sort", "unknown", "ascending order"] {
        assert!(!script.contains(&format!("\"{words}")), "{words}");
    }
}
