//! What cannot be ordered, is not ordered or rests on something missing says so where it is looked for.

use super::small_shop::{Sheets, SmallShop};

/// The reason of the first order line for a part.
fn why(sheets: &Sheets, part: &str) -> String {
    let row = sheets.row("order_now", "buy", part);
    row["why"].as_str().unwrap().to_owned()
}

#[test]
fn what_waits_for_a_rate_of_exchange_is_not_said_to_have_no_offer_alone() {
    // The seal is offered in francs only; nothing says what a franc is.
    let sheets = SmallShop::new().in_francs("A-2").report();
    let rows = sheets.rows("not_planned").iter();
    let of_seal: Vec<&str> = rows
        .filter(|row| row["number"] == "A-2")
        .map(|row| row["why"].as_str().unwrap())
        .collect();
    let words = "the offer of North is in CHF, which has no rate of exchange in the settings";
    assert!(!of_seal.is_empty());
    assert!(of_seal.iter().all(|why| why.contains(words)), "{of_seal:?}");
}

#[test]
fn an_order_of_which_the_freight_is_unknown_sums_its_goods_and_says_so() {
    let sheets = SmallShop::new()
        .with("suppliers.csv", "North,yes,12,15:00", "North,yes,,15:00")
        .report();
    let north = sheets.row("orders", "supplier", "North");
    assert!(north["freight_eur"].is_null());
    let goods = north["goods_eur"].as_f64().unwrap();
    assert!((north["together_eur"].as_f64().unwrap() - goods).abs() < 1e-9);
    let assumed = north["assumed"].as_str().unwrap();
    assert!(assumed.starts_with("freight of "), "{assumed}");
    // The total is what the rows come to, and counts the order as not known in whole.
    let together = sheets.rows("orders").iter();
    let together: f64 = together
        .filter_map(|row| row["together_eur"].as_f64())
        .sum();
    let total = &sheets.json()["sheets"]["orders"]["totals"]["together_eur"];
    assert!((total["sum"].as_f64().unwrap() - together).abs() < 0.005);
    assert_eq!(total["unknown_rows"], 1);
}

#[test]
fn what_must_be_begun_today_is_among_the_things_to_do_and_told_with_the_order_list() {
    // Two drive bearings for a rebuild of today, of which none is there: made in five hours for one euro, against three days
    // of 200.00 an hour.
    let shop = SmallShop::new()
        .and(
            "planned.csv",
            "kit,machine,planned date\nPress head,Press,2026-11-26\n",
        )
        .and(
            "ways.csv",
            "Part no,Kit,Line,Way,Hours,Cost EUR,From\n\
             A-1,Press head,10,make in house,5,1,toolroom\n",
        );
    let sheets = shop.report();
    let made = sheets.rows("made_instead");
    assert_eq!(made.len(), 1, "{made:?}");
    let actions = sheets.cover("actions");
    let begin = "Begin today what is made, repaired or fetched, not ordered: 1 line";
    assert!(actions.iter().any(|text| text == begin), "{actions:?}");
    let list = shop.order_list();
    let notes = list.json()["sheets"]["by_saving"]["notes"].as_array();
    let told = "To begin today, made, repaired or fetched and so not on this list: 1 line, on the sheet `Made instead of ordered`.";
    assert!(notes.unwrap().iter().any(|note| note == told), "{notes:?}");
    let actions = SmallShop::new().report().cover("actions");
    assert!(actions.iter().all(|text| !text.starts_with("Begin today")));
}

#[test]
fn where_no_hour_has_a_cost_the_cheapest_offer_is_taken_and_that_is_said() {
    // South sells ten at 3.80 in two weeks, North each at 42.00 in three days: for two or more South is the cheaper one.
    let sheets = |hour: &str| {
        SmallShop::new()
            .with(
                "prices.csv",
                "North,A-1,6205-2RS,4.20",
                "North,A-1,6205-2RS,42.00",
            )
            .with(
                "machines.csv",
                "Press,1,200,A",
                &format!("Press,1,{hour},A"),
            )
            .report()
    };
    let told = "No table says what an hour down costs: the cheapest offer was taken";
    let unpriced = sheets("");
    let row = unpriced.row("order_now", "buy", "A-1");
    assert_eq!(row["supplier"], "South", "{row}");
    assert!(why(&unpriced, "A-1").contains(told), "{row}");
    assert!(!why(&sheets("200"), "A-1").contains(told));
}

