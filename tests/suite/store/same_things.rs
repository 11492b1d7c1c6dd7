//! Which rows are about the same thing: numbers in any spelling, names in any case, orders, usages and shelves.

use proptest::prelude::*;
use sparewright::store::ChangeKind;

use super::shops::Bench;

/// Own numbers after a second parts table was imported over a first.
fn numbers(first: &str, second: &str) -> usize {
    let table = |number: &str| format!("Own number;Designation\n{number};6305-2RS\n");
    let bench = Bench::of(&[&[("a.csv", &table(first))], &[("b.csv", &table(second))]]);
    bench.load().records.parts.len()
}

#[test]
fn part_numbers_meet_in_any_spelling_and_different_ones_never() {
    for (one, other, is_same) in [
        ("B-1", "b 1", true),
        ("B-1", "B1", true),
        ("B-1", "B_1", true),
        ("BRG-0106", "brg0106", true),
        ("BRG.0106", "BRG/0106", true),
        ("ÄB-7", "äb 7", true),
        ("B-1", "B-2", false),
        ("B-1", "B-01", false),
        ("B-1", "B-10", false),
        // Between digits a sign keeps two numbers apart.
        ("1-12", "11-2", false),
        ("62/22", "6222", false),
        ("1-12", "1 12", true),
        // Letters of other alphabets are letters.
        ("П-1", "п 1", true),
        ("П-1", "Б-1", false),
        ("Ω7", "Λ7", false),
    ] {
        let expected = if is_same { 1 } else { 2 };
        assert_eq!(numbers(one, other), expected, "`{one}` and `{other}`");
        assert_eq!(numbers(other, one), expected, "`{other}` and `{one}`");
    }
}

#[test]
fn suppliers_and_machines_meet_by_name_in_any_case_and_with_any_blanks() {
    for (one, other, is_same) in [
        ("Nordlager", "NORDLAGER", true),
        ("Nordlager GmbH", "nordlager   gmbh", true),
        (" Nordlager", "Nordlager ", true),
        ("Nordlager", "Nord-Lager", false),
        ("Nordlager", "Nordlager GmbH", false),
        ("Südlager", "SÜDLAGER", true),
    ] {
        let expected = if is_same { 1 } else { 2 };
        let suppliers = |name: &str| format!("Supplier;Approved;Freight EUR\n{name};yes;9,50\n");
        let bench = Bench::of(&[
            &[("a.csv", &suppliers(one))],
            &[("b.csv", &suppliers(other))],
        ]);
        assert_eq!(
            bench.load().records.suppliers.len(),
            expected,
            "`{one}` and `{other}`"
        );
        let machines =
            |name: &str| format!("Machine;Downtime cost per hour;Installed\n{name};100;1\n");
        let bench = Bench::of(&[&[("a.csv", &machines(one))], &[("b.csv", &machines(other))]]);
        assert_eq!(
            bench.load().records.machines.len(),
            expected,
            "`{one}` and `{other}`"
        );
    }
}

#[test]
fn a_shelf_is_part_bin_lot_and_unit_and_the_newest_list_speaks_for_it() {
    let head = "Part no;Bin;Lot;Unit;On hand\n";
    for (first, second, expected) in [
        ("B-1;A1;;pcs;5", "B-1;A1;;pcs;3", 1),
        ("B-1;A1;;pcs;5", "b 1;a1;;Stk;3", 1),
        ("B-1;A1;;pcs;5", "B-1;A2;;pcs;3", 2),
        ("B-1;A1;L7;pcs;5", "B-1;A1;L8;pcs;3", 2),
        ("B-1;A1;L7;pcs;5", "B-1;A1;;pcs;3", 2),
        ("B-1;A1;;pcs;5", "B-1;A1;;pair;3", 2),
        ("B-1;A1;;pcs;5", "B-2;A1;;pcs;3", 2),
        ("B-1;;;pcs;5", "B-1;;;pcs;3", 1),
    ] {
        let (one, other) = (format!("{head}{first}\n"), format!("{head}{second}\n"));
        let bench = Bench::of(&[
            &[("hall 1 2026-01-31.csv", &one)],
            &[("hall 2 2026-02-28.csv", &other)],
        ]);
        let stock = bench.load().records.stock;
        assert_eq!(stock.len(), expected, "{first} and {second}");
        if expected == 1 {
            assert_eq!(
                stock[0].on_hand,
                Some(3.0),
                "the newer list speaks for the shelf"
            );
        }
    }
}

#[test]
fn a_usage_is_day_part_quantity_machine_and_reason() {
    let head = "Date;Part no;Quantity;Machine;Reason\n";
    let first = "2026-03-02;B-1;1;M1;failure";
    for (second, expected) in [
        (first, 1),
        ("02.03.2026;b 1;1;m1;Breakdown", 1),
        ("2026-03-03;B-1;1;M1;failure", 2),
        ("2026-03-02;B-2;1;M1;failure", 2),
        ("2026-03-02;B-1;2;M1;failure", 2),
        ("2026-03-02;B-1;1;M2;failure", 2),
        ("2026-03-02;B-1;1;;failure", 2),
        ("2026-03-02;B-1;1;M1;planned", 2),
        ("2026-03-02;B-1;1;M1;", 2),
        ("2026-03-02;B-1;-1;M1;failure", 2),
    ] {
        let (one, other) = (format!("{head}{first}\n"), format!("{head}{second}\n"));
        let bench = Bench::of(&[&[("january.csv", &one)], &[("february.csv", &other)]]);
        assert_eq!(bench.load().records.usages.len(), expected, "{second}");
    }
}

