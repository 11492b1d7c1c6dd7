//! Slips of the pen and damage done by spreadsheet programs: shown, and read only where the evidence is whole.

use sparewright::import::{Cell, GridBuilder, Imported, Severity, read_folder};
use sparewright::record::PartRecord;

fn parts(rows: &str) -> Imported {
    parts_under(
        "Part no;Type;Designation;d;D;B;T;H;Fw;ID;CS;Closure;Clearance;Tolerance class;Unit\n",
        rows,
    )
}

fn parts_under(header: &str, rows: &str) -> Imported {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("parts.csv"), format!("{header}{rows}")).unwrap();
    read_folder(folder.path()).unwrap()
}

fn problems(imported: &Imported) -> Vec<String> {
    imported
        .issues
        .iter()
        .map(|issue| format!("{}: {}", issue.place.cell(), issue.problem))
        .collect()
}

fn size(part: &PartRecord) -> Option<String> {
    part.size.map(|size| size.to_string())
}

#[test]
fn slips_are_shown_and_never_resolved() {
    // ISO 15: 6206 is 30 x 62 x 16 mm, 6207 is 35 x 72 x 17 mm. Each row has one slip.
    let imported = parts(
        "a;Deep groove ball bearing;;62;30;16;;;;;;;;;\n\
         b;Deep groove ball bearing;;30;620;16;;;;;;;;;\n\
         c;Deep groove ball bearing;6207;35;72;18;;;;;;;;;\n\
         d;Deep groove ball bearing;6206;30;6,2;16;;;;;;;;;\n\
         e;Deep groove ball bearing;;31;63;17;;;;;;;;;\n",
    );
    let sizes: Vec<Option<String>> = imported.records.parts.iter().map(size).collect();
    assert_eq!(sizes[..4], [None, None, None, None]);
    // A size that no slip explains stays as printed.
    assert_eq!(sizes[4].as_deref(), Some("31 x 63 x 17 mm"));
    let said = problems(&imported);
    for (line, words) in [
        "perhaps `30 x 62 x 16 mm` with bore and outside diameter swapped",
        "the outside diameter moved (10 times too large)",
        "contradict designation `6207`, which is 35 x 72 x 17 mm;",
        "the outside diameter moved (10 times too small)",
    ]
    .iter()
    .enumerate()
    {
        assert!(said[line].contains(words), "{:?}", said[line]);
    }
    assert_eq!(said.len(), 4);
    assert!(
        imported
            .issues
            .iter()
            .all(|issue| issue.severity == Severity::Doubtful)
    );
}

#[test]
fn inches_in_a_column_of_millimetres_put_the_unlisted_rows_in_doubt_too() {
    // ABMA 20: R4 is 1/4 x 5/8 x 0.196 in, R6 3/8 x 7/8 x 7/32 in, R8 1/2 x 1 1/8 x 1/4 in (open).
    let text = "a;Deep groove ball bearing;;0.25;0.625;0.196;;;;;;;;;\n\
                b;Deep groove ball bearing;;0.375;0.875;0.2188;;;;;;;;;\n\
                c;Deep groove ball bearing;;0.5;1.125;0.25;;;;;;;;;\n\
                d;Deep groove ball bearing;;0.55;1.3;0.3;;;;;;;;;\n";
    let in_mm = "Part no;Type;Designation;d (mm);D (mm);B (mm);T;H;Fw;ID;CS;Closure;Clearance;Tolerance class;Unit\n";
    let imported = parts_under(in_mm, text);
    let sizes: Vec<Option<String>> = imported.records.parts.iter().map(size).collect();
    assert_eq!(sizes, [None, None, None, None], "{:?}", problems(&imported));
    let said = problems(&imported);
    assert_eq!(said.len(), 4, "{said:?}");
    assert!(
        said[..3]
            .iter()
            .all(|words| words.contains("read as inches")),
        "{said:?}"
    );
    assert!(
        said[3].contains("3 of 4 rows of the table are such only in inches"),
        "{}",
        said[3]
    );
    // Where nothing says millimetres, rows that are sizes in inches only say inches, and the table says so.
    let imported = parts(text);
    let sizes: Vec<Option<String>> = imported.records.parts.iter().map(size).collect();
    assert!(sizes[..3].iter().all(Option::is_some), "{sizes:?}");
    assert!(
        imported.tables[0]
            .why
            .iter()
            .any(|why| why.contains("3 of 3 sizes are standard ones in inches only")),
        "{:?}",
        imported.tables[0].why
    );
    // One such row among metric ones says nothing about the others.
    let imported = parts(
        "a;Deep groove ball bearing;;0.25;0.625;0.196;;;;;;;;;\n\
         b;Deep groove ball bearing;;30;62;16;;;;;;;;;\n\
         c;Deep groove ball bearing;;31;63;17;;;;;;;;;\n",
    );
    assert_eq!(imported.issues.len(), 1);
    assert!(size(&imported.records.parts[2]).is_some());
}

