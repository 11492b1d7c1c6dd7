//! The workbook of rows to mend: each row with its cells as they were, the offending ones marked and commented.

use std::collections::BTreeSet;

use rust_xlsxwriter::{
    Color, DocProperties, Format, FormatAlign, FormatBorder, Note, Workbook, Worksheet, XlsxError,
};

use super::fitting::fitting;
use super::workbook::{PAPER_A4, WorkbookError};
use crate::import::{
    FIRST_ORIGIN_ROW, Field, KeptCell, ORIGINS_SHEET, REJECTS_MARK, REJECTS_VERSION, ROW_HEADER,
    RejectMark, RejectRow, RejectTable,
};
use crate::language::{Language, Translator};
use crate::place::column_letters;

/// Fill of cells to mend; the heavy frame and the sign in the last column say the same in grey print.
const MEND: Color = Color::RGB(0xFF_F0_C4);
/// Longest name of a sheet (limit of the format).
const LONGEST_NAME: usize = 31;
/// Letters that a sheet's name may not hold.
const FORBIDDEN: [char; 7] = ['[', ']', ':', '*', '?', '/', '\\'];
/// Widest column, characters.
const WIDEST: usize = 40;
/// Width of the column of reasons, characters.
const REASON_WIDTH: f64 = 70.0;
/// Most columns of a sheet (limit of the format), less the two that are added.
const MOST_COLUMNS: usize = 16_384 - 2;
/// Header of the column that says what is wrong.
const REASON_HEADER: &str = "To mend";

/// How a cell looks.
struct Looks {
    header: Format,
    text: Format,
    date: Format,
    plain: Format,
    mend_text: Format,
    mend_date: Format,
    mend_plain: Format,
    reason: Format,
}

/// Returns the rows to mend as the bytes of an xlsx workbook, one sheet for each table; a workbook without a row says
/// that there is none.
///
/// Names, lengths and lead times are cells of text, so that a mended value is not changed again by the program it is
/// typed into. Unmended, the workbook imports to the same rows with the same reasons. What is wrong is said in `language`;
/// headers and cells are the file's own.
///
/// # Errors
/// [`WorkbookError::Format`] where the writer of the format refuses.
pub fn rejects_workbook(
    tables: &[RejectTable],
    language: Language,
) -> Result<Vec<u8>, WorkbookError> {
    let mut words = Translator::new(language);
    let mut workbook = Workbook::new();
    // Without a moment of its own, so that the same rows give the same bytes.
    workbook.set_properties(
        &DocProperties::new()
            .set_title(words.say("Rows to mend"))
            .set_creation_datetime(&rust_xlsxwriter::ExcelDateTime::from_ymd(2000, 1, 1)?),
    );
    let looks = Looks::new(language);
    let mut names = Vec::with_capacity(tables.len());
    let mut taken = BTreeSet::from([ORIGINS_SHEET.to_lowercase()]);
    for table in tables {
        let name = name_of(table, &mut taken);
        let page = workbook.add_worksheet();
        page.set_name(&name)?;
        write_table(page, table, &looks, &mut words)?;
        names.push(name);
    }
    if tables.is_empty() {
        let page = workbook.add_worksheet();
        page.set_name(words.say("Nothing to mend"))?;
        page.write_string(
            0,
            0,
            words.say("No row was rejected, and no value is in doubt."),
        )?;
    }
    let page = workbook.add_worksheet();
    page.set_name(ORIGINS_SHEET)?;
    page.write_string(0, 0, REJECTS_MARK)?;
    page.write_string(0, 1, REJECTS_VERSION)?;
    page.write_string(1, 0, "How each sheet is read; leave this sheet as it is.")?;
    for (row, (name, table)) in (FIRST_ORIGIN_ROW..).zip(names.iter().zip(tables)) {
        page.write_string(row, 0, name)?;
        let json = serde_json::to_string(&table.origin)
            .expect("an origin holds words, numbers and flags only, which JSON has");
        page.write_string(row, 1, json)?;
    }
    page.set_hidden(true);
    Ok(workbook.save_to_buffer()?)
}

impl Looks {
    fn new(language: Language) -> Self {
        let text = Format::new().set_num_format("@");
        let date = Format::new().set_num_format(language.workbook_date());
        let plain = Format::new();
        let mend = |format: &Format| {
            format
                .clone()
                .set_background_color(MEND)
                .set_border(FormatBorder::Thick)
                .set_bold()
        };
        Self {
            header: Format::new()
                .set_bold()
                .set_border_bottom(FormatBorder::Medium)
                .set_num_format("@"),
            mend_text: mend(&text),
            mend_date: mend(&date),
            mend_plain: mend(&plain),
            reason: Format::new()
                .set_text_wrap()
                .set_align(FormatAlign::Top)
                .set_num_format("@"),
            text,
            date,
            plain,
        }
    }
}

/// A name that the format allows and no other sheet has, after the sheet or the file the rows come from.
fn name_of(table: &RejectTable, taken: &mut BTreeSet<String>) -> String {
    let of = if table.origin.sheet.is_empty() {
        &table.origin.file
    } else {
        &table.origin.sheet
    };
    let clean: String = of
        .chars()
        .map(|c| {
            if FORBIDDEN.contains(&c) || c.is_control() {
                ' '
            } else {
                c
            }
        })
        .collect();
    let clean = clean.trim().trim_matches('\'').trim();
    let base = if clean.is_empty() { "Rows" } else { clean };
    (1..)
        .map(|number: u32| {
            let ending = if number == 1 {
                String::new()
            } else {
                format!(" {number}")
            };
            let room = LONGEST_NAME - ending.encode_utf16().count();
            let mut used = 0;
            let kept: String = base
                .chars()
                .take_while(|c| {
                    used += c.len_utf16();
                    used <= room
                })
                .collect();
            kept.trim_end_matches([' ', '\'']).to_owned() + &ending
        })
        .find(|name| taken.insert(name.to_lowercase()))
        .expect("numbers do not end before the names that are taken do")
}

