//! What each setting of the shop does to the sheets of the small shop.

use super::small_shop::{Sheets, SmallShop};

fn with(settings: &str) -> Sheets {
    SmallShop::new().and("shop.toml", settings).report()
}

fn planning(settings: &str) -> Sheets {
    with(&format!("[planning]\n{settings}\n"))
}

fn figure(sheets: &Sheets, sheet: &str, (key, text): (&str, &str), column: &str) -> f64 {
    let row = sheets.row(sheet, key, text);
    row[column]
        .as_f64()
        .unwrap_or_else(|| panic!("{column} of {row}"))
}

/// With nobody but North to buy from, so that nothing is ordered twice.
fn by_north_alone(settings: &str) -> Sheets {
    SmallShop::new()
        .with("suppliers.csv", "South,yes", "South,no")
        .and("shop.toml", settings)
        .report()
}

fn levels(sheets: &Sheets) -> Vec<f64> {
    let rows = sheets.rows("levels").iter();
    rows.map(|row| row["min_stock"].as_f64().unwrap()).collect()
}

#[test]
fn settings_that_say_the_defaults_change_nothing() {
    let plain = SmallShop::new().report();
    for settings in [
        "currency = \"EUR\"\n",
        "language = \"en\"\n",
        "[planning]\nholding_cost_share = 0.20\n",
        "[planning]\norder_cost = 25.0\n",
        "[planning]\nservice_target_share = 0.95\nlevels_by = \"stock_out_price\"\n",
        "[planning]\nsafety_workdays = 0\nlead_time_model = \"lognormal\"\nallow_reconditioned = false\n",
        "[planning]\nquote_is_old_after_days = 90\ndemand_method = \"shrinkage\"\n",
    ] {
        let said = with(settings);
        for sheet in [
            "order_now",
            "orders",
            "kits",
            "kit_lines",
            "levels",
            "surplus",
            "chase",
        ] {
            assert_eq!(said.rows(sheet), plain.rows(sheet), "{settings}: {sheet}");
        }
    }
}

#[test]
fn a_higher_service_target_never_keeps_less() {
    let shares = [0.5, 0.8, 0.9, 0.95, 0.98, 0.99, 0.999];
    let kept: Vec<f64> = shares
        .iter()
        .map(|share| {
            levels(&planning(&format!("service_target_share = {share}")))
                .iter()
                .sum()
        })
        .collect();
    assert!(kept.windows(2).all(|pair| pair[0] <= pair[1]), "{kept:?}");
    assert!(kept[6] > kept[0], "{kept:?}");
}

#[test]
fn dearer_holding_orders_less_and_dearer_ordering_orders_more() {
    // A-3 has neither pack nor shelf life, once East may be bought from: its quantity moves with the economic one.
    let quantity = |settings: &str| {
        let shop = SmallShop::new().with("suppliers.csv", "East,no,5", "East,yes,5");
        let sheets = shop
            .and("shop.toml", &format!("[planning]\n{settings}\n"))
            .report();
        figure(&sheets, "levels", ("number", "A-3"), "order_quantity")
    };
    let by_holding: Vec<f64> = [0.05, 0.2, 0.5, 1.0]
        .iter()
        .map(|share| quantity(&format!("holding_cost_share = {share}")))
        .collect();
    assert!(
        by_holding.windows(2).all(|pair| pair[0] >= pair[1]),
        "{by_holding:?}"
    );
    let by_order: Vec<f64> = [1, 5, 25, 100, 400]
        .iter()
        .map(|cost| quantity(&format!("order_cost = {cost}")))
        .collect();
    assert!(
        by_order.windows(2).all(|pair| pair[0] <= pair[1]),
        "{by_order:?}"
    );
    assert!(by_order[4] > by_order[0], "{by_order:?}");
}

