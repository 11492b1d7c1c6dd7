//! Rows of text files whose cells have slipped to the right, so that each means something else than its header says.

use crate::import::cell::Cell;
use crate::import::grid::Grid;
use crate::import::table::Table;
use crate::import::text_table::ROWS_SEPARATED;

/// Fewest rows that show what is usual in a table. Common practice, no source.
const FEWEST_USUAL: usize = 3;
/// Largest share of rows that slip; where more are filled behind the header, a column without a name stands there. Common
/// practice, no source.
const MOST_SLIPPED_SHARE: f64 = 0.25;
/// Least share of the usual rows in which a column is filled that every row should fill. Common practice, no source.
const ALWAYS_FILLED_SHARE: f64 = 0.9;

/// By what rows of a table are known to have slipped.
#[derive(Debug, Default)]
pub struct Slips {
    /// Cells of the header; a row of more has slipped.
    pub header_cells: Option<u32>,
    /// True where a closer look at a row may tell of a slip although it has no filled cell too many.
    pub may_be_hidden: bool,
    /// True where empty cells behind those of the header may tell of one.
    may_empty_ones_slip: bool,
    /// Of a header that ends in cells without a name.
    unnamed: Option<Unnamed>,
}

/// What is usual below a header that ends in cells without a name.
#[derive(Debug)]
struct Unnamed {
    /// Cells of the header up to the last name.
    named: u32,
    /// Columns that are filled nearly always.
    always: Vec<u32>,
    /// True where rows hold two figures beside each other, as the pieces of `3,50` are.
    has_pairs: bool,
}

impl Slips {
    /// Looks through the first rows of a table.
    pub(super) fn of(grid: &Grid, table: &Table) -> Self {
        let Some(cells) = header_cells(grid, table) else {
            return Self::default();
        };
        let may_empty_ones_slip = may_empty_cells_slip(grid, table, cells);
        let unnamed = Unnamed::of(grid, table, cells);
        Self {
            header_cells: Some(cells),
            may_be_hidden: may_empty_ones_slip || unnamed.is_some(),
            may_empty_ones_slip,
            unnamed,
        }
    }

    /// Cells of a row that has slipped and of its header: a cell may hold the sign that separates columns, as `3,50` between
    /// commas, and all that stands right of it means something else. `None` for rows that have not.
    pub(super) fn wider(&self, grid: &Grid, row: u32) -> Option<(u32, u32)> {
        let header = self.header_cells?;
        let filled = grid.width(row);
        if filled > header {
            return Some((filled, header));
        }
        if self.may_empty_ones_slip && is_slipped_with_empty_end(grid, row, header) {
            return Some((grid.separated(row).unwrap_or(filled), header));
        }
        let unnamed = self.unnamed.as_ref()?;
        let has_slipped = filled > unnamed.named && unnamed.is_slipped(grid, row);
        has_slipped.then_some((filled, unnamed.named))
    }
}

impl Unnamed {
    fn of(grid: &Grid, table: &Table, cells: u32) -> Option<Self> {
        let headers = table.header_row.saturating_sub(1)..table.first_row;
        let printed = headers.map(|row| grid.width(row)).max()?;
        let mapped = table.columns.iter().map(|column| column.index + 1).max();
        let named = printed.max(mapped.unwrap_or(0));
        let first = table.first_row..table.end_row.min(table.first_row + ROWS_SEPARATED as u32);
        let (filled, usual): (Vec<u32>, Vec<u32>) = first
            .filter(|row| grid.width(*row) > 1)
            .partition(|row| grid.width(*row) > named);
        let rows = filled.len() + usual.len();
        let is_few = filled.len() as f64 <= MOST_SLIPPED_SHARE * rows as f64;
        if named >= cells || usual.len() < FEWEST_USUAL || !is_few {
            return None;
        }
        let is_most = |count: usize| count as f64 >= ALWAYS_FILLED_SHARE * usual.len() as f64;
        let is_always_filled = |column: &u32| {
            let filled = usual
                .iter()
                .filter(|row| grid.cell(**row, *column) != Cell::Empty);
            is_most(filled.count())
        };
        Some(Self {
            named,
            always: (0..named).filter(is_always_filled).collect(),
            has_pairs: usual.iter().any(|row| holds_pieces(grid, *row, named)),
        })
    }

    /// True for a row that lacks what every row has, or holds the two pieces of a figure where no other row has such.
    fn is_slipped(&self, grid: &Grid, row: u32) -> bool {
        let lacks = |column: &u32| grid.cell(row, *column) == Cell::Empty;
        let is_split = grid.is_split_by_commas() && !self.has_pairs;
        self.always.iter().any(lacks) || is_split && holds_pieces(grid, row, self.named + 1)
    }
}

/// Cells of a header in a text file: the widest of its rows, and columns that a mapping names.
fn header_cells(grid: &Grid, table: &Table) -> Option<u32> {
    let rows = table.header_row.saturating_sub(1)..table.first_row;
    let cells = rows.filter_map(|row| grid.separated(row)).max()?;
    let mapped = table.columns.iter().map(|column| column.index + 1).max();
    Some(cells.max(mapped.unwrap_or(0)))
}

/// True where a comma within `3,50` may have made rows wider whose last cell is empty: another row has a filled cell too
/// many, or only some have an empty one. Where all have it alike, a program ended each row with a comma.
fn may_empty_cells_slip(grid: &Grid, table: &Table, cells: u32) -> bool {
    if !grid.is_split_by_commas() {
        return false;
    }
    let first = table.first_row..table.end_row.min(ROWS_SEPARATED as u32);
    let (wide, fitting): (Vec<u32>, Vec<u32>) = first
        .filter(|row| grid.width(*row) > 1)
        .partition(|row| grid.separated(*row).is_some_and(|count| count > cells));
    let is_filled = |row: u32| grid.width(row) > cells;
    wide.iter().any(|row| !is_filled(*row))
        && (!fitting.is_empty() || (table.first_row..table.end_row).any(is_filled))
}

/// True for a row with more cells than its header, of which those behind are empty, that holds the two pieces of a figure.
fn is_slipped_with_empty_end(grid: &Grid, row: u32, cells: u32) -> bool {
    grid.separated(row).is_some_and(|count| count > cells) && holds_pieces(grid, row, cells)
}

/// True where two of the first cells of a row that stand beside each other are figures without any sign.
fn holds_pieces(grid: &Grid, row: u32, cells: u32) -> bool {
    let is_figures = |column: u32| match grid.cell(row, column) {
        Cell::Text(text) => !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit()),
        _ => false,
    };
    (1..cells).any(|column| is_figures(column - 1) && is_figures(column))
}
