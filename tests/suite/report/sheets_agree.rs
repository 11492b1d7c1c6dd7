//! Sheets of one report told against each other and against arithmetic: a figure that stands in two places is the same in
//! both, sums are those of their rows, moments come in their order. On the demo and on the four small shops.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::OnceLock;

use chrono::{NaiveDate, NaiveDateTime};
use sparewright::job::Job;
use sparewright::report::content::{
    PurchaseRequest, RebuildSheet, purchase_requests, rebuild_sheets,
};
use sparewright::report::model::{Emphasis, Value, check_report};
use sparewright::report::{Report, Sheet, csv_of, json_of};

mod handed_over;

struct Shop {
    name: &'static str,
    job: Job,
    report: Report,
    requests: Vec<PurchaseRequest>,
    rebuilds: Vec<RebuildSheet>,
}

fn shops() -> &'static [Shop] {
    static SHOPS: OnceLock<Vec<Shop>> = OnceLock::new();
    SHOPS.get_or_init(|| {
        let thursday = NaiveDate::from_ymd_opt(2026, 11, 26)
            .and_then(|day| day.and_hms_opt(8, 0, 0))
            .unwrap();
        let root = Path::new(env!("CARGO_MANIFEST_DIR"));
        let folders = std::fs::read_dir(root.join("tests/shops")).unwrap();
        let mut all = vec![("demo", root.join("data/demo"), None)];
        for folder in folders.map(|entry| entry.unwrap().path()) {
            if folder.is_dir() {
                let name: &'static str = folder
                    .file_name()
                    .unwrap()
                    .to_string_lossy()
                    .into_owned()
                    .leak();
                all.push((name, folder, Some(thursday)));
            }
        }
        assert!(all.len() >= 5);
        all.into_iter()
            .map(|(name, folder, as_of)| {
                let job = Job::read(&folder, as_of).unwrap();
                let planned = job.plan().unwrap();
                let report = job.report(&planned);
                let inputs = job.inputs(&planned);
                let (requests, rebuilds) = (purchase_requests(&inputs), rebuild_sheets(&inputs));
                Shop {
                    name,
                    job,
                    report,
                    requests,
                    rebuilds,
                }
            })
            .collect()
    })
}

/// A sheet read by keys.
struct Table<'a>(&'a Sheet);

impl<'a> Table<'a> {
    fn of(report: &'a Report, key: &str) -> Self {
        Self(
            report
                .sheet(key)
                .unwrap_or_else(|| panic!("no sheet {key}")),
        )
    }

    fn rows(&self) -> usize {
        self.0.rows.len()
    }

    fn cell(&self, row: usize, key: &str) -> &'a Value {
        let at = self.0.column_at(key);
        let at = at.unwrap_or_else(|| panic!("no column {key} in {}", self.0.key));
        &self.0.rows[row].cells[at]
    }

    /// The key of the column that begins so and ends with the shop's currency.
    fn money(&self, stem: &str) -> String {
        let is_it = |key: &&String| {
            key.strip_prefix(stem)
                .is_some_and(|rest| rest.len() == 4 && rest.starts_with('_'))
        };
        let mut keys = self.0.columns.iter().map(|column| &column.key);
        keys.find(is_it)
            .unwrap_or_else(|| panic!("no {stem} in {}", self.0.key))
            .clone()
    }

    fn number(&self, row: usize, key: &str) -> Option<f64> {
        self.cell(row, key).as_number()
    }

    fn text(&self, row: usize, key: &str) -> &'a str {
        match self.cell(row, key) {
            Value::Text(text) => text,
            _ => "",
        }
    }

    fn moment(&self, row: usize, key: &str) -> Option<NaiveDateTime> {
        match self.cell(row, key) {
            Value::Moment(moment) => Some(*moment),
            Value::Date(date) => date.and_hms_opt(0, 0, 0),
            _ => None,
        }
    }
}

fn cents(units: f64) -> i64 {
    (units * 100.0).round() as i64
}

#[test]
fn every_report_fits_together() {
    for shop in shops() {
        check_report(&shop.report).unwrap_or_else(|error| panic!("{}: {error}", shop.name));
    }
}

