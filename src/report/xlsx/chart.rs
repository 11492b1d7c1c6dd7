//! Native charts below the notes, each with the figures it is drawn from.

use rust_xlsxwriter::{
    Chart as NativeChart, ChartDataLabel, ChartDataLabelPosition, ChartFont, ChartFormat,
    ChartLine, ChartMarker, ChartMarkerType, ChartSeries, ChartSolidFill, ChartType, Color,
    XlsxError,
};

use super::cursor::Cursor;
use super::style::{self, Digits, INK, Look, Styles};
use super::width::text_width;
use crate::language::Language;
use crate::report::model::{Band, Bar, Chart, ColumnKind, Drawn, Point, Sheet};

/// Width of a chart in pixels; fits on A4 across.
const WIDTH: u32 = 860;
/// Height of one bar with its gap in pixels.
const BAR_HEIGHT: u32 = 28;
/// Height of title and edges in pixels.
const FRAME_HEIGHT: u32 = 70;
/// Height of a chart with two axes in pixels.
const LINE_HEIGHT: u32 = 380;
/// Height of an empty row in pixels, as spreadsheet programs open it.
const ROW_HEIGHT: u32 = 20;
/// Width in characters that a moment takes.
const MOMENT_WIDTH: u16 = 17;
/// Width in characters that another figure takes.
const FIGURE_WIDTH: u16 = 10;
/// Rules that cross the bands.
const RULE: Color = Color::RGB(0xC9_CF_D4);
/// Ink of what the report stands on; its mark is larger and of another shape as well.
const CHOSEN: Color = Color::RGB(0x8F_1D_10);

/// Writes one chart, the figures below it, and what it cannot show.
pub(super) fn write_chart(
    cursor: &mut Cursor,
    sheet: &Sheet,
    chart: &Chart,
    styles: &mut Styles,
) -> Result<(), XlsxError> {
    let Some((drawn, remark)) = chart.drawn(sheet) else {
        return Ok(());
    };
    cursor.heading(&chart.title, &style::heading())?;
    cursor.paragraph(&chart.description, &style::quiet())?;
    if let Some(remark) = remark {
        cursor.paragraph(&remark, &style::strong())?;
    }
    let language = sheet.language;
    let figures = Figures::of(&drawn, language);
    if figures.rows.is_empty() {
        return Ok(());
    }
    let height = match &drawn {
        Drawn::Line { .. } => LINE_HEIGHT,
        _ => FRAME_HEIGHT + BAR_HEIGHT * figures.rows.len() as u32,
    };
    let chart_row = cursor.row;
    let head = chart_row + height.div_ceil(ROW_HEIGHT) + 1;
    let cells = Cells {
        sheet: sheet.title.as_str(),
        first: head + 1,
        last: head + figures.rows.len() as u32,
        columns: figures.columns(cursor, u16::from(sheet.has_marks)),
    };
    figures.write(cursor, head, &cells.columns, styles)?;
    let mut native = match &drawn {
        Drawn::Bars(kind, bars) => bar_chart(chart, (*kind, language), bars, &cells),
        Drawn::Line { across, up, points } => line_chart((across, up, points), language, &cells),
        Drawn::Bands(_) => band_chart(&figures, language, &cells),
    };
    native
        .title()
        .set_name(&chart.title)
        .set_font(ChartFont::new().set_size(11).set_color(INK));
    native.legend().set_hidden();
    native.set_alt_text(format!("{} {}", chart.title, chart.description));
    native.set_width(WIDTH).set_height(height);
    cursor.page.insert_chart(chart_row, 0, &native)?;
    cursor.row = cells.last + 2;
    Ok(())
}

/// The figures a chart is drawn from, as they stand below it.
struct Figures {
    /// Headers of the columns.
    headers: Vec<String>,
    /// How the figures of each column are written.
    digits: Vec<Digits>,
    /// Name of each row, where rows have names.
    names: Vec<String>,
    /// Figures of each row.
    rows: Vec<Vec<f64>>,
}

