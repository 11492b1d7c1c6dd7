//! Which row holds where two imports differ; the rules are the project's own, stated in `store/precedence.rs`.

use super::shops::Bench;

const PARTS: &str = "Own number,Designation,Min. stock\nB-1,6305-2RS,2\nB-2,6204-2Z,1\n";

#[test]
fn a_newer_part_row_replaces_the_row_of_its_number_and_leaves_the_others() {
    let bench = Bench::of(&[&[("parts.csv", PARTS)]]);
    let outcome = bench.import(&[(
        "fix.csv",
        "Own number,Designation,Min. stock\nb 1,6305-2RS C3,4\n",
    )]);
    let parts = bench.load().records.parts;
    let mut said: Vec<_> = parts
        .iter()
        .map(|part| (part.own_number.as_str(), part.own_min_stock))
        .collect();
    said.sort_by(|a, b| a.0.cmp(b.0));
    assert_eq!(said, [("B-2", Some(1.0)), ("b 1", Some(4.0))]);
    let counts = outcome.snapshot.counts["parts"];
    assert_eq!((counts.rows, counts.added, counts.dropped), (2, 1, 1));
}

#[test]
fn a_parts_list_dated_before_the_stored_one_is_kept_out_and_told() {
    let bench = Bench::of(&[&[("parts_2026-03-01.csv", PARTS)]]);
    let outcome = bench.import(&[(
        "old_2025-01-01.csv",
        "Own number,Designation\nB-1,6305\nB-9,6001\n",
    )]);
    let numbers: Vec<_> = bench
        .load()
        .records
        .parts
        .into_iter()
        .map(|part| part.own_number)
        .collect();
    assert_eq!(
        numbers,
        ["B-9", "B-1", "B-2"],
        "sorted by file; B-9 is in no newer list"
    );
    let told: Vec<String> = outcome
        .snapshot
        .kept_out
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(
        told,
        [
            "B-1: 1 row of `old_2025-01-01.csv` (of 2025-01-01) kept out; `parts_2026-03-01.csv` (of 2026-03-01) is newer"
        ]
    );
}

#[test]
fn two_parts_tables_of_one_import_stand_side_by_side() {
    let other = "Own number,Designation,Min. stock\nB-1,6305-2RS,7\n";
    let bench = Bench::of(&[&[("parts.csv", PARTS), ("more.csv", other)]]);
    assert_eq!(bench.load().records.parts.len(), 3);
}

#[test]
fn a_newer_stock_list_replaces_the_list_and_an_older_one_is_kept_out() {
    let january = (
        "stock_2026-01-31.csv",
        "Part no,Bin,On hand\nB-1,A1,5\nB-2,A2,3\n",
    );
    let february = ("stock_2026-02-28.csv", "Part no,Bin,On hand\nB-1,A1,2\n");
    let bench = Bench::of(&[&[january], &[february]]);
    assert_eq!(bench.stock(), ["B-1 A1 2"]);
    let outcome = bench.import(&[january]);
    assert_eq!(bench.stock(), ["B-1 A1 2"]);
    assert!(!outcome.is_new, "nothing of an older list is taken");
    let kept_out = &outcome.snapshot.kept_out;
    assert_eq!((kept_out.len(), kept_out[0].rows), (1, 2));
    assert!(kept_out[0].to_string().contains("is newer"));
}

#[test]
fn lists_of_two_halls_stand_beside_each_other_but_one_bin_counts_once() {
    let one = (
        "hall 1 2026-01-31.csv",
        "Part no,Bin,On hand\nB-1,A1,5\nB-2,A2,3\n",
    );
    let two = (
        "hall 2 2026-02-28.csv",
        "Part no,Bin,On hand\nB-1,C1,9\nB-2,A2,1\n",
    );
    let bench = Bench::of(&[&[one], &[two]]);
    assert_eq!(bench.stock(), ["B-1 A1 5", "B-1 C1 9", "B-2 A2 1"]);
}

#[test]
fn an_older_lower_price_never_wins() {
    let head = "Designation,Price EUR,Lead time\n";
    let newer = format!("{head}6305-2RS,9.50,5 days\n");
    let older = format!("{head}6305-2RS,4.00,2 days\n6204-2Z,3.00,2 days\n");
    let newer = ("nordlager_2026-03-01.csv", newer.as_str());
    let older = ("nordlager_2025-06-01.csv", older.as_str());
    let expected = ["nordlager_2026-03-01 6305-2RS 9.5"];
    assert_eq!(Bench::of(&[&[older], &[newer]]).offers(), expected);
    let late = Bench::of(&[&[newer]]);
    let outcome = late.import(&[older]);
    assert_eq!(late.offers(), expected);
    assert_eq!(outcome.snapshot.kept_out[0].rows, 2);
    assert_eq!(Bench::of(&[&[older, newer]]).offers(), expected);
}

