//! Columns whose header word may mean a designation or a description: their values decide.

use crate::part::designation::Designation;
use crate::record::TableKind;

use super::cell::Cell;
use super::damage::is_dash_header;
use super::family_words::family_in;
use super::field::Field;
use super::fold::fold;
use super::grid::Grid;
use super::header::{Header, How};
use super::movement_column::take_movements;
use super::stated::{Stated, length_unit};
use super::table::Column;

/// Least share of values that must be whole designations. Common practice, no source.
const LEAST_SHARE: f64 = 0.6;
/// Share of designations below which a column called so holds something else.
const FEW_SHARE: f64 = 0.2;
/// Filled cells looked at; a long list is the same all through.
const CELLS_LOOKED_AT: usize = 200;
/// Longest count of pieces or machines, figures.
const LONGEST_COUNT: usize = 5;
/// The folded word that names things in Spanish and counts them in French.
const NAME_OR_COUNT: &str = "nombre";
/// Least filled cells that prove anything.
const LEAST_CELLS: usize = 2;

/// What the filled cells of a column are.
#[derive(Debug, Clone, Copy, Default)]
struct Tally {
    filled: usize,
    designations: usize,
}

impl Tally {
    fn share(self) -> f64 {
        self.designations as f64 / self.filled.max(1) as f64
    }

    fn proves(self) -> bool {
        self.filled >= LEAST_CELLS
    }
}

/// Settles which column of a table of parts holds the designation, by its values in `rows`; says so in `why`.
pub fn settle_by_values(
    grid: &Grid,
    kind: TableKind,
    rows: (u32, u32),
    columns: &mut Vec<Column>,
    unread: &mut Vec<(u32, String)>,
    why: &mut Vec<String>,
) {
    settle_quantity(grid, rows, columns, why);
    if kind == TableKind::Usages {
        take_movements(grid, rows, columns, unread);
    }
    if !matches!(
        kind,
        TableKind::Parts | TableKind::Offers | TableKind::KitLines
    ) {
        return;
    }
    settle_unit(grid, rows, columns, why);
    take_description(grid, rows, columns, unread, why);
    let has = |columns: &[Column], field| columns.iter().any(|column| column.header.field == field);
    let is_described = has(columns, Field::Description);
    if let Some(named) = columns
        .iter_mut()
        .find(|column| column.header.field == Field::Designation)
    {
        if named.header.how == How::Given {
            return;
        }
        // Dash numbers are figures, and their header says what they are.
        if is_dash_header(&named.printed) {
            return;
        }
        let tally = tally(grid, named.index, rows);
        if !tally.proves() || tally.share() >= FEW_SHARE {
            return;
        }
        if !is_described {
            why.push(says(named, tally, Field::Description));
            named.header.field = Field::Description;
            named.header.how = How::Values {
                fitting: tally.filled - tally.designations,
                rows: tally.filled,
            };
        }
        return;
    }
    let has_other_number = has(columns, Field::OwnNumber) || has(columns, Field::SupplierNumber);
    let may_be = |column: &Column| match column.header.field {
        _ if column.header.how == How::Given => false,
        Field::Description | Field::Type => true,
        // The only number of a row stays its number.
        Field::PartNumber => has_other_number,
        _ => false,
    };
    let best = columns
        .iter()
        .enumerate()
        .filter(|(_, column)| may_be(column))
        .map(|(at, column)| (at, tally(grid, column.index, rows)))
        .filter(|(_, tally)| tally.proves() && tally.share() >= LEAST_SHARE)
        .max_by(|a, b| a.1.share().total_cmp(&b.1.share()).then(b.0.cmp(&a.0)));
    if let Some((at, tally)) = best {
        why.push(says(&columns[at], tally, Field::Designation));
        let before = std::mem::replace(&mut columns[at].header.field, Field::Designation);
        columns[at].header.how = How::Values {
            fitting: tally.designations,
            rows: tally.filled,
        };
        if before == Field::Description {
            take_second_description(columns, unread, why);
        }
    }
}

/// `Bezeichnung` beside `Beschreibung`: where the first turned out to hold designations, the second describes the parts.
fn take_second_description(
    columns: &mut Vec<Column>,
    unread: &mut Vec<(u32, String)>,
    why: &mut Vec<String>,
) {
    let second = unread.iter().enumerate().find_map(|(at, (_, printed))| {
        let header = Header::read(printed, false)?;
        (header.field == Field::Description).then_some((at, header))
    });
    let Some((at, header)) = second else { return };
    let (index, printed) = unread.remove(at);
    let refused = format!("column `{printed}` also holds the {}", Field::Description);
    why.retain(|line| !line.starts_with(&refused));
    columns.push(Column {
        index,
        printed,
        header,
    });
    columns.sort_by_key(|column| column.index);
}

