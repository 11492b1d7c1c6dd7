//! The same shop told otherwise: rows, columns, delimiters, units, languages and dates of its lists in another form leave
//! every sheet as it is, but for the places where things were read.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use chrono::{Days, NaiveDate};
use serde_json::Value;

use super::small_shop::{Sheets, SmallShop};

/// Columns that say where something was read.
const PLACES: [&str; 7] = [
    "where_read",
    "where",
    "file",
    "cell",
    "offer",
    "columns",
    "not_read",
];

/// Sheets that tell of the files themselves, and the simulated year, whose dice go by the row of a part.
const LEFT_OUT: [&str; 3] = ["files", "data_problems", "year_ahead"];

/// Every sheet without places, as rows in an order of their own.
fn content(sheets: &Sheets) -> BTreeMap<String, Vec<String>> {
    let all = sheets.json()["sheets"].as_object().unwrap();
    let kept = all
        .iter()
        .filter(|(key, _)| !LEFT_OUT.contains(&key.as_str()));
    kept.map(|(key, sheet)| {
        let rows = sheet["rows"].as_array().unwrap().iter().map(|row| {
            let mut row = row.as_object().unwrap().clone();
            row.retain(|column, _| !PLACES.contains(&column.as_str()));
            rounded(&mut Value::Object(row)).to_string()
        });
        let mut rows: Vec<String> = rows.collect();
        rows.sort();
        (key.clone(), rows)
    })
    .collect()
}

/// Figures to nine digits: sums may be added in another order.
fn rounded(value: &mut Value) -> &mut Value {
    if let Value::Object(row) = value {
        for cell in row.values_mut() {
            if let Some(figure) = cell.as_f64() {
                *cell = Value::String(format!("{figure:.6e}"));
            }
        }
    }
    value
}

fn same(told: &SmallShop, how: &str) {
    static PLAIN: OnceLock<BTreeMap<String, Vec<String>>> = OnceLock::new();
    let plain = PLAIN.get_or_init(|| content(&SmallShop::new().report()));
    let told = content(&told.report());
    assert_eq!(
        plain.keys().collect::<Vec<_>>(),
        told.keys().collect::<Vec<_>>()
    );
    for (key, rows) in plain {
        assert_eq!(&told[key], rows, "{how}: {key}");
    }
    assert!(plain.values().map(Vec::len).sum::<usize>() > 20);
}

fn lines(text: &str) -> Vec<&str> {
    text.lines().collect()
}

fn joined(lines: &[String]) -> String {
    lines.iter().map(|line| format!("{line}\n")).collect()
}

#[test]
fn the_order_of_rows_changes_nothing() {
    // A kit's lines are listed as they stand, which is left as it is.
    let turned = SmallShop::new().each(|name, text| {
        if name == "kit.csv" {
            return text.to_owned();
        }
        let lines = lines(text);
        let mut rows: Vec<String> = lines[1..]
            .iter()
            .rev()
            .map(|line| (*line).to_owned())
            .collect();
        rows.insert(0, lines[0].to_owned());
        joined(&rows)
    });
    same(&turned, "rows turned round");
}

#[test]
fn the_order_of_columns_changes_nothing() {
    for by in [1, 2, 3] {
        let turned = SmallShop::new().each(|_, text| {
            let rows = lines(text).into_iter().map(|line| {
                let mut cells: Vec<&str> = line.split(',').collect();
                let by = by % cells.len();
                cells.rotate_left(by);
                cells.join(",")
            });
            joined(&rows.collect::<Vec<_>>())
        });
        same(&turned, &format!("columns moved by {by}"));
    }
}

#[test]
fn delimiter_quotes_and_line_ends_change_nothing() {
    for delimiter in [";", "\t", "|"] {
        let other = SmallShop::new().each(|_, text| text.replace(',', delimiter));
        same(&other, delimiter);
    }
    let quoted = SmallShop::new().each(|_, text| {
        let rows = lines(text).into_iter().map(|line| {
            let cells: Vec<String> = line.split(',').map(|cell| format!("\"{cell}\"")).collect();
            cells.join(",")
        });
        joined(&rows.collect::<Vec<_>>())
    });
    same(&quoted, "every cell in quotes");
    same(
        &SmallShop::new().each(|_, text| text.replace('\n', "\r\n")),
        "carriage returns",
    );
    same(
        &SmallShop::new().each(|_, text| format!("\u{feff}{text}")),
        "a mark of byte order",
    );
    same(
        &SmallShop::new().each(|_, text| text.trim_end().to_owned()),
        "no last line end",
    );
}

#[test]
fn blank_rows_blanks_and_titles_change_nothing() {
    let blank = SmallShop::new().each(|_, text| text.replace('\n', "\n\n"));
    same(&blank, "a blank row after each");
    let padded = SmallShop::new().each(|_, text| text.replace(',', " , "));
    same(&padded, "blanks around the cells");
    let titled = SmallShop::new()
        .each(|name, text| format!("List of the shop: {}\n\n{text}", name.replace(".csv", "")));
    same(&titled, "a title above the header");
}

