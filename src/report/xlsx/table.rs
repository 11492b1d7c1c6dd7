//! One sheet: heading, table with filters and live formulas, totals, notes, charts.

use std::collections::BTreeMap;

use rust_xlsxwriter::{
    ConditionalFormatFormula, Formula, Table, TableColumn, TableFunction, TableStyle, Worksheet,
    XlsxError,
};

use super::cell::{Cell, is_right, look_of, put, write_value};
use super::chart::write_chart;
use super::cover::COVER_NAME;
use super::cursor::Cursor;
use super::fitting::fitting;
use super::letter::Weight;
use super::paper::{Breaks, OnPaper};
use super::quoted_title::quoted_title;
use super::style::{self, Look, Styles};
use super::width::{self, MARK_WIDTH};
use super::written::Written;
use crate::place::column_letters;
use crate::report::model::{Column, Emphasis, MARK_HEADER, Row, Sheet, Value};

/// Row of the headers, from 0: title, question and the way back stand above.
pub(super) const HEADER_ROW: u32 = 3;

/// Rows above which a sheet is written row by row and forgotten, with filters but not as a table: the writer keeps an entry
/// for every cell of a table, which for a hundred thousand parts takes more than all the rest of the report.
const LONG: usize = 10_000;

/// True for a sheet that is written row by row.
pub(super) fn is_long(sheet: &Sheet) -> bool {
    is_long_with(sheet, sheet.rows.len())
}

/// True for a sheet that is written row by row where so many of its rows are written.
fn is_long_with(sheet: &Sheet, rows: usize) -> bool {
    rows > LONG && sheet.charts.is_empty()
}

/// Every emphasis a row may have.
const EMPHASES: [Emphasis; 4] = [
    Emphasis::None,
    Emphasis::Good,
    Emphasis::Attention,
    Emphasis::Stop,
];
/// Rows by which the usual look of a column is judged.
const ROWS_LOOKED_AT: usize = 1_000;
/// The look of plain words between the lines of the grid.
const PLAIN_ON_GRID: Look = on_grid(Look::PLAIN);
/// Rows that may all be filled without drowning each other.
const FEW_ROWS: usize = 6;

/// Where the columns of a sheet lie.
struct Grid<'a> {
    sheet: &'a Sheet,
    /// Its rows that are written.
    rows: &'a [Row],
    /// The look of most cells of each column, where rows are written one by one: it is that of the column, since the writer
    /// looks up every format that a cell has of its own.
    usual: Option<Vec<Look>>,
    /// A cover leads to the sheet, and the sheet leads back.
    has_cover: bool,
    /// All sheets of the report, for formulas that reach over.
    sheets: &'a [Sheet],
    /// 1 where a column of marks comes first.
    first: u16,
    /// Width of each column in characters, marks not counted.
    widths: Vec<u16>,
    /// How many columns come on paper, from the first on.
    printed: usize,
    /// The words of each mark.
    marks: BTreeMap<Emphasis, String>,
    /// Letters of the cells that the formula of each column reads; `None` where there is no formula, or it reads a column
    /// that is not there.
    reads: Vec<Option<Vec<String>>>,
}

