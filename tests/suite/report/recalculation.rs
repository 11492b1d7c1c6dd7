//! Formulas reckoned anew by LibreOffice: they give what the workbook carries, and follow a figure that a reader changes.

use std::collections::BTreeMap;
use std::io::Cursor;

use calamine::{Data, Reader, Xlsx, open_workbook_from_rs};
use sparewright::report::workbook_of;

use super::outside::{book_of, parts, recalculated};
use super::sample::report;

/// Results of every formula by sheet, row and column.
fn results(book: &[u8]) -> BTreeMap<(String, u32, u32), f64> {
    let mut book: Xlsx<_> = open_workbook_from_rs(Cursor::new(book.to_vec())).unwrap();
    let mut results = BTreeMap::new();
    for sheet in book.sheet_names() {
        let figures = book.worksheet_range(&sheet).unwrap();
        let formulas = book.worksheet_formula(&sheet).unwrap();
        let (top, left) = formulas.start().unwrap_or_default();
        for (row, column, formula) in formulas.used_cells() {
            let (row, column) = (top + row as u32, left + column as u32);
            // Links are formulas to some programs.
            if formula.is_empty() || formula.contains("HYPERLINK") {
                continue;
            }
            let figure = match figures.get_value((row, column)) {
                Some(Data::Float(figure)) => *figure,
                Some(Data::Int(figure)) => *figure as f64,
                other => panic!("{sheet} row {row} column {column}: {formula} gives {other:?}"),
            };
            results.insert((sheet.clone(), row, column), figure);
        }
    }
    results
}

fn assert_same(
    ours: &BTreeMap<(String, u32, u32), f64>,
    theirs: &BTreeMap<(String, u32, u32), f64>,
) {
    assert_eq!(ours.len(), theirs.len());
    for (place, figure) in ours {
        let other = theirs
            .get(place)
            .unwrap_or_else(|| panic!("{place:?} is gone"));
        assert!(
            (figure - other).abs() < 1e-6,
            "{place:?}: {figure}, but LibreOffice gives {other}"
        );
    }
}

#[test]
fn every_formula_gives_what_the_workbook_carries() {
    let (job, planned) = crate::demo::demo();
    for report in [report(), job.report(planned)] {
        let book = workbook_of(&report).unwrap();
        let Some(anew) = recalculated(&book) else {
            return;
        };
        let ours = results(&book);
        // Live figures are there, and not all of them nothing.
        assert!(ours.len() > 20 && ours.values().filter(|figure| **figure > 0.0).count() > 20);
        assert_same(&ours, &results(&anew));
    }
}

#[test]
fn a_changed_quantity_changes_cost_total_and_order() {
    let (job, planned) = crate::demo::demo();
    let report = job.report(planned);
    let mut parts = parts(&workbook_of(&report).unwrap());
    let sheet = &report.sheets[0];
    assert_eq!(sheet.key, "order_now");
    let quantity = sheet.column_at("quantity").unwrap();
    let cost = sheet.column_at("cost_eur").unwrap();
    let (row, of) = sheet
        .rows
        .iter()
        .enumerate()
        .find(|(_, row)| row.cells[cost].as_number().is_some_and(|cost| cost > 0.0))
        .unwrap();
    let (before, amount) = (
        of.cells[quantity].as_number().unwrap(),
        of.cells[cost].as_number().unwrap(),
    );
    // The mark comes first, so a column's letter is one further; values begin in row 5.
    let cell = format!("{}{}", (b'B' + quantity as u8) as char, row + 5);
    let part = "xl/worksheets/sheet2.xml";
    let text = String::from_utf8(parts[part].clone()).unwrap();
    let start = text.find(&format!("<c r=\"{cell}\"")).unwrap();
    let (head, tail) = text.split_at(start);
    let changed = tail.replacen(
        &format!("<v>{before}</v>"),
        &format!("<v>{}</v>", before * 10.0),
        1,
    );
    assert_ne!(changed, tail);
    parts.insert(part.to_owned(), format!("{head}{changed}").into_bytes());
    let book = book_of(&parts);
    let Some(anew) = recalculated(&book) else {
        return;
    };
    let (ours, theirs) = (results(&book), results(&anew));
    let grew: Vec<f64> = ours
        .iter()
        .map(|(place, figure)| theirs[place] - figure)
        .filter(|grew| grew.abs() > 1e-6)
        .collect();
    // Cost of the line and total of the sheet; goods and sum of the supplier's order, and the totals of both.
    assert_eq!(grew.len(), 6, "{grew:?}");
    for grew in grew {
        // Each cost is rounded to whole cents on its own.
        assert!(
            (grew - 9.0 * amount).abs() < 0.1,
            "{grew}, not {}",
            9.0 * amount
        );
    }
}
