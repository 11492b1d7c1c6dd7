//! The column of a list of usages that tells kinds of movements apart although its header says something else: `Vorgang`,
//! `Art`, `Bu.`.

use super::cell::Cell;
use super::field::Field;
use super::grid::Grid;
use super::header::{Header, How};
use super::stated::Stated;
use super::table::Column;
use super::value::read_movement;

/// Filled cells looked at.
const CELLS_LOOKED_AT: usize = 200;
/// Least cells with a word for a movement, and their least share of the filled ones. Common practice, no source.
const LEAST_CELLS: usize = 2;
const LEAST_SHARE: f64 = 0.5;

/// Takes such a column, by its values in `rows`, where no header names one.
pub fn take_movements(
    grid: &Grid,
    rows: (u32, u32),
    columns: &mut Vec<Column>,
    unread: &mut Vec<(u32, String)>,
) {
    let has = |column: &Column| column.header.field == Field::MovementKind;
    if columns.iter().any(has) {
        return;
    }
    // `Vorgang` is a task of a kit elsewhere, `Art` the type of a part.
    let may_be = |column: &&Column| {
        matches!(column.header.field, Field::Task | Field::Type) && column.header.how != How::Given
    };
    let read = (columns.iter().filter(may_be)).map(|column| (column.index, column.printed.clone()));
    let all: Vec<(u32, String)> = read.chain(unread.iter().cloned()).collect();
    let found = all.into_iter().find_map(|(index, printed)| {
        let (fitting, filled) = movements_in(grid, index, rows);
        let is_it = fitting >= LEAST_CELLS && fitting as f64 >= LEAST_SHARE * filled as f64;
        let how = How::Values {
            fitting,
            rows: filled,
        };
        is_it.then_some((index, printed, how))
    });
    let Some((index, printed, how)) = found else {
        return;
    };
    columns.retain(|column| column.index != index);
    unread.retain(|(at, _)| *at != index);
    columns.push(Column {
        index,
        printed,
        header: Header {
            field: Field::MovementKind,
            how,
            states: Stated::default(),
        },
    });
    columns.sort_by_key(|column| column.index);
}

/// How many of the first filled cells of a column are words for movements, and how many were looked at.
fn movements_in(grid: &Grid, column: u32, (first, end): (u32, u32)) -> (usize, usize) {
    let cells = (first..end).map(|row| grid.cell(row, column));
    let filled = cells.filter(|cell| *cell != Cell::Empty);
    let (mut fitting, mut looked_at) = (0, 0);
    for cell in filled.take(CELLS_LOOKED_AT) {
        looked_at += 1;
        fitting += usize::from(
            matches!(cell, Cell::Text(text) if text.len() <= 40 && read_movement(text).is_some()),
        );
    }
    (fitting, looked_at)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::find_table::only_table;

    fn field_of(text: &str, printed: &str) -> Option<Field> {
        let table = only_table(text);
        let mut columns = table.columns.iter();
        let column = columns.find(|column| column.printed == printed);
        column.map(|column| column.header.field)
    }

    /// Common practice, no source: what such columns are called.
    #[test]
    fn words_for_movements_make_a_column_one_of_movements() {
        let rows = "1.2.2026;A1;2;Entnahme\n2.2.2026;A1;9;Zugang\n3.2.2026;A1;1;Entnahme\n";
        for printed in ["Vorgang", "Art", "Bu.", "Bewegungsart"] {
            let text = format!("Datum;Teilenr.;Menge;{printed}\n{rows}");
            assert_eq!(
                field_of(&text, printed),
                Some(Field::MovementKind),
                "{printed}"
            );
        }
        let others = "1.2.2026;A1;2;Lager\n2.2.2026;A1;9;Dichtung\n";
        let text = format!("Datum;Teilenr.;Menge;Art\n{others}");
        assert_eq!(field_of(&text, "Art"), Some(Field::Type));
    }
}