#[test]
fn a_task_that_was_rejected_is_named_with_its_row_and_its_kit_is_not_good() {
    // All of the kit is on the shelf.
    let shop = SmallShop::new()
        .with("stock.csv", "A-1,B1,0,", "A-1,B1,4,")
        .with("stock.csv", "A-2,B2,4,2019-01-15", "A-2,B2,4,2026-06-15");
    let mark = |sheets: &Sheets| {
        let row = sheets.row("kits", "kit", "Press head").clone();
        row["mark"].as_str().unwrap_or_default().to_owned()
    };
    let told = |sheets: &Sheets, words: &str| -> Vec<String> {
        let problems = sheets.texts("data_problems", "problem").into_iter();
        problems.filter(|text| text.contains(words)).collect()
    };
    let whole = shop.report();
    assert_eq!(mark(&whole), "good");
    assert!(told(&whole, "was rejected").is_empty());
    // The task that the other waits for.
    let first = shop
        .clone()
        .with("tasks.csv", "Press head,strip,3,", "Press head,strip,-3,")
        .report();
    assert_ne!(mark(&first), "good");
    let of_task = told(&first, "`strip`");
    assert_eq!(of_task.len(), 1, "{of_task:?}");
    assert!(
        of_task[0].starts_with("the row of task `strip` of kit `Press head` was rejected (")
            && of_task[0].contains("tasks.csv")
            && of_task[0].ends_with("for which this one waits; the downtime is unknown"),
        "{of_task:?}"
    );
    // The task that the lines hold, for which nothing waits: its hours are missing in the downtime.
    let last = shop
        .with(
            "tasks.csv",
            "Press head,fit,4,strip",
            "Press head,fit,abc,strip",
        )
        .report();
    assert_ne!(mark(&last), "good");
    let of_lines = told(
        &last,
        "the row of task `fit` of kit `Press head` was rejected (",
    );
    assert_eq!(of_lines.len(), 3, "{of_lines:?}");
    let without = told(
        &last,
        "a task of kit `Press head` was rejected for its hours",
    );
    assert_eq!(without.len(), 1);
}

#[test]
fn a_share_that_expiring_stock_keeps_out_of_reach_is_told_with_its_part() {
    // Seals by twenty, of which one or two are used in their life of five years: once all have ended somebody waits, whatever is
    // kept.
    let shop = || {
        SmallShop::new().with(
            "prices.csv",
            "North,A-2,35x52x7,2.10,1 week,2026-11-02,2026-12-31,1,1",
            "North,A-2,35x52x7,2.10,1 week,2026-11-02,2026-12-31,20,20",
        )
    };
    let asked = "[planning]\nservice_target_share = 0.9999\n";
    let sheets = shop().and("shop.toml", asked).report();
    let words = "that are asked for: no price of an hour reaches them, because stock of A-2 reaches the end of its shelf life unused.";
    let unknowns = sheets.cover("unknowns");
    assert!(
        unknowns.iter().any(|said| said.ends_with(words)),
        "{unknowns:?}"
    );
    let notes = sheets.json()["sheets"]["service_curve"]["notes"].to_string();
    assert!(notes.contains(words), "{notes}");
    let rows = sheets.rows("levels").iter();
    let mut whys = rows.filter_map(|row| row["why"].as_str());
    assert!(whys.any(|why| why.contains("no price meets the 100.0 % of usages asked for, ")));
    for row in sheets.rows("service_curve") {
        if row["note"] == "the levels of this report" {
            assert!(row["counted_share"].as_f64().unwrap() <= 1.0, "{row}");
        }
    }
    // What is in reach says nothing of it.
    let plain = shop()
        .and("shop.toml", "[planning]\nservice_target_share = 0.5\n")
        .report();
    let unknowns = plain.cover("unknowns");
    assert!(
        !unknowns
            .iter()
            .any(|said| said.contains("no price of an hour")),
        "{unknowns:?}"
    );
}

#[test]
fn a_level_says_the_freight_that_its_quantity_counts() {
    let sheets = SmallShop::new()
        .with("suppliers.csv", "North,yes,12,15:00", "North,yes,300,15:00")
        .with("suppliers.csv", "South,yes", "South,no")
        .report();
    let why = sheets.row("levels", "number", "A-1")["why"].to_string();
    let words = "the order quantity counts 300.00 EUR of freight an order, as far as no other order of the week pays it";
    assert!(why.contains(words), "{why}");
}
