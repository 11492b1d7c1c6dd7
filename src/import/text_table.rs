//! Text files: encoding and delimiter are told from the contents, quotes are read by the csv crate.

use std::borrow::Cow;
use std::sync::Arc;

use super::cell::Cell;
use super::formula_text::{is_own_form, read_back};
use super::grid::{Grid, GridBuilder, GridError};
use super::lines::{Layout, Lines};
use crate::digest::sha256;
use crate::parallel;

/// Byte order mark of UTF-8.
const UTF8_MARK: &[u8] = b"\xef\xbb\xbf";
/// Lines looked at to tell the delimiter.
const SNIFFED_LINES: usize = 40;
/// First rows of which it is kept how many cells are separated, so that a header may have columns without a name.
pub(super) const ROWS_SEPARATED: usize = 1_000;
/// Delimiters tried; the first holds where two do equally well.
const DELIMITERS: [u8; 4] = [b';', b'\t', b',', b'|'];

/// Why a text file could not be read.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum TextTableError {
    /// Bytes that no text has.
    #[error("the file holds zero bytes and is no text")]
    Binary,
    /// A record could not be read.
    #[error("the text is no table: {0}")]
    Csv(#[from] csv::Error),
    /// A limit was broken.
    #[error(transparent)]
    Limit(#[from] GridError),
}

/// Reads a text file as one [`Grid`] of texts; its notes say which encoding and delimiter were told. The SHA-256 of the
/// bytes comes with it, since both are worked out at the same time.
///
/// # Errors
/// [`TextTableError`] for files that are no text or break a limit.
pub fn read_text_table(file: &Arc<str>, bytes: Vec<u8>) -> (String, Result<Grid, TextTableError>) {
    match plain_text(bytes) {
        Ok(text) => {
            let delimiter = sniff(&text);
            let (sum, layout) =
                parallel::both(|| sha256(text.as_bytes()), || Layout::of(&text, delimiter));
            (sum, grid_of(file, text, "UTF-8", delimiter, layout))
        }
        Err(bytes) => {
            let read = decode(&bytes).and_then(|(text, encoding)| {
                let delimiter = sniff(&text);
                if is_own_form(&text, bytes.starts_with(UTF8_MARK)) {
                    let grid = read_records(file, &text, delimiter, read_back)?;
                    return Ok(noted(grid, encoding, delimiter));
                }
                let layout = Layout::of(&text, delimiter);
                grid_of(file, text.into_owned(), encoding, delimiter, layout)
            });
            (sha256(&bytes), read)
        }
    }
}

/// The text of bytes that are UTF-8 without a mark, which need no copy; other bytes come back.
fn plain_text(bytes: Vec<u8>) -> Result<String, Vec<u8>> {
    if encoding_rs::Encoding::for_bom(&bytes).is_some()
        || wide_without_mark(&bytes).is_some()
        || bytes.contains(&0)
    {
        return Err(bytes);
    }
    String::from_utf8(bytes).map_err(std::string::FromUtf8Error::into_bytes)
}

/// The grid of a text: as it was laid out, else by the csv crate.
fn grid_of(
    file: &Arc<str>,
    text: String,
    encoding: &str,
    delimiter: u8,
    layout: Option<Layout>,
) -> Result<Grid, TextTableError> {
    let grid = match layout {
        Some(layout) => {
            // A text that is laid out holds no quotes.
            let cells =
                |line: &str| line.bytes().filter(|byte| *byte == delimiter).count() as u32 + 1;
            let separated = text.lines().take(ROWS_SEPARATED).map(cells).collect();
            let mut grid = Grid::of_lines(file, Lines::new(text, layout));
            grid.set_separated(separated, delimiter);
            grid
        }
        None => read_records(file, &text, delimiter, |value| value)?,
    };
    Ok(noted(grid, encoding, delimiter))
}

fn noted(mut grid: Grid, encoding: &str, delimiter: u8) -> Grid {
    grid.notes.push(format!(
        "read as {encoding}, columns separated by {}",
        name_of(delimiter)
    ));
    grid
}

/// Reads the records of a text whose cells may be quoted; `plain` gives the text of a cell.
fn read_records(
    file: &Arc<str>,
    text: &str,
    delimiter: u8,
    plain: impl Fn(&str) -> &str,
) -> Result<Grid, TextTableError> {
    let mut builder = GridBuilder::new(file, "");
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(delimiter)
        .from_reader(text.as_bytes());
    let mut record = csv::StringRecord::new();
    // The csv crate leaves blank lines out; they are counted so that rows stay where the user sees them.
    let mut row = 0;
    let mut separated = Vec::new();
    loop {
        let start = reader.position().byte() as usize;
        if !reader.read_record(&mut record)? {
            break;
        }
        row += blank_lines_at(text, start);
        for (column, value) in record.iter().enumerate() {
            builder.push(row, column as u32, Cell::Text(plain(value)))?;
        }
        if (row as usize) < ROWS_SEPARATED {
            separated.resize(row as usize, 0);
            separated.push(record.len() as u32);
        }
        row += 1;
    }
    let mut grid = builder.finish()?;
    grid.set_separated(separated, delimiter);
    Ok(grid)
}

/// Blank lines from a byte on; the reader may have left the second half of `\r\n` before it.
fn blank_lines_at(text: &str, start: usize) -> u32 {
    let bytes = text.as_bytes();
    let rest = bytes.get(start..).unwrap_or_default();
    let breaks = rest
        .iter()
        .take_while(|byte| matches!(byte, b'\n' | b'\r'))
        .filter(|byte| **byte == b'\n')
        .count() as u32;
    let is_half = start > 0 && bytes.get(start - 1) == Some(&b'\r') && rest.first() == Some(&b'\n');
    breaks - u32::from(is_half)
}

/// The text and the name of its encoding.
fn decode(bytes: &[u8]) -> Result<(Cow<'_, str>, &'static str), TextTableError> {
    if let Some((encoding, _)) = encoding_rs::Encoding::for_bom(bytes) {
        let (text, _, _) = encoding.decode(bytes);
        return Ok((text, encoding.name()));
    }
    if let Some(encoding) = wide_without_mark(bytes) {
        let (text, _) = encoding.decode_without_bom_handling(bytes);
        return Ok((text, encoding.name()));
    }
    if bytes.contains(&0) {
        return Err(TextTableError::Binary);
    }
    match std::str::from_utf8(bytes) {
        Ok(text) => Ok((Cow::Borrowed(text), "UTF-8")),
        Err(_) => {
            let (text, _) = encoding_rs::WINDOWS_1252.decode_without_bom_handling(bytes);
            Ok((text, "Windows-1252"))
        }
    }
}

/// UTF-16 without a mark: nearly every other byte of western text is zero.
fn wide_without_mark(bytes: &[u8]) -> Option<&'static encoding_rs::Encoding> {
    let head = &bytes[..bytes.len().min(512)];
    if head.len() < 4 || !bytes.len().is_multiple_of(2) {
        return None;
    }
    let zeros = |offset: usize| {
        head.iter()
            .skip(offset)
            .step_by(2)
            .filter(|byte| **byte == 0)
            .count()
    };
    let half = head.len() / 2;
    match (zeros(0), zeros(1)) {
        (0, odd) if odd * 10 > half * 8 => Some(encoding_rs::UTF_16LE),
        (even, 0) if even * 10 > half * 8 => Some(encoding_rs::UTF_16BE),
        _ => None,
    }
}

