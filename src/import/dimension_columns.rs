//! Columns of lengths under headers that name no single dimension (`A`, `B`, `C`, `D` twice): the rows decide.
//!
//! The evidence is the share of rows whose whole set of lengths is a standard size of one family. Numbers that only
//! look like those of a neighbour decide nothing.

use crate::part::Family;
use crate::part::designation::Designation;
use crate::record::TableKind;
use crate::standard::{self, Joined};
use crate::units::{LengthUnit, ReadLength, read_length};

use super::cell::{Cell, number_text};
use super::family_words::family_in;
use super::field::Field;
use super::fold::fold;
use super::grid::Grid;
use super::header::{Header, How};
use super::stated::Stated;
use super::table::Column;
use crate::language::in_backticks;

/// Rows looked at.
const ROWS_LOOKED_AT: usize = 40;
/// Most columns that are tried in each other's place.
const MOST_COLUMNS: usize = 5;
/// Least rows that prove anything. Common practice, no source.
const LEAST_ROWS: usize = 2;
/// Least share of rows that must be standard sizes. Common practice, no source.
const LEAST_SHARE: f64 = 0.6;
/// Least share of a column's filled cells that must be lengths.
const LEAST_LENGTHS: f64 = 0.6;
/// Longest header that names nothing by itself, letters.
const LONGEST_BARE_HEADER: usize = 3;
/// Beginnings of words for any dimension.
const ANY_DIMENSION: [&str; 9] = [
    "dim", "size", "mass ", "cote", "cota", "medida", "misura", "wymiar", "abmess",
];
/// Fields of three lengths and of two, which every family understands in this order.
const ORDERS: [&[Field]; 2] = [
    &[Field::Bore, Field::OutsideDiameter, Field::Width],
    &[Field::InsideDiameter, Field::Section],
];

/// A column that may hold a dimension.
struct Candidate {
    index: u32,
    printed: String,
    states: Stated,
    /// The field that its own word names beyond doubt.
    known: Option<Field>,
}

/// The lengths of one row, in the order of the candidates, and its family.
struct Row {
    lengths: Vec<Option<ReadLength>>,
    family: Option<Family>,
}

/// Settles the columns of dimensions of a table by its rows, and says so in `why`; columns that stay without a meaning
/// are left as they are.
pub fn settle_dimensions(
    grid: &Grid,
    kind: TableKind,
    rows: (u32, u32),
    columns: &mut Vec<Column>,
    unread: &mut Vec<(u32, String)>,
    why: &mut Vec<String>,
) {
    let is_of_parts = matches!(
        kind,
        TableKind::Parts | TableKind::Offers | TableKind::KitLines
    );
    if !is_of_parts || is_complete(columns) {
        return;
    }
    let candidates = candidates(grid, rows, columns, unread);
    settle_candidates(grid, rows, &candidates, columns, unread, why);
    drop_lone_letters(columns, unread, why);
}

/// A single letter for a width or a length means one beside a diameter only: `B` beside `A` may be a price.
fn drop_lone_letters(
    columns: &mut Vec<Column>,
    unread: &mut Vec<(u32, String)>,
    why: &mut Vec<String>,
) {
    let is_width = |field: Field| {
        matches!(
            field,
            Field::Width | Field::AssembledWidth | Field::Height | Field::Length
        )
    };
    let has_diameter = columns
        .iter()
        .any(|column| column.header.field.is_length() && !is_width(column.header.field));
    if has_diameter {
        return;
    }
    for column in std::mem::take(columns) {
        let is_lone = is_width(column.header.field)
            && column.header.how == How::Symbol
            && column.printed.trim().len() == 1;
        if is_lone {
            why.push(format!(
                "column `{}` was not read: a letter without a column of diameters",
                column.printed
            ));
            unread.push((column.index, column.printed));
        } else {
            columns.push(column);
        }
    }
    unread.sort();
}

