//! Of a sheet without a table the row that is nearly a header, and what it lacks.

use super::file_problem::SkipReason;
use super::grid::Grid;
use super::header_rows::{Given, LEAST_FIELDS, read_headers};
use super::options::ColumnMap;
use super::table_kind::nearest_kind;

/// Rows looked through: a header stands at the top.
const ROWS_LOOKED_AT: u32 = 60;
/// Essential columns that a row may lack and still be nearly a header.
const MOST_LACKING: usize = 1;

/// Why a sheet with something on it holds no table.
pub fn why_no_table(grid: &Grid, maps: &[&ColumnMap]) -> SkipReason {
    let given = Given { maps, table: 1 };
    let rows = 0..grid.row_count().min(ROWS_LOOKED_AT);
    let headers = rows.filter_map(|row| {
        let headers = read_headers(grid, row, None, given);
        let fields = headers.fields();
        // A line of remarks has words of a header too; of a header half the cells are such.
        let is_header = fields.len() >= LEAST_FIELDS
            && headers.is_of_words
            && headers.known * 2 >= headers.filled;
        let (kind, lacks) = nearest_kind(&fields, MOST_LACKING).filter(|_| is_header)?;
        Some((fields.len(), row, kind, lacks))
    });
    // The first row of the most columns.
    let best = headers.max_by(|a, b| a.0.cmp(&b.0).then(b.1.cmp(&a.1)));
    best.map_or(SkipReason::NoTable, |(_, row, kind, lacks)| {
        SkipReason::NearlyTable {
            row,
            kind,
            lacks: lacks.first().copied(),
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::cell::Cell;
    use crate::import::grid::GridBuilder;

    fn told(text: &str) -> String {
        let mut builder = GridBuilder::new(&"a.csv".into(), "");
        for (row, line) in text.lines().enumerate() {
            for (column, cell) in line.split(';').enumerate() {
                builder
                    .push(row as u32, column as u32, Cell::Text(cell))
                    .unwrap();
            }
        }
        why_no_table(&builder.finish().unwrap(), &[]).to_string()
    }

    #[test]
    fn a_sheet_that_is_nearly_a_table_says_what_it_lacks() {
        let start = "no row is a header of a known kind of table; row";
        for (text, expected) in [
            (
                "Used in 2025\nPart no;Machine;Reason;Qty\nA1;M1;failure;2\n",
                "2 is nearly that of usages, but has no column for the date",
            ),
            (
                "Lagerplatz;Bestand;Charge\nB1;3;L1\n",
                "1 is nearly that of stock, but has no column for the part number",
            ),
        ] {
            assert_eq!(told(text), format!("{start} {expected}"), "{text}");
        }
        for text in [
            "hello;world\n",
            "Remarks of the week\nAsk Anna\n",
            "A1;2;3\nA2;3;4\n",
        ] {
            assert_eq!(
                told(text),
                "no row is a header of a known kind of table",
                "{text}"
            );
        }
    }
}
