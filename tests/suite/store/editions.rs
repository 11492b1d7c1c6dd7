//! Editions of one list: which names are the next edition of a list and which are another list beside it.

use super::shops::Bench;

const STOCK: &str = "Part no,Bin,On hand\nB-1,A1,5\n";
const LATER: &str = "Part no,Bin,On hand\nB-2,A2,3\n";

#[test]
fn a_stock_list_is_followed_by_its_next_edition_and_by_no_other_list() {
    // Ways of naming files: common practice, no source.
    for (first, second, is_next) in [
        ("stock.csv", "stock.csv", true),
        ("stock.csv", "STOCK.csv", true),
        ("stock.csv", "stock.txt", true),
        ("stock 2026-01-31.csv", "stock 2026-02-28.csv", true),
        ("stock_2026-01-31.csv", "stock-2026-02-28.csv", true),
        ("stock 31.01.2026.csv", "stock 28.02.2026.csv", true),
        ("stock 20260131.csv", "stock 20260228.csv", true),
        ("stock 2026-01.csv", "stock 2026-02.csv", true),
        ("stock 01-2026.csv", "stock 02-2026.csv", true),
        ("stock 2025.csv", "stock 2026.csv", true),
        ("stock.csv", "stock (1).csv", true),
        ("stock (1).csv", "stock (2).csv", true),
        ("stock.csv", "stock 2026-02-28.csv", true),
        ("2026-01-31 stock.csv", "2026-02-28 stock.csv", true),
        ("hall 1.csv", "hall 2.csv", false),
        ("hall 1 2026-01-31.csv", "hall 2 2026-02-28.csv", false),
        ("hall 1 (2026).csv", "hall 2 (2026).csv", false),
        ("hall 1 (01-2026).csv", "hall 2 (02-2026).csv", false),
        ("hall 1 2026.csv", "hall 2 2026.csv", false),
        ("hall1.csv", "hall2.csv", false),
        ("stock.csv", "stock annex.csv", false),
        ("stock (annex).csv", "stock (main).csv", false),
        ("stock A 2026-01-31.csv", "stock B 2026-02-28.csv", false),
        ("bin list.csv", "bins.csv", false),
        ("store 1100.csv", "store 1200.csv", false),
        ("store (1100).csv", "store (1200).csv", false),
    ] {
        let bench = Bench::of(&[&[(first, STOCK)], &[(second, LATER)]]);
        let mut expected = vec!["B-2 A2 3"];
        if !is_next {
            expected.insert(0, "B-1 A1 5");
        }
        let mut found = bench.stock();
        found.sort();
        assert_eq!(found, expected, "`{second}` after `{first}`");
    }
}

#[test]
fn a_price_list_is_followed_by_its_next_edition_and_other_suppliers_stay() {
    let first = "Designation,Price EUR,Lead time\n6305-2RS,8.00,5 days\n6204-2Z,3.00,5 days\n";
    let second = "Designation,Price EUR,Lead time\n6305-2RS,9.00,5 days\n";
    for (one, other, expected) in [
        // What the new edition does not hold is no longer offered.
        (
            "nordlager_2026-01-01.csv",
            "nordlager_2026-02-01.csv",
            &["nordlager_2026-02-01 6305-2RS 9"][..],
        ),
        (
            "nordlager_2026-02-01.csv",
            "nordlager_2026-01-01.csv",
            &[
                "nordlager_2026-02-01 6204-2Z 3",
                "nordlager_2026-02-01 6305-2RS 8",
            ],
        ),
        (
            "nordlager.csv",
            "suedlager.csv",
            &[
                "nordlager 6204-2Z 3",
                "nordlager 6305-2RS 8",
                "suedlager 6305-2RS 9",
            ],
        ),
        (
            "nordlager.csv",
            "nordlager (1).csv",
            &["nordlager (1) 6305-2RS 9"],
        ),
    ] {
        let bench = Bench::of(&[&[(one, first)], &[(other, second)]]);
        let mut found = bench.offers();
        found.sort();
        assert_eq!(found, expected, "`{other}` after `{one}`");
    }
}

