//! What machines and receipts do to the sheets: last buys, retired machines, criticality, costs by the settings, and lead
//! times learnt from what came.

use chrono::{Datelike, Days, NaiveDate};

use super::small_shop::{Sheets, SmallShop};

fn figure(sheets: &Sheets, sheet: &str, (key, text): (&str, &str), column: &str) -> f64 {
    let row = sheets.row(sheet, key, text);
    row[column]
        .as_f64()
        .unwrap_or_else(|| panic!("{column} of {row}"))
}

/// The shop whose press leaves service on a day.
fn until(day: &str) -> Sheets {
    let machines = format!(
        "machine,installed,downtime cost EUR/h,criticality,in use until\nPress,1,200,A,{day}\n"
    );
    SmallShop::new()
        .without("machines.csv")
        .and("machines.csv", &machines)
        .report()
}

/// So many working days, Monday to Friday, after a day.
fn workdays_after(day: NaiveDate, count: u32) -> NaiveDate {
    day.iter_days()
        .skip(1)
        .filter(|day| day.weekday().number_from_monday() < 6)
        .nth(count as usize - 1)
        .unwrap()
}

/// The shop that buys A-1 from North alone, which delivered so often and took so many working days each time.
fn received(times: usize, workdays: u32) -> Sheets {
    let mut orders = "order,supplier,part no,quantity,ordered,promised,received\n".to_owned();
    for at in 0..times {
        let monday = NaiveDate::from_ymd_opt(2025, 1, 6).unwrap() + Days::new(56 * at as u64);
        let came = workdays_after(monday, workdays);
        orders.push_str(&format!("C{at},North,A-1,4,{monday},{monday},{came}\n"));
    }
    SmallShop::new()
        .with("suppliers.csv", "South,yes", "South,no")
        .without("orders.csv")
        .and("orders.csv", &orders)
        .report()
}

#[test]
fn three_receipts_of_a_part_are_learnt_from_and_fewer_only_move_its_quote() {
    // A Thursday; the quote says three working days.
    let today = NaiveDate::from_ymd_opt(2026, 11, 26).unwrap();
    for (times, workdays) in [
        (0, 2),
        (1, 2),
        (2, 6),
        (3, 2),
        (3, 6),
        (5, 2),
        (5, 6),
        (8, 6),
    ] {
        let sheets = received(times, workdays);
        let line = sheets.row("kit_lines", "line", "10");
        let likely = line["here_likely"].as_str().unwrap();
        let (rests_on, takes) = match times {
            0 => ("quote only".to_owned(), Some(3)),
            // Promised for the day of the order, they say that the quote is too short, and not by how much.
            1 | 2 => (format!("quote and {times} receipt"), None),
            _ => (format!("{times} receipts of this part"), Some(workdays)),
        };
        assert!(
            line["rests_on"].as_str().unwrap().starts_with(&rests_on),
            "{times}: {line}"
        );
        let quoted = workdays_after(today, 3).to_string();
        match takes {
            Some(takes) => assert_eq!(
                &likely[..10],
                workdays_after(today, takes).to_string(),
                "{times} receipts of {workdays} working days"
            ),
            None => assert!(&likely[..10] > quoted.as_str(), "{times}: {line}"),
        }
    }
}

#[test]
fn more_receipts_of_the_same_days_never_make_late_later() {
    let late: Vec<String> = [3, 4, 5, 6, 8]
        .iter()
        .map(|times| {
            received(*times, 6).row("kit_lines", "line", "10")["here_late"]
                .as_str()
                .unwrap()
                .to_owned()
        })
        .collect();
    assert!(late.windows(2).all(|pair| pair[0] >= pair[1]), "{late:?}");
}

#[test]
fn slower_receipts_make_everything_later_and_stock_no_smaller() {
    let sheets: Vec<Sheets> = [1, 3, 6, 15]
        .iter()
        .map(|workdays| received(5, *workdays))
        .collect();
    for pair in sheets.windows(2) {
        for (sheet, key, column) in [
            ("levels", ("number", "A-1"), "lead_days"),
            ("levels", ("number", "A-1"), "min_stock"),
            ("kits", ("kit", "Press head"), "down_mean_h"),
        ] {
            let (fast, slow) = (
                figure(&pair[0], sheet, key, column),
                figure(&pair[1], sheet, key, column),
            );
            assert!(fast <= slow, "{column}: {fast} {slow}");
        }
    }
}

