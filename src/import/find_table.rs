//! Finds the tables on a sheet: header rows among titles, units and notes, and the kind of each table.

use crate::record::{DateOrder, TableKind};

use super::bare_number;
use super::cell::Cell;
use super::column_groups::note_groups;
use super::column_values::settle_by_values;
use super::dimension_columns::settle_dimensions;
use super::footer::read_footer;
use super::grid::Grid;
use super::header::{Header, How};
use super::header_rows::{Given, Headers, LEAST_FIELDS, read_headers};
use super::kind_words::settle_by_kind;
use super::lines::RowCells;
use super::material_number;
use super::options::ColumnMap;
use super::order_quantity;
use super::stated::Stated;
use super::table::{Table, is_header_again};
use super::table_kind::{KindScore, reasons, score_kinds};
use super::terms::settle_terms;
use super::title::{Title, read_title};
use super::whole_list::readings;
use crate::parallel;

/// Least share of a header row's cells that must be known words.
const LEAST_KNOWN_SHARE: f64 = 0.4;
/// Known fields that make a header however many other columns there are, as in full exports of an office system.
const FIELDS_BEYOND_DOUBT: usize = 5;
/// Least points of a kind; below it a row of words is no header.
const LEAST_POINTS: f64 = 2.0;
/// Most kinds that are told about a table.
const MOST_KINDS: usize = 3;
/// Longest heading over several columns, bytes.
const LONGEST_HEADING: usize = 30;
/// Rows looked up from a second header for the blank row that ends the table before it.
const TITLE_ROWS: u32 = 6;
/// Rows looked through for headers in one piece.
const ROWS_OF_A_PIECE: usize = 16_384;

/// Tables of a sheet from top to bottom; none where no row is a header of a known kind.
///
/// A table that is read as two kinds stands there twice, one behind the other.
///
/// `maps` are the meanings of columns that people gave for this file.
pub fn find_tables(grid: &Grid, order: DateOrder, maps: &[&ColumnMap]) -> Vec<Table> {
    let mut tables: Vec<Table> = Vec::new();
    let mut row = 0;
    let mut candidates: Option<std::vec::IntoIter<u32>> = None;
    while row < grid.row_count() {
        let is_worth_it = match tables.last() {
            None => true,
            Some(table) => {
                let candidates =
                    candidates.get_or_insert_with(|| rows_like_headers(grid, row).into_iter());
                // The rows before the next candidate are none.
                let Some(next) = candidates.find(|next| *next >= row) else {
                    break;
                };
                row = next;
                !is_header_again(grid, table, row)
            }
        };
        let found = if is_worth_it {
            let given = Given {
                maps,
                table: tables.len() as u32 + 1,
            };
            best_header(grid, row, given)
        } else {
            None
        };
        let Some(mut table) = found else {
            row += 1;
            continue;
        };
        let from = match tables.last_mut() {
            Some(before) => {
                before.end_row = end_before(grid, before, row);
                before.end_row
            }
            None => 0,
        };
        table.title = read_title(grid, from, row, order);
        note_groups(grid, &mut table, from);
        table.why.extend(note_of_open_date(&table.title));
        row = table.first_row.max(row + 1);
        tables.push(table);
    }
    for table in &mut tables {
        read_footer(grid, table, order);
    }
    let mut read: Vec<Table> = tables.into_iter().flat_map(readings).collect();
    for table in &mut read {
        settle_terms(table);
        table.why.extend(note_of_validity(table));
    }
    read
}

/// Says that the date above a table may be one of two years, where no other is stated.
fn note_of_open_date(title: &Title) -> Option<String> {
    let open = title.open_date.as_ref().filter(|_| title.dated.is_none())?;
    Some(format!(
        "`{open}` above the table could begin with the year or end with it, and is not taken for its date; expected one such as `2026-03-09`"
    ))
}

/// Says until when the offers of a list hold, where a line beside it says so.
fn note_of_validity(table: &Table) -> Option<String> {
    let until = table.title.valid_until?;
    (table.kind == TableKind::Offers)
        .then(|| format!("its offers hold until {until}, as a line beside the table says"))
}

/// Rows from one on that may be headers, looked for on all cores.
fn rows_like_headers(grid: &Grid, from: u32) -> Vec<u32> {
    let starts: Vec<u32> = (from..grid.row_count()).step_by(ROWS_OF_A_PIECE).collect();
    let found = parallel::each(&starts, |start| {
        let end = grid.row_count().min(start + ROWS_OF_A_PIECE as u32);
        let rows = *start..end;
        rows.filter(|row| may_be_header(grid, *row))
            .collect::<Vec<u32>>()
    });
    found.concat()
}