/// A column that may name things or count them and holds nothing but numbers counts, unless they are designations:
/// `Nombre` is a name in Spanish and a number in French.
fn settle_quantity(
    grid: &Grid,
    (first, end): (u32, u32),
    columns: &mut [Column],
    why: &mut Vec<String>,
) {
    if columns
        .iter()
        .any(|column| column.header.field == Field::Quantity)
    {
        return;
    }
    let is_number = |text: &str| {
        let text = text.trim();
        text.len() <= LONGEST_COUNT && text.bytes().all(|byte| byte.is_ascii_digit())
    };
    for column in columns {
        if column.header.field != Field::Description
            || column.header.how == How::Given
            || fold(&column.printed) != NAME_OR_COUNT
        {
            continue;
        }
        let tally = tally(grid, column.index, (first, end));
        if tally.proves() && tally.share() >= LEAST_SHARE {
            continue;
        }
        let cells = (first..end).map(|row| grid.cell(row, column.index));
        let filled: Vec<Cell<'_>> = cells
            .filter(|cell| *cell != Cell::Empty)
            .take(CELLS_LOOKED_AT)
            .collect();
        let fits = |cell: &Cell<'_>| match cell {
            Cell::Number(_) => true,
            Cell::Text(text) => is_number(text),
            _ => false,
        };
        if filled.len() >= LEAST_CELLS && filled.iter().all(fits) {
            why.push(format!(
                "column `{}` is read as {}: it holds nothing but numbers",
                column.printed,
                Field::Quantity
            ));
            column.header.field = Field::Quantity;
            column.header.how = How::Values {
                fitting: filled.len(),
                rows: filled.len(),
            };
            return;
        }
    }
}

/// Where no column describes the parts, an unread one does whose texts name kinds of parts or hold designations.
fn take_description(
    grid: &Grid,
    (first, end): (u32, u32),
    columns: &mut Vec<Column>,
    unread: &mut Vec<(u32, String)>,
    why: &mut Vec<String>,
) {
    let describes = |column: &Column| {
        matches!(
            column.header.field,
            Field::Description | Field::Designation | Field::Type
        )
    };
    if columns.iter().any(describes) {
        return;
    }
    let tally = |index: u32| {
        let mut tally = Tally::default();
        for row in first..end {
            if let Cell::Text(text) = grid.cell(row, index) {
                tally.filled += 1;
                tally.designations += usize::from(describes_part(text));
            }
            if tally.filled == CELLS_LOOKED_AT {
                break;
            }
        }
        tally
    };
    let best = unread
        .iter()
        .enumerate()
        .map(|(at, (index, _))| (at, tally(*index)))
        .filter(|(_, tally)| tally.proves() && tally.share() >= LEAST_SHARE)
        .max_by(|a, b| a.1.share().total_cmp(&b.1.share()).then(b.0.cmp(&a.0)));
    if let Some((at, tally)) = best {
        let (index, printed) = unread.remove(at);
        why.push(format!(
            "column `{printed}` is read as {}: {} of {} values name a kind of part or a designation",
            Field::Description,
            tally.designations,
            tally.filled
        ));
        columns.push(Column {
            index,
            printed,
            header: Header {
                field: Field::Description,
                how: How::Values {
                    fitting: tally.designations,
                    rows: tally.filled,
                },
                states: Stated::default(),
            },
        });
        columns.sort_by_key(|column| column.index);
    }
}

/// True for words that name a family of parts, or that stand before a designation: `Oil seal`, `Bearing 6205`.
fn describes_part(text: &str) -> bool {
    family_in(text).is_some() || text.split_whitespace().skip(1).any(is_designation)
}

/// True for a whole designation that tells a family or a size.
fn is_designation(text: &str) -> bool {
    Designation::parse(text).is_some_and(|read| read.family.is_some() || read.size.is_some())
}

/// A column called `Unit` that holds `mm` and `inch` says how lengths are measured, not how parts are counted.
fn settle_unit(
    grid: &Grid,
    (first, end): (u32, u32),
    columns: &mut [Column],
    why: &mut Vec<String>,
) {
    let is = |column: &Column, field| column.header.field == field;
    if columns.iter().any(|column| is(column, Field::LengthUnit)) {
        return;
    }
    let Some(column) = columns
        .iter_mut()
        .find(|column| is(column, Field::UnitOfCount) && column.header.how != How::Given)
    else {
        return;
    };
    let mut tally = Tally::default();
    for row in first..end {
        if let Cell::Text(text) = grid.cell(row, column.index) {
            tally.filled += 1;
            tally.designations += usize::from(length_unit(&text.to_lowercase()).is_some());
        }
        if tally.filled == CELLS_LOOKED_AT {
            break;
        }
    }
    if tally.proves() && tally.share() >= LEAST_SHARE {
        why.push(format!(
            "column `{}` is read as {}: {} of {} values are units of length",
            column.printed,
            Field::LengthUnit,
            tally.designations,
            tally.filled
        ));
        column.header.field = Field::LengthUnit;
        column.header.how = How::Values {
            fitting: tally.designations,
            rows: tally.filled,
        };
    }
}