fn settle_candidates(
    grid: &Grid,
    rows: (u32, u32),
    candidates: &[Candidate],
    columns: &mut Vec<Column>,
    unread: &mut Vec<(u32, String)>,
    why: &mut Vec<String>,
) {
    if candidates.iter().all(|one| one.known.is_some()) || candidates.len() < 2 {
        return;
    }
    let read = read_rows(grid, rows, columns, candidates);
    for fields in ORDERS {
        match best_order(fields, candidates, &read) {
            Best::One { order, fits, rows } => {
                take(
                    fields,
                    &order,
                    (fits, rows),
                    candidates,
                    columns,
                    unread,
                    why,
                );
                return;
            }
            Best::Several => {
                why.push(format!(
                    "columns {} are standard sizes in more than one order; only a given mapping can tell them apart",
                    names(candidates.iter())
                ));
                return;
            }
            Best::None => {}
        }
    }
}

/// True where headers name a whole set of dimensions, so that nothing is to be settled.
fn is_complete(columns: &[Column]) -> bool {
    use Field as F;
    let has = |fields: &[Field]| columns.iter().any(|c| fields.contains(&c.header.field));
    let inner = [
        F::Bore,
        F::ShaftDiameter,
        F::InsideDiameter,
        F::InnerRacewayDiameter,
    ];
    let outer = [
        F::OutsideDiameter,
        F::HousingBore,
        F::OuterRacewayDiameter,
        F::CageOutsideDiameter,
    ];
    let width = [F::Width, F::AssembledWidth, F::Height, F::Length];
    has(&inner) && has(&outer) && has(&width)
        || has(&[F::InsideDiameter]) && has(&[F::Section])
        || has(&[F::Size])
}

fn candidates(
    grid: &Grid,
    rows: (u32, u32),
    columns: &[Column],
    unread: &[(u32, String)],
) -> Vec<Candidate> {
    let mut found = Vec::new();
    // `C` is a load rating by its symbol, and the third of `A`, `B`, `C` by its place.
    let may_be = |column: &&Column| {
        let is_letter = column.header.how == How::Symbol && column.printed.trim().len() == 1;
        column.header.field.is_length() || is_letter
    };
    for column in columns.iter().filter(may_be) {
        let is_bare = column.header.how == How::Symbol || is_bare_header(&column.printed);
        found.push(Candidate {
            index: column.index,
            printed: column.printed.clone(),
            states: column.header.states,
            known: (!is_bare).then_some(column.header.field),
        });
    }
    for (index, printed) in unread.iter().filter(|(_, printed)| is_bare_header(printed)) {
        found.push(Candidate {
            index: *index,
            printed: printed.clone(),
            states: Stated::read(printed),
            known: None,
        });
    }
    found.retain(|one| one.known.is_some() || holds_lengths(grid, one, rows));
    found.sort_by_key(|one| one.index);
    found.truncate(MOST_COLUMNS);
    found
}

fn is_bare_header(printed: &str) -> bool {
    let folded = fold(printed.split(['(', '[']).next().unwrap_or_default());
    let letters = folded.chars().count();
    (1..=LONGEST_BARE_HEADER).contains(&letters)
        || ANY_DIMENSION.iter().any(|word| folded.starts_with(word))
}

fn holds_lengths(grid: &Grid, column: &Candidate, rows: (u32, u32)) -> bool {
    let (mut filled, mut lengths) = (0_usize, 0_usize);
    for row in (rows.0..rows.1).take(ROWS_LOOKED_AT) {
        if grid.cell(row, column.index) != Cell::Empty {
            filled += 1;
            lengths += usize::from(length(grid, row, column).is_some());
        }
    }
    filled >= LEAST_ROWS && lengths as f64 >= LEAST_LENGTHS * filled as f64
}

fn length(grid: &Grid, row: u32, column: &Candidate) -> Option<ReadLength> {
    let unit = column.states.length.unwrap_or(LengthUnit::Mm);
    match grid.cell(row, column.index) {
        Cell::Number(value) => read_length(&number_text(value), unit).ok(),
        Cell::Text(text) => read_length(text, unit).ok(),
        _ => None,
    }
}

