//! Mended rows from a workbook of rejects take the place of the rows they mend; the rules are the project's own, stated in
//! `store/mending.rs`.

use sparewright::import::{Imported, KeptCell, REJECTS_NAME, read_folder};
use sparewright::report::rejects_workbook;
use sparewright::store::Workspace;

use super::shops::{Bench, moment, read};

/// Doubtful in row 3 (a minimum that is none), rejected in row 4 (no number); an invented shop.
const PARTS: &str =
    "Own number,Designation,Min. stock\nB-1,6305-2RS,2\nB-2,6204-2Z,many\n,6001,4\n";

/// The rows to mend of an import, with some cells changed: row among them, column, words.
fn mended(imported: &Imported, cells: &[(usize, usize, &str)]) -> Imported {
    let mut rejects = imported.rejects.clone();
    for (row, column, words) in cells {
        rejects[0].rows[*row].cells[*column] = KeptCell::Text((*words).to_owned());
    }
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join(REJECTS_NAME);
    std::fs::write(
        path,
        rejects_workbook(&rejects, sparewright::language::Language::ENGLISH).unwrap(),
    )
    .unwrap();
    read_folder(folder.path()).unwrap()
}

fn parts(workspace: &Workspace) -> Vec<(String, Option<f64>)> {
    let parts = workspace.load(None).unwrap().records.parts;
    let mut parts: Vec<_> = parts
        .into_iter()
        .map(|part| (part.own_number, part.facts.own_min_stock))
        .collect();
    parts.sort_by(|a, b| a.0.cmp(&b.0));
    parts
}

fn own(number: &str, min_stock: Option<f64>) -> (String, Option<f64>) {
    (number.to_owned(), min_stock)
}

#[test]
fn a_mended_row_takes_the_place_of_the_doubtful_one_and_of_the_rejected_one() {
    let bench = Bench::new();
    let first = read(&[("parts.csv", PARTS)]);
    bench.workspace.import(&first, moment(3, 9)).unwrap();
    assert_eq!(
        parts(&bench.workspace),
        [own("B-1", Some(2.0)), own("B-2", None)]
    );
    let loaded = bench.load();
    assert_eq!(
        (loaded.rows_read, loaded.rows_rejected, loaded.issues.len()),
        (3, 1, 2)
    );
    let expected = [
        own("B-1", Some(2.0)),
        own("B-2", Some(5.0)),
        own("B-3", Some(4.0)),
    ];
    let again = mended(&first, &[(0, 2, "5"), (1, 0, "B-3")]);
    // Twice: the second time there is nothing new.
    for is_new in [true, false] {
        let outcome = bench.workspace.import(&again, moment(3, 10)).unwrap();
        assert_eq!(outcome.is_new, is_new);
        assert_eq!(parts(&bench.workspace), expected);
        let loaded = bench.load();
        assert_eq!(loaded.issues, [], "mended rows have no problems any more");
        assert_eq!(
            (loaded.rows_read, loaded.rows_rejected),
            (3, 0),
            "each row counts once"
        );
    }
    // Where it came from, and what it replaced.
    let values = bench.workspace.explain("B-2").unwrap();
    let value = values
        .iter()
        .find(|value| value.column == "own_min_stock")
        .unwrap();
    assert_eq!(&*value.place.file, REJECTS_NAME);
    // Changed once more, the last word holds.
    let last = mended(&first, &[(0, 2, "7"), (1, 0, "B-3")]);
    bench.workspace.import(&last, moment(3, 11)).unwrap();
    assert_eq!(parts(&bench.workspace)[1], own("B-2", Some(7.0)));
    assert_eq!(parts(&bench.workspace).len(), 3);
    // The next edition of the list replaces the mended rows like all others.
    bench.import(&[(
        "parts.csv",
        "Own number,Designation,Min. stock\nB-2,6204-2Z,9\n",
    )]);
    assert_eq!(parts(&bench.workspace)[1], own("B-2", Some(9.0)));
}

#[test]
fn mended_twice_over_two_workbooks_a_row_still_stands_once() {
    let bench = Bench::new();
    let first = read(&[("parts.csv", PARTS)]);
    bench.workspace.import(&first, moment(3, 9)).unwrap();
    // Half mended: the second row has its number, the first is still in doubt.
    let half = mended(&first, &[(1, 0, "B-3")]);
    bench.workspace.import(&half, moment(3, 10)).unwrap();
    assert_eq!(half.rejects[0].origin.file, "parts.csv");
    assert_eq!(bench.load().issues.len(), 1);
    let whole = mended(&half, &[(0, 2, "5")]);
    bench.workspace.import(&whole, moment(3, 11)).unwrap();
    assert_eq!(
        parts(&bench.workspace),
        [
            own("B-1", Some(2.0)),
            own("B-2", Some(5.0)),
            own("B-3", Some(4.0))
        ]
    );
    assert_eq!(bench.load().issues, []);
}