/// A grid of one table from cells.
fn grid_of(rows: &[Vec<Cell<'_>>]) -> Imported {
    let mut builder = GridBuilder::new(&"list.xlsx".into(), "Sheet1");
    for (row, cells) in rows.iter().enumerate() {
        for (column, cell) in cells.iter().enumerate() {
            builder.push(row as u32, column as u32, *cell).unwrap();
        }
    }
    let mut imported = Imported::default();
    imported.read_grid(&builder.finish().unwrap());
    imported.settle();
    imported
}

fn date(month: u32, day: u32) -> Cell<'static> {
    let day = chrono::NaiveDate::from_ymd_opt(2026, month, day).unwrap();
    Cell::Date(day.and_hms_opt(0, 0, 0).unwrap())
}

#[test]
fn a_fraction_that_became_a_date_is_read_only_among_fractions() {
    use Cell::{Number, Text};
    let header = ["Part no", "Type", "d", "D", "B"].map(Text).to_vec();
    let row = |name: &'static str, bore: Cell<'static>| {
        vec![
            Text(name),
            Text("Deep groove ball bearing"),
            bore,
            Text("29/32"),
            Text("5/16"),
        ]
    };
    let fractions = grid_of(&[
        header.clone(),
        row("a", Text("5/16")),
        row("b", date(7, 16)),
        row("c", Text("3/8")),
    ]);
    // 7/16 in is 11.1125 mm: arithmetic.
    let sizes: Vec<Option<String>> = fractions.records.parts.iter().map(size).collect();
    assert!(
        sizes[1]
            .as_deref()
            .is_some_and(|size| size.starts_with("11.1125 x")),
        "{sizes:?}"
    );
    assert_eq!(
        problems(&fractions),
        ["C3: the cell holds the date 2026-07-16; read as `7/16`, in the form of its neighbours"]
    );
    // Among millimetres the same cell is only named.
    let metric = grid_of(&[
        header,
        row("a", Number(8.0)),
        row("b", date(7, 16)),
        row("c", Number(10.0)),
    ]);
    assert_eq!(metric.records.parts[1].size, None);
    let said = problems(&metric);
    assert!(
        said.iter().any(
            |words| words.starts_with("C3: the cell holds the date 2026-07-16, perhaps `7/16`")
        ),
        "{said:?}"
    );
}

#[test]
fn names_that_became_dates_and_numbers_name_nothing() {
    use Cell::{Number, Text};
    let imported = grid_of(&[
        ["Part no", "Bin", "On hand"].map(Text).to_vec(),
        vec![date(3, 12), Text("R1"), Number(4.0)],
        vec![Number(4_006_381_333_931_230_000.0), Text("R2"), Number(4.0)],
        vec![Text("6.203E+14"), Text("R3"), Number(4.0)],
        vec![Cell::NoResult, Text("R4"), Number(4.0)],
        vec![Text("A-5"), Text("R5"), Cell::NoResult],
    ]);
    assert_eq!((imported.rows_read, imported.rows_rejected), (5, 4));
    let said = problems(&imported);
    for (line, words) in [
        "perhaps `12-3` or `3-12` that the spreadsheet turned into a date",
        "longer than the 15 digits a spreadsheet keeps",
        "`6.203E+14`, a long number of which the spreadsheet has dropped digits",
        "a formula without a stored result",
        "a formula without a stored result",
    ]
    .iter()
    .enumerate()
    {
        assert!(said[line].contains(words), "{said:?}");
    }
    assert_eq!(imported.records.stock[0].on_hand, None);
}

#[test]
fn a_column_of_dash_numbers_gives_o_rings() {
    use Cell::{Number, Text};
    let imported = grid_of(&[
        ["Part no", "AS568 dash no.", "Material"].map(Text).to_vec(),
        vec![Text("a"), Number(6.0), Text("NBR")],
        vec![Text("b"), Number(218.0), Text("NBR")],
        vec![Text("c"), Text("-012"), Text("NBR")],
        vec![Text("d"), Text("100"), Text("NBR")],
    ]);
    let sizes: Vec<Option<String>> = imported.records.parts.iter().map(size).collect();
    // SAE AS568: -006 is 0.114 x 0.070 in, -218 is 1.234 x 0.139 in, -012 is 0.364 x 0.070 in; there is no -100.
    assert_eq!(
        sizes,
        [
            Some("2.8956 x 1.778 mm".to_owned()),
            Some("31.3436 x 3.5306 mm".to_owned()),
            Some("9.2456 x 1.778 mm".to_owned()),
            None
        ]
    );
    let said = problems(&imported);
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(said[0].contains("read as `AS568-006`"));
}
