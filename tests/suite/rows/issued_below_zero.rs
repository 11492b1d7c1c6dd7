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
    // As many of the other sign are no books.
    let (quantities, why) = read(
        "Artikel;Buchungsdatum;Menge\nT-001;11.01.2025;-2\nT-002;11.01.2025;-2\nT-001;12.02.2025;1\nT-001;13.02.2025;4\n",
    );
    let told = "2 of 4 quantities are below 0 and count as returned; expected issues above 0 and returns below";
    assert!(why.iter().any(|line| line == told), "{why:?}");
    assert_eq!(quantities, [-2.0, -2.0, 1.0, 4.0]);
}

/// Quantities of the usages of a list of movements, and every problem told of it.
fn movements(text: &str) -> (Vec<f64>, Vec<String>) {
    let imported = import("verbrauch.csv", text);
    let usages = imported.records.usages.iter();
    (
        usages.map(|usage| usage.quantity).collect(),
        problems(&imported),
    )
}

#[test]
fn where_most_is_below_zero_what_is_above_is_no_usage() {
    let issues = "T-001;11.01.2025;-2\nT-002;11.01.2025;-4\nT-001;12.02.2025;-4\n";
    let start =
        "3 of 4 quantities are below 0, as books write what is issued, and are taken as used; ";
    // 2 of 10 come back: as much as comes back at most. 50 are receipts.
    let back = format!("Artikel;Buchungsdatum;Menge\n{issues}T-001;13.02.2025;2\n");
    let (quantities, told) = movements(&back);
    assert_eq!(quantities, [2.0, 4.0, 4.0, -2.0]);
    let words = format!("{start}those above 0 count as returned");
    assert!(told.len() == 1 && told[0].contains(&words), "{told:?}");
    let received = format!("Artikel;Buchungsdatum;Menge\n{issues}T-001;13.02.2025;50\n");
    let (quantities, told) = movements(&received);
    assert_eq!(quantities, [2.0, 4.0, 4.0]);
    let words = format!("{start}those above 0 are more than comes back");
    assert!(told.len() == 1 && told[0].contains(&words), "{told:?}");
    // A sum below the list is neither, and changes nothing.
    let (quantities, told) = movements(&format!("{back}Summe;;-8\n"));
    assert_eq!(quantities, [2.0, 4.0, 4.0, -2.0]);
    assert_eq!(told.len(), 1, "{told:?}");
}

#[test]
fn words_for_movements_say_what_was_used() {
    let header = "Artikel;Bewegungsart;Buchungsdatum;Menge\n";
    // Without signs, with those of books, and with those of usages: 5 used, 1 brought back.
    for [issue, back] in [["", ""], ["-", ""], ["", "-"]] {
        let text = format!(
            "{header}T-001;Entnahme;11.01.2025;{issue}2\nT-001;Zugang;12.01.2025;50\nT-001;Abgang;13.01.2025;{issue}3\nT-001;Umlagerung;14.01.2025;7\nT-001;Rückgabe;15.01.2025;{back}1\nT-001;Inventur;16.01.2025;9\n"
        );
        let (quantities, told) = movements(&text);
        assert_eq!(quantities, [2.0, 3.0, -1.0], "{text}");
        assert!(told.is_empty(), "{told:?}");
        let why = &import("verbrauch.csv", &text).tables[0].why;
        let words = "by column `Bewegungsart`: issues 2, returns 1; no usages and left out: receipts 1, transfers 1, counts 1, scrapped 0";
        assert!(why.iter().any(|line| line == words), "{why:?}");
    }
}

#[test]
fn codes_of_movements_are_told_and_among_words_not_guessed() {
    let header = "Artikel;Bewegungsart;Buchungsdatum;Menge\n";
    let rows = "T-001;201;11.01.2025;2\nT-001;101;12.01.2025;50\nT-001;201;13.01.2025;4\n";
    let (quantities, told) = movements(&format!("{header}{rows}"));
    assert_eq!(quantities, [2.0, 50.0, 4.0]);
    assert_eq!(told.len(), 2, "{told:?}");
    for words in [
        "`101` in column `Bewegungsart` is not interpreted, and its row is counted as used by sign",
        "`201` in column `Bewegungsart` is not interpreted, and its 2 rows are counted as used by sign",
    ] {
        assert!(told.iter().any(|line| line.contains(words)), "{told:?}");
    }
    let among = format!(
        "{header}T-001;Entnahme;11.01.2025;2\nT-001;999;12.01.2025;50\nT-001;;13.01.2025;4\n"
    );
    let (quantities, told) = movements(&among);
    assert_eq!(quantities, [2.0, 4.0]);
    assert_eq!(told.len(), 3, "{told:?}");
    let words = "`999` is not known; expected issue, return, receipt, transfer, scrap or count";
    assert!(told.iter().any(|line| line.contains(words)), "{told:?}");
    let words = "`999` in column `Bewegungsart` is not interpreted, and its row is rejected";
    assert!(told.iter().any(|line| line.contains(words)), "{told:?}");
    let words = "kind of movement is missing";
    assert!(told.iter().any(|line| line.contains(words)), "{told:?}");
}

