//! What one changed cell does: sheets move the way a planner expects, and no other way.

use super::small_shop::{Sheets, SmallShop};

fn number(sheets: &Sheets, sheet: &str, (key, text): (&str, &str), column: &str) -> f64 {
    let row = sheets.row(sheet, key, text);
    row[column]
        .as_f64()
        .unwrap_or_else(|| panic!("{sheet}: {column} of {row}"))
}

fn down_h(sheets: &Sheets) -> f64 {
    number(sheets, "kits", ("kit", "Press head"), "down_mean_h")
}

#[test]
fn a_supplier_that_is_approved_is_bought_from() {
    let before = SmallShop::new().report();
    let after = SmallShop::new()
        .with("suppliers.csv", "East,no,5", "East,yes,5")
        .report();
    assert!(
        before
            .texts("offers_not_used", "supplier")
            .contains(&"East".to_owned())
    );
    assert!(
        !after
            .texts("offers_not_used", "supplier")
            .contains(&"East".to_owned())
    );
    assert!(after.texts("levels", "number").contains(&"A-3".to_owned()));
}

#[test]
fn a_receipt_ends_the_chase_and_is_learnt_from() {
    let after = SmallShop::new()
        .with(
            "orders.csv",
            "2026-10-01,2026-10-15,",
            "2026-10-01,2026-10-15,2026-11-25",
        )
        .report();
    assert!(after.rows("chase").is_empty());
    assert!(
        !after
            .cover("actions")
            .iter()
            .any(|text| text.starts_with("Chase"))
    );
}

#[test]
fn an_order_that_is_not_yet_due_is_shown_and_not_chased() {
    let after = SmallShop::new()
        .with(
            "orders.csv",
            "2026-10-01,2026-10-15,",
            "2026-11-20,2026-12-15,",
        )
        .report();
    let order = after.row("chase", "supplier", "South");
    assert!(order["overdue_days"].is_null(), "{order}");
    assert_eq!(order["due"], "2026-12-15");
    let actions = after.cover("actions");
    assert!(
        !actions.iter().any(|text| text.starts_with("Chase")),
        "{actions:?}"
    );
}

#[test]
fn bearings_on_the_shelf_take_their_line_off_the_order_list_and_shorten_the_stop() {
    let before = SmallShop::new().report();
    let after = SmallShop::new()
        .with("stock.csv", "A-1,B1,0", "A-1,B1,20")
        .report();
    assert!(!after.texts("order_now", "buy").contains(&"A-1".to_owned()));
    assert_eq!(
        after.row("kits", "kit", "Press head")["short_lines"],
        "1 of 3"
    );
    assert!(down_h(&after) < down_h(&before));
}

#[test]
fn a_whole_kit_on_the_shelf_takes_only_its_tasks() {
    let after = SmallShop::new()
        .with("stock.csv", "A-1,B1,0", "A-1,B1,20")
        .with("stock.csv", "A-2,B2,4,2019-01-15", "A-2,B2,4,2026-01-15")
        .report();
    let kit = after.row("kits", "kit", "Press head");
    assert_eq!(kit["short_lines"], "0 of 3");
    // 3 h of stripping and 4 h of fitting, from Thursday 08:00.
    assert!((down_h(&after) - 7.0).abs() < 1e-9, "{}", down_h(&after));
    assert!((after.fact("Kits that can be built from stock") - 1.0).abs() < 1e-9);
}

#[test]
fn longer_tasks_keep_the_machine_down_by_as_much() {
    let whole = |hours: &str| {
        let shop = SmallShop::new()
            .with("stock.csv", "A-1,B1,0", "A-1,B1,20")
            .with("stock.csv", "A-2,B2,4,2019-01-15", "A-2,B2,4,2026-01-15")
            .with("tasks.csv", "strip,3,", &format!("strip,{hours},"));
        down_h(&shop.report())
    };
    assert!((whole("1") - 5.0).abs() < 1e-9);
    assert!((whole("3") - 7.0).abs() < 1e-9);
    assert!(whole("12") > whole("3"));
}

#[test]
fn a_dearer_hour_costs_in_proportion_and_never_waits_longer() {
    let before = SmallShop::new().report();
    let after = SmallShop::new()
        .with("machines.csv", "Press,1,200,A", "Press,1,2000,A")
        .report();
    let cost = |sheets: &Sheets| number(sheets, "kits", ("kit", "Press head"), "down_cost_eur");
    assert!((cost(&after) - 2_000.0 * down_h(&after)).abs() < 0.01);
    assert!(down_h(&after) <= down_h(&before) + 1e-9);
    assert!(cost(&after) > cost(&before));
}

#[test]
fn a_longer_lead_time_never_shortens_the_stop_nor_lowers_the_reorder_point() {
    let mut last = (0.0, 0.0);
    for lead in ["1 day", "1 week", "4 weeks", "12 weeks"] {
        let sheets = SmallShop::new()
            .with("prices.csv", "2.10,1 week", &format!("2.10,{lead}"))
            .report();
        let point = number(&sheets, "levels", ("number", "A-2"), "reorder_point");
        let now = (down_h(&sheets), point);
        assert!(now.0 >= last.0 - 1e-9, "{lead}: {now:?} after {last:?}");
        assert!(now.1 >= last.1, "{lead}: {now:?} after {last:?}");
        last = now;
    }
}