impl Figures {
    fn of(drawn: &Drawn, language: Language) -> Self {
        match drawn {
            Drawn::Bars(kind, bars) => {
                let known = bars
                    .iter()
                    .filter_map(|bar| Some((bar.name.clone(), vec![bar.length?])));
                let (names, rows) = known.unzip();
                Self {
                    headers: vec![String::new(), unit(*kind, language)],
                    digits: vec![Digits::of(*kind, 0.5)],
                    names,
                    rows,
                }
            }
            Drawn::Line { across, up, points } => Self {
                headers: [across, up].map(|(name, _)| name.clone()).to_vec(),
                digits: [across, up]
                    .map(|(_, kind)| Digits::of(*kind, 0.5))
                    .to_vec(),
                names: Vec::new(),
                rows: points.iter().map(|of| vec![of.across, of.up]).collect(),
            },
            Drawn::Bands(bands) => Self::of_bands(bands, language),
        }
    }

    fn of_bands(bands: &[Band], language: Language) -> Self {
        let known = bands.iter().filter_map(|band| {
            let (from, to) = band.span?;
            let days = (to - from).num_minutes() as f64 / 1_440.0;
            Some((band.name.clone(), vec![serial_day(from), days]))
        });
        let (names, rows) = known.unzip();
        Self {
            headers: ["", "from", "days"].map(|of| language.text(of)).to_vec(),
            digits: vec![Digits::Moment, Digits::Tenths],
            names,
            rows,
        }
    }

    /// Columns for names and figures: from `first` on the next that are wide enough, so that no figure shows as `###`, and so
    /// far apart that names and headers have room before what stands next.
    fn columns(&self, cursor: &Cursor, first: u16) -> Vec<u16> {
        let last = cursor.last_column();
        let width = |at: u16| cursor.widths.get(usize::from(at)).copied().unwrap_or(0);
        let figures = self.digits.iter().map(|digits| match digits {
            Digits::Moment => MOMENT_WIDTH,
            _ => FIGURE_WIDTH,
        });
        let has_names = !self.names.is_empty();
        let figures: Vec<u16> = has_names.then_some(0).into_iter().chain(figures).collect();
        let mut columns = Vec::new();
        let mut next = first;
        for (place, figure) in figures.iter().enumerate() {
            let column = (next..=last).find(|at| width(*at) >= *figure);
            let column = column.unwrap_or(next);
            columns.push(column);
            next = column + 1;
            // Columns that are left for what follows.
            let behind = (figures.len() - place - 1) as u16;
            let mut room = width(column);
            while behind > 0 && room < self.words_of(place) && next + behind <= last {
                room += width(next);
                next += 1;
            }
        }
        columns
    }

    /// Characters of the longest name or header in a column of the figures, with air behind it.
    fn words_of(&self, place: usize) -> u16 {
        let header = self.headers.get(place).map(String::as_str);
        let names = self.names.iter().map(String::as_str).filter(|_| place == 0);
        let longest = names.chain(header).map(text_width).max();
        longest.map_or(0, |longest| longest as u16 + 1)
    }

    fn write(
        &self,
        cursor: &mut Cursor,
        head: u32,
        columns: &[u16],
        styles: &mut Styles,
    ) -> Result<(), XlsxError> {
        for (header, &column) in self.headers.iter().zip(columns) {
            let format = style::quiet();
            cursor
                .page
                .write_string_with_format(head, column, header, &format)?;
        }
        for (name, row) in self.names.iter().zip(head + 1..) {
            let format = styles.of(Look::PLAIN);
            cursor
                .page
                .write_string_with_format(row, columns[0], name, format)?;
        }
        let figures_at = &columns[usize::from(!self.names.is_empty())..];
        for (figures, row) in self.rows.iter().zip(head + 1..) {
            for ((figure, digits), &column) in figures.iter().zip(&self.digits).zip(figures_at) {
                let look = Look {
                    digits: *digits,
                    is_right: true,
                    ..Look::PLAIN
                };
                let format = styles.of(look);
                cursor
                    .page
                    .write_number_with_format(row, column, *figure, format)?;
            }
        }
        Ok(())
    }
}

