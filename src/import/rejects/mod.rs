//! Rows to mend: rejected and doubtful rows with their cells as they were; `mended_rows` reads them back after mending.
//!
//! Belongs here: what is kept of such rows and of the table they come from, so that a workbook of mended rows is read
//! as the table itself was: same kind, columns, units, supplier and date. The workbook is written by `report`. Does not
//! belong here: what is wrong with a row, which the readers of values say.
//!
//! Each mended row says which row of which file it mends ([`MendedRow`]), so that a workspace puts it in the place of
//! that row. Without a workspace nothing could be replaced; rows of a workbook of rejects are therefore read from a folder
//! of their own.

mod collect;
mod kept_cell;
mod mended;
mod origin;

pub use collect::{RejectMark, RejectRow, RejectTable};
pub use kept_cell::KeptCell;
pub use mended::MendedRow;
pub use origin::{ColumnOrigin, StatedOrigin, TableOrigin};

pub(super) use collect::collect;
pub(super) use kept_cell::unkept;
pub(super) use mended::mended_rows;
pub(super) use origin::{is_rejects, origins_sheet};

/// Name of the workbook of rows to mend.
pub const REJECTS_NAME: &str = "rejects.xlsx";
/// Hidden sheet that says how the tables of the workbook are read.
pub const ORIGINS_SHEET: &str = "Origins";
/// Text in the first cell of that sheet.
pub const REJECTS_MARK: &str = "sparewright rejects";
/// Header of the column that says where a row stands in its file, by which a mended row finds the one it mends.
pub const ROW_HEADER: &str = "Row in the file";
/// The same in every language it is written in: a workbook is read whatever language it was written in.
pub const ROW_HEADERS: [&str; 2] = [ROW_HEADER, "Zeile in der Datei"];
/// Version of the form beside the mark.
pub const REJECTS_VERSION: &str = "1";
/// First row of that sheet with a table, from 0: name of the sheet, then the table as JSON.
pub const FIRST_ORIGIN_ROW: u32 = 2;
