//! Header rows as columns: one row or two, groups of columns, and whose numbers "ours" and "yours" are.

use std::collections::BTreeSet;

use super::cell::Cell;
use super::field::Field;
use super::grid::Grid;
use super::header::{Header, How, is_in_other_unit};
use super::options::{ColumnMap, MappedColumn};
use super::owner::Owner;
use super::shape::Shape;
use super::stated::Stated;
use super::synonyms::Synonyms;
use super::table::Column;

/// Least known fields in a header row.
pub const LEAST_FIELDS: usize = 2;

/// Least nearly known words, each of another field, that make a header where hardly a word is known outright. Common
/// practice, no source.
const LEAST_MISSPELT: usize = 3;
/// Rows in which such a header is looked for.
const ROWS_OF_MISSPELT: u32 = 40;

/// Meanings of columns that people gave for the file.
#[derive(Clone, Copy, Default)]
pub struct Given<'m> {
    /// The mappings.
    pub maps: &'m [&'m ColumnMap],
    /// Number of the table on its sheet, from 1.
    pub table: u32,
}

/// Headers read from one or two rows.
#[derive(Default)]
pub struct Headers {
    /// Columns that are read.
    pub columns: Vec<Column>,
    /// Columns with a header that are not read.
    pub unread: Vec<(u32, String)>,
    /// Headers with their columns, as printed.
    pub shape: Shape,
    /// Columns that a given mapping leaves out.
    pub left_out: Vec<u32>,
    /// What was settled, in words.
    pub why: Vec<String>,
    /// Filled cells.
    pub filled: usize,
    /// Cells that are known words.
    pub known: usize,
    /// True where every filled cell is text.
    pub is_of_words: bool,
}

/// Reads the header in a row, or in it and the one below.
pub fn read_headers(grid: &Grid, row: u32, below: Option<u32>, given: Given<'_>) -> Headers {
    let mut headers = Headers {
        is_of_words: true,
        ..Headers::default()
    };
    let mut open: Vec<(u32, String)> = Vec::new();
    for heading in headings(grid, row, below, &mut headers) {
        let (index, printed) = (heading.index, heading.printed.clone());
        match heading.read() {
            Some(header) => headers.add(Column {
                index,
                printed,
                header,
            }),
            None => open.push((index, printed)),
        }
    }
    headers.shape = headers.shape_with(&open);
    headers.take_given(given, &mut open);
    headers.known = headers.columns.len();
    headers.settle_owners();
    if headers.fields().len() < LEAST_FIELDS {
        headers.take_misspelt(row, &mut open);
    }
    let is_header = headers.fields().len() >= LEAST_FIELDS;
    for (index, printed) in open {
        // A misspelling never takes a field that another column names outright.
        let close = is_header.then(|| Header::read(&printed, true)).flatten();
        match close.filter(|header| !headers.fields().contains(&header.field)) {
            Some(header) => headers.add(Column {
                index,
                printed,
                header,
            }),
            None => headers.unread.push((index, printed)),
        }
    }
    headers.columns.sort_by_key(|column| column.index);
    headers.unread.sort();
    headers
}

/// What stands over one column, in one row or two.
struct Heading<'g> {
    index: u32,
    top: &'g str,
    bottom: String,
    printed: String,
    /// True where the upper text stands over other columns too.
    is_group: bool,
}

/// What stands over each column; counts the filled cells.
fn headings<'g>(
    grid: &'g Grid,
    row: u32,
    below: Option<u32>,
    headers: &mut Headers,
) -> Vec<Heading<'g>> {
    let width = grid
        .width(row)
        .max(below.map_or(0, |below| grid.width(below)));
    let mut found = Vec::with_capacity(width as usize);
    let mut group = "";
    for index in 0..width {
        let top = match grid.cell(row, index) {
            Cell::Text(text) => text,
            Cell::Empty => "",
            _ => {
                headers.filled += 1;
                headers.is_of_words = false;
                continue;
            }
        };
        let bottom = below.map_or(Cell::Empty, |below| grid.cell(below, index));
        let bottom = bottom.to_text();
        if !top.is_empty() {
            group = top;
        }
        // A merged heading fills its cells in workbooks; in text files it stands over the first column only.
        let top = if top.is_empty() && !bottom.is_empty() {
            group
        } else {
            top
        };
        if top.is_empty() && bottom.is_empty() {
            continue;
        }
        headers.filled += 1;
        let printed = match (top, bottom.as_str()) {
            (top, "") => top.to_owned(),
            ("", bottom) => bottom.to_owned(),
            (top, bottom) if top == bottom => top.to_owned(),
            (top, bottom) => format!("{top} {bottom}"),
        };
        let beside = |index: u32| matches!(grid.cell(row, index), Cell::Text(text) if text == top);
        let is_group = !top.is_empty()
            && (beside(index + 1)
                || index > 0 && beside(index - 1)
                || grid.cell(row, index) == Cell::Empty);
        found.push(Heading {
            index,
            top,
            bottom,
            printed,
            is_group,
        });
    }
    found
}

