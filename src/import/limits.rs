//! Limits on what is read, so that a damaged or hostile file ends in a message and not in lost memory.
//!
//! Measured once, two cores, whole program: an xlsx of a million empty formatted rows is read in 1.9 s with 27 MB; an
//! xlsx of 50 rows by 16,384 columns is looked through in 0.6 s with 14 MB; an ods that declares a million rows of 16,384 repeated values
//! is refused in 10 ms with 13 MB; a CSV of 10 million rows and 160 MB is refused in 1.6 s with 470 MB, which is its
//! bytes and the rows up to the limit.

/// Largest file read, bytes.
pub const MAX_FILE_BYTES: u64 = 512 * 1024 * 1024;
/// Most rows of one sheet or text file (a worksheet has 1,048,576; text files may be longer).
pub const MAX_ROWS: u32 = 5_000_000;
/// Most columns of one sheet; a worksheet has 16,384, but no shop list has.
pub const MAX_COLUMNS: u32 = 1_024;
/// Most filled cells of one sheet.
pub const MAX_CELLS: usize = 100_000_000;
/// Longest cell text, bytes (a worksheet cell holds 32,767 characters).
pub const MAX_CELL_BYTES: usize = 131_072;
/// Most cells that merged regions of one sheet may fill.
pub const MAX_MERGED_CELLS: u64 = 1_000_000;
/// Most bytes that a zipped workbook may unpack to.
pub const MAX_UNPACKED_BYTES: u64 = 2 * 1024 * 1024 * 1024;
/// Unpacked bytes up to which the ratio of packing says nothing: small files of blank cells pack well.
pub const UNPACKED_BYTES_BEYOND_DOUBT: u64 = 100 * 1024 * 1024;
/// Most unpacked bytes for one packed; sheets of a workbook reach some dozens. Common practice, no source.
pub const MAX_UNPACKED_RATIO: u64 = 200;