fn write_table(
    page: &mut Worksheet,
    table: &RejectTable,
    looks: &Looks,
    words: &mut Translator,
) -> Result<(), XlsxError> {
    let width = table.header.len().min(MOST_COLUMNS);
    for (column, header) in (0..).zip(table.header.iter().take(width)) {
        page.write_string_with_format(0, column, fitting(header).as_ref(), &looks.header)?;
    }
    let (row_column, reason_column) = (width as u16, width as u16 + 1);
    page.write_string_with_format(0, row_column, words.say(ROW_HEADER), &looks.header)?;
    page.write_string_with_format(0, reason_column, words.say(REASON_HEADER), &looks.header)?;
    let is_text = |column: usize| is_text_column(table, column as u32);
    for (at, row) in (1_u32..).zip(&table.rows) {
        for column in 0..width {
            let marks = marks_at(row, column as u32);
            let cell = row.cells.get(column).unwrap_or(&KeptCell::Empty);
            write_cell(
                page,
                (at, column as u16),
                cell,
                (!marks.is_empty(), is_text(column)),
                looks,
            )?;
            if !marks.is_empty() {
                let said: Vec<String> = marks.iter().map(|mark| words.say(&mark.reason)).collect();
                let note = Note::new(said.join("\n")).add_author_prefix(false);
                page.insert_note(at, column as u16, &note)?;
            }
        }
        page.write_number(at, row_column, f64::from(row.row) + 1.0)?;
        page.write_string_with_format(
            at,
            reason_column,
            fitting(&reason_of(row, words)).as_ref(),
            &looks.reason,
        )?;
    }
    set_widths(page, table, width)?;
    page.set_column_width(row_column, 8.0)?;
    page.set_column_width(reason_column, REASON_WIDTH)?;
    page.set_freeze_panes(1, 0)?;
    page.set_landscape();
    page.set_paper_size(PAPER_A4);
    page.set_print_fit_to_pages(1, 0);
    page.set_repeat_rows(0, 0)?;
    if table.rows_left_out > 0 {
        let row = table.rows.len() as u32 + 2;
        let left_out = format!(
            "{} more rows are not shown; mend the file itself.",
            table.rows_left_out
        );
        page.write_string(row, reason_column, words.say(&left_out))?;
    }
    Ok(())
}

/// Columns whose values programs change while they are typed.
fn is_text_column(table: &RejectTable, column: u32) -> bool {
    table
        .origin
        .columns
        .iter()
        .find(|origin| origin.index == column)
        .is_some_and(|origin| {
            origin.field.is_name()
                || origin.field.is_length()
                || matches!(
                    origin.field,
                    Field::Size | Field::LeadTime | Field::ExpediteLeadTime
                )
        })
}

fn marks_at(row: &RejectRow, column: u32) -> Vec<&RejectMark> {
    row.marks
        .iter()
        .filter(|mark| mark.column == Some(column))
        .collect()
}

/// Cells and reasons of a row, the rejecting ones first: `▲ D: is missing`.
fn reason_of(row: &RejectRow, words: &mut Translator) -> String {
    let mut marks: Vec<&RejectMark> = row.marks.iter().collect();
    marks.sort_by_key(|mark| !mark.is_rejected);
    let lines = marks.iter().map(|mark| {
        let sign = words.say(if mark.is_rejected {
            "▲ not taken"
        } else {
            "△ in doubt"
        });
        let reason = words.say(&mark.reason);
        match mark.column {
            Some(column) => {
                let letters = column_letters(column);
                format!("{sign}, {} {letters}: {reason}", words.say("column"))
            }
            None => format!("{sign}: {reason}"),
        }
    });
    lines.collect::<Vec<String>>().join("\n")
}

fn write_cell(
    page: &mut Worksheet,
    (row, column): (u32, u16),
    cell: &KeptCell,
    (is_marked, is_text): (bool, bool),
    looks: &Looks,
) -> Result<(), XlsxError> {
    let of = |plain, marked| if is_marked { marked } else { plain };
    let text = of(&looks.text, &looks.mend_text);
    let plain = of(&looks.plain, &looks.mend_plain);
    match cell {
        KeptCell::Empty if is_text => page.write_blank(row, column, text)?,
        KeptCell::Empty if is_marked => page.write_blank(row, column, plain)?,
        KeptCell::Empty => page,
        KeptCell::Number(value) => page.write_number_with_format(row, column, *value, plain)?,
        KeptCell::Date(moment) => {
            let format = of(&looks.date, &looks.mend_date);
            page.write_datetime_with_format(row, column, *moment, format)?
        }
        KeptCell::Bool(value) => page.write_boolean_with_format(row, column, *value, plain)?,
        KeptCell::Text(_) | KeptCell::Error(_) | KeptCell::NoResult => {
            page.write_string_with_format(row, column, fitting(&cell.to_words()).as_ref(), text)?
        }
    };
    Ok(())
}

fn set_widths(page: &mut Worksheet, table: &RejectTable, width: usize) -> Result<(), XlsxError> {
    for column in 0..width {
        let longest = table
            .rows
            .iter()
            .take(200)
            .filter_map(|row| row.cells.get(column))
            .map(|cell| cell.to_words().chars().count())
            .chain([table.header[column].chars().count()])
            .max()
            .unwrap_or_default();
        page.set_column_width(column as u16, longest.clamp(6, WIDEST) as f64 + 2.0)?;
    }
    Ok(())
}
