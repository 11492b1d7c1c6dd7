//! The cover sheet: what to do now, the headline figures, how old the data are, what is not known.

use rust_xlsxwriter::{Worksheet, XlsxError};

use super::cursor::Cursor;
use super::letter::Weight;
use super::style::{self, Digits};
use super::written::Written;
use crate::language::Language;
use crate::report::model::{ColumnKind, Fact, OWN_REPORT_MARK, Report, Value};

/// Name of the first sheet.
pub(super) const COVER_NAME: &str = "Cover";
/// Widths of the five columns in characters: label, value or file, date, age, note.
const WIDTHS: [u16; 5] = [30, 30, 14, 16, 62];

/// Writes the cover.
pub(super) fn write_cover(page: &mut Worksheet, report: &Report) -> Result<Written, XlsxError> {
    let language = report.language;
    let name = language.text(COVER_NAME);
    page.set_name(&name)?;
    page.set_screen_gridlines(false);
    for (column, width) in (0..).zip(WIDTHS) {
        page.set_column_width(column, width)?;
    }
    page.write_string_with_format(0, 0, OWN_REPORT_MARK, &style::own_mark())?;
    page.write_string_with_format(1, 0, report.title.as_str(), &style::title())?;
    page.set_row_height(1, 24)?;
    let subtitle = format!(
        "{}, {} {}, {} {} {}",
        report.shop,
        language.text("as of"),
        report.as_of_words(),
        language.text("made by"),
        report.made_by.name,
        report.made_by.version
    );
    page.write_string_with_format(2, 0, subtitle, &style::question())?;
    let mut cursor = Cursor {
        page,
        row: 4,
        widths: WIDTHS.to_vec(),
    };
    write_actions(&mut cursor, report)?;
    let as_of_row = write_facts(&mut cursor, report)?;
    let (cautions, unknowns) = (language.text("Cautions"), language.text("Not known"));
    write_list(&mut cursor, &cautions, &report.cover.cautions)?;
    write_list(&mut cursor, &unknowns, &report.cover.unknowns)?;
    // What is to be done stands on a page of its own, what it rests on on the next.
    let second_page = cursor.row;
    write_data_ages(&mut cursor, report)?;
    write_contents(&mut cursor, report)?;
    cursor.page.set_page_breaks(&[second_page])?;
    Ok(Written {
        last_row: cursor.row.saturating_sub(1),
        last_column: cursor.last_column(),
        names: vec![("as_of".to_owned(), format!("{name}!$B${}", as_of_row + 1))],
    })
}

fn write_actions(cursor: &mut Cursor, report: &Report) -> Result<(), XlsxError> {
    let say = |text: &str| report.language.text(text);
    cursor.heading(&say("Do now"), &style::heading())?;
    if report.cover.actions.is_empty() {
        cursor.paragraph(&say("Nothing needs to be done now."), &style::body())?;
    }
    for (number, action) in (1..).zip(&report.cover.actions) {
        let words = format!("{number}. {}", action.text);
        let linked = action.sheet.as_deref().and_then(|key| report.sheet(key));
        // A link is kept on one line by some programs, whatever its cell says: what needs more stands as words, and its detail
        // leads on.
        let is_short = cursor.is_one_line((0, 2), &words, Weight::Bold);
        let height = match linked.filter(|_| is_short) {
            Some(sheet) => cursor.link(0, 2, &words, &sheet.title, &style::link().set_bold())?,
            None => cursor.put_bold(0, 2, &words, &style::strong())?,
        };
        let is_detail_short = cursor.is_one_line((3, 4), &action.detail, Weight::Bold);
        let is_linked = !is_short && is_detail_short && !action.detail.is_empty();
        let other = match linked.filter(|_| is_linked) {
            Some(sheet) => cursor.link(3, 4, &action.detail, &sheet.title, &style::link())?,
            None => cursor.put(3, 4, &action.detail, &style::body())?,
        };
        cursor.next_row(height.max(other))?;
    }
    cursor.row += 1;
    Ok(())
}

