//! Rows of text files with more cells than their header.

use super::{import, problems};

/// What is said of a row of so many cells below a header of so many.
fn wider(cells: u32, header: u32) -> String {
    format!(
        "the row has {cells} cells, its header {header}: a sign that separates columns may stand in a cell, as in `3,50`; expected such a cell in quotes, or a header for each column"
    )
}

#[test]
fn a_decimal_comma_between_commas_shifts_no_row() {
    // 5,90 EUR and 2 days, not 5 EUR and 90 days.
    let text = "Supplier,Part No.,Price EUR,Lead time (days),Note\nHagedorn,T-001,3,20,2,x\nHagedorn,T-002,\"4,45\",2,\n";
    let imported = import("angebot.csv", text);
    let offers = &imported.records.offers;
    assert_eq!(offers.len(), 1);
    assert_eq!(
        offers[0].price.unwrap().cost_of(1.0).to_string(),
        "4.45 EUR"
    );
    assert_eq!(problems(&imported), [format!("row 2: {}", wider(6, 5))]);
    assert_eq!(
        imported.issues[0].original_cells,
        ["Hagedorn", "T-001", "3", "20", "2", "x"]
    );
}

#[test]
fn a_column_without_a_name_that_its_header_separates_is_no_slip() {
    for text in [
        "Artikel;Bestand;Lagerort;\nT-001;5;A1;nachgezählt\n",
        "Artikel;Bestand;Lagerort\nT-001;5;A1;;\n",
        "\"Artikel\";Bestand;Lagerort;\nT-001;5;A1;nachgezählt\n",
    ] {
        let imported = import("bestand.csv", text);
        assert_eq!(imported.records.stock.len(), 1, "{text}");
        assert_eq!(problems(&imported), [""; 0], "{text}");
    }
    let imported = import(
        "bestand.csv",
        "Artikel;Bestand;Lagerort\nT-001;5;A1;nachgezählt\n",
    );
    assert_eq!(imported.records.stock.len(), 0);
    assert_eq!(problems(&imported), [format!("row 2: {}", wider(4, 3))]);
}
