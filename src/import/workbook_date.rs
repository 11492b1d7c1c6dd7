//! The date of a list that only one sheet of its workbook states.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;

use crate::record::DateOrder;

use super::grid::Grid;
use super::table::Table;
use super::title::read_title;

/// Rows of a sheet without a table that may be a cover. Common practice, no source.
const LONGEST_COVER: u32 = 40;

/// A date that holds for the sheets of a workbook that state none.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkbookDate {
    /// The date.
    date: NaiveDate,
    /// Sheet that states it; the first of several.
    sheet: Arc<str>,
}

impl WorkbookDate {
    /// The one date that titles of the sheets state; `None` where they state none, or several that differ.
    ///
    /// `tables` are those of each sheet. A short sheet without a table is read as a cover.
    pub fn of(grids: &[Grid], tables: &[Vec<Table>], order: DateOrder) -> Option<Self> {
        if grids.len() < 2 {
            return None;
        }
        let mut stated: BTreeMap<NaiveDate, &Arc<str>> = BTreeMap::new();
        for (grid, tables) in grids.iter().zip(tables) {
            let date = match tables.first() {
                Some(table) => table.title.dated,
                None if grid.row_count() <= LONGEST_COVER => {
                    read_title(grid, 0, grid.row_count(), order).dated
                }
                None => None,
            };
            if let Some(date) = date {
                stated.entry(date).or_insert(&grid.sheet);
            }
        }
        let (date, sheet) = stated.pop_first()?;
        stated.is_empty().then(|| Self {
            date,
            sheet: Arc::clone(sheet),
        })
    }

    /// The date, for a sheet that states none; says so in `why`.
    pub fn told(&self, sheet: &str, why: &mut Vec<String>) -> NaiveDate {
        if *self.sheet != *sheet {
            why.push(format!(
                "dated {}, as sheet `{}` of the workbook says",
                self.date, self.sheet
            ));
        }
        self.date
    }
}
