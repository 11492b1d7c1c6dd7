//! The workbook as a whole: sheets in order, properties, print setup, and the limits of the format.

use std::collections::VecDeque;
use std::error::Error as _;
use std::io;
use std::panic::resume_unwind;
use std::thread::{self, ScopedJoinHandle};

use rust_xlsxwriter::{DocProperties, Workbook, Worksheet, XlsxError};

use super::cover::{COVER_NAME, write_cover};
use super::fitting::fitting;
use super::paper::on_paper;
use super::style::{self, Styles};
use super::table::{HEADER_ROW, is_long, write_sheet};
use super::written::Written;
use crate::parallel;
use crate::report::model::{Group, ModelError, OWN_REPORT_MARK, Report, Sheet, check_report};

/// Most rows in a sheet (limit of the format).
const MAX_ROWS: usize = 1_048_576;
/// Rows shown of a sheet without totals; the rest stands in its CSV file.
const ROWS_SHOWN: usize = 100_000;
/// Cells of sheets that are written at the same time, as many as one long sheet and some short ones have: they are held until
/// they are written.
const CELLS_AT_ONCE: usize = 5_000_000;
/// Rows kept for headings, totals, notes and charts.
const ROWS_KEPT: usize = 2_000;
/// Compression of a workbook with a long sheet: a third larger than by the usual level and packed in half the time.
const QUICK_COMPRESSION: u8 = 1;
/// Paper size number of A4 in the format.
pub(super) const PAPER_A4: u8 = 9;
/// Most characters in a header or footer (limit of the format).
const MAX_FOOTER: usize = 255;

/// Why a workbook cannot be made.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum WorkbookError {
    /// The parts of the report do not fit.
    #[error(transparent)]
    Model(#[from] ModelError),
    /// More rows than a sheet can hold.
    #[error("sheet `{sheet}` has {found} rows, but a workbook sheet holds at most {most}")]
    TooManyRows {
        /// The sheet's title.
        sheet: String,
        /// Rows found.
        found: usize,
        /// Rows that fit beside headings and notes.
        most: usize,
    },
    /// The writer of the format refused.
    #[error("the workbook cannot be made: {0}")]
    Format(#[from] XlsxError),
}

impl WorkbookError {
    /// How the file failed, where that is why; `None` where the report is.
    pub(crate) fn kind_of_file_failure(&self) -> Option<io::ErrorKind> {
        let Self::Format(error) = self else {
            return None;
        };
        if let XlsxError::IoError(of_file) = error {
            return Some(of_file.kind());
        }
        let mut cause = error.source();
        while let Some(error) = cause {
            if let Some(of_file) = error.downcast_ref::<io::Error>() {
                return Some(of_file.kind());
            }
            cause = error.source();
        }
        None
    }
}

/// Returns the report as the bytes of an xlsx workbook: cover first, then each sheet.
///
/// The same report gives the same bytes: the creation time is the moment the report holds for.
///
/// # Errors
/// [`WorkbookError`] where the report does not fit together or into the format.
pub fn workbook_of(report: &Report) -> Result<Vec<u8>, WorkbookError> {
    Ok(made(report, Front::Cover)?.save_to_buffer()?)
}

/// As [`workbook_of`], but without a first page that shows: its sheets can be sent as they are.
///
/// # Errors
/// As [`workbook_of`].
pub fn workbook_to_send_of(report: &Report) -> Result<Vec<u8>, WorkbookError> {
    Ok(made(report, Front::Hidden)?.save_to_buffer()?)
}

/// Writes the same bytes as [`workbook_of`] makes, without holding them.
///
/// # Errors
/// As [`workbook_of`], and where the writer refuses.
pub fn write_workbook(
    report: &Report,
    writer: &mut (impl io::Write + Send),
) -> Result<(), WorkbookError> {
    Ok(made(report, Front::Cover)?.save_to_writer(writer)?)
}

/// Writes the same of a report whose sheets come one after another, each forgotten when it is written.
///
/// # Errors
/// As [`write_workbook`].
pub fn write_workbook_of(
    head: &Report,
    groups: impl Iterator<Item = Group>,
    writer: &mut (impl io::Write + Send),
) -> Result<(), WorkbookError> {
    let mut book = Book::new(head, Front::Cover)?;
    let mut report = Report {
        sheets: Vec::new(),
        ..head.clone()
    };
    thread::scope(|scope| {
        let mut under_way = VecDeque::new();
        let mut cells_under_way = 0;
        for group in groups {
            let cells = group.cells();
            while cells_under_way + cells > CELLS_AT_ONCE
                && let Some((cells, pages)) = under_way.pop_front()
            {
                book.put(joined(pages)?);
                cells_under_way -= cells;
            }
            let heads = group.iter().map(|sheet| sheet.first_rows(0).into_owned());
            report.sheets.extend(heads);
            let pages = book.begin(&group)?;
            let work = move || {
                let written = write_pages(pages, &group, head, Front::Cover);
                // Much memory takes long to give back: it goes beside the packing.
                scope.spawn(move || drop(group));
                written
            };
            under_way.push_back((cells, scope.spawn(work)));
            cells_under_way += cells;
        }
        for (_, pages) in under_way {
            book.put(joined(pages)?);
        }
        Ok(book.finished(&report)?.save_to_writer(writer)?)
    })
}

/// What a thread has written; its panic is passed on.
fn joined<T>(written: ScopedJoinHandle<'_, T>) -> T {
    written.join().unwrap_or_else(|panic| resume_unwind(panic))
}

/// Writes sheets that read each other only, beside each other, to the pages begun for them.
fn write_pages(
    pages: Vec<(usize, Worksheet)>,
    all: &[Sheet],
    head: &Report,
    front: Front,
) -> Result<Vec<WrittenPage>, XlsxError> {
    let pages = pages.into_iter().zip(all).collect();
    let written = parallel::each_of(pages, |((place, mut page), sheet)| {
        let mut styles = Styles::new(head.language);
        let shortened;
        let laid = if is_long(sheet) && !sheet.has_totals() {
            on_paper(sheet).first_rows(sheet, ROWS_SHOWN)
        } else {
            shortened = sheet.shortened(ROWS_SHOWN);
            on_paper(&shortened)
        };
        let is_ours = front == Front::Cover;
        let written = write_sheet(&mut page, &laid, all, &mut styles, is_ours)?;
        set_print(&mut page, head, &sheet.title, &written)?;
        page.set_repeat_rows(HEADER_ROW, HEADER_ROW)?;
        Ok(WrittenPage {
            place,
            page,
            names: written.names,
        })
    });
    written.into_iter().collect()
}

/// A page that is written and goes back to its place in the workbook.
struct WrittenPage {
    place: usize,
    page: Worksheet,
    /// Names of its cells.
    names: Vec<(String, String)>,
}

/// What stands before the sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Front {
    Cover,
    /// A hidden cover with nothing but the mark by which this program knows its own reports.
    Hidden,
}