#[test]
fn an_order_line_costs_its_quantity_times_its_price_and_its_surcharge() {
    let mut checked = 0;
    for shop in shops() {
        for key in ["order_now", "can_wait", "no_need_yet"] {
            let table = Table::of(&shop.report, key);
            for row in 0..table.rows() {
                let quantity = table.number(row, "quantity").unwrap();
                assert!(quantity > 0.0, "{}, {key}, row {row}", shop.name);
                let price = table.number(row, &table.money("unit_price"));
                let cost = table.number(row, &table.money("cost"));
                let (Some(price), Some(cost)) = (price, cost) else {
                    assert_eq!(
                        price.is_some(),
                        cost.is_some(),
                        "{}, {key}, row {row}",
                        shop.name
                    );
                    continue;
                };
                let surcharge = table.number(row, &table.money("surcharge")).unwrap();
                assert_eq!(
                    cents(quantity * price + surcharge),
                    cents(cost),
                    "{}, {key}, row {row}",
                    shop.name
                );
                checked += 1;
            }
        }
    }
    assert!(checked > 50, "{checked}");
}

#[test]
fn orders_by_supplier_are_the_sums_of_their_lines() {
    for shop in shops() {
        let (lines, orders) = (
            Table::of(&shop.report, "order_now"),
            Table::of(&shop.report, "orders"),
        );
        let mut sums: BTreeMap<&str, (i64, usize)> = BTreeMap::new();
        for row in 0..lines.rows() {
            // `Supplier, by courier` is an order of its own.
            let of = sums.entry(lines.text(row, "supplier")).or_default();
            of.0 += lines.number(row, &lines.money("cost")).map_or(0, cents);
            of.1 += 1;
        }
        let mut counted = 0;
        for row in 0..orders.rows() {
            let supplier = orders.text(row, "supplier");
            let begins =
                |name: &&str| **name == *supplier || name.starts_with(&format!("{supplier}, "));
            let of: Vec<_> = sums.iter().filter(|(name, _)| begins(name)).collect();
            let goods: i64 = of.iter().map(|(_, (goods, _))| goods).sum();
            let count: usize = of.iter().map(|(_, (_, count))| count).sum();
            counted += count;
            let shown = orders.number(row, &orders.money("goods")).map(cents);
            if let Some(shown) = shown {
                assert_eq!(shown, goods, "{}: {supplier}", shop.name);
            }
            let freight = orders.number(row, &orders.money("freight")).map(cents);
            let together = orders.number(row, &orders.money("together")).map(cents);
            if let (Some(shown), Some(freight), Some(together)) = (shown, freight, together) {
                assert_eq!(together, shown + freight, "{}: {supplier}", shop.name);
            }
            assert_eq!(
                orders.number(row, "lines").unwrap() as usize,
                count,
                "{}: {supplier}",
                shop.name
            );
        }
        assert_eq!(
            counted,
            lines.rows(),
            "{}: every line is of one order",
            shop.name
        );
    }
}

#[test]
fn the_cover_counts_what_the_sheets_hold() {
    for shop in shops() {
        let fact = |label: &str| {
            let facts = shop.report.cover.facts.iter();
            facts
                .clone()
                .find(|fact| fact.label == label)
                .unwrap_or_else(|| panic!("{}: no fact {label}", shop.name))
        };
        let number = |label: &str| fact(label).value.as_number().unwrap() as usize;
        let rows = |key: &str| Table::of(&shop.report, key).rows();
        assert_eq!(
            number("Lines to order now"),
            rows("order_now"),
            "{}",
            shop.name
        );
        assert_eq!(
            number("Rows read"),
            shop.job.imported.rows_read,
            "{}",
            shop.name
        );
        let own = shop
            .job
            .shop
            .catalogue
            .parts()
            .iter()
            .filter(|part| part.is_own);
        assert_eq!(number("Own parts"), own.count(), "{}", shop.name);
        let read: f64 = {
            let files = Table::of(&shop.report, "files");
            (0..files.rows())
                .filter_map(|row| files.number(row, "rows_read"))
                .sum()
        };
        assert_eq!(
            number("Rows read"),
            read as usize,
            "{}: sheet of files",
            shop.name
        );
        assert_eq!(
            rows("rejected"),
            shop.job.imported.rows_rejected,
            "{}",
            shop.name
        );
        let actions = &shop.report.cover.actions;
        assert!(actions.len() <= 5, "{}: {actions:?}", shop.name);
        for action in actions {
            if let Some(sheet) = &action.sheet {
                assert!(
                    rows(sheet) > 0,
                    "{}: `{}` leads to an empty sheet",
                    shop.name,
                    action.text
                );
            }
        }
    }
}

