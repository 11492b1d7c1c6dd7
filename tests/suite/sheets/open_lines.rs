//! Kit lines that have no known arrival: kept on every sheet, with what is true of them.

use super::small_shop::{Sheets, SmallShop};

/// The small shop with everything that the kit asks for on the shelf.
fn all_on_the_shelf() -> SmallShop {
    SmallShop::new()
        .with("stock.csv", "A-1,B1,0,", "A-1,B1,9,")
        .with("stock.csv", "A-2,B2,4,2019-01-15", "A-2,B2,4,2026-01-15")
}

const FROM_STOCK: &str = "Kits that can be built from stock";

#[test]
fn a_kit_with_a_line_of_unknown_quantity_is_never_complete() {
    let whole = all_on_the_shelf().report();
    assert!((whole.fact(FROM_STOCK) - 1.0).abs() < 1e-9);
    for quantity in ["x", "", "-1", "two"] {
        let sheets = all_on_the_shelf()
            .with("kit.csv", "30,A-3,1,fit", &format!("30,A-3,{quantity},fit"))
            .report();
        assert!(sheets.fact(FROM_STOCK).abs() < 1e-9, "{quantity}");
        let kit = sheets.row("kits", "kit", "Press head");
        let held = kit["held_by"].as_str().unwrap();
        assert!(
            held.starts_with("line 30: A-3") && held.ends_with(", quantity unknown"),
            "{quantity}: {held}"
        );
        assert_eq!(kit["short_lines"], "1 of 3", "{quantity}");
        for column in ["complete_likely", "running_likely", "down_likely_h"] {
            assert!(kit[column].is_null(), "{quantity}: {column}");
        }
        let line = sheets.row("kit_lines", "line", "30");
        assert!(line["needed"].is_null() && line["here_likely"].is_null());
        let actions = sheets.cover("actions");
        let settle = "Settle quantities and units: 1 kit has no end without them".to_owned();
        assert!(actions.contains(&settle), "{quantity}: {actions:?}");
        let asks = |text: &String| text.starts_with("Ask for lead times");
        assert!(!actions.iter().any(asks), "{quantity}: {actions:?}");
    }
}

#[test]
fn a_line_that_names_no_known_part_is_to_be_named_first() {
    for (line, is_settled) in [("30,,1,fit", false), ("30,,x,fit", true)] {
        let sheets = all_on_the_shelf()
            .with("kit.csv", "30,A-3,1,fit", line)
            .report();
        let actions = sheets.cover("actions");
        let begins = |words: &str| actions.iter().any(|text| text.starts_with(words));
        assert!(
            begins("Name the parts of kit lines: 1 kit has"),
            "{line}: {actions:?}"
        );
        assert!(!begins("Ask for lead times"), "{line}: {actions:?}");
        assert_eq!(
            begins("Settle quantities"),
            is_settled,
            "{line}: {actions:?}"
        );
    }
}

#[test]
fn a_number_of_units_that_nobody_reads_is_no_number_of_pieces() {
    for (unit, is_complete) in [
        ("piece", true),
        ("set", false),
        ("box", false),
        ("kg", false),
    ] {
        let sheets = all_on_the_shelf()
            .each(|name, text| {
                if name != "kit.csv" {
                    return text.to_owned();
                }
                let lines = text.lines().enumerate().map(|(at, line)| {
                    let said = if at == 0 { "unit" } else { unit };
                    format!("{line},{said}\n")
                });
                lines.collect()
            })
            .report();
        let from_stock = sheets.fact(FROM_STOCK);
        assert!(
            (from_stock - f64::from(u8::from(is_complete))).abs() < 1e-9,
            "{unit}"
        );
    }
}

/// The shop with six seals needed, of which `offers` alone give some.
fn part_offered(offers: &str) -> Sheets {
    SmallShop::new()
        .with("stock.csv", "A-1,B1,0,", "A-1,B1,9,")
        .with("kit.csv", "20,A-2,1,fit,yes", "20,A-2,6,fit,yes")
        .with(
            "prices.csv",
            "valid until,minimum quantity,pack quantity",
            "valid until,minimum quantity,pack quantity,available",
        )
        .with(
            "prices.csv",
            "North,A-2,35x52x7,2.10,1 week,2026-11-02,2026-12-31,1,1",
            offers,
        )
        .report()
}

#[test]
fn what_is_offered_in_part_is_not_called_without_lead_time() {
    // Six are needed; North has two and says when, nobody else offers any.
    let sheets = part_offered("North,A-2,35x52x7,2.10,1 week,2026-11-02,2026-12-31,1,1,2");
    let kit = sheets.row("kits", "kit", "Press head");
    let held = kit["held_by"].as_str().unwrap();
    assert!(
        held.ends_with("only 2 of 6 are on the shelf, on order or offered"),
        "{held}"
    );
    assert!(!held.contains("lead time"), "{held}");
    let actions = sheets.cover("actions");
    let rest = "Find the rest of what is offered in part: 1 kit has no end without it".to_owned();
    assert!(actions.contains(&rest), "{actions:?}");
    // Where another offers the rest and says no day, a lead time is what is missing.
    let undated = part_offered(
        "North,A-2,35x52x7,2.10,1 week,2026-11-02,2026-12-31,1,1,2\nSouth,A-2,35x52x7,2.20,on request,2026-11-02,2026-12-31,1,1,",
    );
    let held = undated.row("kits", "kit", "Press head")["held_by"].to_string();
    assert!(
        held.contains("only 2 of 6 have a source with a lead time"),
        "{held}"
    );
}

