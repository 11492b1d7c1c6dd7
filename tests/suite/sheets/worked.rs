//! What each sheet must say, by hand.

use std::sync::OnceLock;

use super::small_shop::{Sheets, SmallShop};

/// The shop with a freight of South so small that an order of its own pays.
fn south_for_less() -> SmallShop {
    SmallShop::new().with("suppliers.csv", "South,yes,8", "South,yes,3")
}

fn sheets() -> &'static Sheets {
    static SHEETS: OnceLock<Sheets> = OnceLock::new();
    SHEETS.get_or_init(|| south_for_less().report())
}

fn number(row: &serde_json::Value, column: &str) -> f64 {
    row[column]
        .as_f64()
        .unwrap_or_else(|| panic!("{column} of {row}"))
}

fn near(row: &serde_json::Value, column: &str, expected: f64) {
    let found = number(row, column);
    assert!(
        (found - expected).abs() < 0.005,
        "{column}: {found}, expected {expected}"
    );
}

#[test]
fn the_order_list_adds_up_to_what_orders_and_cover_say() {
    let sheets = sheets();
    let rows = sheets.rows("order_now");
    assert_eq!(rows.len(), 2);
    for row in rows {
        // Cost is quantity times unit price, and the likely day is not after the late one.
        let cost = number(row, "quantity") * number(row, "unit_price_eur");
        near(row, "cost_eur", cost);
        let day = |key: &str| row[key].as_str().unwrap().to_owned();
        assert!(day("here_likely") <= day("here_fairly") && day("here_fairly") <= day("here_late"));
        assert!(row["why"].as_str().unwrap().contains("reorder point"));
    }
    // Goods and freight of each supplier: South 38.00 + 3, North 4.20 + 12; all from North would be 46.20 + 12.
    let south = sheets.row("orders", "supplier", "South");
    near(south, "goods_eur", 38.0);
    near(south, "freight_eur", 3.0);
    near(south, "together_eur", 41.0);
    let north = sheets.row("orders", "supplier", "North");
    near(north, "together_eur", 2.0 * 2.10 + 12.0);
    assert!((sheets.total("order_now", "cost_eur") - 42.2).abs() < 1e-9);
    assert!((sheets.fact("Cost of these orders") - 57.2).abs() < 1e-9);
    assert!((sheets.fact("Lines to order now") - 2.0).abs() < 1e-9);
}

/// Arithmetic: 38.00 + 8 and 4.20 + 12 are 62.20, both from the dearer supplier 46.20 + 12 = 58.20.
#[test]
fn lines_come_together_where_that_saves_a_freight() {
    let sheets = SmallShop::new().report();
    assert_eq!(sheets.texts("order_now", "supplier"), ["North", "North"]);
    near(
        sheets.row("orders", "supplier", "North"),
        "together_eur",
        58.2,
    );
    assert!((sheets.fact("Cost of these orders") - 58.2).abs() < 1e-9);
}

#[test]
fn packs_and_minimum_quantities_are_kept() {
    // South sells ten at a time.
    let bearing = sheets().row("order_now", "buy", "A-1");
    assert_eq!(bearing["supplier"], "South");
    let quantity = number(bearing, "quantity");
    assert!(
        quantity >= 10.0 && (quantity % 10.0).abs() < 1e-9,
        "{quantity}"
    );
}

#[test]
fn each_order_line_says_what_it_rests_on_and_its_next_best() {
    let basis = sheets().row("order_basis", "buy", "A-1");
    // 2 November to 26 November.
    near(basis, "quote_age_days", 24.0);
    assert_eq!(basis["lead_time"], "14 days");
    assert!(
        basis["rests_on"]
            .as_str()
            .unwrap()
            .starts_with("quote only")
    );
    let next = basis["next_best"].as_str().unwrap();
    assert!(next.starts_with("North: 42.00 EUR"), "ten at 4.20: {next}");
    assert_eq!(basis["where_read"], "prices.csv, row 3");
    // Nobody else offers the seal.
    assert!(sheets().row("order_basis", "buy", "A-2")["next_best"].is_null());
}