#[test]
fn within_a_year_of_its_end_a_machine_gets_a_last_buy_and_before_that_a_level() {
    // 365 days from 26 November 2026 are 26 November 2027.
    for (day, is_last) in [
        ("2027-03-31", true),
        ("2027-11-26", true),
        ("2027-11-27", false),
        ("2029-01-01", false),
    ] {
        let sheets = until(day);
        let numbers = sheets.texts("last_buys", "number");
        assert_eq!(numbers == ["A-1", "A-2"], is_last, "{day}: {numbers:?}");
        let ordered = sheets.row("order_now", "buy", "A-1")["why"]
            .as_str()
            .unwrap()
            .to_owned();
        assert_eq!(
            ordered.starts_with(&format!("Last buy: its machines leave service by {day}")),
            is_last,
            "{ordered}"
        );
        for row in sheets.rows("last_buys") {
            assert_eq!(row["until"], day);
            // Nothing usable is there: all that is wanted is bought, in packs at least.
            let (wanted, buy) = (
                row["wanted"].as_f64().unwrap(),
                row["buy"].as_f64().unwrap(),
            );
            assert!((wanted - buy).abs() < 1e-9 && buy >= 1.0, "{row}");
            let bought = figure(
                &sheets,
                "order_now",
                ("buy", row["number"].as_str().unwrap()),
                "quantity",
            );
            assert!(bought >= buy, "{row}");
        }
    }
    // The longer it still runs, the more it is bought for.
    let wanted = |day: &str| figure(&until(day), "last_buys", ("number", "A-1"), "wanted");
    assert!(wanted("2027-01-31") <= wanted("2027-06-30"));
    assert!(wanted("2027-06-30") <= wanted("2027-11-26"));
}

#[test]
fn for_a_machine_that_is_gone_nothing_is_ordered() {
    let sheets = until("2026-01-01");
    assert!(
        sheets.rows("order_now").is_empty(),
        "{:?}",
        sheets.rows("order_now")
    );
    assert!(sheets.rows("last_buys").is_empty());
    for row in sheets.rows("levels") {
        assert!(row["min_stock"].as_f64().unwrap().abs() < 1e-9, "{row}");
        assert!(
            row["why"]
                .as_str()
                .unwrap()
                .starts_with("not reordered: every machine that uses it left service"),
            "{row}"
        );
    }
}

#[test]
fn what_counts_more_is_kept_no_less() {
    let kept = |criticality: &str| {
        let sheets = SmallShop::new()
            .with("machines.csv", ",200,A", &format!(",200,{criticality}"))
            .and(
                "shop.toml",
                "[planning.criticality_weights]\nA = 4.0\nB = 1.0\nC = 0.01\n",
            )
            .report();
        ["A-1", "A-2"]
            .map(|number| figure(&sheets, "levels", ("number", number), "in_full").round() as i64)
    };
    let (a, b, c) = (kept("A"), kept("B"), kept("C"));
    let pairs = [(a, b), (b, c)];
    for (more, less) in pairs {
        assert!(
            more[0] >= less[0] && more[1] >= less[1],
            "{a:?} {b:?} {c:?}"
        );
    }
    assert!(a[0] > c[0], "{a:?} {c:?}");
    // A class without a weight counts as one.
    assert_eq!(kept(""), b);
}

#[test]
fn an_hour_without_a_cost_is_told_and_the_settings_may_say_one() {
    let why = |settings: &str| {
        let shop = SmallShop::new().with("machines.csv", ",200,A", ",,A");
        let sheets = shop.and("shop.toml", settings).report();
        sheets.row("levels", "number", "A-1")["why"]
            .as_str()
            .unwrap()
            .to_owned()
    };
    assert!(why("").contains("no downtime cost known"), "{}", why(""));
    let by_settings = why("[planning]\ndowntime_cost_per_hour = 200\n");
    assert!(
        by_settings.contains("an hour at 200.00 EUR (downtime by the settings"),
        "{by_settings}"
    );
}

