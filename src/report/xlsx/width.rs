//! Widths of columns and heights of wrapped rows, reckoned from the text, because a workbook stores them.

use crate::report::model::{Column, MARK_HEADER, Sheet};

/// Widest column; longer text wraps.
const MAX_WIDTH: u16 = 46;
/// Narrowest column; leaves room for the filter button.
const MIN_WIDTH: u16 = 9;
/// Room for the filter button next to a header, in characters.
const FILTER_BUTTON: usize = 3;
/// Height of one line of table text in points.
const LINE_POINTS: f64 = 11.0;
/// Tallest row (limit of the format: 409 points).
const MAX_POINTS: f64 = 400.0;
/// Width of the column of marks: sign, blank and the longest word, with the filter button.
pub(super) const MARK_WIDTH: u16 = 11;
/// Rows looked at to find a width; more would only cost time.
const ROWS_LOOKED_AT: usize = 5_000;

/// A column's width in characters.
pub(super) fn of_column(sheet: &Sheet, place: usize) -> u16 {
    let column = &sheet.columns[place];
    let header = header_width(column);
    if let Some(width) = column.width {
        return width.clamp(header.min(MAX_WIDTH), 120);
    }
    let longest = sheet
        .rows
        .iter()
        .take(ROWS_LOOKED_AT)
        .map(|row| text_width(&column.words(&row.cells[place])))
        .max()
        .unwrap_or(0);
    let total = if column.is_totalled {
        text_width(&column.words(&sheet.total_value(place)))
    } else {
        0
    };
    // One and a half characters of air; bold rows and totals are wider than plain text.
    let content = (longest.max(total) + 2).min(usize::from(MAX_WIDTH)) as u16;
    content.max(header).clamp(MIN_WIDTH, MAX_WIDTH)
}

/// Says whether text of the column must wrap at `width`.
pub(super) fn must_wrap(column: &Column, text: &str, width: u16) -> bool {
    column.wraps || text.contains('\n') || text_width(text) + 1 > usize::from(width)
}

/// Height in points of table text that wraps in a column of `width` characters.
///
/// Widths count digits of the default size; letters of table text are narrower, so a fifth more of them fit (found by
/// printing the demo).
pub(super) fn height_points(text: &str, width: u16) -> f64 {
    let fits = width + width / 5;
    (LINE_POINTS * line_count(text, fits) as f64 + 2.0).min(MAX_POINTS)
}

/// Height in points of the header row, the tallest header deciding.
pub(super) fn header_points(sheet: &Sheet, widths: &[u16]) -> f64 {
    let lines = sheet
        .columns
        .iter()
        .zip(widths)
        .map(|(column, width)| {
            let room = width.saturating_sub(FILTER_BUTTON as u16).max(4);
            line_count(&column.label(), room)
        })
        .chain([line_count(MARK_HEADER, MARK_WIDTH)])
        .max()
        .unwrap_or(1);
    LINE_POINTS * lines as f64 + 5.0
}

/// Lines that words take at `width` characters, words kept whole where they fit.
fn line_count(text: &str, width: u16) -> usize {
    let width = usize::from(width.max(1));
    text.split('\n')
        .map(|paragraph| {
            let (mut lines, mut used) = (1, 0);
            for word in paragraph.split_whitespace() {
                let length = text_width(word);
                if used > 0 && used + 1 + length > width {
                    lines += 1;
                    used = 0;
                }
                used += length + usize::from(used > 0);
                lines += used.saturating_sub(1) / width;
                used = if used > width { used % width } else { used };
            }
            lines
        })
        .sum()
}

/// The longest word of a header, or half of the header if that is more, with the filter button.
fn header_width(column: &Column) -> u16 {
    let label = column.label();
    let word = label.split_whitespace().map(text_width).max().unwrap_or(0);
    let half = text_width(&label).div_ceil(2) + 1;
    (word.max(half) + FILTER_BUTTON + 1).clamp(usize::from(MIN_WIDTH), usize::from(MAX_WIDTH))
        as u16
}

/// Widest line of a text in characters.
fn text_width(text: &str) -> usize {
    text.split('\n')
        .map(|line| line.chars().count())
        .max()
        .unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::model::{Row, Value};

    #[test]
    fn words_stay_whole_until_they_do_not_fit() {
        for (text, width, lines) in [
            ("", 10, 1),
            ("one two", 10, 1),
            ("one two three", 8, 2),
            ("first\nsecond", 20, 2),
            ("abcdefghijklmnopqrstuvwxyz", 10, 3),
        ] {
            assert_eq!(line_count(text, width), lines, "{text}");
        }
    }

    #[test]
    fn a_column_fits_its_content_up_to_the_cap() {
        let mut sheet = Sheet::new("a", "A", "?");
        sheet.columns = vec![Column::text("words", "Words")];
        sheet.rows = vec![Row::new(vec![Value::text("x".repeat(20))])];
        assert_eq!(of_column(&sheet, 0), 22);
        sheet.rows[0].cells[0] = Value::text("x".repeat(400));
        assert_eq!(of_column(&sheet, 0), MAX_WIDTH);
        assert!(must_wrap(&sheet.columns[0], &"x".repeat(400), MAX_WIDTH));
        sheet.rows[0].cells[0] = Value::text("x");
        assert_eq!(of_column(&sheet, 0), MIN_WIDTH);
    }

    #[test]
    fn rows_are_as_high_as_their_lines_and_never_above_the_limit() {
        // ECMA-376 leaves the limit to the program; the common one is 409 points a row.
        for (text, width) in [("", 10), ("word", 10), ("one two three four five six", 10)] {
            let height = height_points(text, width);
            assert!((LINE_POINTS..409.0).contains(&height), "{text}: {height}");
        }
        assert!(height_points("a\nb", 20) > height_points("a", 20));
        assert!(height_points(&"word ".repeat(10_000), 20) <= 409.0);
        let texts = ["one", "one two", "one two three", "one two three four"];
        for (less, more) in texts.iter().zip(&texts[1..]) {
            assert!(height_points(less, 6) <= height_points(more, 6), "{more}");
        }
    }

    #[test]
    fn wide_signs_and_breaks_count_as_a_person_sees_them() {
        for (text, width) in [
            ("", 0),
            ("6308", 4),
            ("Mühle", 5),
            ("● good", 6),
            ("first line\nsecond", 10),
            ("short\nthe longer one", 14),
        ] {
            assert_eq!(text_width(text), width, "{text:?}");
        }
    }

    #[test]
    fn a_header_keeps_room_for_its_filter_button() {
        for header in ["A", "Cost", "Downtime", "Held by together"] {
            let column = Column::text("a", header);
            let longest = header.split(' ').map(str::len).max().unwrap();
            let width = usize::from(header_width(&column));
            assert!(width >= longest + FILTER_BUTTON, "{header}: {width}");
            assert!((usize::from(MIN_WIDTH)..=usize::from(MAX_WIDTH)).contains(&width));
        }
    }

    #[test]
    fn text_wraps_only_where_it_must() {
        let column = Column::text("a", "A");
        for (text, width, wraps) in [
            ("short", 10, false),
            ("exactly te", 11, false),
            ("longer than its column", 10, true),
            ("two\nlines", 40, true),
            ("", 9, false),
        ] {
            assert_eq!(must_wrap(&column, text, width), wraps, "{text:?}");
        }
        assert!(must_wrap(&Column::text("a", "A").wrapped(30), "short", 30));
    }
}
