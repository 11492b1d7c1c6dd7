//! What of a sheet comes on paper: as many columns as can be read on one page of A4 across; the others stand to their right.

use std::borrow::Cow;
use std::collections::BTreeSet;

use super::letter::{self, Weight};
use super::style::TABLE_POINTS;
use super::table::is_long;
use super::width::{self, CHARACTER_POINTS, FILLED_SHARE, MARK_WIDTH};
use crate::report::model::{ColumnKind, Row, Sheet};

/// Characters across a page of A4 at which table text of 9 points comes out at about 7: 277 mm are 785 points, and a digit of
/// the default format takes 5.25 (7 pixels of 1/96 inch), which gives 7.3; LibreOffice prints the demo at 6.9. 7 points: common
/// practice for small print, no source.
const PAGE_CHARACTERS: u16 = 184;
/// Columns of words are made narrower down to the first of these, or to their longest word up to the second, and wrap, before
/// one of them is left out.
const LEAST_WORDS: u16 = 14;
const MOST_KEPT_WHOLE: u16 = 22;
/// Widest column that is not printed: its rows are not made higher for it.
const ON_SCREEN_WIDTH: u16 = 70;
/// Widest column of words on paper, where others leave room.
const MOST_WORDS: u16 = 100;
/// Rows looked at to find which words need room, spread over all; more would only cost time.
const ROWS_LOOKED_AT: usize = 500;

/// A sheet as its workbook lays it out.
#[derive(Debug)]
pub struct OnPaper<'a> {
    /// The sheet, printed columns first.
    pub sheet: Cow<'a, Sheet>,
    /// Widths of its columns in characters.
    pub widths: Vec<u16>,
    /// How many columns are printed, from the first on.
    pub printed: usize,
    /// The rows that are written, where the sheet is one of more rows and holds none itself.
    first: Option<&'a [Row]>,
}

impl<'a> OnPaper<'a> {
    /// The rows that are written.
    pub fn rows(&self) -> &[Row] {
        self.first.unwrap_or(&self.sheet.rows)
    }

    /// The first rows only of a long sheet, which are not copied.
    #[must_use]
    pub(super) fn first_rows(self, sheet: &'a Sheet, most: usize) -> Self {
        match sheet.head_of_first(most) {
            None => self,
            Some(head) => Self {
                sheet: Cow::Owned(head),
                first: sheet.rows.get(..most),
                ..self
            },
        }
    }
}

/// Lays a sheet out. One of more rows than are written as a table keeps its order, and its first columns are printed.
pub fn on_paper(sheet: &Sheet) -> OnPaper<'_> {
    let count = sheet.columns.len();
    let mut widths: Vec<u16> = (0..count).map(|at| width::of_column(sheet, at)).collect();
    let keeps_order = is_long(sheet);
    let mut chosen: Vec<usize> = match keeps_order {
        true => (0..count).collect(),
        false => (0..count)
            .filter(|at| *at == 0 || sheet.columns[*at].is_printed)
            .collect(),
    };
    let marks = if sheet.has_marks { MARK_WIDTH + 1 } else { 0 };
    let room = PAGE_CHARACTERS - marks;
    while chosen.len() > 1 {
        // Words are cut before a column is left out.
        let fits = |kept_whole: u16| fit(sheet, &chosen, &mut widths, room, kept_whole);
        if [MOST_KEPT_WHOLE, LEAST_WORDS].into_iter().any(fits) {
            break;
        }
        chosen.pop();
    }
    let printed = chosen.len();
    let is_chosen: BTreeSet<usize> = chosen.iter().copied().collect();
    let order: Vec<usize> = chosen
        .iter()
        .copied()
        .chain((0..count).filter(|at| !is_chosen.contains(at)))
        .collect();
    let widths = order.iter().zip(0..).map(|(at, place)| {
        let width = widths[*at];
        if place < printed {
            width
        } else {
            width.min(ON_SCREEN_WIDTH)
        }
    });
    OnPaper {
        widths: widths.collect(),
        printed,
        first: None,
        sheet: match order.is_sorted() {
            true => Cow::Borrowed(sheet),
            false => Cow::Owned(sheet.with_columns(&order)),
        },
    }
}

