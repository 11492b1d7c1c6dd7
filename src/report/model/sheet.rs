//! A sheet: one table that answers one question.

use std::borrow::Cow;
use std::cmp::Reverse;
use std::collections::BTreeMap;

use super::chart::Chart;
use super::column::{Column, ColumnKind};
use super::value::Value;
use crate::language::Language;
use crate::units::Money;

/// Key of the column of marks in CSV and JSON.
pub const MARK_KEY: &str = "mark";
/// Header of the column of marks.
pub const MARK_HEADER: &str = "Mark";

/// Reasons for unknown values that are spelt out for one column.
const MAX_REASONS: usize = 5;

/// How much a row asks for, best case first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Emphasis {
    /// Nothing special.
    #[default]
    None,
    /// In order, worth seeing.
    Good,
    /// Look before you act.
    Attention,
    /// Do not go on before this is settled.
    Stop,
}

/// A row.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Row {
    /// One value for each column.
    pub cells: Vec<Value>,
    /// How much it asks for.
    pub emphasis: Emphasis,
}

/// One table with its heading, notes and charts.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sheet {
    /// Stable name in snake case; the CSV file is called after it.
    pub key: String,
    /// Name for people, at most 31 characters, unique in the report.
    pub title: String,
    /// The question the sheet answers, one line.
    pub question: String,
    /// Columns.
    pub columns: Vec<Column>,
    /// Rows.
    pub rows: Vec<Row>,
    /// Shows a column of marks first; must be set where a row has an [`Emphasis`].
    pub has_marks: bool,
    /// Notes and cautions, shown below the table.
    pub notes: Vec<String>,
    /// What to say if there are no rows.
    pub empty_text: String,
    /// Charts over the rows.
    pub charts: Vec<Chart>,
    /// Language of what is said about the rows.
    pub language: Language,
    /// Rows by key of their column whose value is only what is known of it.
    known_in_part: BTreeMap<String, usize>,
    /// Totals by place of their column where only the first rows are held; else they follow from the rows.
    totals_of_all: BTreeMap<usize, Total>,
    /// Rows that there are where only the first ones are held.
    all_rows: Option<usize>,
}

/// Sum over the known values of a column.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Total {
    /// Sum of what is known; units of the currency for money.
    pub sum: f64,
    /// Rows whose value is a number.
    pub known_rows: usize,
    /// Rows whose value is unknown and therefore not in the sum, or in it only as far as it is known.
    pub unknown_rows: usize,
}

impl Emphasis {
    /// A sign and a word, so that the mark can be read in grey and without colour.
    pub const fn mark(self) -> &'static str {
        match self {
            Self::None => "",
            Self::Good => "● good",
            Self::Attention => "▲ check",
            Self::Stop => "■ STOP",
        }
    }

    /// The word in CSV and JSON.
    pub const fn word(self) -> &'static str {
        match self {
            Self::None => "",
            Self::Good => "good",
            Self::Attention => "check",
            Self::Stop => "stop",
        }
    }
}

impl Row {
    /// Takes the cells of a row that asks for nothing special.
    pub const fn new(cells: Vec<Value>) -> Self {
        Self {
            cells,
            emphasis: Emphasis::None,
        }
    }

    /// The same row with an emphasis.
    #[must_use]
    pub fn with(self, emphasis: Emphasis) -> Self {
        Self { emphasis, ..self }
    }
}

impl From<Vec<Value>> for Row {
    fn from(cells: Vec<Value>) -> Self {
        Self::new(cells)
    }
}

impl Sheet {
    /// Names a sheet; columns and rows follow.
    pub fn new(
        key: impl Into<String>,
        title: impl Into<String>,
        question: impl Into<String>,
    ) -> Self {
        Self {
            key: key.into(),
            title: title.into(),
            question: question.into(),
            empty_text: "Nothing to list.".to_owned(),
            ..Self::default()
        }
    }

