//! Order lines that come too late for a rebuild: the same words and marks on every sheet, and what can be done.

use serde_json::Value;
use sparewright::report::content::{order_report, summary};
use sparewright::report::json_of;

use super::advice::shop;

/// A bearing that takes ten days for a rebuild in five, with some more rows of open orders.
fn late(orders: &str) -> [(&'static str, String); 6] {
    let offers =
        "supplier,part no,price EUR,lead time,quote date\nSup One,A-1,10,10 days,2026-11-20\n";
    let head = "order,supplier,part no,quantity,ordered,promised,received\n";
    [
        (
            "kit.csv",
            "kit,machine,line,part no,quantity\nGearbox,M1,10,A-1,1\n".to_owned(),
        ),
        (
            "machines.csv",
            "machine,units,downtime EUR/h\nM1,1,1000\n".to_owned(),
        ),
        ("offers.csv", offers.to_owned()),
        (
            "parts.csv",
            "part no,description,unit\nA-1,6205-2RS,piece\n".to_owned(),
        ),
        (
            "planned.csv",
            "kit,machine,planned date\nGearbox,M1,2026-12-01\n".to_owned(),
        ),
        ("orders.csv", format!("{head}{orders}")),
    ]
}

/// The rows of the part in the report of a run and on the order list.
fn rows(orders: &str) -> [Value; 2] {
    let files = late(orders);
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (*name, &**text)).collect();
    let (job, planned) = shop(&files);
    let run: Value = serde_json::from_slice(&json_of(&job.report(&planned))).unwrap();
    let list = order_report(&job.inputs(&planned));
    let list: Value = serde_json::from_slice(&json_of(&list)).unwrap();
    [(run, "order_now"), (list, "by_saving")].map(|(report, sheet)| {
        let rows = report["sheets"][sheet]["rows"].as_array().unwrap();
        let row = rows.iter().find(|row| row["buy"] == "A-1");
        row.unwrap_or_else(|| panic!("{sheet}: {rows:?}")).clone()
    })
}

#[test]
fn the_order_list_marks_a_line_as_the_report_does() {
    let [run, list] = rows("");
    assert_eq!(
        (&run["mark"], &list["mark"]),
        (&"stop".into(), &"stop".into())
    );
    assert_eq!(run["why"], list["why"]);
    assert!(
        run["why"].as_str().unwrap().contains("Comes too late"),
        "{run}"
    );
}

#[test]
fn what_is_on_order_but_too_late_is_named_and_what_can_be_done() {
    // Needed on Tuesday 1 December: five promised for the Wednesday, and two that should have come on 20 November.
    let five = "B1,Sup One,A-1,5,2026-11-20,2026-12-02,\n";
    let two = "B2,Sup One,A-1,2,2026-11-02,2026-11-20,\n";
    let [run, list] = rows(&format!("{five}{two}"));
    let why = run["why"].as_str().unwrap();
    let told = "5 on order, due 2026-12-02, too late for it: hurry that first.";
    assert!(why.contains(told), "{why}");
    assert!(
        why.contains("2 on order, due 2026-11-20 but likely here 2026-12-"),
        "{why}"
    );
    // One line alone makes no set to hurry together: no sheet is named that has no row for it.
    let ask = "and no quicker offer may be used for all of it: ask the supplier to hurry it.";
    for why in [&run["why"], &list["why"]] {
        let why = why.as_str().unwrap();
        assert!(
            why.ends_with(ask) && !why.contains("Lines to hurry"),
            "{why}"
        );
    }
    // Nothing on order, nothing said of it.
    assert!(!rows("")[0]["why"].as_str().unwrap().contains("on order"));
}

#[test]
fn a_slower_offer_taken_because_the_wait_is_cheap_says_so() {
    // Five days more at 0.10 an hour down are 12 EUR at most, the quicker one costs 50 EUR more (by hand).
    let mut files = late("");
    for (name, text) in &mut files {
        match *name {
            "machines.csv" => *text = text.replace(",1000", ",0.1"),
            "offers.csv" => {
                *text = text.replace("A-1,10,10 days", "A-1,50,15 days");
                text.push_str("Sup Two,A-1,100,10 days,2026-11-20\n");
            }
            _ => {}
        }
    }
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (*name, &**text)).collect();
    let (job, planned) = shop(&files);
    let run: Value = serde_json::from_slice(&json_of(&job.report(&planned))).unwrap();
    let rows = run["sheets"]["order_now"]["rows"].as_array().unwrap();
    let row = rows.iter().find(|row| row["buy"] == "A-1").unwrap();
    assert_eq!(row["supplier"], "Sup One", "{row}");
    assert_eq!(row["mark"], "check", "{row}");
    let why = row["why"].as_str().unwrap();
    let told =
        "too late for the day it is needed: a quicker offer costs more than the waiting it saves.";
    assert!(why.ends_with(told), "{why}");
}

#[test]
fn tasks_that_wait_for_each_other_are_no_missing_lead_time() {
    // Its one line has an offer with a lead time: what nobody can tell is the order of its tasks.
    let mut files = late("").to_vec();
    let tasks = "kit,task,hours,after\nGearbox,Fit,4,Close\nGearbox,Close,1,Fit\n";
    files.push(("tasks.csv", tasks.to_owned()));
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (*name, &**text)).collect();
    let (job, planned) = shop(&files);
    let words = summary(&job.inputs(&planned));
    let longest = words.lines.iter().find(|(word, _)| *word == "Longest");
    let told = "Gearbox: no end known, a task waits for itself or for one that has no row";
    assert_eq!(longest.map(|(_, text)| text.as_str()), Some(told));
}

/// The goods of an order follow a changed quantity; its freight has no formula, and the sheet says so.
#[test]
fn freight_that_does_not_follow_says_so() {
    let files = late("");
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (*name, &**text)).collect();
    let (job, planned) = shop(&files);
    let report = job.report(&planned);
    let sheet = report.sheets.iter().find(|sheet| sheet.key == "orders");
    let sheet = sheet.unwrap();
    let follows = |key: &str| {
        let column = sheet.columns.iter().find(|column| column.key == key);
        column
            .unwrap_or_else(|| panic!("no {key}"))
            .formula
            .is_some()
    };
    assert!(follows("goods_eur") && follows("together_eur") && !follows("freight_eur"));
    assert!(
        sheet
            .notes
            .iter()
            .any(|note| note.starts_with("Freight is as planned")),
        "{:?}",
        sheet.notes
    );
}