/// Writes one sheet.
pub(super) fn write_sheet(
    page: &mut Worksheet,
    laid: &OnPaper<'_>,
    sheets: &[Sheet],
    styles: &mut Styles,
    has_cover: bool,
) -> Result<Written, XlsxError> {
    let sheet: &Sheet = &laid.sheet;
    let first = u16::from(sheet.has_marks);
    let is_long = is_long_with(sheet, laid.rows().len());
    let grid = Grid {
        sheet,
        rows: laid.rows(),
        usual: is_long.then(|| usual_looks(laid)),
        has_cover,
        sheets,
        first,
        widths: laid.widths.clone(),
        printed: laid.printed,
        marks: EMPHASES
            .map(|of| (of, styles.language().text(of.mark())))
            .into(),
        reads: sheet
            .columns
            .iter()
            .map(|column| letters_read(sheet, column, first))
            .collect(),
    };
    page.set_name(sheet.title.as_str())?;
    page.set_screen_gridlines(is_long);
    page.set_print_gridlines(is_long);
    grid.write_heading(page)?;
    if grid.rows.is_empty() {
        page.write_string_with_format(
            HEADER_ROW + 1,
            0,
            fitting(&sheet.empty_text).as_ref(),
            &style::question(),
        )?;
    } else {
        match &grid.usual {
            Some(usual) => {
                grid.add_filter(page)?;
                grid.set_columns(page, usual, styles)?;
            }
            None => grid.add_table(page)?,
        }
        for (row, number) in grid.rows.iter().zip(HEADER_ROW + 1..) {
            grid.write_row(page, row, number, styles)?;
        }
        grid.write_totals(page, styles)?;
        grid.mark_rows(page)?;
    }
    page.set_freeze_panes(HEADER_ROW + 1, grid.first + 1)?;
    let mut cursor = Cursor {
        page,
        row: grid.below(),
        widths: grid.paper_widths(),
    };
    write_notes(&mut cursor, &grid)?;
    let mut breaks = Breaks::new(cursor.widths.iter().sum());
    for chart in &sheet.charts {
        let first = cursor.row;
        write_chart(&mut cursor, sheet, chart, styles)?;
        breaks.before(first, cursor.row - first);
    }
    if !breaks.rows.is_empty() {
        cursor.page.set_page_breaks(&breaks.rows)?;
    }
    Ok(Written {
        last_row: cursor.row.saturating_sub(1),
        last_column: cursor.last_column(),
        names: grid.names(),
    })
}