#[test]
fn the_kit_is_short_of_two_lines_and_its_tasks_take_seven_hours() {
    let sheets = sheets();
    let kit = sheets.row("kits", "kit", "Press head");
    assert_eq!(kit["short_lines"], "2 of 3");
    let line = |number: &str| sheets.row("kit_lines", "line", number);
    // Two bearings asked for, none there; one seal asked for, four expired; one bearing there.
    for (at, needed, on_shelf, short) in [
        ("10", 2.0, 0.0, 2.0),
        ("20", 1.0, 0.0, 1.0),
        ("30", 1.0, 1.0, 0.0),
    ] {
        near(line(at), "needed", needed);
        near(line(at), "on_shelf", on_shelf);
        near(line(at), "short", short);
    }
    // Nothing is waited for with line 30: 3 h and 4 h one after the other.
    near(line("30"), "holds_down_h", 7.0);
    assert_eq!(line("30")["from"], "1 x A-3 on the shelf");
    assert_eq!(line("20")["no_substitutes"], true);
    // Down for as long as the last part takes, at 200 EUR an hour.
    let down_h = number(kit, "down_mean_h");
    near(kit, "down_cost_eur", down_h * 200.0);
    for (earlier, later) in [
        ("down_likely_h", "down_p80_h"),
        ("down_p80_h", "down_late_h"),
    ] {
        assert!(number(kit, earlier) <= number(kit, later));
    }
    // Shares of being the last to come add up to one.
    let last = number(line("10"), "last_share") + number(line("20"), "last_share");
    assert!((last - 1.0).abs() < 1e-9, "{last}");
    assert!(kit["held_by"].as_str().unwrap().starts_with("line 20: A-2"));
}

#[test]
fn plans_for_fixed_lead_times_are_proved_and_rise_with_caution() {
    let plans = sheets().rows("kit_plans");
    let total = |plan: &serde_json::Value| number(plan, "total_eur");
    for plan in plans {
        assert_eq!(plan["proved"], "proved", "{plan}");
        assert!(number(plan, "at_least_eur") <= total(plan) + 0.005);
        let by_hand = number(plan, "down_h") * 200.0 + number(plan, "spend_eur");
        assert!((total(plan) - by_hand).abs() < 0.02, "{plan}: {by_hand}");
    }
    let of = |share: &str| {
        let found = plans
            .iter()
            .find(|plan| plan["lead_times"].as_str().unwrap().contains(share));
        total(found.unwrap())
    };
    assert!(of("50 %") < of("80 %") && of("80 %") < of("90 %"));
}

#[test]
fn an_overdue_order_is_chased_with_the_days_it_is_late() {
    let late = sheets().row("chase", "supplier", "South");
    // 15 October to 26 November.
    near(late, "overdue_days", 42.0);
    assert_eq!(late["number"], "A-3");
    assert_eq!(late["due"], "2026-10-15");
    assert_eq!(late["where_read"], "orders.csv, row 4");
    // No receipt of South says how it keeps its word: its day is unknown, not today.
    assert!(late["here_likely"].is_null());
    assert!(
        sheets()
            .cover("actions")
            .iter()
            .any(|text| text == "Chase 1 overdue order")
    );
}

#[test]
fn expired_seals_are_no_stock_and_stand_with_their_value() {
    let expired = sheets().row("surplus", "kind", "expired");
    near(expired, "quantity", 4.0);
    near(expired, "value_eur", 4.0 * 2.10);
    // Five years after the day of curing.
    assert!(expired["basis"].as_str().unwrap().contains("2024-01-15"));
    let told = sheets().row("data_problems", "kind", "expired stock");
    assert!(
        told["problem"]
            .as_str()
            .unwrap()
            .contains("not counted as stock")
    );
}

#[test]
fn offers_that_are_not_used_say_why() {
    let why = |supplier: &str| {
        let row = sheets().row("offers_not_used", "supplier", supplier);
        row["why"].as_str().unwrap().to_owned()
    };
    assert_eq!(why("South"), "expired on 2026-02-01");
    assert_eq!(why("East"), "supplier `East` is not approved for bearings");
    // So the part has no level, and nothing is advised.
    let unplanned = sheets().row("not_planned", "number", "A-3");
    assert_eq!(
        unplanned["why"],
        "no usable offer; the offer of South expired on 2026-02-01"
    );
    assert!(
        !sheets()
            .texts("order_now", "buy")
            .contains(&"A-3".to_owned())
    );
}

#[test]
fn usages_are_summed_by_year() {
    let of = |part: &str| {
        let row = sheets().row("usage", "number", part);
        [2024, 2025, 2026].map(|year| number(row, &format!("used_{year}")).round() as i64)
    };
    assert_eq!(of("A-1"), [2, 2, 2]);
    assert_eq!(of("A-2"), [0, 1, 0]);
    assert_eq!(of("A-3"), [0, 0, 1]);
    assert_eq!(sheets().rows("usage").len(), 3, "A-4 was never used");
    // Used once in more than a year: an interval of far more than 1.32 months, and quantities that do not vary.
    for part in ["A-2", "A-3"] {
        let row = sheets().row("usage", "number", part);
        assert_eq!(row["class"], "intermittent", "{part}");
    }
}