#[test]
fn an_order_is_supplier_part_and_day_of_order() {
    let head = "Supplier;Part no;Ordered;Received;Quantity\n";
    let first = "Nord;B-1;2026-02-02;;10";
    for (second, open, closed) in [
        ("Nord;B-1;2026-02-02;2026-02-19;10", 0, 1),
        ("NORD;b 1;02.02.2026;19.02.2026;10", 0, 1),
        ("Nord;B-1;2026-02-03;2026-02-19;10", 1, 1),
        ("Nord;B-2;2026-02-02;2026-02-19;10", 1, 1),
        ("Sued;B-1;2026-02-02;2026-02-19;10", 1, 1),
        ("Nord;B-1;2026-02-02;;12", 1, 0),
    ] {
        let (one, other) = (format!("{head}{first}\n"), format!("{head}{second}\n"));
        let bench = Bench::of(&[&[("orders.csv", &one)], &[("received.csv", &other)]]);
        let receipts = bench.load().records.receipts;
        let count = |is_closed: bool| {
            receipts
                .iter()
                .filter(|row| row.received.is_some() == is_closed)
                .count()
        };
        assert_eq!((count(false), count(true)), (open, closed), "{second}");
    }
}

#[test]
fn numbers_of_signs_only_stay_apart_in_a_comparison() {
    // A number without a letter or a digit goes by its signs, in the state and in what is said of two states.
    let table = |rows: &str| format!("Own number;Designation;Min. stock\nB-1;6305-2RS;1\n{rows}");
    let bench = Bench::of(&[
        &[("parts.csv", &table("++;6204-2Z;1\n**;6001;1\n"))],
        &[("parts.csv", &table("++;6204-2Z;2\n**;6001;1\n"))],
    ]);
    let parts = bench.load().records.parts;
    if parts.len() == 3 {
        let changes = bench.workspace.compare(1, 2).unwrap();
        let said: Vec<(&str, ChangeKind)> = changes
            .iter()
            .map(|change| (change.part.as_str(), change.kind))
            .collect();
        assert_eq!(said, [("++", ChangeKind::PartChanged)]);
    } else {
        // Then both rows were refused with a word of their own.
        assert_eq!(parts.len(), 1);
        assert!(!bench.load().issues.is_empty());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// However often and in however many files the same usages come, each counts as often as its fullest file tells it.
    #[test]
    fn usages_count_as_often_as_the_fullest_file_tells_them(
        told in prop::collection::vec((1_u32..4, 0_usize..3), 1..10),
        copies in 1_usize..4,
    ) {
        let head = "Date;Part no;Quantity;Machine;Reason\n";
        let bench = Bench::new();
        let mut most = [0_usize; 4];
        for copy in 0..copies {
            let mut counts = [0_usize; 4];
            let rows: String = told
                .iter()
                .filter(|(_, from)| *from <= copy)
                .map(|(day, _)| {
                    counts[*day as usize] += 1;
                    format!("2026-01-0{day};B-1;1;M1;failure\n")
                })
                .collect();
            if rows.is_empty() {
                continue;
            }
            for (most, count) in most.iter_mut().zip(counts) {
                *most = (*most).max(count);
            }
            let name = ["one.csv", "two.csv", "three.csv"][copy];
            bench.import(&[(name, &format!("{head}{rows}"))]);
        }
        let expected: usize = most.iter().sum();
        let found = match bench.workspace.load(None) {
            Ok(imported) => imported.records.usages.len(),
            Err(_) => 0,
        };
        prop_assert_eq!(found, expected);
    }
}

#[test]
fn a_copy_of_a_stock_list_counts_once_and_is_told() {
    let rows = "Part no,Bin,On hand\nB-1,N1,4\nB-2,N2,1\n";
    let south = "Part no,Bin,On hand\nB-1,S1,3\n";
    let bench = Bench::new();
    let outcome = bench.import(&[
        ("north.csv", rows),
        ("north (1).csv", rows),
        ("south.csv", south),
    ]);
    let mut found = bench.stock();
    found.sort();
    assert_eq!(found, ["B-1 N1 4", "B-1 S1 3", "B-2 N2 1"]);
    let told: Vec<String> = outcome.set_aside.iter().map(ToString::to_string).collect();
    assert_eq!(
        told,
        ["the same stock: 2 rows of `north (1).csv` stand in `north.csv` too and count once"]
    );
    let issues = bench.load().issues;
    let said = issues.iter().filter(|issue| {
        let is_copy = &*issue.place.file == "north (1).csv";
        is_copy
            && issue
                .problem
                .to_string()
                .starts_with("not used: this list says what another one says")
    });
    assert_eq!(said.count(), 2);
}