impl Grid<'_> {
    /// Widths of all columns, and of free ones to their right.
    fn all_widths(&self) -> Vec<u16> {
        let mut widths = self.with_marks(&self.widths);
        widths.extend(self.paper_widths().get(widths.len()..).unwrap_or_default());
        widths
    }

    /// Widths of the columns that come on paper.
    fn paper_widths(&self) -> Vec<u16> {
        let (printed, others) = self.widths.split_at(self.printed);
        let mut widths = self.with_marks(printed);
        let mut others = others.iter();
        // Notes need room even below a narrow table; two free columns give it.
        while widths.iter().sum::<u16>() < 90 {
            widths.push(others.next().copied().unwrap_or(30));
        }
        widths
    }

    fn with_marks(&self, widths: &[u16]) -> Vec<u16> {
        let marks = self.sheet.has_marks.then_some(MARK_WIDTH);
        marks.into_iter().chain(widths.iter().copied()).collect()
    }

    /// The cells of the totals, named after sheet and column.
    fn names(&self) -> Vec<(String, String)> {
        let sheet = self.sheet;
        if !sheet.has_totals() {
            return Vec::new();
        }
        let row = HEADER_ROW + 1 + self.rows.len() as u32;
        let summed = sheet.columns.iter().zip(self.first..);
        summed
            .filter(|(column, _)| column.is_totalled)
            .map(|(column, at)| {
                let name = format!("total_{}_{}", sheet.key, column.key);
                let letters = column_letters(u32::from(at));
                let title = quoted_title(&sheet.title);
                (name, format!("{title}!${letters}${}", row + 1))
            })
            .collect()
    }

    /// Lets each row look as its mark says, so that a row looks settled once its mark is cleared.
    fn mark_rows(&self, page: &mut Worksheet) -> Result<(), XlsxError> {
        let sheet = self.sheet;
        if !sheet.has_marks {
            return Ok(());
        }
        let first = HEADER_ROW + 1;
        let last = HEADER_ROW + self.rows.len() as u32;
        let all = self.first + sheet.columns.len() as u16 - 1;
        for emphasis in [Emphasis::Stop, Emphasis::Attention] {
            let marked = self.rows.iter().filter(|row| row.emphasis == emphasis);
            let marked = marked.count();
            if marked == 0 {
                continue;
            }
            // What most rows shout nobody hears: then the mark and the row's name alone are filled.
            let last_column = if self.rows.len() > FEW_ROWS && marked * 3 > self.rows.len() {
                self.first
            } else {
                all
            };
            let mark = sheet.language.text(emphasis.mark());
            let rule = ConditionalFormatFormula::new()
                .set_rule(format!("=$A{}=\"{mark}\"", first + 1).as_str())
                .set_format(style::marked(emphasis));
            page.add_conditional_format(first, 0, last, last_column, &rule)?;
        }
        Ok(())
    }

    /// First row that is free below the table.
    fn below(&self) -> u32 {
        let rows = self.rows.len().max(1) as u32;
        HEADER_ROW + 1 + rows + u32::from(self.sheet.has_totals()) + 1
    }

    fn write_heading(&self, page: &mut Worksheet) -> Result<(), XlsxError> {
        let sheet = self.sheet;
        page.write_string_with_format(0, 0, sheet.title.as_str(), &style::title())?;
        page.set_row_height(0, 24)?;
        page.write_string_with_format(1, 0, fitting(&sheet.question).as_ref(), &style::question())?;
        if self.has_cover {
            let cover = sheet.language.text(COVER_NAME);
            let back = rust_xlsxwriter::Url::new(format!("internal:{}!A1", quoted_title(&cover)))
                .set_text(format!("← {cover}"));
            page.write_url_with_format(2, 0, back, &style::link_line())?;
        }
        if has_notes(self) {
            let notes = rust_xlsxwriter::Url::new(format!(
                "internal:{}!A{}",
                quoted_title(&sheet.title),
                self.below() + 1
            ))
            .set_text(sheet.language.text(if sheet.charts.is_empty() {
                "Notes below the table ↓"
            } else {
                "Notes and charts below the table ↓"
            }));
            page.write_url_with_format(2, 1, notes, &style::link_line())?;
        }
        for (column, width) in (0..).zip(self.all_widths()) {
            page.set_column_width(column, width)?;
        }
        page.set_row_height(HEADER_ROW, width::header_points(sheet, &self.widths))?;
        if sheet.has_marks {
            let mark = sheet.language.text(MARK_HEADER);
            page.write_string_with_format(HEADER_ROW, 0, mark, &style::header(false))?;
        }
        for (column, place) in sheet.columns.iter().zip(self.first..) {
            let format = style::header(is_right(column.kind));
            page.write_string_with_format(HEADER_ROW, place, column.label(), &format)?;
        }
        Ok(())
    }

    fn add_filter(&self, page: &mut Worksheet) -> Result<(), XlsxError> {
        let last_row = HEADER_ROW + self.rows.len() as u32;
        let columns = self.sheet.columns.len() as u16 + self.first;
        page.autofilter(HEADER_ROW, 0, last_row, columns - 1)?;
        Ok(())
    }

    /// Gives each column the look that most of its cells have.
    fn set_columns(
        &self,
        page: &mut Worksheet,
        usual: &[Look],
        styles: &mut Styles,
    ) -> Result<(), XlsxError> {
        let marks = self.sheet.has_marks.then_some(&PLAIN_ON_GRID);
        for (look, column) in marks.into_iter().chain(usual).zip(0..) {
            page.set_column_format(column, styles.of(*look))?;
        }
        Ok(())
    }

    fn add_table(&self, page: &mut Worksheet) -> Result<(), XlsxError> {
        let sheet = self.sheet;
        let has_totals = sheet.has_totals();
        let label_at = self.label_column();
        let marks = sheet.has_marks.then(|| {
            TableColumn::new()
                .set_header(sheet.language.text(MARK_HEADER))
                .set_header_format(style::header(false))
        });
        let columns = sheet.columns.iter().enumerate().map(|(place, column)| {
            let described = TableColumn::new()
                .set_header(column.label())
                .set_header_format(style::header(is_right(column.kind)));
            if has_totals && column.is_totalled && sheet.total_value(place).as_number().is_some() {
                described.set_total_function(TableFunction::Sum)
            } else if has_totals && label_at == Some(place) {
                described.set_total_label(sheet.total_label())
            } else {
                described
            }
        });
        let columns: Vec<TableColumn> = marks.into_iter().chain(columns).collect();
        let table = Table::new()
            .set_name(table_name(sheet))
            .set_style(TableStyle::None)
            .set_banded_rows(false)
            .set_total_row(has_totals)
            .set_columns(&columns);
        let last_row = HEADER_ROW + self.rows.len() as u32 + u32::from(has_totals);
        page.add_table(HEADER_ROW, 0, last_row, columns.len() as u16 - 1, &table)?;
        Ok(())
    }

    /// Column that carries the words of the totals row: the first that is not summed up.
    fn label_column(&self) -> Option<usize> {
        self.sheet.columns.iter().position(|c| !c.is_totalled)
    }

    fn write_row(
        &self,
        page: &mut Worksheet,
        row: &Row,
        number: u32,
        styles: &mut Styles,
    ) -> Result<(), XlsxError> {
        if self.sheet.has_marks {
            let mark = self.marks.get(&row.emphasis).map_or("", String::as_str);
            let format = self.usual.is_none().then(|| styles.of(Look::PLAIN));
            put(page, (number, 0), mark, format)?;
        }
        let mut height: f64 = 0.0;
        for (place, (column, value)) in self.sheet.columns.iter().zip(&row.cells).enumerate() {
            let width = self.widths[place];
            let look = look_in_row(column, value, width, place < self.printed);
            let cell = Cell {
                row: number,
                column: self.first + place as u16,
                look: match &self.usual {
                    Some(usual) => {
                        let look = on_grid(look);
                        let has_own = *value != Value::Empty && look != usual[place];
                        has_own.then_some(look)
                    }
                    None => Some(look),
                },
            };
            if let Value::Text(text) = value
                && look.wraps
            {
                // The conditional format of these rows is bold.
                let weight = match row.emphasis {
                    Emphasis::Stop => Weight::Bold,
                    Emphasis::None | Emphasis::Good | Emphasis::Attention => Weight::Regular,
                };
                height = height.max(width::height_points(text, width, weight));
            }
            match self.live_formula((place, column), value, row, number) {
                Some(formula) => {
                    let format = cell.look.map(|look| styles.of(look));
                    put(page, (cell.row, cell.column), formula, format)?;
                }
                None => write_value(page, &cell, value, styles)?,
            }
        }
        if height > 0.0 {
            page.set_row_height(number, height)?;
        }
        Ok(())
    }

    /// The formula of a cell, where the figure and everything it follows from are known.
    fn live_formula(
        &self,
        (place, column): (usize, &Column),
        value: &Value,
        row: &Row,
        number: u32,
    ) -> Option<Formula> {
        let formula = column.formula.as_ref()?;
        let figure = value.as_number()?;
        formula.result(column.kind, (self.sheet, row), self.sheets)?;
        let letters = self.reads[place].as_ref()?.iter();
        let cells: Vec<String> = letters
            .map(|letters| format!("{letters}{}", number + 1))
            .collect();
        let text = formula.in_cells(column.kind, &cells, |sheet, column| {
            let other = self.sheets.iter().find(|other| other.key == sheet)?;
            let column = &other.columns[other.column_at(column)?];
            (!other.rows.is_empty()).then(|| column_in_table(other, column))
        })?;
        Some(Formula::new(text).set_result(figure.to_string()))
    }

    fn write_total(
        &self,
        page: &mut Worksheet,
        row: u32,
        place: usize,
        styles: &mut Styles,
    ) -> Result<(), XlsxError> {
        let (sheet, column) = (self.sheet, &self.sheet.columns[place]);
        let value = sheet.total_value(place);
        let look = Look {
            is_total: true,
            ..look_of(column, &value, self.widths[place])
        };
        let at = self.first + place as u16;
        let Some(sum) = value.as_number() else {
            let cell = Cell {
                row,
                column: at,
                look: Some(look),
            };
            return write_value(page, &cell, &value, styles);
        };
        // The same text that the table's own totals function stands for; with the name of the table,
        // because not every program knows in which table a formula stands.
        let cells = column_in_table(sheet, column);
        let formula = Formula::new(format!("SUBTOTAL(109,{cells})")).set_result(sum.to_string());
        page.write_formula_with_format(row, at, formula, styles.of(look))?;
        Ok(())
    }

    fn write_totals(&self, page: &mut Worksheet, styles: &mut Styles) -> Result<(), XlsxError> {
        let sheet = self.sheet;
        if !sheet.has_totals() {
            return Ok(());
        }
        let row = HEADER_ROW + 1 + self.rows.len() as u32;
        let plain = Look {
            is_total: true,
            ..Look::PLAIN
        };
        if sheet.has_marks {
            page.write_blank(row, 0, styles.of(plain))?;
        }
        for (place, column) in sheet.columns.iter().enumerate() {
            let at = self.first + place as u16;
            if column.is_totalled {
                self.write_total(page, row, place, styles)?;
            } else if self.label_column() == Some(place) {
                let words = sheet.total_label();
                page.write_string_with_format(row, at, words, styles.of(plain))?;
            } else {
                page.write_blank(row, at, styles.of(plain))?;
            }
        }
        Ok(())
    }
}