fn read_rows(
    grid: &Grid,
    rows: (u32, u32),
    columns: &[Column],
    candidates: &[Candidate],
) -> Vec<Row> {
    let mut found = Vec::new();
    for row in rows.0..rows.1 {
        let lengths: Vec<Option<ReadLength>> = candidates
            .iter()
            .map(|column| length(grid, row, column))
            .collect();
        if lengths.iter().flatten().count() >= 2 {
            found.push(Row {
                lengths,
                family: family_of(grid, row, columns),
            });
        }
        if found.len() == ROWS_LOOKED_AT {
            break;
        }
    }
    found
}

/// The family that the words or the designation of a row name.
fn family_of(grid: &Grid, row: u32, columns: &[Column]) -> Option<Family> {
    let text_of = |field: Field| {
        let column = columns.iter().find(|c| c.header.field == field)?;
        Some(grid.cell(row, column.index).to_text())
    };
    let named = |field| text_of(field).and_then(|text| family_in(&text));
    named(Field::Type)
        .or_else(|| named(Field::Description))
        .or_else(|| Designation::parse(&text_of(Field::Designation)?)?.family)
}

enum Best {
    None,
    Several,
    One {
        /// Positions among the candidates, in the order of the fields.
        order: Vec<usize>,
        fits: usize,
        rows: usize,
    },
}

fn best_order(fields: &[Field], candidates: &[Candidate], rows: &[Row]) -> Best {
    let mut best: Option<(usize, usize, Vec<usize>)> = None;
    let mut is_alone = true;
    for order in orders(fields.len(), candidates.len()) {
        let is_allowed = order
            .iter()
            .zip(fields)
            .all(|(at, field)| candidates[*at].known.is_none_or(|known| known == *field));
        if !is_allowed {
            continue;
        }
        let (fits, looked) = fitting(&order, rows);
        let is_proved = fits >= LEAST_ROWS && fits as f64 >= LEAST_SHARE * looked as f64;
        if !is_proved {
            continue;
        }
        match &best {
            Some((most, _, _)) if fits < *most => {}
            Some((most, _, _)) if fits == *most => is_alone = false,
            _ => {
                best = Some((fits, looked, order));
                is_alone = true;
            }
        }
    }
    match best {
        None => Best::None,
        Some(_) if !is_alone => Best::Several,
        Some((fits, rows, order)) => Best::One { order, fits, rows },
    }
}

/// Every ordered choice of `count` out of `of`.
fn orders(count: usize, of: usize) -> Vec<Vec<usize>> {
    let mut found = vec![Vec::new()];
    for _ in 0..count {
        found = found
            .into_iter()
            .flat_map(|order: Vec<usize>| {
                (0..of)
                    .filter(|next| !order.contains(next))
                    .map(|next| [order.as_slice(), &[next]].concat())
                    .collect::<Vec<_>>()
            })
            .collect();
    }
    found
}

/// Rows that are standard sizes in this order, and rows looked at: those of a named family by that, the others by the
/// one family that suits most of them.
fn fitting(order: &[usize], rows: &[Row]) -> (usize, usize) {
    let mut looked = 0;
    let mut named = 0;
    let mut unnamed = [0_usize; Family::ALL.len()];
    for row in rows {
        let lengths: Vec<ReadLength> = order.iter().filter_map(|at| row.lengths[*at]).collect();
        let is_of_count = |family: Family| family.key_dimensions().len() == order.len();
        if lengths.len() != order.len() || row.family.is_some_and(|family| !is_of_count(family)) {
            continue;
        }
        looked += 1;
        let is_standard = |family: Family| {
            matches!(
                standard::join(family, &lengths),
                Ok(Joined::Exact(_) | Joined::Rounded { .. })
            )
        };
        match row.family {
            Some(family) => named += usize::from(is_standard(family)),
            None => {
                for (count, family) in unnamed.iter_mut().zip(Family::ALL) {
                    *count += usize::from(is_of_count(family) && is_standard(family));
                }
            }
        }
    }
    (
        named + unnamed.iter().max().copied().unwrap_or_default(),
        looked,
    )
}

