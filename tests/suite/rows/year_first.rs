//! Years of two figures in front: what a column, its table and its folder prove, and what stays in doubt.
//!
//! Expected days are those of ISO 8601's order (year, month, day); what proves it is common practice, no source.

use sparewright::import::value::{DateEvidence, read_date};
use sparewright::import::{Imported, read_folder};
use sparewright::record::DateOrder::{self, Dmy, Mdy, Ymd};

use super::import;

fn order_of(cells: &[&str], settings: DateOrder) -> Option<DateOrder> {
    let mut evidence = DateEvidence::default();
    cells.iter().for_each(|cell| evidence.add(cell));
    evidence.order(settings)
}

fn says(imported: &Imported, words: &str) -> bool {
    let mut why = imported.tables.iter().flat_map(|table| &table.why);
    why.any(|line| line.contains(words))
}

#[test]
fn days_of_the_month_spread_and_years_do_not() {
    for (cells, expected) in [
        (&["26-03-09", "26-03-19", "25-12-31"][..], Some(Ymd)),
        (&["26/03/09", "26/03/19", "25/12/31"], Some(Ymd)),
        (&["05-03-26", "17-02-26", "28-01-26"], Some(Dmy)),
        (&["03-05-26", "02-17-26", "01-28-26"], Some(Mdy)),
        // Neither a day 0 nor a day 99.
        (&["00-03-09"], Some(Ymd)),
        (&["26-03-09", "99-12-31"], Some(Ymd)),
        (&["26-03-09", "26-03-99"], Some(Dmy)),
        // Whole years of the column tell the others.
        (&["26-03-09", "2026-03-10"], Some(Ymd)),
        (&["09-03-26", "10-03-2026"], Some(Dmy)),
        // Dates that can be only one of each kind.
        (&["99-12-31", "03-25-26"], None),
        // With dots the day comes first.
        (&["26.03.09", "26.03.19", "25.12.31"], Some(Dmy)),
    ] {
        assert_eq!(order_of(cells, Dmy), expected, "{cells:?}");
    }
    for text in ["26-03-09", "26/3/9", "26-03-09 07:30"] {
        assert_eq!(
            read_date(text, Some(Ymd)).map(|day| day.to_string()),
            Ok("2026-03-09".to_owned()),
            "{text}"
        );
    }
    // Without a proof the settings decide.
    assert_eq!(order_of(&["06-03-09"], Ymd), Some(Ymd));
    assert_eq!(order_of(&["06-03-09"], Mdy), Some(Mdy));
}

#[test]
fn a_date_that_no_order_fits_is_ambiguous() {
    assert_eq!(
        read_date("26-03-09", None).unwrap_err().to_string(),
        "`26-03-09` is either 2009-03-26 or 2026-03-09, and the column holds dates of both orders; expected `2026-03-09`"
    );
    assert!(read_date("03/04/2026", Some(Ymd)).is_err());
    assert!(read_date("13/04/2026", Some(Ymd)).is_ok());
}

#[test]
fn a_column_its_table_and_its_folder_tell_where_the_year_stands() {
    let of_column = import(
        "usages.csv",
        "Date;Part no;Quantity\n26-03-09;B-1;1\n26-03-19;B-1;1\n25-12-31;B-1;1\n",
    );
    let days: Vec<String> = (of_column.records.usages.iter())
        .map(|usage| usage.date.to_string())
        .collect();
    assert_eq!(days, ["2026-03-09", "2026-03-19", "2025-12-31"]);
    assert!(says(&of_column, "begin with the year"));

    let of_table = import(
        "orders.csv",
        "Supplier;Part no;Ordered;Promised;Quantity\nNord;B-1;26-03-09;2026-03-12;1\n",
    );
    let order = &of_table.records.receipts[0];
    assert_eq!(order.ordered.to_string(), "2026-03-09");

    let folder = tempfile::tempdir().unwrap();
    let usages = "Date;Part no;Quantity\n";
    for (name, rows) in [
        ("a.csv", "26-03-11;B-1;1\n"),
        ("b.csv", "26-03-09;B-2;1\n26-03-19;B-2;1\n25-12-31;B-2;1\n"),
    ] {
        std::fs::write(folder.path().join(name), format!("{usages}{rows}")).unwrap();
    }
    let of_folder = read_folder(folder.path()).unwrap();
    let first = &of_folder.records.usages[0];
    assert_eq!(
        (&*first.part, first.date.to_string().as_str()),
        ("B-1", "2026-03-11")
    );
}

#[test]
fn a_doubt_about_the_year_is_told() {
    let one = import("usages.csv", "Date;Part no;Quantity\n26-03-25;B-1;1\n");
    assert_eq!(one.records.usages[0].date.to_string(), "2025-03-26");
    assert!(says(
        &one,
        "dates of column `Date` could begin with the year or end with it; read day first, since no other table says otherwise"
    ));
    // A title proves nothing by itself: no date is better than one of 2009.
    for (stand, dated) in [
        ("Stand 26-03-09", None),
        ("Date: 26-03-09", None),
        ("Stand 26-03-2009", Some("2009-03-26")),
    ] {
        let list = import(
            "prices.csv",
            &format!("{stand}\nSupplier;Part no;Price EUR\nNord;B-1;4\n"),
        );
        let found = list.tables[0].dated.map(|day| day.to_string());
        assert_eq!(found.as_deref(), dated, "{stand}");
        let is_told = says(
            &list,
            "`26-03-09` above the table could begin with the year",
        );
        assert_eq!(is_told, dated.is_none(), "{stand}");
    }
    // Neither does a lead time.
    let quoted = import(
        "prices.csv",
        "Supplier;Part no;Price EUR;Lead time\nNord;B-1;4;by 26-03-09\n",
    );
    assert_eq!(quoted.records.offers[0].lead_time, None);
    assert_eq!(quoted.issues.len(), 1);
    // Days of cure may lie years back: dates of the count prove nothing about them.
    let cured = import(
        "stock.csv",
        "Part no;On hand;Counted on;Cure date\nR-1;4;2026-03-09;19-03-26\n",
    );
    assert!(says(&cured, "column `Cure date` could begin with the year"));
}
