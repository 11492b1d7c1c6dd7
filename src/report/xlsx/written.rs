//! What is left to know of a sheet once it is written.

/// What the workbook as a whole must know of a sheet.
pub(super) struct Written {
    /// Last row with anything on it, from 0.
    pub(super) last_row: u32,
    /// Last column with anything on it, from 0.
    pub(super) last_column: u16,
    /// Width in characters of all columns.
    pub(super) width: u16,
    /// Columns that name a row, from the first on: they are printed on each page.
    pub(super) name_columns: u16,
    /// Names of cells for formulas of the reader's own, each with the cell (`'Order now'!$H$93`).
    pub(super) names: Vec<(String, String)>,
}