#[test]
fn packs_are_ordered_as_packs_at_the_price_of_a_pack() {
    let rows = "supplier,part no,designation,price EUR,lead time,quote date,valid until,unit\n\
                North,A-1,6205-2RS,42.00,3 days,2026-11-02,2026-12-31,pack of 10\n\
                North,A-2,35x52x7,2.10,1 week,2026-11-02,2026-12-31,pcs\n";
    let sheets = SmallShop::new()
        .without("prices.csv")
        .and("prices.csv", rows)
        .report();
    let order = sheets.row("order_now", "buy", "A-1");
    assert_eq!(order["unit_of_count"], "pack of 10");
    let packs = order["quantity"].as_f64().unwrap();
    assert!(packs >= 1.0 && packs.fract().abs() < 1e-9, "{order}");
    assert!(
        (order["cost_eur"].as_f64().unwrap() - 42.0 * packs).abs() < 0.005,
        "{order}"
    );
    // The level is in pieces.
    assert_eq!(
        sheets.row("levels", "number", "A-1")["unit_of_count"],
        "piece"
    );
    assert_eq!(
        sheets.row("order_now", "buy", "A-2")["unit_of_count"],
        "piece"
    );
}

/// The shop with a part that nobody used, of which the parts table alone says the machine.
fn spare_of(machine: &str) -> Sheets {
    SmallShop::new()
        .without("parts.csv")
        .and(
            "parts.csv",
            &format!(
                "part no,designation,description,unit,min stock,shelf life months,machine\n\
                 A-1,6205-2RS,drive bearing,piece,2,,\n\
                 A-2,35x52x7 NBR,shaft seal,piece,1,60,\n\
                 A-3,6206,spare bearing,piece,,,\n\
                 A-4,6310,never used,piece,,,{machine}\n"
            ),
        )
        .with(
            "prices.csv",
            "East,A-3,",
            "North,A-4,6310,400.00,1 week,2026-11-02,2026-12-31,1,1\nEast,A-3,",
        )
        .with("stock.csv", "A-4,B4,6,\n", "")
        .report()
}

#[test]
fn the_machine_of_the_parts_table_says_what_an_hour_without_the_part_costs() {
    let why = |sheets: &Sheets, sheet: &str, key: &str| {
        let why = sheets.row(sheet, key, "A-4")["why"].as_str().unwrap();
        why.to_owned()
    };
    let none = spare_of("");
    let of_level = why(&none, "levels", "number");
    assert!(
        of_level.contains("middle of 1 machines, none known for this part"),
        "{of_level}"
    );
    for machine in ["Press", "press ; Mixer", "Mixer|PRESS"] {
        let sheets = spare_of(machine);
        let of_level = why(&sheets, "levels", "number");
        assert!(
            of_level.contains("downtime of Press"),
            "{machine}: {of_level}"
        );
        assert_eq!(
            sheets
                .texts("data_problems", "problem")
                .iter()
                .any(|text| text.contains("`Mixer`")),
            machine.contains("Mixer"),
            "{machine}"
        );
    }
    let unknown = why(&spare_of("Mixer"), "levels", "number");
    assert!(
        unknown.contains("middle of 1 machines, because nothing says it of Mixer"),
        "{unknown}"
    );
}

#[test]
fn machines_without_a_cost_of_an_hour_are_to_be_set_first() {
    let sheets = SmallShop::new()
        .with(
            "usages.csv",
            "2026-06-10,A-3,1,Press,failure\n",
            "2026-06-10,A-3,1,Mixer,failure\n2026-06-11,A-3,1,Oven,failure\n2026-06-12,A-3,1,Oven,failure\n2026-06-13,A-3,1,Gone,failure\n",
        )
        .without("machines.csv")
        .and(
            "machines.csv",
            "machine,installed,downtime cost EUR/h,criticality,in use until\nPress,1,200,A,\nOven,1,,B,\nGone,1,,B,2026-07-01\n",
        )
        .order_list();
    let set = sheets.texts("set_first", "set");
    let of = |name: &str| set.iter().filter(|text| text.contains(name)).count();
    // The press has a cost, and what has left service needs none.
    assert_eq!((of("`Press`"), of("`Gone`")), (0, 0), "{set:?}");
    let oven = sheets.row(
        "set_first",
        "set",
        "a cost of an hour down of machine `Oven`",
    );
    assert_eq!(oven["usages"], 2);
    let mixer = "a row of machine `Mixer` in a table of machines, with its cost of an hour down";
    assert_eq!(sheets.row("set_first", "set", mixer)["usages"], 1);
    // The most used first.
    let at = |name: &str| set.iter().position(|text| text.contains(name));
    assert!(at("`Oven`") < at("`Mixer`"), "{set:?}");
    // A cost in the settings holds for all of them.
    let settings = "shop = \"Press shop\"\n[planning]\ndowntime_cost_per_hour = 80.0\n";
    let priced = SmallShop::new()
        .with("usages.csv", "A-3,1,Press", "A-3,1,Mixer")
        .and("shop.toml", settings)
        .order_list();
    let set = priced.texts("set_first", "set");
    assert!(!set.iter().any(|text| text.contains("machine")), "{set:?}");
}

