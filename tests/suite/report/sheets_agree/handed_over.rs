//! What goes out of the office: requests to suppliers and the sheet of a rebuild, against the report.

use std::collections::BTreeSet;

use sparewright::report::json_of;
use sparewright::report::model::check_report;

use super::{Table, cents, shops};

#[test]
fn every_order_line_is_asked_for_once_from_its_supplier() {
    for shop in shops() {
        let lines = Table::of(&shop.report, "order_now");
        let mut due: Vec<(String, String, i64)> = (0..lines.rows())
            .map(|row| {
                (
                    lines
                        .text(row, "supplier")
                        .split(", ")
                        .next()
                        .unwrap()
                        .to_owned(),
                    lines.text(row, "designation").to_owned(),
                    cents(lines.number(row, "quantity").unwrap()),
                )
            })
            .collect();
        let mut asked = Vec::new();
        for request in &shop.requests {
            check_report(&request.report).unwrap();
            let table = Table::of(&request.report, "request");
            for row in 0..table.rows() {
                assert_eq!(table.number(row, "line"), Some((row + 1) as f64));
                asked.push((
                    request.supplier.clone(),
                    table.text(row, "designation").to_owned(),
                    cents(table.number(row, "quantity").unwrap()),
                ));
            }
        }
        due.sort();
        asked.sort();
        let short = |all: &[(String, String, i64)]| -> Vec<(String, i64)> {
            all.iter()
                .map(|(supplier, _, quantity)| (supplier.clone(), *quantity))
                .collect()
        };
        assert_eq!(short(&asked), short(&due), "{}", shop.name);
    }
}

#[test]
fn a_request_tells_nothing_of_others() {
    for shop in shops() {
        let suppliers: BTreeSet<&str> = shop
            .requests
            .iter()
            .map(|of| of.supplier.as_str())
            .collect();
        for request in &shop.requests {
            let json = String::from_utf8(json_of(&request.report)).unwrap();
            for other in suppliers.iter().filter(|other| **other != request.supplier) {
                assert!(
                    !json.contains(*other),
                    "{}: {other} in that of {}",
                    shop.name,
                    request.supplier
                );
            }
            let sheet = &request.report.sheets[0];
            for column in &sheet.columns {
                let is_money = column.key.contains("price") || column.key.contains("cost");
                assert!(!is_money, "{}: {}", shop.name, column.key);
            }
            // What is asked for in one word cannot be mistaken: a quantity with its unit, and a designation or number.
            let table = Table(sheet);
            for row in 0..table.rows() {
                assert!(table.number(row, "quantity").unwrap() > 0.0);
                assert!(!table.text(row, "unit_of_count").is_empty());
                assert!(!table.text(row, "designation").is_empty());
            }
        }
    }
}

#[test]
fn files_of_requests_have_names_of_their_own_that_every_system_takes() {
    for shop in shops() {
        let mut names = BTreeSet::new();
        for request in &shop.requests {
            let stem = &request.file_stem;
            assert!(names.insert(stem.to_lowercase()), "{stem}");
            assert!(stem.starts_with("request_") && stem.len() < 200, "{stem}");
            assert!(
                stem.chars()
                    .all(|c| c.is_alphanumeric() || matches!(c, '-' | '_')),
                "{stem}"
            );
        }
    }
}

#[test]
fn a_rebuild_sheet_has_every_line_of_its_kit_with_isolation_and_cautions() {
    let mut boxes = 0;
    for shop in shops() {
        assert_eq!(
            shop.rebuilds.len(),
            shop.job.shop.kits.len(),
            "{}",
            shop.name
        );
        for sheet in &shop.rebuilds {
            let kit = &shop.job.shop.kits[sheet.kit];
            assert_eq!(sheet.name, kit.name);
            let lines: Vec<&str> = sheet.lines.iter().map(|line| line.line.as_str()).collect();
            let of_kit: Vec<String> = kit
                .lines
                .iter()
                .map(|line| line.record.line.to_string())
                .collect();
            assert_eq!(lines, of_kit, "{}: {}", shop.name, sheet.name);
            assert!(
                sheet.isolation[0].contains("isolate and lock off"),
                "{:?}",
                sheet.isolation
            );
            assert!(!sheet.cautions.is_empty());
            for line in &sheet.lines {
                assert!(!line.part.is_empty() && !line.needed.is_empty() && !line.here.is_empty());
                boxes += line.boxes.len();
            }
            assert_eq!(sheet.tasks.len(), kit.tasks.len());
        }
    }
    assert!(boxes > 100, "{boxes}");
}