#[test]
fn levels_say_why_not_one_less_and_obey_the_planner() {
    let sheets = sheets();
    for (part, planners_own) in [("A-1", 2.0), ("A-2", 1.0)] {
        let level = sheets.row("levels", "number", part);
        assert!(number(level, "min_stock") >= planners_own, "{part}");
        let why = level["why"].as_str().unwrap();
        assert!(why.starts_with("one less would wait"), "{why}");
        assert!(why.contains("downtime of Press"), "{why}");
        // What one less costs is more than what it saves, and it fills less.
        assert!(number(level, "one_less_counts_eur") >= 0.0);
        assert!(number(level, "one_less_fill_share") < number(level, "unit_fill_share"));
    }
    // 6 used in 1,025 days is 2.14 a year before it is drawn to the group; never more than the raw rate here.
    let rate = number(sheets.row("levels", "number", "A-1"), "usage_per_year");
    let raw = 6.0 / 1_025.0 * 365.25;
    assert!(rate > 0.3 && rate < raw, "{rate} of {raw}");
}

#[test]
fn more_money_never_serves_worse() {
    let rows = sheets().rows("service_curve");
    // Two at a time of the one, and one of the other: few levels lie between all and none.
    assert!(rows.len() > 3, "{}", rows.len());
    for pair in rows.windows(2) {
        assert!(number(&pair[0], "stock_value_eur") <= number(&pair[1], "stock_value_eur") + 1e-9);
        assert!(number(&pair[0], "waiting_h") >= number(&pair[1], "waiting_h") - 1e-9);
        assert!(number(&pair[0], "fill_share") <= number(&pair[1], "fill_share") + 1e-9);
    }
    let chosen: Vec<_> = (rows.iter())
        .filter(|row| row["note"] == "the levels of this report")
        .collect();
    assert_eq!(chosen.len(), 1);
    assert!(
        number(chosen[0], "fill_share") >= 0.95,
        "the default service"
    );
    for row in rows {
        // An hour of the press counts 200 EUR.
        assert!((number(row, "waiting_h") * 200.0 - number(row, "waiting_cost_eur")).abs() < 0.02);
    }
}

#[test]
fn every_file_is_told_with_what_it_was_taken_for() {
    for (file, kind, rows) in [
        ("parts.csv", "parts", 4.0),
        ("stock.csv", "stock", 4.0),
        ("prices.csv", "offers", 5.0),
        ("suppliers.csv", "suppliers", 3.0),
        ("usages.csv", "usages", 5.0),
        ("machines.csv", "machines", 1.0),
        ("orders.csv", "receipts", 3.0),
        ("kit.csv", "kit lines", 3.0),
        ("tasks.csv", "kit tasks", 2.0),
    ] {
        let row = sheets().row("files", "file", file);
        assert_eq!(row["taken_for"], kind, "{file}");
        near(row, "rows_read", rows);
        near(row, "rows_rejected", 0.0);
    }
    // A column nobody reads is named.
    assert_eq!(
        sheets().row("files", "file", "orders.csv")["not_read"],
        "order"
    );
    assert!((sheets().fact("Rows read") - 30.0).abs() < 1e-9);
}

#[test]
fn the_cover_says_what_it_does_not_know() {
    let unknowns = sheets().cover("unknowns");
    assert!(
        unknowns
            .iter()
            .any(|text| text.starts_with("No stock level for 2 parts: no usable offer")),
        "{unknowns:?}"
    );
    assert!(
        unknowns
            .iter()
            .any(|text| text.contains("presumed to be recorded since 2024-02-05")),
        "{unknowns:?}"
    );
    let ages = &sheets().json()["cover"]["data_ages"];
    let offers = ages
        .as_array()
        .unwrap()
        .iter()
        .find(|age| age["what"] == "offers")
        .unwrap();
    // 2 January to 26 November.
    assert_eq!(offers["age_days"], 328);
    assert_eq!(offers["is_old"], true);
}

#[test]
fn every_column_of_every_row_is_one_that_the_sheet_declares() {
    let sheets = sheets().json()["sheets"].as_object().unwrap();
    assert!(sheets.len() > 20);
    for (name, sheet) in sheets {
        let columns = sheet["columns"].as_array().unwrap();
        let mut keys: Vec<&str> = columns
            .iter()
            .map(|column| column["key"].as_str().unwrap())
            .collect();
        let count = keys.len();
        keys.sort_unstable();
        keys.dedup();
        assert_eq!(keys.len(), count, "{name}: a key twice");
        for row in sheet["rows"].as_array().unwrap() {
            for key in row.as_object().unwrap().keys() {
                let bare = key.strip_suffix("_unknown").unwrap_or(key);
                assert!(
                    key == "mark" || keys.iter().any(|known| bare.starts_with(known)),
                    "{name}: {key}"
                );
            }
        }
        assert!(
            !sheet["question"].as_str().unwrap().is_empty(),
            "{name} says what it answers"
        );
    }
}