/// The delimiter that splits most of the first lines into the same number of columns, more than one.
fn sniff(text: &str) -> u8 {
    let mut best = (b';', 0.0_f64);
    for delimiter in DELIMITERS {
        let counts: Vec<usize> = text
            .lines()
            .filter(|line| !line.trim().is_empty())
            .take(SNIFFED_LINES)
            .map(|line| count_outside_quotes(line, delimiter))
            .collect();
        let Some(most) = counts.iter().copied().filter(|count| *count > 0).max() else {
            continue;
        };
        let usual = (1..=most)
            .max_by_key(|n| (counts.iter().filter(|count| *count == n).count(), *n))
            .unwrap_or(most);
        let agreeing = counts.iter().filter(|count| **count == usual).count() as f64;
        // Commas of prices and addresses beside a short table are in more lines, but there are fewer of them.
        let score = agreeing / counts.len() as f64 * usual as f64;
        if score > best.1 {
            best = (delimiter, score);
        }
    }
    best.0
}

fn count_outside_quotes(line: &str, delimiter: u8) -> usize {
    let mut is_quoted = false;
    line.bytes()
        .filter(|byte| {
            is_quoted ^= *byte == b'"';
            *byte == delimiter && !is_quoted
        })
        .count()
}

const fn name_of(delimiter: u8) -> &'static str {
    match delimiter {
        b'\t' => "tabs",
        b',' => "commas",
        b'|' => "strokes",
        _ => "semicolons",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(bytes: &[u8]) -> Grid {
        read_text_table(&"a.csv".into(), bytes.to_vec()).1.unwrap()
    }

    #[test]
    fn tells_delimiters_by_their_consistency() {
        for (text, delimiter) in [
            ("a;b;c\n1,5;2,5;3\n", b';'),
            ("a,b,c\n1.5,2.5,3\n", b','),
            ("a\tb\n1,5\t2;5\n", b'\t'),
            ("a|b|c\n1|2|3\n", b'|'),
            ("a,b\n\"1;2;3;4\",2\n\"1;2;3;4\",2\n", b','),
            (
                "Street 5, Town\na;b;c\n1;2;3,5\nplus 9,50\nplus 1,50\n",
                b';',
            ),
        ] {
            assert_eq!(sniff(text), delimiter, "{text}");
        }
    }

    #[test]
    fn tells_encodings() {
        assert_eq!(
            read(b"St\xfcck;Preis \x80\n1;2\n").cell(0, 1),
            Cell::Text("Preis €")
        );
        assert_eq!(
            read("\u{feff}Stück;b\n".as_bytes()).cell(0, 0),
            Cell::Text("Stück")
        );
        let wide: Vec<u8> = "Stück\tb\n1\t2\n"
            .encode_utf16()
            .flat_map(u16::to_le_bytes)
            .collect();
        assert_eq!(read(&wide).cell(0, 0), Cell::Text("Stück"));
        let wide: Vec<u8> = "\u{feff}Stück\tb\n"
            .encode_utf16()
            .flat_map(u16::to_be_bytes)
            .collect();
        assert_eq!(read(&wide).cell(0, 0), Cell::Text("Stück"));
        let (_, damaged) = read_text_table(&"a.csv".into(), b"a;b\0c\x01\x02".to_vec());
        assert!(damaged.is_err());
    }

    #[test]
    fn rows_keep_their_numbers_past_blank_lines() {
        let grid = read(b"\n\na;b\n\n1;2\r\n\r\n\r\n3;4\n");
        assert_eq!(grid.cell(2, 0), Cell::Text("a"));
        assert_eq!(grid.cell(4, 0), Cell::Text("1"));
        assert_eq!(grid.cell(7, 0), Cell::Text("3"));
    }

    #[test]
    fn columns_without_a_name_are_counted_where_a_sign_separates_them() {
        for text in ["\n\na;b;;\n1;2\n", "\n\n\"a\";b;;\n1;2\n"] {
            let grid = read(text.as_bytes());
            assert_eq!((grid.width(2), grid.separated(2)), (2, Some(4)), "{text}");
            assert_eq!(grid.separated(3), Some(2), "{text}");
        }
    }

    /// Every cell of a text as the csv crate gives it, and as it is laid out.
    fn both_ways(text: &str) -> (Grid, Option<Grid>) {
        let file: Arc<str> = "a.csv".into();
        let records = read_records(&file, text, b';', |value| value).unwrap();
        let lines = Layout::of(text, b';')
            .map(|layout| Grid::of_lines(&file, Lines::new(text.to_owned(), layout)));
        (records, lines)
    }

    fn is_same(one: &Grid, other: &Grid) -> bool {
        one.row_count() == other.row_count()
            && (0..one.row_count())
                .all(|row| one.width(row) == other.width(row) && one.row(row).eq(other.row(row)))
    }

    #[test]
    fn a_plain_text_is_laid_out_as_the_csv_crate_reads_it() {
        for text in [
            "",
            "\n",
            "a;b\n1;2",
            "a;b\r\n1;2\r\n",
            "a;;\n;;\n\n ; 1 ;\t\n\n;;\n",
            "#N/A; #N/A ;#7\n",
            "3/8\";1 3/8\"\n x \"y\" ;2\n",
            "  ä ;\u{a0}ö\u{a0};\u{a0}\n",
            "\r\n\r\n;a\r\n",
        ] {
            let (records, lines) = both_ways(text);
            let lines = lines.unwrap();
            assert!(is_same(&records, &lines), "{text:?}: {records:?} {lines:?}");
        }
        for text in ["\"a;b\";2\n", "a;\"b\n", "a;b\rc;d\n", "a\r\r\nb"] {
            assert!(both_ways(text).1.is_none(), "{text:?}");
        }
    }

    proptest::proptest! {
        #[test]
        fn any_text_is_laid_out_as_the_csv_crate_reads_it(text in "[a1;;;\n\n\r\" #\u{a0}]{0,60}") {
            let (records, lines) = both_ways(&text);
            if let Some(lines) = lines {
                proptest::prop_assert!(is_same(&records, &lines), "{:?} {:?}", records, lines);
            }
        }
    }

    #[test]
    fn a_line_break_in_quotes_stays_in_its_cell() {
        let grid = read(b"a;b\n\"x\n\ny\";2\n3;4\n");
        assert_eq!(grid.cell(1, 0), Cell::Text("x\n\ny"));
        assert_eq!(grid.cell(2, 0), Cell::Text("3"));
    }
}