#[test]
fn likely_comes_before_fairly_sure_before_late() {
    let mut checked = 0;
    for shop in shops() {
        for (key, stems) in [
            ("order_now", ["here_likely", "here_fairly", "here_late"]),
            ("can_wait", ["here_likely", "here_fairly", "here_late"]),
            ("no_need_yet", ["here_likely", "here_fairly", "here_late"]),
            ("chase", ["here_likely", "here_fairly", "here_late"]),
            ("kit_lines", ["here_likely", "here_fairly", "here_late"]),
            (
                "kits",
                ["complete_likely", "complete_fairly", "complete_late"],
            ),
        ] {
            let table = Table::of(&shop.report, key);
            for row in 0..table.rows() {
                let moments = stems.map(|stem| table.moment(row, stem));
                let [Some(likely), Some(fairly), Some(late)] = moments else {
                    assert_eq!(moments, [None; 3], "{}, {key}, row {row}", shop.name);
                    continue;
                };
                assert!(
                    likely <= fairly && fairly <= late,
                    "{}, {key}, row {row}",
                    shop.name
                );
                assert!(
                    likely >= shop.job.shop.as_of,
                    "{}, {key}, row {row}",
                    shop.name
                );
                checked += 1;
            }
        }
    }
    assert!(checked > 100, "{checked}");
}

#[test]
fn what_is_due_is_ordered_now_and_what_is_not_can_wait() {
    for shop in shops() {
        let today = shop.job.shop.as_of.date().and_hms_opt(0, 0, 0).unwrap();
        for (key, is_due) in [("order_now", true), ("can_wait", false)] {
            let table = Table::of(&shop.report, key);
            for row in 0..table.rows() {
                let Some(by) = table.moment(row, "order_by") else {
                    assert!(
                        is_due,
                        "{}, {key}, row {row}: what waits has a day",
                        shop.name
                    );
                    continue;
                };
                assert_eq!(by <= today, is_due, "{}, {key}, row {row}: {by}", shop.name);
            }
        }
        let waits = Table::of(&shop.report, "no_need_yet");
        for row in 0..waits.rows() {
            assert_eq!(
                waits.moment(row, "order_by"),
                None,
                "{}, row {row}",
                shop.name
            );
        }
    }
}

#[test]
fn a_kit_is_short_of_what_its_lines_are_short_of() {
    let mut checked = 0;
    for shop in shops() {
        let (kits, lines) = (
            Table::of(&shop.report, "kits"),
            Table::of(&shop.report, "kit_lines"),
        );
        let mut short: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
        for row in 0..lines.rows() {
            let of = short.entry(lines.text(row, "kit")).or_default();
            of.1 += 1;
            let (needed, shelf, missing) = (
                lines.number(row, "needed"),
                lines.number(row, "on_shelf"),
                lines.number(row, "short"),
            );
            if missing.is_some_and(|missing| missing > 0.0) {
                of.0 += 1;
            }
            if let (Some(needed), Some(shelf), Some(missing)) = (needed, shelf, missing) {
                let left = (needed - shelf).max(0.0);
                assert!((left - missing).abs() < 1e-6, "{}, row {row}", shop.name);
                checked += 1;
            }
        }
        for row in 0..kits.rows() {
            let (missing, all) = short
                .get(kits.text(row, "kit"))
                .copied()
                .unwrap_or_default();
            let said = kits.text(row, "short_lines");
            assert_eq!(
                said,
                format!("{missing} of {all}"),
                "{}, row {row}",
                shop.name
            );
        }
    }
    assert!(checked > 50, "{checked}");
}

#[test]
fn downtime_is_longer_the_surer_it_shall_be_and_costs_what_the_machine_costs() {
    for shop in shops() {
        let kits = Table::of(&shop.report, "kits");
        for row in 0..kits.rows() {
            let hours = ["down_likely_h", "down_p80_h", "down_late_h"];
            if let [Some(likely), Some(p80), Some(late)] = hours.map(|key| kits.number(row, key)) {
                assert!(likely <= p80 && p80 <= late, "{}, row {row}", shop.name);
            }
            let (mean, cost) = (
                kits.number(row, "down_mean_h"),
                kits.number(row, &kits.money("down_cost")),
            );
            let machine = shop.job.shop.machines.values();
            let machine = machine
                .clone()
                .find(|of| of.machine == kits.text(row, "machine"));
            let hour = machine.and_then(|of| of.downtime_cost_per_hour);
            if let (Some(mean), Some(cost), Some(hour)) = (mean, cost, hour) {
                let expected = mean * hour.to_units();
                assert!(
                    (expected - cost).abs() < 0.01 + 1e-6 * expected,
                    "{}, row {row}: {mean} h at {hour:?} is {expected}, not {cost}",
                    shop.name
                );
            }
        }
    }
}