fn take(
    fields: &[Field],
    order: &[usize],
    (fitting, rows): (usize, usize),
    candidates: &[Candidate],
    columns: &mut Vec<Column>,
    unread: &mut Vec<(u32, String)>,
    why: &mut Vec<String>,
) {
    let chosen = || order.iter().map(|at| &candidates[*at]);
    let meanings: Vec<String> = fields.iter().map(|field| field.to_string()).collect();
    why.push(format!(
        "columns {} are read as {}: {fitting} of {rows} rows are standard sizes so",
        names(chosen()),
        meanings.join(", ")
    ));
    let is_candidate = |index: u32| {
        candidates
            .iter()
            .any(|one| one.index == index && one.known.is_none())
    };
    let is_chosen = |index: u32| chosen().any(|one| one.index == index);
    // A bare header that the rows give no place is not read by its letter either.
    for column in columns.iter().filter(|column| is_candidate(column.index)) {
        let is_lost = column.header.field.is_length() && !is_chosen(column.index);
        if is_lost {
            unread.push((column.index, column.printed.clone()));
        }
    }
    columns.retain(|column| {
        !is_candidate(column.index) || !column.header.field.is_length() && !is_chosen(column.index)
    });
    unread.retain(|(index, _)| !is_chosen(*index));
    for (one, field) in chosen().zip(fields) {
        if one.known.is_none() {
            columns.push(Column {
                index: one.index,
                printed: one.printed.clone(),
                header: Header {
                    field: *field,
                    how: How::Values { fitting, rows },
                    states: one.states,
                },
            });
        }
    }
    columns.sort_by_key(|column| column.index);
    unread.sort();
}

fn names<'c>(candidates: impl Iterator<Item = &'c Candidate>) -> String {
    let names = in_backticks(candidates.map(|one| &one.printed));
    names.join(", ")
}

#[cfg(test)]
mod tests {
    use crate::import::field::Field;
    use crate::import::find_table::only_table as table;
    use crate::import::table::Table;

    fn fields(table: &Table) -> Vec<(u32, Field)> {
        table
            .columns
            .iter()
            .filter(|column| column.header.field.is_length())
            .map(|column| (column.index, column.header.field))
            .collect()
    }

    #[test]
    fn columns_without_a_name_are_told_by_standard_sizes_in_any_order() {
        use Field::{Bore, OutsideDiameter, Width};
        // ISO 15: 6206 is 30 x 62 x 16 mm, 6305 is 25 x 62 x 17 mm, 6207 is 35 x 72 x 17 mm.
        let rows = [[30, 62, 16], [25, 62, 17], [35, 72, 17]];
        for (order, expected) in [
            ([0, 1, 2], [Bore, OutsideDiameter, Width]),
            ([1, 0, 2], [OutsideDiameter, Bore, Width]),
            ([2, 1, 0], [Width, OutsideDiameter, Bore]),
        ] {
            for header in ["A;B;C", "D;D;B", "Dim 1;Dim 2;Dim 3"] {
                let mut text = format!("Part no;Type;{header}\n");
                for (at, row) in rows.iter().enumerate() {
                    let [a, b, c] = order.map(|at| row[at]);
                    text.push_str(&format!("P{at};Deep groove ball bearing;{a};{b};{c}\n"));
                }
                let found = fields(&table(&text));
                let wanted: Vec<(u32, Field)> = (2..).zip(expected).collect();
                assert_eq!(found, wanted, "{header} {order:?}");
            }
        }
    }

    #[test]
    fn numbers_that_are_no_standard_sizes_decide_nothing() {
        // Net and list price look like a pair of diameters.
        let table = table(
            "Part no;Type;A;B;C\nP1;Deep groove ball bearing;31;63;17\nP2;Deep groove ball bearing;26;61;18\n",
        );
        assert_eq!(fields(&table), []);
        assert_eq!(table.unread, [(2, "A".to_owned()), (3, "B".to_owned())]);
    }

    #[test]
    fn named_columns_stay_and_help_the_others() {
        let table = table(
            "Part no;Type;Outside diameter;X;Y\nP1;Deep groove ball bearing;62;16;30\nP2;Deep groove ball bearing;72;17;35\n",
        );
        assert_eq!(
            fields(&table),
            [
                (2, Field::OutsideDiameter),
                (3, Field::Width),
                (4, Field::Bore)
            ]
        );
    }
}
