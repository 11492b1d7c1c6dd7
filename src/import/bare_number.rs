//! A column headed `Nr.` or `Number` and nothing more: the part number where no other column is, and no count of lines.

use super::cell::Cell;
use super::field::Field;
use super::fold::fold;
use super::grid::Grid;
use super::header::{Header, How};
use super::header_rows::Headers;
use super::stated::Stated;
use super::table::Column;

/// What [`fold`] makes of every word for a number.
const NUMBER: &str = "no";
/// Cells looked at.
const CELLS_LOOKED_AT: usize = 200;
/// Least filled cells that prove anything.
const LEAST_CELLS: usize = 2;
/// Least share of different values among those looked at (common practice, no source).
const LEAST_DIFFERENT: f64 = 0.5;

/// Fields that name a part, so that a bare number is something else.
const NAMES: [Field; 4] = [
    Field::PartNumber,
    Field::OwnNumber,
    Field::SupplierNumber,
    Field::Line,
];
/// Fields beside which a bare number is that of a part.
const OF_PARTS: [Field; 3] = [Field::Description, Field::Designation, Field::Size];
/// Fields of lists of machines, rebuilds, suppliers and orders, in which it may number those.
const OF_OTHERS: [Field; 13] = [
    Field::Kit,
    Field::Assembly,
    Field::Task,
    Field::Hours,
    Field::Predecessors,
    Field::Machine,
    Field::DowntimeCost,
    Field::Criticality,
    Field::Approved,
    Field::Freight,
    Field::Ordered,
    Field::Promised,
    Field::Received,
];

/// Takes such a column for the part number, where the values below it are numbers of something.
pub fn take(headers: &mut Headers, grid: &Grid, first_row: u32) {
    let fields = headers.fields();
    let holds = |wanted: &[Field]| wanted.iter().any(|field| fields.contains(field));
    if holds(&NAMES) || holds(&OF_OTHERS) || !holds(&OF_PARTS) {
        return;
    }
    let bare = |(_, printed): &(u32, String)| fold(printed) == NUMBER;
    let mut of_numbers = headers.unread.iter().filter(|column| bare(column));
    let (Some((index, printed)), None) = (of_numbers.next().cloned(), of_numbers.next()) else {
        return;
    };
    if headers.left_out.contains(&index) || !are_numbers(&values(grid, index, first_row)) {
        return;
    }
    headers.unread.retain(|(at, _)| *at != index);
    headers.why.push(format!(
        "column `{printed}` holds the part number, since no other does"
    ));
    headers.columns.push(Column {
        index,
        printed,
        header: Header {
            field: Field::PartNumber,
            how: How::Known,
            states: Stated::default(),
        },
    });
    headers.columns.sort_by_key(|column| column.index);
    headers.known += 1;
}

fn values(grid: &Grid, column: u32, first_row: u32) -> Vec<String> {
    (first_row..grid.row_count())
        .map(|row| grid.cell(row, column))
        .filter(|cell| !matches!(cell, Cell::Empty))
        .take(CELLS_LOOKED_AT)
        .map(|cell| cell.to_text())
        .collect()
}

/// False for 1, 2, 3 and 10, 20, 30, which count the lines, and for what is mostly the same.
fn are_numbers(values: &[String]) -> bool {
    let mut different: Vec<&String> = values.iter().collect();
    different.sort();
    different.dedup();
    let share = different.len() as f64 / values.len().max(1) as f64;
    let counts: Option<Vec<i64>> = values.iter().map(|value| value.parse().ok()).collect();
    let is_count = counts.is_some_and(|counts| {
        let steps = counts.windows(2).map(|pair| pair[1] - pair[0]);
        let mut steps: Vec<i64> = steps.collect();
        steps.dedup();
        matches!(steps[..], [1 | 5 | 10]) && counts.first().is_some_and(|first| *first <= 10)
    });
    values.len() >= LEAST_CELLS && share >= LEAST_DIFFERENT && !is_count
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::find_table::{only_table, tables_of};

    fn part_number(text: &str) -> Option<String> {
        let table = only_table(text);
        let mut columns = table.columns.into_iter();
        let found = columns.find(|column| column.header.field == Field::PartNumber);
        found.map(|column| column.printed)
    }

    #[test]
    fn a_bare_number_is_the_part_number_where_nothing_else_is() {
        for (text, expected) in [
            (
                "Number;Description\nA1;Ball bearing 6205\nA2;Oil seal 40x62x8\n",
                Some("Number"),
            ),
            (
                "Nr.;Bezeichnung\n4711;Rillenkugellager 6205\n4720;O-Ring 40x3\n",
                Some("Nr."),
            ),
            (
                "N°;Désignation;Stock\nR-7;Roulement 6205;3\nR-9;Joint 40x62x8;1\n",
                Some("N°"),
            ),
            // Counted lines beside a part number, and lines alone.
            (
                "Nr.;Artikelnr.;Bezeichnung\n1;A1;Lager 6205\n2;A2;Lager 6206\n",
                Some("Artikelnr."),
            ),
            (
                "No;Designation;Qty;Bin\n1;6205;4;A-1\n2;6206;2;A-2\n3;6207;1;A-3\n",
                None,
            ),
            (
                "No;Designation;Qty;Bin\n10;6205;4;A-1\n20;6206;2;A-2\n30;6207;1;A-3\n",
                None,
            ),
        ] {
            assert_eq!(part_number(text).as_deref(), expected, "{text}");
        }
    }

    #[test]
    fn a_bare_number_alone_makes_no_table() {
        for text in [
            "Number;Meaning\nA1;x\nA2;y\n",
            "Nr.;Bezeichnung\n1;Rillenkugellager 6205\n2;O-Ring 40x3\n",
        ] {
            assert!(tables_of(text).is_empty(), "{text}");
        }
    }

    #[test]
    fn counted_lines_are_no_numbers_of_parts() {
        let of = |values: &[&str]| {
            let values: Vec<String> = values.iter().map(|value| (*value).to_owned()).collect();
            are_numbers(&values)
        };
        assert!(of(&["4711", "4712", "4713"]), "a series of numbers is one");
        assert!(of(&["A1", "A2"]) && of(&["7", "3", "12"]));
        for counted in [
            &["1", "2", "3"][..],
            &["10", "20", "30"],
            &["5", "10", "15"],
        ] {
            assert!(!of(counted), "{counted:?}");
        }
        assert!(!of(&["A1"]) && !of(&[]) && !of(&["x", "x", "x", "x", "x"]));
    }
}