/// Where the figures of a chart stand.
struct Cells<'a> {
    sheet: &'a str,
    first: u32,
    last: u32,
    columns: Vec<u16>,
}

impl Cells<'_> {
    /// A column of the figures, counted from the first.
    fn range(&self, column: usize) -> (&str, u32, u16, u32, u16) {
        let at = self.columns[column];
        (self.sheet, self.first, at, self.last, at)
    }
}

fn bar_chart(
    chart: &Chart,
    (kind, language): (ColumnKind, Language),
    bars: &[Bar],
    cells: &Cells,
) -> NativeChart {
    let mut native = NativeChart::new(ChartType::Bar);
    native
        .add_series()
        .set_name(chart.title.as_str())
        .set_categories(cells.range(0))
        .set_values(cells.range(1))
        .set_gap(60)
        .set_format(&mut fill())
        .set_data_label(
            ChartDataLabel::new()
                .show_value()
                .set_position(ChartDataLabelPosition::OutsideEnd)
                .set_num_format(Digits::of(kind, 0.5).format(language).as_ref()),
        );
    // The first row stands on top, as in the table; the upright axis of a bar chart carries the names.
    native.y_axis().set_reverse();
    native.x_axis().set_major_gridlines(false);
    if let Some(unit) = kind.unit() {
        native.x_axis().set_name(&language.text(unit));
    }
    if bars
        .iter()
        .all(|bar| bar.length.is_none_or(|length| length >= 0.0))
    {
        // A bar that does not start at zero lies about its length.
        native.x_axis().set_min(0);
    }
    native
}

fn line_chart(
    (across, up, points): (&(String, ColumnKind), &(String, ColumnKind), &[Point]),
    language: Language,
    cells: &Cells,
) -> NativeChart {
    let mut native = NativeChart::new(ChartType::ScatterStraightWithMarkers);
    let mut ring = ChartMarker::new();
    ring.set_type(ChartMarkerType::Diamond)
        .set_size(12)
        .set_format(ChartFormat::new().set_solid_fill(ChartSolidFill::new().set_color(CHOSEN)));
    // The line runs through the rows before those that stand by themselves.
    let on_line = points.iter().filter(|point| !point.is_chosen).count() as u32;
    if on_line > 0 {
        let part = |column: usize| {
            let at = cells.columns[column];
            (cells.sheet, cells.first, at, cells.first + on_line - 1, at)
        };
        let ink = ChartLine::new().set_color(INK).set_width(1.75).clone();
        // A series with a line of its own takes the program's markers: the writer puts both in an order that the schema refuses.
        let mut line = ChartSeries::new();
        line.set_name(up.0.as_str())
            .set_categories(part(0))
            .set_values(part(1))
            .set_format(ChartFormat::new().set_line(&ink));
        native.push_series(&line);
    }
    for (_, row) in points
        .iter()
        .zip(cells.first..)
        .filter(|(point, _)| point.is_chosen)
    {
        let cell = |column: usize| {
            let at = cells.columns[column];
            (cells.sheet, row, at, row, at)
        };
        let mut chosen = ChartSeries::new();
        chosen
            .set_name(&language.text("this report"))
            .set_categories(cell(0))
            .set_values(cell(1))
            .set_marker(&ring)
            .set_data_label(
                ChartDataLabel::new()
                    .show_series_name()
                    .set_position(ChartDataLabelPosition::Below),
            );
        native.push_series(&chosen);
    }
    native
        .x_axis()
        .set_name(named(across, language).as_str())
        .set_num_format(Digits::axis(across.1));
    native
        .y_axis()
        .set_name(named(up, language).as_str())
        .set_num_format(Digits::axis(up.1));
    if points.iter().all(|point| point.across >= 0.0) {
        native.x_axis().set_min(0);
    }
    if up.1 == ColumnKind::Share && points.iter().all(|point| point.up <= 1.0) {
        // No share is above the whole, though the program would leave room there.
        native.y_axis().set_max(1);
    }
    native
}

