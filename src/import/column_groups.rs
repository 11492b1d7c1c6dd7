//! Columns that stand twice below headings of groups: `Nordlager | | Westlager |` over `Price | Lead time | Price | Lead time`.

use std::collections::BTreeSet;

use super::cell::Cell;
use super::grid::Grid;
use super::table::Table;
use crate::language::in_backticks;

/// Says which group's columns are read where a row of headings above the header tells them apart; those of the others
/// already stand among the columns that are not read. Rows before `from` are those of another table.
pub fn note_groups(grid: &Grid, table: &mut Table, from: u32) {
    let above = table.header_row.checked_sub(1);
    let Some(above) = above.filter(|above| *above >= from) else {
        return;
    };
    let header = |column: u32| grid.cell(table.header_row, column).to_text();
    let (mut read, mut others) = (BTreeSet::new(), BTreeSet::new());
    for (index, _) in &table.unread {
        let words = header(*index);
        let mut same = table
            .columns
            .iter()
            .filter(|column| !words.is_empty() && header(column.index) == words);
        let groups = same
            .next()
            .map(|column| column.index)
            .and_then(|taken| group_over(grid, above, taken).zip(group_over(grid, above, *index)));
        if let Some((taken, other)) = groups.filter(|(taken, other)| taken != other) {
            read.insert(taken);
            others.insert(other);
        }
    }
    if others.is_empty() {
        return;
    }
    let named = |groups: &BTreeSet<&str>| in_backticks(groups).join(", ");
    table.why.push(format!(
        "columns stand several times below headings: those below {} are read, those below {} are not; a table for each would be read whole",
        named(&read),
        named(&others)
    ));
}

/// The heading over a column: its own cell's, or that of the next filled one before it.
fn group_over(grid: &Grid, row: u32, column: u32) -> Option<&str> {
    (0..=column).rev().find_map(|at| match grid.cell(row, at) {
        Cell::Text(text) if !text.trim().is_empty() => Some(text.trim()),
        _ => None,
    })
}
