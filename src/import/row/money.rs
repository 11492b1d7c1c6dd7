//! Reads prices, currencies and money of one row.

use crate::import::cell::{Cell, number_text};
use crate::import::field::Field;
use crate::import::issue::{Problem, Severity};
use crate::import::value::{PriceError, ReadPrice, read_price};
use crate::units::{Currency, Money};

use super::context::ReadColumn;
use super::reader::RowReader;

impl RowReader<'_, '_> {
    /// The amount of money in a cell as written; `None` where the cell says nothing.
    pub(super) fn amount_of(
        &mut self,
        column: &ReadColumn,
    ) -> Option<Result<ReadPrice, PriceError>> {
        Some(match self.cell_of(column) {
            Cell::Empty | Cell::Error(_) | Cell::NoResult => return None,
            Cell::Number(amount) => Ok(ReadPrice {
                amount,
                currency: self.shown_currency(column),
                per: None,
                is_by_metre: false,
                is_bare_unit: false,
            }),
            Cell::Text(text) => read_price(text, column.decimal),
            other => Err(PriceError::NotAPrice {
                found: other.to_text(),
            }),
        })
    }

    /// The currency in which the file shows a cell of a number. Words of row, header or title hold against it, and the
    /// difference is told.
    fn shown_currency(&mut self, column: &ReadColumn) -> Option<Currency> {
        let shown = self.table.grid.shown(self.row, column.index).currency?;
        let said =
            self.row_currency()
                .or(column.states.currency)
                .or(self.table.title.states.currency);
        // A column of currencies that is not read leaves the amount without one, as it does for plain amounts.
        if said.is_none() && self.has_currency() {
            return None;
        }
        if let Some(said) = said.filter(|said| *said != shown) {
            let problem = Problem::CurrencyShown {
                shown: shown.code().to_owned(),
                said: said.code().to_owned(),
            };
            self.issue_at(
                Severity::Doubtful,
                Some(column.index),
                Some(column.field),
                problem,
            );
            return None;
        }
        Some(shown)
    }

    /// The price of a column as written, or an issue.
    pub fn price_of(&mut self, column: &ReadColumn) -> Option<ReadPrice> {
        let found = self.amount_of(column)?;
        match found {
            Ok(price) if price.amount > 0.0 => Some(price),
            Ok(price) => {
                let found = format!("`{}`", number_text(price.amount));
                let problem = Problem::OutOfRange {
                    found,
                    expected: "a price above 0",
                };
                self.issue_at(
                    Severity::Doubtful,
                    Some(column.index),
                    Some(column.field),
                    problem,
                );
                None
            }
            Err(PriceError::OnRequest) => {
                self.issue_at(
                    Severity::Note,
                    Some(column.index),
                    Some(column.field),
                    Problem::PriceOnRequest,
                );
                None
            }
            Err(error) => {
                self.issue_at(
                    Severity::Doubtful,
                    Some(column.index),
                    Some(column.field),
                    error.into(),
                );
                None
            }
        }
    }

    /// The currency of the row's own column, or an issue.
    pub fn row_currency(&mut self) -> Option<Currency> {
        let text = self.text_of(Field::Currency)?;
        self.word(Field::Currency, &text, "a currency such as `EUR`", |text| {
            crate::import::value::currency_of_sign(text).or_else(|| Currency::new(text).ok())
        })
    }

    /// True where the row's own column says something about the currency, readable or not.
    pub fn has_currency(&mut self) -> bool {
        self.cell(Field::Currency) != Cell::Empty
    }

    /// Money of 0 or more, or an issue.
    pub fn money(&mut self, field: Field) -> Option<Money> {
        let column = self.table.column(field)?;
        let found = self.amount_of(column)?;
        let price = match found {
            Ok(price) => price,
            Err(error) => {
                self.issue(Severity::Doubtful, Some(field), error.into());
                return None;
            }
        };
        let of_row = self.row_currency();
        if price.currency.is_none() && of_row.is_none() && self.has_currency() {
            return None;
        }
        let currency = price
            .currency
            .or(of_row)
            .or(column.states.currency)
            .or(self.table.title.states.currency)
            .unwrap_or(self.table.settings.currency);
        match Money::from_units(price.amount, currency) {
            Ok(money) => Some(money),
            Err(_) => {
                self.out_of_range(Severity::Doubtful, field, price.amount, "0 or more");
                None
            }
        }
    }
}
