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
fn a_slipped_row_whose_last_cell_is_empty_is_one_too() {
    // Two rows slip: `3,20` and `4,45`; the note of the second one is empty, so that nothing stands behind the header.
    let header = "Supplier,Part No.,Price EUR,Lead time (days),Note\n";
    for first in ["Hagedorn,T-001,3,20,2,x\n", "Hagedorn,T-001,3.20,2,x\n"] {
        let text = format!("{header}{first}Hagedorn,T-002,4,45,2,\nHagedorn,T-003,5.10,7,\n");
        let imported = import("angebot.csv", &text);
        let said = problems(&imported);
        assert!(
            said.contains(&format!("row 3: {}", wider(6, 5))),
            "{said:?}"
        );
        let days: Vec<Option<String>> = (imported.records.offers.iter())
            .map(|offer| offer.price.map(|price| price.cost_of(1.0).to_string()))
            .collect();
        assert!(days.contains(&Some("5.10 EUR".to_owned())), "{days:?}");
        assert!(!days.contains(&Some("4.00 EUR".to_owned())), "{days:?}");
    }
    // Commas at the end of every row, or of a row without two figures side by side, are no slip.
    for rows in [
        "Hagedorn,T-001,3,20,\nHagedorn,T-002,4,45,\n",
        "Hagedorn,T-001,3.20,20,\nHagedorn,T-002,4.10,45\n",
    ] {
        let text = format!("Supplier,Part No.,Price EUR,Lead time (days)\n{rows}");
        let imported = import("angebot.csv", &text);
        assert_eq!(imported.records.offers.len(), 2, "{text}");
        assert_eq!(problems(&imported), [""; 0], "{text}");
    }
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

/// Common practice, no source: programs end every row with the sign that separates columns, the header's too.
#[test]
fn a_row_that_slipped_behind_a_header_with_an_empty_end_is_one_too() {
    let header = "Part no,Bin,On hand,Reserved,\n";
    let usual = "A1,B1,3,x,\nA2,B2,4,x,\nA4,B4,5,x,\n";
    for (slipped, is_slip) in [
        // Every other row has a bin.
        ("A3,,B3,5,x\n", true),
        (",A3,B3,5,x\n", true),
        // `5,50` between commas, where no other row has two figures beside each other.
        ("A3,B3,5,50,x\n", true),
        ("A3,B3,5,x,counted twice\n", false),
        ("A3,B3,5,x,\n", false),
    ] {
        let imported = import("stock.csv", &format!("{header}{usual}{slipped}"));
        let said = problems(&imported);
        let told = format!("row 5: {}", wider(5, 4));
        assert_eq!(said.contains(&told), is_slip, "{slipped}: {said:?}");
        let rows = if is_slip { 3 } else { 4 };
        assert_eq!(imported.records.stock.len(), rows, "{slipped}");
    }
    // Where many rows have something there, it is a column without a name.
    let remarks = "A1,,3,x,new\nA2,B2,4,x,old\nA4,B4,5,x,old\nA5,B5,5,x,\nA6,B6,5,x,\n";
    let imported = import("stock.csv", &format!("{header}{remarks}"));
    assert_eq!(imported.records.stock.len(), 5);
}