/// An unseen bar up to the likely moment, and on it the band to the late one.
fn band_chart(figures: &Figures, language: Language, cells: &Cells) -> NativeChart {
    let mut native = NativeChart::new(ChartType::BarStacked);
    native
        .add_series()
        .set_name(&language.text("likely"))
        .set_categories(cells.range(0))
        .set_values(cells.range(1))
        .set_gap(60)
        .set_format(ChartFormat::new().set_no_fill());
    native
        .add_series()
        .set_name(&language.text("to the late moment"))
        .set_categories(cells.range(0))
        .set_values(cells.range(2))
        .set_format(&mut fill());
    let from = figures
        .rows
        .iter()
        .map(|row| row[0])
        .fold(f64::MAX, f64::min);
    native.y_axis().set_reverse();
    native
        .x_axis()
        .set_min(from.floor())
        .set_num_format(Digits::Date.format(language).as_ref())
        .set_major_gridlines_line(ChartLine::new().set_color(RULE).set_width(0.5));
    native
}

/// Solid, with an edge, so that a band of no length still shows.
fn fill() -> ChartFormat {
    ChartFormat::new()
        .set_solid_fill(ChartSolidFill::new().set_color(INK))
        .set_line(ChartLine::new().set_color(INK).set_width(1.5))
        .clone()
}

fn named((header, kind): &(String, ColumnKind), language: Language) -> String {
    match kind.unit() {
        Some(unit) => format!("{header} ({})", language.text(unit)),
        None => header.clone(),
    }
}

fn unit(kind: ColumnKind, language: Language) -> String {
    kind.unit()
        .map_or_else(String::new, |unit| language.text(unit))
}

/// The day as the format counts it, from 1899-12-30 on (ECMA-376 part 4, 3.17.4.1, the 1900 date base).
fn serial_day(moment: chrono::NaiveDateTime) -> f64 {
    let zero = chrono::NaiveDate::from_ymd_opt(1899, 12, 30).unwrap_or_default();
    (moment - zero.and_time(chrono::NaiveTime::MIN)).num_minutes() as f64 / 1_440.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_and_headers_have_room_before_what_stands_next() {
        let mut book = rust_xlsxwriter::Workbook::new();
        let cursor = Cursor {
            page: book.add_worksheet(),
            row: 0,
            widths: vec![11, 12, 12, 12, 12, 12],
        };
        let figures = |headers: [&str; 2], names: &[&str]| Figures {
            headers: headers.map(str::to_owned).to_vec(),
            digits: vec![Digits::of(ColumnKind::Hours, 0.5); 2 - usize::from(!names.is_empty())],
            names: names.iter().map(|name| (*name).to_owned()).collect(),
            rows: Vec::new(),
        };
        // 33 signs take three columns of 12, and 25 take three as well.
        let long = figures(["", "h"], &["Vacuum packer VP-1 pump and chain"]);
        assert_eq!(long.columns(&cursor, 1), [1, 4]);
        let short = figures(["", "h"], &["Fan"]);
        assert_eq!(short.columns(&cursor, 1), [1, 2]);
        let line = figures(["Usages met from the shelf", "EUR"], &[]);
        assert_eq!(line.columns(&cursor, 0), [0, 3]);
        // Where there is no room, what stands next keeps the last column.
        let longest = figures(["", "h"], &["x".repeat(200).as_str()]);
        assert_eq!(longest.columns(&cursor, 1), [1, 5]);
    }

    #[test]
    fn days_are_counted_as_the_format_does() {
        // ECMA-376 part 4, 3.17.4.1: serial value 1 is 1900-01-01; 2008-01-01 is 39448 (worked from it: 108 years of
        // 365 days, 26 leap days, the invented 1900-02-29, and 1).
        let day = chrono::NaiveDate::from_ymd_opt(2008, 1, 1).unwrap();
        assert!((serial_day(day.and_hms_opt(12, 0, 0).unwrap()) - 39_448.5).abs() < 1e-9);
    }
}