/// A cheap look that leaves nearly every row of data out: headers are words, two or more of them.
fn may_be_header(grid: &Grid, row: u32) -> bool {
    let mut words = 0;
    let lines = grid.lines().map(|lines| lines.cells_of(row));
    let width = lines
        .as_ref()
        .map_or_else(|| grid.width(row), RowCells::width);
    for column in 0..width {
        // A figure in front says what a cell of a plain text is before anything else is looked at.
        let is_figure = (lines.as_ref()).is_some_and(|cells| {
            let text = cells.cell(column);
            text.starts_with(|c: char| c.is_ascii_digit()) && !text.ends_with('+')
        });
        if is_figure {
            return false;
        }
        match grid.cell(row, column) {
            Cell::Empty => {}
            Cell::Text(text)
                if !text.starts_with(|c: char| c.is_ascii_digit()) || text.ends_with('+') =>
            {
                words += 1
            }
            _ => return false,
        }
    }
    words >= LEAST_FIELDS
}

/// Where the table before a header at `row` ends: at the blank row above the header's title, if there is one.
fn end_before(grid: &Grid, before: &Table, row: u32) -> u32 {
    let top = row.saturating_sub(TITLE_ROWS).max(before.first_row);
    (top..row)
        .rev()
        .find(|&above| grid.is_blank(above))
        .unwrap_or(row)
}

/// The table whose header is at `row`, unless the next row is the better header.
fn best_header(grid: &Grid, row: u32, given: Given<'_>) -> Option<Table> {
    let here = header_at(grid, row, given)?;
    let is_next_better = row + 1 < grid.row_count()
        && here.header_row == row
        && header_at(grid, row + 1, given)
            .is_some_and(|next| next.columns.len() > here.columns.len());
    (!is_next_better).then_some(here)
}

fn header_at(grid: &Grid, row: u32, given: Given<'_>) -> Option<Table> {
    if is_title_row(grid, row) {
        return None;
    }
    let alone = read_headers(grid, row, None, given);
    let below = row + 1;
    let joined = (below < grid.row_count() && is_second_header(grid, below))
        .then(|| read_headers(grid, row, Some(below), given))
        .filter(|joined| joined.fields().len() > alone.fields().len())
        .filter(|joined| adds_to(grid, row, joined, &read_headers(grid, below, None, given)));
    let is_joined = joined.is_some();
    let headers = joined.unwrap_or(alone);
    let header_row = if is_joined { below } else { row };
    headers.into_table(grid, header_row, is_joined)
}

/// True where the upper row gives the lower one fields it has not by itself, or units in words of header length.
fn adds_to(grid: &Grid, row: u32, joined: &Headers, lower: &Headers) -> bool {
    let (with, without) = (joined.fields().len(), lower.fields().len());
    let is_short =
        |cell: Cell<'_>| !matches!(cell, Cell::Text(text) if text.len() > LONGEST_HEADING);
    let states =
        |cell: Cell<'_>| matches!(cell, Cell::Text(text) if !Stated::read(text).is_empty());
    with > without || with == without && grid.row(row).all(is_short) && grid.row(row).any(states)
}

/// True for a row of one text, alone or merged over the table, that stands at the table's left edge or is
/// longer than a heading: a title, never half a header.
fn is_title_row(grid: &Grid, row: u32) -> bool {
    let only = grid.only_text(row);
    only.is_some_and(|(column, text)| column == 0 || text.len() > LONGEST_HEADING)
}

impl Headers {
    fn into_table(mut self, grid: &Grid, header_row: u32, is_joined: bool) -> Option<Table> {
        self.settle_kit();
        settle_by_kind(&mut self.columns);
        bare_number::take(&mut self, grid, header_row + 1);
        material_number::take(&mut self, grid, header_row + 1);
        order_quantity::take(&mut self);
        let fields = self.fields();
        let is_known_enough = self.known as f64 >= LEAST_KNOWN_SHARE * self.filled as f64
            || fields.len() >= FIELDS_BEYOND_DOUBT && self.is_of_words;
        if fields.len() < LEAST_FIELDS || !is_known_enough {
            return None;
        }
        let names = format!("{} {}", grid.sheet, grid.file);
        let kinds = score_kinds(&fields, &names);
        let best = kinds.first().filter(|best| best.points >= LEAST_POINTS)?;
        let kind_scores: Vec<KindScore> = kinds
            .iter()
            .take(MOST_KINDS)
            .map(|scored| KindScore {
                kind: scored.kind,
                points: scored.points,
                reasons: reasons(scored.kind, &fields, &names),
            })
            .collect();
        let mut why = Vec::new();
        if is_joined {
            why.push(format!(
                "the header takes rows {header_row} and {}",
                header_row + 1
            ));
        }
        let mut first_row = header_row + 1;
        if let Some(units) = unit_row(grid, first_row) {
            for column in &mut self.columns {
                if let Some((_, states)) = units.iter().find(|(index, _)| *index == column.index) {
                    column.header.states.add(*states);
                }
            }
            why.push(format!("row {} holds units", first_row + 1));
            first_row += 1;
        }
        for column in &self.columns {
            if let How::Close { word } = &column.header.how {
                why.push(format!("column `{}` read as `{word}`", column.printed));
            }
        }
        if best.kind == TableKind::Offers {
            self.settle_supplier_list();
        }
        settle_dimensions(
            grid,
            best.kind,
            (first_row, grid.row_count()),
            &mut self.columns,
            &mut self.unread,
            &mut self.why,
        );
        settle_by_values(
            grid,
            best.kind,
            (first_row, grid.row_count()),
            &mut self.columns,
            &mut self.unread,
            &mut self.why,
        );
        why.append(&mut self.why);
        Some(Table {
            kind: best.kind,
            kind_scores,
            header_row,
            first_row,
            end_row: grid.row_count(),
            columns: self.columns,
            unread: self.unread,
            shape: self.shape,
            left_out: self.left_out,
            read_beside: Vec::new(),
            title: Title::default(),
            why,
        })
    }
}

