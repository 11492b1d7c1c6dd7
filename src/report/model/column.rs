//! A column of a sheet: its key for machines, its header for people, and what kind of value it holds.

use std::borrow::Cow;

use super::formula::RowFormula;
use super::value::Value;
use crate::language::Language;
use crate::units::Currency;

/// What a column holds and in which unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ColumnKind {
    /// Words.
    Text,
    /// Whole numbers without a unit.
    Integer,
    /// A count in the unit named in the row or the header.
    Quantity,
    /// Amounts in one currency.
    Money(Currency),
    /// Prices for one unit of count, which may be fractions of a cent.
    UnitPrice(Currency),
    /// Hours.
    Hours,
    /// Calendar days.
    Days,
    /// Working days.
    Workdays,
    /// A share of 0 to 1, shown in percent.
    Share,
    /// Lengths in millimetres.
    LengthMm,
    /// Calendar days by date.
    Date,
    /// Moments, local time.
    Moment,
    /// Yes or no.
    Flag,
}

/// A column.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Name in CSV and JSON: snake case, ends in the unit (`cost_eur`, `wait_days`, `bore_mm`).
    pub key: String,
    /// Name for people, without the unit; see [`Column::label`].
    pub header: String,
    /// What it holds.
    pub kind: ColumnKind,
    /// Width in characters; `None` fits the content.
    pub width: Option<u16>,
    /// Wraps long text instead of widening the column.
    pub wraps: bool,
    /// How to read the column, one sentence.
    pub help: Option<String>,
    /// Computed live from other columns of the same row where all of them are known.
    pub formula: Option<RowFormula>,
    /// Summed up in a totals row.
    pub is_totalled: bool,
    /// Comes on paper, where there is room; the others are for the screen.
    pub is_printed: bool,
    /// Language of its unit and values.
    pub language: Language,
}

impl ColumnKind {
    /// The unit as printed after a figure or in a header.
    pub fn unit(&self) -> Option<&str> {
        match self {
            Self::Money(currency) | Self::UnitPrice(currency) => Some(currency.code()),
            Self::Hours => Some("h"),
            Self::Days => Some("days"),
            Self::Workdays => Some("workdays"),
            Self::LengthMm => Some("mm"),
            // A share shows its percent sign in every cell.
            Self::Share => None,
            Self::Text
            | Self::Integer
            | Self::Quantity
            | Self::Date
            | Self::Moment
            | Self::Flag => None,
        }
    }

    /// The ending that the key of such a column must have.
    pub fn key_ending(&self) -> Option<String> {
        match self {
            Self::Money(currency) | Self::UnitPrice(currency) => {
                Some(format!("_{}", currency.code().to_ascii_lowercase()))
            }
            Self::Hours => Some("_h".to_owned()),
            Self::Days => Some("_days".to_owned()),
            Self::Workdays => Some("_workdays".to_owned()),
            Self::Share => Some("_share".to_owned()),
            Self::LengthMm => Some("_mm".to_owned()),
            Self::Text
            | Self::Integer
            | Self::Quantity
            | Self::Date
            | Self::Moment
            | Self::Flag => None,
        }
    }

    /// The name used in the JSON report.
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Text => "text",
            Self::Integer => "integer",
            Self::Quantity => "quantity",
            Self::Money(_) => "money",
            Self::UnitPrice(_) => "unit_price",
            Self::Hours => "hours",
            Self::Days => "days",
            Self::Workdays => "workdays",
            Self::Share => "share",
            Self::LengthMm => "length_mm",
            Self::Date => "date",
            Self::Moment => "moment",
            Self::Flag => "flag",
        }
    }

    /// Says whether the column holds numbers, which are set flush right.
    pub const fn is_number(&self) -> bool {
        !matches!(self, Self::Text | Self::Date | Self::Moment | Self::Flag)
    }

    /// Says whether a sum over the column means something.
    pub const fn can_be_totalled(&self) -> bool {
        matches!(
            self,
            Self::Integer | Self::Quantity | Self::Money(_) | Self::Hours
        )
    }

    /// Says whether `value` belongs into such a column; unknown and empty fit everywhere.
    pub fn holds(&self, value: &Value) -> bool {
        match (self, value) {
            (_, Value::Empty | Value::Unknown(_)) => true,
            (Self::Text, Value::Text(_))
            | (Self::Integer, Value::Integer(_))
            | (Self::Date, Value::Date(_))
            | (Self::Moment, Value::Moment(_))
            | (Self::Flag, Value::Flag(_)) => true,
            (
                Self::Quantity
                | Self::Hours
                | Self::Days
                | Self::Workdays
                | Self::Share
                | Self::LengthMm,
                Value::Number(_) | Value::Integer(_),
            ) => true,
            (Self::Money(currency), Value::Money(money)) => *currency == money.currency,
            // Where each row names its unit, that may be a currency.
            (Self::Quantity, Value::Money(_)) => true,
            (Self::UnitPrice(currency), Value::Price(price)) => *currency == price.currency,
            _ => false,
        }
    }
}