/// The workbook with all its sheets, which are written beside each other.
fn made(report: &Report, front: Front) -> Result<Workbook, WorkbookError> {
    check_report(report)?;
    let mut book = Book::new(report, front)?;
    book.add(&report.sheets)?;
    book.finished(report)
}

/// A workbook in the making.
struct Book<'r> {
    workbook: Workbook,
    head: &'r Report,
    front: Front,
    names: Vec<(String, String)>,
    has_long: bool,
}

impl<'r> Book<'r> {
    /// Begins with the page for the cover; the sheets of `head` are not looked at.
    fn new(head: &'r Report, front: Front) -> Result<Self, WorkbookError> {
        let mut workbook = Workbook::new();
        // Widths of columns are counted in digits of the default format; rows and columns of that size in pixels.
        workbook.set_default_format(&style::plain(), 20, 64)?;
        let properties = DocProperties::new()
            .set_title(fitting(&head.title))
            .set_author(format!("{} {}", head.made_by.name, head.made_by.version))
            .set_company(fitting(&head.shop))
            .set_subject(fitting(&format!("{}, {}", head.shop, head.title)))
            .set_comment(format!(
                "{} {}",
                head.language.text("As of"),
                head.as_of_words()
            ))
            .set_creation_datetime(&head.as_of);
        workbook.set_properties(&properties);
        workbook.add_worksheet();
        Ok(Self {
            workbook,
            head,
            front,
            names: Vec::new(),
            has_long: false,
        })
    }

    /// Adds sheets that read each other only, which are written beside each other.
    fn add(&mut self, all: &[Sheet]) -> Result<(), WorkbookError> {
        let pages = self.begin(all)?;
        let written = write_pages(pages, all, self.head, self.front)?;
        self.put(written);
        Ok(())
    }

    /// Pages for sheets that read each other only, each with its place; they can be written while others are.
    fn begin(&mut self, all: &[Sheet]) -> Result<Vec<(usize, Worksheet)>, WorkbookError> {
        let most = MAX_ROWS - ROWS_KEPT;
        let too_long = |sheet: &&Sheet| sheet.has_totals() && sheet.rows.len() > most;
        if let Some(sheet) = all.iter().find(too_long) {
            return Err(WorkbookError::TooManyRows {
                sheet: sheet.title.clone(),
                found: sheet.rows.len(),
                most,
            });
        }
        let has_long = all.iter().any(is_long);
        if has_long && !self.has_long {
            // Each numbers the formats as it meets them: they are given their numbers before.
            for format in Styles::of_tables(self.head.language) {
                self.workbook.register_format(&format);
            }
            self.has_long = true;
        }
        let mut pages = Vec::new();
        for sheet in all {
            let page = if is_long(sheet) {
                self.workbook.add_worksheet_with_constant_memory()?
            } else {
                self.workbook.add_worksheet()
            };
            let page = std::mem::take(page);
            pages.push((self.workbook.worksheets().len() - 1, page));
        }
        Ok(pages)
    }