impl Heading<'_> {
    /// Reads it; a heading over a group of columns is not the field of each of them.
    fn read(&self) -> Option<Header> {
        let (top, bottom) = (self.top, self.bottom.as_str());
        if bottom.is_empty() || top == bottom {
            return Header::read(top, false);
        }
        let alone = Header::read(top, false);
        // `Express` over `Lead time` is a field of its own; `Dimensions` over `d` is what `d` says.
        let joined = Header::read(&self.printed, false).filter(|joined| {
            alone
                .as_ref()
                .is_none_or(|alone| alone.field != joined.field)
        });
        joined
            .or_else(|| {
                let mut header = Header::read(bottom, false)?;
                header.states.add(Stated::read(top));
                Some(header)
            })
            .or_else(|| {
                let states = Stated::read(bottom);
                let mut header = alone.filter(|_| !self.is_group || !states.is_empty())?;
                header.states.add(states);
                Some(header)
            })
    }
}

/// Fields of the day on which something is to be.
const DATES: [Field; 3] = [Field::Date, Field::DueDate, Field::Promised];

impl Headers {
    /// Fields of the columns that are read.
    pub fn fields(&self) -> BTreeSet<Field> {
        self.columns
            .iter()
            .map(|column| column.header.field)
            .collect()
    }

    /// The shape of the table with columns that are still open.
    fn shape_with(&self, open: &[(u32, String)]) -> Shape {
        let read = self.columns.iter();
        let others = self.unread.iter().chain(open);
        Shape::of(
            read.map(|column| (column.index, column.printed.as_str()))
                .chain(others.map(|(index, printed)| (*index, printed.as_str()))),
        )
    }

    /// Where hardly a word is known, nearly known ones make a header if most of the row is such words.
    fn take_misspelt(&mut self, row: u32, open: &mut Vec<(u32, String)>) {
        if row >= ROWS_OF_MISSPELT || !self.is_of_words || open.len() < LEAST_MISSPELT {
            return;
        }
        let read: Vec<(u32, String, Header)> = open
            .iter()
            .filter_map(|(index, printed)| {
                let header = Header::read(printed, true)?;
                Some((*index, printed.clone(), header))
            })
            .collect();
        let fields: BTreeSet<Field> = read.iter().map(|(_, _, header)| header.field).collect();
        if fields.len() < LEAST_MISSPELT || read.len() * 2 < self.filled {
            return;
        }
        for (index, printed, header) in read {
            open.retain(|(at, _)| *at != index);
            self.add(Column {
                index,
                printed,
                header,
            });
        }
        self.known = self.columns.len();
    }

    /// Takes a column; a second one of the same field is not read, except where several make sense.
    fn add(&mut self, column: Column) {
        let field = column.header.field;
        if field.is_length() && is_in_other_unit(&column.printed) {
            self.why.push(format!(
                "column `{}` states a unit of length that is not read, and was not read; expected mm, cm or inch",
                column.printed
            ));
            self.unread.push((column.index, column.printed));
            return;
        }
        let is_owned = field == Field::OwnNumber && Owner::of_header(&column.printed).is_some();
        let may_repeat = is_owned || matches!(field, Field::Alias | Field::PriceFrom | Field::Note);
        let earlier = self
            .columns
            .iter()
            .position(|other| other.header.field == field);
        if may_repeat || earlier.is_none() {
            self.columns.push(column);
        } else if let Some(at) = earlier.filter(|at| {
            // `Bestellnr.` is a part's number only where no column says so in plainer words.
            let is_of_orders = |printed: &str| Synonyms::shipped().is_order_number(printed);
            is_of_orders(&self.columns[*at].printed) && !is_of_orders(&column.printed)
        }) {
            let order = std::mem::replace(&mut self.columns[at], column);
            self.why.push(format!(
                "column `{}` holds numbers of orders and was not read",
                order.printed
            ));
            self.unread.push((order.index, order.printed));
        } else {
            self.why.push(format!(
                "column `{}` also holds the {field} and was not read",
                column.printed
            ));
            self.unread.push((column.index, column.printed));
        }
    }

    /// Gives columns the meanings that people gave them; another column of the same meaning is not read.
    fn take_given(&mut self, given: Given<'_>, open: &mut Vec<(u32, String)>) {
        if given.maps.is_empty() {
            return;
        }
        let shape = self.shape.clone();
        let mut all: Vec<(u32, String)> = self.unread.clone();
        all.extend(open.iter().cloned());
        all.extend(
            self.columns
                .iter()
                .map(|column| (column.index, column.printed.clone())),
        );
        let holding: Vec<&ColumnMap> = given
            .maps
            .iter()
            .copied()
            .filter(|map| map.holds_for(&shape) && map.holds_for_table(given.table))
            .collect();
        for map in &holding {
            let MappedColumn::Position(index) = map.column else {
                continue;
            };
            // A column without a header, in a row that is one by its other cells.
            let is_there = all.iter().any(|(at, _)| *at == index);
            if !is_there && self.fields().len() >= LEAST_FIELDS {
                all.push((index, String::new()));
            }
        }
        all.sort();
        all.dedup_by_key(|(index, _)| *index);
        for (index, printed) in all {
            let Some(map) = holding.iter().find(|map| map.means(index, &printed)) else {
                continue;
            };
            let states = self
                .columns
                .iter()
                .find(|column| column.index == index)
                .map_or_else(|| Stated::read(&printed), |column| column.header.states);
            open.retain(|(at, _)| *at != index);
            self.unread.retain(|(at, _)| *at != index);
            self.columns.retain(|column| column.index != index);
            match map.field {
                Some(field) => self.add_given(index, printed, field, states),
                None => {
                    self.left_out.push(index);
                    self.unread.push((index, printed));
                }
            }
        }
    }

