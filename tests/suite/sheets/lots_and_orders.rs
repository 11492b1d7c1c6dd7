//! Lots with a last day or a status, orders in part or cancelled, and what the sheets make of them.

use super::small_shop::{Sheets, SmallShop};

/// The small shop with a last day and a status of its seals, which are past the shelf life by their cure date.
fn seals(last_day: &str, status: &str) -> Sheets {
    SmallShop::new()
        .with(
            "stock.csv",
            "on hand,cure date\n",
            "on hand,cure date,use by,status\n",
        )
        .with(
            "stock.csv",
            "A-2,B2,4,2019-01-15\n",
            &format!("A-2,B2,4,2019-01-15,{last_day},{status}\n"),
        )
        .report()
}

fn free(sheets: &Sheets) -> f64 {
    sheets.row("levels", "number", "A-2")["free"]
        .as_f64()
        .unwrap()
}

fn says(sheets: &Sheets, words: &str) -> bool {
    let said = sheets.texts("data_problems", "problem");
    said.iter().any(|said| said == words)
}

#[test]
fn a_lot_is_stock_until_its_last_day_and_while_nobody_blocks_it() {
    // Planned on 26 November 2026.
    assert!(free(&seals("", "")).abs() < 1e-9);
    let good = seals("2027-01-31", "frei");
    assert!((free(&good) - 4.0).abs() < 1e-9);
    let ended = seals("2026-11-25", "");
    assert!(free(&ended).abs() < 1e-9);
    let words = "4 of `A-2` cured on 2019-01-15 were usable until 2026-11-25: not counted as stock";
    assert!(says(&ended, words) && !says(&good, words));
    let blocked = seals("2027-01-31", "gesperrt");
    assert!(free(&blocked).abs() < 1e-9);
    assert!(says(
        &blocked,
        "by its status `gesperrt` what lies there may not be used; it is not planned with"
    ));
    let unsure = seals("2027-01-31", "lent out");
    assert!((free(&unsure) - 4.0).abs() < 1e-9);
    assert!(says(
        &unsure,
        "`lent out` is not known; expected free or blocked (what lies there counts as free)"
    ));
}

#[test]
fn a_cancelled_order_does_not_come_and_the_rest_of_a_part_delivery_does() {
    let with_status = |status: &str| {
        SmallShop::new()
            .with(
                "orders.csv",
                "promised,received\n",
                "promised,received,status\n",
            )
            .with(
                "orders.csv",
                "2026-10-01,2026-10-15,\n",
                &format!("2026-10-01,2026-10-15,,{status}\n"),
            )
            .report()
    };
    assert_eq!(with_status("offen").rows("chase").len(), 1);
    let cancelled = with_status("storniert");
    assert!(cancelled.rows("chase").is_empty());
    assert!(says(
        &cancelled,
        "by its status `storniert` nothing of this order is still to come"
    ));
    let in_part = SmallShop::new()
        .without("orders.csv")
        .and(
            "orders.csv",
            "order,supplier,part no,qty ordered,qty received,open qty,ordered,promised,received\n\
             B1,North,A-1,10,4,6,2026-11-16,2026-12-10,2026-11-20\n",
        )
        .report();
    let row = in_part.row("levels", "number", "A-1");
    assert!(
        (row["on_order"].as_f64().unwrap() - 6.0).abs() < 1e-9,
        "{row}"
    );
}

#[test]
fn a_part_that_nobody_used_is_told_where_a_kit_asks_for_it_and_valued_by_its_offer() {
    let plain = "[planning]\ndemand_method = \"plain\"\n";
    let shop = SmallShop::new().and("shop.toml", plain);
    let on_kit = shop.clone().with(
        "kit.csv",
        "Press head,Press,30,A-3,1,fit,\n",
        "Press head,Press,30,A-3,1,fit,\nPress head,Press,40,A-4,1,fit,\n",
    );
    let sheets = on_kit.report();
    let why = sheets.row("not_planned", "number", "A-4")["why"].clone();
    assert_eq!(
        why,
        "no usage in the records: no level computed; kit Press head asks for it; no usable offer"
    );
    // A minimum without a reason of what nobody used orders nothing: one of 900 less (arithmetic).
    let sheets = shop
        .with("parts.csv", "never used,piece,,\n", "never used,piece,1,\n")
        .with(
            "prices.csv",
            "East,A-3,6206,6.00",
            "North,A-4,6310,900,40 days,2026-11-02,2026-12-31,1,1\nEast,A-3,6206,6.00",
        )
        .report();
    let row = sheets.row("levels_old_new", "number", "A-4");
    assert!(
        (row["ties_up_eur"].as_f64().unwrap() + 900.0).abs() < 1e-9,
        "{row}"
    );
}