/// Shares the room among the chosen columns so that rows are as low as can be, words up to so many characters kept whole; false
/// where they have none, and then nothing was changed.
fn fit(sheet: &Sheet, chosen: &[usize], widths: &mut [u16], room: u16, kept_whole: u16) -> bool {
    // Each column has an edge of its own besides its characters.
    let taken = |widths: &[u16]| -> u16 { chosen.iter().map(|at| widths[*at] + 1).sum() };
    let of_words =
        (chosen.iter().copied()).filter(|at| sheet.columns[*at].kind == ColumnKind::Text);
    let mut needs: Vec<Need> = of_words.map(|at| Need::of(sheet, at)).collect();
    let mut tried = widths.to_vec();
    for need in &needs {
        let least = need.longest_word.clamp(LEAST_WORDS, kept_whole);
        tried[need.at] = tried[need.at].min(least);
    }
    let Some(left) = room.checked_sub(taken(&tried)) else {
        return false;
    };
    let left = give(&mut needs, &mut tried, left);
    // What nobody needs goes back to where it was taken from, to the narrowest first.
    for _ in 0..left {
        let narrower = chosen.iter().copied().filter(|at| tried[*at] < widths[*at]);
        if let Some(at) = narrower.min_by_key(|at| tried[*at]) {
            tried[at] += 1;
        }
    }
    widths.copy_from_slice(&tried);
    true
}

/// Where pages end before charts, so that none is cut in two.
#[derive(Debug)]
pub(super) struct Breaks {
    /// Rows that begin a page, from 0.
    pub(super) rows: Vec<u32>,
    /// Points of height that a page has room for, in the measure of the sheet.
    room: f64,
    /// Points that the charts of the present page take.
    taken: f64,
}

/// Points across A4, and down it below the repeated header, within the margins.
const ACROSS_POINTS: f64 = 785.0;
const DOWN_POINTS: f64 = 470.0;
/// Points down an empty row.
const ROW_POINTS: f64 = 15.0;

impl Breaks {
    /// None yet, for a sheet of so many characters across.
    pub(super) fn new(characters: u16) -> Self {
        let scale = (ACROSS_POINTS / (f64::from(characters) * CHARACTER_POINTS)).min(1.0);
        Self {
            rows: Vec::new(),
            room: DOWN_POINTS / scale,
            // The table and its notes keep their page.
            taken: f64::INFINITY,
        }
    }

    /// Takes up a chart of so many rows with its figures; it begins a page where it does not fit on the present one.
    pub(super) fn before(&mut self, first: u32, rows: u32) {
        let height = f64::from(rows) * ROW_POINTS;
        if rows == 0 {
            return;
        }
        if self.taken + height > self.room {
            self.rows.push(first);
            self.taken = 0.0;
        }
        self.taken += height;
    }
}

/// Gives so many characters to columns of words, each to the one whose lines become fewer by it, and returns what no column
/// needs.
///
/// The square of a cell's lines is what counts: a row is as high as its highest cell, so that ten lines beside one weigh more
/// than five beside five.
fn give(needs: &mut [Need], widths: &mut [u16], room: u16) -> u16 {
    for need in needs.iter_mut() {
        need.gain = need.gain_at(widths[need.at]);
    }
    for left in (1..=room).rev() {
        let neediest = needs
            .iter_mut()
            .filter(|need| need.gain > 0.0 && widths[need.at] < MOST_WORDS)
            // Of several alike the narrowest, then the first.
            .max_by(|one, two| {
                let narrower = widths[two.at].cmp(&widths[one.at]);
                let gain = one.gain.total_cmp(&two.gain);
                gain.then(narrower).then(two.at.cmp(&one.at))
            });
        let Some(need) = neediest else { return left };
        widths[need.at] += 1;
        need.gain = need.gain_at(widths[need.at]);
    }
    0
}

