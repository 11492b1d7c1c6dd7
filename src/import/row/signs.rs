//! Signs of a list of usages: books write what is issued below 0, and what is returned or received above it.

use crate::import::cell::Cell;
use crate::import::field::Field;
use crate::import::fold::fold;
use crate::import::grid::Grid;
use crate::import::returned::names_returns;
use crate::import::table::Table;
use crate::import::value::read_number;
use crate::record::TableKind;

use super::context::ReadColumn;
use super::figures::without_unit;

/// Least quantities below 0, and none above, that show the sign of books (common practice, no source).
const LEAST_ISSUES: usize = 3;
/// Folded words for the kind of a movement. Common practice, no source; from memory.
const MOVEMENTS: [&str; 15] = [
    "bewegungsart",
    "bewegung",
    "bwa",
    "buchungsart",
    "vorgangsart",
    "vorgang",
    "movement type",
    "movement",
    "mvt",
    "transaction type",
    "transaction",
    "type de mouvement",
    "tipo de movimiento",
    "tipo movimento",
    "rodzaj ruchu",
];

/// True where every usage of the table is written below 0; says so in `why`, and which column of kinds of movements is not
/// read where signs are mixed.
pub(super) fn are_issues_negative(
    grid: &Grid,
    table: &Table,
    columns: &[ReadColumn],
    why: &mut Vec<String>,
) -> bool {
    let mut columns = columns.iter();
    let of_quantity = columns.find(|column| column.field == Field::Quantity);
    let Some(column) = of_quantity.filter(|_| table.kind == TableKind::Usages) else {
        return false;
    };
    let (mut below, mut above) = (0_usize, 0_usize);
    for row in table.first_row..table.end_row {
        let quantity = match grid.cell(row, column.index) {
            Cell::Number(quantity) => Some(quantity),
            Cell::Text(text) => read_number(without_unit(text), column.decimal).ok(),
            _ => None,
        };
        below += usize::from(quantity.is_some_and(|quantity| quantity < 0.0));
        above += usize::from(quantity.is_some_and(|quantity| quantity > 0.0));
    }
    if below >= LEAST_ISSUES && above == 0 {
        if names_returns(&grid.sheet) || names_returns(&grid.file) {
            why.push(format!(
                "the name of this list says returns: all {below} quantities below 0 count as returned"
            ));
            return false;
        }
        why.push(format!(
            "every quantity is below 0, as books write what is issued: all {below} are taken as used"
        ));
        return true;
    }
    let of_movements = table
        .unread
        .iter()
        .find(|(_, printed)| MOVEMENTS.contains(&fold(printed).as_str()));
    if let Some((_, printed)) = of_movements.filter(|_| below > 0 && above > 0) {
        why.push(format!(
            "column `{printed}` tells kinds of movements apart and is not read: what is above 0 counts as used, what is below 0 as returned; expected a list of issues and returns alone"
        ));
    } else if below > above && above > 0 {
        why.push(format!(
            "{below} of {} quantities are below 0 and count as returned; expected issues above 0 and returns below",
            below + above
        ));
    }
    false
}
