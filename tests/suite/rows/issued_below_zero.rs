//! Usages as books write them: issues below 0. Common practice, no source.

use sparewright::import::read_folder;

use super::{import, problems};

/// Quantities of the usages of a list, and what is noted of its table.
fn read(text: &str) -> (Vec<f64>, Vec<String>) {
    let imported = import("verbrauch.csv", text);
    assert_eq!(problems(&imported), [""; 0], "{text}");
    let usages = &imported.records.usages;
    let quantities = usages.iter().map(|usage| usage.quantity).collect();
    (quantities, imported.tables[0].why.clone())
}

#[test]
fn a_list_of_nothing_but_issues_is_one_of_usages() {
    let (quantities, why) = read(
        "Artikel;Buchungsdatum;Menge\nT-001;11.01.2025;-2\nT-002;11.01.2025;2-\nT-001;12.02.2025;-1,5\n",
    );
    assert_eq!(quantities, [2.0, 2.0, 1.5]);
    let told = "every quantity is below 0, as books write what is issued: all 3 are taken as used";
    assert!(why.iter().any(|line| line == told), "{why:?}");
    // Two returns prove nothing, and one usage among returns shows what the signs mean.
    let (quantities, _) =
        read("Artikel;Buchungsdatum;Menge\nT-001;11.01.2025;-2\nT-002;11.01.2025;-2\n");
    assert_eq!(quantities, [-2.0, -2.0]);
    let (quantities, why) = read(
        "Artikel;Buchungsdatum;Menge\nT-001;11.01.2025;-2\nT-002;11.01.2025;-2\nT-001;12.02.2025;-1\nT-001;13.02.2025;4\n",
    );
    let told = "3 of 4 quantities are below 0 and count as returned; expected issues above 0 and returns below";
    assert!(why.iter().any(|line| line == told), "{why:?}");
    assert_eq!(quantities, [-2.0, -2.0, -1.0, 4.0]);
}

#[test]
fn kinds_of_movements_that_are_not_read_are_told_where_signs_are_mixed() {
    let told = "column `Bewegungsart` tells kinds of movements apart and is not read: what is above 0 counts as used, what is below 0 as returned; expected a list of issues and returns alone";
    let rows = "T-001;201;11.01.2025;-2\nT-001;101;12.01.2025;50\n";
    let (_, why) = read(&format!("Artikel;Bewegungsart;Buchungsdatum;Menge\n{rows}"));
    assert!(why.iter().any(|line| line == told), "{why:?}");
    let (_, why) = read(
        "Artikel;Bewegungsart;Buchungsdatum;Menge\nT-001;201;11.01.2025;2\nT-001;201;12.01.2025;5\n",
    );
    assert!(!why.iter().any(|line| line == told), "{why:?}");
}

/// Sum of the quantities of one part over two lists, and the problems told.
fn sum_of(name: &str, used: &str, below: &str) -> (f64, Vec<String>) {
    let folder = tempfile::tempdir().unwrap();
    for (name, rows) in [("verbrauch.csv", used), (name, below)] {
        let text = format!("Datum;Artikel;Menge\n{rows}");
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    let imported = read_folder(folder.path()).unwrap();
    let quantities = imported.records.usages.iter().map(|usage| usage.quantity);
    (quantities.sum(), problems(&imported))
}

#[test]
fn returns_in_a_list_of_their_own_are_no_usages() {
    let used = "11.01.2025;T-001;4\n12.02.2025;T-001;4\n13.03.2025;T-001;4\n";
    let back = "13.01.2025;T-001;-1\n14.02.2025;T-001;-1\n15.02.2025;T-001;-1\n";
    // By its name, 12 - 3, and without one by the list beside it.
    let (sum, told) = sum_of("retouren.csv", used, back);
    assert!(
        (sum - 9.0).abs() < 1e-9 && told.is_empty(),
        "{sum} {told:?}"
    );
    let (sum, told) = sum_of("b.csv", used, back);
    assert!((sum - 9.0).abs() < 1e-9, "{sum}");
    assert!(
        told.len() == 1 && told[0].contains("all 3 count as returned"),
        "{told:?}"
    );
    // Issues of the books of the year before, more than was used, and other parts: none of them are returns.
    for below in [
        &*back.replace("2025", "2024"),
        &*back.replace("-1\n", "-5\n"),
        &*back.replace("T-001", "T-002"),
    ] {
        let (sum, told) = sum_of("b.csv", used, below);
        assert!(sum > 12.0 && told.is_empty(), "{below}: {sum} {told:?}");
    }
}
