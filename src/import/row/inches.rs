//! Whether a table whose lengths have no unit is in inches.

use crate::import::cell::Cell;
use crate::import::field::Field;
use crate::import::table::Table;
use crate::part::SizeKey;
use crate::standard;
use crate::units::LengthUnit;

use super::context::{InchDoubt, TableContext};
use super::memo::Memo;
use super::named_part::read_identity;
use super::reader::RowReader;

/// Rows looked at for the unit of lengths; a long list is the same all through.
const ROWS_LOOKED_AT: u32 = 200;

/// Least rows that prove anything about the unit. Common practice, no source.
const LEAST_ROWS_IN_INCHES: usize = 2;

impl TableContext<'_> {
    /// Looks whether the rows are standard sizes in inches rather than in millimetres; call before the rows are read.
    ///
    /// Where nothing names a unit and no row is a standard size in millimetres, the table is in inches, which `why`
    /// says. Otherwise the doubt is kept, and rows that may be either are told.
    pub fn look_for_inches(&mut self, table: &Table, why: &mut Vec<String>) {
        if !self.columns.iter().any(|column| {
            (column.field.is_length() || column.field == Field::Size)
                && matches!(column.states.length, None | Some(LengthUnit::Mm))
        }) {
            return;
        }
        let (mut in_inches, mut in_mm, mut looked) = (0, 0, 0);
        let mut scratch = Vec::new();
        let mut memo = Memo::new(self);
        for row in table.first_row..table.end_row {
            scratch.clear();
            let identity = read_identity(&mut RowReader::new(self, row, &mut memo, &mut scratch));
            let is_inch = scratch.iter().any(|issue| issue.problem.is_inch_slip());
            let is_standard = |size: SizeKey| !standard::of_size(&size).is_empty();
            in_inches += usize::from(is_inch);
            in_mm +=
                usize::from(identity.size.is_some_and(is_standard) && self.is_without_unit(row));
            looked += usize::from(is_inch || identity.size.is_some());
            if row - table.first_row == ROWS_LOOKED_AT {
                break;
            }
        }
        if in_inches >= LEAST_ROWS_IN_INCHES && in_inches > in_mm {
            let is_unit_named = self.title.states.length.is_some()
                || self
                    .columns
                    .iter()
                    .any(|column| column.states.length.is_some());
            if in_mm == 0 && !is_unit_named {
                self.unit = LengthUnit::Inch;
                why.push(format!(
                    "no unit of length is named, and {in_inches} of {looked} sizes are standard ones in inches only: read as inches"
                ));
                return;
            }
            self.inch_doubt = Some(InchDoubt {
                in_inches,
                rows: looked,
            });
        }
    }

    /// True where the lengths of a row are bare numbers: a fraction or a sign tells its unit itself.
    fn is_without_unit(&self, row: u32) -> bool {
        let lengths = self
            .columns
            .iter()
            .filter(|column| column.field.is_length() || column.field == Field::Size);
        lengths
            .map(|column| self.grid.cell(row, column.index))
            .all(|cell| match cell {
                Cell::Text(text) => text
                    .chars()
                    .all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | ' ' | 'x' | '×')),
                _ => true,
            })
    }
}
