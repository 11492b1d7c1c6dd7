//! What the cells of a table's columns prove about decimal signs and dates.

use crate::import::cell::Cell;
use crate::import::field::Field;
use crate::import::grid::Grid;
use crate::import::table::Table;
use crate::import::value::{DateEvidence, NumberEvidence};
use crate::parallel;

use super::pieces::{ROWS_OF_A_PIECE, starts_of_pieces};

/// What the cells of a column prove, and how many of them are dates and others.
#[derive(Debug, Clone, Copy, Default)]
pub struct Evidence {
    /// Decimal signs.
    pub numbers: NumberEvidence,
    /// Order of day and month.
    pub dates: DateEvidence,
    date_cells: u32,
    other_cells: u32,
}

/// What the cells of each column prove: pieces of rows on all cores, each row once for all of its columns.
pub fn evidence_of(grid: &Grid, table: &Table) -> Vec<Evidence> {
    let looks: Vec<(usize, u32, Field)> = (table.columns.iter().enumerate())
        .map(|(at, column)| (at, column.index, column.header.field))
        .filter(|(_, _, field)| {
            let may_be_stray = is_lead_time(*field) && grid.lines().is_none();
            field.is_number() || field.is_date() || may_be_stray
        })
        .collect();
    let proved = parallel::each(&starts_of_pieces(table), |start| {
        let mut found = vec![Evidence::default(); table.columns.len()];
        for row in *start..table.end_row.min(start + ROWS_OF_A_PIECE) {
            let cells = grid.lines().map(|lines| lines.cells_of(row));
            for (at, column, field) in &looks {
                let cell = match &cells {
                    // An error value proves nothing about numbers and dates.
                    Some(cells) => match cells.cell(*column) {
                        "" => continue,
                        text => Cell::Text(text),
                    },
                    None => grid.cell(row, *column),
                };
                found[*at].add(cell, *field);
            }
        }
        found
    });
    let mut whole = vec![Evidence::default(); table.columns.len()];
    for piece in proved {
        for (all, more) in whole.iter_mut().zip(piece) {
            all.numbers.join(more.numbers);
            all.dates.join(more.dates);
            all.date_cells += more.date_cells;
            all.other_cells += more.other_cells;
        }
    }
    whole
}

impl Evidence {
    /// True for columns of lead times where a fifth of the filled cells or fewer are dates.
    pub fn is_date_stray(&self, says_unit: bool) -> bool {
        let (dates, others) = (self.date_cells, self.other_cells);
        // Under a header that says weeks or days a date is a stray one unless most others are dates too.
        dates > 0 && (dates * 4 <= others || says_unit && dates <= others)
    }

    fn add(&mut self, cell: Cell<'_>, field: Field) {
        match cell {
            Cell::Text(text) if field.is_date() => self.dates.add(text),
            Cell::Text(text) if field.is_number() => self.numbers.add(text),
            Cell::Date(moment) if lies_near(field) => self.dates.add_day(moment.date()),
            _ => {}
        }
        match cell {
            Cell::Empty => {}
            Cell::Date(_) => self.date_cells += 1,
            _ => self.other_cells += 1,
        }
    }
}

/// True for fields whose days lie near each other in one table: no days of cure, no ages of machines.
pub fn lies_near(field: Field) -> bool {
    field.is_date()
        && !matches!(
            field,
            Field::CureDate | Field::UsableUntil | Field::InUseFrom | Field::InUseUntil
        )
}

/// True for fields of lead times.
pub fn is_lead_time(field: Field) -> bool {
    matches!(field, Field::LeadTime | Field::ExpediteLeadTime)
}
