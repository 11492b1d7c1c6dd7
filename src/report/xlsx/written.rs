//! What is left to know of a sheet once it is written.

/// What the workbook as a whole must know of a sheet.
pub(super) struct Written {
    /// Last row with anything on it, from 0.
    pub(super) last_row: u32,
    /// Last column with anything on it, from 0.
    pub(super) last_column: u16,
    /// Names of cells for formulas of the reader's own, each with the cell (`'Order now'!$H$93`).
    pub(super) names: Vec<(String, String)>,
}