#[test]
fn no_plan_is_said_to_be_below_its_proved_bound() {
    let mut proved = 0;
    for shop in shops() {
        let plans = Table::of(&shop.report, "kit_plans");
        for row in 0..plans.rows() {
            let total = plans.number(row, &plans.money("total"));
            let least = plans.number(row, &plans.money("at_least"));
            if let (Some(total), Some(least)) = (total, least) {
                assert!(least <= total + 0.005, "{}, row {row}", shop.name);
                if plans.text(row, "proved") == "proved" {
                    assert_eq!(cents(least), cents(total), "{}, row {row}", shop.name);
                    proved += 1;
                }
            }
            let spend = plans.number(row, &plans.money("spend"));
            if let (Some(spend), Some(total)) = (spend, total) {
                assert!(spend <= total + 0.005, "{}, row {row}", shop.name);
            }
        }
    }
    assert!(proved > 5, "{proved}");
}

#[test]
fn shares_are_shares_and_nothing_is_below_nothing() {
    for shop in shops() {
        for sheet in &shop.report.sheets {
            let table = Table(sheet);
            for column in &sheet.columns {
                for row in 0..table.rows() {
                    let Some(number) = table.number(row, &column.key) else {
                        continue;
                    };
                    let place = format!(
                        "{}, {}, {}, row {row}: {number}",
                        shop.name, sheet.key, column.key
                    );
                    assert!(number.is_finite(), "{place}");
                    // How much of the downtime is counted may be more than all of it.
                    if column.key.ends_with("_share") && column.key != "counted_share" {
                        assert!((-1e-9..=1.0 + 1e-9).contains(&number), "{place}");
                    }
                    let is_difference = ["change_h", "saved", "ties_up", "less_one", "reorder_point"]
                        .iter()
                        .any(|stem| column.key.starts_with(stem))
                        || column.key.contains("dearer")
                        // Returns count against usages.
                        || sheet.key == "usage";
                    if !is_difference {
                        assert!(number >= 0.0, "{place}");
                    }
                }
            }
        }
    }
}

#[test]
fn an_open_order_is_overdue_by_the_days_since_it_was_due() {
    let mut overdue = 0;
    for shop in shops() {
        let chase = Table::of(&shop.report, "chase");
        for row in 0..chase.rows() {
            let (Some(due), Some(days)) =
                (chase.moment(row, "due"), chase.number(row, "overdue_days"))
            else {
                continue;
            };
            let since = (shop.job.shop.as_of.date() - due.date()).num_days();
            assert_eq!(days as i64, since, "{}, row {row}", shop.name);
            overdue += 1;
        }
    }
    assert!(overdue > 3, "{overdue}");
}

#[test]
fn old_and_new_levels_are_those_of_the_levels_sheet() {
    for shop in shops() {
        let (levels, compared) = (
            Table::of(&shop.report, "levels"),
            Table::of(&shop.report, "levels_old_new"),
        );
        let mut by_number: BTreeMap<&str, Option<f64>> = BTreeMap::new();
        for row in 0..levels.rows() {
            let min_stock = levels.number(row, "min_stock");
            by_number.insert(levels.text(row, "number"), min_stock);
            let (at, keep) = (levels.number(row, "reorder_point"), min_stock);
            if let (Some(at), Some(keep)) = (at, keep)
                && at >= 0.0
            {
                assert!(
                    keep <= at + 1.0 + 1e-9,
                    "{}, row {row}: {keep} at {at}",
                    shop.name
                );
            }
        }
        for row in 0..compared.rows() {
            let number = compared.text(row, "number");
            let new = compared.number(row, "min_stock");
            if let (Some(new), Some(Some(listed))) = (new, by_number.get(number)) {
                assert!((new - listed).abs() < 1e-9, "{}: {number}", shop.name);
            }
        }
    }
}

#[test]
fn service_is_dearer_the_better_it_is() {
    for shop in shops() {
        let curve = Table::of(&shop.report, "service_curve");
        // The levels of the report hold what kits add too, and are no point of the curve.
        let points: Vec<(f64, f64, f64)> = (0..curve.rows())
            .filter(|row| curve.text(*row, "note").is_empty())
            .filter_map(|row| {
                Some((
                    curve.number(row, &curve.money("stock_value"))?,
                    curve.number(row, "fill_share")?,
                    curve.number(row, "waiting_h")?,
                ))
            })
            .collect();
        for pair in points.windows(2) {
            let [(value, _, waiting), (dearer, _, shorter)] = pair else {
                unreachable!()
            };
            assert!(value <= dearer, "{}: {pair:?}", shop.name);
            assert!(shorter <= waiting, "{}: {pair:?}", shop.name);
        }
    }
}

