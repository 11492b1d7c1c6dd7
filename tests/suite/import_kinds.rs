//! Columns in tables of a kind that has no place for them, and tables whose columns are of two kinds: nothing is dropped
//! without a word. Layouts are common practice, no source.

use sparewright::import::{Imported, TableRead, read_folder};
use sparewright::record::TableKind;

fn import(files: &[(&str, &str)]) -> Imported {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    read_folder(folder.path()).unwrap()
}

fn not_read(table: &TableRead) -> Vec<&str> {
    let columns = table.unread_columns.iter();
    columns.map(|(_, header)| header.as_str()).collect()
}

#[test]
fn a_parts_list_that_names_machines_is_one_of_parts() {
    let imported = import(&[
        (
            "parts.csv",
            "Part number,Designation,Machines,Criticality\nP1,6205-2RS,Mixer,A\nP2,6206-2RS,Mixer,B\n",
        ),
        (
            "machines.csv",
            "Machine,Designation,Criticality,Downtime cost per hour\nMixer,Dough mixer,A,50\n",
        ),
    ]);
    let kinds: Vec<TableKind> = imported.tables.iter().map(|table| table.kind).collect();
    assert!(kinds.contains(&TableKind::Parts) && kinds.contains(&TableKind::Machines));
    assert_eq!(imported.records.parts.len(), 2);
    assert_eq!(imported.records.parts[0].machines, ["Mixer"]);
    assert_eq!(imported.records.machines.len(), 1);
    // How critical a part is hangs on its machine: the column is told as not read.
    let parts = imported
        .tables
        .iter()
        .find(|table| table.kind == TableKind::Parts);
    let parts = parts.unwrap();
    assert_eq!(not_read(parts), ["Criticality"]);
    let says = "column `Criticality` is not read: a table of parts has no criticality";
    assert!(parts.why.iter().any(|why| why == says), "{:?}", parts.why);
    assert!(
        parts
            .columns
            .iter()
            .all(|column| column.header != "Criticality")
    );
}

#[test]
fn a_minimum_in_a_parts_list_is_that_of_the_shelf() {
    let imported = import(&[(
        "parts.csv",
        "Part number,Designation,Minimum\nP1,6205-2RS,4\nP2,6206-2RS,3\n",
    )]);
    let kept = imported.records.parts.iter().map(|part| part.own_min_stock);
    assert_eq!(kept.collect::<Vec<_>>(), [Some(4.0), Some(3.0)]);
    assert!(not_read(&imported.tables[0]).is_empty());
    // What is certainly a least quantity to order is of no use without a supplier, and told.
    let imported = import(&[(
        "parts.csv",
        "Part number,Designation,Bore,MOQ\nP1,6205-2RS,25,4\nP2,6206-2RS,30,3\n",
    )]);
    assert_eq!(imported.records.parts[0].own_min_stock, None);
    assert_eq!(not_read(&imported.tables[0]), ["MOQ"]);
}

#[test]
fn a_count_of_machines_is_how_many_are_installed() {
    for word in ["Count", "Quantity", "Anzahl", "Installed"] {
        let text = format!("Machine,Downtime cost per hour,{word},Criticality\nMixer,50,2,A\n");
        let imported = import(&[("machines.csv", &text)]);
        let machine = &imported.records.machines[0];
        assert_eq!(machine.installed, Some(2.0), "{word}");
        assert!(not_read(&imported.tables[0]).is_empty(), "{word}");
    }
}

#[test]
fn what_a_kind_of_table_has_is_never_told_as_not_read() {
    // A column of a kind's own stays a column although its cells are empty or no row was asked for it.
    for (kind, name, text) in [
        (
            TableKind::Offers,
            "offers.csv",
            "Supplier,Part number,Price,Currency,MOQ,Bore,Section,Lead time\nAlpha,P1,,EUR,,,,3 days\n",
        ),
        (
            TableKind::Stock,
            "stock.csv",
            "Part number,Bin,Lot,On hand,Cure date\nP1,A1,,2,\n",
        ),
        (
            TableKind::Usages,
            "usages.csv",
            "Date,Part number,Quantity,Machine,Reason\n2026-01-05,P1,2,,\n",
        ),
    ] {
        let imported = import(&[(name, text)]);
        assert_eq!(imported.tables[0].kind, kind);
        assert!(not_read(&imported.tables[0]).is_empty(), "{name}");
    }
}

#[test]
fn a_column_that_neither_reading_of_a_list_of_everything_uses_is_told_once() {
    let imported = import(&[(
        "list.csv",
        "Part number,Designation,Bin,On hand,Supplier,Price EUR,Note\nP1,6205,A1,2,North,4.20,rusty\n",
    )]);
    let kinds: Vec<TableKind> = imported.tables.iter().map(|table| table.kind).collect();
    assert_eq!(kinds, [TableKind::Stock, TableKind::Offers]);
    assert!(not_read(&imported.tables[0]).is_empty());
    assert_eq!(not_read(&imported.tables[1]), ["Note"]);
}