#[test]
fn a_quote_of_a_day_to_come_has_no_age_and_the_next_best_its_freight() {
    let sheets = SmallShop::new()
        .with(
            "prices.csv",
            "North,A-1,6205-2RS,4.20,3 days,2026-11-02",
            "North,A-1,6205-2RS,4.20,3 days,2027-11-18",
        )
        .with(
            "prices.csv",
            "South,A-1,6205-2RS,3.80,2 weeks,2026-11-02",
            "South,A-1,6205-2RS,3.80,2 weeks,2027-11-18",
        )
        .report();
    let row = sheets.row("order_basis", "buy", "A-1");
    assert!(row["quote_age_days"].is_null(), "{row}");
    assert_eq!(
        row["quote_age_days_unknown"],
        "quoted after the moment of planning"
    );
    let supplier = row["supplier"].as_str().unwrap();
    let (other, freight) = match supplier {
        "North" => ("South", "8.00 EUR"),
        _ => ("North", "12.00 EUR"),
    };
    let next_best = row["next_best"].as_str().unwrap();
    assert!(
        next_best.starts_with(other) && next_best.contains(&format!("; freight {freight} on top")),
        "{next_best}"
    );
}

#[test]
fn a_year_in_which_more_came_back_than_was_used_shows_what_the_plan_counts() {
    let notes = |more: &str| {
        let sheets = SmallShop::new()
            .with("usages.csv", "2026-06-10,A-3,1,Press,failure\n", more)
            .report();
        let row = sheets.row("usage", "number", "A-3");
        let figures = [&row["used_2026"], &row["counted"]].map(|of| of.as_f64().unwrap() as i64);
        (figures, sheets.json()["sheets"]["usage"].to_string())
    };
    // What the year shows is what the plan counts: the two that come back beyond the one used are left out of both.
    let (used, said) = notes("2026-06-10,A-3,1,Press,failure\n2026-06-20,A-3,-3,Press,\n");
    assert_eq!(used, [0, 0]);
    assert!(said.contains("counts in no rate"), "{said}");
    let more =
        "2026-06-02,A-3,-4,Press,\n2026-06-10,A-3,4,Press,failure\n2026-06-20,A-3,-1,Press,\n";
    assert_eq!(notes(more).0, [3, 3]);
    let (used, said) = notes("2026-06-10,A-3,1,Press,failure\n");
    assert_eq!(used, [1, 1]);
    assert!(!said.contains("counts in no rate"), "{said}");
}

#[test]
fn a_quote_of_a_day_to_come_does_not_replace_the_one_that_holds() {
    let seal = "North,A-2,35x52x7,2.10,1 week,2026-11-02,2026-12-31,1,1\n";
    let price = |quoted: &str| {
        let later = format!("{seal}North,A-2,35x52x7,44.00,1 week,{quoted},2062-12-31,1,1\n");
        let sheets = SmallShop::new()
            .and("shop.toml", "as_of = \"2026-11-26T08:00\"\n")
            .with("prices.csv", seal, &later)
            .report();
        sheets.row("order_now", "buy", "A-2")["unit_price_eur"].as_f64()
    };
    // A slip of a year that is decades ahead, and the day after: neither is the newer quote.
    assert_eq!(price("2062-11-02"), Some(2.1));
    assert_eq!(price("2026-11-27"), Some(2.1));
    // One of the day of planning is.
    assert_eq!(price("2026-11-26"), Some(44.0));
}