/// True where at least half of a row's cells are header words: the lower row of a header of two.
fn is_second_header(grid: &Grid, row: u32) -> bool {
    let (mut known, mut filled) = (0, 0);
    for cell in grid.row(row) {
        match cell {
            Cell::Empty => {}
            Cell::Text(text) => {
                filled += 1;
                known += usize::from(Header::read(text, false).is_some());
            }
            _ => return false,
        }
    }
    known >= LEAST_FIELDS && known * 2 >= filled
}

/// Units below a header, by column; `None` where any cell of the row is no unit.
fn unit_row(grid: &Grid, row: u32) -> Option<Vec<(u32, Stated)>> {
    let mut units = Vec::new();
    let mut is_any = false;
    for (index, cell) in grid.row(row).enumerate() {
        match cell {
            Cell::Empty => {}
            Cell::Text(text)
                if text.len() <= 16 && !text.starts_with(|c: char| c.is_ascii_digit()) =>
            {
                let text = text.trim_matches(['[', ']', '(', ')']);
                let states = Stated::read(text);
                let is_other_unit = matches!(
                    text,
                    "-" | "–"
                        | "kN"
                        | "pcs"
                        | "Stk"
                        | "Stk."
                        | "pc"
                        | "pce"
                        | "szt"
                        | "szt."
                        | "ud"
                        | "un"
                        | "pz"
                        | "rpm"
                        | "1/min"
                        | "N"
                );
                if states.is_empty() && !is_other_unit {
                    return None;
                }
                // A stroke says that a column has none.
                is_any |= !states.is_empty() || !matches!(text, "-" | "–");
                units.push((index as u32, states));
            }
            _ => return None,
        }
    }
    is_any.then_some(units)
}

/// The one table of a text with semicolons, for tests of what becomes of its columns.
#[cfg(test)]
pub fn only_table(text: &str) -> Table {
    let mut tables = tables_of(text);
    assert_eq!(tables.len(), 1, "{text}");
    tables.remove(0)
}

