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

/// Where the cells of a text, or of a piece of it, are.
#[derive(Debug, Clone, Default)]
pub struct Layout {
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
        self.layout.rows.len().max(1) as u32
    }

    /// Number of cells in a row up to the last filled one.
    pub fn width(&self, row: u32) -> u32 {
        let rows = &self.layout.rows;
        let Some(start) = rows.get(row as usize) else {
            return 0;
        };
        let end = rows
            .get(row as usize + 1)
            .map_or(self.layout.ends.len() as u32, |next| next.cell);
        end - start.cell
    }

    /// The text of a cell, without blanks at its ends; empty where there is none.
    pub fn cell(&self, row: u32, column: u32) -> &str {
        if column >= self.width(row) {
            return "";
        }
        let row = self.layout.rows[row as usize];
        let at = row.cell as usize + column as usize;
        let start = if column == 0 {
            row.text
        } else {
            self.layout.ends[at - 1] + 1
        };
        let end = self.layout.ends[at];
        let text = self
            .text
            .get(start as usize..end as usize)
            .unwrap_or_default();
        let is_bare = |byte: Option<&u8>| byte.is_some_and(|byte| (b'!'..=b'~').contains(byte));
        let bytes = text.as_bytes();
        if is_bare(bytes.first()) && is_bare(bytes.last()) {
            text
        } else {
            text.trim()
        }
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
        let mut whole = Self::default();
        let laid_out: Vec<Self> = laid_out.into_iter().collect::<Option<_>>()?;
        whole
            .rows
            .reserve_exact(laid_out.iter().map(|piece| piece.rows.len()).sum());
        whole
            .ends
            .reserve_exact(laid_out.iter().map(|piece| piece.ends.len()).sum());
        for piece in laid_out {
            let before = whole.ends.len() as u32;
            whole.rows.extend(piece.rows.iter().map(|row| Row {
                cell: row.cell + before,
                ..*row
            }));
            whole.ends.extend_from_slice(&piece.ends);
        }
        // Blank rows at the end are no rows.
        let filled = whole
            .rows
            .partition_point(|row| (row.cell as usize) < whole.ends.len());
        whole.rows.truncate(filled);
        (whole.rows.len() <= MAX_ROWS as usize && whole.ends.len() < MAX_CELLS).then_some(whole)
    }
}

/// Lays out whole lines from one byte to another.
fn piece(text: &str, (start, end): (usize, usize), delimiter: u8) -> Option<Layout> {
    let bytes = text.as_bytes().get(start..end)?;
    let mut layout = Layout::default();
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
    layout: &mut Layout,
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
