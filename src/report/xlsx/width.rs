//! Widths of columns and heights of wrapped rows, reckoned from the text, because a workbook stores them.

use super::letter::{self, Weight};
use super::style::TABLE_POINTS;
use crate::report::model::{Column, MARK_HEADER, Sheet};

/// Widest column; longer text wraps.
const MAX_WIDTH: u16 = 46;
/// Narrowest column; leaves room for the filter button.
const MIN_WIDTH: u16 = 9;
/// Width of a character of a column, which is a digit of the default format: 7 pixels of 1/96 inch.
pub(super) const CHARACTER_POINTS: f64 = 5.25;
/// Share of a cell's width that words are reckoned to fill: programs round the widths of letters each in its own way.
pub(super) const FILLED_SHARE: f64 = 0.95;
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
pub(super) fn height_points(text: &str, width: u16, weight: Weight) -> f64 {
    (LINE_POINTS * line_count(text, width, weight) as f64 + 2.0).min(MAX_POINTS)
}

/// Height in points of the header row, the tallest header deciding.
pub(super) fn header_points(sheet: &Sheet, widths: &[u16]) -> f64 {
    let lines = sheet
        .columns
        .iter()
        .zip(widths)
        .map(|(column, width)| {
            let room = width.saturating_sub(FILTER_BUTTON as u16).max(4);
            line_count(&column.label(), room, Weight::Bold)
        })
        .chain([line_count(MARK_HEADER, MARK_WIDTH, Weight::Bold)])
        .max()
        .unwrap_or(1);
    LINE_POINTS * lines as f64 + 5.0
}

/// Lines that words of a table take in a column of `width` characters, words kept whole where they fit.
pub(super) fn line_count(text: &str, width: u16, weight: Weight) -> usize {
    // In widths of a letter's size, so that no word is multiplied.
    let room = f64::from(width.max(1)) * CHARACTER_POINTS * FILLED_SHARE / TABLE_POINTS;
    let blank = letter::width(" ", weight);
    let in_paragraph = |paragraph: &str| {
        let (mut lines, mut used) = (1, 0.0);
        for word in paragraph.split_whitespace() {
            let length = letter::width(word, weight);
            let before = if used > 0.0 { used + blank } else { 0.0 };
            used = if used > 0.0 && before + length > room {
                lines += 1;
                length
            } else {
                before + length
            };
            // A word that no line has room for goes on in the next ones.
            while used > room {
                lines += 1;
                used -= room;
            }
        }
        lines
    };
    text.split('\n').map(in_paragraph).sum()
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
pub(super) fn text_width(text: &str) -> usize {
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
        // Helvetica: a digit is 0.556 of the size, so that ten of 9 points take 50 points, and a column of ten characters
        // has 50 (52.5 less a twentieth): nine always fit, eleven never.
        for (text, width, lines) in [
            ("", 10, 1),
            ("123456789", 10, 1),
            ("12345678901", 10, 2),
            ("1234 6789", 10, 1),
            ("1234 5678 1234", 10, 2),
            ("12345678 12345678 12345678", 10, 3),
            ("first\nsecond", 20, 2),
            ("123456789012345678901234567890", 10, 4),
            // Narrow letters take less room than digits, wide ones more.
            ("illi illi illi illi", 10, 1),
            ("WWWW WWWW", 10, 2),
        ] {
            let count = line_count(text, width, Weight::Regular);
            assert_eq!(count, lines, "{text}");
        }
    }

    #[test]
    fn bold_words_take_more_lines_and_never_fewer() {
        let text = "Rebuild on 2026-04-13 needs 1, 1 missing: Flaking roll, line 10. 0 free, 0 on order; reorder point 1.";
        let mut is_more = false;
        for width in 5..80 {
            let [thin, bold] =
                [Weight::Regular, Weight::Bold].map(|weight| line_count(text, width, weight));
            assert!(bold >= thin, "{width}: {thin} {bold}");
            is_more |= bold > thin;
        }
        assert!(is_more);
    }

    #[test]
    fn a_wider_column_never_takes_more_lines() {
        for text in [
            "one two three four five six seven",
            "Wiederbeschaffungszeiten eingehalten",
            "a\nb c d e f g h",
        ] {
            let counts: Vec<usize> = (1..60)
                .map(|width| line_count(text, width, Weight::Regular))
                .collect();
            assert!(counts.is_sorted_by(|less, more| less >= more), "{counts:?}");
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
            let height = height_points(text, width, Weight::Regular);
            assert!((LINE_POINTS..409.0).contains(&height), "{text}: {height}");
        }
        let high = |text: &str, width| height_points(text, width, Weight::Regular);
        assert!(high("a\nb", 20) > high("a", 20));
        assert!(high(&"word ".repeat(10_000), 20) <= 409.0);
        let texts = ["one", "one two", "one two three", "one two three four"];
        for (less, more) in texts.iter().zip(&texts[1..]) {
            assert!(high(less, 6) <= high(more, 6), "{more}");
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