#[test]
fn columns_below_two_headings_are_read_below_the_first_and_the_others_told() {
    let rows = "Part no;Price EUR;Lead time;Price EUR;Lead time\nP1;4.00;3 days;3.50;2 weeks\n";
    let text = format!(";Nordlager;;Westlager;\n{rows}");
    let imported = import(&[("prices.csv", &text)]);
    let table = &imported.tables[0];
    let offer = &imported.records.offers[0];
    assert_eq!(imported.records.offers.len(), 1);
    assert_eq!(
        offer.price.unwrap().cost_of(1.0).to_string(),
        "4.00 EUR",
        "{:?}",
        table.why
    );
    assert_eq!(table.unread_columns.len(), 2);
    let says = "columns stand several times below headings: those below `Nordlager` are read, those below `Westlager` are not; a table for each would be read whole";
    assert!(table.why.iter().any(|why| why == says), "{:?}", table.why);
    // One title over all tells nothing apart, and neither does a header alone.
    for text in [format!("Prices of March;;;;\n{rows}"), rows.to_owned()] {
        let imported = import(&[("prices.csv", &text)]);
        let mut why = imported.tables[0].why.iter();
        assert!(!why.any(|why| why.contains("several times")), "{text}");
        assert_eq!(imported.tables[0].unread_columns.len(), 2);
    }
}

/// Which fields a record keeps is read off the records of `sparewright::record`.
#[test]
fn a_column_that_helps_to_tell_the_kind_and_is_kept_nowhere_is_told_as_not_read() {
    for (kind, text, header) in [
        (
            TableKind::Usages,
            "Date,Part number,Quantity,Machine,Reason,Bin\n2026-01-05,P1,2,Mixer,failure,A1\n",
            "Bin",
        ),
        (
            TableKind::Receipts,
            "Supplier,Part number,Ordered,Received,Quantity,Price\nAlpha,P1,2026-01-05,2026-01-09,2,4.00\n",
            "Price",
        ),
        (
            TableKind::Tasks,
            "Kit,Task,Hours,Predecessors,Machine\nK1,Strip,2,,Mixer\n",
            "Machine",
        ),
        (
            TableKind::Tasks,
            "Kit,Task,Hours,Predecessors,Description\nK1,Strip,2,,hang it first\n",
            "Description",
        ),
        (
            TableKind::Stock,
            "Part number,Bin,On hand,Remarks\nP1,A1,2,two are rusty\n",
            "Remarks",
        ),
        (
            TableKind::Parts,
            "Part number,Designation,Note\nP1,6205-2RS,grease it\n",
            "Note",
        ),
        (
            TableKind::Machines,
            "Machine,Downtime cost per hour,Comment\nMixer,50,old\n",
            "Comment",
        ),
        // A kit line keeps no ratings, though a part does.
        (
            TableKind::KitLines,
            "Kit,Line,Part number,Quantity,Dynamic rating\nK1,10,P1,2,14.0\n",
            "Dynamic rating",
        ),
        // What another column says better is of no use to any row.
        (
            TableKind::Offers,
            "Supplier,Part number,Price EUR,List price EUR\nAlpha,P1,4.00,5.00\n",
            "List price EUR",
        ),
        (
            TableKind::Suppliers,
            "Supplier,Approved,Counter opens\nAlpha,yes,07:00\n",
            "Counter opens",
        ),
    ] {
        let imported = import(&[("table.csv", text)]);
        assert_eq!(imported.tables[0].kind, kind);
        assert_eq!(not_read(&imported.tables[0]), [header]);
    }
}

#[test]
fn tables_beside_each_other_are_each_read() {
    let imported = import(&[(
        "lager.csv",
        "Artikel;Bestand;;Datum;Artikel;Menge\nT-001;5;;03.01.2025;T-001;2\nT-002;6;;03.02.2025;T-002;3\n;;;03.03.2025;T-001;4\n",
    )]);
    let kinds: Vec<TableKind> = imported.tables.iter().map(|table| table.kind).collect();
    assert_eq!(kinds, [TableKind::Stock, TableKind::Usages]);
    let stock: Vec<(&str, Option<f64>)> = (imported.records.stock.iter())
        .map(|row| (&*row.part, row.on_hand))
        .collect();
    assert_eq!(stock, [("T-001", Some(5.0)), ("T-002", Some(6.0))]);
    let used: Vec<f64> = imported
        .records
        .usages
        .iter()
        .map(|row| row.quantity)
        .collect();
    assert_eq!(used, [2.0, 3.0, 4.0]);
    assert!(imported.issues.is_empty(), "{:?}", imported.issues);
    // Cells keep their places, and the right table has a name of its own.
    let place = &imported.records.usages[2].place;
    assert_eq!((place.row, &*place.sheet), (3, "D:F"));
    let says =
        "tables stand beside each other on the sheet; this one, in columns A:B, is read by itself";
    assert!(imported.tables[0].why.iter().any(|why| why == says));
}