#[test]
fn headers_in_capitals_and_in_german_mean_the_same() {
    let capitals = SmallShop::new().each(|_, text| {
        let (header, rows) = text.split_once('\n').unwrap();
        format!(
            "{}\n{rows}",
            header.to_uppercase().replace("EUR/H", "EUR/h")
        )
    });
    same(&capitals, "headers in capitals");
    let german = SmallShop::new()
        .with(
            "parts.csv",
            "part no,designation,description,unit,min stock,shelf life months",
            "Teilenummer,Bezeichnung,Beschreibung,Einheit,Mindestbestand,Lagerfähigkeit Monate",
        )
        .with("stock.csv", "part no,bin,on hand,cure date", "Teilenummer,Lagerplatz,Bestand,Vulkanisationsdatum")
        .with(
            "prices.csv",
            "supplier,part no,designation,price EUR,lead time,quote date,valid until,minimum quantity,pack quantity",
            "Lieferant,Teilenummer,Bezeichnung,Preis EUR,Lieferzeit,Angebotsdatum,Gültig bis,Mindestmenge,Verpackungseinheit",
        )
        .with("usages.csv", "date,part no,quantity,machine,reason", "Datum,Teilenummer,Menge,Maschine,Grund");
    same(&german, "German headers");
}

#[test]
fn units_of_money_time_and_count_said_otherwise_change_nothing() {
    // 100 at 420 are 4.20 each; two weeks are 14 days of the calendar; a piece is a piece in any word.
    let per_hundred = SmallShop::new()
        .with("prices.csv", "price EUR", "price EUR per 100")
        .with("prices.csv", ",4.20,", ",420,")
        .with("prices.csv", ",3.80,", ",380,")
        .with("prices.csv", ",2.10,", ",210,")
        .with("prices.csv", ",5.00,", ",500,")
        .with("prices.csv", ",6.00,", ",600,");
    same(&per_hundred, "prices for 100");
    let days = SmallShop::new().each(|name, text| match name {
        "prices.csv" => text
            .replace("2 weeks", "14 calendar days")
            .replace("1 week", "7 calendar days"),
        _ => text.to_owned(),
    });
    same(&days, "weeks in days");
    for word in ["pcs", "pc", "ea", "Stück", "pièce"] {
        let count = SmallShop::new().each(|name, text| match name {
            "parts.csv" => text.replace(",piece,", &format!(",{word},")),
            _ => text.to_owned(),
        });
        same(&count, word);
    }
    let comma = SmallShop::new().each(|name, text| match name {
        "prices.csv" => text.replace(',', ";").replace('.', ","),
        _ => text.to_owned(),
    });
    same(&comma, "decimal commas");
}

#[test]
fn days_written_otherwise_change_nothing() {
    for (form, how) in [
        ("%d.%m.%Y", "with dots"),
        ("%d %B %Y", "with the name of the month"),
        ("%Y/%m/%d", "with strokes"),
    ] {
        let other =
            SmallShop::new().each(|_, text| with_days(text, |day| day.format(form).to_string()));
        same(&other, how);
    }
}

/// A text with every ISO date made anew.
fn with_days(text: &str, made: impl Fn(NaiveDate) -> String) -> String {
    let cell = |cell: &str| {
        cell.parse::<NaiveDate>()
            .map_or_else(|_| cell.to_owned(), &made)
    };
    let rows = text.lines().map(|line| {
        let cells: Vec<String> = line.split(',').map(cell).collect();
        cells.join(",")
    });
    joined(&rows.collect::<Vec<_>>())
}

#[test]
fn numbers_of_parts_in_another_spelling_are_the_same_parts() {
    let other = SmallShop::new().each(|name, text| match name {
        "parts.csv" => text.to_owned(),
        _ => ["A-1", "A-2", "A-3", "A-4"]
            .iter()
            .fold(text.to_owned(), |text, number| {
                text.replace(*number, &number.to_lowercase().replace('-', " "))
            }),
    });
    let (plain, told) = (SmallShop::new().report(), other.report());
    for sheet in [
        "order_now",
        "orders",
        "levels",
        "kits",
        "chase",
        "surplus",
        "usage",
    ] {
        let key = if sheet == "orders" {
            "supplier"
        } else {
            "quantity"
        };
        assert_eq!(plain.rows(sheet).len(), told.rows(sheet).len(), "{sheet}");
        assert_eq!(plain.texts(sheet, key), told.texts(sheet, key), "{sheet}");
    }
    assert_eq!(content(&plain)["levels"], content(&told)["levels"]);
}