impl Column {
    /// Names a column of the given kind that fits its content, holds no formula and is not totalled.
    pub fn new(kind: ColumnKind, key: impl Into<String>, header: impl Into<String>) -> Self {
        Self {
            key: key.into(),
            header: header.into(),
            kind,
            width: None,
            wraps: false,
            help: None,
            formula: None,
            is_totalled: false,
            is_printed: true,
            language: Language::ENGLISH,
        }
    }

    /// Names a column of words.
    pub fn text(key: impl Into<String>, header: impl Into<String>) -> Self {
        Self::new(ColumnKind::Text, key, header)
    }

    /// Wraps long text at `width` characters.
    #[must_use]
    pub fn wrapped(self, width: u16) -> Self {
        Self {
            width: Some(width),
            wraps: true,
            ..self
        }
    }

    /// Adds a sentence on how to read the column.
    #[must_use]
    pub fn with_help(self, help: impl Into<String>) -> Self {
        Self {
            help: Some(help.into()),
            ..self
        }
    }

    /// Keeps the column off paper.
    #[must_use]
    pub fn on_screen(self) -> Self {
        Self {
            is_printed: false,
            ..self
        }
    }

    /// Computes the column live from others of the row.
    #[must_use]
    pub fn with_formula(self, formula: RowFormula) -> Self {
        Self {
            formula: Some(formula),
            ..self
        }
    }

    /// Sums the column up in a totals row.
    #[must_use]
    pub fn totalled(self) -> Self {
        Self {
            is_totalled: true,
            ..self
        }
    }

    /// The header with the unit: `Cost (EUR)`.
    pub fn label(&self) -> String {
        match self.kind.unit() {
            Some(unit) => format!("{} ({})", self.header, self.language.text(unit)),
            None => self.header.clone(),
        }
    }
}

impl Column {
    /// A value of the column in words, without its unit.
    pub fn words<'v>(&self, value: &'v Value) -> Cow<'v, str> {
        value.in_language(self.kind, self.language)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Money;

    #[test]
    fn the_unit_stands_in_the_header_and_the_key() {
        let cost = Column::new(ColumnKind::Money(Currency::EUR), "cost_eur", "Cost");
        assert_eq!(cost.label(), "Cost (EUR)");
        assert_eq!(cost.kind.key_ending().as_deref(), Some("_eur"));
        assert_eq!(Column::text("part", "Part").label(), "Part");
    }

    #[test]
    fn a_column_takes_only_its_own_kind_of_value() {
        let usd = Currency::new("USD").unwrap();
        let dollars = Value::Money(Money {
            cents: 1,
            currency: usd,
        });
        assert!(ColumnKind::Money(usd).holds(&dollars));
        assert!(!ColumnKind::Money(Currency::EUR).holds(&dollars));
        assert!(!ColumnKind::Text.holds(&Value::Integer(1)));
        assert!(ColumnKind::Hours.holds(&Value::Integer(1)));
        // A column whose rows name their units may hold amounts, but no share, hour or length is one.
        assert!(ColumnKind::Quantity.holds(&dollars));
        for kind in [
            ColumnKind::Hours,
            ColumnKind::Share,
            ColumnKind::Integer,
            ColumnKind::LengthMm,
        ] {
            assert!(!kind.holds(&dollars), "{kind:?}");
        }
        for kind in [ColumnKind::Date, ColumnKind::Share, ColumnKind::Text] {
            assert!(kind.holds(&Value::Empty) && kind.holds(&Value::unknown("no")));
        }
    }
}
