//! The shop's tables as Parquet files, read back by the reader of another library: what a table says, and null where it
//! does not.

use std::path::Path;

use chrono::NaiveDate;
use polars::prelude::{DataFrame, DataType, ParquetReader, SerReader};
use sparewright::catalogue::frame::{usage_by_year, write_tables};
use sparewright::job::Job;

use crate::sheets::SmallShop;

/// The job of a shop as of Thursday, 26 November 2026.
fn job(shop: &SmallShop) -> Job {
    let folder = tempfile::tempdir().unwrap();
    shop.write(folder.path());
    let as_of = NaiveDate::from_ymd_opt(2026, 11, 26).and_then(|day| day.and_hms_opt(8, 0, 0));
    Job::read(folder.path(), as_of).unwrap()
}

fn read(path: &Path) -> DataFrame {
    ParquetReader::new(std::fs::File::open(path).unwrap())
        .finish()
        .unwrap()
}

/// The five tables of a shop.
fn tables(shop: &SmallShop) -> Vec<(String, DataFrame)> {
    let folder = tempfile::tempdir().unwrap();
    let paths = write_tables(&job(shop).shop, folder.path()).unwrap();
    let name = |path: &Path| path.file_stem().unwrap().to_string_lossy().into_owned();
    paths.iter().map(|path| (name(path), read(path))).collect()
}

fn table(shop: &SmallShop, name: &str) -> DataFrame {
    let mut all = tables(shop);
    let at = all.iter().position(|(of, _)| of == name).unwrap();
    all.swap_remove(at).1
}

fn texts(frame: &DataFrame, column: &str) -> Vec<String> {
    let column = frame.column(column).unwrap().str().unwrap();
    column
        .iter()
        .map(|text| text.unwrap_or("-").to_owned())
        .collect()
}

fn figures(frame: &DataFrame, column: &str) -> Vec<Option<f64>> {
    frame
        .column(column)
        .unwrap()
        .f64()
        .unwrap()
        .iter()
        .collect()
}

/// Days since 1970-01-01 as days.
fn days(frame: &DataFrame, column: &str) -> Vec<String> {
    let days = frame
        .column(column)
        .unwrap()
        .cast(&DataType::Int32)
        .unwrap();
    let epoch = NaiveDate::from_ymd_opt(1970, 1, 1).unwrap();
    let days = days.i32().unwrap();
    days.iter()
        .map(|day| match day {
            Some(day) => (epoch + chrono::Duration::days(i64::from(day))).to_string(),
            None => "-".to_owned(),
        })
        .collect()
}

#[test]
fn parts_have_their_number_size_and_place() {
    let parts = table(&SmallShop::new(), "parts");
    assert_eq!(texts(&parts, "number"), ["A-1", "A-2", "A-3", "A-4"]);
    assert_eq!(
        texts(&parts, "family"),
        [
            "deep_groove_ball",
            "lip_seal",
            "deep_groove_ball",
            "deep_groove_ball"
        ]
    );
    // ISO 15: 6205 is 25 x 52 x 15, 6206 30 x 62 x 16, 6310 50 x 110 x 27; the seal says its own.
    assert_eq!(
        figures(&parts, "bore_mm"),
        [Some(25.0), None, Some(30.0), Some(50.0)]
    );
    assert_eq!(
        figures(&parts, "outside_diameter_mm"),
        [Some(52.0), None, Some(62.0), Some(110.0)]
    );
    assert_eq!(
        figures(&parts, "width_mm"),
        [Some(15.0), Some(7.0), Some(16.0), Some(27.0)]
    );
    assert_eq!(
        figures(&parts, "shaft_diameter_mm"),
        [None, Some(35.0), None, None]
    );
    assert_eq!(figures(&parts, "inside_diameter_mm"), [None; 4]);
    assert_eq!(texts(&parts, "first_file"), ["parts.csv"; 4]);
    assert_eq!(texts(&parts, "first_row"), ["2", "3", "4", "5"]);
    let own = parts.column("is_own").unwrap().bool().unwrap();
    assert!(own.iter().all(|is_own| is_own == Some(true)));
}

#[test]
fn offers_have_prices_for_one_and_days_as_days() {
    let offers = table(&SmallShop::new(), "offers");
    assert_eq!(
        texts(&offers, "supplier"),
        ["North", "South", "North", "South", "East"]
    );
    let prices = [4.2, 3.8, 2.1, 5.0, 6.0].map(Some);
    assert_eq!(figures(&offers, "unit_price"), prices);
    assert_eq!(texts(&offers, "currency"), ["EUR"; 5]);
    assert_eq!(figures(&offers, "minimum_quantity")[1], Some(10.0));
    assert_eq!(days(&offers, "valid_until")[3], "2026-02-01");
    assert_eq!(days(&offers, "quote_date")[0], "2026-11-02");
    assert_eq!(figures(&offers, "quantity_available"), [None; 5]);
    // A price for a hundred is that of one times a hundred.
    let hundreds = SmallShop::new()
        .with("prices.csv", "price EUR", "price EUR per 100")
        .with("prices.csv", ",4.20,", ",420,");
    assert_eq!(
        figures(&table(&hundreds, "offers"), "unit_price")[0],
        Some(4.2)
    );
}