    /// The sheet with the columns that come on paper before those for the screen; the first names the row and stays first.
    pub fn printed_first(&self) -> Cow<'_, Self> {
        let mut order: Vec<usize> = (0..self.columns.len()).collect();
        order.sort_by_key(|at| *at > 0 && !self.columns[*at].is_printed);
        match order.is_sorted() {
            true => Cow::Borrowed(self),
            false => Cow::Owned(self.with_columns(&order)),
        }
    }

    /// The sheet with its columns, and the cells of its rows, in another order of their places.
    pub fn with_columns(&self, order: &[usize]) -> Self {
        let in_order = |row: &Row| Row {
            cells: order.iter().map(|at| row.cells[*at].clone()).collect(),
            emphasis: row.emphasis,
        };
        let totals = self.totals_of_all.iter();
        let place_of = |at: usize| order.iter().position(|of| *of == at);
        Self {
            columns: order.iter().map(|at| self.columns[*at].clone()).collect(),
            rows: self.rows.iter().map(in_order).collect(),
            totals_of_all: totals
                .filter_map(|(at, total)| Some((place_of(*at)?, *total)))
                .collect(),
            ..self.clone_without_rows()
        }
    }

    /// As [`first_rows`](Self::first_rows), whole where it has totals: where these are live, no row must be cut.
    pub fn shortened(&self, most: usize) -> Cow<'_, Self> {
        if self.has_totals() {
            return Cow::Borrowed(self);
        }
        self.first_rows(most)
    }

    /// The sheet with its first rows only, and a note where the others stand; its totals are those of all rows.
    pub fn first_rows(&self, most: usize) -> Cow<'_, Self> {
        match self.head_of_first(most) {
            None => Cow::Borrowed(self),
            Some(head) => Cow::Owned(Self {
                rows: self.rows[..most].to_vec(),
                ..head
            }),
        }
    }

    /// The same without copying a row: all but the rows; `None` where there are no more than `most`.
    pub fn head_of_first(&self, most: usize) -> Option<Self> {
        let more = self.rows.len().checked_sub(most).filter(|more| *more > 0)?;
        let mut head = Self {
            totals_of_all: self.totals(),
            all_rows: Some(self.row_count()),
            ..self.clone_without_rows()
        };
        let note = format!("{more} more rows stand in `{}.csv`.", self.key);
        head.notes.push(self.language.text(&note));
        Some(head)
    }

    /// Totals of the columns that have one, by place.
    fn totals(&self) -> BTreeMap<usize, Total> {
        let places = 0..self.columns.len();
        places
            .filter(|place| self.columns[*place].is_totalled)
            .map(|place| (place, self.total(place)))
            .collect()
    }

    fn clone_without_rows(&self) -> Self {
        Self {
            key: self.key.clone(),
            title: self.title.clone(),
            question: self.question.clone(),
            columns: self.columns.clone(),
            rows: Vec::new(),
            has_marks: self.has_marks,
            notes: self.notes.clone(),
            empty_text: self.empty_text.clone(),
            charts: self.charts.clone(),
            language: self.language,
            known_in_part: self.known_in_part.clone(),
            totals_of_all: self.totals_of_all.clone(),
            all_rows: self.all_rows,
        }
    }

    /// Rows, those included that are not held.
    pub fn row_count(&self) -> usize {
        self.all_rows.unwrap_or(self.rows.len())
    }

    /// Place of a column, counted from 0.
    pub fn column_at(&self, key: &str) -> Option<usize> {
        self.columns.iter().position(|column| column.key == key)
    }

    /// Says whether any column is summed up.
    pub fn has_totals(&self) -> bool {
        !self.rows.is_empty() && self.columns.iter().any(|column| column.is_totalled)
    }

    /// Sum over the known values of the column at `place`.
    pub fn total(&self, place: usize) -> Total {
        if let Some(total) = self.totals_of_all.get(&place) {
            return *total;
        }
        let cells = || self.rows.iter().filter_map(|row| row.cells.get(place));
        // Cents are summed whole, so that a long column stays exact.
        let cents: i64 = cells()
            .filter_map(|value| match value {
                Value::Money(money) => Some(money.cents),
                _ => None,
            })
            .sum();
        let others: f64 = cells()
            .filter(|value| !matches!(value, Value::Money(_)))
            .filter_map(Value::as_number)
            .sum();
        let column = self.columns.get(place);
        let in_part = column.and_then(|column| self.known_in_part.get(&column.key));
        let in_part = in_part.copied().unwrap_or(0);
        Total {
            sum: cents as f64 / 100.0 + others,
            known_rows: cells().filter(|value| value.as_number().is_some()).count(),
            unknown_rows: in_part
                + cells()
                    .filter(|value| matches!(value, Value::Unknown(_)))
                    .count(),
        }
    }

    /// Says that one more row states in a column no more than what is known.
    pub fn count_in_part(&mut self, key: impl Into<String>) {
        *self.known_in_part.entry(key.into()).or_default() += 1;
    }

    /// Sum over the known values of the column at `place`, as a value of its kind; unknown where every row is.
    pub fn total_value(&self, place: usize) -> Value {
        let total = self.total(place);
        if total.known_rows == 0 && total.unknown_rows > 0 {
            return Value::unknown(self.language.text("no row is known"));
        }
        let sum = total.sum;
        match self.columns.get(place).map(|column| column.kind) {
            Some(ColumnKind::Money(currency)) => Value::Money(Money::rounded(sum, currency)),
            Some(ColumnKind::Integer) => Value::Integer(sum.round() as i64),
            _ => Value::Number(sum),
        }
    }

    /// Name of the totals row; says how many rows are missing from the sums.
    pub fn total_label(&self) -> String {
        let missing = (0..self.columns.len())
            .filter(|&place| self.columns[place].is_totalled)
            .map(|place| self.total(place).unknown_rows)
            .max()
            .unwrap_or(0);
        self.language.text(&match missing {
            0 => "Total".to_owned(),
            1 => "Total of known (1 row unknown)".to_owned(),
            _ => format!("Total of known ({missing} rows unknown)"),
        })
    }

    /// Why values are unknown: a sentence for each column and reason, most frequent first, at most five a column.
    pub fn unknown_notes(&self) -> Vec<String> {
        self.unknown_notes_of(&self.rows)
    }

    /// The same of rows of the sheet that it does not hold itself.
    pub fn unknown_notes_of(&self, rows: &[Row]) -> Vec<String> {
        let mut notes = Vec::new();
        for (place, column) in self.columns.iter().enumerate() {
            // Reason to rows and first row, so that equal counts keep the order of the table.
            let mut reasons: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
            for (number, row) in rows.iter().enumerate() {
                if let Some(Value::Unknown(reason)) = row.cells.get(place) {
                    reasons.entry(reason).or_insert((0, number)).0 += 1;
                }
            }
            let mut reasons: Vec<(&str, (usize, usize))> = reasons.into_iter().collect();
            reasons.sort_by_key(|&(_, (rows, first))| (Reverse(rows), first));
            let header = &column.header;
            for (reason, (rows, _)) in reasons.iter().take(MAX_REASONS) {
                notes.push(self.language.text(&format!(
                    "{header} is unknown in {}: {reason}.",
                    rows_words(*rows)
                )));
            }
            let others: usize = reasons.iter().skip(MAX_REASONS).map(|(_, (n, _))| n).sum();
            if others > 0 {
                notes.push(self.language.text(&format!(
                    "{header} is unknown in {} for other reasons; the JSON report has them all.",
                    rows_words(others)
                )));
            }
        }
        notes
    }
}