#[test]
fn a_stock_budget_is_kept_and_more_of_it_serves_no_worse() {
    let mut before = -1.0;
    for budget in [0, 5, 20, 40, 100, 1_000] {
        let sheets = planning(&format!("stock_budget = {budget}"));
        let own = sheets
            .rows("service_curve")
            .iter()
            .find(|row| row["note"] == "the levels of this report");
        let Some(own) = own else { continue };
        let (value, fill) = (
            own["stock_value_eur"].as_f64().unwrap(),
            own["fill_share"].as_f64().unwrap(),
        );
        // A planner's own figures are kept whatever the budget: 27.85 with half an order of each part.
        assert!(
            value <= (f64::from(budget) + 18.16).max(27.85),
            "{budget}: {own}"
        );
        assert!(fill >= before - 1e-9, "{budget}: {own}");
        // More than the budget is never marked as good.
        let is_over = value > f64::from(budget) + 0.005;
        let mark = if is_over { "check" } else { "good" };
        assert_eq!(own["mark"], mark, "{budget}: {own}");
        before = fill;
    }
    assert!(before > 0.9, "{before}");
}

#[test]
fn downtime_in_full_keeps_what_the_levels_sheet_says_in_full() {
    let plain = SmallShop::new().report();
    let full = planning("levels_by = \"downtime_cost\"");
    for number in ["A-1", "A-2"] {
        let said = figure(&plain, "levels", ("number", number), "in_full");
        let kept = figure(&full, "levels", ("number", number), "min_stock");
        assert!((said - kept).abs() < 1e-9, "{number}: {said} {kept}");
    }
}

#[test]
fn targets_by_criticality_hold_for_the_parts_of_their_machines() {
    let kept = |share: f64| {
        let sheets = with(&format!(
            "[planning]\nlevels_by = \"service_target\"\n[planning.service_targets_by_criticality]\nA = {share}\n"
        ));
        levels(&sheets).iter().sum::<f64>()
    };
    let shares = [0.5, 0.9, 0.99, 0.9999].map(kept);
    assert!(
        shares.windows(2).all(|pair| pair[0] <= pair[1]),
        "{shares:?}"
    );
    assert!(shares[3] > shares[0], "{shares:?}");
    // A class that no machine has changes nothing.
    let of = |settings: &str| levels(&with(settings));
    assert_eq!(
        of(
            "[planning]\nlevels_by = \"service_target\"\n[planning.service_targets_by_criticality]\nC = 0.9999\n"
        ),
        of("[planning]\nlevels_by = \"service_target\"\n")
    );
}

#[test]
fn safety_days_are_working_days_before_a_rebuild() {
    // The rebuild is on Monday, 18 January 2027.
    for (days, needed_by) in [
        (0, "2027-01-18"),
        (1, "2027-01-15"),
        (3, "2027-01-13"),
        (10, "2027-01-04"),
    ] {
        let sheets = SmallShop::new()
            .and("rebuilds.csv", "kit,planned date\nPress head,2027-01-18\n")
            .and(
                "shop.toml",
                &format!("[planning]\nsafety_workdays = {days}\n"),
            )
            .report();
        for number in ["A-1", "A-2"] {
            let row = sheets.row("order_now", "buy", number);
            assert_eq!(row["needed_by"], needed_by, "{days}: {row}");
        }
    }
}

#[test]
fn an_old_quote_is_marked_from_the_day_the_settings_say() {
    // Quotes of are 24 days old.
    let ages = |days: u32| {
        let sheets = planning(&format!("quote_is_old_after_days = {days}"));
        let ages = sheets.json()["cover"]["data_ages"]
            .as_array()
            .unwrap()
            .clone();
        let offers = ages.iter().find(|age| age["what"] == "offers").unwrap();
        offers["is_old"].as_bool().unwrap()
    };
    // The oldest row of the prices is of 2 January 2026, 328 days before.
    assert!(ages(327));
    assert!(!ages(328));
    assert!(!ages(900));
}