/// The look of a cell in its row.
fn look_in_row(column: &Column, value: &Value, width: u16, is_printed: bool) -> Look {
    let mut look = look_of(column, value, width);
    // What is not printed makes no row higher: a long text shows its beginning, and all of it where it is clicked.
    look.wraps &= is_printed;
    look
}

/// The look between the lines of the grid.
const fn on_grid(look: Look) -> Look {
    Look {
        is_ruled: false,
        ..look
    }
}

/// The look of most cells of each column, by the first rows.
fn usual_looks(laid: &OnPaper<'_>) -> Vec<Look> {
    let looked_at = &laid.rows()[..laid.rows().len().min(ROWS_LOOKED_AT)];
    let columns = laid.sheet.columns.iter().zip(&laid.widths).enumerate();
    columns
        .map(|(place, (column, width))| {
            let values = looked_at.iter().map(|row| &row.cells[place]);
            let mut found: BTreeMap<Look, usize> = BTreeMap::new();
            for value in values.filter(|value| **value != Value::Empty) {
                let look = look_in_row(column, value, *width, place < laid.printed);
                *found.entry(on_grid(look)).or_default() += 1;
            }
            let most = found.into_iter().max_by_key(|(_, cells)| *cells);
            most.map_or(PLAIN_ON_GRID, |(look, _)| look)
        })
        .collect()
}

