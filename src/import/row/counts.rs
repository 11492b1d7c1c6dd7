//! Rows of a table by what became of them.

/// Rows of a table by what became of them.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct TableCounts {
    /// Rows looked at as data.
    pub read: usize,
    /// Of these, rejected.
    pub rejected: usize,
    /// Blank rows.
    pub blank: usize,
    /// Total and subtotal rows.
    pub totals: usize,
    /// Repeated header rows.
    pub headers: usize,
    /// Rows of a single long text: notes.
    pub notes: usize,
    /// Rows of a single text that head the rows below them.
    pub headings: usize,
}

impl TableCounts {
    /// Adds the rows of another piece of the table.
    pub(super) fn add(&mut self, other: Self) {
        self.read += other.read;
        self.rejected += other.rejected;
        self.blank += other.blank;
        self.totals += other.totals;
        self.headers += other.headers;
        self.notes += other.notes;
        self.headings += other.headings;
    }
}
