//! What a list of usages means by its signs and its kinds of movements: books write what is issued below 0, and what is
//! returned or received above it.

use std::collections::BTreeMap;

use crate::import::cell::Cell;
use crate::import::field::Field;
use crate::import::grid::Grid;
use crate::import::returned::names_returns;
use crate::import::table::Table;
use crate::import::value::movement_of;
use crate::record::{Movement, MovementCodes, TableKind};

use super::context::ReadColumn;
use super::counted::read_figure;

/// Least quantities below 0 that show the sign of books (common practice, no source).
const LEAST_ISSUES: usize = 3;
/// Largest share of what was issued that comes back; more of the other sign is something else, such as receipts. Common
/// practice, no source.
const MOST_RETURNED_SHARE: f64 = 0.2;
/// Codes of movements that are told one by one.
const MOST_CODES: usize = 40;

/// How the quantities of a list of usages are meant.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Signs {
    /// True where issues are written below 0.
    pub is_issued_below_zero: bool,
    /// True where every quantity is below 0 and no word says what it is.
    pub is_all_below: bool,
    /// True where what has the other sign than issues is neither used nor returned.
    pub leaves_out_others: bool,
    /// True where a column tells kinds of movements in words.
    pub tells_movements: bool,
    /// True where such a word says issues.
    pub tells_issues: bool,
    /// What the reader must know of the list, with row and column.
    pub told: Vec<(u32, u32, String)>,
}

/// How many quantities are below and above 0, and their sums without sign.
#[derive(Debug, Clone, Copy, Default)]
struct Tally {
    below: usize,
    above: usize,
    sum_below: f64,
    sum_above: f64,
    first_above: Option<u32>,
}

impl Tally {
    fn add(&mut self, row: u32, quantity: f64) {
        if quantity < 0.0 {
            self.below += 1;
            self.sum_below -= quantity;
        } else if quantity > 0.0 {
            self.above += 1;
            self.sum_above += quantity;
            self.first_above.get_or_insert(row);
        }
    }
}

/// Rows of a list by what their kind of movement says.
#[derive(Debug, Default)]
struct Rows {
    all: Tally,
    issues: Tally,
    movements: BTreeMap<Movement, usize>,
    /// Codes that are no words.
    codes: BTreeMap<String, OfCode>,
}

/// Rows of one code.
#[derive(Debug, Clone, Copy)]
struct OfCode {
    first: u32,
    rows: usize,
    below: usize,
    above: usize,
}

impl OfCode {
    /// How its rows are counted.
    fn counted(&self, signs: &Signs) -> String {
        let (used, back) = match signs.is_issued_below_zero {
            true => (self.below, self.above),
            false => (self.above, self.below),
        };
        let how = match (signs.tells_movements, signs.leaves_out_others && used == 0) {
            (true, _) => "rejected",
            (_, true) => "left out",
            _ if back == 0 => "counted as used by sign",
            _ if used == 0 => "counted as returned by sign",
            _ if signs.leaves_out_others => "counted as used or left out by sign",
            _ => "counted as used or returned by sign",
        };
        match self.rows {
            1 => format!("its row is {how}"),
            several => format!("its {several} rows are {how}"),
        }
    }
}

impl Signs {
    /// Looks through a list of usages; how it is taken is said in `why`.
    pub(super) fn of(
        grid: &Grid,
        table: &Table,
        columns: &[ReadColumn],
        codes: &MovementCodes,
        why: &mut Vec<String>,
    ) -> Self {
        let column = |field: Field| columns.iter().find(|column| column.field == field);
        let Some(of_quantity) = column(Field::Quantity).filter(|_| table.kind == TableKind::Usages)
        else {
            return Self::default();
        };
        let of_movement = column(Field::MovementKind);
        let of_day = column(Field::Date);
        let mut rows = Rows::default();
        for row in table.first_row..table.end_row {
            // A sum below the list has no day.
            if of_day.is_some_and(|column| grid.cell(row, column.index) == Cell::Empty) {
                continue;
            }
            let cell = grid.cell(row, of_quantity.index);
            let Ok((Some(quantity), _)) = read_figure(cell, of_quantity.decimal, true) else {
                continue;
            };
            let said = of_movement.map(|column| grid.cell(row, column.index).to_text());
            let said = said.as_deref().unwrap_or_default().trim();
            rows.add(row, quantity, said, movement_of(said, codes));
        }
        match of_movement {
            Some(column) if !rows.movements.is_empty() => {
                let mut signs = rows.by_words(table, column, why);
                signs.told = rows.uninterpreted(table, column, &signs);
                signs
            }
            _ => {
                let mut signs = rows.by_signs(grid, of_quantity, why);
                if let Some(column) = of_movement {
                    let codes = rows.uninterpreted(table, column, &signs);
                    signs.told.extend(codes);
                }
                signs
            }
        }
    }
}