/// Letters of the columns that the formula of a column reads.
fn letters_read(sheet: &Sheet, column: &Column, first: u16) -> Option<Vec<String>> {
    let operands = column.formula.as_ref()?.operands();
    let places = operands.iter().map(|key| sheet.column_at(key));
    places
        .map(|place| Some(column_letters(place? as u32 + u32::from(first))))
        .collect()
}

fn has_notes(grid: &Grid<'_>) -> bool {
    let sheet = grid.sheet;
    grid.printed < sheet.columns.len()
        || !sheet.notes.is_empty()
        || sheet.columns.iter().any(|column| column.help.is_some())
        || !sheet.unknown_notes_of(grid.rows).is_empty()
}

fn write_notes(cursor: &mut Cursor, grid: &Grid<'_>) -> Result<(), XlsxError> {
    if !has_notes(grid) {
        return Ok(());
    }
    let sheet = grid.sheet;
    let unknown = sheet.unknown_notes_of(grid.rows);
    cursor.heading(&sheet.language.text("Notes"), &style::heading())?;
    for note in sheet.notes.iter().chain(&unknown) {
        cursor.paragraph(&format!("• {note}"), &style::body())?;
    }
    let others = sheet.columns.iter().skip(grid.printed);
    let others: Vec<&str> = others.map(|column| column.header.as_str()).collect();
    if !others.is_empty() {
        let words = format!(
            "Not printed, to the right of the rest: {}.",
            others.join(", ")
        );
        cursor.paragraph(
            &format!("• {}", sheet.language.text(&words)),
            &style::body(),
        )?;
    }
    for column in &sheet.columns {
        if let Some(help) = &column.help {
            let words = format!("• {}: {help}", column.header);
            cursor.paragraph(&words, &style::quiet())?;
        }
    }
    cursor.row += 1;
    Ok(())
}

/// The cells of a column as formulas name them: by the sheet's table, or by their place where it is none.
fn column_in_table(sheet: &Sheet, column: &Column) -> String {
    let at = sheet.columns.iter().position(|of| of.key == column.key);
    match at.filter(|_| is_long(sheet)) {
        Some(at) => {
            let letters = column_letters(at as u32 + u32::from(sheet.has_marks));
            let title = quoted_title(&sheet.title);
            let (first, last) = (HEADER_ROW + 2, HEADER_ROW + 1 + sheet.rows.len() as u32);
            format!("{title}!${letters}${first}:${letters}${last}")
        }
        None => format!("{}[{}]", table_name(sheet), quoted(&column.label())),
    }
}

/// Name of the table in formulas; the first word keeps it apart from names of cells.
fn table_name(sheet: &Sheet) -> String {
    format!("table_{}", sheet.key)
}

