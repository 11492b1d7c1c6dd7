//! How cells are shown: in a currency, in percent, crossed out. Kept as runs down each column, as people format them.

use crate::units::Currency;

/// How one cell is shown.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Shown {
    /// Currency of its number format.
    pub currency: Option<Currency>,
    /// True where its number is shown in percent: 0.3 as `30 %`.
    pub is_percent: bool,
    /// True where its font is crossed out.
    pub is_crossed_out: bool,
}

/// Rows of a column that are shown alike, from first to last.
#[derive(Debug, Clone, Copy)]
struct Run {
    first: u32,
    last: u32,
    shown: Shown,
}

/// How the cells of a sheet are shown; those of no special look take no room.
#[derive(Debug, Clone, Default)]
pub struct ShownCells {
    columns: Vec<Vec<Run>>,
    has_crossed_out: bool,
}

impl ShownCells {
    /// Notes a cell; cells of a column come from top to bottom.
    pub fn push(&mut self, row: u32, column: u32, shown: Shown) {
        let column = column as usize;
        if column >= self.columns.len() {
            self.columns.resize(column + 1, Vec::new());
        }
        self.has_crossed_out |= shown.is_crossed_out;
        let runs = &mut self.columns[column];
        match runs.last_mut() {
            Some(run) if run.shown == shown && run.last.checked_add(1) == Some(row) => {
                run.last = row;
            }
            // A cell that comes again, or out of order, keeps what was noted first.
            Some(run) if run.last >= row => {}
            _ => runs.push(Run {
                first: row,
                last: row,
                shown,
            }),
        }
    }

    /// How a cell is shown.
    pub fn get(&self, row: u32, column: u32) -> Shown {
        let Some(runs) = self.columns.get(column as usize) else {
            return Shown::default();
        };
        let behind = runs.partition_point(|run| run.first <= row);
        let run = behind.checked_sub(1).and_then(|at| runs.get(at));
        run.filter(|run| row <= run.last)
            .map_or_else(Shown::default, |run| run.shown)
    }

    /// True where any cell is crossed out.
    pub const fn has_crossed_out(&self) -> bool {
        self.has_crossed_out
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cell_is_shown_as_noted_and_all_others_plainly() {
        let crossed = Shown {
            is_crossed_out: true,
            ..Shown::default()
        };
        let percent = Shown {
            is_percent: true,
            ..Shown::default()
        };
        let mut cells = ShownCells::default();
        // A brute-force copy beside the runs.
        let mut noted = std::collections::BTreeMap::new();
        for (row, column, shown) in [
            (1, 2, crossed),
            (2, 0, percent),
            (2, 2, crossed),
            (3, 2, percent),
            (5, 2, percent),
            (6, 2, percent),
        ] {
            cells.push(row, column, shown);
            noted.insert((row, column), shown);
        }
        assert!(cells.has_crossed_out());
        for row in 0..9 {
            for column in 0..4 {
                let expected = noted.get(&(row, column)).copied().unwrap_or_default();
                assert_eq!(cells.get(row, column), expected, "{row} {column}");
            }
        }
    }
}
