//! What a hurried delivery of an offer saves on its kit line, as the sheet says it.

use serde_json::Value;
use sparewright::report::{csv_of, json_of};

use super::advice::shop;

/// One part missing, ten days as quoted or two for 35.00 more, an hour down at 100.00; of the second part nobody names the
/// surcharge.
const FILES: [(&str, &str); 5] = [
    (
        "kit.csv",
        "Kit;Line;Part no;Quantity;Unit\nM1 rebuild;10;A-1;1;piece\nM1 rebuild;20;B-1;1;piece\n",
    ),
    (
        "machines.csv",
        "Machine;Units;Downtime EUR/h;Criticality\nM1;1;100;A\n",
    ),
    (
        "offers.csv",
        "Supplier;Part no;Price EUR;Lead time;Express lead time;Express surcharge;Quote date\n\
         Sup One;A-1;10;10 days;2 days;35;2026-11-20\nSup One;B-1;10;1 day;1 day;;2026-11-20\n",
    ),
    (
        "parts.csv",
        "Part no;Description;Unit;Machine\nA-1;6205-2RS;piece;M1\nB-1;6308-2RS;piece;M1\n",
    ),
    (
        "stock.csv",
        "Part no;Bin;On hand;Unit\nA-1;X;0;piece\nB-1;X;0;piece\n",
    ),
];

#[test]
fn a_row_says_hours_and_money_against_what_it_costs() {
    let (job, planned) = shop(&FILES);
    let report = job.report(&planned);
    let json: Value = serde_json::from_slice(&json_of(&report)).unwrap();
    let rows = json["sheets"]["hurried"]["rows"].as_array().unwrap();
    let [row] = &rows[..] else { panic!("{rows:?}") };
    assert_eq!((&row["line"], &row["part"]), (&"10".into(), &"A-1".into()));
    assert_eq!(row["planned"], true);
    let figure = |key: &str| {
        row[key]
            .as_f64()
            .unwrap_or_else(|| panic!("{key} of {row}"))
    };
    // From the table: the goods cost the same either way, and so does their freight.
    assert!((figure("surcharge_eur") - 35.0).abs() < 1e-9);
    assert!((figure("dearer_eur") - 35.0).abs() < 1e-9);
    // Eight days sooner, five of them at least working ones of eight hours, at 100.00 an hour.
    let hours = figure("saved_h");
    assert!(hours > 40.0, "{hours}");
    assert!((figure("saved_hours_eur") - 100.0 * hours).abs() < 0.011);
    assert!((figure("saved_eur") - (figure("saved_hours_eur") - 35.0)).abs() < 0.021);
    let sheet = report.sheet("hurried").unwrap();
    let csv = String::from_utf8(csv_of(sheet)).unwrap();
    assert!(
        csv.contains("saved_h,saved_hours_eur,dearer_eur,saved_eur,planned"),
        "{csv}"
    );
    assert_eq!(csv.lines().count(), 2, "{csv}");
}