    fn add_given(&mut self, index: u32, printed: String, field: Field, states: Stated) {
        let may_repeat = matches!(field, Field::Alias | Field::PriceFrom | Field::Note);
        let mut kept = Vec::with_capacity(self.columns.len() + 1);
        for column in std::mem::take(&mut self.columns) {
            if column.header.field == field && column.header.how != How::Given && !may_repeat {
                self.why.push(format!(
                    "column `{}` was not read: a given mapping names another for the {field}",
                    column.printed
                ));
                self.unread.push((column.index, column.printed));
            } else {
                kept.push(column);
            }
        }
        kept.push(Column {
            index,
            printed,
            header: Header {
                field,
                how: How::Given,
                states,
            },
        });
        self.columns = kept;
    }

    /// Where no column names the kit, that of the assembly does: a shop that calls its kits assemblies.
    pub fn settle_kit(&mut self) {
        let holds =
            |columns: &[Column], field| columns.iter().any(|column| column.header.field == field);
        let names_part =
            holds(&self.columns, Field::PartNumber) || holds(&self.columns, Field::OwnNumber);
        // A list of parts by assembly is no kit; one with lines, tasks or a date of its own is.
        let is_kit_like = [
            Field::Line,
            Field::Task,
            Field::NoSubstitutes,
            Field::Substitute,
        ]
        .into_iter()
        .any(|field| holds(&self.columns, field))
            || DATES.into_iter().any(|field| holds(&self.columns, field)) && !names_part;
        if !is_kit_like {
            return;
        }
        if !names_part {
            self.settle_planned_date();
        }
        if holds(&self.columns, Field::Kit) {
            return;
        }
        for column in &mut self.columns {
            if column.header.field == Field::Assembly && column.header.how != How::Given {
                column.header.field = Field::Kit;
                self.why.push(format!(
                    "column `{}` names the kit, since no other does",
                    column.printed
                ));
            }
        }
    }

    /// The date on which something is due is the date of a rebuild where only kits and dates are listed.
    fn settle_planned_date(&mut self) {
        let names_kit =
            |column: &Column| matches!(column.header.field, Field::Kit | Field::Assembly);
        if !self.columns.iter().any(names_kit) || self.fields().contains(&Field::Date) {
            return;
        }
        let due = self
            .columns
            .iter_mut()
            .find(|column| DATES.contains(&column.header.field) && column.header.how != How::Given);
        if let Some(column) = due {
            column.header.field = Field::Date;
        }
    }

    /// Where a list says both "our no." and "your no.", its writer's is the supplier's and the reader's the shop's.
    fn settle_owners(&mut self) {
        let has = |owner| {
            self.columns
                .iter()
                .any(|column| Owner::of_header(&column.printed) == Some(owner))
        };
        if !(has(Owner::Writer) && has(Owner::Reader)) {
            self.drop_second_own_number();
            return;
        }
        self.give_writers_numbers_to_supplier("the list also has one of the reader");
        self.drop_second_own_number();
    }

    /// What the writer of the list calls its own number is the supplier's.
    fn give_writers_numbers_to_supplier(&mut self, since: &str) {
        for column in &mut self.columns {
            if column.header.how != How::Given
                && column.header.field == Field::OwnNumber
                && Owner::of_header(&column.printed) == Some(Owner::Writer)
            {
                column.header.field = Field::SupplierNumber;
                self.why.push(format!(
                    "column `{}` is the supplier's number, since {since}",
                    column.printed
                ));
            }
        }
    }

    fn drop_second_own_number(&mut self) {
        let columns = std::mem::take(&mut self.columns);
        for column in columns {
            let field = column.header.field;
            let is_number = matches!(field, Field::OwnNumber | Field::SupplierNumber);
            if is_number && self.columns.iter().any(|other| other.header.field == field) {
                self.why.push(format!(
                    "column `{}` also holds the {field} and was not read",
                    column.printed
                ));
                self.unread.push((column.index, column.printed));
            } else {
                self.columns.push(column);
            }
        }
    }

    /// A supplier's own list, which needs no supplier column, calls its own number "our no.".
    pub fn settle_supplier_list(&mut self) {
        let fields = self.fields();
        if fields.contains(&Field::Supplier) || fields.contains(&Field::SupplierNumber) {
            return;
        }
        self.give_writers_numbers_to_supplier(
            "no column names a supplier: the list is the supplier's own",
        );
    }
}
