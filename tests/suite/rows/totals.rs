//! Rows that are no data: totals, repeated headers, headings, notes and blank rows, and rows that only look like them.

use super::import;

#[test]
fn totals_are_counted_and_never_taken() {
    for total in [
        "Total;;11",
        "Total:;;11",
        "TOTAL 2026;;11",
        "Grand total;;11",
        "Sub-total;;11",
        "Subtotal hall 1;;11",
        "Sum;;11",
        "Summe;;11",
        "Summe:;;11",
        "Gesamtsumme;;11",
        "Zwischensumme;;11",
        "Sous-total;;11",
        "Totaux;;11",
        "Totale;;11",
        "Somma;;11",
        "Suma;;11",
        "Razem;;11",
        "Soma;;11",
        "Σ;;11",
    ] {
        let imported = import(
            "stock.csv",
            &format!("Part no;Bin;On hand\nB-1;A1;5\nB-2;A2;6\n{total}\n"),
        );
        let rows = imported.tables[0].rows;
        assert_eq!((rows.read, rows.totals), (2, 1), "{total}");
        assert_eq!(imported.records.stock.len(), 2, "{total}");
        assert_eq!(imported.issues.len(), 0, "{total}");
    }
}

#[test]
fn a_part_whose_number_begins_like_a_total_is_a_part() {
    for part in [
        "SUM-12",
        "Total-3",
        "TOTAL3",
        "Sum.4",
        "Totalizer 5",
        "Sumpf-6",
        "Razem-7",
        "Sous-chef 8",
        "GESAMT-9A",
    ] {
        let imported = import(
            "stock.csv",
            &format!("Part no;Bin;On hand\nB-1;A1;5\n{part};A2;6\n"),
        );
        let parts: Vec<&str> = imported
            .records
            .stock
            .iter()
            .map(|row| row.part.as_str())
            .collect();
        assert_eq!(parts, ["B-1", part]);
    }
}

#[test]
fn a_supplier_or_machine_named_like_a_total_is_one() {
    let suppliers = import(
        "suppliers.csv",
        "Supplier;Approved;Order cut-off\nNordlager;yes;14:00\nTotal Bearings Ltd;yes;15:00\nSumma Handel;ja;\nTotal;;\n",
    );
    let names: Vec<&str> = suppliers
        .records
        .suppliers
        .iter()
        .map(|supplier| supplier.name.as_str())
        .collect();
    assert_eq!(names, ["Nordlager", "Total Bearings Ltd", "Summa Handel"]);
    assert_eq!(suppliers.tables[0].rows.totals, 1);
    let machines = import(
        "machines.csv",
        "Machine;Downtime cost per hour;Installed;Criticality\nP-1;100;2;A\nTotal press;80;1;B\nTotal;180;3;\n",
    );
    let names: Vec<&str> = machines
        .records
        .machines
        .iter()
        .map(|machine| machine.machine.as_str())
        .collect();
    assert_eq!(names, ["P-1", "Total press"]);
    assert_eq!(machines.tables[0].rows.totals, 1);
}

#[test]
fn a_kit_named_like_a_total_keeps_its_lines_and_tasks() {
    let kits = import(
        "kits.csv",
        "Kit;Line;Part no;Quantity\nTotal overhaul;10;B-1;2\nTotal overhaul;20;B-2;1\nTotal;;;3\n",
    );
    let parts = kits.records.kit_lines.iter();
    let parts: Vec<_> = parts.filter_map(|line| line.part.as_deref()).collect();
    assert_eq!(parts, ["B-1", "B-2"]);
    assert_eq!(kits.tables[0].rows.totals, 1);
    let tasks = import(
        "tasks.csv",
        "Kit;Task;Hours\nGesamt Revision;Strip;2\nGesamt Revision;Fit;3\nGesamt;;5\n",
    );
    let names = tasks.records.tasks.iter();
    let names: Vec<_> = names.map(|task| task.task.as_str()).collect();
    assert_eq!(names, ["Strip", "Fit"]);
    assert_eq!(tasks.tables[0].rows.totals, 1);
    // So does a supplier in front of what he offers.
    let offers = import(
        "prices.csv",
        "Supplier;Part no;Price EUR;Lead time\nNordlager;B-1;2,00;5 days\nTotal Bearings Ltd;B-1;3,00;2 days\nTotal;;5,00;\n",
    );
    let names = offers.records.offers.iter();
    let names: Vec<String> = names.map(|offer| offer.supplier.to_string()).collect();
    assert_eq!(names, ["Nordlager", "Total Bearings Ltd"]);
    assert_eq!(offers.tables[0].rows.totals, 1);
}

#[test]
fn repeated_headers_blank_rows_headings_and_notes_are_counted_apart() {
    let text = "Part no;Bin;On hand\n\
                Hall one;;\n\
                B-1;A1;5\n\
                ;;\n\
                Part no;Bin;On hand\n\
                B-2;A2;6\n\
                Hall two;;\n\
                B-3;A3;7\n\
                * counted by two people on a Saturday, see the protocol;;\n\
                Total;;18\n";
    let imported = import("stock.csv", text);
    let rows = imported.tables[0].rows;
    assert_eq!(
        (
            rows.read,
            rows.rejected,
            rows.blank,
            rows.totals,
            rows.headers,
            rows.notes,
            rows.headings
        ),
        (3, 0, 1, 1, 1, 1, 2)
    );
    let found: Vec<String> = imported
        .records
        .stock
        .iter()
        .map(|row| format!("{} {}", row.part, row.place.cell()))
        .collect();
    assert_eq!(found, ["B-1 row 3", "B-2 row 6", "B-3 row 8"]);
}

#[test]
fn a_lone_text_is_a_heading_only_where_it_names_no_part() {
    for (text, is_data) in [
        ("B-2", true),
        ("6305-2RS", true),
        ("Hall two", false),
        ("Bearings", false),
        ("Seals 2026", false),
    ] {
        let imported = import(
            "stock.csv",
            &format!("Part no;Bin;On hand\nB-1;A1;5\n{text};;\nB-3;A3;7\n"),
        );
        let rows = imported.tables[0].rows;
        assert_eq!(
            (rows.read, rows.headings),
            if is_data { (3, 0) } else { (2, 1) },
            "{text}"
        );
    }
}