#[test]
fn a_table_that_begins_lower_beside_another_is_read() {
    for text in [
        "Artikel;Bestand;;;;\nT-001;30;;;;\nT-002;30;;Datum;Artikel;Menge\nT-003;3;;01.02.2026;T-001;2\nT-004;3;;01.03.2026;T-001;4\n",
        // With a title over it.
        "Artikel;Bestand;;;;\nT-001;30;;Verbrauch;;\nT-002;30;;Datum;Artikel;Menge\nT-003;3;;01.02.2026;T-001;2\nT-004;3;;01.03.2026;T-001;4\n",
        // The left one begins lower.
        ";;;Datum;Artikel;Menge\n;;;01.02.2026;T-001;2\nArtikel;Bestand;;01.03.2026;T-001;4\nT-001;30;;;;\nT-002;30;;;;\nT-003;3;;;;\nT-004;3;;;;\n",
    ] {
        let imported = import(&[("lager.csv", text)]);
        let kinds: Vec<TableKind> = imported.tables.iter().map(|table| table.kind).collect();
        assert_eq!(kinds, [TableKind::Stock, TableKind::Usages], "{text}");
        let records = &imported.records;
        let stock: Vec<Option<f64>> = records.stock.iter().map(|row| row.on_hand).collect();
        assert_eq!(stock, [30.0, 30.0, 3.0, 3.0].map(Some), "{text}");
        let used: Vec<f64> = records.usages.iter().map(|row| row.quantity).collect();
        assert_eq!(used, [2.0, 4.0], "{text}");
        assert_eq!(&*records.usages[0].place.sheet, "D:F", "{text}");
    }
}

#[test]
fn three_tables_of_three_heights_are_each_read() {
    let stock = ["Artikel;Bestand", "T-001;30", "T-002;31", "T-003;32"];
    let usages = [
        "Datum;Artikel;Menge",
        "01.02.2026;T-001;2",
        "01.03.2026;T-002;4",
    ];
    let offers = [
        "Lieferant;Artikel;Preis EUR",
        "Nord;T-001;3,50",
        "Nord;T-002;4,50",
    ];
    // The row in which each begins; the first beside the second beside the third.
    for heights in [
        [0, 2, 1],
        [0, 1, 2],
        [4, 2, 0],
        [2, 0, 4],
        [0, 0, 3],
        [0, 3, 3],
    ] {
        let line = |row: usize| {
            let cells = |table: &[&'static str], at: usize, none: &'static str| {
                let line = row
                    .checked_sub(heights[at])
                    .and_then(|line| table.get(line));
                line.copied().unwrap_or(none)
            };
            let (one, two) = (cells(&stock, 0, ";"), cells(&usages, 1, ";;"));
            format!("{one};;{two};;{}\n", cells(&offers, 2, ";;"))
        };
        let text: String = (0..8).map(line).collect();
        let imported = import(&[("lager.csv", &text)]);
        let kinds: Vec<TableKind> = imported.tables.iter().map(|table| table.kind).collect();
        let expected = [TableKind::Stock, TableKind::Usages, TableKind::Offers];
        assert_eq!(kinds, expected, "{heights:?}\n{text}");
        let records = &imported.records;
        let found = [
            records.stock.len(),
            records.usages.len(),
            records.offers.len(),
        ];
        assert_eq!(found, [3, 2, 2], "{heights:?}: {:?}", imported.issues);
        let columns = ["columns A:B", "columns D:F", "columns H:J"];
        for (table, columns) in imported.tables.iter().zip(columns) {
            let notes: Vec<&String> = (table.why.iter())
                .filter(|why| why.starts_with("tables stand beside each other"))
                .collect();
            assert!(notes.len() == 1 && notes[0].contains(columns), "{notes:?}");
        }
    }
}

#[test]
fn two_tables_of_one_kind_beside_each_other_are_both_read() {
    let imported = import(&[(
        "lager.csv",
        "Halle 1;;;Halle 2;\nArtikel;Bestand;;Artikel;Bestand\nT-001;5;;T-003;8\nT-002;6;;T-004;9\n",
    )]);
    let stock: Vec<(&str, Option<f64>)> = (imported.records.stock.iter())
        .map(|row| (&*row.part, row.on_hand))
        .collect();
    let expected = [
        ("T-001", 5.0),
        ("T-002", 6.0),
        ("T-003", 8.0),
        ("T-004", 9.0),
    ];
    assert_eq!(stock, expected.map(|(part, count)| (part, Some(count))));
}

#[test]
fn an_empty_column_within_a_table_does_not_part_it() {
    for text in [
        // No field comes again.
        "Artikel;Bestand;;Lagerplatz;Reserviert\nT-001;5;;B1;1\n",
        // The column is not empty.
        "Artikel;Bezeichnung;;Artikel;Bestand\nT-001;6205;x;T-001;5\n",
    ] {
        let imported = import(&[("lager.csv", text)]);
        assert_eq!(imported.tables.len(), 1, "{text}");
    }
}
