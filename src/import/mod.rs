//! A folder of spreadsheets in; records, row issues and notes on how each table was read out.
//!
//! The way of a cell: a file becomes [`Grid`]s (`workbook`, `text_table`); header rows and the kind of each table
//! are found by their words (`find_table`, `header`, `table_kind`); each row becomes a record (`row`), each value
//! is read by the reader of its sort (`value`). Nothing here looks parts up across tables or plans anything.

mod bare_number;
mod cell;
mod column_groups;
mod column_values;
mod damage;
mod dates_in_lines;
mod dimension_columns;
mod dry_run;
mod false_workbook;
mod family_words;
mod field;
mod file_bytes;
mod file_kind;
mod file_problem;
mod find_table;
mod fold;
mod folder;
mod footer;
pub mod formula_text;
mod grid;
mod guard;
mod header;
mod header_rows;
mod holds_for;
mod imported;
mod issue;
mod kind_words;
pub mod limits;
mod lines;
mod list_supplier;
mod material_number;
mod mended_rows;
mod movement_column;
mod nearest_header;
mod ole_limits;
mod options;
mod order_quantity;
mod other_thing;
mod owner;
mod progress;
mod reading;
mod rejects;
mod returned;
mod row;
mod settings_file;
mod shape;
mod shipped;
mod shown;
mod side_by_side;
mod stated;
mod synonyms;
mod table;
mod table_kind;
mod tax_words;
mod terms;
mod text_table;
mod title;
pub mod value;
mod whole_list;
mod workbook;
mod workbook_date;
mod workbook_shown;
mod zip_limits;
mod zip_parts;

pub use cell::Cell;
pub use dry_run::{ColumnDryRun, TableDryRun};
pub use family_words::family_in;
pub use field::Field;
pub use file_problem::{FileError, FileProblem, FileRead, SkipReason, SkippedFile};
pub use folder::{
    ImportError, Known, OWN_REPORT_MARK, OWN_REPORT_SHEET, read_folder, read_folder_knowing,
    read_folder_with, read_paths,
};
pub use grid::{Grid, GridBuilder, GridError};
pub use header::How;
pub use imported::Imported;
pub use issue::{Problem, RowIssue, Severity};
pub use mended_rows::read_rejects;
pub use ole_limits::OleLimit;
pub use options::{ColumnMap, ImportOptions, MapError, MapScope, MappedColumn};
pub use progress::{Progress, Step};
pub use reading::{ColumnRead, TableRead, UnreadColumn};
pub use rejects::{
    ColumnOrigin, FIRST_ORIGIN_ROW, KeptCell, MendedRow, ORIGINS_SHEET, REJECTS_MARK, REJECTS_NAME,
    REJECTS_VERSION, ROW_HEADER, RejectMark, RejectRow, RejectTable, StatedOrigin, TableOrigin,
};
pub use row::TableCounts;
pub use shape::Shape;
pub use stated::Stated;
pub use table_kind::KindScore;
pub use text_table::TextTableError;
pub use workbook::WorkbookError;
pub use zip_limits::ZipLimit;