#[test]
fn a_missing_lead_time_is_never_zero() {
    let sheets = SmallShop::new()
        .with("prices.csv", "2.10,1 week", "2.10,")
        .report();
    // Only one supplier has the seal: the kit has no end that could be told.
    let kit = sheets.row("kits", "kit", "Press head");
    assert!(kit["down_mean_h"].is_null(), "{kit}");
    assert!(kit["running_likely"].is_null(), "{kit}");
    assert!(!sheets.texts("order_now", "buy").contains(&"A-2".to_owned()));
    let said = sheets.json().to_string();
    assert!(said.contains("lead time"), "what is missing is named");
}

#[test]
fn an_hour_without_a_price_is_unknown_and_not_nothing() {
    let sheets = SmallShop::new()
        .with("machines.csv", "Press,1,200,A", "Press,1,,A")
        .report();
    let kit = sheets.row("kits", "kit", "Press head");
    assert!(kit["down_cost_eur"].is_null(), "{kit}");
    assert!(
        kit["down_mean_h"].as_f64().is_some(),
        "hours are known all the same"
    );
}

#[test]
fn no_usages_give_no_rates_and_no_invented_levels() {
    let sheets = SmallShop::new().without("usages.csv").report();
    assert!(sheets.rows("usage").is_empty());
    for row in sheets.rows("levels") {
        assert!(row["usage_per_year"].is_null(), "{row}");
    }
    // The rebuild is planned all the same.
    assert!(down_h(&sheets) > 7.0);
}

#[test]
fn no_kits_project_no_downtime_and_the_rest_goes_on() {
    let sheets = SmallShop::new()
        .without("kit.csv")
        .without("tasks.csv")
        .report();
    assert!(sheets.rows("kits").is_empty());
    assert!(sheets.texts("levels", "number").contains(&"A-1".to_owned()));
    assert_eq!(sheets.rows("usage").len(), 3);
}

#[test]
fn a_quote_ends_with_its_day() {
    let shop = SmallShop::new();
    // 31 December is still good, 1 January is not.
    let last = shop.report_of((2026, 12, 31));
    assert!(
        !last
            .texts("offers_not_used", "why")
            .iter()
            .any(|why| why.contains("2026-12-31"))
    );
    let after = shop.report_of((2027, 1, 1));
    let expired = (after.texts("offers_not_used", "why").iter())
        .filter(|why| why.as_str() == "expired on 2026-12-31")
        .count();
    assert_eq!(expired, 4, "all but the one that had expired before");
    assert!(after.rows("order_now").is_empty());
}

#[test]
fn dear_freight_moves_an_order_to_the_other_supplier_but_never_splits_it() {
    let sheets = SmallShop::new()
        .with("suppliers.csv", "South,yes,8", "South,yes,800")
        .report();
    let bearing = sheets.row("order_now", "buy", "A-1");
    assert_eq!(bearing["supplier"], "North");
    let freight = number(&sheets, "orders", ("supplier", "North"), "freight_eur");
    assert!((freight - 12.0).abs() < 1e-9, "one order, one freight");
}

#[test]
fn a_usage_in_the_future_is_told_and_not_counted() {
    let sheets = SmallShop::new()
        .with("usages.csv", "2026-05-20,A-1,2", "2027-05-20,A-1,2")
        .report();
    let told = sheets.texts("data_problems", "problem");
    assert!(
        told.iter()
            .any(|line| line.contains("future") || line.contains("after")),
        "{told:?}"
    );
    let row = sheets.row("usage", "number", "A-1");
    assert!(
        row.get("used_2027").is_none_or(serde_json::Value::is_null),
        "{row}"
    );
}

#[test]
fn a_receipt_before_its_order_is_told() {
    let sheets = SmallShop::new()
        .with(
            "orders.csv",
            "2025-03-12,2025-03-17,2025-03-19",
            "2025-03-12,2025-03-17,2025-03-02",
        )
        .report();
    let told = sheets.row("rejected", "cell", "G2");
    let reason = told["reason"].as_str().unwrap();
    assert!(
        reason.contains("received on 2025-03-02, ordered on 2025-03-12"),
        "{reason}"
    );
    // The rest is still planned.
    assert_eq!(sheets.rows("order_now").len(), 2);
}

#[test]
fn a_circle_of_tasks_is_told_and_the_orders_go_on() {
    let sheets = SmallShop::new()
        .with("tasks.csv", "strip,3,\n", "strip,3,fit\n")
        .report();
    let told = sheets.json()["sheets"].to_string();
    assert!(
        told.contains("circle") || told.contains("cycle"),
        "the circle is named"
    );
    assert_eq!(sheets.rows("order_now").len(), 2);
}

#[test]
fn a_part_without_substitutes_is_not_replaced_by_a_twin() {
    // A second own number of the same standard size, on the shelf: not for the line that allows no substitutes.
    let twin = "A-2,35x52x7 NBR,shaft seal,piece,1,60\nA-9,35x52x7 NBR,other seal,piece,,\n";
    let shop = SmallShop::new()
        .with("parts.csv", "A-2,35x52x7 NBR,shaft seal,piece,1,60\n", twin)
        .with(
            "stock.csv",
            "A-4,B4,6,\n",
            "A-4,B4,6,\nA-9,B9,5,2026-01-15\n",
        );
    let sheets = shop.report();
    let line = sheets.row("kit_lines", "line", "20");
    assert!(!line["from"].as_str().unwrap().contains("A-9"), "{line}");
    assert!((line["short"].as_f64().unwrap() - 1.0).abs() < 1e-9);
}

#[test]
fn the_same_shop_gives_the_same_report() {
    let one = SmallShop::new().report();
    let other = SmallShop::new().report();
    assert_eq!(one.json(), other.json());
}