#[test]
fn a_mended_row_of_a_price_list_stays_in_its_list() {
    let head = "Datum: 09.03.2026\n\nArt.-Nr.;Bezeichnung;Preis EUR;Lieferzeit (Tage)\n";
    let list = format!("{head}N1;6305-2RS;4,50;3\nN2;6204-2Z;zwei;3\nN3;6001;3,00;bald\n");
    let bench = Bench::new();
    let first = read(&[("nordlager_2026-03.csv", &list)]);
    bench.workspace.import(&first, moment(3, 9)).unwrap();
    let again = mended(&first, &[(0, 2, "2,20"), (1, 3, "5")]);
    bench.workspace.import(&again, moment(3, 10)).unwrap();
    let offers = bench.load().records.offers;
    assert_eq!(offers.len(), 3, "{offers:#?}");
    let said: Vec<String> = {
        let mut said = bench.offers();
        said.sort();
        said
    };
    let expected =
        ["6001 3", "6204-2Z 2.2", "6305-2RS 4.5"].map(|row| format!("nordlager_2026-03 {row}"));
    assert_eq!(said, expected);
    // The list of April has two rows: nothing of March is left, mended or not.
    let april = "Datum: 09.04.2026\n\nArt.-Nr.;Bezeichnung;Preis EUR;Lieferzeit (Tage)\nN1;6305-2RS;4,60;3\n";
    bench.import(&[("nordlager_2026-04.csv", april)]);
    assert_eq!(bench.load().records.offers.len(), 1);
    // Mended rows of March come too late.
    let outcome = bench.workspace.import(&again, moment(4, 10)).unwrap();
    assert!(
        !outcome.is_new,
        "{:#?} {:#?}",
        outcome.snapshot,
        bench.load().records.offers
    );
    assert_eq!(
        outcome
            .snapshot
            .kept_out
            .iter()
            .map(|told| told.rows)
            .sum::<usize>(),
        2
    );
}

#[test]
fn rows_of_a_file_that_was_imported_again_since_are_kept_out_and_told() {
    let bench = Bench::new();
    let first = read(&[("parts.csv", PARTS)]);
    bench.workspace.import(&first, moment(3, 9)).unwrap();
    // Another row stands where the doubtful one stood.
    let next = "Own number,Designation,Min. stock\nB-9,6002,1\nB-8,6003,1\nB-7,6004,1\n";
    bench.import(&[("parts.csv", next)]);
    let before = parts(&bench.workspace);
    let again = mended(&first, &[(0, 2, "5"), (1, 0, "B-3")]);
    let outcome = bench.workspace.import(&again, moment(3, 10)).unwrap();
    assert_eq!(parts(&bench.workspace), before);
    let told = outcome.snapshot.kept_out[0].to_string();
    assert!(
        told.starts_with(
            "parts.csv, row 3, imported again since with other contents: 1 row of `rejects.xlsx`"
        ),
        "{told}"
    );
}

#[test]
fn a_mended_usage_counts_beside_its_twin_in_the_same_file() {
    let head = "Date,Part no,Quantity,Machine\n";
    let rows = format!("{head}2026-03-02,B-1,1,M1\n2026-03-02,B-1,one,M1\n");
    let bench = Bench::new();
    let first = read(&[("usages.csv", &rows)]);
    bench.workspace.import(&first, moment(3, 9)).unwrap();
    let again = mended(&first, &[(0, 2, "1")]);
    bench.workspace.import(&again, moment(3, 10)).unwrap();
    assert_eq!(bench.load().records.usages.len(), 2);
    // Another file told both: they still count twice, not three or four times.
    let both = format!("{head}2026-03-02,B-1,1,M1\n2026-03-02,B-1,1,M1\n");
    bench.import(&[("copy.csv", &both)]);
    assert_eq!(bench.load().records.usages.len(), 2);
}

#[test]
fn a_workbook_of_rejects_of_another_shop_adds_its_rows() {
    let first = read(&[("parts.csv", PARTS)]);
    let bench = Bench::of(&[&[("stock.csv", "Part no,Bin,On hand\nB-1,A1,3\n")]]);
    bench
        .workspace
        .import(&mended(&first, &[(0, 2, "5")]), moment(3, 10))
        .unwrap();
    assert_eq!(parts(&bench.workspace), [own("B-2", Some(5.0))]);
}

#[test]
fn rows_that_an_older_list_says_otherwise_are_told_on_import_in_explain_and_in_the_notes() {
    let head = "Supplier,Designation,Price EUR,Quote date\n";
    let spring = format!("{head}Nord,6305-2RS,9.50,2026-03-01\nNord,6204-2Z,3.00,2026-03-01\n");
    // The supplier's own list of last year, under another name and cheaper.
    let own_list = "Supplier: Nord\nDate: 2025-06-01\n\nDesignation,Price EUR,Lead time (days)\n6305-2RS,4.00,3\n6001,2.00,3\n";
    let parts = ("parts.csv", "Own number,Designation\nB-1,6305-2RS\n");
    let bench = Bench::of(&[&[parts, ("quotes.csv", &spring)]]);
    let outcome = bench.import(&[("old prices.csv", own_list)]);
    let told: Vec<String> = outcome.set_aside.iter().map(ToString::to_string).collect();
    assert_eq!(
        told,
        [
            "Nord: 1 row of `old prices.csv` (of 2025-06-01) kept out; `quotes.csv` (of 2026-03-01) is newer"
        ]
    );
    let loaded = bench.load();
    assert_eq!(loaded.records.offers.len(), 3);
    let notes: Vec<String> = loaded
        .issues
        .iter()
        .map(|issue| format!("{}: {}", issue.place, issue.problem))
        .collect();
    assert_eq!(
        notes,
        [
            "old prices.csv, row 5: not used: quotes.csv, row 2, of 2026-03-01, says something newer of the same"
        ]
    );
    let values = bench.workspace.explain("B-1").unwrap();
    let older: Vec<_> = values
        .iter()
        .filter(|value| value.not_used_for.is_some())
        .collect();
    assert!(!older.is_empty());
    assert!(
        older
            .iter()
            .all(|value| &*value.place.file == "old prices.csv")
    );
    assert_eq!(
        older[0].not_used_for.as_ref().unwrap().to_string(),
        "quotes.csv, row 2"
    );
    // Told once: the next import, which has nothing to do with it, is silent.
    let outcome = bench.import(&[("stock.csv", "Part no,Bin,On hand\nB-1,A1,3\n")]);
    assert_eq!(outcome.set_aside, []);
}