/// Common practice, no source: a journal of issues, receipts and a return, each by a code, as many rows of one sign as of the
/// other. What came in is not used, and what the codes mean is asked.
#[test]
fn a_journal_of_codes_with_issues_below_zero_counts_no_receipt_as_used() {
    let text = "Artikel;Bewegungsart;Buchungsdatum;Menge\n\
                T-001;261;11.01.2025;-4\nT-001;101;12.01.2025;10\nT-001;262;13.01.2025;1\n\
                T-001;201;14.01.2025;-2\nT-001;261;15.01.2025;-3\nT-001;101;16.01.2025;20\n";
    let (quantities, told) = movements(text);
    assert_eq!(quantities, [4.0, 2.0, 3.0]);
    assert_eq!(told.len(), 5, "{told:?}");
    for words in [
        "those above 0 are more than comes back",
        "`101` in column `Bewegungsart` is not interpreted, and its 2 rows are left out",
        "`262` in column `Bewegungsart` is not interpreted, and its row is left out",
        "`261` in column `Bewegungsart` is not interpreted, and its 2 rows are counted as used by sign",
        "`201` in column `Bewegungsart` is not interpreted, and its row is counted as used by sign",
    ] {
        assert!(told.iter().any(|line| line.contains(words)), "{told:?}");
    }
    // What is told of every code is not said to be needed by no row.
    let why = &import("verbrauch.csv", text).tables[0].why;
    assert!(
        !why.iter().any(|line| line.contains("is not read")),
        "{why:?}"
    );
    // Where issues are above 0 and few come back, nothing changes.
    let plain = "Artikel;Bewegungsart;Buchungsdatum;Menge\n\
                 T-001;261;11.01.2025;40\nT-001;262;12.01.2025;-1\nT-001;261;13.01.2025;30\n\
                 T-001;262;14.01.2025;-1\nT-001;261;15.01.2025;50\nT-001;262;16.01.2025;-2\n";
    let (quantities, _) = movements(plain);
    assert_eq!(quantities, [40.0, -1.0, 30.0, -1.0, 50.0, -2.0]);
}

/// A journal whose codes the settings explain, with `signs` of issue, receipt and return.
fn explained(codes: &str, signs: [&str; 3]) -> (Vec<f64>, Vec<String>) {
    let [issue, receipt, back] = signs;
    let folder = tempfile::tempdir().unwrap();
    let rows = format!(
        "date,part no.,movement type,quantity,machine\n\
         2024-01-05,A-1,17,{issue}4,M-1\n2024-02-05,A-1,WE,{receipt}10,\n2024-03-05,A-1,18,{back}1,M-1\n\
         2024-06-05,A-1,17,{issue}2,M-1\n2024-09-05,A-2,99,3,M-2\n"
    );
    std::fs::write(folder.path().join("movements.csv"), rows).unwrap();
    let settings =
        format!("[movement_codes]\n17 = \"issue\"\nwe = \"receipt\"\n18 = \"return\"\n{codes}");
    std::fs::write(folder.path().join("shop.toml"), settings).unwrap();
    let imported = read_folder(folder.path()).unwrap();
    let usages = imported.records.usages.iter();
    (
        usages.map(|usage| usage.quantity).collect(),
        problems(&imported),
    )
}

#[test]
fn codes_that_the_settings_explain_count_as_they_say_whatever_the_signs() {
    // By hand: 4 and 2 used, 1 brought back; what came in and what was thrown away is no usage.
    for signs in [["", "", ""], ["-", "", ""], ["", "", "-"], ["-", "", "-"]] {
        let (quantities, told) = explained("99 = \"scrap\"", signs);
        assert_eq!(quantities, [4.0, -1.0, 2.0], "{signs:?}");
        assert!(told.is_empty(), "{told:?}");
    }
    // A code that they leave out is told once, with what became of its rows, and the row is rejected.
    let (quantities, told) = explained("", ["", "", ""]);
    assert_eq!(quantities, [4.0, -1.0, 2.0]);
    let words = "`99` in column `movement type` is not interpreted, and its row is rejected";
    let with = |words: &str| told.iter().filter(|line| line.contains(words)).count();
    assert_eq!((with(words), with("`99`")), (1, 2), "{told:?}");
    assert_eq!(
        with("its meaning under `movement_codes` in the settings"),
        1
    );
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
