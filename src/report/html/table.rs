//! One sheet of the page: heading, chart, table, notes.

use maud::{Markup, html};

use super::chart::figure;
use super::words::words;
use crate::report::model::{Column, ColumnKind, Emphasis, Row, Sheet, UNKNOWN, Value};

/// Bytes above which a cell scrolls in a window of its own height.
const TALL_TEXT: usize = 1_500;
/// Rows above which a table scrolls in a window of its own height.
const LONG_TABLE: usize = 25;
/// Bytes up to which a word is never broken.
const SHORT_WORD: usize = 20;
/// Characters above which a cell of words gets a wide column.
const LONG_WORDS: usize = 60;

/// The section of one sheet.
pub fn section(sheet: &Sheet) -> Markup {
    let sheet = &*sheet.printed_first();
    let heading = format!("{}-heading", sheet.key);
    html! {
        section.sheet id=(sheet.key) aria-labelledby=(heading) {
            h2 id=(heading) { (words(&sheet.title)) }
            p.quiet { (words(&sheet.question)) }
            @if sheet.rows.is_empty() {
                p.none { (words(&sheet.empty_text)) }
            } @else {
                // One chart leads to its table; many would hide it.
                @let (before, after) = sheet.charts.split_at(if sheet.charts.len() == 1 { 1 } else { 0 });
                @for chart in before { (figure(sheet, chart, 0)) }
                (table(sheet, &heading))
                @for (number, chart) in after.iter().enumerate() { (figure(sheet, chart, number)) }
            }
            (notes(sheet))
        }
    }
}

fn table(sheet: &Sheet, heading: &str) -> Markup {
    html! {
        @if sheet.rows.len() > LONG_TABLE {
            p.quiet.on-screen { (sheet.language.text(&format!("{} rows", sheet.rows.len()))) }
        }
        // The section bears the heading's name already; two landmarks of one name cannot be told apart.
        div.scroll.long[sheet.rows.len() > LONG_TABLE] role="group" aria-labelledby=(heading) tabindex="0" {
            // What the script needs to know of the language, and the only words it says.
            @let (language, sorts) = (sheet.language, sheet.rows.len() > 1);
            table.sorts[sorts] data-sort=[sorts.then(|| language.text("Sort by this column"))]
                data-day=[sorts.then(|| language.day_form())] data-decimal=[sorts.then(|| language.decimal_sign())]
                data-group=[sorts.then(|| language.group_sign())] {
                caption { (words(&sheet.title)) ": " (words(&sheet.question)) }
                thead { tr {
                    @for (place, column) in sheet.columns.iter().enumerate() {
                        th.n[column.kind.is_number()].on-screen[is_on_screen(place, column)] scope="col" { (words(&column.label())) }
                    }
                } }
                tbody { @for row in &sheet.rows { (table_row(sheet, row)) } }
                @if sheet.has_totals() { tfoot { (totals(sheet)) } }
            }
        }
    }
}

fn table_row(sheet: &Sheet, row: &Row) -> Markup {
    let class = row.emphasis.word();
    html! {
        tr class=[(row.emphasis != Emphasis::None).then_some(class)] {
            @for (place, (column, value)) in sheet.columns.iter().zip(&row.cells).enumerate() {
                @if place == 0 {
                    th scope="row" {
                        @if row.emphasis != Emphasis::None { span.mark { (sheet.language.text(row.emphasis.mark())) } }
                        (cell(value, column))
                    }
                } @else {
                    td class=[class_of(place, column, value)] { (cell(value, column)) }
                }
            }
        }
    }
}

/// Columns that paper has no room for; the one that names the row is always there.
const fn is_on_screen(place: usize, column: &Column) -> bool {
    place > 0 && !column.is_printed
}

/// A value; an unknown one says why when it is pointed at, and the notes below the table say it for all.
fn cell(value: &Value, column: &Column) -> Markup {
    html! {
        @match value {
            Value::Unknown(reason) => span.unknown title=(words(reason)) { (column.language.text(UNKNOWN)) },
            Value::Text(text) if text.len() > TALL_TEXT => div.tall tabindex="0" { (words(text)) },
            _ => (words(&column.words(value))),
        }
    }
}

fn class_of(place: usize, column: &Column, value: &Value) -> Option<String> {
    let look = look_of(column, value);
    match is_on_screen(place, column) {
        true => Some(
            format!("{} on-screen", look.unwrap_or_default())
                .trim_start()
                .to_owned(),
        ),
        false => look.map(str::to_owned),
    }
}

fn look_of(column: &Column, value: &Value) -> Option<&'static str> {
    match (column.kind, value) {
        (ColumnKind::Date | ColumnKind::Moment, _) => Some("d"),
        (kind, _) if kind.is_number() => Some("n"),
        (_, Value::Text(text)) if text.chars().count() > LONG_WORDS => Some("wide"),
        (ColumnKind::Text, Value::Text(text)) if text.contains(' ') => Some("words"),
        // A number of a part is read as one word.
        (ColumnKind::Text, Value::Text(text)) if text.len() <= SHORT_WORD => Some("d"),
        _ => None,
    }
}

fn totals(sheet: &Sheet) -> Markup {
    let label_at = sheet.columns.iter().position(|column| !column.is_totalled);
    html! {
        tr {
            @for (place, column) in sheet.columns.iter().enumerate() {
                @let shown = if column.is_totalled {
                    column.words(&sheet.total_value(place)).into_owned()
                } else if label_at == Some(place) {
                    sheet.total_label()
                } else {
                    String::new()
                };
                @if place == 0 {
                    th scope="row" { (shown) }
                } @else {
                    td.n[column.kind.is_number()].on-screen[is_on_screen(place, column)] { (shown) }
                }
            }
        }
    }
}

fn notes(sheet: &Sheet) -> Markup {
    let reasons = sheet.unknown_notes();
    let has_help = sheet.columns.iter().any(|column| column.help.is_some());
    html! {
        @if !sheet.notes.is_empty() || !reasons.is_empty() {
            h3 { (sheet.language.text("Notes")) }
            ul.plain { @for note in sheet.notes.iter().chain(&reasons) { li { (words(note)) } } }
        }
        @if has_help {
            details {
                summary { (sheet.language.text("How to read the columns")) }
                dl.help {
                    @for column in &sheet.columns {
                        @if let Some(help) = &column.help {
                            dt { (words(&column.label())) }
                            dd { (words(help)) }
                        }
                    }
                }
            }
        }
    }
}