#[test]
fn single_quotes_go_by_supplier_and_part() {
    let head = "Supplier,Designation,Price EUR,Quote date\n";
    let first = format!(
        "{head}Nord,6305-2RS,8.00,2026-01-10\nSued,6305-2RS,7.00,2026-01-10\nNord,6204-2Z,3.00,2026-01-10\n"
    );
    let second = format!("{head}Nord,6305-2RS,9.00,2026-02-10\nSued,6305-2RS,1.00,2025-02-10\n");
    let bench = Bench::of(&[&[("quotes.csv", &first)]]);
    let outcome = bench.import(&[("more quotes.csv", &second)]);
    let mut offers = bench.offers();
    offers.sort();
    assert_eq!(
        offers,
        ["Nord 6204-2Z 3", "Nord 6305-2RS 9", "Sued 6305-2RS 7"]
    );
    assert_eq!(outcome.snapshot.kept_out.len(), 1);
    assert_eq!(outcome.snapshot.kept_out[0].what, "Sued");
}

#[test]
fn a_kit_is_replaced_as_a_whole_and_other_kits_stay() {
    let head = "Kit,Line,Part no,Quantity\n";
    let both = format!("{head}Pump,1,B-1,2\nPump,2,B-2,1\nFan,1,B-1,1\n");
    let pump = format!("{head}Pump,1,B-1,4\n");
    let bench = Bench::of(&[&[("kits.csv", &both)], &[("pump.csv", &pump)]]);
    let lines = bench.load().records.kit_lines;
    let mut said: Vec<_> = lines
        .iter()
        .map(|line| format!("{} {} {}", line.kit, line.line, line.quantity.unwrap()))
        .collect();
    said.sort();
    assert_eq!(said, ["Fan 1 1", "Pump 1 4"]);
}

#[test]
fn a_usage_told_by_two_files_counts_once_and_told_twice_in_one_file_counts_twice() {
    let head = "Date,Part no,Quantity,Machine,Reason\n";
    let march = format!(
        "{head}2026-03-02,B-1,1,M1,failure\n2026-03-02,B-1,1,M1,failure\n2026-03-05,B-2,1,M1,planned\n"
    );
    let all = format!(
        "{head}2026-02-01,B-1,3,M1,failure\n2026-03-02,B-1,1,M1,failure\n2026-03-02,B-1,1,M1,failure\n"
    );
    for folders in [
        &[
            &[("march.csv", march.as_str())][..],
            &[("usages.csv", all.as_str())],
        ][..],
        &[
            &[("usages.csv", all.as_str())],
            &[("march.csv", march.as_str())],
        ],
        &[&[("usages.csv", all.as_str()), ("march.csv", march.as_str())]],
    ] {
        let usages = Bench::of(folders).load().records.usages;
        let sum: f64 = usages.iter().map(|usage| usage.quantity).sum();
        // 3 in February, twice 1 on 2 March, 1 on 5 March.
        assert_eq!((usages.len(), sum as i64), (4, 6));
    }
}

#[test]
fn usages_that_another_file_tells_too_are_told_with_both_files() {
    let head = "Date,Part no,Quantity,Machine\n";
    let both = format!("{head}2026-02-01,B-1,2,\n2026-02-11,B-1,2,\n");
    let alone = format!("{head}2026-03-01,B-1,2,\n2026-02-11,B-1,2,\n");
    for (south, expected, used) in [
        (
            &both,
            "2 usages of this file stand in `north.csv` too and count once",
            2,
        ),
        (
            &alone,
            "1 usage of this file stands in `north.csv` too and counts once",
            3,
        ),
    ] {
        let loaded = Bench::of(&[&[("north.csv", &both), ("south.csv", south)]]).load();
        assert_eq!(loaded.records.usages.len(), used);
        let told: Vec<String> = loaded
            .issues
            .iter()
            .filter(|issue| &*issue.place.file == "south.csv")
            .map(|issue| issue.problem.to_string())
            .collect();
        assert_eq!(told.len(), 1, "{told:?}");
        assert!(told[0].starts_with(expected), "{told:?}");
    }
}

#[test]
fn a_receipt_closes_its_open_order_and_an_old_export_never_opens_it_again() {
    let head = "Supplier,Part no,Ordered,Promised,Received,Quantity\n";
    let open = format!("{head}Nord,B-1,2026-02-02,2026-02-20,,10\nNord,B-2,2026-02-02,,,4\n");
    let closed = format!("{head}Nord,B-1,2026-02-02,2026-02-20,2026-02-19,10\n");
    let (open, closed) = (
        ("orders.csv", open.as_str()),
        ("received.csv", closed.as_str()),
    );
    for folders in [
        &[&[open][..], &[closed]][..],
        &[&[closed], &[open]],
        &[&[open, closed]],
    ] {
        let receipts = Bench::of(folders).load().records.receipts;
        let mut said: Vec<_> = receipts
            .iter()
            .map(|row| (&*row.part, row.received.is_some()))
            .collect();
        said.sort();
        assert_eq!(said, [("B-1", true), ("B-2", false)]);
    }
}

