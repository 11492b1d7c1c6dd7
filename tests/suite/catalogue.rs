//! Rows merged to parts, resolved, and written as tables.

mod counted;
mod frames;
mod merging;
mod numbers;
mod presumed;
mod shared_numbers;
mod spelling;

use sparewright::catalogue::frame;
use sparewright::record::{Records, UsageRecord};

use super::sample::{kit_line, monday, offer, part, place, shop, stock};

fn usage(part: &str, days_ago: i64, quantity: f64) -> UsageRecord {
    UsageRecord {
        date: monday().date() - chrono::TimeDelta::days(days_ago),
        part: part.into(),
        quantity,
        counted_in: None,
        machine: None,
        reason: None,
        place: place(9),
    }
}

#[test]
fn a_number_used_twice_is_told_with_both_places_and_what_the_rows_say_differently() {
    let mut twice = part("B-1", "6305-2RS C3");
    twice.place = place(7);
    twice.own_min_stock = Some(3.0);
    let mut first = part("B-1", "6305-2RS");
    first.place = place(4);
    first.own_min_stock = Some(2.0);
    let shop = shop(Records {
        parts: vec![first, twice],
        ..Records::default()
    });
    let told: Vec<String> = shop
        .unresolved
        .iter()
        .map(|one| format!("{}: {}", one.place.row, one.reason))
        .collect();
    assert!(
        told[0].starts_with("7: number `B-1` is used twice in this table, here and at "),
        "{told:?}"
    );
    assert!(told[0].contains("row 5"), "{told:?}");
    assert!(
        told[1].contains("minimum stock 2 there, 3 here"),
        "{told:?}"
    );
    let id = shop.catalogue.find("B-1").unwrap();
    assert_eq!(shop.catalogue.part(id).own_min_stock, Some(2.0));
}

#[test]
fn an_offer_under_another_spelling_joins_the_own_part() {
    let records = Records {
        parts: vec![part("B-1", "6305-2RS C3")],
        offers: vec![
            offer("East", "6305 C3 2RS", 8.0, None),
            offer("West", "6305-2RS", 7.0, None),
        ]
        .into(),
        ..Records::default()
    };
    let shop = shop(records);
    let own = shop.catalogue.find("B-1").unwrap();
    assert_eq!(shop.offers[0].part, own);
    // Another clearance is another part: ISO 5753-1.
    assert_ne!(shop.offers[1].part, own);
}

#[test]
fn a_stroke_in_the_bore_code_keeps_two_parts_apart() {
    // DIN 623-1: 62/22 has a bore of 22 mm, 6222 one of 110 mm.
    let records = Records {
        parts: vec![part("A", "62/22"), part("B", "6222")],
        ..Records::default()
    };
    let shop = shop(records);
    assert_ne!(shop.catalogue.find("62/22"), shop.catalogue.find("6222"));
}

#[test]
fn one_number_with_two_sizes_has_no_size_and_is_listed() {
    let records = Records {
        parts: vec![part("A", "6205"), part("A", "6206")],
        ..Records::default()
    };
    let shop = shop(records);
    assert_eq!(
        shop.catalogue.part(shop.catalogue.find("A").unwrap()).size,
        None
    );
    assert_eq!(shop.unresolved.len(), 1);
    assert!(
        shop.unresolved[0].reason.contains("25 x 52 x 15 mm"),
        "{}",
        shop.unresolved[0].reason
    );
}

#[test]
fn an_offer_that_contradicts_the_own_number_is_listed_and_not_used() {
    let mut wrong = offer("East", "6206", 8.0, None);
    wrong.own_number = Some("A".to_owned());
    let records = Records {
        parts: vec![part("A", "6205")],
        offers: vec![wrong].into(),
        ..Records::default()
    };
    let shop = shop(records);
    assert!(shop.offers.is_empty());
    assert!(
        shop.unresolved[0].reason.contains("the offer is not used"),
        "{}",
        shop.unresolved[0].reason
    );
}

#[test]
fn a_shop_with_kits_and_stock_only_still_has_parts() {
    let records = Records {
        kit_lines: vec![
            kit_line("K", "1", Some("6206-2Z"), 2.0),
            kit_line("K", "2", None, 1.0),
        ],
        stock: vec![stock("6206 ZZ", "A1", 3.0), stock("mystery", "A2", 1.0)],
        ..Records::default()
    };
    let shop = shop(records);
    assert_eq!(shop.kits[0].lines[0].part, Some(shop.stock[0].part));
    assert_eq!(shop.kits[0].lines[1].part, None);
    assert_eq!(shop.unresolved.len(), 1);
    assert!(shop.unresolved[0].reason.contains("`mystery`"));
}

#[test]
fn usages_are_summed_by_year_with_returns_taken_off() {
    let usages = vec![
        usage("A", 10, 3.0),
        usage("A", 9, -1.0),
        usage("A", 400, 2.0),
    ];
    let shop = shop(Records {
        parts: vec![part("A", "6205")],
        usages,
        ..Records::default()
    });
    let by_year: Vec<(i32, f64)> = frame::usage_by_year(&shop)
        .unwrap()
        .iter()
        .map(|usage| (usage.year, usage.quantity))
        .collect();
    assert_eq!(by_year, [(2025, 2.0), (2026, 2.0)]);
}

#[test]
fn tables_are_written_as_parquet() {
    let shop = shop(Records {
        parts: vec![part("A", "6205"), part("S", "40x62x8 AS NBR")],
        offers: vec![offer("East", "6205", 8.0, None)].into(),
        stock: vec![stock("A", "A1", 3.0)],
        ..Records::default()
    });
    let folder = tempfile::tempdir().unwrap();
    let paths = frame::write_tables(&shop, folder.path()).unwrap();
    assert_eq!(paths.len(), 5);
    for path in paths {
        // Apache Parquet format: a file starts and ends with the four bytes PAR1.
        let bytes = std::fs::read(&path).unwrap();
        assert!(
            bytes.starts_with(b"PAR1") && bytes.ends_with(b"PAR1"),
            "{}",
            path.display()
        );
    }
    let missing = frame::write_tables(&shop, &folder.path().join("nowhere"))
        .unwrap_err()
        .to_string();
    assert!(
        missing.contains("parts.parquet could not be written"),
        "{missing}"
    );
}