#[test]
fn dates_decide_before_the_order_of_importing_and_without_dates_the_order_does() {
    for (first, second, holds) in [
        ("stock 2026-01-31.csv", "stock 2026-02-28.csv", "second"),
        ("stock 2026-02-28.csv", "stock 2026-01-31.csv", "first"),
        ("stock 2026-01-31.csv", "stock 2026-01-31.csv", "second"),
        ("stock.csv", "stock.csv", "second"),
        // Where only one has a date nothing can be compared: the later import holds.
        ("stock 2026-02-28.csv", "stock.csv", "second"),
        ("stock.csv", "stock 2026-01-31.csv", "second"),
        // A year or a month is a date where nothing else is.
        ("stock 2025.csv", "stock 2024.csv", "first"),
        ("stock 2024.csv", "stock 2025.csv", "second"),
        ("stock 02-2025.csv", "stock 01-2025.csv", "first"),
    ] {
        let bench = Bench::of(&[&[(first, STOCK)], &[(second, LATER)]]);
        let expected = match holds {
            "first" => ["B-1 A1 5"],
            _ => ["B-2 A2 3"],
        };
        assert_eq!(bench.stock(), expected, "`{second}` after `{first}`");
    }
}

#[test]
fn a_date_above_the_table_counts_as_one_in_the_name() {
    let dated = |day: &str, row: &str| format!("Stock as of {day}\n\nPart no,Bin,On hand\n{row}\n");
    for (first_day, second_day, expected) in [
        ("2026-01-31", "2026-02-28", "B-2 A2 3"),
        ("2026-02-28", "2026-01-31", "B-1 A1 5"),
        ("31.01.2026", "28.02.2026", "B-2 A2 3"),
        ("28 February 2026", "31 January 2026", "B-1 A1 5"),
    ] {
        let (first, second) = (dated(first_day, "B-1,A1,5"), dated(second_day, "B-2,A2,3"));
        let bench = Bench::of(&[&[("stock.csv", &first)], &[("stock.csv", &second)]]);
        assert_eq!(bench.stock(), [expected], "{first_day}, then {second_day}");
    }
}

#[test]
fn what_an_older_list_would_have_said_is_told_with_both_dates() {
    let bench = Bench::of(&[&[("stock 2026-02-28.csv", STOCK)]]);
    let outcome = bench.import(&[("stock 2026-01-31.csv", LATER)]);
    let told: Vec<String> = outcome
        .snapshot
        .kept_out
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(
        told,
        [
            "stock list stock 2026-01-31.csv: 1 row of `stock 2026-01-31.csv` (of 2026-01-31) kept out; `stock 2026-02-28.csv` (of 2026-02-28) is newer"
        ]
    );
}

#[test]
fn of_two_price_lists_of_one_supplier_that_of_the_later_year_holds() {
    let quotes = |price: &str, other: &str| {
        format!("Supplier,Designation,Price EUR\nNord,6305-2RS,{price}\n{other}")
    };
    let older = quotes("2.90", "Nord,6204-2Z,4.00\n");
    let newer = quotes("3.50", "");
    for files in [
        [("prices 2024.csv", &older), ("prices 2025.csv", &newer)],
        [("a 2025.csv", &newer), ("b 2024.csv", &older)],
    ] {
        let files = files.map(|(name, text)| (name, text.as_str()));
        let bench = Bench::new();
        let outcome = bench.import(&files);
        let mut found = bench.offers();
        found.sort();
        assert_eq!(found, ["Nord 6204-2Z 4", "Nord 6305-2RS 3.5"], "{files:?}");
        let told = outcome.snapshot.kept_out.iter().map(ToString::to_string);
        let told: Vec<String> = told.collect();
        assert_eq!(told.len(), 1, "{told:?}");
        assert!(told[0].starts_with("Nord: 1 row of"), "{told:?}");
    }
}