#[test]
fn a_part_delivery_or_a_cancellation_takes_the_place_of_its_open_order() {
    let head = "Supplier,Part no,Ordered,Promised,Received,Quantity";
    let open = format!("{head}\nNord,B-1,2026-02-02,2026-02-20,,10\n");
    let in_part =
        format!("{head},Qty received,Open qty\nNord,B-1,2026-02-02,2026-02-20,2026-02-10,10,4,6\n");
    let cancelled = format!("{head},Status\nNord,B-1,2026-02-02,2026-02-20,,10,cancelled\n");
    let open = ("orders.csv", open.as_str());
    for (later, expected) in [
        (&in_part, (Some(4.0), Some(6.0), false)),
        (&cancelled, (Some(10.0), None, true)),
    ] {
        let later = ("later.csv", later.as_str());
        for folders in [
            &[&[open][..], &[later]][..],
            &[&[later], &[open]],
            &[&[open, later]],
        ] {
            let receipts = Bench::of(folders).load().records.receipts;
            let mut said = receipts
                .iter()
                .map(|row| (row.quantity, row.still_open, row.is_closed));
            assert_eq!(said.next(), Some(expected));
            assert_eq!(said.next(), None);
        }
    }
}

#[test]
fn an_order_in_packs_is_closed_by_its_receipt_in_pieces() {
    // Pieces are packs times their size: arithmetic.
    let head = "Supplier,Part no,Ordered,Promised,Received,Quantity,Unit\n";
    let prices = "Supplier,Our no,Price EUR,Pack\nNord,B-1,4.20,10\n";
    for (unit, came, prices, rows) in [
        ("pack of 10", "20,pcs", None, 1),
        ("pack of 10", "30,pcs", None, 2),
        ("box", "20,pcs", Some(prices), 1),
        ("box", "20,pcs", None, 2),
        ("box", "1,pack of 20", Some(prices), 1),
        ("pcs", "1,pair", None, 1),
        ("pcs", "2,pair", None, 2),
    ] {
        let open = format!("{head}Nord,B-1,2026-02-02,2026-02-20,,2,{unit}\n");
        let closed = format!("{head}Nord,B-1,2026-02-02,2026-02-20,2026-02-19,{came}\n");
        let mut files = vec![("orders.csv", open.as_str()), ("received.csv", &closed)];
        files.extend(prices.map(|prices| ("prices.csv", prices)));
        let receipts = Bench::of(&[&files]).load().records.receipts;
        assert_eq!(receipts.len(), rows, "2 {unit}, {came}");
        assert!(receipts.iter().any(|row| row.received.is_some()));
    }
}

#[test]
fn rebuilds_are_replaced_with_their_sheet_and_repeats_of_another_file_count_once() {
    let head = "Kit,Machine,Planned date\n";
    let first = format!("{head}Pump,P1,2026-05-04\nPump,P2,2026-06-01\n");
    let moved = format!("{head}Pump,P1,2026-05-11\nPump,P2,2026-06-01\n");
    let bench = Bench::of(&[
        &[("plan.csv", &first)],
        &[("plan.csv", &moved)],
        &[("copy.csv", &moved)],
    ]);
    let rebuilds = bench.load().records.planned_rebuilds;
    let mut said: Vec<_> = rebuilds
        .iter()
        .map(|rebuild| rebuild.date.to_string())
        .collect();
    said.sort();
    assert_eq!(said, ["2026-05-11", "2026-06-01"]);
}

#[test]
fn settings_stay_until_an_import_brings_others() {
    let bench = Bench::of(&[
        &[("parts.csv", PARTS), ("shop.toml", "shop = \"Mill\"\n")],
        &[("more.csv", "Own number,Designation\nB-7,6001\n")],
    ]);
    assert_eq!(bench.load().settings.shop, "Mill");
    assert_eq!(bench.workspace.known().unwrap().settings.shop, "Mill");
    bench.import(&[("parts.csv", PARTS), ("shop.toml", "shop = \"Dairy\"\n")]);
    assert_eq!(bench.load().settings.shop, "Dairy");
}

#[test]
fn a_price_list_imported_alone_is_known_by_the_suppliers_of_the_workspace() {
    let bench = Bench::of(&[&[(
        "suppliers.csv",
        "Supplier,Approved\nNordlager Handels,yes\n",
    )]]);
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("prices_nordlager_2026-03-01.csv");
    std::fs::write(&file, "Designation,Price EUR\n6305-2RS,9.50\n").unwrap();
    let known = bench.workspace.known().unwrap();
    assert_eq!(known.suppliers, ["Nordlager Handels"]);
    let imported = sparewright::import::read_paths(&[file], &known).unwrap();
    assert_eq!(&*imported.records.offers[0].supplier, "Nordlager Handels");
}