#[test]
fn working_days_or_calendar_days_are_what_a_plain_day_means() {
    let here = |settings: &str| {
        let sheets = by_north_alone(&format!("[planning]\n{settings}\n"));
        sheets.row("kit_lines", "line", "10")["here_likely"]
            .as_str()
            .unwrap()[..10]
            .to_owned()
    };
    // Three days from Thursday, 26 November 2026: Tuesday in working days, Sunday and so Monday in those of the calendar.
    assert_eq!(here("lead_time_days_are = \"workdays\""), "2026-12-01");
    assert_eq!(here("lead_time_days_are = \"days\""), "2026-11-30");
}

#[test]
fn days_off_move_arrivals_behind_them() {
    let here = |holidays: &str| {
        let sheets = by_north_alone(&format!(
            "receiving_calendar = \"day\"\nsupplier_calendar = \"day\"\n[calendars.day]\nshifts = [{{ days = [\"mon\", \"tue\", \"wed\", \"thu\", \"fri\"], from = \"07:00\", until = \"15:00\" }}]\nholidays = [{holidays}]\n"
        ));
        sheets.row("kit_lines", "line", "10")["here_likely"]
            .as_str()
            .unwrap()[..10]
            .to_owned()
    };
    assert_eq!(here(""), "2026-12-01");
    // Monday off: a working day less before Wednesday.
    assert_eq!(here("\"2026-11-30\""), "2026-12-02");
    // A week off: what was due on Tuesday comes on the Tuesday after.
    assert_eq!(here("\"2026-11-30 to 2026-12-04\""), "2026-12-08");
    // A day that is past, or a Sunday, moves nothing.
    assert_eq!(here("\"2026-11-25\", \"2026-11-29\""), "2026-12-01");
}

#[test]
fn freight_that_nobody_says_is_assumed_and_told() {
    let shop = || SmallShop::new().with("suppliers.csv", "North,yes,12,15:00", "North,yes,,15:00");
    let of = |settings: &str| shop().and("shop.toml", settings).report();
    // The middle of those that are known: 5 and 8.
    let sheets = of("[planning]\norder_cost = 25\n");
    let north = sheets.row("orders", "supplier", "North");
    // Together is what is known, and says beside it what is missing.
    assert!(north["freight_eur"].is_null(), "{north}");
    assert_eq!(north["together_eur"], north["goods_eur"]);
    assert_eq!(
        north["assumed"],
        "freight of 6.50 EUR assumed, the median of the 2 suppliers whose freight is known"
    );
    // Where it is assumed to be nothing, both lines come from there; freight stays unknown.
    let free = of("[planning]\nfreight_assumed = 0\n");
    assert_eq!(free.texts("order_now", "supplier"), ["North", "North"]);
    assert!(free.row("orders", "supplier", "North")["freight_eur"].is_null());
    // South's own order pays where its freight is less than what its ten save.
    let cheap = shop().with("suppliers.csv", "South,yes,8", "South,yes,3");
    let sheets = cheap
        .and("shop.toml", "[planning]\nfreight_assumed = 30\n")
        .report();
    let north = sheets.row("orders", "supplier", "North");
    assert_eq!(
        north["assumed"],
        "freight of 30.00 EUR assumed, by `freight_assumed` of the settings"
    );
    assert!(sheets.row("orders", "supplier", "South")["assumed"].is_null());
}

#[test]
fn methods_of_demand_agree_on_what_was_used() {
    let mut rates = Vec::new();
    for method in ["shrinkage", "plain", "sba", "tsb"] {
        let sheets = planning(&format!("demand_method = \"{method}\""));
        let rate = figure(&sheets, "levels", ("number", "A-1"), "usage_per_year");
        assert!(rate > 0.0, "{method}");
        rates.push(rate);
        // Six used in 1,025 days.
        if method == "plain" {
            let pieces = 6.0 * 365.0 / 1_025.0;
            assert!((rate - pieces).abs() < 1e-6, "{rate}: {pieces}");
        }
        assert_eq!(sheets.row("usage", "number", "A-1")["used_2024"], 2.0);
    }
    let (low, high) = (
        rates.iter().copied().fold(f64::MAX, f64::min),
        rates.iter().copied().fold(0.0, f64::max),
    );
    assert!(high < 6.0 * low, "{rates:?}");
}
