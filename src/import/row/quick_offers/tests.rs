use proptest::prelude::*;

use super::*;
use crate::import::find_table::find_tables;
use crate::import::grid::Grid;
use crate::import::issue::RowIssue;
use crate::import::progress::Progress;
use crate::import::row::counts::TableCounts;
use crate::import::row::table::read_pieces;
use crate::import::text_table::read_text_table;
use crate::record::{DateOrder, Records, ShopSettings};

type Read = (Records, Vec<RowIssue>, TableCounts);

fn grid_of(text: &str) -> Grid {
    read_text_table(&"list.csv".into(), text.as_bytes().to_vec())
        .1
        .unwrap()
}

/// What each table of a text gives by the quick way where it may go it, and row by row; and rows that shared.
fn both_ways(text: &str) -> (Vec<(Read, Read)>, usize) {
    let grid = grid_of(text);
    let settings = ShopSettings::default();
    let mut quick_tables = 0;
    let tables = find_tables(&grid, DateOrder::Dmy, &[]);
    let read = tables.iter().map(|table| {
        let mut context = TableContext::new(&grid, table, &settings, &mut Vec::new());
        if !context.has(Field::Supplier) {
            context.supplier = Some("Nordlager".to_owned());
        }
        context.look_for_inches(table, &mut Vec::new());
        let quick = QuickOffers::of(&context, table);
        quick_tables += usize::from(quick.is_some());
        let by = |quick: Option<&QuickOffers<'_>>| {
            let (mut records, mut issues) = (Records::default(), Vec::new());
            let progress = Progress::default();
            let (counts, _) =
                read_pieces(&context, table, quick, &mut records, &mut issues, &progress);
            (records, issues, counts)
        };
        (by(quick.as_ref()), by(None))
    });
    let read = read.collect();
    (read, quick_tables)
}

fn assert_same(text: &str) -> usize {
    let (tables, quick) = both_ways(text);
    for (quickly, by_rows) in tables {
        assert_eq!(quickly, by_rows, "{text}");
    }
    quick
}

/// Headers with cells that lists hold below them, usual ones first.
const COLUMNS: [(&str, &[&str]); 19] = [
    (
        "Part no",
        &[
            "N-1", "N-2", "204", "1E+05", "-", "#N/A", "Total", "Summe 3", "Part no", "n/a", "a+b",
        ],
    ),
    ("Our no.", &["B-1", "B-2", "", "6.2E+05", "none"]),
    (
        "Designation",
        &[
            "6205-2RS", "6206", "NU 205", "", "#NV", "6.2E+05", "?", "R8",
        ],
    ),
    (
        "Description",
        &[
            "deep groove ball bearing",
            "shaft seal 30x47x7",
            "",
            "cover",
        ],
    ),
    ("Bore", &["25", "30", "", "1 3/8", "25,4", "0", "x"]),
    ("Outside diameter", &["52", "62", "", "1.250", "52,0"]),
    ("Width", &["15", "16", "", "18"]),
    ("Unit", &["pc", "St", "", "pair", "blue"]),
    (
        "Price",
        &[
            "1.50",
            "2,75",
            "12",
            "",
            "1.250",
            "on request",
            "3 EUR",
            "850 EUR/100",
            "4/100",
            "-2",
            "0",
            "#REF!",
            "1E+05",
            "x",
            "N-1",
        ],
    ),
    ("Currency", &["EUR", "PLN", "", "abc", "-"]),
    ("Price per", &["1", "100", "", "0", "x", "12.5"]),
    (
        "Min qty",
        &["1", "10 pcs", "", "0", "-1", "1.250", "n/a", "x"],
    ),
    ("Pack", &["1", "5", "", "0", "#N/A"]),
    ("Available", &["0", "12", "", "-3", "?"]),
    (
        "Lead time",
        &[
            "3 days",
            "6-8 weeks",
            "KW 14",
            "week 3/2027",
            "",
            "soon",
            "on request",
            "-",
            "#N/A",
            "5",
        ],
    ),
    ("Valid until", &["31.12.2026", "", "03/04/2026", "x"]),
    ("VAT %", &["19", "7 %", "", "x"]),
    ("List price incl. VAT", &["119", "12,50", "", "x"]),
    ("Note", &["", "as before", "new"]),
];

fn lists() -> impl Strategy<Value = String> {
    let columns = proptest::sample::subsequence((0..COLUMNS.len()).collect::<Vec<_>>(), 4..=11)
        .prop_shuffle();
    columns.prop_flat_map(|columns| {
        let cells: Vec<_> = columns
            .iter()
            .map(|at| {
                let count = COLUMNS[*at].1.len();
                // Usual cells come often, so that rows share and the quick way is gone.
                prop_oneof![8 => 0..2_usize, 1 => 0..count].prop_map(move |cell| cell % count)
            })
            .collect();
        proptest::collection::vec(cells, 4..24).prop_map(move |rows| {
            let line = |cells: Vec<&str>| format!("{}\n", cells.join(";"));
            let mut text = line(columns.iter().map(|at| COLUMNS[*at].0).collect());
            for row in rows {
                let cells = columns.iter().zip(row);
                text += &line(cells.map(|(at, cell)| COLUMNS[*at].1[cell]).collect());
            }
            text
        })
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn any_list_gives_the_same_both_ways(text in lists()) {
        assert_same(&text);
    }
}

#[test]
fn a_long_list_goes_the_quick_way_and_gives_the_same() {
    let mut text = "Part no;Designation;Unit;Price EUR;Min qty;Lead time;Note\n".to_owned();
    for row in 0..10_000 {
        let (price, lead_time) = (row % 97, row % 5);
        let unit =
            ["pc", "blue", "pair"][usize::from(row % 1_000 == 0) + usize::from(row % 7 == 0)];
        text += &format!(
            "N-{row};620{}-2RS;{unit};{price},50;{};{lead_time} days;x{row}\n",
            row % 8,
            row % 3
        );
    }
    assert_eq!(assert_same(&text), 1);
    let (tables, _) = both_ways(&text);
    let ((records, ..), _) = &tables[0];
    assert_eq!(records.offers.len(), 10_000);
}

#[test]
fn rows_share_what_they_have_in_common() {
    let mut text = "Part no;Designation;Price EUR;Lead time\n".to_owned();
    for row in 0..100 {
        text += &format!("N-{row};6205;1.{row:02};{} days\n", 1 + row);
    }
    let grid = grid_of(&text);
    let table = &find_tables(&grid, DateOrder::Dmy, &[])[0];
    let settings = ShopSettings::default();
    let mut context = TableContext::new(&grid, table, &settings, &mut Vec::new());
    context.supplier = Some("Nordlager".to_owned());
    let quick = QuickOffers::of(&context, table).unwrap();
    let (mut memo, mut columns) = (Memo::new(&context), OfferColumns::default());
    let record = {
        let (mut records, mut issues) = (Records::default(), Vec::new());
        read_pieces(
            &context,
            table,
            None,
            &mut records,
            &mut issues,
            &Progress::default(),
        );
        records.offers[0].clone()
    };
    // The first row has nothing to share with.
    assert!(!quick.read(&context, 1, &mut memo, &mut columns, 1));
    quick.learn(record, true, &mut memo, &mut columns, 1);
    assert!((2..=100).all(|row| quick.read(&context, row, &mut memo, &mut columns, 1)));
    assert_eq!(columns.len(), 100);
}