#[test]
fn what_is_offered_in_sets_only_is_not_called_without_lead_time() {
    // A set is never split: two of a kind in a set are no two pieces.
    let sheets = SmallShop::new()
        .each(|name, text| {
            if name != "prices.csv" {
                return text.to_owned();
            }
            let unit = |line: &str| match line {
                _ if line.starts_with("supplier,") => "unit",
                _ if line.contains(",A-2,") => "set of 2",
                _ => "piece",
            };
            text.lines()
                .map(|line| format!("{line},{}\n", unit(line)))
                .collect()
        })
        .report();
    let kit = sheets.row("kits", "kit", "Press head");
    let held = kit["held_by"].as_str().unwrap();
    assert!(
        held.ends_with("stocked or offered in another unit of count"),
        "{held}"
    );
    assert!(kit["complete_likely"].is_null(), "{kit}");
    let actions = sheets.cover("actions");
    let settle = "Settle quantities and units: 1 kit has no end without them".to_owned();
    assert!(actions.contains(&settle), "{actions:?}");
}

#[test]
fn a_rate_of_exchange_that_is_missing_is_not_called_a_lead_time() {
    // Three working days are quoted for the seal, in francs; nothing says what a franc is.
    let sheets = SmallShop::new().in_francs("A-2").report();
    let kit = sheets.row("kits", "kit", "Press head");
    let held = kit["held_by"].as_str().unwrap();
    assert!(
        held.contains("offered in CHF without a rate of exchange"),
        "{held}"
    );
    assert!(kit["complete_likely"].is_null(), "{kit}");
    let actions = sheets.cover("actions");
    let begins = |words: &str| actions.iter().any(|text| text.starts_with(words));
    assert!(
        begins("Give rates of exchange: 1 kit has no end without them"),
        "{actions:?}"
    );
    assert!(!begins("Ask for lead times"), "{actions:?}");
}

#[test]
fn a_new_order_beside_an_open_one_says_what_becomes_of_it() {
    // The spare bearing is due from South on 14 December, and North has it in a week; an hour down costs 200.
    for (charge, words) in [
        (
            "",
            "; the new order is paid even if that comes first, as nobody says that it may be cancelled",
        ),
        ("10 %", "; cancel the new order if that comes first"),
    ] {
        let sheets = SmallShop::new()
            .with("stock.csv", "A-3,B3,1,", "A-3,B3,0,")
            .with(
                "orders.csv",
                "2026-10-01,2026-10-15,",
                "2026-11-16,2026-12-14,",
            )
            .with(
                "prices.csv",
                "South,A-3,6206,5.00,2 weeks,2026-01-02,2026-02-01",
                "North,A-3,6206,5.00,1 week,2026-11-02,2026-12-31",
            )
            .each(|name, text| {
                if name != "prices.csv" {
                    return text.to_owned();
                }
                let of = |line: &str| match line.starts_with("supplier,") {
                    true => "cancellation charge",
                    false => charge,
                };
                let lines = text.lines().map(|line| format!("{line},{}\n", of(line)));
                lines.collect()
            })
            .report();
        let line = sheets.row("kit_lines", "line", "30");
        let from = line["from"].as_str().unwrap();
        let open = "1 x A-3 from North; comes anyway and counts too: 1 x A-3 on order (likely 202";
        assert!(from.starts_with(open), "{from}");
        assert!(from.ends_with(&format!("){words}")), "{from}");
    }
}

#[test]
fn a_kit_with_a_task_that_was_not_read_has_no_known_end() {
    // `strip` is rejected without hours, and `fit` waits for it.
    let sheets = all_on_the_shelf()
        .with("tasks.csv", "strip,3,", "strip,,")
        .report();
    let kit = sheets.row("kits", "kit", "Press head");
    assert!(!kit["complete_likely"].is_null(), "{kit}");
    for column in ["work_h", "running_likely", "down_likely_h"] {
        assert!(kit[column].is_null(), "{column}: {kit}");
    }
    let whole = all_on_the_shelf().report();
    let kit = whole.row("kits", "kit", "Press head");
    assert!((kit["work_h"].as_f64().unwrap() - 7.0).abs() < 1e-9);
}

#[test]
fn the_condition_of_an_approval_stands_beside_the_part_that_it_lets_in() {
    let sheets = SmallShop::new()
        .and(
            "approvals.csv",
            "kit,line,substitute,outcome,checks,approved by,date\n\
             Press head,10,A-3,approved,seat measured; shoulder clear,Ann,2026-11-02\n",
        )
        .report();
    let accepted = sheets.row("kit_lines", "line", "10")["accepted"]
        .as_str()
        .unwrap()
        .to_owned();
    assert!(accepted.starts_with("A-1, asked for; A-3, approved by Ann on 2026-11-02"));
    // 6206 is no 6205: what stands against it is told, and its condition in one piece behind it.
    assert!(
        accepted.contains("30 x 62 x 16 mm instead of 25 x 52 x 15 mm")
            && accepted.ends_with(", to check: seat measured, shoulder clear"),
        "{accepted}"
    );
    let other = sheets.row("kit_lines", "line", "20")["accepted"].clone();
    assert_eq!(other, "A-2, asked for");
}
