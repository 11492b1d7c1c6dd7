//! Bar charts below the notes, each with the figures it is drawn from.

use rust_xlsxwriter::{
    Chart as NativeChart, ChartDataLabelPosition, ChartFont, ChartFormat, ChartSolidFill, XlsxError,
};

use super::cursor::Cursor;
use super::style::{self, Digits, INK, Look, Styles};
use crate::language::Language;
use crate::report::model::{Chart, ColumnKind, Sheet};

/// Width of a chart in pixels; fits on A4 across.
const WIDTH: u32 = 860;
/// Height of one bar with its gap in pixels.
const BAR_HEIGHT: u32 = 28;
/// Height of title and edges in pixels.
const FRAME_HEIGHT: u32 = 70;
/// Height of an empty row in pixels, as spreadsheet programs open it.
const ROW_HEIGHT: u32 = 20;

/// Writes one chart, the figures below it, and what it cannot show.
pub(super) fn write_chart(
    cursor: &mut Cursor,
    sheet: &Sheet,
    chart: &Chart,
    styles: &mut Styles,
) -> Result<(), XlsxError> {
    let drawn = chart.bars(sheet);
    let Some(kind) = sheet
        .column_at(&chart.lengths)
        .map(|place| sheet.columns[place].kind)
    else {
        return Ok(());
    };
    // A bar of unknown length has no place in the picture: drawn, it would read as zero.
    let known: Vec<(&str, f64)> = drawn
        .bars
        .iter()
        .filter_map(|bar| Some((bar.name.as_str(), bar.length?)))
        .collect();
    cursor.heading(&chart.title, &style::heading())?;
    cursor.paragraph(&chart.description, &style::quiet())?;
    if let Some(remark) = drawn.remark() {
        cursor.paragraph(&remark, &style::strong())?;
    }
    if known.is_empty() {
        return Ok(());
    }
    let height = FRAME_HEIGHT + BAR_HEIGHT * known.len() as u32;
    let (chart_row, first) = (cursor.row, cursor.row + height.div_ceil(ROW_HEIGHT) + 1);
    let last = first + known.len() as u32 - 1;
    let names_at = u16::from(sheet.has_marks);
    for (&(name, length), row) in known.iter().zip(first..) {
        let look = Look {
            digits: Digits::of(kind, length),
            is_right: true,
            ..Look::PLAIN
        };
        cursor
            .page
            .write_string_with_format(row, names_at, name, styles.of(Look::PLAIN))?;
        cursor
            .page
            .write_number_with_format(row, names_at + 1, length, styles.of(look))?;
    }
    let cells = Cells {
        sheet: sheet.title.as_str(),
        first,
        last,
        names_at,
    };
    let is_from_zero = known.iter().all(|(_, length)| *length >= 0.0);
    let mut native = native_chart(chart, kind, &cells, (is_from_zero, sheet.language));
    native.set_width(WIDTH).set_height(height);
    cursor.page.insert_chart(chart_row, 0, &native)?;
    cursor.row = last + 2;
    Ok(())
}

/// Where the figures of a chart stand: names in one column, lengths in the next.
struct Cells<'a> {
    sheet: &'a str,
    first: u32,
    last: u32,
    names_at: u16,
}

fn native_chart(
    chart: &Chart,
    kind: ColumnKind,
    cells: &Cells,
    (is_from_zero, language): (bool, Language),
) -> NativeChart {
    let &Cells {
        sheet,
        first,
        last,
        names_at,
    } = cells;
    let mut native = NativeChart::new_bar();
    native
        .add_series()
        .set_name(chart.title.as_str())
        .set_categories((sheet, first, names_at, last, names_at))
        .set_values((sheet, first, names_at + 1, last, names_at + 1))
        .set_gap(60)
        .set_format(ChartFormat::new().set_solid_fill(ChartSolidFill::new().set_color(INK)))
        .set_data_label(
            rust_xlsxwriter::ChartDataLabel::new()
                .show_value()
                .set_position(ChartDataLabelPosition::OutsideEnd)
                .set_num_format(Digits::of(kind, 0.5).format(language).as_ref()),
        );
    let unit = kind
        .unit()
        .map_or_else(String::new, |unit| format!(" ({})", language.text(unit)));
    native
        .title()
        .set_name(&format!("{}{unit}", chart.title))
        .set_font(ChartFont::new().set_size(11).set_color(INK));
    // The first row stands on top, as in the table; the upright axis of a bar chart carries the names.
    native.y_axis().set_reverse();
    native.x_axis().set_hidden(true).set_major_gridlines(false);
    if is_from_zero {
        // A bar that does not start at zero lies about its length.
        native.x_axis().set_min(0);
    }
    native.legend().set_hidden();
    native.set_alt_text(format!("{} {}", chart.title, chart.description));
    native
}