/// Writes the figures as figures, with their unit in the format; gives the row of the moment the report holds for.
fn write_facts(cursor: &mut Cursor, report: &Report) -> Result<u32, XlsxError> {
    let language = report.language;
    cursor.heading(&language.text("At a glance"), &style::heading())?;
    let as_of_row = cursor.row;
    let as_of = Fact {
        label: language.text("As of"),
        value: Value::Moment(report.as_of),
        kind: ColumnKind::Moment,
        note: None,
    };
    for fact in std::iter::once(&as_of).chain(&report.cover.facts) {
        let label = cursor.put(0, 0, &fact.label, &style::body())?;
        write_figure(cursor, fact, language)?;
        let words = fact.value.with_unit(fact.kind, language);
        let value = super::width::height_points(&words, WIDTHS[1], Weight::Bold);
        let note = cursor.put(2, 4, &fact.remark(), &style::quiet())?;
        cursor.next_row(label.max(value).max(note))?;
    }
    cursor.row += 1;
    Ok(as_of_row)
}

fn write_figure(cursor: &mut Cursor, fact: &Fact, language: Language) -> Result<(), XlsxError> {
    let (row, column) = (cursor.row, 1);
    let number = fact.value.as_number();
    let digits = Digits::of(fact.kind, number.unwrap_or_default());
    let format = digits.with_unit(fact.kind.unit(), language);
    let format = style::strong()
        .set_align(rust_xlsxwriter::FormatAlign::Left)
        .set_num_format(format);
    match (&fact.value, number) {
        (Value::Moment(moment), _) => cursor
            .page
            .write_datetime_with_format(row, column, *moment, &format)?,
        (Value::Date(date), _) => cursor
            .page
            .write_datetime_with_format(row, column, *date, &format)?,
        (_, Some(number)) => cursor
            .page
            .write_number_with_format(row, column, number, &format)?,
        (_, None) => {
            let words = fact.value.with_unit(fact.kind, language);
            cursor.put_bold(column, column, &words, &style::strong())?;
            return Ok(());
        }
    };
    Ok(())
}

fn write_list(cursor: &mut Cursor, heading: &str, items: &[String]) -> Result<(), XlsxError> {
    if items.is_empty() {
        return Ok(());
    }
    cursor.heading(heading, &style::heading())?;
    for item in items {
        cursor.paragraph(&format!("• {item}"), &style::body())?;
    }
    cursor.row += 1;
    Ok(())
}

fn write_data_ages(cursor: &mut Cursor, report: &Report) -> Result<(), XlsxError> {
    let (cover, language) = (&report.cover, report.language);
    if cover.data_ages.is_empty() {
        return Ok(());
    }
    cursor.heading(&language.text("How old the data are"), &style::heading())?;
    for (column, words) in (0..).zip(["Data", "File", "Dated", "Age", "Note"]) {
        cursor.put(column, column, &language.text(words), &style::quiet())?;
    }
    cursor.row += 1;
    for age in &cover.data_ages {
        let format = if age.is_old {
            style::strong()
        } else {
            style::body()
        };
        let put = if age.is_old {
            Cursor::put_bold
        } else {
            Cursor::put
        };
        let what = put(cursor, 0, 0, &age.what, &format)?;
        let file = put(cursor, 1, 1, &age.file, &format)?;
        match age.dated {
            Some(date) => {
                let format = style::body()
                    .set_num_format(Digits::Date.format(language).as_ref())
                    .set_align(rust_xlsxwriter::FormatAlign::Left);
                cursor
                    .page
                    .write_datetime_with_format(cursor.row, 2, date, &format)?;
            }
            None => {
                cursor.put(2, 2, &language.text("no date in the data"), &style::quiet())?;
            }
        }
        let words = put(cursor, 3, 3, &language.text(&age.in_words()), &format)?;
        let note = cursor.put(4, 4, age.note.as_deref().unwrap_or(""), &style::body())?;
        cursor.next_row(what.max(file).max(words).max(note))?;
    }
    cursor.row += 1;
    Ok(())
}

fn write_contents(cursor: &mut Cursor, report: &Report) -> Result<(), XlsxError> {
    cursor.heading(&report.language.text("Sheets"), &style::heading())?;
    for sheet in &report.sheets {
        let link = cursor.link(0, 0, &sheet.title, &sheet.title, &style::link())?;
        let rows = match sheet.row_count() {
            1 => "1 row".to_owned(),
            count => format!("{count} rows"),
        };
        cursor.put(1, 1, &report.language.text(&rows), &style::quiet())?;
        let question = cursor.put(2, 4, &sheet.question, &style::body())?;
        cursor.next_row(link.max(question))?;
    }
    Ok(())
}