    /// Puts written pages to their places.
    fn put(&mut self, written: Vec<WrittenPage>) {
        for of in written {
            if let Some(place) = self.workbook.worksheets_mut().get_mut(of.place) {
                *place = of.page;
            }
            self.names.extend(of.names);
        }
    }

    /// Writes the cover, which names every sheet of `report`; of these only head and number of rows are looked at.
    fn finished(self, report: &Report) -> Result<Workbook, WorkbookError> {
        let Self {
            mut workbook,
            front,
            mut names,
            has_long,
            ..
        } = self;
        let page = workbook.worksheet_from_index(0)?;
        if front == Front::Cover {
            let written = write_cover(page, report)?;
            set_print(page, report, &report.language.text(COVER_NAME), &written)?;
            names.splice(0..0, written.names);
        } else {
            page.set_name(report.language.text(COVER_NAME))?;
            page.write_string(0, 0, OWN_REPORT_MARK)?;
            page.set_hidden(true);
            if let Some(first) = workbook.worksheets_mut().get_mut(1) {
                first.set_active(true);
                first.set_first_tab(true);
            }
        }
        for (name, cell) in names {
            workbook.define_name(name, &format!("={cell}"))?;
        }
        if has_long {
            workbook.set_zip_compression_level(QUICK_COMPRESSION);
        }
        Ok(workbook)
    }
}

/// A4 across, one page wide (see [`on_paper`]), title and moment above, page numbers below, and no empty page behind what is written.
fn set_print(
    page: &mut Worksheet,
    report: &Report,
    title: &str,
    written: &Written,
) -> Result<(), XlsxError> {
    page.set_print_area(0, 0, written.last_row, written.last_column)?;
    page.set_landscape();
    page.set_paper_size(PAPER_A4);
    page.set_print_fit_to_pages(1, 0);
    page.set_margins(0.4, 0.4, 0.6, 0.6, 0.3, 0.3);
    let head = format!(
        "&L&9{}&R&9{}, {} {}",
        escaped(title),
        escaped(&shortened(&report.title, 100)),
        report.language.text("as of"),
        report.as_of_words()
    );
    let foot = format!(
        "&L&9{}&R&9{}",
        escaped(&shortened(&report.shop, 150)),
        report.language.text("page &P of &N")
    );
    for text in [&head, &foot] {
        debug_assert!(text.chars().count() <= MAX_FOOTER);
    }
    page.set_header(head);
    page.set_footer(foot);
    Ok(())
}

/// An ampersand starts a command in headers and footers unless doubled.
fn escaped(text: &str) -> String {
    text.replace('&', "&&")
}

fn shortened(text: &str, most: usize) -> String {
    // Half, because every sign may be an ampersand and double.
    let most = most / 2;
    if text.chars().count() <= most {
        text.to_owned()
    } else {
        text.chars().take(most - 1).chain(['…']).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_that_cannot_be_written_is_told_from_a_report_that_cannot() {
        struct Full;
        impl io::Write for Full {
            fn write(&mut self, _: &[u8]) -> io::Result<usize> {
                Err(io::ErrorKind::StorageFull.into())
            }
            fn flush(&mut self) -> io::Result<()> {
                Ok(())
            }
        }
        let mut report = Report {
            title: "Report".to_owned(),
            shop: "Shop".to_owned(),
            as_of: chrono::NaiveDateTime::default(),
            made_by: crate::report::model::MadeBy::this_program(),
            language: crate::language::Language::ENGLISH,
            cover: crate::report::model::Cover::default(),
            sheets: Vec::new(),
        };
        let kind = |report: &Report| {
            let error = write_workbook(report, &mut Full).unwrap_err();
            error.kind_of_file_failure()
        };
        assert_eq!(kind(&report), Some(io::ErrorKind::StorageFull));
        report.sheets = vec![crate::report::model::Sheet::new("no_columns", "A", "?")];
        assert_eq!(kind(&report), None);
    }

    #[test]
    fn an_ampersand_in_a_shop_name_is_no_command() {
        assert_eq!(escaped("Press & Punch"), "Press && Punch");
        assert_eq!(shortened("abcdef", 8), "abc…");
    }
}