fn says(column: &Column, tally: Tally, field: Field) -> String {
    format!(
        "column `{}` is read as {field}: {} of {} values are whole designations",
        column.printed, tally.designations, tally.filled
    )
}

fn tally(grid: &Grid, column: u32, (first, end): (u32, u32)) -> Tally {
    let mut tally = Tally::default();
    for row in first..end {
        // Notes and headings below or between the rows stand alone.
        let text = match grid.cell(row, column) {
            Cell::Text(text) if grid.row(row).filter(|cell| *cell != Cell::Empty).count() > 1 => {
                text.to_owned()
            }
            cell @ Cell::Number(_) => cell.to_text(),
            _ => continue,
        };
        tally.filled += 1;
        tally.designations += usize::from(is_designation(&text));
        if tally.filled == CELLS_LOOKED_AT {
            break;
        }
    }
    tally
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::find_table::only_table as table;
    use crate::import::table::Table;

    fn field_of(table: &Table, printed: &str) -> Field {
        table
            .columns
            .iter()
            .find(|column| column.printed == printed)
            .unwrap()
            .header
            .field
    }

    #[test]
    fn values_decide_between_designation_and_description() {
        for (header, values, field) in [
            ("Bezeichnung", ["6305-2RS", "NU205"], Field::Designation),
            (
                "Bezeichnung",
                ["Rillenkugellager", "Gehäusedeckel"],
                Field::Description,
            ),
            (
                "Designation",
                ["Deep groove bearing", "End cover"],
                Field::Description,
            ),
            ("Désignation", ["6305 2RS", "62/22"], Field::Designation),
        ] {
            let table = table(&format!(
                "Art.-Nr.;{header};Preis\nA1;{};3\nA2;{};4\n",
                values[0], values[1]
            ));
            assert_eq!(field_of(&table, header), field, "{header}");
        }
    }

    #[test]
    fn a_second_description_is_read_where_the_first_holds_designations() {
        let both =
            table("Art.-Nr.;Bezeichnung;Beschreibung\nA1;6305-2RS;Lüfter\nA2;NU205;Brecher\n");
        assert_eq!(field_of(&both, "Bezeichnung"), Field::Designation);
        assert_eq!(field_of(&both, "Beschreibung"), Field::Description);
        assert!(
            !both.why.iter().any(|line| line.contains("also holds")),
            "{:?}",
            both.why
        );
        // Where it does not, the first one describes, as before.
        let one = table("Art.-Nr.;Bezeichnung;Beschreibung\nA1;Lager, Lüfter;alt\nA2;Deckel;neu\n");
        assert_eq!(field_of(&one, "Bezeichnung"), Field::Description);
        assert!(
            one.why
                .iter()
                .any(|line| line.contains("`Beschreibung` also holds"))
        );
    }

    #[test]
    fn numbers_of_bearings_are_no_quantity() {
        for header in ["Description", "Bezeichnung", "Nombre"] {
            let table = table(&format!(
                "Article No.;{header};Price EUR;Lead time\n90011;6206;5,20;3 days\n90012;7206;21,50;3 days\n90013;22210;48,00;3 days\n"
            ));
            assert_eq!(table.kind, TableKind::Offers, "{header}");
            assert_eq!(field_of(&table, header), Field::Designation, "{header}");
        }
    }

    #[test]
    fn a_part_column_holds_the_designation_only_beside_another_number() {
        let beside = table("Our P/N;Part;Unit price\nT-1;R8 2Z;4\nT-2;R6 2Z;3\n");
        assert_eq!(field_of(&beside, "Part"), Field::Designation);
        assert_eq!(field_of(&beside, "Our P/N"), Field::SupplierNumber);
        assert!(
            beside
                .why
                .iter()
                .any(|why| why.ends_with("2 of 2 values are whole designations"))
        );
        let alone = table("Part;Unit price;MOQ\nR8 2Z;4;1\nR6 2Z;3;1\n");
        assert_eq!(field_of(&alone, "Part"), Field::PartNumber);
    }

    #[test]
    fn ours_and_yours_are_seen_from_the_writer_of_the_list() {
        let theirs = table("Unsere Teilenr.;Ihre Teilenr.;Preis\nM 1;B-1;3\n");
        assert_eq!(field_of(&theirs, "Unsere Teilenr."), Field::SupplierNumber);
        assert_eq!(field_of(&theirs, "Ihre Teilenr."), Field::OwnNumber);
        let shops = table("Supplier;Our no.;Supplier no.;Price\nN;B-1;M 1;3\n");
        assert_eq!(field_of(&shops, "Our no."), Field::OwnNumber);
    }
}