/// A header as it is written inside a table reference, where some signs need a quote before them.
fn quoted(header: &str) -> String {
    header
        .replace('\'', "''")
        .replace('#', "'#")
        .replace('[', "'[")
        .replace(']', "']")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::model::{Chart, ColumnKind};
    use crate::units::{Currency, Money};

    fn sheet(rows: usize) -> Sheet {
        let mut sheet = Sheet::new("costs", "What it costs", "What does it cost?");
        let kind = ColumnKind::Money(Currency::EUR);
        sheet.columns = vec![
            Column::text("name", "Name"),
            Column::new(kind, "cost_eur", "Cost").totalled(),
        ];
        let cost = Value::Money(Money {
            cents: 150,
            currency: Currency::EUR,
        });
        sheet.rows = vec![Row::new(vec![Value::text("x"), cost]); rows];
        sheet
    }

    #[test]
    fn formulas_name_a_table_and_the_cells_of_a_long_sheet_that_is_none() {
        for (rows, has_marks, cells) in [
            (3, false, "table_costs[Cost (EUR)]"),
            (LONG, true, "table_costs[Cost (EUR)]"),
            // Headers stand in the fourth row, the first figure in the fifth.
            (LONG + 1, false, "'What it costs'!$B$5:$B$10005"),
            (LONG + 1, true, "'What it costs'!$C$5:$C$10005"),
        ] {
            let mut sheet = sheet(rows);
            sheet.has_marks = has_marks;
            assert_eq!(column_in_table(&sheet, &sheet.columns[1]), cells);
        }
        let mut quoted = sheet(LONG + 1);
        quoted.title = "Miller's".to_owned();
        let cells = column_in_table(&quoted, &quoted.columns[0]);
        assert_eq!(cells, "'Miller''s'!$A$5:$A$10005");
    }

    #[test]
    fn a_sheet_is_long_by_its_rows_and_never_with_charts() {
        assert!(!is_long(&sheet(LONG)) && is_long(&sheet(LONG + 1)));
        let mut drawn = sheet(LONG + 1);
        drawn.charts = vec![Chart::bars("Costs", "By name.", "name", "cost_eur")];
        assert!(!is_long(&drawn));
    }

    #[test]
    fn a_long_sheet_with_totals_becomes_a_workbook_in_little_room() {
        use crate::report::model::{Cover, MadeBy, Report};
        let report = |rows: usize| Report {
            title: "Report".to_owned(),
            shop: "Shop".to_owned(),
            as_of: chrono::NaiveDate::from_ymd_opt(2026, 3, 9)
                .and_then(|day| day.and_hms_opt(7, 30, 0))
                .unwrap(),
            made_by: MadeBy::this_program(),
            language: crate::language::Language::ENGLISH,
            cover: Cover::default(),
            sheets: vec![sheet(rows)],
        };
        let bytes = super::super::workbook_of(&report(LONG + 1)).unwrap();
        assert_eq!(bytes, super::super::workbook_of(&report(LONG + 1)).unwrap());
        assert!(bytes.starts_with(b"PK"));
    }

    #[test]
    fn sheets_written_beside_each_other_are_the_same_bytes_each_time() {
        use crate::report::model::{Cover, MadeBy, Report};
        // Figures, words, unknowns and marks in different orders, so that each sheet meets the formats otherwise.
        let of = |key: &str, turn: usize| {
            let mut of = sheet(LONG + 1);
            (of.key, of.title) = (key.to_owned(), key.to_owned());
            of.has_marks = true;
            for (number, row) in of.rows.iter_mut().enumerate() {
                row.emphasis = EMPHASES[(number + turn) % EMPHASES.len()];
                match (number + turn) % 3 {
                    0 => row.cells[1] = Value::unknown("nobody knows"),
                    1 => row.cells[0] = Value::text("=1+1"),
                    _ => row.cells[0] = Value::text("word ".repeat(20)),
                }
            }
            of
        };
        let report = Report {
            title: "Report".to_owned(),
            shop: "Shop".to_owned(),
            as_of: chrono::NaiveDateTime::default(),
            made_by: MadeBy::this_program(),
            language: crate::language::Language::ENGLISH,
            cover: Cover::default(),
            sheets: vec![of("one", 0), of("two", 1), sheet(3), of("three", 2)],
        };
        let on = |threads| crate::parallel::on(threads, || super::super::workbook_of(&report));
        let alone = on(1).unwrap();
        for threads in [2, 4] {
            assert!(on(threads).unwrap() == alone, "{threads} threads");
        }
        let mut written = Vec::new();
        super::super::write_workbook(&report, &mut written).unwrap();
        assert!(written == alone);
    }
}