#[test]
fn a_year_in_the_name_of_a_hall_is_no_date_of_its_stock() {
    let table = |parts: &[&str]| {
        let rows = parts.iter().map(|part| format!("{part},5\n"));
        format!("Part no,On hand\n{}", rows.collect::<String>())
    };
    let (both, other) = (table(&["B-1", "B-2"]), table(&["B-3", "B-4"]));
    let later = both.replace(",5", ",6");
    let as_of = ("shop.toml", "as_of = \"2026-03-09T07:30\"\n");
    // Common practice, no source: the names of halls, and of counts at the end of a year.
    for (first, second, stock, rows) in [
        ("hall 2010.csv", "hall 2020.csv", &other, 4),
        ("hall 2025.csv", "hall 2026.csv", &other, 4),
        ("hall 2010.csv", "hall 2020.csv", &later, 4),
        ("stock 2025.csv", "stock 2026.csv", &later, 2),
        ("stock 2023.csv", "stock 2024.csv", &later, 2),
    ] {
        let bench = Bench::of(&[&[(first, &*both), (second, &**stock), as_of]]);
        let found = bench.stock();
        assert_eq!(found.len(), rows, "{first} and {second}: {found:?}");
    }
}

#[test]
fn a_price_list_of_a_year_to_come_is_not_planned_with_and_told() {
    let as_of = ("shop.toml", "as_of = \"2026-03-09T07:30\"\n");
    let list = |price: &str| format!("Supplier,Designation,Price EUR\nNord,6305-2RS,{price}\n");
    let (now, then) = (list("2.90"), list("2.20"));
    let told = |bench: &Bench| -> Vec<String> {
        let issues = bench.load().issues;
        let words = issues.iter().map(|issue| issue.problem.to_string());
        words.filter(|words| words.contains("2027-01-01")).collect()
    };
    for other in ["prices 2026.csv", "prices.csv"] {
        let bench = Bench::of(&[&[(other, &*now), ("prices 2027.csv", &then), as_of]]);
        assert_eq!(bench.offers(), ["Nord 6305-2RS 2.9"], "{other}");
        let words = told(&bench);
        let start = format!("as at {other}, row 2");
        assert!(words.len() == 1 && words[0].contains(&start), "{words:?}");
    }
    // Without another one there is nothing else to plan with.
    let bench = Bench::of(&[&[("prices 2027.csv", &*then), as_of]]);
    assert_eq!(bench.offers(), ["Nord 6305-2RS 2.2"]);
    let words = told(&bench);
    assert!(
        words.len() == 1 && words[0].contains("no other list"),
        "{words:?}"
    );
}

#[test]
fn a_price_list_whose_title_lies_ahead_is_not_planned_with_and_told() {
    let as_of = ("shop.toml", "as_of = \"2026-03-09T07:30\"\n");
    // Common practice, no source: how lists say their day.
    let list = |day: &str, price: &str| {
        format!(
            "Price list as of {day},,\n,,\nSupplier,Designation,Price EUR\nNord,6305-2RS,{price}\n"
        )
    };
    let now = list("2026-02-01", "2.90");
    for then in ["2026-12-31", "2026-04-01"] {
        let ahead = list(then, "2.20");
        let bench = Bench::of(&[&[("a.csv", &*now), ("b.csv", &ahead), as_of]]);
        assert_eq!(bench.offers(), ["Nord 6305-2RS 2.9"], "{then}");
        let issues = bench.load().issues;
        let words = format!("by its title or name this list is of {then}, a day after");
        let told = issues.iter().filter(|issue| {
            &*issue.place.file == "b.csv" && issue.problem.to_string().starts_with(&words)
        });
        assert_eq!(told.count(), 1, "{then}: {issues:?}");
    }
    // A day that has come makes a list the newer one.
    let newer = list("2026-03-01", "2.20");
    let bench = Bench::of(&[&[("a.csv", &*now), ("b.csv", &newer), as_of]]);
    assert_eq!(bench.offers(), ["Nord 6305-2RS 2.2"]);
}