#[test]
fn everything_some_weeks_later_is_the_same_some_weeks_later() {
    // Whole weeks keep the days of the week; the shop has no days off.
    let weeks = 28;
    let moved = |day: NaiveDate| day + Days::new(7 * weeks);
    let later = SmallShop::new().each(|_, text| with_days(text, |day| moved(day).to_string()));
    let (plain, told) = (SmallShop::new().report(), later.report_of((2027, 6, 10)));
    let day = |text: &str| moved(text[..10].parse().unwrap()).to_string();
    for (sheet, key, days, figures) in [
        (
            "order_now",
            "buy",
            &["order_by", "here_likely", "here_fairly", "here_late"][..],
            &["quantity", "cost_eur", "saves_h"][..],
        ),
        (
            "kits",
            "kit",
            &["complete_likely", "complete_late", "running_likely"],
            &[
                "down_likely_h",
                "down_mean_h",
                "down_cost_eur",
                "purchases_eur",
            ],
        ),
        (
            "chase",
            "number",
            &["ordered", "due"],
            &["overdue_days", "quantity"],
        ),
        (
            "levels",
            "number",
            &[],
            &[
                "reorder_point",
                "min_stock",
                "usage_per_year",
                "lead_days",
                "unit_fill_share",
            ],
        ),
    ] {
        let (plain, told) = (plain.rows(sheet), told.rows(sheet));
        assert_eq!(plain.len(), told.len(), "{sheet}");
        for row in plain {
            let other = told.iter().find(|other| other[key] == row[key]).unwrap();
            for column in days {
                let (before, after) = (
                    row[column].as_str().unwrap(),
                    other[column].as_str().unwrap(),
                );
                assert_eq!(&after[..10], day(before), "{sheet} {column}");
                assert_eq!(after[10..], before[10..], "{sheet} {column}");
            }
            for column in figures {
                let (before, after) = (
                    row[column].as_f64().unwrap(),
                    other[column].as_f64().unwrap(),
                );
                assert!(
                    (before - after).abs() <= 1e-6 * (1.0 + before.abs()),
                    "{sheet} {column}: {before} {after}"
                );
            }
        }
    }
}

#[test]
fn all_money_times_ten_is_the_same_plan_at_ten_times_the_cost() {
    let settings = "[planning]\norder_cost = 250\n";
    let dear = SmallShop::new()
        .and("shop.toml", settings)
        .with("prices.csv", ",4.20,", ",42.00,")
        .with("prices.csv", ",3.80,", ",38.00,")
        .with("prices.csv", ",2.10,", ",21.00,")
        .with("prices.csv", ",5.00,", ",50.00,")
        .with("prices.csv", ",6.00,", ",60.00,")
        .with("suppliers.csv", "yes,12,", "yes,120,")
        .with("suppliers.csv", "yes,8,", "yes,80,")
        .with("suppliers.csv", "no,5,", "no,50,")
        .with("machines.csv", ",200,", ",2000,");
    let (plain, dear) = (SmallShop::new().report(), dear.report());
    let mut compared = 0;
    for sheet in [
        "order_now",
        "orders",
        "kits",
        "kit_lines",
        "levels",
        "surplus",
    ] {
        let (plain, dear) = (plain.rows(sheet), dear.rows(sheet));
        assert_eq!(plain.len(), dear.len(), "{sheet}");
        for (row, other) in plain.iter().zip(dear) {
            for (column, value) in row.as_object().unwrap() {
                let Some(figure) = value.as_f64() else {
                    if !value.is_string() || column.contains("here_") || column.contains("order_by")
                    {
                        assert_eq!(&other[column], value, "{sheet} {column}");
                    }
                    continue;
                };
                let times = if column.ends_with("_eur") { 10.0 } else { 1.0 };
                let found = other[column].as_f64().unwrap();
                // Money is in whole cents.
                assert!(
                    (found - times * figure).abs() <= 0.11 + 1e-6 * found.abs(),
                    "{sheet} {column}: {figure} {found}"
                );
                compared += 1;
            }
        }
    }
    assert!(compared > 60, "{compared}");
}

#[test]
fn another_currency_changes_the_name_of_money_only() {
    let dollars = SmallShop::new()
        .and("shop.toml", "currency = \"USD\"\n")
        .with("prices.csv", "price EUR", "price USD")
        .with("machines.csv", "EUR/h", "USD/h");
    let (plain, dollars) = (SmallShop::new().report(), dollars.report());
    for (sheet, column) in [
        ("order_now", "cost"),
        ("orders", "together"),
        ("kits", "down_cost"),
        ("surplus", "value"),
    ] {
        let (plain, dollars) = (plain.rows(sheet), dollars.rows(sheet));
        for (row, other) in plain.iter().zip(dollars) {
            assert_eq!(
                row[format!("{column}_eur")],
                other[format!("{column}_usd")],
                "{sheet}"
            );
            assert!(other.get(format!("{column}_eur")).is_none(), "{sheet}");
        }
    }
}
