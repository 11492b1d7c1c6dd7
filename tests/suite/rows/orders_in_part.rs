//! Orders that came in part, were closed or cancelled: what is still to come, by quantities and words. Common practice, no
//! source.

use super::{import, problems};

#[test]
fn what_came_and_what_is_still_to_come_are_told_apart() {
    let header =
        "Supplier;Part no;Ordered;Promised;Received;Qty ordered;Qty received;Open qty;Status";
    // Quantity, still open, closed, problems.
    for (row, expected) in [
        ("2026-02-27;10;4;6;", (Some(4.0), Some(6.0), false, 0)),
        (";10;0;10;", (Some(10.0), None, false, 0)),
        (";10;4;6;", (Some(6.0), None, false, 0)),
        ("2026-02-27;10;10;0;", (Some(10.0), None, false, 0)),
        ("2026-02-27;10;;0;", (Some(10.0), None, false, 0)),
        ("2026-02-27;10;;6;", (Some(4.0), Some(6.0), false, 0)),
        // Whether the rest comes nobody says, or a word does.
        ("2026-02-27;10;4;;", (Some(4.0), None, false, 1)),
        (
            "2026-02-27;10;4;;teilgeliefert",
            (Some(4.0), Some(6.0), false, 0),
        ),
        ("2026-02-27;10;4;;closed", (Some(4.0), None, false, 0)),
        ("2026-02-27;10;4;6;storniert", (Some(4.0), None, false, 0)),
        ("2026-02-27;10;;;part delivered", (None, None, false, 1)),
        (";10;;;part delivered", (None, None, false, 1)),
        // Quantities that contradict each other.
        ("2026-02-27;10;4;5;", (Some(4.0), Some(5.0), false, 1)),
        // Nothing comes any more, which is told.
        (";10;;;cancelled", (Some(10.0), None, true, 1)),
        (";10;;;Erledigt", (Some(10.0), None, true, 1)),
        (";10;10;0;", (None, None, true, 1)),
        (";10;;0;", (None, None, true, 1)),
        (";;;0;", (None, None, true, 1)),
        (";;;0;offen", (None, None, true, 1)),
        (";;;3;", (Some(3.0), None, false, 0)),
        // A word that nobody is sure of changes nothing.
        (";10;;;perhaps", (Some(10.0), None, false, 1)),
        (";10;;;offen", (Some(10.0), None, false, 0)),
    ] {
        let row = format!("North;B-1;2026-02-20;2026-03-13;{row}");
        let imported = import("orders.csv", &format!("{header}\n{row}\n"));
        let order = &imported.records.receipts[0];
        let said = problems(&imported);
        let found = (
            order.quantity,
            order.still_open,
            order.is_closed,
            said.len(),
        );
        assert_eq!(found, expected, "{row}: {said:?}");
    }
}

/// Common practice, no source: lists of open orders keep their closed lines, and have no column for the day of receipt.
#[test]
fn a_line_of_which_nothing_is_open_is_closed_without_a_word() {
    let list = "Supplier;Part no;Ordered;Promised;Open qty\nNorth;B-1;2026-02-20;2026-03-13;0\nNorth;B-2;2026-02-20;2026-03-13;4\n";
    let imported = import("orders.csv", list);
    let orders = &imported.records.receipts;
    let closed: Vec<bool> = orders.iter().map(|order| order.is_closed).collect();
    assert_eq!(closed, [true, false]);
    assert_eq!(problems(&imported), [""; 0]);
}

#[test]
fn a_lot_ends_on_the_day_that_its_list_says() {
    // The last days of months and quarters by the calendar.
    for (printed, until, day) in [
        ("Expiry date", "2026-01-31", "2026-01-31"),
        ("use by", "31 Jan 2026", "2026-01-31"),
        ("best before", "2026-02", "2026-02-28"),
        ("MHD", "02/2028", "2028-02-29"),
        ("Haltbar bis", "31.01.2026", "2026-01-31"),
        ("Verfallsdatum", "Q1 2026", "2026-03-31"),
        ("Gültig bis", "31.01.2026", "2026-01-31"),
    ] {
        let text =
            format!("Part no;Bin;Lot;{printed};On hand;Status\nP-1;A;L1;{until};5;gesperrt\n");
        let imported = import("stock.csv", &text);
        let row = &imported.records.stock[0];
        let found = row.usable_until.map(|day| day.to_string());
        assert_eq!(found.as_deref(), Some(day), "{printed} {until}");
        assert!(row.is_blocked);
        assert_eq!(problems(&imported).len(), 1, "{printed}");
    }
}