impl Rows {
    fn add(&mut self, row: u32, quantity: f64, said: &str, movement: Option<Movement>) {
        self.all.add(row, quantity);
        if said.is_empty() {
            return;
        }
        match movement {
            Some(movement) => {
                *self.movements.entry(movement).or_default() += 1;
                if movement == Movement::Issue {
                    self.issues.add(row, quantity);
                }
            }
            None => {
                let code = self.codes.entry(said.to_owned()).or_insert(OfCode {
                    first: row,
                    rows: 0,
                    below: 0,
                    above: 0,
                });
                code.rows += 1;
                code.below += usize::from(quantity < 0.0);
                code.above += usize::from(quantity > 0.0);
            }
        }
    }

    /// Words say what each row is; signs only how issues are written.
    fn by_words(&self, table: &Table, column: &ReadColumn, why: &mut Vec<String>) -> Signs {
        let count = |movement| self.movements.get(&movement).copied().unwrap_or(0);
        why.push(format!(
            "by column `{}`: issues {}, returns {}; no usages and left out: receipts {}, transfers {}, counts {}, scrapped {}",
            printed(table, column),
            count(Movement::Issue),
            count(Movement::Return),
            count(Movement::Receipt),
            count(Movement::Transfer),
            count(Movement::Count),
            count(Movement::Scrap)
        ));
        Signs {
            is_issued_below_zero: self.issues.below > self.issues.above,
            tells_movements: true,
            tells_issues: count(Movement::Issue) > 0,
            ..Signs::default()
        }
    }

    /// Without words the sign that most quantities have is that of issues, if it is plain.
    fn by_signs(&self, grid: &Grid, column: &ReadColumn, why: &mut Vec<String>) -> Signs {
        let Tally { below, above, .. } = self.all;
        let most_below = below > above || below == above && self.are_codes_of_books();
        let is_of_books = below >= LEAST_ISSUES && most_below;
        if is_of_books && (names_returns(&grid.sheet) || names_returns(&grid.file)) {
            why.push(format!(
                "the name of this list says returns: all {below} quantities below 0 count as returned"
            ));
            return Signs::default();
        }
        let of_books = Signs {
            is_issued_below_zero: true,
            ..Signs::default()
        };
        match (is_of_books, self.all.first_above) {
            (true, None) => {
                why.push(format!(
                    "every quantity is below 0, as books write what is issued: all {below} are taken as used"
                ));
                Signs {
                    is_all_below: true,
                    ..of_books
                }
            }
            (true, Some(first)) => {
                let comes_back = self.all.sum_above <= MOST_RETURNED_SHARE * self.all.sum_below;
                let words = format!(
                    "{below} of {} quantities are below 0, as books write what is issued, and are taken as used; ",
                    below + above
                );
                let others = if comes_back {
                    "those above 0 count as returned; expected issues above 0 and returns below"
                } else {
                    "those above 0 are more than comes back, perhaps receipts, and are left out; expected a list of issues and returns alone"
                };
                Signs {
                    leaves_out_others: !comes_back,
                    told: vec![(first, column.index, words + others)],
                    ..of_books
                }
            }
            (false, _) => {
                if below > 0 && 2 * below > above && above > 0 {
                    why.push(format!(
                        "{below} of {} quantities are below 0 and count as returned; expected issues above 0 and returns below",
                        below + above
                    ));
                }
                Signs::default()
            }
        }
    }

    /// True where each code has one sign and more is below 0 than comes back of what is above it: a book of what is issued and
    /// received, as many rows of the one as of the other.
    fn are_codes_of_books(&self) -> bool {
        let of_one_sign = |of: &OfCode| of.below == 0 || of.above == 0;
        !self.codes.is_empty()
            && self.codes.values().all(of_one_sign)
            && self.all.sum_below > MOST_RETURNED_SHARE * self.all.sum_above
    }

    /// Codes that neither words nor settings explain, each once: beside others that are explained their rows are rejected,
    /// else they count by their sign or are left out by it.
    fn uninterpreted(
        &self,
        table: &Table,
        column: &ReadColumn,
        signs: &Signs,
    ) -> Vec<(u32, u32, String)> {
        let printed = printed(table, column);
        let told = self.codes.iter().take(MOST_CODES);
        let told = told.map(|(code, of)| {
            let words = format!(
                "`{code}` in column `{printed}` is not interpreted, and {}; expected a word such as issue, return, receipt, transfer, scrap or count, or its meaning under `movement_codes` in the settings",
                of.counted(signs)
            );
            (of.first, column.index, words)
        });
        let mut told: Vec<_> = told.collect();
        if let Some(of) = self.codes.values().nth(MOST_CODES) {
            let more = self.codes.len() - MOST_CODES;
            let words = format!("{more} more codes in column `{printed}` are not interpreted");
            told.push((of.first, column.index, words));
        }
        told
    }
}

/// The header of a column as printed.
fn printed<'t>(table: &'t Table, column: &ReadColumn) -> &'t str {
    let mut columns = table.columns.iter();
    let found = columns.find(|other| other.index == column.index);
    found.map_or("", |column| column.printed.as_str())
}