/// A number of rows in words.
fn rows_words(rows: usize) -> String {
    match rows {
        1 => "1 row".to_owned(),
        _ => format!("{rows} rows"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Currency;

    fn sheet(values: Vec<Value>) -> Sheet {
        let mut sheet = Sheet::new("costs", "Costs", "What does it cost?");
        let kind = ColumnKind::Money(Currency::EUR);
        sheet.columns = vec![Column::new(kind, "cost_eur", "Cost").totalled()];
        sheet.rows = values.into_iter().map(|v| Row::new(vec![v])).collect();
        sheet
    }

    fn euros(cents: i64) -> Value {
        Value::Money(Money {
            cents,
            currency: Currency::EUR,
        })
    }

    #[test]
    fn columns_in_another_order_take_cells_and_totals_along() {
        let mut two = sheet(vec![euros(1010), euros(2020), euros(3030)]);
        two.columns.insert(0, Column::text("name", "Name"));
        for (row, name) in two.rows.iter_mut().zip(["a", "b", "c"]) {
            row.cells.insert(0, Value::text(name));
            row.emphasis = Emphasis::Stop;
        }
        // Cut first: the totals are those of all rows, by place.
        let short = two.first_rows(1).into_owned();
        for sheet in [&two, &short] {
            let turned = sheet.with_columns(&[1, 0]);
            assert_eq!(turned.columns[1].key, "name");
            assert_eq!(turned.rows.len(), sheet.rows.len());
            assert_eq!(turned.rows[0].cells, [euros(1010), Value::text("a")]);
            assert_eq!(turned.rows[0].emphasis, Emphasis::Stop);
            assert_eq!(turned.total_value(0), euros(6060));
            assert_eq!(turned.with_columns(&[1, 0]), *sheet);
        }
        // The first names the row; of the others those for the screen come last.
        two.columns.push(Column::text("why", "Why"));
        for row in &mut two.rows {
            row.cells.push(Value::text("why"));
        }
        assert_eq!(*two.printed_first(), two);
        two.columns[0].is_printed = false;
        two.columns[1].is_printed = false;
        let keys: Vec<String> = two
            .printed_first()
            .columns
            .iter()
            .map(|of| of.key.clone())
            .collect();
        assert_eq!(keys, ["name", "why", "cost_eur"]);
    }

    #[test]
    fn a_total_says_what_it_leaves_out() {
        let sheet = sheet(vec![euros(1010), Value::unknown("no price"), euros(2020)]);
        assert_eq!(sheet.total_value(0), euros(3030));
        assert_eq!(sheet.total_label(), "Total of known (1 row unknown)");
        assert_eq!(
            sheet.unknown_notes(),
            ["Cost is unknown in 1 row: no price."]
        );
    }

    #[test]
    fn a_total_of_nothing_known_is_unknown_and_not_zero() {
        let sheet = sheet(vec![Value::unknown("no price"), Value::unknown("no price")]);
        assert_eq!(sheet.total_value(0).as_number(), None);
        assert_eq!(sheet.total_label(), "Total of known (2 rows unknown)");
    }

    #[test]
    fn a_total_of_many_cents_stays_exact() {
        // 100,000 times 0.10 is 10,000.00; a running float sum would drift.
        let sheet = sheet(vec![euros(10); 100_000]);
        assert_eq!(sheet.total_value(0), euros(1_000_000));
        assert_eq!(sheet.total_label(), "Total");
    }

    #[test]
    fn a_long_sheet_says_where_its_other_rows_stand() {
        let mut long = Sheet::new("long", "Long", "What is there?");
        long.columns = vec![Column::text("name", "Name")];
        long.rows = vec![Row::new(vec![Value::text("x")]); 12];
        assert_eq!(long.shortened(12).rows.len(), 12);
        let short = long.shortened(10);
        assert_eq!(short.rows.len(), 10);
        assert_eq!(short.notes, ["2 more rows stand in `long.csv`."]);
        // Rows under a live total are never cut; where totals are printed, they stay those of all rows.
        let totalled = sheet(vec![euros(1); 12]);
        assert_eq!(totalled.shortened(10).rows.len(), 12);
        let short = totalled.first_rows(10);
        assert_eq!(short.rows.len(), 10);
        assert_eq!(short.total_value(0), euros(12));
        assert_eq!(short.notes, ["2 more rows stand in `costs.csv`."]);
    }

    #[test]
    fn marks_differ_in_sign_and_word() {
        let marks = [Emphasis::Good, Emphasis::Attention, Emphasis::Stop].map(Emphasis::mark);
        let signs: std::collections::BTreeSet<_> = marks
            .iter()
            .filter_map(|mark| mark.chars().next())
            .collect();
        assert_eq!(signs.len(), 3);
    }

    #[test]
    fn reasons_are_counted_and_a_flood_of_them_is_cut_short() {
        let mut values = vec![Value::unknown("no price"); 3];
        values.extend((0..10).map(|n| Value::unknown(format!("supplier {n} is closed"))));
        let notes = sheet(values).unknown_notes();
        assert_eq!(notes[0], "Cost is unknown in 3 rows: no price.");
        assert_eq!(notes[1], "Cost is unknown in 1 row: supplier 0 is closed.");
        assert_eq!(notes.len(), MAX_REASONS + 1);
        assert!(notes[MAX_REASONS].starts_with("Cost is unknown in 6 rows for other reasons"));
    }
}
