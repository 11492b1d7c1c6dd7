//! Text blocks written down a sheet: headings, notes and links, each across the full width.

use rust_xlsxwriter::{Format, Url, Worksheet, XlsxError};

use super::fitting::fitting;
use super::letter::Weight;
use super::quoted_title::quoted_title;
use super::width;

/// Writes downwards across the columns of a sheet.
pub(super) struct Cursor<'a> {
    /// The sheet.
    pub(super) page: &'a mut Worksheet,
    /// Next free row.
    pub(super) row: u32,
    /// Width of each column in characters.
    pub(super) widths: Vec<u16>,
}

impl Cursor<'_> {
    /// Writes a section heading.
    pub(super) fn heading(&mut self, words: &str, format: &Format) -> Result<(), XlsxError> {
        let last = self.last_column();
        for column in 0..=last {
            self.page.write_blank(self.row, column, format)?;
        }
        self.page
            .write_string_with_format(self.row, 0, words, format)?;
        self.page.set_row_height(self.row, 18)?;
        // A little air, so that the rule does not touch the words below it.
        self.page.set_row_height(self.row + 1, 5)?;
        self.row += 2;
        Ok(())
    }

    /// Writes one paragraph across all columns.
    pub(super) fn paragraph(&mut self, words: &str, format: &Format) -> Result<(), XlsxError> {
        let last = self.last_column();
        let height = self.put(0, last, words, format)?;
        self.page.set_row_height(self.row, height)?;
        self.row += 1;
        Ok(())
    }

    /// Writes text into the columns `from` to `to` of the current row and returns the height it needs.
    pub(super) fn put(
        &mut self,
        from: u16,
        to: u16,
        words: &str,
        format: &Format,
    ) -> Result<f64, XlsxError> {
        self.put_as((from, to), words, format, Weight::Regular)
    }

    /// The same in a format that is bold.
    pub(super) fn put_bold(
        &mut self,
        from: u16,
        to: u16,
        words: &str,
        format: &Format,
    ) -> Result<f64, XlsxError> {
        self.put_as((from, to), words, format, Weight::Bold)
    }

    fn put_as(
        &mut self,
        (from, to): (u16, u16),
        words: &str,
        format: &Format,
        weight: Weight,
    ) -> Result<f64, XlsxError> {
        let words = fitting(words);
        if to > from {
            self.page
                .merge_range(self.row, from, self.row, to, &words, format)?;
        } else {
            self.page
                .write_string_with_format(self.row, from, words.as_ref(), format)?;
        }
        Ok(width::height_points(&words, self.span(from, to), weight))
    }

    /// Writes a link to the top of another sheet and returns the height it needs, be it bold or not.
    pub(super) fn link(
        &mut self,
        from: u16,
        to: u16,
        words: &str,
        sheet: &str,
        format: &Format,
    ) -> Result<f64, XlsxError> {
        let height = self.put_bold(from, to, words, format)?;
        let target = format!("internal:{}!A1", quoted_title(sheet));
        let url = Url::new(target).set_text(words);
        self.page
            .write_url_with_format(self.row, from, url, format)?;
        Ok(height)
    }

    /// True where words fit into the columns `from` to `to` on one line.
    pub(super) fn is_one_line(&self, (from, to): (u16, u16), words: &str, weight: Weight) -> bool {
        width::line_count(&fitting(words), self.span(from, to), weight) == 1
    }

    /// Ends a row of the given height.
    pub(super) fn next_row(&mut self, height: f64) -> Result<(), XlsxError> {
        self.page.set_row_height(self.row, height)?;
        self.row += 1;
        Ok(())
    }

    /// Last column, from 0.
    pub(super) fn last_column(&self) -> u16 {
        self.widths.len().saturating_sub(1) as u16
    }

    /// Characters that fit into the columns `from` to `to`.
    fn span(&self, from: u16, to: u16) -> u16 {
        self.widths
            .iter()
            .skip(usize::from(from))
            .take(usize::from(to - from) + 1)
            .sum()
    }
}