/// The tables of a text with semicolons, for tests.
#[cfg(test)]
pub fn tables_of(text: &str) -> Vec<Table> {
    let mut builder = super::grid::GridBuilder::new(&"a.csv".into(), "");
    for (row, line) in text.lines().enumerate() {
        for (column, cell) in line.split(';').enumerate() {
            builder
                .push(row as u32, column as u32, Cell::Text(cell))
                .expect("the text of a test fits a grid");
        }
    }
    find_tables(
        &builder.finish().expect("the text of a test fits a grid"),
        DateOrder::Dmy,
        &[],
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::field::Field;
    use crate::import::grid::GridBuilder;
    use crate::import::table::Column;
    use crate::units::LengthUnit;

    fn tables(text: &str) -> Vec<Table> {
        let mut builder = GridBuilder::new(&"a.csv".into(), "");
        for (row, line) in text.lines().enumerate() {
            for (column, cell) in line.split(';').enumerate() {
                builder
                    .push(row as u32, column as u32, Cell::Text(cell))
                    .unwrap();
            }
        }
        find_tables(&builder.finish().unwrap(), DateOrder::Dmy, &[])
    }

    #[test]
    fn finds_the_header_below_title_rows() {
        let found = tables(
            "Price list\nSupplier: Nordlager\n\nArt.-Nr.;Bezeichnung;Preis;Lieferzeit (Tage)\nA1;x;3;4\n",
        );
        assert_eq!(found.len(), 1);
        assert_eq!(
            (found[0].kind, found[0].header_row, found[0].first_row),
            (TableKind::Offers, 3, 4)
        );
        assert_eq!(found[0].title.supplier.as_deref(), Some("Nordlager"));
    }

    #[test]
    fn joins_two_header_rows_and_reads_a_unit_row() {
        let found = tables("Part no;Type;Dimensions;;\n;;d;D;B\n;;mm;mm;in\nA1;x;30;62;16\n");
        assert_eq!(found.len(), 1);
        let fields: Vec<Field> = found[0].columns.iter().map(|c| c.header.field).collect();
        assert_eq!(
            fields,
            [
                Field::PartNumber,
                Field::Type,
                Field::Bore,
                Field::OutsideDiameter,
                Field::Width
            ]
        );
        assert_eq!(
            found[0].columns[4].header.states.length,
            Some(LengthUnit::Inch)
        );
        assert_eq!(found[0].first_row, 3);
    }

    #[test]
    fn finds_several_tables_on_one_sheet_and_skips_repeated_headers() {
        let found = tables(
            "Part no;Bin;On hand\nA1;B1;3\nPart no;Bin;On hand\nA2;B2;3\n\nMachines\nMachine;Downtime cost per hour;Installed\nM1;100;2\n",
        );
        assert_eq!(
            found.iter().map(|t| t.kind).collect::<Vec<_>>(),
            [TableKind::Stock, TableKind::Machines]
        );
        assert_eq!(found[0].end_row, 4);
        assert_eq!(found[1].header_row, 6);
    }

    fn fields(text: &str) -> Vec<(String, Field)> {
        let table = only_table(text);
        let named = |column: &Column| (column.printed.clone(), column.header.field);
        table.columns.iter().map(named).collect()
    }

    #[test]
    fn a_column_of_assemblies_names_the_kit_where_no_other_does() {
        let found = fields("Baugruppe;Pos.;Teilenr.;Menge\nPumpe 3;10;A1;2\n");
        assert_eq!(found[0], ("Baugruppe".to_owned(), Field::Kit));
        let found = fields("Kit;Baugruppe;Pos.;Teilenr.;Menge\nPumpe 3;Kopf;10;A1;2\n");
        assert_eq!(found[1], ("Baugruppe".to_owned(), Field::Assembly));
        // A parts list by assembly is no kit.
        let found = fields("Teilenr.;Baugruppe;Bezeichnung;d;D\nA1;Kopf;Lager;25;52\n");
        assert_eq!(found[1], ("Baugruppe".to_owned(), Field::Assembly));
        let found = fields("Ensemble;Date prévue\nPompe 3;18/01/2027\n");
        assert_eq!(
            found.iter().map(|(_, field)| *field).collect::<Vec<_>>(),
            [Field::Kit, Field::Date]
        );
    }

    #[test]
    fn an_order_number_is_a_part_number_only_where_nothing_else_is() {
        let found = fields(
            "Bestellnr.;Lieferant;Teilenr.;bestellt am;eingegangen\n4711;N;A1;3.4.2025;9.4.2025\n",
        );
        assert!(found.contains(&("Teilenr.".to_owned(), Field::PartNumber)));
        assert!(!found.iter().any(|(printed, _)| printed == "Bestellnr."));
        let found = fields("Bestellnr.;Preis;Lieferzeit\nA1;3,50;2 AT\n");
        assert!(found.contains(&("Bestellnr.".to_owned(), Field::PartNumber)));
    }

    #[test]
    fn values_find_the_description_and_a_count_among_names() {
        let found =
            fields("Our no;Thing;Bin;Qty\nA1;Oil seal 40x62x8;B1;2\nA2;Ball bearing 6205;B2;1\n");
        assert!(
            !found.iter().any(|(printed, _)| printed == "Thing"),
            "stock needs none"
        );
        let found = fields("Our no;Thing;Bore;OD\nA1;Oil seal;40;62\nA2;Ball bearing 6205;25;52\n");
        assert!(found.contains(&("Thing".to_owned(), Field::Description)));
        // French for a count, Spanish for a name.
        let found = fields("Machine;Nombre;Criticité\nPresse;2;A\nFour;1;B\n");
        assert!(found.contains(&("Nombre".to_owned(), Field::Quantity)));
        let found = fields("Machine;Nombre;Criticité\nM1;Prensa;A\nM2;Horno;B\n");
        assert!(found.contains(&("Nombre".to_owned(), Field::Description)));
    }

    #[test]
    fn words_without_a_kind_are_no_header() {
        assert!(tables("hello;world\nnote;date\n").is_empty());
        assert!(tables("").is_empty());
    }
}