#[test]
fn a_marked_row_says_why_it_is_marked() {
    for shop in shops() {
        for sheet in &shop.report.sheets {
            let marked = sheet
                .rows
                .iter()
                .filter(|row| row.emphasis != Emphasis::None);
            if marked.count() > 0 {
                assert!(sheet.has_marks, "{}, {}", shop.name, sheet.key);
            }
        }
        let rows = Table::of(&shop.report, "order_now");
        for row in 0..rows.rows() {
            assert!(
                !rows.text(row, "why").is_empty(),
                "{}, row {row}",
                shop.name
            );
        }
    }
}

#[test]
fn csv_and_json_hold_the_rows_of_the_sheets() {
    for shop in shops() {
        let json: serde_json::Value = serde_json::from_slice(&json_of(&shop.report)).unwrap();
        for sheet in &shop.report.sheets {
            let bytes = csv_of(sheet);
            let mut reader = csv::Reader::from_reader(&*bytes);
            let header: Vec<String> = reader
                .headers()
                .unwrap()
                .iter()
                .map(str::to_owned)
                .collect();
            let records: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
            let place = format!("{}, {}", shop.name, sheet.key);
            assert_eq!(records.len(), sheet.rows.len(), "{place}");
            let listed = json["sheets"][sheet.key.as_str()]["rows"]
                .as_array()
                .unwrap();
            assert_eq!(listed.len(), sheet.rows.len(), "{place}");
            for column in &sheet.columns {
                let at = header
                    .iter()
                    .position(|name| *name == column.key)
                    .unwrap_or_else(|| panic!("{place}: no {} in {header:?}", column.key));
                let place_in = sheet.column_at(&column.key).unwrap();
                for (row, record) in records.iter().enumerate() {
                    let value = &sheet.rows[row].cells[place_in];
                    let Some(number) = value.as_number() else {
                        continue;
                    };
                    let read: f64 = record[at].parse().unwrap_or_else(|_| {
                        panic!("{place}, {}, row {row}: `{}`", column.key, &record[at])
                    });
                    assert!(
                        (read - number).abs() <= 1e-9 * number.abs().max(1.0),
                        "{place}"
                    );
                    let told = listed[row][column.key.as_str()].as_f64().unwrap();
                    assert!(
                        (told - number).abs() <= 1e-9 * number.abs().max(1.0),
                        "{place}"
                    );
                }
            }
        }
    }
}

#[test]
fn every_part_that_is_ordered_is_a_part_of_the_shop() {
    for shop in shops() {
        let parts = shop.job.shop.catalogue.parts().iter();
        let known: BTreeSet<String> = parts.map(|part| part.label()).collect();
        let numbers: BTreeSet<&str> = known
            .iter()
            .map(|label| label.split(" (").next().unwrap())
            .collect();
        for key in ["order_now", "can_wait", "no_need_yet"] {
            let table = Table::of(&shop.report, key);
            for row in 0..table.rows() {
                let bought = table.text(row, "buy");
                let number = bought.split(" (").next().unwrap();
                assert!(numbers.contains(number), "{}, {key}: {bought}", shop.name);
            }
        }
    }
}

#[test]
fn titles_and_keys_are_told_apart_and_fit_a_workbook() {
    // ECMA-376, part 1, 18.2.19: sheet names of at most 31 characters; Excel refuses []:*?/\ in them.
    for shop in shops() {
        let mut seen = BTreeSet::new();
        for sheet in &shop.report.sheets {
            assert!(sheet.title.encode_utf16().count() <= 31, "{}", sheet.title);
            assert!(
                !sheet.title.contains(['[', ']', ':', '*', '?', '/', '\\']),
                "{}",
                sheet.title
            );
            assert!(seen.insert(sheet.title.to_lowercase()), "{}", sheet.title);
        }
    }
}

/// By its meaning: what saves most is ordered first, and what rests on no figures last.
#[test]
fn what_saves_most_stands_first() {
    let mut several = 0;
    for shop in shops() {
        let lines = Table::of(&shop.report, "order_now");
        let key = lines.money("saves");
        let saved: Vec<f64> = (0..lines.rows())
            .map(|row| lines.number(row, &key).unwrap_or(0.0))
            .collect();
        assert!(
            saved.windows(2).all(|pair| pair[0] >= pair[1]),
            "{}: {saved:?}",
            shop.name
        );
        several += usize::from(saved.iter().any(|of| *of < saved[0]));
        let basis = Table::of(&shop.report, "order_basis");
        for row in 0..lines.rows() {
            assert_eq!(basis.text(row, "buy"), lines.text(row, "buy"));
        }
    }
    assert!(several > 0);
}