/// What a column of words would have of a character more.
struct Need {
    at: usize,
    /// Widths of its texts, in characters of a column.
    texts: Vec<f64>,
    /// Width of its longest word, in characters of a column.
    longest_word: u16,
    gain: f64,
}

impl Need {
    fn of(sheet: &Sheet, at: usize) -> Self {
        let each = sheet.rows.len().div_ceil(ROWS_LOOKED_AT).max(1);
        let width = |words: &str| {
            letter::width(words, Weight::Bold) * TABLE_POINTS / CHARACTER_POINTS / FILLED_SHARE
        };
        let (mut texts, mut longest_word) = (Vec::new(), 0.0_f64);
        for row in sheet.rows.iter().step_by(each) {
            let words = row.cells[at].in_words(ColumnKind::Text);
            texts.push(width(&words));
            longest_word = words
                .split_whitespace()
                .map(width)
                .fold(longest_word, f64::max);
        }
        Self {
            at,
            texts,
            longest_word: longest_word.ceil() as u16,
            gain: 0.0,
        }
    }

    /// By how much the squares of its lines sink where a column of this width becomes wider by one.
    fn gain_at(&self, width: u16) -> f64 {
        let squares = |width: u16| -> f64 {
            let lines = self.texts.iter().map(|of| of / f64::from(width.max(1)));
            lines
                .filter(|lines| *lines > 1.0)
                .map(|lines| lines * lines)
                .sum()
        };
        squares(width) - squares(width + 1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::model::{Column, Value};

    fn sheet(columns: Vec<Column>) -> Sheet {
        let mut sheet = Sheet::new("a", "A", "?");
        let cells = columns.iter().map(|of| Value::text(of.key.clone()));
        sheet.rows = vec![Row::new(cells.collect())];
        sheet.columns = columns;
        sheet
    }

    fn keys(of: &OnPaper<'_>) -> Vec<String> {
        of.sheet.columns.iter().map(|of| of.key.clone()).collect()
    }

    #[test]
    fn columns_for_the_screen_stand_to_the_right_and_their_cells_with_them() {
        let sheet = sheet(vec![
            Column::text("name", "Name"),
            Column::text("basis", "Basis").on_screen(),
            Column::text("why", "Why"),
        ]);
        let laid = on_paper(&sheet);
        assert_eq!(
            (keys(&laid), laid.printed),
            (
                vec!["name".to_owned(), "why".to_owned(), "basis".to_owned()],
                2
            )
        );
        let cells: Vec<String> = laid.sheet.rows[0]
            .cells
            .iter()
            .map(|cell| cell.in_words(ColumnKind::Text).into_owned())
            .collect();
        assert_eq!(cells, ["name", "why", "basis"]);
    }

    #[test]
    fn words_give_way_before_a_column_is_left_out() {
        let wide = |key: &str, width| Column::text(key, key).wrapped(width);
        let fits = sheet(vec![wide("a", 100), wide("b", 100), wide("c", 40)]);
        let laid = on_paper(&fits);
        assert_eq!(laid.printed, 3);
        assert!(laid.widths.iter().map(|of| of + 1).sum::<u16>() <= PAGE_CHARACTERS);
        assert_eq!(laid.widths[2], 40, "the widest give way first");
        // Fourteen of the least width do not fit: what is left out stays on the screen.
        let many: Vec<Column> = (0..14).map(|at| wide(&format!("c{at}"), 60)).collect();
        let many = sheet(many);
        let laid = on_paper(&many);
        assert!(laid.printed < 14 && laid.printed > 10, "{}", laid.printed);
        assert_eq!(laid.widths.len(), 14);
        assert_eq!(laid.widths[13], 60);
    }

    #[test]
    fn room_that_is_left_goes_to_words_that_wrap() {
        let mut one = sheet(vec![
            Column::text("a", "A"),
            Column::text("why", "Why").wrapped(30),
        ]);
        let before = on_paper(&one).widths;
        assert_eq!(before[1], 30, "what nobody needs goes back to where it was");
        one.rows[0].cells[1] = Value::text("word ".repeat(100));
        let after = on_paper(&one).widths;
        assert_eq!(before[0], after[0]);
        assert_eq!(after[1], MOST_WORDS);
        // Shared where several need it, and never more than the page has.
        let mut two = sheet(
            (0..4)
                .map(|at| Column::text(format!("c{at}"), "C").wrapped(30))
                .collect(),
        );
        for cell in &mut two.rows[0].cells[..2] {
            *cell = Value::text("word ".repeat(100));
        }
        let widths = on_paper(&two).widths;
        assert!(
            widths[0].abs_diff(widths[1]) <= 1 && widths[0] > 50,
            "{widths:?}"
        );
        assert_eq!(
            widths[2..],
            [LEAST_WORDS; 2],
            "those with a letter give way"
        );
        assert_eq!(widths.iter().map(|of| of + 1).sum::<u16>(), PAGE_CHARACTERS);
    }

    #[test]
    fn a_long_text_has_more_room_than_a_short_one_beside_it() {
        // As on the sheets: few long names of parts, a reason in every row.
        let mut sheet = sheet(vec![
            Column::text("designation", "Designation").wrapped(46),
            Column::text("why", "Why").wrapped(46),
            Column::text("who", "Who").wrapped(60),
            Column::text("where", "Where").wrapped(60),
        ]);
        let cell = |words: &str, times| Value::text(words.repeat(times));
        sheet.rows = (0..30)
            .map(|row| {
                let name = cell("spacer ", if row == 0 { 6 } else { 1 });
                Row::new(vec![
                    name,
                    cell("reason ", 40),
                    cell("w ", 2),
                    cell("x ", 2),
                ])
            })
            .collect();
        let widths = on_paper(&sheet).widths;
        assert_eq!(widths[1], MOST_WORDS, "{widths:?}");
        // The one long name has a line of its own where room is left.
        assert!(
            widths[0] > widths[2] && widths[0] > LEAST_WORDS,
            "{widths:?}"
        );
        assert_eq!(widths.iter().map(|of| of + 1).sum::<u16>(), PAGE_CHARACTERS);
    }

    #[test]
    fn a_word_is_kept_whole_where_its_column_gives_way() {
        let wide = |key: &str| Column::text(key, "C").wrapped(60);
        let mut sheet = sheet((0..8).map(|at| wide(&format!("c{at}"))).collect());
        for cell in &mut sheet.rows[0].cells {
            *cell = Value::text("word ".repeat(200));
        }
        sheet.rows[0].cells[3] = Value::text("Wiederbeschaffung");
        let widths = on_paper(&sheet).widths;
        // 17 letters of Helvetica bold: 9.3 times their size of 9 points are 17 characters of a column, with air.
        assert!((17..=MOST_KEPT_WHOLE).contains(&widths[3]), "{widths:?}");
    }

    #[test]
    fn charts_begin_a_page_where_they_would_be_cut() {
        let mut breaks = Breaks::new(100);
        for (first, rows) in [(50, 10), (60, 10), (70, 0), (70, 20), (90, 60), (150, 5)] {
            breaks.before(first, rows);
        }
        // 31 rows of 15 points go on a page of 470 at full size.
        assert_eq!(breaks.rows, [50, 70, 90, 150]);
        // At half its size twice as much goes on a page.
        let mut small = Breaks::new(300);
        for (first, rows) in [(50, 30), (80, 30)] {
            small.before(first, rows);
        }
        assert_eq!(small.rows, [50]);
    }

    #[test]
    fn the_column_that_names_a_row_is_always_printed() {
        let first = sheet(vec![
            Column::text("a", "A").on_screen(),
            Column::text("b", "B"),
        ]);
        assert_eq!(on_paper(&first).printed, 2);
        let one = sheet(vec![Column::text("a", "A").wrapped(120)]);
        let laid = on_paper(&one);
        assert_eq!((laid.printed, laid.widths[0]), (1, 120));
    }
}
