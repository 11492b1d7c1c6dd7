//! CSV and JSON, read back by programs' usual readers.

use serde_json::Value as Json;
use sparewright::report::{JSON_SCHEMA, Sheet, csv_of, json_of, read_back};

use super::sample::{FORMULA_LIKE, HOSTILE, report};

/// Every record of the CSV file of a sheet, the mark of byte order taken off.
fn records(sheet: &Sheet) -> Vec<Vec<String>> {
    let text = String::from_utf8(csv_of(sheet)).unwrap();
    let text = text.strip_prefix('\u{feff}').unwrap();
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .from_reader(text.as_bytes());
    reader
        .records()
        .map(|record| record.unwrap().iter().map(str::to_owned).collect())
        .collect()
}

fn json() -> Json {
    serde_json::from_slice(&json_of(&report())).unwrap()
}

#[test]
fn a_csv_file_has_keys_first_and_plain_values() {
    let report = report();
    let orders = records(report.sheet("orders").unwrap());
    assert_eq!(
        orders[0].join(","),
        "mark,part,supplier,order_quantity,unit,unit_price_eur,cost_eur,wait_workdays,order_by,arrives_on,reason"
    );
    assert_eq!(
        orders[4][..10].join(","),
        "good,SAE AS568-218,Dichtungen Groß,250,piece,0.0085,2.13,5,2026-03-09T11:00,2026-03-14"
    );
    assert_eq!(orders[2][7..10].join(","), "unknown,unknown,unknown");
    assert_eq!(records(report.sheet("expiring").unwrap()).len(), 1);
    assert_eq!(records(report.sheet("stock_levels").unwrap()).len(), 301);
}

#[test]
fn words_of_a_csv_file_are_safe_and_read_back_exactly() {
    let report = report();
    let issues = records(report.sheet("issues").unwrap());
    for (record, expected) in issues[1..].iter().zip(FORMULA_LIKE) {
        assert_eq!(record[1], format!("'{expected}"));
        assert_eq!(read_back(&record[1]), expected);
    }
    assert_eq!(issues[6][1], HOSTILE);
    assert_eq!(issues[9][1], "two\nlines, \"quoted\"");
    // Numbers are not words: a negative one has no apostrophe.
    let stock = records(report.sheet("stock_levels").unwrap());
    assert_eq!(stock[2][4], "-2");
}

#[test]
fn the_json_file_says_its_schema_and_where_it_comes_from() {
    let json = json();
    assert_eq!(json["schema"], JSON_SCHEMA);
    assert_eq!(json["report"]["as_of"], "2026-03-09T07:30:00");
    assert_eq!(json["report"]["made_by"]["name"], "sparewright");
    assert_eq!(json["cover"]["actions"][0]["sheet"], "orders");
    assert_eq!(json["cover"]["facts"][3]["value"], 0.873);
    assert_eq!(json["cover"]["facts"][4]["value"], Json::Null);
    assert!(json["cover"]["facts"][4]["value_unknown"].is_string());
    assert_eq!(json["cover"]["data_ages"][1]["dated"], "2025-11-20");
    assert_eq!(json["cover"]["data_ages"][2]["age_days"], Json::Null);
}

#[test]
fn rows_of_the_json_file_are_objects_with_units_in_their_keys() {
    let json = json();
    let orders = &json["sheets"]["orders"];
    let first = &orders["rows"][0];
    assert_eq!(first["mark"], "stop");
    assert_eq!(first["cost_eur"], 49.6);
    assert_eq!(first["wait_workdays"], 2);
    assert_eq!(first["arrives_on"], "2026-03-11");
    let second = &orders["rows"][1];
    assert_eq!(second["wait_workdays"], Json::Null);
    assert_eq!(
        second["wait_workdays_unknown"],
        "no offer names a lead time"
    );
    assert!(first.get("wait_workdays_unknown").is_none());
    assert_eq!(orders["totals"]["cost_eur"]["sum"], 486.88);
    assert_eq!(orders["totals"]["cost_eur"]["unknown_rows"], 1);
    assert_eq!(orders["columns"][5]["unit"], "EUR");
    // Does not apply is null without a reason.
    let third = &json["sheets"]["alternatives"]["rows"][2];
    assert_eq!(third["width_mm"], Json::Null);
    assert!(third.get("width_mm_unknown").is_none());
    assert_eq!(json["sheets"]["expiring"]["rows"], serde_json::json!([]));
}

#[test]
fn the_json_file_keeps_the_order_of_the_report() {
    let text = String::from_utf8(json_of(&report())).unwrap();
    let places: Vec<usize> = ["orders", "kits", "alternatives", "stock_levels", "issues"]
        .iter()
        .map(|key| text.find(&format!("\n    \"{key}\": {{")).unwrap())
        .collect();
    assert!(places.is_sorted(), "{places:?}");
}