#[test]
fn what_a_table_does_not_say_is_null_and_not_zero() {
    let shop = SmallShop::new()
        .with(
            "prices.csv",
            "North,A-2,35x52x7,2.10,1 week,2026-11-02",
            "North,A-2,35x52x7,,,",
        )
        .with("stock.csv", "A-3,B3,1,", "A-3,,,");
    let offers = table(&shop, "offers");
    assert_eq!(figures(&offers, "unit_price")[2], None);
    assert_eq!(texts(&offers, "lead_time")[2], "-");
    assert_eq!(days(&offers, "quote_date")[2], "-");
    let stock = table(&shop, "stock");
    assert_eq!(
        figures(&stock, "on_hand"),
        [Some(0.0), Some(4.0), None, Some(6.0)]
    );
    assert_eq!(texts(&stock, "bin"), ["B1", "B2", "-", "B4"]);
    assert_eq!(days(&stock, "cure_date"), ["-", "2019-01-15", "-", "-"]);
}

#[test]
fn usages_keep_returns_negative_and_receipts_an_open_end() {
    let shop = SmallShop::new().with(
        "usages.csv",
        "2026-05-20,A-1,2,Press,failure",
        "2026-05-20,A-1,2,Press,failure\n2026-05-21,A-1,-1,Press,failure",
    );
    let usages = table(&shop, "usages");
    let mut quantities = figures(&usages, "quantity");
    quantities.sort_by(|a, b| a.partial_cmp(b).unwrap());
    assert_eq!(quantities, [-1.0, 1.0, 1.0, 2.0, 2.0, 2.0].map(Some));
    let years: Vec<Option<i32>> = usages
        .column("year")
        .unwrap()
        .i32()
        .unwrap()
        .iter()
        .collect();
    assert_eq!(years.iter().filter(|year| **year == Some(2026)).count(), 3);
    let receipts = table(&shop, "receipts");
    assert_eq!(
        days(&receipts, "received")
            .iter()
            .filter(|day| *day == "-")
            .count(),
        1
    );
    assert_eq!(receipts.height(), 3);
}

#[test]
fn part_ids_lead_from_every_table_to_its_part() {
    let all = tables(&SmallShop::new());
    let names: Vec<&str> = all.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, ["parts", "offers", "stock", "usages", "receipts"]);
    let parts = &all[0].1;
    let ids: Vec<u32> = parts
        .column("part_id")
        .unwrap()
        .u32()
        .unwrap()
        .iter()
        .flatten()
        .collect();
    assert_eq!(ids.len(), parts.height());
    for (name, frame) in &all[1..] {
        let column = frame.column("part_id").unwrap().u32().unwrap();
        assert_eq!(column.len(), frame.height());
        for id in column.iter() {
            assert!(ids.contains(&id.unwrap()), "{name}");
        }
    }
}

#[test]
fn sums_by_year_are_those_of_adding_up_and_the_future_is_left_out() {
    let shop = SmallShop::new().with(
        "usages.csv",
        "2026-06-10,A-3,1,Press,failure",
        "2026-06-10,A-3,1,Press,failure\n2026-12-30,A-3,7,Press,failure\n2024-03-01,A-1,0.5,Press,failure",
    );
    let job = job(&shop);
    let found = usage_by_year(&job.shop).unwrap();
    let number = |at: usize| job.shop.catalogue.part(found[at].part).number.as_str();
    let told: Vec<(&str, i32, f64)> = (0..found.len())
        .map(|at| (number(at), found[at].year, found[at].quantity))
        .collect();
    assert_eq!(
        told,
        [
            ("A-1", 2024, 2.5),
            ("A-1", 2025, 2.0),
            ("A-1", 2026, 2.0),
            ("A-2", 2025, 1.0),
            ("A-3", 2026, 1.0)
        ]
    );
}

#[test]
fn a_shop_of_parts_alone_has_five_tables_of_which_four_are_empty() {
    let mut shop = SmallShop::new();
    for file in SmallShop::BESIDE_PARTS {
        shop = shop.without(file);
    }
    let heights: Vec<usize> = tables(&shop)
        .iter()
        .map(|(_, frame)| frame.height())
        .collect();
    assert_eq!(heights, [4, 0, 0, 0, 0]);
}

#[test]
fn a_folder_that_is_not_there_is_named() {
    let job = job(&SmallShop::new());
    let error = write_tables(&job.shop, Path::new("/nowhere/at/all")).unwrap_err();
    assert!(
        error
            .to_string()
            .contains("parts.parquet could not be written"),
        "{error}"
    );
    assert!(std::error::Error::source(&error).is_some());
}
